"""Brings docs/made/ up to date. Knows which room makes which folder, and of what; knows none of their work."""

from collections.abc import Callable, Iterable
from pathlib import Path

from build_tools.browser import make as browser
from build_tools.engine import pack
from build_tools.environment import places, stamps
from build_tools.episodes import made as episodes
from build_tools.finding import made as finding

# (folder under docs/made, the function that fills it, what it is made of). All code counts for each of them: a list of
# the files that one really depends on would have to be kept by hand, and would go stale.
_CODE = ("calculators", "build_tools", "package-lock.json", "requirements.lock")
ROOMS: tuple[tuple[str, Callable[[Path, Path, Callable[[str], None]], None], tuple[str, ...]], ...] = (
    ("engine", pack.make, _CODE),
    # The page's script knows the hashes of the engine's files, so it is made anew when those files change. Their
    # sources would not do: one that changes between the making of the two would leave an old hash in the script.
    ("browser", browser.make, (*_CODE, "docs/made/engine")),
    ("episodes", episodes.make, (*_CODE, "docs/episodes", "docs/answers", "mkdocs.yml")),
    ("finding", finding.make, (*_CODE, "docs/answers")),
)


def make(project: Path, say: Callable[[str], None]) -> None:
    """
    Fills every folder of docs/made whose makings have changed since it was last filled.

    Args:
        project: The project folder, with everything installed.
        say: Told in one line what is being done.

    Raises:
        Trouble: A room could not make its folder; the text says what to mend.
    """
    for name, fill, makings in ROOMS:
        into = project / "docs" / "made" / name
        stamp = places.cache(project) / "made" / f"{name}.json"
        of = stamps.digest(*_contents(project, makings))
        if stamps.read(stamp) == {"of": of, "made": _listing(into)}:
            continue
        say(name)
        into.mkdir(parents=True, exist_ok=True)
        stamp.parent.mkdir(parents=True, exist_ok=True)
        stamp.unlink(missing_ok=True)
        fill(project, into, say)
        stamps.write(stamp, {"of": of, "made": _listing(into)})


def _contents(project: Path, makings: Iterable[str]) -> Iterable[bytes]:
    for making in makings:
        root = project / making
        for path in sorted(root.rglob("*")) if root.is_dir() else [root]:
            if path.is_file() and "__pycache__" not in path.parts:
                yield path.relative_to(project).as_posix().encode()
                yield path.read_bytes()


def _listing(folder: Path) -> list[list[str | int]]:
    """Names, sizes and times, to see whether somebody else has changed what was made."""
    if not folder.is_dir():
        return []
    files = sorted(path for path in folder.rglob("*") if path.is_file())
    return [[path.relative_to(folder).as_posix(), path.stat().st_size, path.stat().st_mtime_ns] for path in files]
