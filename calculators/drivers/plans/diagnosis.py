"""
Is it the driver at all, and how deep must one go? The judgement, with its reason; no steps.

Rests on which parts draw a picture when: the firmware alone until its logo is gone, then the system's basic
driver or the maker's. All of it common practice, but for the restart of a display driver, which the system's
maker describes (see SOURCES in reset.py).
"""

from __future__ import annotations

from typing import NamedTuple

from calculators.desk.answer import DEPENDS, NO, YES, Note
from calculators.drivers.plans.plan_order import tries
from calculators.drivers.plans.situation import Situation

# How deep the first plan goes: by what goes wrong, and what was changed (same_maker, other_maker, moved_card,
# moved_system, none). 0 leave alone, 1 install over, 2 remove and install, 3 start over in safe start.
DEPTHS = {
    "none": (1, 2, 1, 1, 0),
    "no_picture": (1, 2, 1, 1, 1),  # with another picture to work by; without any it is 3
    "crashes": (1, 2, 1, 2, 1),
    "wrong_settings": (1, 2, 1, 1, 1),
    "installer_fails": (2, 2, 2, 2, 2),
}
CHANGE_ORDER = ("same_maker", "other_maker", "moved_card", "moved_system", "none")


class Diagnosis(NamedTuple):
    """
    The judgement.

    depth: 0 to 3, as in DEPTHS. verdict: yes (go ahead with this plan), depends or no. says: the verdict in the words
    of the question. reason: one sentence.
    lead: one sentence without its full stop, to which a plan's counts are added; whole where there is no plan.
    notes: what the judgement rests on.
    """

    depth: int
    verdict: str
    says: str
    reason: str
    lead: str
    notes: tuple[Note, ...]


def needed_depth(s: Situation) -> int:
    """How deep a plan would go if nothing forbade it. [1], 0 to 3."""
    if s.logo == "no" or s.idle or s.refuses_a_card:
        return 0
    if not s.sees:
        return 3
    return DEPTHS[s.trouble][CHANGE_ORDER.index(s.change)]


def diagnose(s: Situation) -> Diagnosis:
    """
    Is it the driver, and how deep must one go?

    Args:
        s: The situation. [object]

    Returns:
        The judgement. [object]

    Source:
        Common practice, no source; the order of firmware, basic driver and maker's driver at a start is how both
        systems work, from memory.

    Example:
        >>> from calculators.drivers.plans.situation import ANSWERS
        >>> s = Situation(**{key: values[0] for key, values in ANSWERS.items()})
        >>> diagnose(s._replace(trouble="no_picture", logo="no")).verdict
        'no'
    """
    if s.idle:
        lead = "Leave the driver alone: nothing was changed and nothing is wrong"
        return Diagnosis(0, NO, "Not needed.", IDLE_REASON, lead, ())
    if s.shows_after_all and s.trouble == "none":
        return Diagnosis(0, DEPENDS, "A picture is there.", NOTHING_REASON, NOTHING_LEAD, ())
    if s.shows_after_all:
        return Diagnosis(0, DEPENDS, "A picture is there.", SHOWS_REASON, SHOWS_LEAD, ())
    if s.dark_from_the_start:
        return Diagnosis(0, NO, "Not the driver.", LOGO_REASON, _logo_lead(s), ())
    notes = _notes(s)
    if s.refuses_a_card:
        return Diagnosis(0, NO, "Not in a laptop.", LAPTOP_REASON, LAPTOP_LEAD, notes)
    if s.admin == "no" or s.at_the_machine == "no":
        return Diagnosis(0, NO, _refused(s), _refusal(s), _refusal_lead(s), notes)
    return Diagnosis(needed_depth(s), *_verdict(s), _lead(s), notes)


