"""work.scene: whether a scene fits a card's memory, from its counts, and what to make smaller first."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.answer import (
    COMMON_PRACTICE,
    DEPENDS,
    FROM_MEMORY,
    NO,
    YES,
    Answer,
    Column,
    Figure,
    Note,
    Source,
    Table,
    Verdict,
    Working,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.charts import Bar, bars
from calculators.desk.errors import InputErrors, Problem
from calculators.desk.inputs import YES_NO, Number, Values, YesNo
from calculators.desk.numbers import number, settled, significant, span
from calculators.desk.svg import Drawing
from calculators.work.formulas.scene_memory import (
    frame_gb,
    full_from_two_peaks_gb,
    geometry_gb,
    room_gb,
    textures_gb,
)
from calculators.work.wording.cautions import HEAT, POWER
from calculators.work.wording.typed_inputs import Edge, Millions

CALM_PERCENT, FULL_PERCENT = 85, 100

SOURCES = (
    Source("Sums of textures, triangles and layers", "arithmetic"),
    Source("IEC 80000-13", "1 GiB = 2³⁰ bytes", FROM_MEMORY),
    Source("Bytes a triangle; that 85 % of what is left should do", "", COMMON_PRACTICE),
)


@dataclass(frozen=True, slots=True)
class Scene:
    """
    A scene worked out, in GB of 10⁹ bytes; room and shares are None where no card was given.

    peak_gib, left_gib: what two renders foretell, None without them, and what the card has left, in units of 2³⁰.
    """

    textures: float
    geometry_low: float
    geometry_high: float
    frame: float
    room: float | None
    peak_gib: float | None
    left_gib: float | None

    @property
    def low(self) -> float:
        """The sum with the least that triangles take. [GB]"""
        return self.textures + self.geometry_low + self.frame

    @property
    def high(self) -> float:
        """The sum with the most that triangles take. [GB]"""
        return self.textures + self.geometry_high + self.frame

    @property
    def shares(self) -> tuple[float, float] | None:
        """The least and the most share of the room that the sums take, settled so that no last bit decides. [%]"""
        if self.room is None:
            return None
        return settled(100 * self.low / self.room), settled(100 * self.high / self.room)

    @property
    def measured(self) -> float | None:
        """The share of the card's rest that two renders foretell; None without them or without a card. [%]"""
        if self.peak_gib is None or self.left_gib is None:
            return None
        return settled(100 * self.peak_gib / self.left_gib)

    def over(self) -> float:
        """How much must go for the most to be calm; 0 where nothing must. [GB]"""
        return 0.0 if self.room is None else max(settled(self.high - self.room * CALM_PERCENT / 100), 0.0)


def work_out(given: Values) -> Scene:
    """Everything that the answer words."""
    problems = []
    low, high = given["triangle_bytes_low"], given["triangle_bytes_high"]
    if low > high:
        problems.append(
            Problem("triangle_bytes_low",
                    f"The least bytes a triangle, {number(low)}, must not be above the most, {number(high)}.")
        )  # fmt: skip
    card, taken = given.get("card_gb"), given["taken_gb"]
    if card is not None and taken >= card:
        problems.append(
            Problem("taken_gb",
                    f"What is taken already, {number(taken)} GB, leaves nothing of a card of {number(card)} GB: give "
                    "less than the card has.")
        )  # fmt: skip
    half, quarter = given.get("half_peak_gb"), given.get("quarter_peak_gb")
    if (half is None) != (quarter is None):
        missing = "half_peak_gb" if half is None else "quarter_peak_gb"
        problems.append(Problem(missing, "Both peaks are needed, or neither: two renders tell what textures take."))
    elif half is not None and quarter is not None and quarter > half:
        problems.append(
            Problem("quarter_peak_gb",
                    f"The peak with smaller textures, {significant(quarter)} GB, must not be above the other, "
                    f"{significant(half)} GB.")
        )  # fmt: skip
    if problems:
        raise InputErrors(problems)
    return Scene(
        _textures(given, given["texture_px"]),
        geometry_gb(given["triangles_m"], low),
        geometry_gb(given["triangles_m"], high),
        frame_gb(given["frame_width"], given["frame_height"], given["passes"], given["pass_bytes"]),
        None if card is None else room_gb(card, taken),
        None if half is None or quarter is None else full_from_two_peaks_gb(half, quarter),
        None if card is None else card - taken,
    )


def _textures(given: Values, edge_px: int) -> float:
    mipmaps = given["mipmaps"] == "yes"
    return textures_gb(given["textures"], edge_px, given["texture_bytes"], mipmaps, given["packing"])


