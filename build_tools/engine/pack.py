"""
Writes docs/made/engine/: the runtime, Python's snapshot, the worker's script, and what a plain start needs.

Knows files, hashes and which program makes which: under Node, `snapshot.ts` makes the memory, and pyodide-build the
wheel and its lock file. Everything also stands in docs/made/engine/packed/ as scripts, for pages that are opened from a
folder and may not fetch.
"""

from __future__ import annotations

import base64
import gzip
import hashlib
import json
import shutil
import tempfile
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path

from build_tools.bundling.bundle import bundled
from build_tools.engine.wheel import make_wheel, source_files
from build_tools.environment import node, places, stamps
from build_tools.environment.trouble import PassingTrouble, Trouble
from build_tools.files import write_if_changed

ROOM = "build_tools/engine"
# The runtime's machine code, and the library that a plain start needs. Its program is bundled into the worker's script.
RUNTIME_FILES = ("pyodide.asm.wasm", "python_stdlib.zip")
PROGRAM_FILES = ("pyodide.mjs", "pyodide.asm.mjs")
LOCK_NAME = "pyodide-lock.json"
MEMORY_NAME = "memory.bin"
LEAN_NAME = "lean.wasm"  # the machine code without what no answer reaches
LIST_NAME = "bundles.json"  # the hashes of the calculators' bundles: the page's script knows this file's alone
PACKED = "packed"
PLUGIN = f"{ROOM}/lean_program.mjs"  # cuts the runtime's program down to what the snapshot needs
PACKAGE = "calculators"
NO_FIT = "does not fit"  # other_release.py looks for it in what is said
# The wheel never leaves the site and the page always takes the one beside it, so one version is enough.
VERSION = "1"


def make(project: Path, into: Path, say: Callable[[str], None]) -> None:
    """
    Bring one folder up to date with everything that a page's engine needs.

    Args:
        project: The project folder, with calculators/ and node_modules/ in it.
        into: The folder to fill; only what changed is written, and what is no longer needed is removed.
        say: Told in one line what was done.

    Raises:
        Trouble: The runtime is not installed, or the wheel cannot be compiled.
        PassingTrouble: Something outside has stopped the work twice. It is never taken for a release that does not fit.
    """
    runtime = project / "node_modules" / "pyodide"
    needed = (*RUNTIME_FILES, *PROGRAM_FILES, LOCK_NAME)
    missing = [name for name in needed if not (runtime / name).is_file()]
    if missing:
        raise Trouble(
            f"The Python runtime for the browser is incomplete: {', '.join(missing)} not in node_modules/pyodide. "
            "Run  python3 -m build_tools build  to fetch it again."
        )
    into.mkdir(parents=True, exist_ok=True)
    changed = [name for name in RUNTIME_FILES if _copy_if_changed(runtime / name, into / name)]
    wheel_name, wheel = make_wheel(project / PACKAGE, VERSION)
    with ThreadPoolExecutor() as beside:  # meanwhile the scripts are bundled, by a Node of their own
        compiling = beside.submit(_wheel_for_pages, project, into, wheel_name, wheel, say)
        quick, changed_quick = _quicker_ways(project, into, wheel, compiling, say)
        compiled = compiling.result()
    for name, data in compiled.items():
        if write_if_changed(into / name, data):
            changed.append(name)
    changed += changed_quick
    workers = bundled(project, {"plain_worker": f"{ROOM}/plain_worker.ts"}, "classic")
    for name, data in workers.items():
        if write_if_changed(into / name, data):
            changed.append(name)
    kept = {*RUNTIME_FILES, *compiled, *workers, *quick}
    for path in sorted(into.iterdir()):
        if path.is_file() and path.name not in kept:
            path.unlink()
    _pack(project, into, kept)
    if changed:
        say(f"engine: {', '.join(changed)}")


