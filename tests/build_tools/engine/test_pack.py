"""The wheel is the same bytes wherever and whenever it is made, and the engine's folder holds what its lock says."""

from __future__ import annotations

import base64
import csv
import gzip
import hashlib
import io
import json
import os
import shutil
import zipfile
from pathlib import Path

import pytest

from build_tools.engine import other_release, pack
from build_tools.engine.wheel import make_wheel
from build_tools.environment.trouble import PassingTrouble, Trouble
from build_tools.installer import locking
from build_tools.installer.testing import ALL

EVERYTHING = bool(os.environ.get(ALL))


def write_package(root: Path, files: dict[str, bytes], when: int) -> Path:
    package = root / "thing"
    for name, data in files.items():
        path = package / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
        os.utime(path, (when, when))
    return package


FILES = {"__init__.py": b'"""A thing."""\n', "b.py": b"B = 1\n", "a/__init__.py": b"", "a/deep.py": b"A = 2\n"}


def test_the_same_files_give_the_same_wheel_in_another_folder_on_another_day(tmp_path: Path) -> None:
    one = write_package(tmp_path / "one", FILES, 1_000_000_000)
    other = write_package(tmp_path / "other", dict(reversed(FILES.items())), 1_700_000_000)
    (other / "__pycache__").mkdir()
    (other / "__pycache__" / "b.pyc").write_bytes(b"left over")
    assert make_wheel(one, "1") == make_wheel(other, "1")


def test_another_text_gives_another_wheel(tmp_path: Path) -> None:
    one = write_package(tmp_path / "one", FILES, 0)
    other = write_package(tmp_path / "other", {**FILES, "b.py": b"B = 2\n"}, 0)
    assert make_wheel(one, "1")[1] != make_wheel(other, "1")[1]


def test_the_record_lists_every_file_with_its_hash(tmp_path: Path) -> None:
    name, data = make_wheel(write_package(tmp_path, FILES, 0), "1")
    assert name == "thing-1-py3-none-any.whl"
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        record = {row[0]: row[1:] for row in csv.reader(io.StringIO(archive.read("thing-1.dist-info/RECORD").decode()))}
        assert set(record) == set(archive.namelist())
        assert {f"thing/{each}" for each in FILES} < set(record)
        for each, (digest, size) in record.items():
            if each.endswith("RECORD"):
                assert (digest, size) == ("", "")
                continue
            content = archive.read(each)
            wanted = base64.urlsafe_b64encode(hashlib.sha256(content).digest()).rstrip(b"=").decode()
            assert (digest, size) == (f"sha256={wanted}", str(len(content)))


ENGINE = "docs/made/engine"
# The least that the engine asks of calculators: a door, a catalogue, and a reader of questions.
SMALL = {
    "__init__.py": b"",
    "catalogue.py": b"""
def names():
    return ('a.b',)

def find(name):
    return C

class C:
    name = title = 'a.b'
    presets = inputs = ()
""",
    "reader.py": b"",
    "door.py": b"""
import json

READER = 'calculators.reader'

def answer(name, inputs, wanted='', prefix=''):
    return json.dumps({'fault': name})
""",
}