def compute(given: Values) -> Answer:
    """One scene against one card."""
    scene = work_out(given)
    return Answer(
        headline=_headline(scene),
        verdict=_verdict(scene),
        figures=_figures(scene),
        working=_working(given, scene),
        tables=(_smaller(given, scene),),
        drawings=(_drawing(scene),),
        notes=_notes(scene),
        # without a card nothing is said of a card, so that a larger one is not warned of as if it were the answer
        cautions=() if scene.room is None else (POWER, HEAT),
        sources=SOURCES,
    )


def _gb(low: float, high: float | None = None) -> str:
    first = significant(low, 3)
    last = first if high is None else significant(high, 3)
    return f"{first} GB" if first == last else f"{first} to {last} GB"


def _headline(scene: Scene) -> str:
    if scene.peak_gib is not None:
        opening = f"Your two renders foretell a peak of about {_gb(scene.peak_gib)}"
        if scene.left_gib is None:
            return f"{opening}; by the counts the scene takes {_gb(scene.low, scene.high)}."
        if scene.measured is not None and scene.measured > FULL_PERCENT:
            return f"{opening}; the card has {_gb(scene.left_gib)} left, as programs count."
        return f"{opening} of the {_gb(scene.left_gib)} that the card has left, as programs count."
    if scene.room is None:
        return f"The scene takes about {_gb(scene.low, scene.high)} of a card's memory."
    if scene.shares is not None and scene.shares[1] > FULL_PERCENT:
        return f"The scene takes about {_gb(scene.low, scene.high)}; the card has {_gb(scene.room)} left."
    return f"The scene takes about {_gb(scene.low, scene.high)} of the {_gb(scene.room)} that the card has left."


def _verdict(scene: Scene) -> Verdict | None:
    if scene.shares is None:
        return None
    if scene.measured is not None:
        return _measured_verdict(scene.measured)
    low, high = scene.shares
    if high <= CALM_PERCENT:
        return Verdict(YES, "Even at the most it stays below 85 % of what is left.", "It fits.")
    if low > FULL_PERCENT:
        return Verdict(NO, "Even at the least it is more than what is left.", "It does not fit.")
    if high > FULL_PERCENT:
        return Verdict(DEPENDS, "At the most it is more than what is left.", "Perhaps.")
    return Verdict(DEPENDS, "At the most it takes above 85 %, and not everything is counted here.", "Tight.")


def _measured_verdict(share: float) -> Verdict:
    """By the same limits as what is counted: what was measured counts more."""
    if share <= CALM_PERCENT:
        return Verdict(YES, "By your two renders it stays below 85 % of what is left.", "It fits.")
    if share > FULL_PERCENT:
        return Verdict(NO, "By your two renders it needs more than what is left.", "It does not fit.")
    return Verdict(DEPENDS, "By your two renders it takes above 85 % of what is left.", "Tight.")


def _figures(scene: Scene) -> tuple[Figure, ...]:
    rows = [
        figure("low_gb", "The scene, at least", scene.low, "GB", 3, main=scene.measured is None),
        figure("high_gb", "The scene, at most", scene.high, "GB", 3, main=scene.measured is None),
    ]
    if scene.room is not None and scene.shares is not None:
        rows += [
            figure("room_gb", "Left on the card", scene.room, "GB", 3, main=scene.measured is None),
            figure("share_low_percent", "Share of it, at least", scene.shares[0], "%", 1),
            figure("share_high_percent", "Share of it, at most", scene.shares[1], "%", 1, main=scene.measured is None),
        ]
        if scene.measured is None:
            rows.append(figure("over_gb", "Too much for a calm 85 %", scene.over(), "GB", 3))
    rows += [
        figure("textures_gb", "Textures", scene.textures, "GB", 3),
        figure("geometry_low_gb", "Triangles, at least", scene.geometry_low, "GB", 3),
        figure("geometry_high_gb", "Triangles, at most", scene.geometry_high, "GB", 3),
        figure("frame_gb", "The picture and its layers", scene.frame, "GB", 3),
    ]
    measured = []
    if scene.peak_gib is not None:
        label = "From your two renders, with full textures"
        measured.append(figure("peak_full_gb", label, scene.peak_gib, "GB", 2, main=scene.measured is not None))
    if scene.measured is not None:
        measured.append(figure("peak_percent", "That is, of what the card has left", scene.measured, "%", 1, main=True))
    return (*measured, *rows)


