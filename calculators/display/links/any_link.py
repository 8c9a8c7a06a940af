"""The answer where the link itself is not known: what the mode needs, which links are enough, and how to find out."""

from __future__ import annotations

from calculators.desk.answer import DEPENDS, YES, Answer, Caution, Figure, Note, Source, Step, Verdict, figure
from calculators.desk.inputs import UNSURE
from calculators.desk.numbers import listed
from calculators.display.links.compromises import Wish
from calculators.display.links.every_link import Every, all_links, asked, every_link, refuse_too_slow
from calculators.trade.frame_rates import exact_rates_note
from calculators.trade.links.link_input import DISPLAYPORT_NO_SPEED, HDMI_NO_SPEED
from calculators.trade.links.link_rates import Link

_KINDS = {
    UNSURE: ("dp-", "usb-c-", "hdmi-", "dvi-"),
    HDMI_NO_SPEED: ("hdmi-",),
    DISPLAYPORT_NO_SPEED: ("dp-",),
}
_REASONS = {
    UNSURE: "The link decides: find out which socket and speed you have.",
    HDMI_NO_SPEED: "A 2.1 on the box fixes no speed: look for Gb/s in the data sheet.",
    DISPLAYPORT_NO_SPEED: "A 2.1 on the box fixes no speed: look for HBR or UHBR.",
}


def any_link(wish: Wish, open_choice: str, sources: tuple[Source, ...], caution: Caution) -> Answer:
    """
    The answer for 'not sure', or for a version that fixes no speed.

    Args:
        wish: What is wanted; its link is set aside. [object]
        open_choice: Which of the open choices was made. [text]
        sources: The calculator's sources. [list]
        caution: The calculator's caution. [object]

    Returns:
        The answer; its verdict depends. [object]

    Raises:
        InputErrors: There is no such mode.

    Source:
        As the rules of every kind of link, in fitting.py.

    Example:
        >>> from calculators.trade.links.link_rates import link
        >>> wish = Wish(3840, 2160, 60, 8, "rgb", "usual", False, link("dp-hbr3"), 4)
        >>> any_link(wish, "unsure", (), Caution("machine", "None.")).verdict.word
        'depends'
    """
    made = wish.mode()
    refuse_too_slow(made)
    every = every_link(wish)
    within = [(one, outcome) for one, outcome in every if one.key.startswith(_KINDS[open_choice])]
    enough = _slowest(within)
    needed = next(outcome for one, outcome in within if not one.key.startswith("dvi-")).needed.value / 1e9
    figures: list[Figure] = [
        figure("needed_gb_s", "Needed", needed, "Gb/s", main=True),
        figure("pixel_clock_mhz", "Pixel clock", made.clock_mhz, "MHz", 3),
    ]
    figures += [figure(f"enough_{key}", f"Enough over {title}", one.name, main=True) for key, title, one in enough]
    return Answer(
        headline=_headline(wish, open_choice, [one for _, _, one in enough]),
        verdict=Verdict(DEPENDS, _REASONS[open_choice], "It depends on the link."),
        figures=tuple(figures),
        tables=(all_links(wish, every, ""),),
        steps=_STEPS,
        steps_title="Find out which link you have",
        notes=(*_notes(open_choice, within), *_exact_rate(wish)),
        cautions=(caution,),
        sources=sources,
    )


def _slowest(within: Every) -> list[tuple[str, str, Link]]:
    """The slowest link of each standard that is sure to carry the mode."""
    slowest = []
    kinds = (("dp-", "displayport", "DisplayPort"), ("usb-c-", "usb_c", "USB-C"), ("hdmi-", "hdmi", "HDMI"))
    for prefix, key, title in kinds:
        carrying = [one for one, fit in within if one.key.startswith(prefix) and fit.word == YES]
        if carrying:
            slowest.append((key, title, carrying[0]))
    return slowest


def _headline(wish: Wish, open_choice: str, enough: list[Link]) -> str:
    if not enough:
        kind = {UNSURE: "link", HDMI_NO_SPEED: "HDMI link", DISPLAYPORT_NO_SPEED: "DisplayPort link"}[open_choice]
        return f"No {kind} is sure to carry {asked(wish)} as it is."
    names = [one.say(4) for one in enough if not one.key.startswith("usb-c")] or [one.say(4) for one in enough]
    return f"{asked(wish)} is sure to fit from {listed(names, 'or')} upwards."


_STEPS = (
    Step(
        key="socket",
        title="Look at the socket and the plug",
        do=(
            "DisplayPort has one slanted corner, HDMI two. USB-C is small and round at both ends.",
            "DVI is wide, mostly white inside, and has a screw on each side.",
        ),
    ),
    Step(
        key="speed",
        title="Look for the speed, not the version",
        do=("In the data sheets of card, display and whatever lies between: Gb/s, MHz, HBR or UHBR for this socket.",),
        why="A version number names the most that a standard allows. A speed is what this socket does.",
    ),
    Step(
        key="cable",
        title="Read the mark on the cable",
        do=("Look for the certification mark on the cable or its bag: the last column of the table has them.",),
        otherwise="No mark: take it for the slowest, or try another cable.",
    ),
    Step(
        key="declared",
        title="Ask the display",
        do=("Paste what your display declares: it names its highest HDMI speed and every mode it takes.",),
    ),
)


def _exact_rate(wish: Wish) -> tuple[Note, ...]:
    """That 59.94 means 60 × 1000/1001: the answer for a known link says so in its working."""
    note = exact_rates_note(wish.refresh)
    return (Note("Exact rates", note),) if note else ()


def _notes(open_choice: str, within: Every) -> tuple[Note, ...]:
    notes = []
    if all(outcome.word == YES for _, outcome in within):
        notes.append(Note("Any of them will do", "Each link that it may be carries this mode."))
    if open_choice == HDMI_NO_SPEED:
        notes.append(
            Note(
                "Why the version does not help",
                "HDMI's newest versions allow every speed from that of HDMI 2.0, and older, to their highest. A socket "
                "with 2.1 on its box may run at any of them. Choose the speed in the list once you know it.",
            )
        )
    if open_choice == DISPLAYPORT_NO_SPEED:
        notes.append(
            Note(
                "Why the version does not help",
                "DisplayPort 2.1 allows every speed from RBR to UHBR20. A socket with 2.1 on its box may run at any "
                "of them. Choose the speed in the list once you know it.",
            )
        )
    notes.append(
        Note(
            "The slowest part decides",
            "Card, dock or adapter, cable and display agree on the highest rate that all of them manage.",
        )
    )
    return tuple(notes)
