"""
Which steps, in which order: the gentlest plan that fits, then the deeper ones that are left.

Chooses by name only; the words stand in windows_steps.py, linux_steps.py and shared_steps.py. The order follows
from a few rules that tests/calculators/drivers/test_rules.py and test_order.py hold against every combination of
inputs: what is short and harmless first, the way back before the way forth, nothing away before the new is there,
the key before the restart.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import NamedTuple

from calculators.desk.answer import Step
from calculators.desk.numbers import plural
from calculators.drivers.plans.consoles import ON_WINDOWS, Consoles, with_consoles
from calculators.drivers.plans.situation import CARDS, Situation
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


FIRST = "Try these first"
REPORT = Part("If nothing of this works", "last", ("report",), deeper=True)


def choose(s: Situation, depth: int) -> tuple[Part, ...]:
    """
    The parts of the plan for a situation.

    Args:
        s: The situation. [object]
        depth: How deep the first plan goes, as the diagnosis says. [1], 0 to 3.

    Returns:
        The parts in order, ending with what to report. [list]

    Source:
        The rules named in this file's first lines; common practice, no source.

    Example:
        >>> from calculators.drivers.plans.situation import ANSWERS
        >>> idle = Situation(**{key: values[-1] for key, values in ANSWERS.items()})._replace(trouble="none")
        >>> [part.prefix for part in choose(idle._replace(logo="yes"), 0)]
        ['end', 'last']
    """
    if s.idle:
        return Part("See what runs", "end", ("check",)), REPORT
    first = Part(FIRST, "first", tuple(tries(s)))
    if s.shows_after_all:
        return first, Part("See what runs", "end", ("check",)), REPORT
    if s.dark_from_the_start:
        return _dark_from_the_start(s, first)
    if depth == 0:
        return _without_changes(s, first)
    inside = _inside(s)
    parts = [first, *_prepared(s, first, inside), *inside, *_find(s, first)]
    parts += _ready(s, {name for part in parts for name in part.names})
    for deep in range(depth, DEEPEST + 1):
        is_first = deep == depth
        heading = f"{'The plan' if is_first else 'If it does not work'}: {PLANS[deep]}"
        taken = {name for part in parts for name in part.names}
        parts.append(Part(heading, PREFIXES[deep], _stage(s, deep, is_first, taken), deep, not is_first))
    return (*parts, REPORT)


def tries(s: Situation) -> list[str]:
    """
    What to try first: one to three short steps, chosen by what goes wrong and what changed.

    Args:
        s: The situation; not one in which nothing changed and nothing is wrong. [object]

    Returns:
        The steps' names. With an encrypted disk the key comes before a step that restarts. [list]

    Source:
        Common practice, no source.

    Example:
        >>> from calculators.drivers.plans.situation import ANSWERS
        >>> s = Situation(**{key: values[0] for key, values in ANSWERS.items()})
        >>> tries(s._replace(trouble="crashes"))
        ['cool', 'events', 'look']
    """
    if s.shows_after_all:
        return ["logo_again"]
    if s.at_the_machine == "no":
        if s.dark_from_the_start:
            return ["ask_there"]
        return {"crashes": ["events", "look"], "installer_fails": ["package", "look"]}.get(s.trouble, ["look"])
    sockets = "sockets_laptop" if s.laptop else "sockets"
    if s.trouble == "no_picture":
        if s.logo == "no":
            return [sockets, "display"]
        if s.change == "none" and s.logo == "yes" and not s.windows:
            key = [_key(s)] if s.locked_disk else []
            return [*key, "older_kernel", sockets if s.machine == "two_chips" else "wake"]
        if s.change == "none" and s.logo == "yes":  # the logo has shown that cable and display can
            return ["wake", sockets, "display"]
        return [sockets, "display", "wake"]
    if s.trouble == "crashes":
        return ["cool", "events", "look"]
    if s.trouble == "wrong_settings":
        third = sockets if s.machine != "desktop" else "display"
        return ["settings", third, "look"] if s.change == "none" else ["look", "settings", third]
    if s.trouble == "installer_fails":
        return ["package", "look"]
    return ["fits", "look"] if s.change in CARDS and not s.laptop else ["look"]


def _dark_from_the_start(s: Situation, first: Part) -> tuple[Part, ...]:
    """The plan where no picture ever comes, which no driver causes: socket, input, then leads, seat and card inside."""
    end = Part("Check that it worked", "end", ("check_picture",))
    if s.at_the_machine == "no" or s.laptop:
        return first, end, REPORT
    suspends = s.windows and s.locked_disk and s.sees and s.admin == "yes"
    prepared = [*([_key(s)] if s.locked_disk else []), *(["suspend"] if suspends else [])]
    prepared += [_photos(s)] if s.sees else []
    ready = [Part("Get ready to open the machine", "prep", tuple(prepared))] if prepared else []
    last = (
        _old_card(s)
        if s.change in CARDS
        else Part("If it stays dark: without the card", "bare", ("power_off", "without_card", "power_on"))
    )
    return (
        first, *ready, LEADS, last, end._replace(names=(*(["protect"] if suspends else []), "check_picture")), REPORT,
    )  # fmt: skip


LEADS = Part("Then, with the machine off and open: power leads and seat", "open", ("power_off", "seat", "power_on"))


def _old_card(s: Situation) -> Part:
    return Part("Then the old card back, as a test", "back", ("power_off", "old_card", "power_on"))


def _without_changes(s: Situation, first: Part) -> tuple[Part, ...]:
    """What can be done without rights, without hands, or without a card to change: nothing that takes anything away."""
    end = Part("See what runs", "end", ("check",))
    from_afar = s.at_the_machine == "no"
    heading = "What can be done from afar" if from_afar else "What can be done as it is"
    names = ["look", "data"] if (from_afar or s.sees) and not s.refuses_a_card else []
    names += ["machine_maker"] if s.laptop else []
    if from_afar and s.admin == "yes" and not s.refuses_a_card:
        names += [*(["key"] if s.locked_disk else []), _fetch(s), "restore"]
    names += ["ask_admin"] if s.admin == "no" and not s.refuses_a_card else []
    names = [name for name in names if name not in first.names]
    return first, *([Part(heading, "ready", tuple(names))] if names else []), end, REPORT


def _inside(s: Situation) -> list[Part]:
    """
    The parts that are tried next: leads and old card, with the machine open; less strain; the older kernel.

    After the test with the old card the new one goes in again: what follows installs a driver for it.
    """
    parts = []
    if not s.laptop and (s.trouble == "crashes" or (s.trouble == "no_picture" and s.change in CARDS)):
        parts.append(LEADS)
    if not s.laptop and s.trouble == "no_picture" and s.change in CARDS:
        old = _old_card(s)
        parts += [old, Part(old.heading, "again", ("power_off", "new_card", "power_on"))]
    older = ["older_kernel"] if not s.windows and s.change == "none" else []
    if s.trouble == "crashes":
        parts.append(Part("Then take the strain off", "simple", ("calm", *older)))
    elif s.trouble == "no_picture" and s.logo == "unsure" and older:
        parts.append(Part("Then back to what ran before", "simple", ("older_kernel",)))
    return parts


def _prepared(s: Situation, first: Part, inside: list[Part]) -> list[Part]:
    """The key, the protection suspended, the logo looked for and the settings photographed, before what comes next."""
    watches = s.trouble == "no_picture" and s.logo == "unsure"
    if not inside and not watches:
        return []
    names = [_key(s)] if s.locked_disk and _key(s) not in first.names else []
    names += ["suspend"] if s.windows and s.locked_disk and s.sees else []
    names += ["logo"] if watches else []
    names += [_photos(s)] if any(name in ("seat", "calm") for part in inside for name in part.names) else []
    return [Part("Get ready for what comes next", "prep", tuple(names))] if names else []


def _find(s: Situation, first: Part) -> list[Part]:
    """The part for finding out what runs, if the plan has not begun with that."""
    names = ["look"] if s.sees and "look" not in first.names else []
    return [Part("Find out what runs", "find", tuple(names))] if names else []


def _ready(s: Situation, done: set[str]) -> list[Part]:
    """What must be at hand before anything is installed or removed."""
    key = [_key(s)] if s.locked_disk and _key(s) not in done else []
    maker = ["machine_maker"] if s.laptop else []
    names = [*key, "data", *maker, _fetch(s), "restore"] if s.sees else [*key, *maker]
    return [Part("Get ready", "ready", tuple(names))] if names else []


def _key(s: Situation) -> str:
    return "key" if s.sees and s.admin == "yes" else "key_away"


def _photos(s: Situation) -> str:
    return "photos" if s.sees and s.admin == "yes" else "photos_keys"


def _fetch(s: Situation) -> str:
    return "fetch" if s.network == "yes" else "fetch_here"


def _move(s: Situation, first: bool) -> list[str]:
    """Opening the case, where the change still lies ahead: once, in the first plan."""
    if not (first and s.opens_the_case):
        return []
    return (
        ["power_off_both", "move_disk", "power_on"] if s.change == "moved_system" else ["power_off", "swap", "power_on"]
    )


def _stop(s: Situation, first: bool) -> list[str]:
    """A look whether that was all: a package that is already there may list the card. Of another maker's none does."""
    return ["runs"] if first and s.opens_the_case and s.change != "other_maker" else []