def _working(given: Values, scene: Scene) -> tuple[Working, ...]:
    low, high = number(given["triangle_bytes_low"]), number(given["triangle_bytes_high"])
    third = " × 4/3" if given["mipmaps"] == "yes" else ""
    millions, edge = number(given["triangles_m"], 3), given["texture_px"]
    lines = [
        Working(
            "Textures", "count × edge² × bytes (× 4/3 with mipmaps) ÷ packing ÷ 10⁹",
            f"{given['textures']} × {edge}² × {number(given['texture_bytes'])}{third} ÷ {number(given['packing'])} "
            "÷ 10⁹",
            f"{number(scene.textures, 3)} GB",
        ),
        Working("Triangles", "millions × bytes ÷ 1000", f"{millions} × ({low} to {high}) ÷ 1000",
                span(scene.geometry_low, scene.geometry_high, "GB", 3)),
        Working("The picture", "width × height × layers × bytes ÷ 10⁹",
                f"{given['frame_width']} × {given['frame_height']} × {given['passes']} × {number(given['pass_bytes'])} "
                "÷ 10⁹", f"{number(scene.frame, 3)} GB"),
        Working("The scene", "textures + triangles + picture",
                f"{number(scene.textures, 3)} + ({span(scene.geometry_low, scene.geometry_high, '', 3)}) + "
                f"{number(scene.frame, 3)}", span(scene.low, scene.high, "GB", 3)),
    ]  # fmt: skip
    if scene.room is not None and scene.shares is not None:
        lines += [
            Working("Left on the card", "(card − taken) × 1.073741824",
                    f"({number(given['card_gb'])} − {number(given['taken_gb'])}) × 1.073741824",
                    f"{number(scene.room, 3)} GB"),
            Working("Share", "100 × scene ÷ left",
                    f"100 × ({span(scene.low, scene.high, '', 3)}) ÷ {number(scene.room, 3)}",
                    span(*scene.shares, "%", 1)),
        ]  # fmt: skip
    if scene.peak_gib is not None:
        half, quarter = number(given["half_peak_gb"], 3), number(given["quarter_peak_gb"], 3)
        put, peak = f"{half} + 4 × ({half} − {quarter})", f"{number(scene.peak_gib, 2)} GB"
        lines.append(Working("From your two renders", "half + 4 × (half − quarter)", put, peak))
    return tuple(lines)


def _savings(given: Values, scene: Scene) -> list[tuple[str, float]]:
    """What frees memory, most first: (what is done, what it frees at the most) [GB]."""
    ways = [
        ("Textures of half the edge", scene.textures * 3 / 4),
        ("Half the triangles", scene.geometry_high / 2),
        ("Half the layers", scene.frame / 2),
    ]
    if given["packing"] == 1:
        ways.append(("Textures packed 4 times smaller", scene.textures * 3 / 4))
    return sorted(((what, settled(freed)) for what, freed in ways), key=lambda way: -way[1])


def _smaller(given: Values, scene: Scene) -> Table:
    over, judged = scene.over(), scene.room is not None and scene.measured is None
    rows = []
    for what, freed in _savings(given, scene):
        left = settled(scene.high - freed)
        enough = "yes" if freed >= over else "no"
        rows.append((what, significant(freed, 3), significant(left, 3), enough)[: 4 if judged else 3])
    columns = [Column("What you make smaller"), Column("Frees, GB", True), Column("Leaves, GB", True)]
    if judged:
        columns.append(Column("Enough?"))
    note = (
        "By your counts. Whether it is enough, your two renders tell better." if scene.measured is not None else
        f"To come down to a calm 85 %, {_gb(over)} must go." if over else
        "Nothing must go." if scene.room is not None else "Give the card's memory, and this says what is enough."
    )  # fmt: skip
    return Table(title="What to make smaller first", columns=tuple(columns), rows=tuple(rows), note=note)


def _drawing(scene: Scene) -> Drawing:
    if scene.peak_gib is not None and scene.left_gib is not None:
        return _measured_drawing(scene.peak_gib, scene.left_gib)

    def bar(label: str, low: float, high: float, mark: bool = False) -> Bar:
        return Bar(label, high, _gb(low, high), mark=mark)

    rows = [
        bar("Textures", scene.textures, scene.textures),
        bar("Triangles", scene.geometry_low, scene.geometry_high),
        bar("Picture and layers", scene.frame, scene.frame),
        bar("The scene", scene.low, scene.high, mark=True),
    ]
    if scene.room is not None:
        calm = scene.room * CALM_PERCENT / 100
        rows.append(Bar(f"A calm {CALM_PERCENT} % of what is left", calm, _gb(calm), fill="fill-1"))
        rows.append(Bar("Left on the card", scene.room, _gb(scene.room), fill="fill-1"))
    description = "; ".join(f"{row.label} {row.text}" for row in rows)
    return bars("What fills the card's memory", f"Bars: {description}.", rows, caption="Bars show the most.")


