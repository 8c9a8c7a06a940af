"""work.balance: what a week of 3D and editing asks of a machine, where both want the same and where they part."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.answer import (
    DEPENDS,
    NO,
    YES,
    Answer,
    Column,
    Figure,
    Note,
    Table,
    Verdict,
    Working,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.charts import Bar, bars
from calculators.desk.errors import refuse
from calculators.desk.inputs import HOW_TO_TELL, Number, Values
from calculators.desk.numbers import listed, number, with_unit
from calculators.desk.svg import Drawing
from calculators.work.tables.task_weights import (
    CAPACITIES,
    LEVELS,
    LITTLE,
    MUCH,
    PARTS,
    SOME,
    SOURCE,
    TASKS,
    because,
    level_of,
    mean_weight,
)
from calculators.work.wording.cautions import BACK_UP, HEAT, POWER

WEEK_H = 168
_MANY_TASKS = 3
_DRAWN = {LITTLE: 0.4, SOME: 1.2, MUCH: 2.0}
# What money is spent on where a part is asked little, in the order of PARTS.
_WASTED = (
    "the highest clock", "very many cores", "a large card", "a card with much memory", "memory that never fills",
    "the fastest disk",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Mix:
    """A week worked out: what it asks of each part, and the same for its two sides, None where a side has no hours."""

    hours: dict[str, float]
    whole: tuple[str, ...]
    three_d: tuple[str, ...] | None
    editing: tuple[str, ...] | None

    def parts(self, level: str) -> list[str]:
        """The parts of which the week asks so much, as they stand in a sentence."""
        return [name for (_, name, _), own_level in zip(PARTS, self.whole, strict=True) if own_level == level]

    def gaps(self) -> list[tuple[int, int]]:
        """Where the two sides part: (steps between them, part), the widest first."""
        if self.three_d is None or self.editing is None:
            return []
        pairs = zip(self.three_d, self.editing, strict=True)
        steps = [(abs(LEVELS.index(a) - LEVELS.index(b)), part) for part, (a, b) in enumerate(pairs)]
        return sorted((gap for gap in steps if gap[0]), key=lambda gap: (-gap[0], gap[1]))


def work_out(given: Values) -> Mix:
    """Everything that the answer words."""
    hours = {task.key: given[task.key] for task in TASKS}
    if not any(hours.values()):
        raise refuse(
            TASKS[0].key, "All hours are 0, and then any machine will do: give the hours of at least one kind of work."
        )

    def side(three_d: bool) -> tuple[str, ...] | None:
        own = {task.key: hours[task.key] for task in TASKS if task.three_d == three_d}
        return _levels(own) if any(own.values()) else None

    return Mix(hours, _levels(hours), side(True), side(False))


def _levels(hours: dict[str, float]) -> tuple[str, ...]:
    return tuple(level_of(part, hours) for part in range(len(PARTS)))


def compute(given: Values) -> Answer:
    """A week's mix against the parts of a machine."""
    mix = work_out(given)
    return Answer(
        headline=_headline(mix),
        verdict=_verdict(mix),
        figures=_figures(mix),
        working=_working(mix),
        tables=(_sides(mix), _reasons(mix), _tasks(mix)),
        drawings=(_drawing(mix),),
        notes=_notes(mix),
        cautions=(POWER, HEAT, BACK_UP),
        sources=(SOURCE,),
    )


def _headline(mix: Mix) -> str:
    by_level = [f"{level} of {listed(parts)}" for level in reversed(LEVELS) if (parts := mix.parts(level))]
    return f"Your week asks {', '.join(by_level)}."


def _verdict(mix: Mix) -> Verdict | None:
    if mix.three_d is None or mix.editing is None:
        return None
    gaps = mix.gaps()
    if not gaps:
        return Verdict(YES, "Your 3D work and your editing ask the same of every part.", "The same machine.")
    steps, part = gaps[0]
    name = PARTS[part][1]
    reason = f"They part at {name}: 3D work asks {mix.three_d[part]}, editing {mix.editing[part]}."
    if steps == 1:
        return Verdict(DEPENDS, reason, "Nearly the same.")
    return Verdict(NO, reason, "Not the same.")


def _figures(mix: Mix) -> tuple[Figure, ...]:
    rows = [
        figure(key, label, level, main=level == MUCH and mix.whole[:place].count(MUCH) < 4)
        for place, ((key, _, label), level) in enumerate(zip(PARTS, mix.whole, strict=True))
    ]
    rows.append(figure("hours", "Hours a week", sum(mix.hours.values()), "h", 1))
    return tuple(rows)


