"""What is concluded when a script fails: from its own fault something, from what stopped it from outside nothing."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from build_tools.environment import node
from build_tools.environment.trouble import PassingTrouble, Trouble

COUNTS = 'import { appendFileSync, readFileSync } from "node:fs"; appendFileSync(process.argv[2], "x");\n'
ONCE = 'if (readFileSync(process.argv[2], "utf8") === "x") '
KILLED = 'process.kill(process.pid, "SIGKILL"); await new Promise((done) => setTimeout(done, 60_000));'
FULL = 'throw Object.assign(new Error("ENOSPC: no space left on device, write"), { code: "ENOSPC" });'


def tried(project: Path, folder: Path, text: str) -> tuple[str | Trouble, int]:
    """What running a script of this text comes to, and how often it was run."""
    script, count = folder / "script.mjs", folder / "count"
    script.write_text(COUNTS + text, "utf-8")
    try:
        found: str | Trouble = node.run(project, script, str(count), "The thing could not be made")
    except Trouble as trouble:
        found = trouble
    return found, len(count.read_text("utf-8"))


OWN = {
    "an error": 'throw new Error("it is not as expected");',
    "an error in a text that names others": "const E = { ENOSPC: 51, EPIPE: 64 }; E.thing.other; // out of memory",
    "a file that is not there": 'readFileSync("/no/such/file");',
}
if os.name == "posix":
    OWN["a crash"] = "process.abort();"


@pytest.mark.parametrize("what", OWN)
def test_a_scripts_own_failure_is_told_at_once(project: Path, tmp_path: Path, what: str) -> None:
    found, count = tried(project, tmp_path, OWN[what])
    assert isinstance(found, Trouble)
    assert not isinstance(found, PassingTrouble)
    assert str(found).startswith("The thing could not be made:")
    assert count == 1


@pytest.mark.skipif(os.name != "posix", reason="there is no such signal")
def test_a_script_that_was_ended_from_outside_is_tried_again(project: Path, tmp_path: Path) -> None:
    once = ONCE + "{" + KILLED + '} console.log("made");'
    assert tried(project, tmp_path, once) == ("made\n", 2)


NO_ROOM = 'throw new RangeError("Array buffer allocation failed");'
OUTSIDE = {"a full disk": (FULL, "ENOSPC"), "no memory": (NO_ROOM, "buffer")}
if os.name == "posix":
    OUTSIDE["ended"] = (KILLED, "it was ended by SIGKILL")


@pytest.mark.parametrize("what", OUTSIDE)
def test_what_stops_it_twice_from_outside_is_told_as_that(project: Path, tmp_path: Path, what: str) -> None:
    text, words = OUTSIDE[what]
    found, count = tried(project, tmp_path, text)
    assert isinstance(found, PassingTrouble)
    assert "not because of what it was given; please try again" in str(found)
    assert words in str(found)
    assert count == 2
