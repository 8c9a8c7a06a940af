"""What belongs to a person survives a full disk, a kill and a crowd; and nothing is written past the one function."""

from __future__ import annotations

import ast
import errno
import os
import random
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from build_tools import keeping
from build_tools.episodes import forget, marks
from build_tools.new.writing import CannotMake, write_all
from build_tools.presenting.takes import Takes
from tests.test_rooms import sources

PROJECT = Path(__file__).resolve().parents[3]
SHEET = "---\ntitle: One\nsegments:\n  - question: What?\n    viewer: otter-7\n---\n# One\n" + "words " * 3000


def test_a_file_is_written_and_what_it_was_is_kept(tmp_path: Path) -> None:
    path = tmp_path / "deep" / "001-a.md"
    keeping.keep(path, "first\n")
    assert not keeping.last_good(path).exists()
    keeping.keep(path, "second ü\n")
    assert path.read_bytes() == "second ü\n".encode()
    assert keeping.last_good(path).read_text("utf-8") == "first\n"
    assert [each.name for each in tmp_path.rglob("*") if each.is_file()].count("001-a.md") == 1
    assert list((tmp_path / "deep").rglob("*.md")) == [path]
    keeping.keep(path, b"third", before=False)
    assert not keeping.last_good(path).exists()


@pytest.mark.skipif(os.name != "posix", reason="rights and links as POSIX has them")
def test_rights_and_links_stay(tmp_path: Path) -> None:
    real = tmp_path / "elsewhere" / "real.md"
    real.parent.mkdir()
    real.write_text("first", "utf-8")
    real.chmod(0o640)
    link = tmp_path / "link.md"
    link.symlink_to(real)
    keeping.keep(link, "second")
    assert link.is_symlink()
    assert (real.read_text("utf-8"), real.stat().st_mode & 0o777) == ("second", 0o640)


def test_what_must_not_be_there_yet_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "a.md"
    keeping.keep(path, "mine", fresh=True)
    with pytest.raises(keeping.CannotKeep, match="is there already"):
        keeping.keep(path, "other", fresh=True)
    assert path.read_text("utf-8") == "mine"


def test_changing_leaves_the_file_where_the_change_fails(tmp_path: Path) -> None:
    path = tmp_path / "a.md"
    with pytest.raises(keeping.CannotKeep, match="is not there"):
        keeping.change(path, str.upper)
    assert keeping.change(path, lambda text: text + "x", absent="new ") == "new x"
    with pytest.raises(ZeroDivisionError):
        keeping.change(path, lambda text: str(1 / 0))
    assert path.read_text("utf-8") == "new x"
    path.write_bytes(b"\xff\xfe")
    with pytest.raises(keeping.CannotKeep, match="not written in UTF-8"):
        keeping.change(path, str.upper)
    assert path.read_bytes() == b"\xff\xfe"


def test_line_ends_stay_as_they_are(tmp_path: Path) -> None:
    path = tmp_path / "a.md"
    path.write_bytes(b"one\r\ntwo\r\n")
    keeping.change(path, lambda text: text.replace("one", "1"))
    assert path.read_bytes() == b"1\r\ntwo\r\n"


LIMITED = """
import resource, sys
from pathlib import Path
from build_tools import keeping
resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096))   # a real write that really fails
try:
    keeping.keep(Path(sys.argv[1]), "x" * 100_000)
except keeping.CannotKeep as problem:
    print(problem)
"""


@pytest.mark.skipif(os.name != "posix", reason="needs a limit that the system enforces")
def test_a_write_that_fails_half_way_changes_nothing(tmp_path: Path) -> None:
    path = tmp_path / "001.json"
    path.write_text("whole", "utf-8")
    done = subprocess.run([sys.executable, "-c", LIMITED, str(path)], cwd=PROJECT, capture_output=True, text=True)
    assert done.stdout == (
        "001.json is as it was, since it could not be written: the system allows no file so large\n"
    ), done.stderr
    assert path.read_text("utf-8") == "whole"
    assert {each.name for each in tmp_path.iterdir()} <= {"001.json", ".before"}


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (errno.ENOSPC, "the disk is full: free some space"),
        (errno.EROFS, "the disk can only be read"),
        (errno.EACCES, "this account may not write there"),
        (errno.EDQUOT, "your share of the disk is full"),
        (errno.EIO, os.strerror(errno.EIO)),
    ],
)
def test_what_fails_is_told_in_a_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int, words: str
) -> None:
    path = tmp_path / "001.json"
    keeping.keep(path, "whole")

    def fails(descriptor: int) -> None:
        raise OSError(number, os.strerror(number))

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", fails)
        with pytest.raises(keeping.CannotKeep, match=f"^001.json is as it was, since it could not be written: {words}"):
            keeping.keep(path, "new")
    assert path.read_text("utf-8") == "whole"
    keeping.keep(path, "after")
    assert path.read_text("utf-8") == "after"


KILLED = """
import sys
from pathlib import Path
from build_tools import keeping
path = Path(sys.argv[1])
print("ready", flush=True)
for number in range(1, 1_000_000):
    keeping.keep(path, f"{number % 10}" * 200_000)
"""