def _working(mix: Mix) -> tuple[Working, ...]:
    lines = []
    done = [task for task in TASKS if mix.hours[task.key]]
    hours = [mix.hours[task.key] for task in done]
    for part, (_, _, label) in enumerate(PARTS):
        weights = [task.weights[part] for task in done]
        if part in CAPACITIES:
            lines.append(Working(label, "the most that any work asks, for it must hold it all at once",
                                 ", ".join(LEVELS[w] for w in weights), mix.whole[part]))  # fmt: skip
        else:
            put = " + ".join(f"{number(h, 1)} × {w}" for h, w in zip(hours, weights, strict=True))
            put = f"({put}) ÷ {number(sum(hours), 1)} = {number(mean_weight(hours, weights), 2)}"
            lines.append(Working(label, "mean over the hours: little 0, some 1, much 2; some from 0.5, much from 1.2",
                                 put, mix.whole[part]))  # fmt: skip
    return tuple(lines)


def _sides(mix: Mix) -> Table:
    none = "—"
    rows = []
    for part, (_, _, label) in enumerate(PARTS):
        three_d = mix.three_d[part] if mix.three_d else none
        editing = mix.editing[part] if mix.editing else none
        rows.append((label, three_d, editing, mix.whole[part]))
    return Table(
        title="What each side asks",
        columns=(Column("Part"), Column("3D"), Column("Editing"), Column("Together")),
        rows=tuple(rows),
        note="For memory and the card's memory the most counts, whatever the hours: what does not fit, does not fit.",
        marked=tuple(part for part, level in enumerate(mix.whole) if level == MUCH),
    )


def _reasons(mix: Mix) -> Table:
    rows = []
    for part, (_, _, label) in enumerate(PARTS):
        rows.append((label, mix.whole[part], because(part, mix.hours)))
    return Table(
        title="Why much, some or little of each part",
        columns=(Column("Part"), Column("Asks"), Column("Because of")),
        rows=tuple(rows),
        marked=tuple(part for part, level in enumerate(mix.whole) if level == MUCH),
    )


def _tasks(mix: Mix) -> Table:
    rows = []
    for task in TASKS:
        asks = []
        for level in (MUCH, SOME):
            named = [PARTS[p][1] for p, weight in enumerate(task.weights) if LEVELS[weight] == level]
            if named:
                asks.append(f"{level}: {', '.join(named)}")
        rows.append((task.label, f"{'; '.join(asks)}. {task.because}"))
    return Table(
        title="What each kind of work asks, and why",
        columns=(Column("Work"), Column("Asks for, and why")),
        rows=tuple(rows),
        note="Common practice, no source: programs differ, and your own waits count more.",
        marked=tuple(place for place, task in enumerate(TASKS) if mix.hours[task.key]),
    )


def _drawing(mix: Mix) -> Drawing:
    rows = [
        Bar(label, _DRAWN[level], level, mark=level == MUCH)
        for (_, _, label), level in zip(PARTS, mix.whole, strict=True)
    ]
    description = "; ".join(f"{row.label} {row.text}" for row in rows)
    return bars("What your week asks of each part", f"Bars: {description}.", rows, full=_DRAWN[MUCH],
                caption="Three steps, no measure: little, some, much.")  # fmt: skip


def _notes(mix: Mix) -> tuple[Note, ...]:
    notes = []
    if mix.three_d is not None and mix.editing is not None:
        apart = {part for _, part in mix.gaps()}
        same = [name for part, (_, name, _) in enumerate(PARTS) if part not in apart]
        notes.append(Note("Where both want the same", f"Both ask the same of {listed(same)}." if same else
                          "Nowhere: build for the side that costs you more waiting."))  # fmt: skip
        if apart:
            gaps = [f"{PARTS[p][1]} (3D {mix.three_d[p]}, editing {mix.editing[p]})" for _, p in mix.gaps()]
            notes.append(Note("Where they part", f"They part at {listed(gaps)}."))
    wasted = [what for what, level in zip(_WASTED, mix.whole, strict=True) if level == LITTLE]
    notes.append(Note(
        "Money thrown away for this week",
        f"Do not pay for {listed(wasted)}." if wasted else
        "Nothing stands out: this week asks something of every part.",
    ))  # fmt: skip
    neither = _neither(mix)
    hours = sum(mix.hours.values())
    if hours > WEEK_H:
        notes.insert(0, Note(
            "More than a week has",
            f"You told {number(hours, 0)} h, and a week has {WEEK_H}. Count only hours in which you sit there, one "
            "kind of work at a time.",
        ))  # fmt: skip
    notes += [
        Note(
            "What neither needs",
            (f"Neither side asks much or some of {listed(neither)}. " if neither else "")
            + "Light strips, the last few per cent of clock, the fastest memory on the shelf, a second card for one "
            "editing program, or sixteen lanes for a card whose memory holds the scene.",
        ),
        Note("What to work out next", _next(mix)),
    ]
    return tuple(notes)


