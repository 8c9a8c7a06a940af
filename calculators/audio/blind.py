"""audio.blind: do so many right answers mean more than guessing?"""

from __future__ import annotations

from math import isqrt

from calculators.audio.statistics.binomial import (
    chance_of_at_least,
    chance_to_pass,
    choices,
    needed,
    ways_to_get_at_least,
)
from calculators.desk.answer import (
    COMMON_PRACTICE,
    DEPENDS,
    FROM_MEMORY,
    NO,
    YES,
    Answer,
    Caution,
    Column,
    Figure,
    Note,
    Source,
    Step,
    Table,
    Verdict,
    Working,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.charts import Axis, Line, Spot, plot
from calculators.desk.errors import refuse
from calculators.desk.inputs import HOW_TO_TELL, Number, Values
from calculators.desk.numbers import number, plural
from calculators.desk.svg import Drawing

_TABLE_TRIALS = (5, 8, 10, 12, 16, 20, 24)
_HEARD = 60  # per cent of trials; a difference that is heard more often than not

SOURCES = (
    Source("Binomial distribution, one chance in two", "any textbook of statistics", COMMON_PRACTICE),
    Source("ITU-R BS.1116, subjective assessment of small impairments", "blind, hidden reference", FROM_MEMORY),
    Source("5 % as the line between chance and more, and levels matched to 0.1 dB", "", COMMON_PRACTICE),
)

STEPS = (
    Step(
        key="decide",
        title="Decide the number of trials first",
        do=("Sixteen is a good number. Write it down, and neither stop early nor go on until it fits.",),
        why="Whoever stops when the score looks good finds a difference everywhere.",
    ),
    Step(
        key="match",
        title="Match the levels",
        do=(
            "Play a steady tone of about 500 Hz at low volume through both ways of connecting.",
            "Set them to the same voltage at the headphone, within one per cent, with a meter across a splitter.",
        ),
        why="The louder one nearly always sounds better, even by half a decibel that nobody notices as louder.",
    ),
    Step(
        key="hide",
        title="Let somebody else switch, unseen",
        do=(
            "A coin decides before every trial which of the two is played; the helper notes it and says nothing.",
            "Better still, the helper sits out of sight and changes the plugs every time, even if it is the same one.",
        ),
        why="A plug's click, a pause or a face give it away.",
    ),
    Step(
        key="answer",
        title="Answer every time, then count",
        do=("Say which one you hear, guess when you must, and compare the two lists only at the end.",),
    ),
)


def compute(given: Values) -> Answer:
    """The chance of guessing so well, and what it means."""
    right, trials = given["right"], given["trials"]
    if right > trials:
        raise refuse("right", f"Right answers must not be more than the trials: at most {trials}, got {right}.")
    chance = chance_of_at_least(right, trials)
    percent = 100 * chance
    mark = needed(trials)
    figures: list[Figure] = [
        _chance_figure(percent),
        figure("right_percent", "Right answers", 100 * right / trials, "%", 1, main=True),
    ]
    if mark is not None:
        figures.append(figure("needed", "Right answers needed for 5 %", mark, main=True))
        passing = 100 * chance_to_pass(mark, trials, _HEARD)
        figures.append(figure("pass_percent", f"Somebody who hears it in {_HEARD} % of trials passes", passing, "%", 1))
    ways = ways_to_get_at_least(right, trials)
    return Answer(
        headline=f"Somebody who only guesses gets at least {right} of {trials} right {_often(percent)}.",
        verdict=_verdict(chance, mark, trials),
        figures=tuple(figures),
        working=(
            Working(
                "Ways to get at least so many right",
                "sum of (trials choose k), from k = right to k = trials",
                f"{trials} choose {right}, and so on up to {trials} choose {trials}",
                _whole(ways),
            ),
            Working("Chance", "ways ÷ 2^trials", f"{_whole(ways)} ÷ {_whole(1 << trials)}", figures[0].text),
        ),
        tables=(_table(trials),),
        drawings=(_drawing(right, trials),),
        steps=STEPS,
        steps_title="How to hear a difference honestly",
        notes=(
            Note(
                "What a miss means",
                "A score that guessing explains does not prove that there is no difference; it only says that this "
                "test did not show one."
                + (
                    f" Somebody who truly hears it in {_HEARD} % of the trials and guesses the rest would reach "
                    f"{mark} of {trials} with a chance of {number(100 * chance_to_pass(mark, trials, _HEARD), 0)} %."
                    if mark is not None
                    else " With so few trials even a perfect score happens too often by luck."
                ),
            ),
            Note(
                "What a hit means",
                "That something was heard, not that it is better, nor what it was. If the levels were not matched, it "
                "was most likely the level.",
            ),
            *(
                (
                    Note(
                        "Oddly few right",
                        "So few right answers are rare by luck as well. Somebody who hears a difference but takes one "
                        "for the other scores like this; check the lists, and test again.",
                    ),
                )
                if mark is not None and trials - right >= mark
                else ()
            ),
            Note(
                "Twenty tries at one in twenty",
                "Whoever repeats the test until it succeeds will succeed: one guesser in twenty passes a 5 % line. "
                "Count all rounds together.",
            ),
        ),
        cautions=(
            Caution(
                "hearing",
                "Compare at a moderate level. Turning up to hear a small difference costs more than it shows.",
                "If your ears ring afterwards, stop, and see a hearing specialist if it lasts.",
                first=True,
                short="Compare at a moderate level.",
            ),
        ),
        sources=SOURCES,
    )


def _whole(value: int) -> str:
    """A whole number, or its size in words where it would fill a line."""
    text = str(value)
    return number(value, 0) if len(text) <= 12 else f"a number of {len(text)} digits"


def _chance_figure(percent: float) -> Figure:
    """The chance with the digits it deserves; a very small one is worded, never shown as 0."""
    places = 2 if percent >= 1 else 4 if percent >= 0.01 else 6
    shown = figure("chance_percent", "Chance of guessing at least this well", percent, "%", places, main=True)
    if percent >= 0.000001:
        return shown
    return Figure(shown.key, shown.label, shown.value, shown.unit, "less than 0.000001 %", True)


def _often(percent: float) -> str:
    if percent >= 99.95:
        return "practically always"
    if percent >= 10:
        return f"about {number(percent, 0)} times in a hundred"
    if percent >= 1:
        return f"about {number(percent, 1)} times in a hundred"
    if percent >= 0.0001:
        return f"about once in {number(_two_digits(100 / percent), 0)} tests"
    return "less than once in a million tests"


def _two_digits(value: float) -> int:
    """A number rounded to two significant digits, as it is said aloud."""
    digits = len(str(int(value)))
    step = int(10 ** max(digits - 2, 0))
    return int(value / step + 0.5) * step


def _verdict(chance: float, mark: int | None, trials: int) -> Verdict:
    if mark is None:
        return Verdict(
            DEPENDS,
            f"With {plural(trials, 'trial')} even a perfect score happens too often by luck.",
            "Too few to tell.",
        )
    if chance <= 0.05:
        return Verdict(YES, "Luck alone does so well at most once in twenty tests.", "More than guessing.")
    if chance <= 0.2:
        return Verdict(
            DEPENDS, f"Luck alone explains it too easily. {mark} of {trials} would have been enough.", "Not clear."
        )
    return Verdict(NO, f"To say more, {mark} of {trials} would have been needed.", "Guessing explains it.")


def _table(own: int) -> Table:
    trials = sorted({*_TABLE_TRIALS, own})
    rows = []
    for n in trials:
        mark = needed(n)
        if mark is None:
            rows.append((str(n), "more trials", "–", "–"))
            continue
        rows.append(
            (
                str(n),
                str(mark),
                f"{number(100 * chance_of_at_least(mark, n), 1)} %",
                f"{number(100 * chance_to_pass(mark, n, _HEARD), 0)} %",
            )
        )
    return Table(
        "How many right answers it takes",
        (
            Column("Trials"),
            Column("Needed", numeric=True),
            Column("By luck", numeric=True),
            Column(f"If heard in {_HEARD} %", numeric=True),
        ),
        tuple(rows),
        f"By luck: how often a guesser gets there. If heard in {_HEARD} %: how often somebody does who hears the "
        "difference in that part of the trials.",
        (trials.index(own),),
    )


def _drawing(right: int, trials: int) -> Drawing:
    """How often each score happens by luck, with the viewer's own marked."""
    low, high = 0, trials
    if trials > 60:  # only the part where anything happens, and the viewer's own
        spread = 2 * isqrt(trials) + 2
        low, high = max(0, min(trials // 2 - spread, right - 1)), min(trials, max(trials // 2 + spread, right + 1))
    step = max(1, (high - low) // 120)
    ways = [*choices(trials)]
    points = [(float(k), 100 * ways[k] / (1 << trials)) for k in range(low, high + 1, step)]
    top = max(p for _, p in points) * 1.2
    own = 100 * ways[right] / (1 << trials)
    return plot(
        "How often each score happens by luck",
        f"A hump around {number(trials / 2)} right answers of {trials}; yours, {right}, is marked.",
        Axis("right answers", low, high),
        Axis("% of tests", 0, top),
        [Line("", points, "fill-1", width=2.5)],
        spots=[Spot(right, own, f"yours: {right}")],
        height=220,
    )


calculator = Calculator(
    name="audio.blind",
    title="Did I really hear a difference?",
    summary="The exact chance of guessing at least so many right answers in a blind test.",
    inputs=(
        Number(
            key="right",
            label="Right answers",
            names=("right", "correct", "hits", "score"),
            where_title=HOW_TO_TELL,
            where="Your list against the helper's list, counted at the end.",
            low=0,
            high=1000,
            default=12,
            whole=True,
        ),
        Number(
            where_title=HOW_TO_TELL,
            key="trials",
            label="Trials",
            names=("trials", "rounds", "tries", "tests", "out of"),
            where="The number you decided on before the test.",
            low=1,
            high=1000,
            default=16,
            whole=True,
        ),
    ),
    compute=compute,
    worked_for=lambda given: f"{given['right']} right of {given['trials']}",
    presets=(
        Preset("enough", "12 of 16", {"right": 12, "trials": 16}),
        Preset("not-clear", "7 of 10", {"right": 7, "trials": 10}),
        Preset("few", "4 of 4", {"right": 4, "trials": 4}),
        Preset("chance", "9 of 16", {"right": 9, "trials": 16}),
    ),
)