# How the headline begins: with the step that is tried first, by its name.
ABOUT_TO_TRY = {
    "sockets": "First try other sockets and the display's input",
    "sockets_laptop": "First try other sockets and an outside display",
    "wake": "First press Windows, Ctrl, Shift and B together",
    "older_kernel": "First start the older kernel from the start menu",
    "another_kernel": "First start another kernel, if there is one",
    "cool": "First look for heat, dust and loose leads",
    "settings": "First look at the display's settings",
    "look": "First see which driver is in use",
    "package": "First see whether the package lists your card",
    "fits": "First see that the card fits",
    "events": "First see when it began",
    "logo_again": "Look for the logo once more",
    "ask_there": "Ask somebody at the machine about display, cable and logo",
}
# And how it goes on: by what goes wrong, and where nothing does, by what is to be changed.
AFTER_THAT = {
    "crashes": "a new driver comes only after that",
    "installer_fails": "then remove the old driver and install the new",
    "same_maker": "then swap it and install over the old driver",
    "other_maker": "then remove the old driver, swap, and install the new",
    "moved_card": "swap it, and install only if it does not run",
    "moved_system": "then move the disk and install the new machine's driver",
}
SHOWS_LEAD = "Look for the logo once more: what goes wrong shows that a picture is there"
NOTHING_LEAD = "Look for the logo once more: where nothing is wrong, a picture is there"
NOTHING_REASON = "Where nothing is wrong there is a picture, so the logo is merely hidden."
SHOWS_REASON = "Who can see what goes wrong has a picture, so the logo is merely hidden."
LOGO_REASON = "The firmware draws its logo before any driver loads: cable, socket and leads come first."
LAPTOP_LEAD = "First see which driver is in use, and leave a laptop's graphics to its maker"
LAPTOP_REASON = "A laptop's graphics chip is seldom made to be changed; its maker knows."
IDLE_REASON = "A driver that works needs no repair, and every repair has its risks."


def _lead(s: Situation) -> str:
    """What is tried first, and what comes after it."""
    if s.trouble == "no_picture":
        after = "safe start only if that fails" if not s.sees else "a new driver only if that fails"
    elif s.trouble == "wrong_settings":
        after = "the driver comes last" if s.change == "none" else "install only if it is the system's basic one"
    else:
        after = AFTER_THAT[s.change if s.trouble == "none" else s.trouble]
    return f"{_first(s)}; {after}"


def _logo_lead(s: Situation) -> str:
    if s.at_the_machine == "no":
        return f"{_first(s)}: it is not the driver"
    return f"{_first(s)}: without the firmware's logo no driver has run, so it is not the driver"


def _refused(s: Situation) -> str:
    """The refusal's nearer half, where there are two: the reason has both."""
    return "Not from afar." if s.at_the_machine == "no" else "Not without an administrator."


def _refusal(s: Situation) -> str:
    if s.admin == "no" and s.at_the_machine == "no":
        return "Only an administrator may change drivers, and from afar lost picture or network stays lost."
    if s.admin == "no":
        return "The system lets only an administrator change drivers."
    return "From afar nobody is there if the picture or the network does not come back."


def _refusal_lead(s: Situation) -> str:
    if s.admin == "no" and s.at_the_machine == "no":
        after = "change none from afar, nor without an administrator's rights"
    elif s.admin == "no":
        after = "then gather the facts, and ask for an administrator's rights"
    else:
        after = "prepare the rest from afar, and change the driver only at the machine"
    return f"{_first(s)}; {after}"


def _first(s: Situation) -> str:
    """How the headline begins: with the first of the steps to try, a key that must be at hand before it not counted."""
    name = next(name for name in tries(s) if name in ABOUT_TO_TRY)
    if name == "older_kernel" and s.family == "arch":  # an upgrade replaces the kernel there
        name = "another_kernel"
    return ABOUT_TO_TRY[name]


def _verdict(s: Situation) -> tuple[str, str, str]:
    """Verdict, the same in the words of the question, and reason, where a plan may go ahead."""
    if s.trouble == "no_picture":
        if s.logo == "unsure":
            reason = "If the logo is seen, suspect the driver; if not, no driver is to blame."
            return DEPENDS, "Perhaps the driver.", reason
        if not s.sees and (s.password == "no" or s.network == "no"):
            reason = "The driver is likely, but without password or second device the way in is harder."
            return DEPENDS, "Likely the driver.", reason
        return YES, "Likely the driver.", "The logo is seen, then the picture goes: the driver, or the socket it chose."
    if s.trouble == "crashes":
        reason = "Heat, power, tuned settings and a tired card are suspects as much as the driver."
        return DEPENDS, "Perhaps the driver.", reason
    if s.trouble == "wrong_settings":
        if s.change == "none":
            return DEPENDS, "Seldom the driver.", "A wrong picture is mostly a setting, a socket or a cable."
        reason = "On the basic driver the picture is coarse; on the maker's, look at the settings."
        return DEPENDS, "Perhaps the driver.", reason
    if s.trouble == "installer_fails":
        reason = "An older driver's remains can block a new one, if the package fits at all."
        return YES, "Likely the old driver.", reason
    return {
        "same_maker": (
            YES,
            "Install over the old driver.",
            "One package serves many cards of a maker, and a current one replaces the old.",
        ),
        "other_maker": (
            YES,
            "It needs a new driver.",
            "The new card needs its own maker's driver; the old one then idles.",
        ),
        "moved_card": (
            DEPENDS,
            "Only if it does not run by itself.",
            "The driver lives on the system's disk, so this machine may already have one.",
        ),
        "moved_system": (
            YES,
            "It needs a new driver.",
            "The moved system knows another machine's card, and needs a driver for this one.",
        ),
    }[s.change]


