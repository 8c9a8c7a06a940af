"""Child processes end with the process that started them."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from build_tools.environment import children

PROJECT = Path(__file__).resolve().parents[3]
# One that starts another, which would go on for ever, tells its number, and is killed.
STARTER = """
import os, subprocess, sys
lasting = "import time; from build_tools.environment import children; children.end_with_parent(); print(1, flush=True)"
own = {"WORKED_ANSWERS_ENDS_WITH": str(os.getpid())} if sys.argv[1] == "named" else {}
command = [sys.executable, "-c", lasting + "; time.sleep(60)"]
child = subprocess.Popen(command, env=os.environ | own, stdout=subprocess.PIPE)
child.stdout.readline()
print(child.pid, flush=True)
os.kill(os.getpid(), 9)
"""


def lives(number: int) -> bool:
    """Whether a process is there and is no remains of one."""
    try:
        return Path(f"/proc/{number}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="looks at processes as Linux shows them")
@pytest.mark.parametrize(("how", "stays"), [("named", False), ("not named", True)])
def test_a_command_ends_with_the_process_that_is_named_as_its_parent(how: str, stays: bool) -> None:
    done = subprocess.run([sys.executable, "-c", STARTER, how], cwd=PROJECT, stdout=subprocess.PIPE, text=True)
    number = int(done.stdout)
    ends = time.monotonic() + (3 if stays else 30)
    while time.monotonic() < ends and lives(number):
        time.sleep(0.1)
    try:
        assert lives(number) is stays
    finally:
        if lives(number):
            os.kill(number, 9)


def test_who_is_no_parent_of_ours_is_not_waited_for(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(children.PARENT, "1")
    children.end_with_parent()  # would end this run
    assert children.PARENT not in os.environ
