"""
Tries another release of the runtime in a folder of its own: what of our cuts fits it, and what a page would gain.

Knows npm, folders and sizes; pack.py does there what it does for the pinned release, and tells what does not fit; every
way of starting that comes of it is asked questions, whose answers must be this Python's own.
"""

from __future__ import annotations

import gzip
import hashlib
import json
import shutil
import subprocess
import tempfile
from collections.abc import Collection, Iterator
from pathlib import Path
from typing import Any

from build_tools.engine import pack
from build_tools.engine.random_inputs import random_inputs
from build_tools.environment import node, places
from build_tools.environment.trouble import Trouble
from calculators.catalogue import find, names
from calculators.door import answer

# The ways of starting (browser/engine/start.ts), the quickest first: machine code, worker, and the largest of the rest.
WAYS = {
    "lean": ("lean.wasm", "worker.js", "memory.bin"),
    "snapshot": ("pyodide.asm.wasm", "worker.js", "memory.bin"),
    "plain": ("pyodide.asm.wasm", "plain_worker.js", "python_stdlib.zip"),
}
SEED, BY_CHANCE = 20_261_127, 10  # of random inputs, so many a calculator; another seed than the build's own
WANTED = "html,text,json,link"
SAME = "the same bytes"


def try_release(project: Path, version: str) -> list[str]:
    """
    Fetch a release from the registry, pack the calculators with it, and compare with the pinned one.

    Args:
        project: The project folder, its own engine packed.
        version: As the registry names it, such as "314.0.6".

    Returns:
        The lines of a table. The folder stays, for looking at: .cache/runtimes/<version>.

    Raises:
        Trouble: The registry does not give this release.
    """
    folder = places.cache(project) / "runtimes" / version
    shutil.rmtree(folder, ignore_errors=True)
    _set_up(project, folder, version)
    said: list[str] = []
    pack.make(folder, folder / "docs" / "made" / "engine", said.append)
    troubles = [line.partition(f"{pack.NO_FIT}, ")[2] for line in said if pack.NO_FIT in line]
    return list(_table(project, folder, version, troubles))


def _set_up(project: Path, folder: Path, version: str) -> None:
    """A folder like the project's, with another runtime in it."""
    modules = folder / "node_modules"
    modules.mkdir(parents=True)
    (folder / "package.json").write_text(json.dumps({"private": True, "dependencies": {"pyodide": version}}), "utf-8")
    command = [*places.npm(project), "install", "--ignore-scripts", "--no-audit", "--no-fund"]
    done = subprocess.run([str(part) for part in command], cwd=folder, capture_output=True, text=True, encoding="utf-8")
    if done.returncode != 0:
        raise Trouble(f"Release {version} of the runtime could not be fetched: {done.stderr.strip()[-300:]}")
    _as_a_module(modules / "pyodide")
    for path in (project / "node_modules").iterdir():
        if path.name != "pyodide" and not (modules / path.name).exists():
            (modules / path.name).symlink_to(path)
    (folder / ".venv").symlink_to(places.environment(project), target_is_directory=True)
    ignored = shutil.ignore_patterns("__pycache__")
    for name in ("build_tools", "calculators"):
        shutil.copytree(project / name, folder / name, ignore=ignored)
    shutil.copy(project / "requirements.lock", folder)


def _as_a_module(runtime: Path) -> None:
    """Releases before 314 have their program as a classic script: put it as a module where ours looks for it."""
    script, module = runtime / "pyodide.asm.js", runtime / "pyodide.asm.mjs"
    if not script.is_file() or module.is_file():
        return
    module.write_text(f"{script.read_text('utf-8')}\nexport default _createPyodideModule;\n", "utf-8")
    package = runtime / "package.json"
    told = json.loads(package.read_text("utf-8"))
    if "exports" in told:
        told["exports"]["./pyodide.asm.mjs"] = "./pyodide.asm.mjs"
    package.write_text(json.dumps(told), "utf-8")


def try_answers(root: Path, by_chance: int = BY_CHANCE) -> dict[str, str]:
    """
    Have an engine that was packed answer questions, by each of its ways of starting, and compare with this Python.

    Args:
        root: The project folder, or one like it.
        by_chance: So many random inputs a calculator, beside the common cases.

    Returns:
        For each way, in a few words, how its answers compare; SAME ends what is right.
    """
    made = root / "docs" / "made" / "engine"
    asked = [
        (name, json.dumps(inputs))
        for name in names()
        for calculator in [find(name)]
        for inputs in (*(dict(each.inputs) for each in calculator.presets), *random_inputs(calculator, by_chance, SEED))
    ]
    right = [hashlib.sha256(answer(name, inputs, WANTED, "p-1").encode()).hexdigest() for name, inputs in asked]
    return {way: _compared(found, right) for way, found in start_each(made, asked, WANTED).items()}