@pytest.fixture(scope="module")
def packed(project: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[str]]:
    """The real runtime, rooms and Node beside a package of one file, packed once; and what was said of it."""
    made = tmp_path_factory.mktemp("packed") / "project"
    made.mkdir()
    # The runtime's program as it was cut down last, which is taken if it was made of the very same (lean_program.mjs).
    cut_down = Path(".cache", "made", "lean_program.js")
    if (project / cut_down).is_file():
        (made / cut_down).parent.mkdir(parents=True)
        shutil.copy(project / cut_down, made / cut_down)
    for name in ("node_modules", ".venv"):
        (made / name).symlink_to(project / name, target_is_directory=True)
    shutil.copytree(project / "build_tools", made / "build_tools", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(project / locking.FILE, made)
    write_package(made, SMALL, 0).rename(made / "calculators")
    said: list[str] = []
    pack.make(made, made / ENGINE, said.append)
    return made, said


@pytest.fixture
def small_project(packed: tuple[Path, list[str]], tmp_path: Path) -> Path:
    """The same for a test that changes it, with what was packed before the change."""
    return Path(shutil.copytree(packed[0], tmp_path / "project", symlinks=True))


def contents(folder: Path) -> dict[str, tuple[int, str]]:
    return {
        path.name: (path.stat().st_mtime_ns, hashlib.sha256(path.read_bytes()).hexdigest())
        for path in folder.iterdir()
        if path.is_file()
    }


def test_the_folder_holds_the_runtime_one_wheel_and_a_lock_that_names_it(
    packed: tuple[Path, list[str]], small_project: Path
) -> None:
    into = small_project / ENGINE
    said = [*packed[1]]
    wheel = "calculators-1-cp314-none-any.whl"
    assert {path.name for path in into.iterdir()} == {
        *pack.RUNTIME_FILES,
        pack.LOCK_NAME,
        "worker.js",
        "plain_worker.js",
        "memory.bin",
        "asking.reader.bin",
        pack.LIST_NAME,
        "lean.wasm",
        wheel,
        "packed",
    }
    lock = json.loads((into / pack.LOCK_NAME).read_text("utf-8"))
    runtime = json.loads((small_project / "node_modules/pyodide" / pack.LOCK_NAME).read_text("utf-8"))
    assert lock["info"] == runtime["info"]
    assert list(lock["packages"]) == ["calculators"]
    entry = lock["packages"]["calculators"]
    assert entry["file_name"] == wheel
    assert entry["sha256"] == hashlib.sha256((into / wheel).read_bytes()).hexdigest()
    assert said, "the first time, something was made"
    scripts = {name: (into / name).read_text("utf-8") for name in ("worker.js", "plain_worker.js")}
    between = "lockfileBaseUrl"  # a name in what lets JavaScript and Python use each other
    assert between in scripts["plain_worker.js"]
    assert between not in scripts["worker.js"], "a quarter that nothing leads to where memory is put back"
    assert "=(async function(" in scripts["worker.js"], "a program without parentheses is read twice before it runs"

    before = contents(into)
    (into / pack.LEAN_NAME).unlink()
    pack.make(small_project, into, said.append)
    again = contents(into)
    assert [each for each in before if again[each][1] != before[each][1]] == [], "another folder, the same machine code"
    before = contents(into)
    (into / "left-over.js").write_text("old", "utf-8")
    said.clear()
    pack.make(small_project, into, said.append)
    assert contents(into) == before, "what has not changed is not written again, what is not needed goes"
    assert said == []

    catalogue = small_project / "calculators" / "catalogue.py"
    catalogue.write_text(catalogue.read_text("utf-8") + "X = 'an answer leads here'\n", "utf-8")
    (small_project / "calculators" / "apart.py").write_text("X = 'no answer leads here'\n", "utf-8")
    pack.make(small_project, into, said.append)
    changed = {name for name, (when, _) in contents(into).items() if when != before[name][0]}
    lean = changed & {"lean.wasm"}  # an answer may need another function than before, or the same
    assert changed - lean == {wheel, pack.LOCK_NAME, "memory.bin"}
    assert said == [f"engine: {', '.join([wheel, pack.LOCK_NAME, 'memory.bin', *lean])}"]
    memory = gzip.decompress((into / "memory.bin").read_bytes())
    assert b"an answer leads here" in memory
    assert b"no answer leads here" not in memory, "what no answer leads to does not travel"


class Asked(Exception):
    """Node was asked to run a script."""


def test_what_node_makes_is_made_anew_where_node_would_be_handed_other_bytes(
    small_project: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """So that a clone in which another Python packs another wheel or script is found out (test_other_pythons.py)."""

    run = pack.node.run

    def ask(project: Path, script: Path, *rest: str) -> str:
        if script.name == "bundle.mjs":  # makes the scripts that Node is handed
            return run(project, script, *rest)
        raise Asked(script.name)

    into = small_project / ENGINE
    wheel = {name: (into / name).read_bytes() for name in (pack.LOCK_NAME, "calculators-1-cp314-none-any.whl")}
    monkeypatch.setattr(pack, "_wheel_for_pages", lambda *_: wheel)
    monkeypatch.setattr(pack.node, "run", ask)
    pack.make(small_project, into, print)
    handed = ("scout.py", "inside.py", "questions.py", "random_inputs.py", "whole_python.ts")
    for name in ("calculators/door.py", *(f"{pack.ROOM}/{each}" for each in handed)):
        path = small_project / name
        text = path.read_text("utf-8")
        path.write_text(f"{text}\n{'console.log(1);' if path.suffix == '.ts' else 'X = 1'}\n", "utf-8")
        with pytest.raises(Asked):
            pack.make(small_project, into, print)
        path.write_text(text, "utf-8")
    other = {name: data + b"\0" if name.endswith(".whl") else data for name, data in wheel.items()}
    monkeypatch.setattr(pack, "_wheel_for_pages", lambda *_: other)
    with pytest.raises(Asked, match=r"^snapshot\.mjs$"):
        pack.make(small_project, into, print)


# The plain starts that were tried, by the digests of all their files: the same files start the same way.
tried_plainly: set[tuple[str, ...]] = set()

ALL_WAYS = {"worker.js", "memory.bin", pack.LIST_NAME, "lean.wasm"}
READERS = {"asking.reader.bin"}  # a bundle, which no plain start takes
# What another release of the runtime could do to us, file by file: a text of ours that no longer meets its own, and
# what is left of the quicker ways then.
COMPILING = ("compile_wheel.mjs", '"add-wheels"', '"add-wheel"', "the calculators cannot be compiled in it")
NO_FIT = {
    "the program's text": (
        [
            (
                "lean_program.mjs",
                'mergeLibSymbols(wasmExports,"main")',
                'mergeLibSymbols(wasmExports,"Main")',
                "its program cannot be cut",
            )
        ],
        ALL_WAYS,
    ),
    "the allocator": ([("zero_freed.ts", "if (size < 16", "if (size > 15", "its memory cannot be kept")], set()),
    # Neither has to do with the other, and each is told; both at once spare a pack and three starts.
    "the table of functions, and compiling": (
        [("wasm_file.ts", "if (count !== 1", "if (count === 1", "its machine code cannot be cut"), COMPILING],
        ALL_WAYS - {"lean.wasm"},
    ),
    **({"compiling alone": ([COMPILING], ALL_WAYS)} if EVERYTHING else {}),
}


@pytest.mark.parametrize("what", NO_FIT)
def test_what_does_not_fit_a_release_leaves_a_slower_way_and_never_none(small_project: Path, what: str) -> None:
    changes, left = NO_FIT[what]
    for name, ours, others, _ in changes:
        path = small_project / pack.ROOM / name
        text = path.read_text("utf-8")
        assert text.count(ours) == 1
        path.write_text(text.replace(ours, others), "utf-8")
    said: list[str] = []
    into = small_project / ENGINE
    assert {path.name for path in into.iterdir()} >= ALL_WAYS, "the release before fits"
    (into / "a.b.bin").write_text("of the release before", "utf-8")
    pack.make(small_project, into, said.append)
    for *_, sentence in changes:
        assert any(sentence in line and "more slowly" in line for line in said), said
    made = {path.name for path in into.iterdir()}
    assert (ALL_WAYS | {"a.b.bin"}) & made == left, "nothing of an earlier release is left over"
    assert {"plain_worker.js", "python_stdlib.zip", "pyodide.asm.wasm", pack.LOCK_NAME} <= made
    plainly = tuple(of for name, (_, of) in sorted(contents(into).items()) if name not in {*ALL_WAYS, *READERS})
    known = ["plain"] if plainly in tried_plainly else []
    ways = other_release.start_each(into, [("a.b", "{}")], "html", leave_out=known)
    right = hashlib.sha256(b'{"fault": "a.b"}').hexdigest()
    assert ways == {way: {"answers": [right]} for way in ways}
    tried_plainly.add(plainly)
    assert {*ways, *known} == {
        "plain",
        *(["snapshot"] if "memory.bin" in left else []),
        *(["lean"] if "lean.wasm" in left else []),
    }


# What ends each of the programs that pack from outside, in the middle of their work.
ENDED = 'process.kill(process.pid, "SIGKILL");'
PROGRAMS = {
    "snapshot.ts": "const { argv, env, exit } = process;",
    "cut_runtime.ts": "const { argv, env, exit } = process;",
    "compile_wheel.mjs": "const { tools, ",
    "lean_program.mjs": "const declared = await",
}


@pytest.mark.skipif(os.name != "posix", reason="there is no such signal")
@pytest.mark.parametrize("name", PROGRAMS)
def test_what_stops_the_packing_from_outside_is_not_taken_for_a_release_that_does_not_fit(
    small_project: Path, name: str
) -> None:
    path, into = small_project / pack.ROOM / name, small_project / ENGINE
    text = path.read_text("utf-8")
    assert text.count(PROGRAMS[name]) == 1
    path.write_text(text.replace(PROGRAMS[name], f"{ENDED} {PROGRAMS[name]}"), "utf-8")
    before = contents(into)
    said: list[str] = []
    with pytest.raises(PassingTrouble, match=r"(?s)please try again:.*(SIGKILL|The service was stopped)"):
        pack.make(small_project, into, said.append)
    assert said == []
    assert contents(into).keys() >= before.keys(), "what stood before still stands"
    path.write_text(text, "utf-8")
    pack.make(small_project, into, said.append)
    assert not any(pack.NO_FIT in line for line in said), "and the next build has it again"
    assert {file: of for file, (_, of) in contents(into).items()} == {file: of for file, (_, of) in before.items()}


def test_the_compiled_wheel_has_byte_code_for_the_pages_python_and_no_source(small_project: Path) -> None:
    name, wheel = make_wheel(small_project / "calculators", "1")
    compiled = "calculators-1-cp314-none-any.whl"
    made = {name: (small_project / ENGINE / name).read_bytes() for name in (pack.LOCK_NAME, compiled)}
    if EVERYTHING:  # otherwise tests/test_other_pythons.py alone compiles a wheel again, in a clone
        assert pack.compile_wheel(small_project, name, wheel) == made, "the same bytes again"
    with zipfile.ZipFile(io.BytesIO(made[compiled])) as archive:
        code = {each for each in archive.namelist() if not each.startswith("calculators-1.dist-info/")}
        assert code == {f"calculators/{each}c" for each in SMALL}
        assert {entry.date_time for entry in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        # PEP 552: a file that is compared with its source by a hash, not by a time.
        assert {archive.read(each)[4:8] for each in code} == {b"\x03\0\0\0"}
    (entry,) = json.loads(made[pack.LOCK_NAME])["packages"].values()
    assert (entry["file_name"], entry["imports"], entry["depends"]) == (compiled, ["calculators"], [])
    assert entry["sha256"] == hashlib.sha256(made[compiled]).hexdigest()


def test_what_pyodide_build_refuses_is_told(small_project: Path, tmp_path: Path) -> None:
    package = write_package(tmp_path / "broken", {"__init__.py": b"def (:\n"}, 0)
    with pytest.raises(Trouble, match=r"(?s)^The calculators' wheel could not be compiled:.*__init__\.py"):
        pack.compile_wheel(small_project, *make_wheel(package, "1"))


def test_what_runs_in_the_runtime_is_locked_for_the_runtimes_python(project: Path) -> None:
    info = json.loads((project / "node_modules" / "pyodide" / pack.LOCK_NAME).read_text("utf-8"))["info"]
    assert info["python"].startswith(f"{locking.RUNTIME_PYTHON}.")


def test_an_incomplete_runtime_is_told(tmp_path: Path) -> None:
    with pytest.raises(Trouble, match=r"pyodide\.mjs.* not in node_modules/pyodide"):
        pack.make(tmp_path, tmp_path / "engine", print)
