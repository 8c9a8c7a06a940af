"""
Writes docs/made/browser/: the page's one script, its style, and the fonts with their licences.

Knows the module at which each script and style begins; knows nothing of the modules' contents.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from pathlib import Path

from build_tools.bundling.bundle import bundled
from build_tools.cards import theme
from build_tools.cards.command import face_css
from build_tools.engine import pack
from build_tools.files import write_if_changed

ROOM = "build_tools/browser"
FONTS = ("stix-two-text", "instrument-sans")


def make(project: Path, into: Path, say: Callable[[str], None]) -> None:
    """
    Bring one folder up to date with the page's script, style and fonts.

    Args:
        project: The project folder, with node_modules/ in it.
        into: The folder to fill; only what changed is written, and what is no longer needed is removed.
        say: Called with one line that names the files that changed.

    Raises:
        Trouble: A module does not bundle; the message names file and line.
    """
    entries = {"page": f"{ROOM}/page/page.ts", "page-style": f"{ROOM}/style/page.css"}
    entries |= {"plan": f"{ROOM}/plan/plan.ts", "plan-style": f"{ROOM}/style/plan.css"}  # for pages that have a plan
    entries["first"] = f"{ROOM}/page/first.ts"  # build_tools/site/frame.py puts it into every page
    entries["service_worker"] = (
        f"{ROOM}/service_worker/service_worker.ts"  # build_tools/site/offline.py puts before it what it is to keep
    )
    entries["keep_offline"] = f"{ROOM}/offline/offline.ts"  # fetched when a page has come to rest
    entries["finder"] = f"{ROOM}/finder/panel.ts"  # fetched where a page has a place for it, or when asked for
    entries |= {"asking": f"{ROOM}/asking/asking.ts", "asking-style": f"{ROOM}/style/asking.css"}  # for whole questions
    entries["paste"] = f"{ROOM}/asking/paste.ts"  # fetched when the place for pasting in a form is opened
    entries["pictures"] = f"{ROOM}/media/pictures.ts"  # for pages with pictures that are shown pixel by pixel
    entries["screen"] = f"{ROOM}/screen/screen.ts"  # fetched when a result is put on the screen
    theme.read(project)  # a look with too little contrast stops the build
    known = {
        "__ENGINE_FILES__": engine_files(into.parent / "engine"),
        "__FACE_CSS__": face_css(project),
        "__CARD_THEME__": theme.settings(project),
        "__CARD_CHOICES__": theme.choices(),
    }
    # for pages with lines that move
    entries |= {"moving_text": f"{ROOM}/media/moving_text.ts", "moving_text-style": f"{ROOM}/style/moving_text.css"}
    entries["said_search"] = f"{ROOM}/episodes/said_search.ts"  # for the list of episodes
    made = bundled(project, entries, "classic", known)
    for name in ("page", "plan", "moving_text", "asking"):
        made[f"{name}.css"] = made.pop(f"{name}-style.css")
    for font in FONTS:
        licence = project / "node_modules" / "@fontsource-variable" / font / "LICENSE"
        made[f"fonts/{font}-licence.txt"] = licence.read_bytes()
    changed = write_all(made, into)
    if changed:
        say(f"browser: {', '.join(changed)}")


def engine_files(folder: Path) -> dict[str, dict[str, str | int]]:
    """
    What the page's script knows about the engine's files: their sizes, and hashes as integrity attributes.

    Calculators' bundles are not among them: their hashes stand in a list of their own (pack.py), whose hash is.
    """
    if not folder.is_dir():
        return {}
    listed = folder / pack.LIST_NAME
    bundles = json.loads(listed.read_text("utf-8")) if listed.is_file() else {}
    return {
        path.name: pack.told_of(path)
        for path in sorted(folder.iterdir())
        if path.is_file() and path.name not in bundles
    }


def write_all(files: Mapping[str, bytes], into: Path) -> list[str]:
    """Make a folder hold these files and no others. Returns the names of those that changed."""
    changed = [name for name, data in files.items() if write_if_changed(into / name, data)]
    for path in sorted(into.rglob("*")):
        if path.is_file() and path.relative_to(into).as_posix() not in files:
            path.unlink()
    return changed