def start_each(
    made: Path, asked: list[tuple[str, str]], wanted: str, leave_out: Collection[str] = ()
) -> dict[str, dict[str, Any]]:
    """
    Start a packed engine in each of its ways, by the very worker that a page gets, and ask it.

    Args:
        made: The folder that pack.py has filled.
        asked: Calculators and their inputs as JSON.
        wanted: Which renderings, by comma.
        leave_out: Ways that need not be tried.

    Returns:
        For each way the SHA-256 of the "answers", in order, or the "trouble" in which its start has ended.
    """
    plain = ("python_stdlib.zip", pack.LOCK_NAME, *(path.name for path in made.glob("*.whl")))
    bundles = {name: made / f"{name}.bin" for name, _ in asked}
    order = {
        "bundles": {name: str(path) for name, path in bundles.items() if path.is_file()},
        "files": {name: str(made / name) for name in plain},
        "questions": asked,
        "wanted": wanted,
    }
    found: dict[str, dict[str, Any]] = {}
    with tempfile.TemporaryDirectory() as work:
        told, into = Path(work) / "order.json", Path(work) / "answers.json"
        for way, files in WAYS.items():
            if way in leave_out or not all((made / name).is_file() for name in files):
                continue
            code, worker, memory = (str(made / name) for name in files)
            own = {"wasm": code, "worker": worker, "into": str(into), "memory": None if way == "plain" else memory}
            told.write_text(json.dumps(order | own), "utf-8")
            into.write_text('{"trouble": "it ended without a word"}', "utf-8")
            script = places.PROJECT / pack.ROOM / "try_answers.mjs"
            node.run(places.PROJECT, script, str(told), f"The {way} start could not be tried")
            found[way] = json.loads(into.read_text("utf-8"))
    return found


def _compared(found: dict[str, Any], right: list[str]) -> str:
    if "trouble" in found:
        return f"does not start: {found['trouble'][:300]}"
    given: list[str] = found["answers"]
    stopped = sum(each.startswith("stopped") for each in given)
    others = sum(one != two for one, two in zip(given, right, strict=True)) - stopped
    if others:
        return f"{others} of {len(right)} answers are others: it must not be used"
    if stopped:
        return f"{stopped} of {len(right)} answers have to be asked again of the next way; the others are {SAME}"
    return f"{len(right)} answers, {SAME}"


def _table(project: Path, folder: Path, version: str, troubles: list[str]) -> Iterator[str]:
    infos = [_info(root) for root in (project, folder)]
    sizes = [_sizes(root) for root in (project, folder)]
    answers = [try_answers(root) for root in (project, folder)]
    yield _row("", [infos[0]["version"], version])
    yield _row("Python", [info["python"] for info in infos])
    yield _row("memory kept", [_yes(pack.MEMORY_NAME in made) for made in sizes])
    yield _row("machine code cut", [_yes(pack.LEAN_NAME in made) for made in sizes])
    yield _row("calculators compiled", [_yes(not any(map(_has_source, made))) for made in sizes])
    for name in ("lean.wasm", "worker.js", "memory.bin", "pyodide.asm.wasm", "python_stdlib.zip"):
        yield _row(f"{name}, gzip [MB]", [f"{made[name] / 1e6:.2f}" if name in made else "–" for made in sizes])
    until = [sum(made[name] for name in _quickest(made)) for made in sizes]
    yield _row("until the first result, gzip [MB]", [f"{each / 1e6:.2f}" for each in until])
    yield _row("of the pinned release's [%]", [f"{100 * each / until[0]:.1f}" for each in until])
    for release, found in zip((infos[0]["version"], version), answers, strict=True):
        for way, words in found.items():
            yield f"{release}, {way} start: {words}"
    for trouble in troubles:
        yield f"Does not fit: {_in_short(trouble)}"
    if not any(words.endswith(SAME) for words in answers[1].values()):
        yield "No way of starting this release gives our answers."
    elif troubles:
        yield "What does not fit leaves a slower way of starting."
    else:
        yield "Everything fits."


def _yes(there: bool) -> str:
    return "yes" if there else "no"


def _has_source(name: str) -> bool:
    return name.endswith("-py3-none-any.whl")


def _quickest(made: dict[str, int]) -> tuple[str, ...]:
    """What travels until the first result by the quickest way there is, a calculator's own bundle left out."""
    way, files = next((way, files) for way, files in WAYS.items() if all(name in made for name in files))
    return files if way != "plain" else (*files, pack.LOCK_NAME, *(name for name in made if name.endswith(".whl")))


def _in_short(trouble: str) -> str:
    """What went wrong, without where in which program."""
    lines = [line.strip() for line in trouble.splitlines()]
    return " ".join([lines[0], *(line for line in lines[1:] if "Error: " in line or "ERROR] " in line)][:2])


def _row(what: str, values: list[str]) -> str:
    return f"{what:38}" + "".join(f"{value:>17}" for value in values)


def _sizes(root: Path) -> dict[str, int]:
    made = root / "docs" / "made" / "engine"
    return {path.name: len(gzip.compress(path.read_bytes(), 9)) for path in made.iterdir() if path.is_file()}


def _info(root: Path) -> dict[str, str]:
    runtime = root / "node_modules" / "pyodide"
    lock = json.loads((runtime / pack.LOCK_NAME).read_text("utf-8"))["info"]
    package = json.loads((runtime / "package.json").read_text("utf-8"))
    return {"python": str(lock["python"]), "version": str(package["version"])}
