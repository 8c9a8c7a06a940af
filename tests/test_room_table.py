"""
Who may import whom: DEVELOPERS.md's table of rooms, held against every import of Python and TypeScript, and against
what the rooms say of themselves. The table is the only place where it stands.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator, Mapping
from fnmatch import fnmatchcase
from functools import cache
from typing import NamedTuple

import pytest

from tests.sources import PROJECT, imports, module_imports, sources

TABLE = (PROJECT / "DEVELOPERS.md").read_text("utf-8")
SCRIPTS = (".ts", ".js", ".mjs")
SCRIPT_ROOM = "build_tools/browser/"
ALL = "all rooms"
# Names in the table that stand for rooms, or are other than the last part of a room's path.
NAMED = {"calculators/*/": "subjects", "calculators/*.py": "catalogue", "build_tools/*.py": "commands"}
CALCULATORS = ("desk", "trade", "subjects", "catalogue", "asking")


class Room(NamedTuple):
    """One row of the table."""

    path: str  # a folder ending in a slash, a file, or a pattern of either
    name: str
    may: frozenset[str]
    guards: tuple[str, ...]


def rows(heading: str) -> Iterator[list[str]]:
    """The cells of a table's rows; the table is known by its first heading."""
    _, found, rest = TABLE.partition(f"| {heading} |")
    assert found, f"DEVELOPERS.md has no table with the heading {heading}"
    for line in rest.split("\n")[2:]:
        if not line.startswith("|"):
            return
        yield [cell.strip() for cell in line.strip("|").split("|")]


def listed(cell: str) -> frozenset[str]:
    """The rooms that a cell of the table names."""
    names = [] if cell == "nothing" else cell.split(", ")
    return frozenset(name for each in names for name in (CALCULATORS if each == "calculators" else (each,)))


def room_name(path: str) -> str:
    """What a room is called in the table's other rows."""
    return NAMED.get(path) or path.rstrip("/").rpartition("/")[2].removesuffix(".py")


ROOMS = [
    Room(
        cells[0].strip("`"), room_name(cells[0].strip("`")), listed(cells[2]), tuple(re.findall("`([^`]+)`", cells[3]))
    )
    for cells in rows("room")
]
BY_NAME = {room.name: room for room in ROOMS}
GROUPS = {cells[0].strip("`/"): listed(cells[2]) for cells in rows("group of `build_tools/browser/`")}


@cache
def room_of(file: str) -> Room | None:
    """The room in which a file stands; the row that names it most closely wins."""
    fitting = [room for room in ROOMS if fits(file, room.path)]
    return max(fitting, key=lambda room: (len(room.path.replace("*", "")), room.path.endswith("/")), default=None)


def fits(file: str, path: str) -> bool:
    """Whether a file stands in the folder, or is the file, of a row's path."""
    if path.endswith("/"):
        depth = path.count("/")
        return file.count("/") >= depth and fnmatchcase("/".join(file.split("/")[:depth]) + "/", path)
    return file.count("/") == path.count("/") and fnmatchcase(file, path)


@cache
def as_file(dotted: str) -> str:
    """The file or folder that a dotted import leads to: of `package.module.name`, the module's file."""
    parts = dotted.split(".")
    for length in range(len(parts), 0, -1):
        path = "/".join(parts[:length])
        if (PROJECT / f"{path}.py").is_file():
            return f"{path}.py"
        if (PROJECT / path).is_dir():
            return f"{path}/__init__.py"
    return "/".join(parts) + ".py"


def faults(name: str, text: str) -> list[str]:
    """The imports of a file that its room's row does not name."""
    room = room_of(name)
    if room is None:
        return [f"{name}: stands in no room of DEVELOPERS.md's table"]
    found = []
    if name.endswith(".py"):
        targets = [(line, as_file(imported)) for line, imported in imports(name, text) if is_ours(imported)]
    else:
        targets = list(module_imports(name, text))
    for line, target in targets:
        into = room_of(target)
        same = into is room and (room.name != "subjects" or target.split("/")[1] == name.split("/")[1])
        # a package's own file is as free as its room; the root packages hold nothing
        if same or into is None or ALL in room.may or target in ("calculators/__init__.py", "build_tools/__init__.py"):
            continue
        if into.name not in room.may:
            found.append(f"{name}:{line}: {room.name} imports {target} of {into.name}, which its row does not name")
        elif into.name == room.name:
            found.append(f"{name}:{line}: imports {target}, and a subject never imports another")
    return found


def is_ours(dotted: str) -> bool:
    """Whether an import is of this project."""
    return dotted.partition(".")[0] in ("calculators", "build_tools", "tests")


def group_faults(name: str, text: str) -> list[str]:
    """The imports of one of the page's modules that its group's row does not name."""
    group = name.removeprefix(SCRIPT_ROOM).partition("/")[0]
    if group not in GROUPS:
        return [f"{name}: stands in no group of DEVELOPERS.md's table"]
    found = []
    for line, target in module_imports(name, text):
        other = target.removeprefix(SCRIPT_ROOM).partition("/")[0]
        if target.startswith(SCRIPT_ROOM) and other not in (group, *GROUPS[group]):
            found.append(f"{name}:{line}: {group} imports {target}, which its row does not name")
    return found


