"""
Which steps, in which order: the gentlest plan that fits, then the deeper ones that are left.

Chooses by name only; the words stand in windows_steps.py, linux_steps.py and shared_steps.py. The order follows
from a few rules that tests/calculators/drivers/test_rules.py holds against every combination of inputs: the
way back before the way forth, nothing away before the new is there, the key before the restart.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import NamedTuple

from calculators.desk.answer import Step
from calculators.desk.numbers import plural
from calculators.drivers.plans.situation import Situation
from calculators.drivers.plans.step_tags import restarts

DEEPEST = 3
PLANS = {1: "install over what is there", 2: "remove, then install", 3: "start over in safe start"}
PREFIXES = {1: "over", 2: "clean", 3: "fresh"}


class Part(NamedTuple):
    """
    Some steps under one heading, by name.

    depth: which of the three plans it is; 0 where it belongs to all of them or to none. deeper: whether it comes
    only if the plan before it did not work.
    """

    heading: str
    prefix: str
    names: tuple[str, ...]
    depth: int = 0
    deeper: bool = False


REPORT = Part("If nothing of this works", "last", ("report",), deeper=True)


def choose(s: Situation, depth: int) -> tuple[Part, ...]:
    """
    The parts of the plan for a situation.

    Args:
        s: The situation. [object]
        depth: How deep the first plan goes, as the diagnosis says. [1], 0 to 3.

    Returns:
        The parts in order, ending with what to report. [list]

    Raises:
        Nothing.

    Source:
        The rules named in this file's first lines; common practice, no source.

    Example:
        >>> from calculators.drivers.plans.situation import ANSWERS
        >>> idle = Situation(**{key: values[-1] for key, values in ANSWERS.items()})._replace(trouble="none")
        >>> [part.prefix for part in choose(idle._replace(logo="yes"), 0)]
        ['end', 'last']
    """
    if s.logo == "no":
        return _without_logo(s)
    if depth == 0:
        return _without_changes(s)
    parts = [_find(s), *_ready(s)]
    if s.trouble == "crashes":
        suspend = _suspension(s)[0] if s.windows else []
        parts.append(Part("First the simple causes", "simple", (*suspend, "calm")))
    for deep in range(depth, DEEPEST + 1):
        first = deep == depth
        heading = f"{'The plan' if first else 'If it does not work'}: {PLANS[deep]}"
        parts.append(Part(heading, PREFIXES[deep], _stage(s, deep, first), deep, not first))
    return (*parts, REPORT)


def _without_logo(s: Situation) -> tuple[Part, ...]:
    """It is never the driver: cable, socket, leads, seat, display, and there it stops."""
    end = Part("Check that it worked", "end", ("check_picture",))
    if s.at_the_machine == "no":
        return Part("It is not the driver", "find", ("ask_there",)), end, REPORT
    suspends = s.windows and s.locked_disk and s.sees and s.admin == "yes"
    key = "key" if s.sees and s.admin == "yes" else "key_away"
    find = ["display", *([key] if s.locked_disk else []), *(["suspend"] if suspends else [])]
    return (
        Part("It is not the driver: find the missing picture", "find", (*find, "power_off", "seat", "power_on")),
        Part("If it stays dark: without the card", "bare", ("power_off", "without_card", "power_on")),
        end._replace(names=(*(["protect"] if suspends else []), "check_picture")),
        REPORT,
    )


def _without_changes(s: Situation) -> tuple[Part, ...]:
    """Leave it alone, or do what can be done without rights or without hands: nothing that takes anything away."""
    end = Part("See what runs", "end", ("check",))
    if s.idle:
        return end, REPORT
    names: list[str] = []
    if s.at_the_machine == "no":
        heading = "What can be done from afar"
        names += ["look", "data"]
        if s.admin == "yes":
            names += ["key"] if s.locked_disk else []
            names += [_fetch(s), "restore"]
    else:
        heading = "What can be done without an administrator"
        names += ["wake", "display"] if s.trouble == "no_picture" else []
        names += ["look", "data"] if s.sees else []
    if s.trouble == "crashes" and s.sees:
        names.append("events")
    if s.admin == "no":
        names.append("ask_admin")
    return Part(heading, "ready", tuple(names)), end, REPORT


def _find(s: Situation) -> Part:
    """What to look at first; the one restart in it comes after the disk's key."""
    if s.trouble == "no_picture":
        names = ["wake", "display", *(["look"] if s.sees else [])]
        if s.logo == "unsure":
            names += [_key(s)] if s.locked_disk else []
            names += ["suspend"] if s.locked_disk and s.windows and s.sees else []
            names.append("logo")
    else:
        more = {"crashes": "events", "wrong_settings": "settings", "installer_fails": "package"}.get(s.trouble)
        names = ["look", *([more] if more else [])]
    return Part("Find out first", "find", tuple(names))


def _ready(s: Situation) -> list[Part]:
    """What must be at hand before anything is changed."""
    key_is_found = s.trouble == "no_picture" and s.logo == "unsure"
    key = [_key(s)] if s.locked_disk and not key_is_found else []
    names = ["data", *key, _fetch(s), "restore"] if s.sees else key
    return [Part("Get ready", "ready", tuple(names))] if names else []


def _key(s: Situation) -> str:
    return "key" if s.sees else "key_away"


