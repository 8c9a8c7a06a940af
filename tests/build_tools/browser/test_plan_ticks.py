"""Ticks in a link: the script's three letters for a step, against the standard's own sums and every plan there is."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path
from typing import Any

import pytest

from build_tools.environment import places
from tests.calculators.drivers.every_plan import plans

RUN = """
import { code, read, write } from "./build_tools/browser/plan/ticks.ts";
const { keys, ticked, texts } = JSON.parse(process.argv[1]);
console.log(JSON.stringify({
  codes: keys.map(code), written: write(keys, new Set(ticked.map(code))), read: texts.map(each => [...read(each)]),
}));
"""


@pytest.fixture(scope="module")
def in_script(project: Path) -> Any:
    """Calls ticks.ts under Node."""

    def call(keys: list[str], ticked: list[str], texts: list[str]) -> dict[str, Any]:
        command = [places.node(project), "--no-warnings", "--input-type=module", "--eval", RUN]
        command.append(json.dumps({"keys": keys, "ticked": ticked, "texts": texts}))
        done = subprocess.run([str(p) for p in command], cwd=project, capture_output=True, text=True, encoding="utf-8")
        assert done.returncode == 0, done.stderr
        return json.loads(done.stdout)

    return call


def base_36(number: int) -> str:
    digits = ""
    while number:
        number, digit = divmod(number, 36)
        digits = "0123456789abcdefghijklmnopqrstuvwxyz"[digit] + digits
    return digits.rjust(3, "0")


@pytest.mark.parametrize(
    ("text", "sum_32"),
    # Test vectors published with the Fowler/Noll/Vo hash, 32-bit FNV-1a (draft-eastlake-fnv, appendix); from memory.
    [("", 0x811C9DC5), ("a", 0xE40C292C), ("b", 0xE70C2DE5), ("foobar", 0xBF9CF968)],
)
def test_a_steps_letters_are_the_standard_sum(in_script: Any, text: str, sum_32: int) -> None:
    assert in_script([text], [], [])["codes"] == [base_36(sum_32 % 36**3)]


def test_no_two_steps_of_any_plan_share_their_letters(in_script: Any) -> None:
    keys = sorted({step.key for plan in plans() for step in plan.steps})
    codes = dict(zip(keys, in_script(keys, [], [])["codes"], strict=True))
    assert len(keys) > 90
    for plan in plans():
        used = [codes[step.key] for step in plan.steps]
        assert len(set(used)) == len(used), [step.key for step in plan.steps]


def test_what_is_written_comes_back(in_script: Any) -> None:
    keys = [step.key for step in plans()[0].steps]
    done = in_script(keys, keys[1:3], [])
    assert done["written"] == "".join(done["codes"][1:3])
    assert in_script([], [], [done["written"]])["read"] == [done["codes"][1:3]]


def test_what_is_cut_off_or_made_up_is_left_out(in_script: Any) -> None:
    assert in_script([], [], ["", "ab", "abcde", "ABC", "%%%abc"])["read"] == [[], [], ["abc"], ["abc"], ["abc"]]
