"""Python's kept memory is the same bytes whenever and wherever it is made, and answers without any library."""

from __future__ import annotations

import gzip
import json
import shutil
import struct
import subprocess
from pathlib import Path

import pytest

from build_tools.bundling.bundle import bundled
from build_tools.engine import pack
from build_tools.environment import places
from calculators.catalogue import find, names
from tests.conftest import up_to_date

# What travels until the first result, gzipped, beside the page itself (0.12 MB): the whole runtime alone has 6.4 MB.
MOST_BYTES = 4_075_000


def remake(project: Path, folder: Path) -> dict[str, bytes]:
    """The memory and the bundles made once more, from the files in docs/made/engine, in another folder."""
    folder.mkdir()
    engine = project / "docs" / "made" / "engine"
    script = folder / "snapshot.mjs"
    script.write_bytes(bundled(project, {"snapshot": f"{pack.ROOM}/snapshot.ts"}, "node")["snapshot.mjs"])
    (wheel,) = engine.glob("*.whl")  # compiled once more elsewhere: tests/test_other_pythons.py
    order = {
        "wasm": str(engine / "pyodide.asm.wasm"),
        "library": shutil.copy(engine / "python_stdlib.zip", folder / "elsewhere.zip"),
        "calculators": shutil.copy(wheel, folder / "calculators.whl"),
        "scout": str(project / pack.ROOM / "scout.py"),
        "inside": str(project / pack.ROOM / "inside.py"),
        "lean": str(project / pack.ROOM / "lean_code.py"),
        "into": str(folder / "memory.bin"),
        "bundles": str(folder),
        "python": pack.python_version(project),
    }
    order = {name: str(value) for name, value in order.items()}
    done = subprocess.run(
        [str(places.node(project)), str(script), json.dumps(order)],
        capture_output=True,
        text=True,
        encoding="utf-8",
        env={"TZ": "Pacific/Auckland", "LANG": "pt_BR.UTF-8", "HOME": str(folder)},
    )
    assert done.returncode == 0, done.stderr
    return {path.name: path.read_bytes() for path in folder.glob("*.bin")}


@pytest.fixture(scope="module")
def engine(project: Path) -> Path:
    """The engine's folder, up to date."""
    up_to_date(project)
    return project / "docs" / "made" / "engine"


def test_the_memory_is_the_same_in_another_folder_time_zone_and_language(
    project: Path, engine: Path, tmp_path: Path
) -> None:
    here = {path.name: path.read_bytes() for path in engine.glob("*.bin")}
    assert remake(project, tmp_path / "a") == here
    assert len(here) > 1, "a memory, and bundles"


def test_what_travels_until_the_first_result_stays_small(engine: Path) -> None:
    names = ("lean.wasm", "worker.js", "memory.bin", pack.LIST_NAME)
    sizes = {name: len(gzip.compress((engine / name).read_bytes(), 9)) for name in names}
    others = {"memory.bin", "asking.reader.bin"}  # the reader's comes when somebody types a question
    bundles = {path.name: path.stat().st_size for path in engine.glob("*.bin") if path.name not in others}
    assert sum(sizes.values()) + max(bundles.values()) <= MOST_BYTES, (sizes, bundles)


def test_what_a_calculator_says_stands_in_its_bundle_and_not_in_everybodys_memory(engine: Path) -> None:
    memory = gzip.decompress((engine / "memory.bin").read_bytes())
    for name in names():
        title = find(name).title.encode()
        assert title not in memory, f"every page would carry {name}"
        assert title in gzip.decompress((engine / f"{name}.bin").read_bytes())


def test_the_memory_is_in_its_form_and_compressed_in_the_file(engine: Path) -> None:
    packed = (engine / "memory.bin").read_bytes()
    assert packed[4:8] == b"\0\0\0\0", "a time in the file would make two builds differ"
    whole = gzip.decompress(packed)
    magic, memory, _stack, door, take, used, _checksum, fresh, runs = struct.unpack_from("<9I", whole)
    assert magic == 0x324D4157
    assert 0 < fresh < used, "a runtime that has been set up uses less than one with Python in it"
    assert fresh < door < used > take > fresh
    assert memory % 65536 == 0
    assert used <= memory
    lengths = struct.unpack_from(f"<{2 * runs}I", whole, 36)
    assert sum(lengths) <= used
    assert len(whole) == 36 + 8 * runs + sum(lengths[1::2])
