"""
The scripts of desk, run sheet, picture and prompter: bundled from this room's TypeScript and the page's own modules.

Bundled when they are first asked for and kept in `.cache/`, so that a server that is started again has them at once.
They are no part of the site; which engine the desk may use, the site that is served says.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from pathlib import Path

from build_tools.bundling.on_demand import OnDemand
from build_tools.environment import places

PAGES = Path(__file__).with_name("pages")
ENTRIES = ("desk", "picture", "prompter", "run", "to_desk")


class Scripts:
    """The bundled scripts for one site."""

    def __init__(self, site: Path) -> None:
        self._engine = site / "made" / "engine"
        self._digests: dict[tuple[str, int, int], str] = {}
        room = PAGES.relative_to(places.PROJECT).as_posix()
        entries = {name: f"{room}/{name}.ts" for name in ENTRIES}
        self._scripts = OnDemand("presenting", entries, self.state, self._known)

    def read(self, name: str) -> bytes:
        """
        One script, as its sources are now.

        Raises:
            KeyError: There is no such script.
            Trouble: It does not bundle.
        """
        return self._scripts.read(name)

    def state(self) -> str:
        """A mark of all that the scripts are made of: of code by its files' times, of the engine by its bytes."""
        total = hashlib.sha256()
        for path in self._code():
            state = path.stat()
            total.update(f"{path.name} {state.st_size} {state.st_mtime_ns}\n".encode())
        # Each build writes the engine anew, mostly with the same bytes; then a desk that is open goes on as it is.
        for path in sorted(self._engine.glob("*")):
            try:
                total.update(f"{path.name} {self._digest(path)}\n".encode())
            except OSError:  # a folder, or the site is being replaced at this moment
                continue
        return total.hexdigest()[:20]

    def _digest(self, path: Path) -> str:
        state = path.stat()
        key = (path.name, state.st_size, state.st_mtime_ns)
        if key not in self._digests:
            self._digests[key] = hashlib.sha256(path.read_bytes()).hexdigest()
        return self._digests[key]

    def _code(self) -> Iterator[Path]:
        tools = places.PROJECT / "build_tools"
        for room in ("presenting", "browser", "engine", "bundling"):
            yield from sorted(path for path in (tools / room).rglob("*") if path.suffix in (".ts", ".mjs"))
        yield tools / "cards" / "command.py"

    def _known(self) -> dict[str, object]:
        # Imported here, since a server that is started again has its scripts and is to be there at once.
        from build_tools.browser.make import engine_files
        from build_tools.cards import theme
        from build_tools.cards.command import face_css

        return {
            "__ENGINE_FILES__": engine_files(self._engine),
            "__FACE_CSS__": face_css(places.PROJECT),
            "__CARD_THEME__": theme.settings(places.PROJECT),
        }
