"""What nothing reads once Python has started goes: frozen modules and docstrings; what something points at stays."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path

import pytest

from build_tools.bundling.bundle import bundled
from build_tools.environment import places

TRY = """
import { readFileSync, writeFileSync } from "node:fs";
import { unread, withoutUnread } from "./build_tools/engine/unread";

const { from, into } = JSON.parse(process.argv[2]!) as { from: string; into: string };
const file = new Uint8Array(readFileSync(from));
const left = withoutUnread(file);
writeFileSync(into, left);
const [valid, same] = [WebAssembly.validate(left), Buffer.from(file).equals(Buffer.from(left))];
console.log(JSON.stringify({ spans: unread(file), valid, same }));
"""
START = 1024  # where the data of the small file begins
DOC = b"f(x, /)\n--\n\nSays: not an integer.\0"
SHARED = START + DOC.index(b"not an integer.")  # an error message that shares the docstring's end


def number(value: int) -> bytes:
    found = bytearray()
    while True:
        low, value = value & 0x7F, value >> 7
        if value:
            found.append(low | 0x80)
        else:
            found.append(low)
            return bytes(found)


def signed(value: int) -> bytes:
    found = bytearray()
    while True:
        low, value = value & 0x7F, value >> 7
        if value == 0 and not low & 0x40:
            return bytes([*found, low])
        found.append(low | 0x80)


def section(kind: int, content: bytes) -> bytes:
    return bytes([kind]) + number(len(content)) + content


def small_file(points_at: int) -> bytes:
    """A file with a docstring in its data, and a function that gives an address back."""
    body = b"\x00\x41" + signed(points_at) + b"\x0b"
    data = DOC + b"a text of its own\0"
    return (
        bytes.fromhex("0061736d 01000000")
        + section(1, bytes.fromhex("01 60 00 01 7f"))
        + section(3, bytes.fromhex("01 00"))
        + section(5, bytes.fromhex("01 00 01"))
        + section(7, b"\x02" + b"\x01a\x00\x00" + b"\x06memory\x02\x00")
        + section(10, b"\x01" + number(len(body)) + body)
        + section(11, b"\x01\x00\x41" + signed(START) + b"\x0b" + number(len(data)) + data)
    )


@pytest.fixture(scope="module")
def script(project: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("unread")
    entry = folder / "try.ts"
    entry.write_text(TRY.replace('"./build_tools', f'"{project}/build_tools'), "utf-8")
    made = folder / "try.mjs"
    made.write_bytes(bundled(project, {"try": str(entry)}, "node")["try.mjs"])
    return made


def without(project: Path, script: Path, file: Path, into: Path) -> dict[str, object]:
    order = json.dumps({"from": str(file), "into": str(into)})
    command = [str(places.node(project)), str(script), order]
    done = subprocess.run(command, capture_output=True, text=True, encoding="utf-8")
    assert done.returncode == 0, done.stderr
    found: dict[str, object] = json.loads(done.stdout)
    return found


@pytest.mark.parametrize(
    ("points_at", "left"),
    [(0, b""), (START, b""), (SHARED, b"not an integer.\0"), (SHARED + 4, b"an integer.\0")],
)
def test_a_docstring_goes_but_not_the_end_that_another_text_shares(
    project: Path, script: Path, tmp_path: Path, points_at: int, left: bytes
) -> None:
    file, into = tmp_path / "file.wasm", tmp_path / "left.wasm"
    file.write_bytes(small_file(points_at))
    found = without(project, script, file, into)
    assert found["valid"] is True
    data = into.read_bytes()
    assert b"--\n\n" not in data
    assert b"Says" not in data
    assert b"a text of its own" in data
    assert left in data
    assert (b"integer" in data) == bool(left)


def test_a_file_that_we_do_not_know_stays_as_it_is(project: Path, script: Path, tmp_path: Path) -> None:
    file = tmp_path / "file.wasm"
    file.write_bytes(small_file(START).replace(b"\n--\n\n", b" -- \n"))
    assert without(project, script, file, tmp_path / "left.wasm")["same"] is True


def test_of_the_runtime_go_its_frozen_modules_and_docstrings(project: Path, script: Path, tmp_path: Path) -> None:
    file, into = project / "node_modules/pyodide/pyodide.asm.wasm", tmp_path / "left.wasm"
    found = without(project, script, file, into)
    before, after = file.read_bytes(), into.read_bytes()
    assert found["valid"] is True
    assert len(before) - len(after) > 600_000
    # Of a docstring stays what begins at a number that the code or the data hold, be it an address or not.
    assert after.count(b")\n--\n\n") < before.count(b")\n--\n\n") / 10
    # Names in the byte code of frozen modules alone, then sentences that answers or their refusals may hold.
    for gone in (b"_path_importer_cache", b"_classify_pyc", b"removeduppaths"):
        assert gone in before
        assert gone not in after
    for stays in (b"invalid literal for int() with base %d", b"division by zero", b"could not convert string to float"):
        assert stays in before
        assert stays in after
