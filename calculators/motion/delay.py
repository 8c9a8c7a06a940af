"""motion.delay: from hand to picture, how long it takes, which part is the largest, and what to change first."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import product

from calculators.desk.answer import COMMON_PRACTICE, FROM_MEMORY, Answer, Figure, Note, Source, Working
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.inputs import HOW_TO_TELL, UNSURE, Choice, Estimate, Everyday, Number, Option, Span, Values
from calculators.desk.numbers import number
from calculators.desk.svg import Drawing
from calculators.motion.drawings.delay_bar import Piece, delay_bar
from calculators.motion.formulas.delays import ADAPTIVE, OFF, ON, Chain, Delays, delays
from calculators.motion.wording.shared import CAP, FLASHING, PHOTOSENSITIVE, exact_notes
from calculators.motion.wording.spreads import ends, say_spread, spread
from calculators.trade.frame_rates import (
    FRAMES_SOURCE,
    SOURCE,
    RateChoice,
    exact_rate,
    frames_input,
    rate_input,
    say_rate,
)
from calculators.trade.ratio import Ratio, exact_ratio

_POLLS = (125, 250, 500, 1000, 2000, 4000, 8000)
_UNSURE_POLLS = (125, 1000)
_KEYS = ("poll", "wait", "make", "queue", "sync", "scan", "display", "response")
_NAMES = {
    "poll": "asking mouse or keyboard",
    "wait": "waiting for the next frame",
    "make": "making the frame",
    "queue": "frames queued before it",
    "sync": "waiting for the refresh",
    "scan": "drawing down the screen",
    "display": "the display's own time",
    "response": "pixels changing",
}
# the same for the key of a drawing, where room is short
_SHORT = {
    "poll": "asking the mouse",
    "wait": "until the next frame",
    "make": "making the frame",
    "queue": "frames queued",
    "sync": "until the refresh",
    "scan": "drawing down",
    "display": "the display",
    "response": "pixels changing",
}
_FASTER = "a faster refresh rate: the sync setting holds the frames to it, and more of them would only queue"
_ADVICE = {
    "poll": "a mouse or keyboard that is asked more often, 500 or 1000 times a second",
    "wait": "more frames a second: lower the picture quality one step",
    "make": "more frames a second: lower the picture quality one step",
    "queue": "the queue: cap the frames a little below the refresh rate and below what the machine can make, or choose "
    "the game's low-latency setting",
    "sync": "the sync setting: adaptive waits least where the frames stay within the display's range",
    "scan": "the refresh rate: a faster one draws down the screen sooner",
    "display": "the display's picture mode: a game mode skips most of its processing",
    "response": "the display's response setting, one step at a time, until you see bright trails",
}

SOURCES = (
    Source("A chain of mean waits, each half of its interval", "", COMMON_PRACTICE),
    Source(
        "USB 2.0 specification", "frames of 1 ms, microframes of 125 µs, intervals of interrupt endpoints", FROM_MEMORY
    ),
    SOURCE,
    Source("Queues above the refresh rate, and what to change first", "", COMMON_PRACTICE),
    CAP,
    Source("Everyday words for display and response times", "", COMMON_PRACTICE),
    FRAMES_SOURCE,
    PHOTOSENSITIVE,
)

_Ends = tuple[Ratio, Ratio]


class _Cases:
    """Every chain that the inputs allow: one where all was given by number, else one for each pair of ends."""

    def __init__(self, given: Values) -> None:
        polls = _UNSURE_POLLS if given["poll_hz"] == UNSURE else (int(given["poll_hz"]),)
        syncs = (OFF, ON, ADAPTIVE) if given["sync"] == UNSURE else (given["sync"],)
        spans = (given["frames"], given["queued"], given["display_ms"], given["response_ms"])
        self.chains = [
            Chain(Ratio(poll), exact_rate(frames), exact_ratio(queued), exact_rate(given["rate"]), sync,
                  exact_ratio(given["down"]), exact_ratio(display), exact_ratio(response))
            for poll, sync, frames, queued, display, response in product(polls, syncs, *(ends(s) for s in spans))
        ]  # fmt: skip
        self.delays = [delays(chain) for chain in self.chains]
        self.total = _ends(each.total() for each in self.delays)
        self.least = _ends(each.total().minus(each.chance()) for each in self.delays)
        self.most = _ends(each.total().plus(each.chance()) for each in self.delays)
        self.parts = {key: _ends(getattr(each, key) for each in self.delays) for key in _KEYS}

    @property
    def exact(self) -> bool:
        """Whether there is one chain only."""
        return len(self.delays) == 1

    def middle(self) -> Delays:
        """The one chain, or halfway between the least and the most of each part: what gets drawn."""
        return Delays(*(low.plus(high).times(1, 2) for low, high in self.parts.values()))

    def largest(self) -> str:
        """The key of the part that is the largest, by the middle of its range; the first of those alike."""
        middle = dict(zip(_KEYS, self.middle().parts(), strict=True))
        largest = _KEYS[0]
        for key in _KEYS:
            if middle[largest].below(middle[key]):
                largest = key
        return largest


def _ends(values: Iterable[Ratio]) -> _Ends:
    """The least and the most of some ratios."""
    low: Ratio | None = None
    high: Ratio | None = None
    for value in values:
        low = value if low is None or value.below(low) else low
        high = value if high is None or high.below(value) else high
    if low is None or high is None:
        raise ValueError("there is no value")
    return low, high


def compute(given: Values) -> Answer:
    """The whole chain, worked out."""
    cases = _Cases(given)
    largest = cases.largest()
    return Answer(
        headline=_headline(cases, largest),
        figures=_figures(cases),
        working=_working(cases, given),
        drawings=(_drawing(cases),),
        notes=(*exact_notes(given["rate"], *ends(given["frames"])), *_notes(cases, largest, given)),
        cautions=(FLASHING,) if given["sync"] in (ADAPTIVE, UNSURE) else (),
        sources=SOURCES,
    )


def _headline(cases: _Cases, largest: str) -> str:
    part = f"the largest part, {_NAMES[largest]}, takes {say_spread(*cases.parts[largest], 'ms', 1)}"
    total = say_spread(*cases.total, "ms", 1)
    return f"From hand to picture takes {'about ' if cases.exact else ''}{total}; {part}."


def _figures(cases: _Cases) -> tuple[Figure, ...]:
    figures: list[Figure] = [
        *spread("total_ms", "From hand to picture, on average", *cases.total, "ms", 1, main=True),
        *spread("least_ms", "At the least", *cases.least, "ms", 1, main=cases.exact),
        *spread("most_ms", "At the most", *cases.most, "ms", 1, main=cases.exact),
    ]
    for key in _KEYS:
        name = _NAMES[key]
        figures += spread(f"{key}_ms", name[0].upper() + name[1:], *cases.parts[key], "ms", 4 if key == "poll" else 2)
    largest = cases.largest()
    figures.append(Figure("largest", "The largest part", largest, "", _NAMES[largest]))
    return tuple(figures)


def _working(cases: _Cases, given: Values) -> tuple[Working, ...]:
    chain, parts = cases.chains[0], cases.parts
    made = chain.frames if chain.sync == OFF or chain.frames.below(chain.rate) else chain.rate
    frames, rate = number(made.value, 3), number(chain.rate.value, 3)
    late = chain.sync == OFF or (chain.sync == ON and chain.frames.below(chain.rate))
    lines = [
        ("poll", "half an interval", f"500 ÷ {number(chain.poll_hz.value)}"),
        ("wait", "half a frame", f"500 ÷ {frames}"),
        ("make", "one frame", f"1000 ÷ {frames}"),
        ("queue", "queued × one frame", f"{number(chain.queued.value)} × 1000 ÷ {frames}"),
        ("sync", "half a refresh, where a finished frame has to wait", f"500 ÷ {rate}" if late else "no wait"),
        ("scan", "share down the screen × one refresh",
         "a flip lands anywhere" if chain.sync == OFF else f"{number(chain.down.value)} ÷ 100 × 1000 ÷ {rate}"),
        ("display", "as given", given.say("display_ms")),
        ("response", "as given", given.say("response_ms")),
    ]  # fmt: skip
    parts_shown = [
        Working(_NAMES[key][0].upper() + _NAMES[key][1:], formula, numbers, say_spread(*parts[key], "ms", 3))
        for key, formula, numbers in lines
    ]
    return (
        *parts_shown,
        Working("All of it", "the sum of the parts", "", say_spread(*cases.total, "ms", 2)),
        Working("At the least and at the most", "the sum − and + (asked + frame + refresh waits)",
                "", f"{say_spread(*cases.least, 'ms', 2)}; {say_spread(*cases.most, 'ms', 2)}"),
    )  # fmt: skip


def _drawing(cases: _Cases) -> Drawing:
    middle = cases.middle()
    pieces = [Piece(_SHORT[key], part.value) for key, part in zip(_KEYS, middle.parts(), strict=True)]
    description = "; ".join(f"{p.name} {number(p.ms, 1)} ms" for p in pieces if p.ms > 0)
    halfway = "" if cases.exact else " Where a part is a range, its middle is drawn."
    return delay_bar(
        pieces,
        cases.least[0].value,
        cases.most[1].value,
        f"One bar: {description}. Least {number(cases.least[0].value, 1)} ms, most {number(cases.most[1].value, 1)} ms."
        + halfway,
    )


def _notes(cases: _Cases, largest: str, given: Values) -> tuple[Note, ...]:
    advice = _FASTER if largest in ("wait", "make") and _held(given) else _ADVICE[largest]
    which = "The largest part" if cases.exact else "By the middle of its range, the largest part"
    eight = Ratio(500, 1000).minus(Ratio(500, 8000))
    notes = [
        Note("Change this first", f"{which} is {_NAMES[largest]}. Try {advice}."),
        Note(
            "A model, not a measurement",
            "It adds up mean waits: common practice, no source. The sensor, the system and the game's own clock add "
            "their share, and nobody's machine is that even. Use it to compare two settings, not to the millisecond.",
        ),
        Note(
            "Which frames to put in",
            "Read the frames with the sync setting that you use: the counter shows others with it off.",
        ),
    ]
    if _piles_up(given):
        sure = _held(given)
        none = " None is counted here." if given["queued"].high == 0 else ""
        notes.append(
            Note(
                "Frames pile up here" if sure else "Frames may pile up here",
                ("The machine makes" if sure else "It may be that the machine makes")
                + " at least as many frames as the display shows. With sync on, or at the top of "
                f"adaptive's range, finished frames then queue, and each costs one more frame of delay.{none} Cap the "
                "frames about 3 % below the rate (common practice, no source), or put in how many queue.",
            )
        )
    else:
        notes.append(
            Note(
                "When frames queue",
                "With sync on above the refresh rate, and with adaptive sync at the top of its range, finished frames "
                "queue, and each costs one more frame of delay. A cap about 3 % below the rate keeps the queue empty: "
                "common practice, no source.",
            )
        )
    notes += [
        Note(
            "Made-up frames in between",
            "Frames that a program invents between two real ones look smoother, but the later real one must be "
            "finished first: they add about one real frame of wait. Count the real ones here.",
        ),
        Note(
            "8000 times a second instead of 1000",
            f"That wins {number(eight.value)} ms on average, and costs processor time for every question asked. On a "
            "busy processor it can cost more than it wins.",
        ),
    ]
    return tuple(notes)


def _held(given: Values) -> bool:
    """Whether the sync setting surely holds the frames to the refresh rate."""
    return given["sync"] in (ON, ADAPTIVE) and not exact_rate(given["frames"].low).below(exact_rate(given["rate"]))


def _piles_up(given: Values) -> bool:
    """Whether finished frames may have to queue."""
    full = not exact_rate(given["frames"].high).below(exact_rate(given["rate"]))
    return given["sync"] in (ON, ADAPTIVE, UNSURE) and full


def worked_for(given: Values) -> str:
    """The chain in a few words."""
    sync = {OFF: "sync off", ON: "sync on", ADAPTIVE: "adaptive sync", UNSURE: "any sync setting"}[given["sync"]]
    polled = "an unknown polling rate" if given["poll_hz"] == UNSURE else f"asked {given['poll_hz']} times a second"
    frames: Span = given["frames"]
    many = f"{number(frames.low, 3)} frames" if frames.low == frames.high else (
        f"{number(frames.low, 3)} to {number(frames.high, 3)} frames")  # fmt: skip
    return f"{many} at {say_rate(given['rate'])}, {sync}, {polled}"


calculator = Calculator(
    name="motion.delay",
    version=2,
    title="From hand to picture: how long does it take?",
    summary="The delay from a movement of the hand to the light on the screen, part by part, least to most.",
    inputs=(
        RateChoice(
            key="poll_hz",
            label="Mouse or keyboard is asked",
            where="Its data sheet, as polling or report rate; 125 unless it says more, 1000 on most made for games.",
            options=(
                *(Option(str(hz), f"{hz} times a second", (f"{hz} hz",)) for hz in _POLLS),
                Option(UNSURE, "not sure"),
            ),
            default="1000",
            names=("polling rate", "polling", "report rate", "poll", "polls at", "mouse", "mice", "keyboard"),
        ),
        frames_input(
            where="A counter in the game or in the card's driver. Read it with the sync setting that you use.",
            default=100,
        ),
        Estimate(
            where_title=HOW_TO_TELL,
            key="queued",
            label="Frames queued",
            where="Few programs show it. None with a cap below the refresh rate; one or more where the card is busy.",
            low=0,
            high=5,
            unit="frames",
            default=0,
            choices=(
                Everyday("none", "none: capped, or a low-latency setting", 0, 0),
                Everyday("usual", "usual: one", 1, 1),
                Everyday("many", "many: three", 3, 3),
            ),
            unsure_low=0,
            unsure_high=3,
            also={"frame": 1},
            names=("queue", "pre-rendered frames", "frames in flight"),
        ),
        rate_input(
            key="rate",
            label="Refresh",
            where="The system's advanced display settings.",
            default=144,
            names=("hz", "hertz", "refresh rate"),
        ),
        Choice(
            key="sync",
            label="Sync",
            where="The game's picture settings, else the card driver's; adaptive stands in the display's menu, too.",
            options=(
                Option(OFF, "off: may tear", ("vsync off", "sync off")),
                Option(ON, "on: waits for the refresh", ("vsync", "vsync on", "sync on")),
                Option(ADAPTIVE, "adaptive: the refresh waits for the frame", ("vrr", "variable refresh",
                    "adaptive sync", "adaptive refresh", "adaptive on", "with adaptive")),
                Option(UNSURE, "not sure"),
            ),
            default=OFF,
            names=("vsync", "sync", "vrr"),
        ),
        Number(
            where_title=HOW_TO_TELL,
            key="down",
            label="How far down the screen",
            where="Where you look: 0 is the top, 50 the middle, 100 the bottom.",
            low=0,
            high=100,
            unit="%",
            default=50,
            extra=True,
            also={"percent": 1},
        ),
        Estimate(
            key="display_ms",
            label="The display's own time",
            where="Tests call it input lag or processing; a display's menu may have a game mode that lowers it.",
            low=0,
            high=200,
            unit="ms",
            default=5,
            choices=(
                Everyday("game", "a monitor in its game mode", 1, 5, ("game mode",)),
                Everyday("monitor", "a monitor as it comes", 5, 15),
                Everyday("television-game", "a television in its game mode", 8, 20),
                Everyday("television", "a television's film mode", 40, 120, ("tv",)),
            ),
            unsure_low=2,
            unsure_high=60,
            names=("input lag", "processing"),
        ),
        Estimate(
            key="response_ms",
            label="Pixels change in",
            where="Tests of the display, as response time; the number on the box is the best case.",
            low=0,
            high=50,
            unit="ms",
            default=4,
            choices=(
                Everyday("self-lit", "pixels that glow by themselves", 0, 1, ("oled",)),
                Everyday("fast", "a fast liquid-crystal display", 3, 8, ("lcd",)),
                Everyday("slow", "a slow one", 8, 25),
            ),
            unsure_low=1,
            unsure_high=15,
            names=("response time", "response"),
        ),
    ),
    compute=compute,
    presets=(
        Preset("usual", "100 frames on 144 Hz, sync off", {"frames": 100, "rate": 144, "sync": "off"}),
        Preset("office", "60 Hz, sync on, mouse asked 125 times", {"poll_hz": "125", "frames": 60, "rate": 60,
                                                                   "sync": "on", "queued": 1}),
        Preset("adaptive", "138 frames on 144 Hz, adaptive", {"frames": 138, "rate": 144, "sync": "adaptive"}),
        Preset("fast", "240 Hz, mouse asked 8000 times", {"poll_hz": "8000", "frames": 230, "rate": 240,
                                                          "sync": "adaptive"}),
        Preset("television", "Television, controller, film mode", {"poll_hz": "250", "frames": 60, "rate": 60,
                                                                   "sync": "on", "display_ms": "television"}),
    ),
    worked_for=worked_for,
)  # fmt: skip