def _quicker_ways(
    project: Path, into: Path, source: bytes, compiling: Future[dict[str, bytes]], say: Callable[[str], None]
) -> tuple[list[str], list[str]]:
    """
    The files of the ways of starting that are quicker than the runtime's own, as far as this release fits our cuts.

    What does not fit leaves a slower engine and is told; a page never has a wrong one, or none. What is run in the
    runtime meanwhile is the calculators' byte code: to compile their source there once takes long enough.

    Returns:
        The names of all files, and of those that changed.
    """
    entries = {name: f"{ROOM}/{name}.ts" for name in ("snapshot", "cut_runtime")}
    for plugin in (PLUGIN, None):  # the program cut down, or else as it comes
        try:
            scripts = bundled(project, entries, "node", plugin=plugin)
            if compiling.exception():
                return [], []  # no release can compile it, and `make` says so
            (wheel,) = (data for name, data in compiling.result().items() if name.endswith(".whl"))
            changed, bundles = _keep_memory(project, into, wheel, scripts["snapshot.mjs"])
            break
        except PassingTrouble:
            raise  # says nothing of the release: the build stops, and what stood before stays
        except Trouble as trouble:
            say(_plainer("its program cannot be cut" if plugin else "its memory cannot be kept", trouble))
    else:
        return [], []
    known = {"__MEMORY_BYTES__": memory_bytes(into / MEMORY_NAME)}
    for name, data in bundled(project, {"worker": f"{ROOM}/worker.ts"}, "classic", known, plugin=plugin).items():
        if write_if_changed(into / name, data):
            changed.append(name)
    if write_if_changed(into / LIST_NAME, list_of(into, bundles)):
        changed.append(LIST_NAME)
    made = [MEMORY_NAME, "worker.js", LIST_NAME, *bundles]
    try:
        if _cut_runtime(project, into, (source, wheel), bundles, scripts["cut_runtime.mjs"]):
            changed.append(LEAN_NAME)
    except PassingTrouble:
        raise
    except Trouble as trouble:
        say(_plainer("its machine code cannot be cut", trouble))
        return made, changed
    return [*made, LEAN_NAME], changed


def _plainer(what: str, trouble: Trouble) -> str:
    return f"engine: this release of the runtime {NO_FIT}, {what}; pages start more slowly ({trouble})"


def python_version(project: Path) -> str:
    """Which Python the runtime is, such as 3.14."""
    info = json.loads((project / "node_modules" / "pyodide" / LOCK_NAME).read_text("utf-8"))["info"]
    return ".".join(str(info["python"]).split(".")[:2])


def _wheel_for_pages(
    project: Path, into: Path, wheel_name: str, wheel: bytes, say: Callable[[str], None]
) -> dict[str, bytes]:
    """The wheel with byte code and its lock file; with its source where this release cannot compile it."""
    try:
        return _compiled(project, into, wheel_name, wheel)
    except PassingTrouble:
        raise
    except Trouble as trouble:
        for name, path in source_files(project / PACKAGE):
            try:
                compile(path.read_bytes(), name, "exec")
            except SyntaxError:
                raise trouble from None  # no release could
        say(_plainer("the calculators cannot be compiled in it", trouble))
        return uncompiled(project, wheel_name, wheel)


def uncompiled(project: Path, wheel_name: str, wheel: bytes) -> dict[str, bytes]:
    """The wheel with its source, and a lock file that names it: what `compile_wheel` falls back on."""
    info = json.loads((project / "node_modules" / "pyodide" / LOCK_NAME).read_text("utf-8"))["info"]
    entry = {
        "name": PACKAGE,
        "version": VERSION,
        "file_name": wheel_name,
        "install_dir": "site",
        "sha256": hashlib.sha256(wheel).hexdigest(),
        "package_type": "package",
        "imports": [PACKAGE],
        "depends": [],
        "unvendored_tests": False,
    }
    lock = {"info": info, "packages": {PACKAGE: entry}}
    return {wheel_name: wheel, LOCK_NAME: json.dumps(lock).encode()}


def _compiled(project: Path, into: Path, wheel_name: str, wheel: bytes) -> dict[str, bytes]:
    """The files that compile_wheel.mjs makes; from the folder, where they were made of the same sources before."""
    runtime, script = project / "node_modules" / "pyodide", project / ROOM / "compile_wheel.mjs"
    tools = (project / "requirements.lock").read_bytes()
    program = (_sha(runtime / name) for name in (*RUNTIME_FILES, *PROGRAM_FILES, LOCK_NAME))
    of = stamps.digest(wheel, script.read_bytes(), tools, *program)
    stamp = places.cache(project) / "made" / "wheel.json"
    known = stamps.read(stamp)
    if known.get("of") == of and all((into / name).is_file() for name in known["made"]):
        there = {name: (into / name).read_bytes() for name in known["made"]}
        if known["made"] == {name: hashlib.sha256(data).hexdigest() for name, data in there.items()}:
            return there
    made = compile_wheel(project, wheel_name, wheel)
    stamp.parent.mkdir(parents=True, exist_ok=True)
    stamps.write(stamp, {"of": of, "made": {name: hashlib.sha256(data).hexdigest() for name, data in made.items()}})
    return made


