"""
Writes and reads requirements.lock. Knows the dependency groups of pyproject.toml; installs nothing.

The file is one plain requirements file with hashes, good for Python 3.11 to 3.14 on Linux, macOS and
Windows. A line `## group` opens each section, so that a start may install the first ones alone.
"""

import re
import subprocess
import sys
import tempfile
from itertools import pairwise
from pathlib import Path

from build_tools.environment import places
from build_tools.environment.trouble import Trouble

# In the order of the sections. Each needs those before it.
GROUPS = ("calculators", "site", "tests")

_HEAD = """\
# Every Python package that the project installs, with the hashes of its wheels. Written by
#     python3 -m build_tools lock
# from the dependency groups of pyproject.toml: change those, not this.
"""
_ENTRY = re.compile(r"^(?P<name>[A-Za-z0-9._-]+)==", re.MULTILINE)


def sections(text: str) -> dict[str, str]:
    """The sections of a lock file by group, in order, each a requirements text of its own."""
    parts = re.split(r"^## (\S+)\n", text, flags=re.MULTILINE)
    found = dict(zip(parts[1::2], parts[2::2], strict=True))
    if tuple(found) != GROUPS:
        raise Trouble("requirements.lock is not whole: get it back with  git checkout requirements.lock")
    return found


def names(text: str) -> list[str]:
    """The packages that a requirements text pins, each once, in order."""
    return list(dict.fromkeys(match["name"] for match in _ENTRY.finditer(text)))


def lock(project: Path) -> str:
    """
    The text of a fresh requirements.lock for the groups of pyproject.toml as they are now.

    Needs the package index. Versions are resolved for all groups at once, so that no section can
    contradict another; a package stands in the first section that needs it.
    """
    with tempfile.TemporaryDirectory() as folder:
        tool = Path(folder) / "tool"
        _run([sys.executable, "-m", "venv", str(tool)])
        _run([str(places.python_of(tool)), "-m", "pip", "install", "--quiet", "uv"])
        everything = _compile(tool, project, GROUPS, ())
        pins = Path(folder) / "pins.txt"
        pins.write_text(re.sub(r"( \\\n)? +(--hash|#).*", "", everything), "utf-8")
        entries = _entries(everything)
        text, placed = _HEAD, set[str]()
        for count, group in enumerate(GROUPS, 1):
            needed = names(_compile(tool, project, GROUPS[:count], ("--constraint", str(pins))))
            text += f"\n## {group}\n" + "".join(entries[name] for name in needed if name not in placed)
            placed.update(needed)
    return text


def _compile(tool: Path, project: Path, groups: tuple[str, ...], more: tuple[str, ...]) -> str:
    command = [str(places.scripts(tool) / "uv"), "pip", "compile", "--quiet", "--universal", "--no-header"]
    command += ["--python-version", "3.11", "--fork-strategy", "requires-python", "--only-binary", ":all:"]
    command += ["--generate-hashes", "--no-emit-index-url", "--no-emit-find-links", *more]
    for group in groups:
        command += ["--group", group]
    return _run(command, project)


def _entries(text: str) -> dict[str, str]:
    """Each package's lines: one pin, or several with markers."""
    found: dict[str, str] = {}
    starts = [match.start() for match in _ENTRY.finditer(text)] + [len(text)]
    for start, end in pairwise(starts):
        entry = text[start:end]
        name = entry.partition("==")[0]
        found[name] = found.get(name, "") + entry
    return found


def _run(command: list[str], folder: Path | None = None) -> str:
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, encoding="utf-8")
    if done.returncode != 0:
        raise Trouble(f"Locking the dependencies failed: {done.stderr.strip()}")
    return done.stdout