def _basic(s: Situation, first: bool) -> list[str]:
    """A wrong picture after a change: on the maker's driver it is a setting, and nothing is installed or removed."""
    return ["only_if_basic"] if first and s.trouble == "wrong_settings" and s.change != "none" else []


def _account(s: Situation) -> tuple[list[str], list[str]]:
    """An administrator's password that is known to work, or an account made to have one; and that account's end."""
    return (["password"], []) if s.password == "yes" else (["make_admin"], ["drop_admin"])


def _stage(s: Situation, depth: int, first: bool, taken: set[str]) -> tuple[str, ...]:
    if s.windows:
        stage = (_windows_over, _windows_clean, _windows_fresh)[depth - 1]
    else:
        stage = (_linux_over, _linux_clean, _linux_fresh)[depth - 1]
    photos = [] if {"photos", "photos_keys"} & taken else [_photos(s)]
    return tuple(stage(s, first, photos))


def _before_moving(s: Situation, first: bool, photos: list[str]) -> tuple[list[str], list[str], list[str]]:
    """Where a card or a disk is about to be moved: the account that must work afterwards, its end, the photographs."""
    if not (first and s.opens_the_case):
        return [], [], []
    account, drop = _account(s) if s.change == "moved_system" else ([], [])
    return account, drop, photos