def _measured_drawing(peak: float, left: float) -> Drawing:
    calm = left * CALM_PERCENT / 100
    rows = [
        Bar("The scene, from your two renders", peak, _gb(peak), mark=True),
        Bar(f"A calm {CALM_PERCENT} % of what is left", calm, _gb(calm), fill="fill-1"),
        Bar("Left on the card", left, _gb(left), fill="fill-1"),
    ]
    description = "; ".join(f"{row.label} {row.text}" for row in rows)
    caption = "As programs and cards count: 1 GB is 2³⁰ bytes."
    return bars("What fills the card's memory", f"Bars: {description}.", rows, caption=caption)


def _notes(scene: Scene) -> tuple[Note, ...]:
    notes = [
        Note(
            "What is not counted",
            "Ray structures, unless your bytes a triangle hold them; subdivision at render time, which multiplies "
            "triangles by four at each step; smoke and other volumes; a denoiser, which takes a copy of the picture "
            "and more. So leave room.",
        ),
        Note(
            "Without counts: two small renders",
            "Set the textures to half the edge, render, and read the card's peak memory. Again with a quarter of the "
            "edge. The full scene takes the first peak and four times the difference of the two. What you measured "
            "counts more than what is counted here, so with a card the verdict goes by it. If the program's peak holds "
            "the desktop's share too, put 0 for what is taken.",
        ),
        Note(
            "The file's size says nothing",
            "Textures lie packed on the disk and unpacked on the card; one object used a thousand times is stored "
            "once; and subdivision makes triangles that no file holds.",
        ),
        Note(
            "Two cards rarely add up",
            "Each card holds the whole scene, so that two of 12 GB render what fits 12. Only where program and cards "
            "share memory over a link of their own does it add, and then only in part.",
        ),
        Note(
            "GB and GiB",
            "A card's 12 GB are 12 × 2³⁰ bytes, a little more than twelve thousand million. Both are counted here in "
            "thousand millions.",
        ),
    ]
    if scene.measured > CALM_PERCENT if scene.measured is not None else scene.over() > 0:
        notes.insert(
            0,
            Note(
                "If it does not fit",
                "Some programs then use the computer's memory over the link, and become several times slower; others "
                "stop. Rendering on the processor always has the whole memory.",
            ),
        )
    return tuple(notes)


def _worked_for(given: Values) -> str:
    card = "" if given.get("card_gb") is None else f", a card of {number(given['card_gb'])} GB"
    if given.get("half_peak_gb") is not None:
        peaks = f"{number(given['half_peak_gb'], 2)} and {number(given['quarter_peak_gb'], 2)} GB"
        return f"two renders that peak at {peaks}{card}"
    return (
        f"{given['textures']} textures of {given['texture_px']} px, {number(given['triangles_m'], 3)} million "
        f"triangles{card}"
    )


_PX = {"pixels": 1, "pixel": 1, "p": 1}
_MEMORY = {"GiB": 1, "gigabytes": 1, "MB": 1 / 1024, "MiB": 1 / 1024}
_BYTES = {"bytes": 1, "B": 1}

