"""What the calculators of drivers show on the screen. Knows their figures' keys; computes no result."""

from __future__ import annotations

from calculators.desk.answer import DEPENDS, Answer
from calculators.desk.card_declared import Card, Figures, first_drawn
from calculators.desk.inputs import Values
from calculators.desk.numbers import plural
from calculators.desk.screen_drawings import screen_chain, screen_ladder

# What each is about, in a line of a side panel.
TOPICS = {
    "reset": "How clean a start?",
    "which": "Which driver runs?",
}


_RUNGS = ("try the short steps", "install over what is there", "remove, then install", "from safe start, by hand")
_SHORT_RUNGS = ("short steps", "install over it", "remove, install", "by hand")


def _how_long(least: int, most: int) -> str:
    """Minutes as one plans with them: in hours where it takes some, since no plan is known to the minute."""
    low, high = round(least / 60), round(most / 60)
    return f"about {low} to {high} hours" if 0 < low < high else f"{least} to {most} minutes"


def reset(given: Values, answer: Answer) -> Card:
    """How deep the plan goes, and how long it takes."""
    figures = Figures(answer)
    values = figures.numbers("steps", "restarts", "minutes_low", "minutes_high")
    depth = figures.text("depth").partition(":")[0]
    if not values or not depth.isdigit():
        return Card()
    steps, restarts, least, most = (int(value) for value in values)
    says = answer.verdict.said() if answer.verdict else ""
    depends = answer.verdict is not None and answer.verdict.word == DEPENDS
    line = _if(given) if depends else f"{plural(steps, 'step')}, {plural(restarts, 'restart')}, a way back"
    hero, rungs, short = _how_long(least, most), list(_RUNGS), list(_SHORT_RUNGS)
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
    """The adapters, and whether each has a driver of its own."""
    figures = Figures(answer)
    count, basic, left = figures.number("adapters"), figures.number("on_basic_driver"), figures.number("left_over")
    if count is None:
        return Card()
    untold = figures.number("not_told") or 0
    own = int(count - (basic or 0) - untold)
    nodes = []
    if own:
        driver_words = "on drivers of their own" if own > 1 else "on a driver of its own"
        nodes.append(("display", plural(own, "adapter"), driver_words))
    if untold:
        nodes.append(("display", plural(int(untold), "adapter"), "driver not told"))
    if basic:
        nodes.append(("display", plural(int(basic), "adapter"), "on the basic driver"))
    if left:
        nodes.append(("box", plural(int(left), "package"), "left over"))
    hero, line = f"{own} of {int(count)}" if count else "", "on drivers of their own"
    says = answer.verdict.said() if answer.verdict else ""
    if basic:
        hero = "basic driver"
        line = f"on {int(basic)} of {plural(int(count), 'adapter')}" if count > 1 else "on the only adapter"
    elif untold:
        hero, line = f"{int(untold)} of {int(count)}", "one more command tells it"
    elif says.startswith("Its own, but"):
        hero, line = "does not run", "though the driver is there"
    elif says.startswith("One is lent"):
        hero, line = "one is lent", "to a virtual machine"
    elif left:
        hero, line = f"{int(left)} left over", "a package that no adapter uses"
    return Card(hero=hero, line=line, drawing=screen_chain(nodes, linked=False), drawn_hero=True)