def _windows_over(s: Situation, first: bool, photos: list[str]) -> list[str]:
    suspend, protect = _suspension(s)
    account, drop, pictures = _before_moving(s, first, photos)
    back = ["roll_back"] if s.trouble == "crashes" and s.change == "none" else []
    into = [*_basic(s, first), *account, *suspend, *pictures, *_move(s, first), *_stop(s, first), *back]
    return [*into, "install", "restart", *protect, *drop, "check"]


def _windows_clean(s: Situation, first: bool, photos: list[str]) -> list[str]:
    suspend, protect = _suspension(s)
    account, drop, pictures = _before_moving(s, first, photos)
    away = ["export", "hold", "uninstall", "remove"]
    into = [*_basic(s, first), *account, *suspend, *pictures, *away, *_move(s, first)]
    return [*into, "install", "restart", "release", *protect, *drop, "check"]


def _windows_fresh(s: Situation, first: bool, photos: list[str]) -> list[str]:
    suspend, protect = _suspension(s)
    if not s.sees and s.network == "yes" and s.password == "yes":
        # straight into one safe start from a stick; what needs a usual start comes after it
        into = ["password_away", *photos, "stick", "stick_safe", "data", "copy_in", "stand_in", "hold", "remove"]
        return [*into, "leave", *suspend, "install", "restart", "release", *protect, "check"]
    account, drop = _account(s)
    if s.sees:
        into = [*account, *suspend, *photos]
    else:
        # a coarse picture in a usual start comes first, and with it everything that other plans had before
        way = ["stick", *photos, "stick_once"] if s.network == "yes" else ["borrow", *photos, "interrupt_once"]
        fetch = "copy_in" if s.network == "yes" else "fetch_here"
        into = [*way, *account, "look", "data", fetch, "restore", *suspend]
    away = ["hold", "menu", "safe", "export", "remove", "leave"]
    return [*into, *away, "install", "restart", "release", *protect, *drop, "check"]


def _suspension(s: Situation) -> tuple[list[str], list[str]]:
    return (["suspend"], ["protect"]) if s.locked_disk else ([], [])


def _linux_over(s: Situation, first: bool, photos: list[str]) -> list[str]:
    account, drop, pictures = _before_moving(s, first, photos)
    into = [*_basic(s, first), *account, *pictures, *_move(s, first), *_stop(s, first)]
    return [*into, *_installed(s, photos if not pictures else []), *_still_locked(s), *drop, "check"]


def _linux_clean(s: Situation, first: bool, photos: list[str]) -> list[str]:
    account, drop, pictures = _before_moving(s, first, photos)
    away = [*_basic(s, first), *account, *pictures, "rehearse", "remove", "tidy", *_move(s, first)]
    return [*away, *_installed(s, photos if not pictures else [], "rebuild"), *_still_locked(s), *drop, "check"]


def _linux_fresh(s: Situation, first: bool, photos: list[str]) -> list[str]:
    account, drop = _account(s)
    way = [*(["borrow"] if s.network == s.password == "no" else []), *photos, "coarse"]
    into = [*account, *photos] if s.sees else [*way, *account, "look", "data", _fetch(s), "restore"]
    away = ["text_start", "rehearse", "remove", "tidy", "install", "built", "rebuild"]
    return [*into, *away, *_enrolment(s, "leave"), *_still_locked(s), *drop, "check"]


def _installed(s: Situation, photos: list[str], *then: str) -> list[str]:
    """Installed, built and looked at, and started; with photographs before a key is enrolled for secure boot."""
    return [*(photos if s.enrols else []), "install", "built", *then, *_enrolment(s, "restart")]


def _enrolment(s: Situation, start: str) -> list[str]:
    """The restart, with the signing key enrolled at the screen where secure boot may ask for it."""
    return ["enrol", f"{start}_enrol"] if s.enrols else [start]


def _still_locked(s: Situation) -> list[str]:
    return ["protect"] if s.locked_disk else []


def worded(parts: Iterable[Part], words: Mapping[str, Step], consoles: Consoles = ON_WINDOWS) -> tuple[Step, ...]:
    """
    The steps of a plan with their words, keys and headings.

    Args:
        parts: As `choose` gives them. [list]
        words: The steps by name, for the system at hand. [mapping]
        consoles: How that system's console is opened. [object]

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
    counted = (
        _counted(step, chosen[i + 1 :]) if "gives:suspended" in step.tags else step for i, step in enumerate(chosen)
    )
    return with_consoles(counted, consoles)


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