def _fetch(s: Situation) -> str:
    return "fetch" if s.network == "yes" else "fetch_here"


def _move(s: Situation, first: bool) -> list[str]:
    """Opening the case, where the change still lies ahead: once, in the first plan."""
    if not (first and s.opens_the_case):
        return []
    return ["power_off", "move_disk" if s.change == "moved_system" else "swap", "power_on"]


def _stop(s: Situation, first: bool) -> list[str]:
    """A look whether that was all: a package that is already there may list the card. Of another maker's none does."""
    return ["runs"] if first and s.opens_the_case and s.change != "other_maker" else []


def _stage(s: Situation, depth: int, first: bool) -> tuple[str, ...]:
    if s.windows:
        stage = (_windows_over, _windows_clean, _windows_fresh)[depth - 1]
    else:
        stage = (_linux_over, _linux_clean, _linux_fresh)[depth - 1]
    return tuple(stage(s, first))


def _windows_over(s: Situation, first: bool) -> list[str]:
    suspend, protect = _suspension(s)
    back = ["roll_back"] if s.trouble == "crashes" and s.change == "none" else []
    return [*suspend, *_move(s, first), *_stop(s, first), *back, "install", "restart", *protect, "check"]


def _windows_clean(s: Situation, first: bool) -> list[str]:
    suspend, protect = _suspension(s)
    away = ["export", "hold", "uninstall", "remove"]
    return [*suspend, *away, *_move(s, first), "install", "restart", "release", *protect, "check"]


def _windows_fresh(s: Situation, first: bool) -> list[str]:
    suspend, protect = _suspension(s)
    if not s.sees and s.network == "yes" and s.password == "yes":
        # straight into safe start from a stick; what needs a usual start comes after it
        into = ["password_away", "stick", "stick_start", "data", "copy_in", "stand_in", "hold", "remove"]
        return [*into, "leave_repeat", *suspend, "install", "restart", "release", *protect, "check"]
    account, drop = (["password"], []) if s.password == "yes" else (["make_admin"], ["drop_admin"])
    if s.sees:
        into = account
    else:
        # a coarse picture in a usual start comes first, and with it everything that other plans had before
        way = ["stick", "stick_once"] if s.network == "yes" else ["interrupt_once"]
        into = [*way, *account, "look", "data", "copy_in" if s.network == "yes" else "fetch_here", "restore"]
    away = ["hold", "menu", "safe", "export", "remove", "leave"]
    return [*into, *suspend, *away, "install", "restart", "release", *protect, *drop, "check"]


def _suspension(s: Situation) -> tuple[list[str], list[str]]:
    return (["suspend"], ["protect"]) if s.locked_disk else ([], [])


def _linux_over(s: Situation, first: bool) -> list[str]:
    return [*_move(s, first), *_stop(s, first), "install", *_enrolment(s, "restart"), *_still_locked(s), "check"]


def _linux_clean(s: Situation, first: bool) -> list[str]:
    away = ["rehearse", "remove", "tidy", *_move(s, first)]
    return [*away, "install", "rebuild", *_enrolment(s, "restart"), *_still_locked(s), "check"]


def _linux_fresh(s: Situation, first: bool) -> list[str]:
    account, drop = (["password"], []) if s.password == "yes" else (["make_admin"], ["drop_admin"])
    into = account if s.sees else ["coarse", *account, "look", "data", _fetch(s), "restore"]
    away = ["text_start", "rehearse", "remove", "tidy", "install", "rebuild"]
    return [*into, *away, *_enrolment(s, "leave"), *_still_locked(s), *drop, "check"]


def _enrolment(s: Situation, start: str) -> list[str]:
    """The restart, with the signing key enrolled at the screen where secure boot may ask for it."""
    return ["enrol", f"{start}_enrol"] if s.enrols else [start]


def _still_locked(s: Situation) -> list[str]:
    return ["protect"] if s.locked_disk else []


def worded(parts: Iterable[Part], words: Mapping[str, Step]) -> tuple[Step, ...]:
    """
    The steps of a plan with their words, keys and headings.

    Args:
        parts: As `choose` gives them. [list]
        words: The steps by name, for the system at hand. [mapping]

    Returns:
        The steps in order; each key is its part's and its own name, and stays the same as long as the plan does.
        A suspension of the disk's protection counts the restarts until the next or until it ends. [list]

    Raises:
        KeyError: A name has no step.

    Source:
        None: a look-up.

    Example:
        >>> from calculators.drivers.plans.shared_steps import SHARED
        >>> worded([REPORT], SHARED)[0].key
        'last-report'
    """
    chosen = [
        replace(
            words[name],
            key=f"{part.prefix}-{name.replace('_', '-')}",
            group=part.heading,
            deeper=part.deeper and part.depth > 0,
        )
        for part in parts
        for name in part.names
    ]
    return tuple(
        _counted(step, chosen[i + 1 :]) if "gives:suspended" in step.tags else step for i, step in enumerate(chosen)
    )


def _counted(step: Step, after: list[Step]) -> Step:
    covered: list[Step] = []
    for later in after:
        if "ends:suspended" in later.tags or "gives:suspended" in later.tags:
            break
        covered.append(later)
    count = restarts(covered)
    return replace(
        step,
        title=step.title.replace("RESTARTS", plural(count, "restart")),
        commands=tuple(c.replace("COUNT", str(count)) for c in step.commands),
    )
