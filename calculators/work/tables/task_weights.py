"""What each kind of work asks of each part: much, some or little. Common practice, each row with its reason."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from calculators.desk.answer import COMMON_PRACTICE, Source
from calculators.desk.numbers import settled

LITTLE, SOME, MUCH = "little", "some", "much"
LEVELS = (LITTLE, SOME, MUCH)
SOURCE = Source("What each kind of work asks of a machine, and from when on a mix asks much", "", COMMON_PRACTICE)

ONE_CORE, ALL_CORES, CARD, CARD_MEMORY, MEMORY, DISK = range(6)
# (key, as it is named in a sentence, its label)
PARTS = (
    ("one_core", "one core", "One core"),
    ("all_cores", "all cores", "All cores"),
    ("card", "the card", "The card"),
    ("card_memory", "the card's memory", "The card's memory"),
    ("memory", "memory", "Memory"),
    ("disk", "the disk", "The disk"),
)
# Parts that must hold everything at once: here the heaviest task decides, not the mean over the hours.
CAPACITIES = (CARD_MEMORY, MEMORY)
# The mean weights from which a mix asks some, or much, of any other part: those are quick or slow, not full.
SOME_FROM, MUCH_FROM = 0.5, 1.2
_NAMED = 2  # kinds of work, as the reason for what a mix asks of a part


@dataclass(frozen=True, slots=True)
class Task:
    """
    One kind of work.

    three_d: 3D work, else editing. weights: for each part 0, 1 or 2: little, some, much. because: the reason.
    """

    key: str
    label: str
    three_d: bool
    weights: tuple[int, int, int, int, int, int]
    because: str


TASKS = (
    Task("modelling_h", "Modelling", True, (2, 0, 1, 1, 1, 0),
         "Each change waits for the one before it, so one core counts; the card draws what you see."),
    Task("render_processor_h", "Rendering on the processor", True, (0, 2, 0, 0, 2, 0),
         "Every core renders its own piece, and the scene lies in memory."),
    Task("render_card_h", "Rendering on the card", True, (1, 0, 2, 2, 1, 0),
         "The card does it all if the scene fits its memory; one core prepares the scene."),
    Task("simulation_h", "Simulation", True, (2, 1, 0, 0, 2, 1),
         "Steps follow one another, each shares out only in part, and all of it is kept."),
    Task("cutting_h", "Cutting", False, (1, 1, 1, 0, 1, 2),
         "Footage streams from the disk, and the decoder sits in the card or costs cores."),
    Task("grading_h", "Grading and effects", False, (0, 1, 2, 2, 1, 1),
         "The card works through every frame at full size and keeps several at once."),
    Task("encoding_h", "Encoding", False, (0, 2, 1, 0, 0, 0),
         "All cores share it out, or an encoder in the card does it."),
)  # fmt: skip


def mean_weight(hours: Sequence[float], weights: Sequence[int]) -> float:
    """
    What a mix of work asks of a part that is quick or slow, on average over its hours.

    Args:
        hours: Hours of each kind of work. [h], not all 0.
        weights: What each asks: 0, 1 or 2. [1]

    Returns:
        The mean weight. [1]

    Source:
        Common practice, no source.

    Example:
        >>> mean_weight([30, 10], [2, 0])
        1.5
    """
    return sum(h * weight for h, weight in zip(hours, weights, strict=True)) / sum(hours)


def level_of(part: int, hours: Mapping[str, float]) -> str:
    """
    What a mix asks of one part.

    Args:
        part: ONE_CORE to DISK. [place in PARTS]
        hours: Hours a week of each kind of work by its key, not all 0. [h]

    Returns:
        little, some or much. [text]

    Source:
        Common practice, no source.

    Example:
        >>> level_of(DISK, {"cutting_h": 10, "encoding_h": 2}), level_of(MEMORY, {"encoding_h": 40, "simulation_h": 1})
        ('much', 'much')
    """
    done = [task for task in TASKS if hours.get(task.key)]
    weights = [task.weights[part] for task in done]
    if part in CAPACITIES:
        return LEVELS[max(weights)]
    mean = settled(mean_weight([hours[task.key] for task in done], weights))
    return MUCH if mean >= MUCH_FROM else SOME if mean >= SOME_FROM else LITTLE


def because(part: int, hours: Mapping[str, float]) -> str:
    """
    Which work makes a mix ask of a part what it asks.

    Args:
        part: ONE_CORE to DISK. [place in PARTS]
        hours: Hours a week of each kind of work by its key, not all 0. [h]

    Returns:
        The two kinds of work that ask the most, or that none does. [text]

    Source:
        Common practice, no source.

    Example:
        >>> because(DISK, {"cutting_h": 10, "grading_h": 2}), because(DISK, {"modelling_h": 10})
        ('cutting, grading and effects', 'nothing that you do')
    """
    asking = [task for task in TASKS if hours.get(task.key) and task.weights[part]]
    if part in CAPACITIES:
        most = max((task.weights[part] for task in asking), default=0)
        asking = [task for task in asking if task.weights[part] == most]
    asking.sort(key=lambda task: (-hours[task.key] * task.weights[part], -task.weights[part]))
    names = ", ".join(task.label.lower() for task in asking[:_NAMED])
    if not names:
        return "nothing that you do"
    return f"{names}, in few of the hours" if level_of(part, hours) == LITTLE else names
