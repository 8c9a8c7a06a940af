"""
How a console is opened, or a terminal: in words, once for each time that a plan needs one opened.

In a safe start of version 11 the console of the start menu and of Windows+X is reported not to start
(Microsoft, terminal project, issue 11164 of 2021-09-07); the task window's 'run new task' starts one there.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import NamedTuple

from calculators.desk.answer import Step

CONSOLE = (
    "Open a console: press Windows+X, choose Terminal (Admin), in older versions PowerShell (Admin); without an "
    "administrator's rights the entry without (Admin)."
)
SAFE_CONSOLE = (
    "Open a console: press Ctrl, Shift and Esc together. In the task window choose 'Run new task' (in older versions "
    "under File), type powershell, tick 'create this task with administrative privileges', press Enter."
)
TERMINAL = "Open a terminal; signed in on a screen of text, you are in one."


class Consoles(NamedTuple):
    """How one system's console is opened: after a usual start, and in a safe start."""

    usual: str
    safe: str


ON_WINDOWS = Consoles(CONSOLE, SAFE_CONSOLE)
ON_LINUX = Consoles(TERMINAL, TERMINAL)


def with_consoles(steps: Iterable[Step], consoles: Consoles = ON_WINDOWS) -> tuple[Step, ...]:
    """
    The steps, with a line on how to open a console in front of the first one that needs it after each start.

    Args:
        steps: Steps in order, with their tags. [list]
        consoles: How the system at hand opens one. [object]

    Returns:
        The same steps; in a safe start the line is the one that works there. [list]

    Source:
        Microsoft, terminal project, issue 11164; that the task window opens one: common practice, no source.

    Example:
        >>> step = Step(key="a", title="Look", do=("Look.",), tags=("needs:console",))
        >>> with_consoles([step])[0].do == (CONSOLE, "Look.")
        True
    """
    made = []
    in_safe = is_open = False
    for step in steps:
        if "needs:console" in step.tags:
            line = consoles.safe if in_safe else consoles.usual
            made.append(step if is_open else replace(step, do=(line, *step.do)))
            is_open = True
        else:
            made.append(step)
        is_open = is_open and "restarts" not in step.tags
        in_safe = ("gives:safe_start" in step.tags or in_safe) and "ends:safe_start" not in step.tags
    return tuple(made)