@pytest.mark.skipif(os.name != "posix", reason="a kill as POSIX has it")
def test_a_kill_leaves_a_whole_file_and_no_lock(tmp_path: Path) -> None:
    path = tmp_path / "001-a.md"
    keeping.keep(path, "0" * 200_000)
    chance = random.Random(7)
    for _ in range(8):
        child = subprocess.Popen(
            [sys.executable, "-c", KILLED, str(path)], cwd=PROJECT, stdout=subprocess.PIPE, text=True
        )
        assert child.stdout is not None
        with child.stdout:
            child.stdout.readline()
            time.sleep(chance.uniform(0.0, 0.15))
            child.send_signal(signal.SIGKILL)
            child.wait()
        text = path.read_text("utf-8")
        assert (len(text), len(set(text))) == (200_000, 1)
        kept = keeping.last_good(path)
        assert not kept.exists() or len(set(kept.read_text("utf-8"))) == 1
    keeping.keep(path, "after")
    assert path.read_text("utf-8") == "after"
    assert [each.name for each in tmp_path.iterdir() if each.name.endswith(".unfinished")] == []


def test_sixty_marks_at_once_are_all_there(tmp_path: Path) -> None:
    kept = Takes(tmp_path)
    threads = [threading.Thread(target=kept.note, args=(1, number, 1000.0 + number)) for number in range(60)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert kept.read(1) == {str(number): 1000.0 + number for number in range(60)}


APART = """
import sys
from pathlib import Path
from build_tools.presenting.takes import Takes
for n in range(10):
    Takes(Path(sys.argv[1])).note(1, int(sys.argv[2]) + n, 5.0)
"""


def test_marks_of_several_commands_are_all_there(tmp_path: Path) -> None:
    started = [
        subprocess.Popen([sys.executable, "-c", APART, str(tmp_path), str(10 * first)], cwd=PROJECT)
        for first in range(3)
    ]
    assert [child.wait(120) for child in started] == [0, 0, 0]
    assert set(Takes(tmp_path).read(1)) == {str(number) for number in range(30)}


def test_marks_of_an_earlier_release_are_moved(tmp_path: Path) -> None:
    old = tmp_path / ".cache" / "marks" / "001.json"
    old.parent.mkdir(parents=True)
    old.write_text('{"0": 1000, "1": 1010.5}', "utf-8")
    kept = Takes(tmp_path)
    assert kept.read(1) == {"0": 1000.0, "1": 1010.5}
    assert not old.exists()
    assert kept.note(1, 2, 1100.0) == {"0": 1000.0, "1": 1010.5, "2": 1100.0}
    assert (tmp_path / ".presenter" / "takes" / "001.json").is_file()
    old.write_text('{"0": 1}', "utf-8")  # another one that comes later takes nothing away
    assert kept.read(1)["0"] == 1000.0


@pytest.mark.parametrize("damage", [b"", b"{", b'{"1": 5}{"2": 6}', b'{"1": NaN}', b'{"1": Infinity}', b"[]", b"\xff"])
def test_damaged_marks_come_back_as_they_were_before(tmp_path: Path, damage: bytes) -> None:
    kept = Takes(tmp_path)
    kept.note(1, 0, 1000.0)
    kept.note(1, 1, 1010.0)
    path = tmp_path / ".presenter" / "takes" / "001.json"
    path.write_bytes(damage)
    assert kept.read(1) == {"0": 1000.0}
    if damage != b"\xff":
        assert kept.note(1, 2, 1020.0) == {"0": 1000.0, "2": 1020.0}
        assert kept.read(1) == {"0": 1000.0, "2": 1020.0}
    keeping.last_good(path).unlink()
    path.write_bytes(damage)
    with pytest.raises(keeping.CannotKeep, match="is damaged: mend it or move it away"):
        kept.read(1)


def test_start_times_that_cannot_be_written_leave_the_sheet(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = tmp_path / "001-a.md"
    sheet.write_text(SHEET, "utf-8")

    def full(descriptor: int) -> None:
        raise OSError(errno.ENOSPC, "full")

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", full)
        with pytest.raises(keeping.CannotKeep, match=r"001-a\.md is as it was"):
            marks.write_starts(sheet, {1: 4})
    assert sheet.read_text("utf-8") == SHEET
    marks.write_starts(sheet, {1: 4})
    assert keeping.last_good(sheet).read_text("utf-8") == SHEET


def test_who_is_forgotten_is_in_no_kept_state_either(tmp_path: Path) -> None:
    sheet = tmp_path / "episodes" / "001-a.md"
    keeping.keep(sheet, SHEET)
    marks.write_starts(sheet, {1: 4})
    assert "otter-7" in keeping.last_good(sheet).read_text("utf-8")
    assert forget.carry_out(forget.plan(tmp_path, "otter-7")) == [sheet]
    assert [each for each in tmp_path.rglob("*") if each.is_file() and "otter-7" in each.read_text("utf-8")] == []
    # named only in what was kept
    keeping.keep(sheet, SHEET.replace("otter-7", "heron-2"))
    keeping.keep(sheet, SHEET.replace("otter-7", "anonymous"))
    forget.carry_out(forget.plan(tmp_path, "heron-2"))
    assert [each for each in tmp_path.rglob("*") if each.is_file() and "heron-2" in each.read_text("utf-8")] == []


def test_new_files_are_written_all_or_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    files = {tmp_path / f"{number}.md": "text" for number in range(3)}
    real = os.replace
    done: list[object] = []

    def fails(*names: object, **rest: object) -> None:
        done.append(names)
        if len(done) == 3:
            raise OSError(errno.ENOSPC, "full")
        real(*names, **rest)  # type: ignore[arg-type]

    with monkeypatch.context() as patched:
        patched.setattr(os, "replace", fails)
        with pytest.raises(CannotMake, match="the disk is full"):
            write_all(files)
    assert len(done) == 3
    assert list(tmp_path.iterdir()) == []


# Nothing is written past the one function

# Files that write what is generated, fetched or thrown away: never what a person wrote, marked or asked to be saved.
GENERATED = {
    "build_tools/bench/": "measurements, and sites made for them",
    "build_tools/engine/": "the engine's files, made anew at each build",
    "build_tools/questions/measure.py": "a table of what decides most, measured anew",
    "build_tools/environment/": "the environment, its logs and stamps",
    "build_tools/installer/": "the environment and its lock files, made anew",
    "build_tools/site/": "the site, made anew at each build",
    "build_tools/cards/font_widths.py": "a table made from the face",
    "build_tools/commands.py": "requirements.lock, which git keeps",
    "build_tools/episodes/made.py": "the episodes' pages, made anew at each build",
    "build_tools/episodes/short_addresses.py": "pages of the built site",
    "build_tools/files.py": "generated files",
    "build_tools/keeping.py": "the one function itself",
}
# One by one, what a file of a person's room writes that is not theirs.
ALLOWED = {
    ("build_tools/cards/photographs.py", "write_text"): "a page in a temporary folder, to be photographed",
    ("build_tools/cards/photographs.py", "open"): "what the browser prints, in a temporary folder",
    ("build_tools/cards/photographs.py", "write"): "a message into the browser's pipe",
    ("build_tools/presenting/worker.py", "fdopen"): "a process's own output, for its replies",
    ("build_tools/episodes/sheet_edit.py", "dump"): "a text in memory",
    ("build_tools/new/site_pages.py", "dump"): "a text in memory",
    ("build_tools/new/site.py", "copyfile"): "tracked files into an empty folder, which git has",
}
WRITERS = frozenset(
    "write_text write_bytes copy copy2 copyfile copytree move rename touch symlink_to hardlink_to link truncate "
    "dump save_all NamedTemporaryFile mkstemp".split()
)


def writes(name: str, text: str) -> list[str]:
    """Calls in a file that write one, but for those of the one function."""
    found = []
    for node in ast.walk(ast.parse(text)):
        if not isinstance(node, ast.Call):
            continue
        function = node.func
        called = function.attr if isinstance(function, ast.Attribute) else getattr(function, "id", "")
        value = function.value if isinstance(function, ast.Attribute) else None
        owner = value.id if isinstance(value, ast.Name) else ""
        opens = called in ("open", "fdopen") and any(
            isinstance(each, ast.Constant) and isinstance(each.value, str) and set(each.value) & set("wax+")
            and set(each.value) <= set("rwaxbt+")
            for each in [*node.args, *(keyword.value for keyword in node.keywords if keyword.arg == "mode")]
        )  # fmt: skip
        moves = called == "renames" or (called == "replace" and (owner == "os" or len(node.args) == 1))
        lowly = owner == "os" and called == "write"
        if (called in WRITERS or opens or moves or lowly) and (name, called) not in ALLOWED:
            found.append(f"{name}:{node.lineno}: {called}: what belongs to a person is written by keeping.py")
    return found


def test_nothing_is_written_past_the_one_function() -> None:
    mine = [(name, text) for name, text in sources("build_tools") if not name.startswith(tuple(GENERATED))]
    assert len(mine) > 40
    assert [fault for name, text in mine for fault in writes(name, text)] == []
    for line in (
        "path.write_text('x')", "path.write_bytes(b'x')", "open(path, 'w')", "path.open(mode='ab')", "os.replace(a, b)",
        "a.replace(b)", "a.rename(b)", "shutil.copy(a, b)", "json.dump(x, f)", "os.write(1, b'x')", "shutil.move(a, b)",
    ):  # fmt: skip
        assert len(writes("build_tools/new/x.py", line)) == 1, line
    for line in ("path.read_text()", "open(path)", "path.open('rb')", "text.replace('a', 'b')", "keeping.keep(p, t)"):
        assert writes("build_tools/new/x.py", line) == [], line


def test_every_exception_is_still_needed() -> None:
    known = dict(sources("build_tools"))
    for start in GENERATED:
        assert any(name.startswith(start) and "write" in text for name, text in known.items()), start
    for name, called in ALLOWED:
        assert f"{called}(" in known[name], (name, called)
