"""colour.shadows: how much lighter dark tones get where HDR mode decodes ordinary content with another curve."""

from __future__ import annotations

from calculators.colour.signals.transfer_functions import gamma_shown, srgb_light
from calculators.desk.answer import (
    COMMON_PRACTICE,
    Answer,
    Caution,
    Column,
    Note,
    Source,
    Step,
    Table,
    Working,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.charts import Axis, Line, Spot, plot
from calculators.desk.inputs import NamedValue, Number, Values
from calculators.desk.numbers import number, significant
from calculators.desk.svg import Drawing

_TOP = 255
_DRAWN_TO = 64  # the dark quarter of the codes, where the two curves part
_ROWS = (2, 5, 10, 20, 40, 80, 120, 180, 230)

SOURCES = (
    Source("W3C, Web Content Accessibility Guidelines 2.2", "relative luminance: the curve of sRGB (IEC 61966-2-1)"),
    Source("A plain power above black", "a display with HDR off; its menu calls it gamma", COMMON_PRACTICE),
    Source("That systems decode ordinary content by sRGB's curve in HDR mode", "", COMMON_PRACTICE),
)


def compute(given: Values) -> Answer:
    """One tone by both curves."""
    code, white, gamma = given["code"], given["white"], given["gamma"]
    plain, hdr = _plain(code, white, gamma), _hdr(code, white)
    times = hdr / plain if plain else 0.0
    worst = max(range(1, _TOP), key=lambda c: _hdr(c, white) - _plain(c, white, gamma))
    figures = [
        figure("plain_cd_m2", f"With HDR off, gamma {number(gamma, 2)}", plain, "cd/m²", 4, main=True),
        figure("hdr_cd_m2", "With HDR on, sRGB's curve", hdr, "cd/m²", 4, main=True),
        figure("gain_cd_m2", "Difference", hdr - plain, "cd/m²", 4),
        figure("worst_code", "Code that gains most light", worst),
    ]
    if plain:
        figures.insert(2, figure("times", "That is", times, "times", 2, main=True))
    return Answer(
        headline=_headline(code, plain, hdr, times),
        figures=tuple(figures),
        working=(
            Working("HDR off", "white × (code ÷ 255)^gamma", f"{number(white, 1)} × ({code} ÷ 255)^{number(gamma, 2)}",
                    f"{significant(plain)} cd/m²"),
            Working("HDR on", "white × sRGB's curve: signal ÷ 12.92 up to 0.04045, else ((signal + 0.055) ÷ 1.055)^2.4",
                    f"signal {code} ÷ 255 = {number(code / _TOP, 4)}", f"{significant(hdr)} cd/m²"),
        ),
        tables=(_table(code, white, gamma),),
        steps=_STEPS,
        steps_title="What to do about it",
        drawings=(_drawing(code, white, gamma),),
        notes=_notes(),
        cautions=(
            Caution(
                "person",
                "Judge dark tones in a dim room, and turn brightness up slowly: a bright page hurts eyes that are used "
                "to the dark.",
                short="Turn brightness up slowly in the dark.",
                tag="Dazzling light",
            ),
        ),
        sources=SOURCES,
    )  # fmt: skip


def _plain(code: int, white: float, gamma: float) -> float:
    return gamma_shown(code, 8, gamma, white, 0)


def _hdr(code: int, white: float) -> float:
    return white * srgb_light(code / _TOP)


def _headline(code: int, plain: float, hdr: float, times: float) -> str:
    if not plain:
        return f"Code {code} is black by both curves: only what lies just above it changes."
    return (
        f"HDR mode shows a tone of code {code} with {significant(times, 3)} times the light: {significant(hdr)} cd/m² "
        f"in place of {significant(plain)}."
    )


def _table(own: int, white: float, gamma: float) -> Table:
    codes = sorted({*_ROWS, own} - {0})
    rows = tuple(
        (
            str(code),
            significant(_plain(code, white, gamma)),
            significant(_hdr(code, white)),
            f"{significant(_hdr(code, white) / _plain(code, white, gamma), 2)} ×",
        )
        for code in codes
    )
    return Table(
        title="Tones by both curves",
        columns=(Column("Code", True), Column("HDR off, cd/m²", True), Column("HDR on, cd/m²", True),
                 Column("Ratio", True)),
        rows=rows,
        note="Codes of 8 bits, 0 for black and 255 for white. The display's own black is left out.",
        marked=(codes.index(own),) if own else (),
    )  # fmt: skip


def _drawing(code: int, white: float, gamma: float) -> Drawing:
    last = max(_DRAWN_TO, code)
    codes = sorted({0, last, code, *range(0, last, max(last // 32, 1))})
    top = max(_hdr(last, white), _plain(last, white, gamma))
    return plot(
        "The dark tones by both curves",
        f"Two lines from black to code {last}. By sRGB's curve the dark codes lie above those of a plain gamma of "
        f"{number(gamma, 2)}; at code {code} it is {significant(_hdr(code, white))} against "
        f"{significant(_plain(code, white, gamma))} candela per square metre.",
        Axis("code", 0, last, (0, last // 2, last)),
        Axis("light, cd/m²", 0, top),
        (
            Line("HDR off, plain gamma", [(float(c), _plain(c, white, gamma)) for c in codes], ink="fill-1"),
            Line("HDR on, sRGB's curve", [(float(c), _hdr(c, white)) for c in codes], ink="mark", width=2.5),
        ),
        spots=(Spot(float(code), _hdr(code, white), f"code {code}"),),
        height=220,
    )


_STEPS = (
    Step(
        key="off",
        title="Work with HDR off, and switch it on for HDR games and films",
        do=("Leave HDR off for the desktop and for ordinary games and films.", "Switch it on for what is made in HDR."),
        why="Only ordinary content is decoded by the other curve. What is made in HDR is not touched.",
        back="Switch HDR off again.",
    ),
    Step(
        key="brightness",
        title="If you leave HDR on, set the brightness of ordinary content first",
        do=("In the system's HDR settings, until a white page looks as it did.",),
        why="A page that is too bright makes the lifted shadows stand out more.",
    ),
    Step(
        key="not-range",
        title="Leave the output range alone",
        do=("Do not change full or limited range because of this.",),
        why="A wrong range shows with HDR off, too. Changing a right one adds a second fault to the first.",
    ),
)  # fmt: skip


def _notes() -> tuple[Note, ...]:
    return (
        Note(
            "Why the two curves differ",
            "Ordinary pictures are judged and made on displays whose light follows a plain power, about 2.2. The "
            "written standard for them, sRGB, has a straight piece at the bottom, which is lighter there. In HDR mode "
            "the system works in absolute light and has to choose one of the two; it takes the written one.",
        ),
        Note(
            "How it looks",
            "Night scenes and dark desktops turn milky, white pages look right, and nothing is lost: every step is "
            "still there. That is the difference to a wrong range, which dims white as well.",
        ),
    )


def _worked_for(given: Values) -> str:
    return f"code {given['code']}, a white of {number(given['white'], 0)} cd/m², gamma {number(given['gamma'], 2)}"


calculator = Calculator(
    name="colour.shadows",
    title="How much lighter do shadows get in HDR mode?",
    summary="One dark tone by a display's plain gamma and by sRGB's curve, which HDR mode takes for ordinary content.",
    inputs=(
        Number(
            key="code",
            label="Tone",
            names=("level", "grey level", "code"),
            where="A picture editor's colour picker shows it, 0 for black and 255 for white. Dark scenes lie below 40.",
            low=0,
            high=255,
            default=20,
            whole=True,
            named=(NamedValue(5, "nearly black"), NamedValue(20, "a night scene"), NamedValue(60, "a dark grey")),
        ),
        Number(
            key="white",
            label="White of ordinary content",
            names=("brightness", "sdr brightness", "nits", "paper white"),
            where="The system's HDR settings, as a slider; it often stands for 80 to 480 cd/m². 200 is usual.",
            low=10,
            high=1000,
            unit="cd/m²",
            default=200,
            also={"nits": 1, "nit": 1},
        ),
        Number(
            key="gamma",
            label="Gamma with HDR off",
            where="The display's picture menu; 2.2 is usual, 2.4 for a dark room.",
            low=1.8,
            high=2.8,
            default=2.2,
            extra=True,
        ),
    ),
    compute=compute,
    version=2,
    worked_for=_worked_for,
    presets=(
        Preset("night", "A night scene", {"code": 20}),
        Preset("near-black", "Nearly black", {"code": 5}),
        Preset("dark-room", "A display set to 2.4", {"code": 20, "gamma": 2.4}),
        Preset("grey", "A middle grey", {"code": 120}),
    ),
)
