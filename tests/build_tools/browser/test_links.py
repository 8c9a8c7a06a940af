"""Links as the page's script and as Python read and write them: two programs, one meaning."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path
from typing import Any

import pytest

from build_tools.environment import places
from calculators.desk.links import read_fragment

ODD = [
    {},
    {"rate": "3200", "cas": "16"},
    {"have_timings": "16-18-18-38"},
    {"price": "1 299,50 €", "note": "a&b=c#d+e%41", "empty": ""},
    {"text": "Größe ½ ‰ 😀", "lines": "one\ntwo"},
]

RUN = """
import { read, write } from "./build_tools/browser/calculator/link.ts";
const { written, fragments } = JSON.parse(process.argv[1]);
console.log(JSON.stringify({ written: written.map(write), read: fragments.map(each => read(each) ?? null) }));
"""


@pytest.fixture(scope="module")
def in_script(project: Path) -> Any:
    """Calls link.ts under Node."""

    def call(written: list[dict[str, Any]], fragments: list[str]) -> dict[str, Any]:
        command = [places.node(project), "--no-warnings", "--input-type=module", "--eval", RUN]
        command.append(json.dumps({"written": written, "fragments": fragments}))
        done = subprocess.run([str(p) for p in command], cwd=project, capture_output=True, text=True, encoding="utf-8")
        assert done.returncode == 0, done.stderr
        return json.loads(done.stdout)

    return call


def test_python_reads_what_the_script_writes(in_script: Any) -> None:
    carried = [{"name": "memory.rate", "inputs": inputs, "version": "1", "digest": "0a1b2c3d"} for inputs in ODD]
    for inputs, fragment in zip(ODD, in_script(carried, [])["written"], strict=True):
        link = read_fragment(fragment)
        assert (link.name, link.inputs, link.version, link.mark) == ("memory.rate", inputs, "1", "0a1b2c3d")


def test_the_script_reads_what_it_writes(in_script: Any) -> None:
    carried = [{"name": "memory.rate", "inputs": inputs, "version": "12", "digest": "0a1b2c3d"} for inputs in ODD]
    assert in_script([], in_script(carried, [])["written"])["read"] == carried


@pytest.mark.parametrize(
    "fragment",
    [
        "memory.rate:rate=3200&made=1-0a1b2c3d",
        "memory.rate:rate=3200",
        "memory.rate:rate=1&rate=2",
        "memory.rate:",
        "memory.rate:a=%zz&b=%ff&=x&c",
        "memory.rate:rate=3+200&x=%2B",
        "memory.rate:made=nonsense&rate=3",
        "memory.rate:made=1-0a1b2c3d-5&rate=3",
    ],
)
def test_both_read_the_same_in_a_link_made_by_hand(in_script: Any, fragment: str) -> None:
    ours = in_script([], [f"#{fragment}"])["read"][0]
    theirs = read_fragment(fragment)
    assert ours["name"] == theirs.name
    assert ours["inputs"] == theirs.inputs
    assert (ours.get("version", ""), ours.get("digest", "")) == (theirs.version, theirs.mark)


def test_a_heading_is_not_taken_for_a_link(in_script: Any) -> None:
    assert in_script([], ["#why", "#your-numbers", "", "#a:b", "#Memory.rate:x=1"])["read"] == [None] * 5
