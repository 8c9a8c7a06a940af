"""What the calculators of drivers show on the screen. Knows their figures' keys; computes no result."""

from __future__ import annotations

from calculators.desk.answer import DEPENDS, Answer
from calculators.desk.card_declared import Card, Figures
from calculators.desk.inputs import Values
from calculators.desk.numbers import plural
from calculators.desk.screen_drawings import screen_chain, screen_ladder

_RUNGS = ("try the short steps", "install over what is there", "remove, then install", "from safe start, by hand")


def reset(given: Values, answer: Answer) -> Card:
    """How deep the plan goes, and how long it takes."""
    told = Figures(answer)
    found = told.numbers("steps", "restarts", "minutes_low", "minutes_high")
    depth = told.text("depth").partition(":")[0]
    if not found or not depth.isdigit():
        titles = tuple(dict.fromkeys(step.title for step in answer.steps))[:4]
        return Card(line="first the sockets, the input, the leads", drawing=screen_ladder(titles, 0))
    steps, restarts, least, most = (int(value) for value in found)
    rungs = list(_RUNGS)
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "if heat, dust and leads are ruled out"
    else:
        line = f"{plural(steps, 'step')}, {plural(restarts, 'restart')}, a way back"
    says = answer.verdict.said() if answer.verdict else ""
    verdict = "Perhaps not needed" if says.startswith("Only if it does not run") else ""
    return Card(
        hero=f"{least} to {most} minutes", line=line, verdict=verdict, drawing=screen_ladder(rungs, int(depth)),
        drawn_hero=True,
    )  # fmt: skip


def which(given: Values, answer: Answer) -> Card:
    """The adapters, and whether each has a driver of its own."""
    told = Figures(answer)
    count, basic, left = told.number("adapters"), told.number("on_basic_driver"), told.number("left_over")
    if count is None:
        return Card()
    own = int(count - (basic or 0))
    nodes = []
    if own:
        said = "on drivers of their own" if own > 1 else "on a driver of its own"
        nodes.append(("display", plural(own, "adapter"), said))
    if basic:
        nodes.append(("display", plural(int(basic), "adapter"), "on the basic driver"))
    if left:
        nodes.append(("box", plural(int(left), "package"), "left over"))
    hero = f"{own} of {int(count)} run well" if count else ""
    line = "on drivers of their own"
    if basic:
        hero = "basic driver"
        line = f"on {int(basic)} of {plural(int(count), 'adapter')}" if count > 1 else "on the only adapter"
    elif left:
        hero, line = f"{int(left)} left over", "a package that no adapter uses"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = ""
    return Card(hero=hero, line=line, drawing=screen_chain(nodes, linked=False), drawn_hero=True)