def _keep_memory(project: Path, into: Path, wheel: bytes, program: bytes) -> tuple[list[str], list[str]]:
    """
    Keep the memory of a Python under Node that has all but the calculators, and each calculator's bundle beside it.

    Returns:
        What changed, and the names of all bundles.
    """
    scout, inside, lean = (project / ROOM / name for name in ("scout.py", "inside.py", "lean_code.py"))
    # Nothing else goes into the memory: not the day, the folder or the machine.
    of = stamps.digest(
        program,
        scout.read_bytes(),
        inside.read_bytes(),
        lean.read_bytes(),
        wheel,
        *(_sha(into / name) for name in RUNTIME_FILES),
    )
    stamp = places.cache(project) / "made" / "memory.json"
    known = stamps.read(stamp)
    there = {name: _sha(into / name).hex() for name in known.get("made", ()) if (into / name).is_file()}
    if known == {"of": of, "made": there}:
        return [], [name for name in there if name != MEMORY_NAME]
    with tempfile.TemporaryDirectory() as folder:
        script = Path(folder) / "snapshot.mjs"
        script.write_bytes(program)
        calculators = Path(folder) / "calculators.whl"
        calculators.write_bytes(wheel)
        order = {
            "wasm": str(into / "pyodide.asm.wasm"),
            "library": str(into / "python_stdlib.zip"),
            "calculators": str(calculators),
            "python": python_version(project),
            "scout": str(scout),
            "inside": str(inside),
            "lean": str(lean),
            "into": str(Path(folder) / MEMORY_NAME),
            "bundles": folder,
        }
        node.run(project, script, json.dumps(order), "Python's memory for the browser could not be kept")
        made = {path.name: path.read_bytes() for path in sorted(Path(folder).glob("*.bin"))}
    changed = [name for name, data in made.items() if write_if_changed(into / name, data)]
    stamp.parent.mkdir(parents=True, exist_ok=True)
    stamps.write(stamp, {"of": of, "made": {name: _sha(into / name).hex() for name in made}})
    return changed, [name for name in made if name != MEMORY_NAME]


def _cut_runtime(project: Path, into: Path, wheels: tuple[bytes, bytes], bundles: list[str], program: bytes) -> bool:
    """
    Write the machine code without what no answer reaches, unless that has been done.

    wheels: the calculators' source, and what of it is run.
    """
    asked = [project / ROOM / name for name in ("questions.py", "random_inputs.py")]
    makings = (*RUNTIME_FILES, MEMORY_NAME, "worker.js", *bundles)
    of = stamps.digest(program, *wheels, *(path.read_bytes() for path in asked), *(_sha(into / n) for n in makings))
    stamp = places.cache(project) / "made" / "lean.json"
    target = into / LEAN_NAME
    if target.is_file() and stamps.read(stamp) == {"of": of, "made": _sha(target).hex()}:
        return False
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        script = folder / "cut_runtime.mjs"
        script.write_bytes(program)
        source, calculators = folder / "source.whl", folder / "calculators.whl"
        for path, wheel in zip((source, calculators), wheels, strict=True):
            path.write_bytes(wheel)
        order = {
            "wasm": str(into / "pyodide.asm.wasm"),
            "memory": str(into / MEMORY_NAME),
            "bundles": {name.removesuffix(".bin"): str(into / name) for name in bundles},
            "library": str(into / "python_stdlib.zip"),
            "calculators": str(calculators),
            "source": str(source),
            "python": python_version(project),
            "questions": str(asked[0]),
            "inputs": str(asked[1]),
            "worker": str(into / "worker.js"),
            "into": str(folder / LEAN_NAME),
        }
        node.run(project, script, json.dumps(order), "The runtime's machine code could not be cut")
        fresh = (folder / LEAN_NAME).read_bytes()
    changed = write_if_changed(target, fresh)
    stamp.parent.mkdir(parents=True, exist_ok=True)
    stamps.write(stamp, {"of": of, "made": _sha(target).hex()})
    return changed


