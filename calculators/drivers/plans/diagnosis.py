"""
Is it the driver at all, and how deep must one go? The judgement, with its reason; no steps.

Rests on which parts draw a picture when: the firmware alone until its logo is gone, then the system's basic
driver or the maker's. All of it common practice, but for the restart of a display driver, which the system's
maker describes (see SOURCES in reset.py).
"""

from __future__ import annotations

from typing import NamedTuple

from calculators.desk.answer import DEPENDS, NO, YES, Note
from calculators.desk.numbers import listed
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
    if s.logo == "no" or s.idle:
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

    Raises:
        Nothing.

    Source:
        Common practice, no source; the order of firmware, basic driver and maker's driver at a start is how both
        systems work, from memory.

    Example:
        >>> from calculators.drivers.plans.situation import ANSWERS
        >>> s = Situation(**{key: values[0] for key, values in ANSWERS.items()})
        >>> diagnose(s._replace(logo="no")).verdict
        'no'
    """
    if s.logo == "no":
        return Diagnosis(0, NO, "Not the driver.", LOGO_REASON, LOGO_LEAD, _logo_notes(s))
    if s.idle:
        lead = "Leave the driver alone: nothing was changed and nothing is wrong"
        return Diagnosis(0, NO, "Not needed.", IDLE_REASON, lead, ())
    notes = _notes(s)
    if s.admin == "no" or s.at_the_machine == "no":
        return Diagnosis(0, NO, "Not like this.", _refusal(s), _refusal_lead(s), notes)
    depth = needed_depth(s)
    return Diagnosis(depth, *_verdict(s), _lead(s, depth), notes)


LEADS = {
    1: "Install the maker's current package over what is there",
    2: "Save and remove the old driver, then install the new one",
    3: "Start over in the system's safe start",
}
MAY_RUN_LEAD = "Swap the card, and install its maker's current package only if it does not run by itself"
LOGO_LEAD = "It is not the driver: without the firmware's logo no driver has run yet"
LOGO_REASON = (
    "The firmware draws its logo before any driver is loaded, so look at cable, socket, power leads, the display's "
    "input and the seat of the card."
)
IDLE_REASON = "A driver that works needs no repair, and every repair has its risks."


def _lead(s: Situation, depth: int) -> str:
    """What to do; a card that this machine may know already is tried before anything is installed."""
    return MAY_RUN_LEAD if s.change == "moved_card" and s.trouble == "none" else LEADS[depth]


def _refusal(s: Situation) -> str:
    reasons = []
    if s.admin == "no":
        reasons.append("the system lets only an administrator change drivers")
    if s.at_the_machine == "no":
        reasons.append(
            "installing a display driver takes the picture, and the restart after it the network, with nobody there "
            "if neither comes back"
        )
    sentence = listed(reasons)
    return sentence[0].upper() + sentence[1:] + "."


def _refusal_lead(s: Situation) -> str:
    if s.admin == "no" and s.at_the_machine == "no":
        return "Change no driver without an administrator's rights, nor from afar: gather the facts and wait"
    if s.admin == "no":
        return "Change no driver without an administrator's rights: gather the facts and ask for them"
    return "Change no display driver from afar: prepare everything, and do the rest at the machine"


def _verdict(s: Situation) -> tuple[str, str, str]:
    """Verdict, the same in the words of the question, and reason, where a plan may go ahead."""
    if s.trouble == "no_picture":
        if s.logo == "unsure":
            return (
                DEPENDS,
                "Perhaps the driver.",
                (
                    "If the firmware's logo is seen, the driver is a likely cause; if not, no driver is to blame, so "
                    "watch for it first."
                ),
            )
        if not s.sees and (s.password == "no" or s.network == "no"):
            return (
                DEPENDS,
                "Likely the driver.",
                (
                    "The driver is a likely cause, but this way needs a coarse picture once; if it does not come "
                    "either, borrow a card or ask a technician."
                ),
            )
        reason = "The logo is seen and then the picture is lost, which points to the driver or the mode it sets."
        return YES, "Likely the driver.", reason
    if s.trouble == "crashes":
        reason = "The driver is one suspect; heat, power, tuned settings and a tired card are the others."
        return DEPENDS, "Perhaps the driver.", reason
    if s.trouble == "wrong_settings":
        reason = "A wrong picture is more often a setting or a cable than a driver, so those come first."
        return DEPENDS, "Seldom the driver.", reason
    if s.trouble == "installer_fails":
        reason = "What is left of an older driver can block a new one, once it is sure that the package fits."
        return YES, "Likely the old driver.", reason
    return {
        "same_maker": (
            YES,
            "Install over the old driver.",
            "If the current package lists the new card, it replaces the old one; nothing has to go.",
        ),
        "other_maker": (
            YES,
            "It needs a new driver.",
            "The new card needs its own maker's driver, and the old maker's programs are then idle.",
        ),
        "moved_card": (
            DEPENDS,
            "Only if it does not run by itself.",
            (
                "The driver lives on the system's disk, not on the card: if this machine has a package that lists the "
                "card, it needs nothing more."
            ),
        ),
        "moved_system": (
            YES,
            "It needs a new driver.",
            "The moved system knows the old machine's card; for this one it needs a package.",
        ),
    }[s.change]


def _logo_notes(s: Situation) -> tuple[Note, ...]:
    if s.trouble == "no_picture":
        return ()
    return (
        Note(
            "But a picture comes later?",
            "Some displays wake too slowly to show the logo, and a quick start can hide it. If the system's picture "
            "does come, answer 'not sure' to the question about the logo.",
        ),
    )


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
DARK = Note(
    "Logo seen, then dark",
    "The firmware draws the logo without the system's driver. When the picture is lost after it, the driver sets a "
    "mode or a socket that gives none. Cable, display and card have just shown that they can.",
)


def _notes(s: Situation) -> tuple[Note, ...]:
    about = {"crashes": RECOVERED if s.windows else HANG, "no_picture": DARK}.get(s.trouble)
    return (*([about] if about else []), ABOUT_CHANGE[s.change])
