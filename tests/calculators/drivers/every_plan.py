"""Every plan there is: all combinations of inputs of drivers.reset, gathered by the plan that they get."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from itertools import product
from typing import NamedTuple

from calculators.desk.answer import Step
from calculators.drivers.plans.consoles import ON_LINUX, ON_WINDOWS
from calculators.drivers.plans.diagnosis import Diagnosis, diagnose
from calculators.drivers.plans.linux_steps import linux_steps
from calculators.drivers.plans.plan_order import Part, choose, worded
from calculators.drivers.plans.situation import ANSWERS, Situation
from calculators.drivers.plans.windows_steps import WINDOWS


class Plan(NamedTuple):
    """One plan, and every combination of inputs that leads to it."""

    parts: tuple[Part, ...]
    steps: tuple[Step, ...]
    situations: list[Situation]

    def at(self, tag: str) -> list[int]:
        """Where in the plan the steps with a tag stand."""
        return [i for i, step in enumerate(self.steps) if tag in step.tags]

    def first(self, *tags: str) -> int:
        """Where the first step with any of these tags stands; behind the end where there is none."""
        return min((i for tag in tags for i in self.at(tag)), default=len(self.steps))

    def stages(self) -> list[Plan]:
        """The plan's one to three stages (install over, remove and install, start over), each by itself."""
        headings = [part.heading for part in self.parts if part.depth]
        return [
            self._replace(steps=tuple(step for step in self.steps if step.group == heading)) for heading in headings
        ]


@contextmanager
def nothing_is_garbage() -> Iterator[None]:
    """All that is made here stays, millions of things; looking through them for garbage would take a third as long."""
    gc.disable()
    try:
        yield
    finally:
        gc.freeze()
        gc.enable()


@cache
@nothing_is_garbage()
def situations() -> tuple[Situation, ...]:
    """All combinations, 518,400 of them."""
    return tuple(Situation(*values) for values in product(*ANSWERS.values()))


@cache
@nothing_is_garbage()
def judged() -> dict[Situation, Diagnosis]:
    """The diagnosis of each combination."""
    return {s: diagnose(s) for s in situations()}


@cache
@nothing_is_garbage()
def plans() -> tuple[Plan, ...]:
    """All plans that differ, each with all of its combinations."""
    words = {"windows": WINDOWS} | {family: linux_steps(family) for family in ANSWERS["family"]}
    gathered: dict[tuple[str, tuple[Part, ...]], list[Situation]] = {}
    for s, found in judged().items():
        gathered.setdefault((s.system if s.windows else s.family, choose(s, found.depth)), []).append(s)
    return tuple(
        Plan(parts, worded(parts, words[system], ON_WINDOWS if system == "windows" else ON_LINUX), group)
        for (system, parts), group in gathered.items()
    )
