"""What the calculators of drivers show on the screen. Knows their figures' keys; computes no result."""

from __future__ import annotations

from calculators.desk.answer import DEPENDS, Answer
from calculators.desk.card_declared import Card, Figures, first_drawn
from calculators.desk.inputs import Values
from calculators.desk.numbers import plural
from calculators.desk.screen_drawings.ladders import screen_ladder
from calculators.drivers.drawings.card_and_driver import BASIC, OWN, UNTOLD, UNUSED, Served, cards_and_drivers

# What each is about, in a line of a side panel.
TOPICS = {
    "reset": "Is it the driver?",
    "which": "Which driver runs?",
}


# The depths of a plan: as its drawing names them, in few words for a low room, and as a step to take.
_RUNGS = ("quick checks first", "reinstall over the old one", "remove it, then install", "clean by hand, then install")
_SHORT_RUNGS = ("quick checks", "reinstall", "remove, install", "clean by hand")
_TO_DO = ("", "reinstall the driver", "remove and reinstall", "clean out by hand")


def _how_long(least: int, most: int) -> str:
    """Minutes as one plans with them: in hours where it takes some, since no plan is known to the minute."""
    low, high = round(least / 60), round(most / 60)
    return f"about {low} to {high} hours" if 0 < low < high else f"{least} to {most} minutes"


def reset(given: Values, answer: Answer) -> Card:
    """What to do first, how deep the plan goes, and how long it takes or what it depends on."""
    figures = Figures(answer)
    values = figures.numbers("restarts", "minutes_low", "minutes_high")
    depth = figures.text("depth").partition(":")[0]
    if not values or not depth.isdigit():
        return Card()
    restarts, least, most = (int(value) for value in values)
    says = answer.verdict.said() if answer.verdict else ""
    depends = answer.verdict is not None and answer.verdict.word == DEPENDS
    line = _if(given) if depends else f"{_how_long(least, most)}, {plural(restarts, 'restart')}"
    rungs, short = list(_RUNGS), list(_SHORT_RUNGS)
    hero = _TO_DO[int(depth)]
    if depth == "0":  # no plan, so no time for one and none of its rungs
        hero, line = _no_plan(given, says)
        rungs = short = _short_steps(given, answer)
    verdict = "Perhaps not needed" if says.startswith("Only if it does not run") else ""
    return Card(
        hero=hero, line=line, verdict=verdict, drawn_hero=True,
        drawing=first_drawn(screen_ladder(rungs, int(depth)), screen_ladder(short, int(depth))),
    )  # fmt: skip


# What a card says where no plan follows, by the verdict.
_NO_PLAN = {
    "Not the driver.": ("sockets first", "then the input, then the leads"),
    "Not in a laptop.": ("ask its maker", "for the drivers of its graphics"),
    "Not from afar.": ("be there first", "a lost picture stays lost"),
    "Not without an administrator.": ("ask for the rights", "and gather the facts before"),
    "A picture is there.": ("look once more", "the logo is merely hidden"),
}


def _no_plan(given: Values, says: str) -> tuple[str, str]:
    """Hero and line where no plan follows."""
    if says == "Not the driver." and given["at_the_machine"] == "no":
        return "ask there", "about display, cable and logo"
    if says == "Not the driver." and given["machine"] == "laptop":
        return "outside display", "and the laptop's own screen"
    return _NO_PLAN.get(says, ("leave it alone", "a driver that works needs no repair"))


# The steps that a card names where no plan follows, by their own keys, in a few words.
_SHORT = {
    "sockets": "the other sockets",
    "sockets-laptop": "an outside display",
    "display": "the display's input",
    "seat": "power leads and seat",
    "old-card": "the old card back",
    "without-card": "once without the card",
    "ask-there": "ask somebody there",
    "logo-again": "look for the logo",
    "cool": "heat, dust, loose leads",
    "events": "see when it began",
    "wake": "restart the picture",
    "older-kernel": "an older kernel",
    "settings": "the display's settings",
    "package": "is it the right package",
    "fits": "does the card fit",
    "look": "see which driver runs",
    "data": "copy your data",
    "machine-maker": "its maker's drivers",
    "ask-admin": "ask for the rights",
    "check": "see what runs",
    "check-picture": "logo, then the system",
}


def _short_steps(given: Values, answer: Answer) -> list[str]:
    """The first few steps that a viewer would do, named shortly."""
    short = _SHORT if given["system"] == "windows" else _SHORT | {"wake": "a text sign-in"}
    named = (short.get(step.key.partition("-")[2], "") for step in answer.steps)
    return [name for name in named if name][:4]


def _if(given: Values) -> str:
    """What a plan's going ahead depends on, by what goes wrong."""
    if given["trouble"] == "crashes":
        return "if heat, dust and leads are ruled out"
    if given["trouble"] == "wrong_settings":
        return "if the settings are right" if given["change"] == "none" else "if it is the basic driver"
    if given["trouble"] == "no_picture":
        return "if the logo is seen" if given["logo"] == "unsure" else "if there is a way in"
    return "only if it does not run by itself"


def which(given: Values, answer: Answer) -> Card:
    """Each card with a way to the driver it runs on, and what there is to do."""
    figures = Figures(answer)
    count, basic, left = figures.number("adapters"), figures.number("on_basic_driver"), figures.number("left_over")
    if count is None:
        return Card()
    on_basic, untold, unused = int(basic or 0), int(figures.number("not_told") or 0), int(left or 0)
    own = int(count) - on_basic - untold
    rows = []
    if own:
        rows.append(Served(plural(own, "card"), f"on {'drivers of their' if own > 1 else 'a driver of its'} own", OWN))
    if untold:
        rows.append(Served(plural(untold, "card"), "driver not told", UNTOLD))
    if on_basic:
        rows.append(Served(plural(on_basic, "card"), "on the basic driver", BASIC))
    if unused:
        thing = "package" if given["said"].system == "windows" else "module"
        rows.append(Served(plural(unused, thing), "unused", UNUSED))
    says = answer.verdict.said() if answer.verdict else ""
    hero, line = _which_answer(says, own, unused, given["said"].system)
    if on_basic:
        hero, line = "basic driver", "install its own, unless in safe start"
        if count > 1:
            line = f"on {on_basic} of {int(count)} cards: install {'its' if on_basic == 1 else 'their'} own"
    elif untold:
        hero, line = "not told yet", "one more command tells it"
    verdict = "Not its own" if on_basic == 1 else "Not their own" if on_basic else ""
    return Card(hero=hero, line=line, verdict=verdict, drawing=cards_and_drivers(rows), drawn_hero=True)


def _which_answer(says: str, own: int, unused: int, system: str) -> tuple[str, str]:
    """Hero and line where no card is on the basic driver and each driver is told."""
    if not own:
        return "no card seen", "the system names no display adapter"
    if says.startswith("Its own, but"):
        return "does not run", "though the driver is there"
    if says.startswith("One is lent"):
        return "one is lent", "to a virtual machine"
    if not unused:
        return "nothing to do", f"{'each' if own > 1 else 'the'} card has a driver of its own"
    if system == "windows":  # a package in the store is not loaded
        return "nothing to do", "what no card uses slows nothing down"
    return "nothing to do", "unless the spare module gets in the way"
