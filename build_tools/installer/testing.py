"""The test command: sees to browser and Pythons, then runs every test there is. Knows no test itself."""

import os
import shutil
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

from build_tools.environment import browsers, places
from build_tools.environment.progress import Progress
from build_tools.installer import pythons, ready

# Many tests wait for a browser or another program, so one process more than there are cores keeps these busy. A
# file's tests stay together, since they share what is slow to make.
PROCESSES = min((os.cpu_count() or 2) + 1, 6)
EVERYTHING = ("--numprocesses", str(PROCESSES), "--dist", "loadfile", "--no-loadscope-reorder")
# Tells the tests that they need not be quick: every Python, and every input of the long comparison.
ALL = "WORKED_ANSWERS_ALL"
PARITY = "WORKED_ANSWERS_PARITY"
# The profile of hypothesis (tests/conftest.py) by which a property is tried on fewer examples.
FEWER = "fewer"
# The line by which all tests of a file are marked as decided by one Python.
ONCE = "pytestmark = pytest.mark.once"
# And that they try the hard days often: kills, crowds, a full disk, no memory.
HARD = "WORKED_ANSWERS_HARD"
# And that they try Firefox and WebKit beside Chromium.
OTHER_BROWSERS = "WORKED_ANSWERS_OTHER_BROWSERS"


def ends(listed: Sequence[pythons.Interpreter], everything: bool | None = None) -> list[pythons.Interpreter]:
    """The Pythons of a list that a run tries: the first and the last, or every one."""
    if everything is None:
        everything = bool(os.environ.get(ALL))
    return [*listed] if everything or len(listed) < 3 else [listed[0], listed[-1]]


def for_clones(listed: Sequence[pythons.Interpreter], everything: bool | None = None) -> list[pythons.Interpreter]:
    """
    The Pythons of a list by which a run builds a clone of the project: of those it tries, all but its own release.

    Its own builds the site with which the clones' are compared. Where there is no other release, another version or,
    at last, the same Python makes a clone all the same: one is a folder with another name, set up from nothing.
    """
    mine = pythons.this_interpreter()
    others = [each for each in listed if each.version != mine.version]
    if everything is None:
        everything = bool(os.environ.get(ALL))
    of_another = [each for each in ends(listed, everything) if each.short != mine.short]
    return (others if everything else of_another) or others[-1:] or [*listed]


def beyond_the_first(project: Path) -> list[str]:
    """
    Arguments for pytest on further Pythons: leave out the tests marked `once`, which one run decides for all, and try a
    property on fewer examples. A file whose every test is marked is not even read, which takes longer than it looks.
    Nothing there writes a log, and to listen for one at each test takes a tenth of the time.
    """
    if os.environ.get(ALL):
        return []
    files = sorted((project / "tests" / "calculators").rglob("test_*.py"))
    whole = [file.relative_to(project).as_posix() for file in files if ONCE in file.read_text("utf-8").splitlines()]
    return [
        "-m",
        "not once",
        f"--hypothesis-profile={FEWER}",
        "-p",
        "no:logging",
        *(f"--ignore={file}" for file in whole),
    ]


def with_byte_code(project: Path) -> dict[str, str]:
    """
    The environment's variables, with a place for byte code that this run's programs share, empty at its start.

    A run starts Python some hundred times. Where byte code may not stand beside the sources (PYTHONDONTWRITEBYTECODE,
    as in many images for containers), half of what each costs would else be compiling the same again.
    """
    folder = places.cache(project) / "byte-code"
    shutil.rmtree(folder, ignore_errors=True)
    inherited = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return inherited | {"PYTHONPYCACHEPREFIX": str(folder)}


def test(project: Path, arguments: Sequence[str], everything: bool) -> int:
    """
    Runs pytest, whose tests include the linter, the type checkers and the calculators on other Pythons.

    Args:
        project: The project folder.
        arguments: Handed to pytest instead of our own choice, which is every test, several at a time.
        everything: Whether to try every Python of this machine, and not only the oldest and the newest.

    Returns:
        pytest's exit status.
    """
    progress = Progress()
    browser = browsers.find_or_install(project, progress)
    progress.say(f"Browser: {browser}" if browser else browsers.missing())
    variables = with_byte_code(project) | ({browsers.NAMED: str(browser)} if browser else {})
    if everything:
        variables = {PARITY: "10000"} | variables | {ALL: "1"}
    tried = ends(list(pythons.present().values()), everything)
    progress.say(f"Python: {', '.join(interpreter.version for interpreter in tried)}")
    for interpreter in tried:
        if interpreter.short != sys.version_info[:2]:
            ready.calculators_environment(interpreter, project, progress)
    command = [sys.executable, "-m", "pytest", *(arguments or EVERYTHING)]
    if os.name == "posix":
        sys.stdout.flush()
        os.execve(sys.executable, command, variables)
    return subprocess.run(command, cwd=project, env=variables).returncode
