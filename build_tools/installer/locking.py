"""
Writes and reads requirements.lock. Knows the dependency groups of pyproject.toml; installs nothing.

The file is one plain requirements file with hashes, good for Python 3.11 to 3.14 on Linux, macOS and
Windows. A line `## group` opens each section, so that a start may install some of them alone.
"""

import re
import tempfile
from collections.abc import Callable, Sequence
from itertools import pairwise
from pathlib import Path

from build_tools.environment.trouble import Trouble

FILE = "requirements.lock"
# Installed into one environment: each needs those before it, and a package stands in the first that needs it.
SHARED = ("calculators", "site", "tests")
# Installed each by itself, so whole in itself: uv, which installs the rest, and what runs in the page's runtime while
# the site is built, for the Python of that runtime.
INSTALLER, RUNTIME = "installer", "runtime"
RUNTIME_PYTHON = "3.14"
GROUPS = (INSTALLER, *SHARED, RUNTIME)

_HEAD = """\
# Every Python package that the project installs, with the hashes of its wheels. Written by
#     python3 -m build_tools lock
# from the dependency groups of pyproject.toml: change those, not this.
"""
_ENTRY = re.compile(r"^(?P<name>[A-Za-z0-9._-]+)==", re.MULTILINE)


def sections(text: str) -> dict[str, str]:
    """The sections of a lock file by group, in order, each a requirements text of its own."""
    parts = re.split(r"^## (\S+)\n", text, flags=re.MULTILINE)
    by_group = dict(zip(parts[1::2], parts[2::2], strict=True))
    if tuple(by_group) != GROUPS:
        raise Trouble("requirements.lock is not whole: get it back with  git checkout requirements.lock")
    return by_group


def names(text: str) -> list[str]:
    """The packages that a requirements text pins, each once, in order."""
    return list(dict.fromkeys(match["name"] for match in _ENTRY.finditer(text)))


def lock(project: Path, uv: Callable[[Sequence[str | Path]], tuple[int, str]]) -> str:
    """
    The text of a fresh requirements.lock for the groups of pyproject.toml as they are now.

    Needs the package index. Versions are resolved for all shared groups at once, so that no section can
    contradict another.

    Args:
        project: The project folder.
        uv: Runs uv with these arguments, and returns its exit status and what it printed.

    Raises:
        Trouble: The groups cannot be resolved, or the index cannot be reached.
    """
    with tempfile.TemporaryDirectory() as folder:
        everything = _compile(uv, SHARED)
        pins = Path(folder) / "pins.txt"
        pins.write_text(re.sub(r"( \\\n)? +(--hash|#).*", "", everything), "utf-8")
        entries = _entries(everything)
        text, placed = _HEAD + f"\n## {INSTALLER}\n" + _compile(uv, (INSTALLER,)), set[str]()
        for count, group in enumerate(SHARED, 1):
            needed = names(_compile(uv, SHARED[:count], constraint=pins))
            text += f"\n## {group}\n" + "".join(entries[name] for name in needed if name not in placed)
            placed.update(needed)
        return text + f"\n## {RUNTIME}\n" + _compile(uv, (RUNTIME,), RUNTIME_PYTHON)


def _compile(
    uv: Callable[[Sequence[str | Path]], tuple[int, str]],
    groups: tuple[str, ...],
    python: str = "3.11",
    constraint: Path | None = None,
) -> str:
    command: list[str | Path] = ["pip", "compile", "--quiet", "--universal", "--no-header", "--python-version", python]
    command += ["--fork-strategy", "requires-python", "--only-binary", ":all:"]
    command += ["--generate-hashes", "--no-emit-index-url", "--no-emit-find-links"]
    command += ["--constraint", constraint] if constraint else []
    for group in groups:
        command += ["--group", group]
    status, printed = uv(command)
    if status != 0:
        raise Trouble(f"Locking the dependencies failed: {printed.strip()}")
    return printed


def _entries(text: str) -> dict[str, str]:
    """Each package's lines: one pin, or several with markers."""
    entries: dict[str, str] = {}
    starts = [match.start() for match in _ENTRY.finditer(text)] + [len(text)]
    for start, end in pairwise(starts):
        entry = text[start:end]
        name = entry.partition("==")[0]
        entries[name] = entries.get(name, "") + entry
    return entries
