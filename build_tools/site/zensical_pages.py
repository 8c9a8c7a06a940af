"""Makes the pages with Zensical from the same mkdocs.yml. Knows its command; nothing of what stands in the pages."""

import os
import shutil
import subprocess
from pathlib import Path

from build_tools.environment import places
from build_tools.environment.trouble import Trouble

THEME = "build_tools/site/theme"  # as mkdocs.yml names it


def make(project: Path, into: Path) -> None:
    """
    Makes every page of docs/ and writes the whole site into a new folder.

    Zensical writes where mkdocs.yml says and nowhere else, so it works on a copy of what it reads.

    Raises:
        Trouble: Zensical is not installed, or complains; its own words are quoted.
    """
    program = places.scripts(places.environment(project)) / ("zensical.exe" if os.name == "nt" else "zensical")
    if not program.is_file():
        raise Trouble("Zensical is installed with the tests: run  python3 -m build_tools test  once, then this again.")
    room = places.cache(project) / "zensical"
    shutil.rmtree(room, ignore_errors=True)
    room.mkdir(parents=True)
    shutil.copy(project / "mkdocs.yml", room)
    shutil.copytree(project / THEME, room / THEME)
    hidden = shutil.ignore_patterns(".*")  # as the other generator leaves out of itself: what a sheet was before
    shutil.copytree(project / "docs", room / "docs", ignore=hidden, copy_function=_link_or_copy)
    done = subprocess.run(
        [program, "build", "--clean", "--strict"],
        cwd=room,
        env=os.environ | {"PYTHONPATH": str(project), "NO_COLOR": "1"},
        capture_output=True,
        text=True,
        encoding="utf-8",
    )
    printed = (done.stdout + done.stderr).strip()
    if done.returncode != 0 or not (room / "site" / "index.html").is_file():
        raise Trouble(f"Zensical did not build the site:\n{printed}")
    (room / "site").rename(into)
    shutil.rmtree(room)


def _link_or_copy(source: str, target: str) -> None:
    """A second name for the same file where the disk allows it: the engine is large."""
    try:
        os.link(source, target)
    except OSError:
        shutil.copyfile(source, target)