def list_of(folder: Path, bundles: list[str]) -> bytes:
    """
    What a page must know of calculators' bundles before it takes one: size, and SHA-256 as an integrity attribute.

    A file of its own, fetched when the engine starts: a page that nobody computes on would carry what grows with each
    calculator.
    """
    return (
        json.dumps({name: told_of(folder / name) for name in sorted(bundles)}, separators=(",", ":")) + "\n"
    ).encode()


def told_of(path: Path) -> dict[str, str | int]:
    """A file's size and SHA-256."""
    return {"bytes": path.stat().st_size, "integrity": f"sha256-{base64.b64encode(_sha(path)).decode()}"}


def memory_bytes(kept: Path) -> int:
    """How large the memory is that a file of snapshot_format.ts's form holds, in bytes: the second number in it."""
    with gzip.open(kept) as opened:
        return int.from_bytes(opened.read(8)[4:], "little")


def _pack(project: Path, into: Path, names: set[str]) -> None:
    """Bring packed/ up to date: one script for each file, with its bytes in it. What is up to date is left alone."""
    folder = into / PACKED
    folder.mkdir(exist_ok=True)
    wanted = {f"{name}.js": (name, _sha(into / name).hex()) for name in sorted(names)}
    for path in sorted(folder.iterdir()):
        if path.name not in wanted:
            path.unlink()
    due = {
        script: {"from": str(into / name), "name": name, "mark": mark, "into": str(folder / script)}
        for script, (name, mark) in wanted.items()
        if not _begins_with(folder / script, f"/* {mark} */")
    }
    if due:
        order = {"files": list(due.values())}
        node.run(project, project / ROOM / "pack_scripts.mjs", json.dumps(order), "The engine could not be packed")


def _begins_with(path: Path, text: str) -> bool:
    if not path.is_file():
        return False
    with path.open("rb") as opened:
        return opened.read(len(text)) == text.encode()


def compile_wheel(project: Path, wheel_name: str, wheel: bytes) -> dict[str, bytes]:
    """
    A wheel with byte code in place of its source, and the runtime's list of packages with that wheel alone in it.

    pyodide-build makes both, in the page's own Python under Node, so that neither hangs on the Python that builds.

    Args:
        project: The project folder, with everything installed.
        wheel_name: The file name of the wheel with the source.
        wheel: Its bytes.

    Returns:
        The compiled wheel and the lock file, by file name. The SHA-256 in the lock file is what the runtime compares
        before it installs the wheel.

    Raises:
        Trouble: pyodide-build refuses the wheel or the runtime's own lock file, or cannot be run.
    """
    info = json.loads((project / "node_modules" / "pyodide" / LOCK_NAME).read_text("utf-8"))["info"]
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / wheel_name).write_bytes(wheel)
        (folder / LOCK_NAME).write_text(json.dumps({"info": info, "packages": {}}), "utf-8")
        tools = places.for_the_runtime(places.environment(project))
        order = {"tools": str(tools), "folder": str(folder), "wheel": wheel_name}
        script = project / ROOM / "compile_wheel.mjs"
        node.run(project, script, json.dumps(order), "The calculators' wheel could not be compiled")
        entry = json.loads((folder / LOCK_NAME).read_text("utf-8"))["packages"][PACKAGE]
        return {file: (folder / file).read_bytes() for file in (str(entry["file_name"]), LOCK_NAME)}


def _copy_if_changed(source: Path, target: Path) -> bool:
    """Copy a runtime file unless the same bytes are there already. True if it was copied."""
    if target.is_file() and target.stat().st_size == source.stat().st_size and _sha(target) == _sha(source):
        return False
    unfinished = target.with_name(target.name + ".part")
    shutil.copyfile(source, unfinished)
    unfinished.replace(target)
    return True


def _sha(path: Path) -> bytes:
    with path.open("rb") as opened:
        return hashlib.file_digest(opened, "sha256").digest()