def circle(may: Mapping[str, frozenset[str]]) -> list[str]:
    """A way from a room back to itself, or nothing."""
    done: set[str] = set()

    def follow(way: list[str]) -> list[str]:
        if way[-1] in way[:-1]:
            return way[way.index(way[-1]) :]
        for following in sorted(may.get(way[-1], frozenset()) - done):
            if found := follow([*way, following]):
                return found
        done.add(way[-1])
        return []

    return next(filter(None, (follow([room]) for room in sorted(may))), [])


def test_every_import_is_one_that_the_table_names() -> None:
    files = [*sources("calculators", "build_tools", "tests"), *sources("build_tools", "tests", endings=SCRIPTS)]
    assert len(files) > 300, "hardly anything to look at"
    assert [fault for name, text in files for fault in faults(name, text)] == []


def test_every_import_within_the_pages_script_is_one_that_its_table_names() -> None:
    files = list(sources("build_tools/browser", endings=SCRIPTS))
    assert len(files) > 30, "hardly anything to look at"
    assert [fault for name, text in files for fault in group_faults(name, text)] == []


def test_no_room_comes_back_to_itself() -> None:
    assert circle({room.name: room.may - {ALL} for room in ROOMS}) == []
    assert circle(GROUPS) == []
    assert circle({"a": frozenset({"b"}), "b": frozenset({"c"}), "c": frozenset({"a"})}) == ["a", "b", "c", "a"]


@pytest.mark.parametrize("room", ROOMS, ids=[room.path for room in ROOMS])
def test_a_row_names_rooms_and_guards_that_are_there(room: Room) -> None:
    assert list(PROJECT.glob(room.path)), "there is no such room"
    assert room.may <= {*BY_NAME, ALL}, room.may - set(BY_NAME)
    assert [guard for guard in room.guards if not (PROJECT / guard).exists()] == []


@pytest.mark.parametrize("room", [room for room in ROOMS if room.path.endswith("/") and room.path.count("/") > 1])
def test_a_room_says_of_itself_what_the_table_says(room: Room) -> None:
    folders = [
        folder
        for folder in PROJECT.glob(room.path)
        if room_of(f"{folder.relative_to(PROJECT).as_posix()}/a.py") is room
    ]
    texts = {folder: ast.get_docstring(ast.parse((folder / "__init__.py").read_text("utf-8"))) for folder in folders}
    assert texts
    for folder, text in texts.items():
        said = re.search(r"May import: ([^.]+)\.", text or "")
        assert said, f"{folder.name}/__init__.py does not say what it may import"
        assert listed(" ".join(said[1].split())) == room.may, folder.name


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("calculators/audio/level.py", "import build_tools.site"),
        ("calculators/audio/level.py", "from build_tools import site"),
        ("calculators/audio/level.py", "from calculators.memory import rate"),
        ("calculators/audio/level.py", "from ..memory import rate"),
        ("calculators/audio/level.py", "from calculators import memory"),
        ("calculators/audio/level.py", "from calculators import catalogue"),
        ("calculators/audio/level.py", "def f():\n    import calculators.memory.rate"),
        ("calculators/desk/text.py", "from calculators.memory import rate"),
        ("calculators/desk/text.py", "from calculators import catalogue"),
        ("calculators/desk/text.py", "from calculators.trade import ratio"),
        ("calculators/trade/ratio.py", "from calculators.display import link"),
        ("calculators/asking/kits.py", "from calculators.memory import rate"),
        ("calculators/asking/kits.py", "from calculators.trade import ratio"),
        ("calculators/memory/rate.py", "from calculators.asking import words"),
        ("build_tools/site/build.py", "from tests import conftest"),
        ("build_tools/engine/pack.py", "from build_tools.site import build"),
        ("build_tools/environment/places.py", "import calculators.catalogue"),
        ("build_tools/markdown_blocks/blocks.py", "from build_tools.keeping import write"),
        ("build_tools/engine/worker.ts", 'import { ask } from "../browser/engine/client";'),
        (
            "build_tools/engine/worker.ts",
            'import type {\n  Ask,\n} from "../browser/engine/client";'.replace("\n", " "),
        ),
        ("build_tools/engine/worker.ts", 'const later = await import("../site/pack_zip");'),
    ],
)
def test_a_fault_is_seen(name: str, text: str) -> None:
    found = faults(name, text)
    assert len(found) == 1
    assert found[0].startswith(f"{name}:{text.count(chr(10)) + 1}: ")


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("calculators/audio/level.py", "from calculators.desk.inputs import number"),
        ("calculators/audio/level.py", "from calculators.audio.wave import waves"),
        ("calculators/audio/level.py", "from calculators.trade import ratio"),
        ("calculators/trade/links/fitting.py", "from calculators.trade.ratio import Ratio"),
        ("calculators/catalogue.py", "from calculators.memory import rate"),
        ("calculators/asking/kits.py", "from calculators.catalogue import find"),
        ("build_tools/site/build.py", "from build_tools.environment import places"),
        ("build_tools/browser/engine/client.ts", 'import type { Ask } from "../../engine/messages";'),
    ],
)
def test_nothing_is_seen_that_is_not_there(name: str, text: str) -> None:
    assert faults(name, text) == []


def test_a_fault_within_the_pages_script_is_seen() -> None:
    assert group_faults("build_tools/browser/media/a.ts", 'import { a } from "../plan/plan";') == [
        "build_tools/browser/media/a.ts:1: media imports build_tools/browser/plan/plan, which its row does not name"
    ]
    assert group_faults("build_tools/browser/odd/sounds.ts", "") != []
