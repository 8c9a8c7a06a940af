"""memory.check: how long to test memory after a change, how, and what counts as a pass."""

from __future__ import annotations

from calculators.desk.answer import (
    COMMON_PRACTICE,
    FROM_MEMORY,
    Answer,
    Caution,
    Figure,
    Note,
    Source,
    Step,
    Working,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.charts import Bar, bars
from calculators.desk.inputs import HOW_TO_CHOOSE, Number, Values
from calculators.desk.numbers import number, plural, settled, significant
from calculators.memory.amounts.test_times import CHECKED_GB_S, EFFICIENCY, SWEEPS, hours_of_testing
from calculators.memory.kits.printed_labels import bandwidth_on_label
from calculators.memory.wording.cautions import CAUTIONS

# Past the first nobody waits beside it; up to the second it is done by the next morning or noon. [h] Our choice.
LONGEST_WAIT_H, LONGEST_NIGHT_H = 4, 16

BEFORE, RUN, AFTER = "Before", "The test", "After it"

SOURCES = (
    Source(f"A pass goes over all memory {SWEEPS[0]} to {SWEEPS[1]} times", "", COMMON_PRACTICE),
    Source(
        f"A test reaches {number(EFFICIENCY[1] * 100, 0)} to {number(EFFICIENCY[0] * 100, 0)} % of the bandwidth",
        "",
        COMMON_PRACTICE,
    ),
    Source(
        f"One core writes and checks {CHECKED_GB_S[1]} to {CHECKED_GB_S[0]} GB of memory a second",
        "measured by us on one machine",
        COMMON_PRACTICE,
    ),
    Source("No error in four full passes counts as a pass", "", COMMON_PRACTICE),
    Source("JEDEC JESD100B.01", "a memory's gigabyte is 2^30 bytes", FROM_MEMORY),
)


def compute(given: Values) -> Answer:
    """The hours to plan, and the way to test."""
    total, channel, channels, passes = (given[k] for k in ("total_gb", "channel_gb_s", "channels", "passes"))
    low = hours_of_testing(total, channel, channels, passes, SWEEPS[0], EFFICIENCY[0], CHECKED_GB_S[0])
    high = hours_of_testing(total, channel, channels, passes, SWEEPS[1], EFFICIENCY[1], CHECKED_GB_S[1])
    size = f"{number(total, 2)} GB"
    when = _when(high)
    return Answer(
        headline=(
            f"Plan {_duration(low, high)} for {plural(passes, 'full pass', 'full passes')} over {size}"
            f"{': ' + when if when else ''}, and count a single error as a fail."
        ),
        figures=(
            _hours("hours_low", "At least", low, main=True),
            _hours("hours_high", "At most", high, main=True),
            _hours("pass_hours_low", "One pass, at least", low / passes),
            _hours("pass_hours_high", "One pass, at most", high / passes),
            figure("plan", "Time to plan", _duration(low, high)),
        ),
        working=(
            _worked("Shortest", "passes × sweeps × bytes ÷ speed", given, 0, low),
            _worked("Longest", "the same, with the thorough set and the slower test", given, 1, high),
        ),
        steps=_steps(passes),
        steps_title="How to test",
        drawings=(
            bars(
                "Hours to plan",
                f"Bars from the shortest to the longest time: one pass {_duration(low / passes, high / passes)}, "
                f"all {passes} {_duration(low, high)}.",
                [
                    Bar("One pass", high / passes, _duration(low / passes, high / passes), low=low / passes),
                    Bar(plural(passes, "pass", "passes"), high, _duration(low, high), mark=True, low=low),
                ],
                caption="Each bar runs from the shortest to the longest time.",
            ),
        ),
        notes=_notes(),
        cautions=(
            Caution(
                "data",
                "Back up before you test, and work on nothing that matters until the memory has passed.",
                short="Back up before you test.",
                tag="Copy files",
            ),
            *CAUTIONS[1:],
        ),
        sources=SOURCES,
    )


def _worked(what: str, formula: str, given: Values, end: int, hours: float) -> Working:
    """One end of the range: the speed is the share of the bandwidth, or what one core checks if that is less."""
    total, channel, channels, passes = (given[k] for k in ("total_gb", "channel_gb_s", "channels", "passes"))
    carried, checked = channel * channels * EFFICIENCY[end], CHECKED_GB_S[end]
    if checked <= carried:
        speed = f"{checked} GB/s that one core checks"
    else:
        speed = f"({number(channel, 1)} GB/s × {channels} × {number(EFFICIENCY[end] * 100, 0)} %)"
    put = f"{passes} × {SWEEPS[end]} × {number(total, 2)} GB ÷ {speed}"
    return Working(what, formula, put, f"{significant(hours, 2)} h")


def _when(hours: float) -> str:
    """When to let a test run that may take so long."""
    if hours <= LONGEST_WAIT_H:
        return ""
    if hours <= LONGEST_NIGHT_H:
        return "let it run overnight"
    return "a night and a day" if hours <= 2 * 24 else "several days"


def _hours(key: str, label: str, hours: float, main: bool = False) -> Figure:
    """Hours with two digits that count: a range this wide deserves no more."""
    return Figure(key, label, settled(hours), "h", f"{significant(hours, 2)} h", main)


def _duration(low_h: float, high_h: float) -> str:
    """A range of time as one would say it: '36 minutes to 3.7 hours'."""
    (low, low_unit), (high, high_unit) = _time(low_h), _time(high_h)
    if low_unit != high_unit:
        return f"{low} {low_unit} to {high} {high_unit}"
    if low == high:
        return f"{high} {high_unit}" if high != "1" else f"{high} {high_unit.removesuffix('s')}"
    return f"{low} to {high} {high_unit}"


def _time(hours: float) -> tuple[str, str]:
    """A time and its unit: minutes below one hour and never less than one, hours above."""
    if hours < 1:
        return number(max(hours * 60, 1), 0), "minutes"
    return significant(hours, 2), "hours"


def _steps(passes: int) -> tuple[Step, ...]:
    return (
        Step(
            key="back-up",
            group=BEFORE,
            title="Back up, and note the settings",
            do=("Copy what matters to a disk that you then unplug.", "Photograph the firmware's memory settings."),
            tags=("backup",),
        ),
        Step(
            key="built-in",
            group=RUN,
            title="First the test that the system brings along",
            do=(
                "In the start menu of Windows, type mdsched, start what it finds, and let the computer restart.",
                "On other systems, look for a memory test in the start-up menu or on the installation stick.",
                "Choose the extended set if it is offered, and two passes or more.",
            ),
            why="It asks for nothing but a restart, and a fault that it finds needs no longer test. Finding none, it "
            "proves less than the next one.",
            tags=("test", "built-in"),
        ),
        Step(
            key="outside",
            group=RUN,
            title="A test that starts before the system does",
            do=(
                "Put a memory test on a USB stick and start the computer from it.",
                f"Let it make {plural(passes, 'full pass', 'full passes')} without a break.",
            ),
            caution="The firmware's secure boot may refuse the stick. Take a test that is signed for it. Before you "
            "switch secure boot off, read the disk's recovery key on another device, pause the disk's protection and "
            "photograph the settings; afterwards switch both on again.",
            why="With no system in the way it reaches nearly all of the memory, and a bad bit cannot reach your disk.",
            see="No error at all.",
            otherwise="Stop at the first error, take one step down the ladder of settings, and begin again.",
            tags=("test", "passes"),
        ),
        Step(
            key="warm",
            group=RUN,
            title="Once more, warm",
            do=("Close the case, load processor and graphics card for half an hour, and let one more pass follow.",),
            why="Memory leaks charge faster when it is warm; settings that hold in a cool room can fail in summer.",
            tags=("test", "warm"),
        ),
        Step(
            key="cold",
            group=RUN,
            title="Once more, from cold",
            do=(
                "Switch off for an hour, start again, and see that it starts at the same rate with the whole capacity.",
            ),
            why="Training runs anew at a cold start and does not always come to the same end.",
            tags=("test", "cold"),
        ),
        Step(
            key="watch",
            group=AFTER,
            title="A week of watching",
            do=("Use the computer as always, but keep the backup, and install no system update in that week.",),
            see="No crash, no program that closes by itself, no archive that fails its own check.",
            otherwise="Suspect the memory first: go a step down and test again.",
            tags=("watch",),
        ),
    )


def _notes() -> tuple[Note, ...]:
    return (
        Note(
            "What counts as a pass",
            "No error in all passes. There is no small number of errors: one wrong bit in thousands of millions can "
            "sit in a photograph, a file's index or a program. Sticks with error correction pass only if the log of "
            "corrected errors stays empty as well.",
        ),
        Note(
            "When to test",
            "After every change of sticks, slots, rate, timings or voltage, and after a firmware update, because an "
            "update can change how the memory is trained.",
        ),
        Note(
            "Why the time is a range",
            "Tests differ in how many patterns they write: a full pass goes over the memory "
            f"{SWEEPS[0]} to {SWEEPS[1]} times. Most of the time is the test's own work: one core writes, reads and "
            f"compares {CHECKED_GB_S[1]} to {CHECKED_GB_S[0]} GB a second, which we measured on one machine. With "
            "several cores at work it is done sooner. After one pass, the test's own display is the better clock.",
        ),
    )


def worked_for(given: Values) -> str:
    """The memory and the passes, in one phrase."""
    channels = plural(given["channels"], "channel")
    passes = plural(given["passes"], "full pass", "full passes")
    return f"{number(given['total_gb'], 2)} GB on {channels} of {number(given['channel_gb_s'], 1)} GB/s, {passes}"


calculator = Calculator(
    name="memory.check",
    title="How long, and how, do I test memory after a change?",
    summary="Hours for the capacity at hand, the way to test, and what counts as a pass.",
    inputs=(
        Number(
            key="total_gb", label="Memory in all", low=0.25, high=16384, unit="GB", default=32,
            names=("gb", "gigabytes", "memory", "capacity"),
            also={"GiB": 1, "G": 1, "TB": 1024},
            where="The system's hardware overview, or the sum of the sticks' sizes.",
        ),
        Number(
            key="channel_gb_s", label="Bandwidth of one channel", low=0.5, high=1000, unit="GB/s", default=25.6,
            also={"MB/s": 0.001}, names=("bandwidth",), printed=bandwidth_on_label,
            where="The number after PC4- on the sticker is it in MB/s: PC4-25600 carries 25.6 GB/s. Or ask "
            "'What do the numbers on a memory kit mean?'.",
        ),
        Number(
            key="channels", label="Channels in use", low=1, high=12, default=2, whole=True,
            names=("channel", "dual channel", "single channel"),
            where="The board's manual. Most desktop boards have two, used when sticks sit in the paired slots.",
        ),
        Number(
            where_title=HOW_TO_CHOOSE,
            key="passes", label="Full passes", low=1, high=100, default=4, whole=True,
            names=("pass", "passes", "rounds"),
            where="Your choice. Four is the usual number after a change, one is a first look.",
        ),
    ),
    compute=compute,
    version=2,
    worked_for=worked_for,
    presets=(
        Preset("quick-look", "32 GB, one pass", {"total_gb": 32, "channel_gb_s": 25.6, "channels": 2, "passes": 1}),
        Preset("after-change", "32 GB DDR4, four passes",
               {"total_gb": 32, "channel_gb_s": 25.6, "channels": 2, "passes": 4}),
        Preset("large-ddr5", "96 GB DDR5, four passes",
               {"total_gb": 96, "channel_gb_s": 48, "channels": 2, "passes": 4}),
        Preset("one-stick", "16 GB, one stick", {"total_gb": 16, "channel_gb_s": 25.6, "channels": 1, "passes": 4}),
    ),
)  # fmt: skip
