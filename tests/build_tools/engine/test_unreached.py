"""Cutting WebAssembly: what ran stays as it was, what did not run traps, numbers and names asked for stay."""

from __future__ import annotations

import base64
import hashlib
import json
import subprocess
from pathlib import Path

import pytest

from build_tools.bundling.bundle import bundled
from build_tools.environment import places

# A file written by hand: three functions that return 1, 2 and what the first returns; a name for each, and a memory.
FILE = bytes.fromhex(
    "0061736d 01000000"
    "01 05 01 60 00 01 7f"  # type: () -> i32
    "03 04 03 00 00 00"  # three functions of it
    "05 03 01 00 01"  # a memory of a page
    "07 1c 04 01 61 00 00 01 62 00 01 03 6f 6e 65 00 02 0a 6d 65 6d 6f 72 79 5f 6f 6e 65 02 00"
    "0a 10 03 04 00 41 01 0b 04 00 41 02 0b 04 00 10 00 0b"
)

TRY = """
import { marked, cut, functionsIn, withCalled, COVERAGE } from "./build_tools/engine/unreached";
import { integrityOf, sha256 } from "./build_tools/browser/engine/integrity";

const file = Uint8Array.from(JSON.parse(process.argv[2]!) as number[]);
const seen = new WebAssembly.Instance(new WebAssembly.Module(marked(file))).exports as Record<string, any>;
const results = [seen["one"](), seen["b"] === undefined];
const marks = [...new Uint8Array(seen[COVERAGE].buffer).subarray(0, 4)];
const left = cut(file, new Uint8Array(seen[COVERAGE].buffer), (name) => name !== "a");
const lean = new WebAssembly.Instance(new WebAssembly.Module(left)).exports as Record<string, any>;
let trapped = "";
try { lean["b"](); } catch (error) { trapped = (error as Error).constructor.name; }
let few = "";
try { cut(file, new Uint8Array(2), () => true); } catch (error) { few = String(error); }
let short = "";
try { marked(file.subarray(0, file.length - 3)); } catch (error) { short = String(error); }
const data = Uint8Array.from({ length: 1000 }, (_, i) => (i * 7) % 251);
const hash = (n: number) => Buffer.from(sha256(data.subarray(0, n))).toString("hex");
const hashes = [0, 1, 55, 56, 63, 64, 65, 1000].map((n) => [n, hash(n)]);
const attribute = await integrityOf(data.buffer);
console.log(JSON.stringify({ results, marks, functions: functionsIn(file), names: Object.keys(lean), one: lean["one"](),
  trapped, few, short, again: Buffer.from(cut(file, new Uint8Array([1, 1, 1]), () => true)).equals(Buffer.from(file)),
  hashes, attribute, called: [...withCalled(file, new Uint8Array([0, 0, 1]))] }));
"""


@pytest.fixture(scope="module")
def tried(project: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, object]:
    folder = tmp_path_factory.mktemp("unreached")
    entry = folder / "try.ts"
    entry.write_text(TRY.replace('"./build_tools', f'"{project}/build_tools'), "utf-8")
    script = folder / "try.mjs"
    script.write_bytes(bundled(project, {"try": str(entry)}, "node")["try.mjs"])
    command = [str(places.node(project)), str(script), json.dumps(list(FILE))]
    done = subprocess.run(command, capture_output=True, text=True, encoding="utf-8")
    assert done.returncode == 0, done.stderr
    found: dict[str, object] = json.loads(done.stdout)
    return found


def test_what_ran_is_marked_and_what_did_not_is_not(tried: dict[str, object]) -> None:
    assert tried["functions"] == 3
    assert tried["results"] == [1, False]
    assert tried["marks"] == [1, 0, 1, 0]


def test_what_ran_works_as_before_and_what_was_cut_traps(tried: dict[str, object]) -> None:
    assert tried["one"] == 1
    assert tried["trapped"] == "RuntimeError"


def test_names_that_nobody_asks_for_go(tried: dict[str, object]) -> None:
    assert tried["names"] == ["b", "one", "memory_one"]


def test_what_is_called_directly_stays(tried: dict[str, object]) -> None:
    assert tried["called"] == [1, 0, 1], "the third calls the first"


def test_nothing_changes_where_everything_ran(tried: dict[str, object]) -> None:
    assert tried["again"] is True


def test_a_file_or_marks_that_are_too_short_are_told(tried: dict[str, object]) -> None:
    assert "fewer marks than functions" in str(tried["few"])
    assert "ends too soon" in str(tried["short"])


def test_the_hash_where_a_browser_computes_none_is_the_librarys(tried: dict[str, object]) -> None:
    data = bytes(i * 7 % 251 for i in range(1000))
    assert tried["attribute"] == f"sha256-{base64.b64encode(hashlib.sha256(data).digest()).decode()}"
    assert tried["hashes"] == [[n, hashlib.sha256(data[:n]).hexdigest()] for n in (0, 1, 55, 56, 63, 64, 65, 1000)]
