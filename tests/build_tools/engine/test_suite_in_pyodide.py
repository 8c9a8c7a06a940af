"""The calculators' own suite, unchanged, in the very runtime that pages use, under Node."""

from __future__ import annotations

import json
import re
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from build_tools.environment import places
from build_tools.installer.testing import beyond_the_first
from tests import digests

# The one test package that is not pure Python; the registry has it for the page's runtime too.
NATIVE = "hypothesis"


@pytest.fixture(scope="session")
def native_packages(project: Path, worker_name: str) -> Path:
    """A folder with hypothesis as built for the page's runtime, its hash compared with requirements.lock."""
    info = json.loads((project / "node_modules" / "pyodide" / "pyodide-lock.json").read_text("utf-8"))["info"]
    locked = (project / "requirements.lock").read_text("utf-8")
    found = re.search(rf"^{NATIVE}==\S+( \\\n +--hash=\S+)+", locked, re.MULTILINE)
    assert found, f"requirements.lock does not pin {NATIVE}"
    pin = found[0]
    folder = places.cache(project) / "pyodide-tests" / worker_name
    stamp = folder / "pin.txt"
    if stamp.is_file() and stamp.read_text("utf-8") == pin:
        return folder / "packages"
    folder.mkdir(parents=True, exist_ok=True)
    asked = folder / "asked.txt"
    asked.write_text(pin, "utf-8")
    for old in folder.glob("*.whl"):
        old.unlink()
    version = "".join(info["python"].split(".")[:2])
    command = [sys.executable, "-m", "pip", "download", "--quiet", "--no-deps", "--require-hashes"]
    command += [
        "--only-binary",
        ":all:",
        "--implementation",
        "cp",
        "--abi",
        f"cp{version}",
        "--python-version",
        version,
    ]
    command += ["--platform", f"pyemscripten_{info['abi_version']}_wasm32", "--dest", str(folder), "-r", str(asked)]
    done = subprocess.run(command, capture_output=True, text=True, encoding="utf-8")
    assert done.returncode == 0, f"{NATIVE} for the page's runtime cannot be fetched:\n{done.stderr}"
    (wheel,) = folder.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder / "packages")
    stamp.write_text(pin, "utf-8")
    return folder / "packages"


def test_the_calculators_suite_passes_in_the_pages_runtime(
    project: Path, native_packages: Path, tmp_path: Path
) -> None:
    """And every card is the same bytes as here; the other renderings: tests/browser/test_parity.py."""
    packages = places.packages_of(places.environment(project), sys.version_info[:2])
    script = Path(__file__).with_name("suite_in_pyodide.mjs")
    command = [
        places.node(project),
        script,
        project,
        packages,
        native_packages,
        tmp_path / "cards.json",
        "tests/calculators",
        "--assert=plain",  # to rewrite assertions takes this Python long; which test fails it says all the same
        *beyond_the_first(project),
    ]
    done = subprocess.run(
        [str(part) for part in command], cwd=project, capture_output=True, text=True, encoding="utf-8"
    )
    if done.returncode != 0:
        pytest.fail(f"{done.stdout[-20_000:]}\n{done.stderr[-2_000:]}", pytrace=False)
    assert " passed" in done.stdout.splitlines()[-1]
    here, there = digests.digests(("card",)), json.loads((tmp_path / "cards.json").read_text("utf-8"))
    assert list(there) == list(here)
    assert [asked for asked in there if there[asked] != here[asked]] == []