calculator = Calculator(
    name="work.scene",
    version=3,
    title="Will the scene fit my card's memory?",
    summary="Memory that a scene's textures, triangles and layers take on the card, and what to make smaller first.",
    inputs=(
        Number(
            key="textures", label="Textures", group="Textures", low=0, high=100_000, default=60, whole=True,
            where="The 3D program's statistics or its list of images; count each image once.", names=("images", "maps"),
        ),
        Edge(
            key="texture_px", label="Edge of a texture", group="Textures", low=16, high=32_768, unit="px", default=4096,
            whole=True, where="The image's size; for mixed ones the one that most have.", also=_PX,
            names=("texture size", "texture resolution", "textures at", "textures of", "maps at", "maps of",
                "4k", "8k", "2k"),
        ),
        Number(
            key="texture_bytes", label="Bytes a pixel", group="Textures", low=1, high=16, unit="byte", default=4,
            where="4 for ordinary colour, 1 for grey, 8 with 16 bits a channel, 16 for floating-point light pictures.",
            also=_BYTES,
        ),
        YesNo(
            key="mipmaps", label="Smaller copies, mipmaps", group="Textures", default="yes", options=YES_NO,
            where="The render settings; they add a third. If in doubt, yes.", extra=True,
        ),
        Number(
            key="packing", label="Packed, times smaller", group="Textures", low=1, high=36, unit="times", default=1,
            where="The engine's texture settings: block packing makes colour 4 or 8 times smaller. Most renderers do "
            "not pack: 1.",
            extra=True, names=("texture compression", "compressed"), also={":1": 1, "to 1": 1, "x": 1},
        ),
        Millions(
            key="triangles_m", label="Triangles", group="Triangles", low=0, high=100_000, unit="million", default=20,
            where="The program's statistics, with render subdivision on; count an object that is copied by reference "
            "once.",
            also={"millions": 1, "m": 1, "thousand": 0.001, "billion": 1000}, names=("polygons", "polys", "faces"),
        ),
        Number(
            key="triangle_bytes_low", label="Bytes a triangle, at least", group="Triangles", low=1, high=10_000,
            unit="byte", default=50, also=_BYTES, extra=True,
            where="Common practice: about 50 for shared corners with their directions; leave it if you do not know.",
        ),
        Number(
            key="triangle_bytes_high", label="Bytes a triangle, at most", group="Triangles", low=1, high=10_000,
            unit="byte", default=200, also=_BYTES, extra=True,
            where="Common practice: about 200 with the structures that rays need; leave it if you do not know.",
        ),
        Number(
            key="frame_width", label="Picture width", group="Picture", low=16, high=32_768, unit="px", default=3840,
            whole=True, where="The render settings.", also=_PX, names=("render size", "resolution"),
        ),
        Number(
            key="frame_height", label="Picture height", group="Picture", low=16, high=32_768, unit="px", default=2160,
            whole=True, where="The render settings, the second number of the size.", also=_PX,
        ),
        Number(
            key="passes", label="Layers", group="Picture", low=1, high=100, default=8, whole=True, extra=True,
            where="The render settings list them: colour, depth, light and so on.", names=("passes", "render passes"),
        ),
        Number(
            key="pass_bytes", label="Bytes a pixel of a layer", group="Picture", low=1, high=64, unit="byte",
            default=16, where="16 for four channels of 32 bits, 8 for four of 16.", also=_BYTES, extra=True,
        ),
        Number(
            key="card_gb", label="The card's memory", group="The card", low=1, high=1024, unit="GB", optional=True,
            where="The box, or the card driver's information page.", also=_MEMORY,
            names=("vram", "video memory", "graphics memory", "graphics card", "card", "gpu"),
        ),
        Number(
            key="taken_gb", label="Taken already", group="The card", low=0, high=1024, unit="GB", default=1,
            where="The system's process list shows the card's memory before you open the scene; displays and browser "
            "take some.",
            also=_MEMORY,
        ),
        Number(
            key="half_peak_gb", label="Peak with half the edge", group="Measured", low=0, high=1024, unit="GB",
            optional=True, extra=True, also=_MEMORY,
            where="The render's own report: peak memory with textures limited to half their edge.",
        ),
        Number(
            key="quarter_peak_gb", label="Peak with a quarter of the edge", group="Measured", low=0, high=1024,
            unit="GB", optional=True, extra=True, also=_MEMORY,
            where="The same report with textures limited to a quarter of their edge.",
        ),
    ),
    compute=compute,
    worked_for=_worked_for,
    presets=(
        Preset("product", "A product shot on a card of 8 GB",
               {"textures": 20, "texture_px": 4096, "triangles_m": 5, "card_gb": 8}),
        Preset("room", "A furnished room on a card of 12 GB",
               {"textures": 60, "texture_px": 4096, "triangles_m": 20, "card_gb": 12}),
        Preset("street", "A street on a card of 12 GB",
               {"textures": 200, "texture_px": 4096, "triangles_m": 60, "card_gb": 12}),
        Preset("street-large", "The same street on a card of 24 GB",
               {"textures": 200, "texture_px": 4096, "triangles_m": 60, "card_gb": 24}),
        Preset("engine", "A game engine's level, textures packed",
               {"textures": 800, "texture_px": 2048, "packing": 4, "triangles_m": 10, "frame_width": 2560,
                "frame_height": 1440, "card_gb": 8}),
        Preset("measured", "No counts, but two small renders",
               {"half_peak_gb": 5, "quarter_peak_gb": 3.7, "card_gb": 12}),
    ),
)  # fmt: skip