ABOUT_CHANGE = {
    "same_maker": Note(
        "A newer card of the same maker",
        "One package serves many cards of its maker. If the current package lists the new card, it replaces the old "
        "one by itself, and nothing has to be removed first.",
    ),
    "other_maker": Note(
        "A card of another maker",
        "A driver without its card is not even loaded, so two makers' packages can lie side by side. But the old "
        "maker's programs and services go on starting; that is why they are removed once, with a way back.",
    ),
    "moved_card": Note(
        "A card from another machine",
        "A card brings no driver with it: the driver lives on the system's disk. The card keeps no trace of its old "
        "machine, unless somebody changed its firmware.",
    ),
    "moved_system": Note(
        "A system from another machine",
        "The system meets strange hardware, starts on its basic driver, and then wants drivers for what is new. What "
        "it had for the old machine stays behind without harm. An encrypted disk will ask for its recovery key.",
    ),
    "none": Note(
        "Nothing was changed inside",
        "Then look for what changed by itself: an update, heat, dust, age, or a setting that was tuned further than "
        "the card can bear.",
    ),
}
RECOVERED = Note(
    "What 'stopped responding and recovered' means",
    "The card took too long over one piece of work, so the system started its driver anew to save your desktop. By "
    "the description of the system's maker the limit is two seconds, and after six or more such hangs within a "
    "minute the next one stops the whole machine. Now and then under heavy load it is no fault; often, it is heat, "
    "power, tuned settings, a tired card, or the driver. Do not lengthen the limit: its maker keeps that for testing.",
)
HANG = Note(
    "What a hang of the card means",
    "The kernel found that the card no longer answered and reset it, so that the desktop could go on. Now and then "
    "under heavy load it is no fault; often, it is heat, power, tuned settings, a tired card, or the driver.",
)
TWO_CHIPS = Note(
    "Two graphics chips, two sets of sockets",
    "The board's sockets, up beside USB, belong to the graphics in the processor; the sockets low down, in the row of "
    "slots, belong to the card. Each chip has its own driver. A display in the board's socket leaves the card idle for "
    "most programs, and a driver for the one does nothing for the other.",
)
LAPTOP = Note(
    "In a laptop the machine's maker comes first",
    "Two chips often share one screen there, and the maker has fitted their drivers to it. Take the display drivers "
    "from the page of your model, the processor's graphics first; the chip maker's own package only after that.",
)
SESSION = Note(
    "The other kind of session",
    "Many desktops offer two kinds at sign-in, called Wayland and X11, behind a small wheel beside the name. If one "
    "stays dark, flickers or shows the wrong size, sign in once to the other: that tells the driver from the desktop.",
)
DARK = Note(
    "Logo seen, then dark",
    "The firmware draws the logo without the system's driver. When the picture is lost after it, the driver sets a "
    "mode or a socket that gives none. Cable, display and card have just shown that they can.",
)


def _notes(s: Situation) -> tuple[Note, ...]:
    about = {"crashes": RECOVERED if s.windows else HANG, "no_picture": DARK}.get(s.trouble)
    return (
        *([about] if about else []),
        ABOUT_CHANGE[s.change],
        *([TWO_CHIPS] if s.machine == "two_chips" else []),
        *([LAPTOP] if s.laptop else []),
        *([SESSION] if not s.windows and s.trouble in ("no_picture", "crashes", "wrong_settings") else []),
    )