def _neither(mix: Mix) -> list[str]:
    """The parts of which both sides ask little."""
    if mix.three_d is None or mix.editing is None:
        return []
    return [
        name for (_, name, _), a, b in zip(PARTS, mix.three_d, mix.editing, strict=True) if a == b == LITTLE
    ]  # fmt: skip


def _next(mix: Mix) -> str:
    steps = [
        "Which part first: write down a day's waits, part by part; 'Which part do I buy first?' ranks two options."
    ]
    if mix.hours["render_card_h"]:
        steps.append("Whether the scene fits: count textures and triangles in 'Out of card memory: will it fit?'")
    if mix.hours["cutting_h"] or mix.hours["grading_h"]:
        steps.append("What the footage asks: take the camera's bit rate to 'How fast a disk for my footage?'")
    return " ".join(steps)


def _worked_for(given: Values) -> str:
    done = sorted((task for task in TASKS if given[task.key]), key=lambda task: -given[task.key])
    parts = [f"{with_unit(number(given[task.key], 1), 'h')} of {task.label.lower()}" for task in done[:_MANY_TASKS]]
    more = " and more" if len(done) > _MANY_TASKS else ""
    return f"a week with {', '.join(parts) if more else listed(parts)}{more}"


def _hours(key: str, label: str, default: float, group: str, where: str, names: tuple[str, ...]) -> Number:
    return Number(
        key=key, label=label, group=group, low=0, high=WEEK_H, unit="h", default=default, where=where, names=names,
        where_title=HOW_TO_TELL,
        also={"hours": 1, "hour": 1, "min": 1 / 60, "minutes": 1 / 60},
    )  # fmt: skip


_THREE_D, _EDITING = "3D work, hours a week", "Editing, hours a week"

calculator = Calculator(
    name="work.balance",
    version=2,
    title="3D work, editing, or both: what is the machine for?",
    summary="What a week of 3D work and editing asks of each part: much, some or little, each with its reason.",
    inputs=(
        _hours("modelling_h", "Modelling", 10, _THREE_D, "Your own guess of a usual week; round hours will do.",
               ("modeling", "sculpting", "cad")),
        _hours("render_processor_h", "Rendering on the processor", 0, _THREE_D,
               "The render settings name the device; count only hours in which you wait for it.", ("cpu rendering",)),
        _hours("render_card_h", "Rendering on the card", 5, _THREE_D,
               "The render settings name the device; count only hours in which you wait for it.", ("gpu rendering",)),
        _hours("simulation_h", "Simulation", 0, _THREE_D, "Cloth, water, smoke and the like, while you wait for them.",
               ("physics", "fluids", "cloth", "sims", "sim", "simulating")),
        _hours("cutting_h", "Cutting", 10, _EDITING, "Laying clips, playing them, finding the moment.",
               ("editing", "cut", "video editing")),
        _hours("grading_h", "Grading and effects", 3, _EDITING, "Colour, tracking, titles, compositing.",
               ("colour", "color", "effects", "compositing")),
        _hours("encoding_h", "Encoding", 2, _EDITING, "Exports for which you wait; those overnight do not count.",
               ("export", "transcoding")),
    ),
    compute=compute,
    worked_for=_worked_for,
    presets=(
        Preset("both", "Half 3D on the card, half editing",
               {"modelling_h": 10, "render_card_h": 5, "cutting_h": 10, "grading_h": 3, "encoding_h": 2}),
        Preset("three-d-card", "3D work, rendered on the card",
               {"modelling_h": 25, "render_card_h": 10, "cutting_h": 0, "grading_h": 0, "encoding_h": 0}),
        Preset("three-d-cores", "3D work, rendered on the processor",
               {"modelling_h": 20, "render_processor_h": 15, "render_card_h": 0, "simulation_h": 5, "cutting_h": 0,
                "grading_h": 0, "encoding_h": 0}),
        Preset("cutting", "Cutting from many cameras",
               {"modelling_h": 0, "render_card_h": 0, "cutting_h": 30, "grading_h": 2, "encoding_h": 5}),
        Preset("grading", "Grading and effects",
               {"modelling_h": 0, "render_card_h": 0, "cutting_h": 5, "grading_h": 30, "encoding_h": 3}),
    ),
)  # fmt: skip
