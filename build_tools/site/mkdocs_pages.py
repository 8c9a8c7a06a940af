"""Makes the pages with MkDocs, strictly. Knows MkDocs and how it words its complaints; writes where it is told."""

import logging
import re
import traceback
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from build_tools.environment import places
from build_tools.environment.trouble import Trouble

_PAGE_IN_MESSAGE = re.compile(
    r"Doc file '(?P<page>[^']+)' contains an? (?:unrecognized |absolute )?(?:relative )?link '(?P<link>[^']*)'"
)
_READING = re.compile(r"Error (?:reading|building) page '(?P<page>[^']+)'")


class Listener(logging.Handler):
    """Collects what MkDocs complains of."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.messages: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.messages.append(record.getMessage())


def make(project: Path, into: Path) -> None:
    """
    Makes every page of docs/ and writes the whole site into a new folder.

    Raises:
        Trouble: A page cannot be made or MkDocs warns of something; one line a problem, with file and line.
    """
    from mkdocs.commands.build import build
    from mkdocs.config import load_config
    from mkdocs.exceptions import MkDocsException

    listener = Listener()
    logger = logging.getLogger("mkdocs")
    logger.addHandler(listener)
    logger.propagate = False
    try:
        config = load_config(str(project / "mkdocs.yml"), site_dir=str(into), strict=False)
        config.plugins.on_startup(command="build", dirty=False)
        try:
            with one_after_the_other():
                build(config)
        finally:
            config.plugins.on_shutdown()
    except (MkDocsException, SystemExit) as error:
        raise Trouble("\n".join(_worded(project, listener.messages) or [str(error)])) from error
    except Trouble:
        raise
    except Exception as error:
        raise Trouble(_of_page(project, listener.messages, error)) from error
    finally:
        logger.removeHandler(listener)
    if listener.messages:
        raise Trouble("\n".join(_worded(project, listener.messages)))


@contextmanager
def one_after_the_other() -> Iterator[None]:
    """
    While this lasts, MkDocs makes each page from its text to its file before it begins the next.

    By itself it holds the text, the HTML and the contents of all pages until all are read, since a theme could show one
    page in another; ours does not (theme/main.html), and ten thousand pages would take more memory than there is.
    requirements.lock pins what is called here; a test compares the bytes.
    """
    from mkdocs.commands import build

    read, write = build._populate_page, build._build_page
    anchors: dict[frozenset[str], set[str]] = {}
    waiting: dict[int, tuple[Any, ...]] = {}

    def put_off(page: Any, *further: Any) -> None:
        waiting[id(page)] = further

    def make(page: Any, *further: Any, **named: Any) -> None:
        read(page, *waiting.pop(id(page)))
        write(page, *further, **named)
        # What the comparison of links at the end still asks for; pages of one kind share their list of places.
        there = page.present_anchor_ids or set()
        page.present_anchor_ids = anchors.setdefault(frozenset(there), there)
        page.markdown = page.content = page.toc = None

    called = vars(build)
    called |= {"_populate_page": put_off, "_build_page": make}
    try:
        yield
    finally:
        called |= {"_populate_page": read, "_build_page": write}


def _of_page(project: Path, messages: list[str], error: Exception) -> str:
    """A page that could not be made: the block's own words where it gave file and line, else what is known."""
    text = str(error)
    if re.match(r"\S+:\d+: ", text):
        return text
    log = places.cache(project) / "logs" / "pages.txt"
    log.parent.mkdir(parents=True, exist_ok=True)
    log.write_text("".join(traceback.format_exception(error)), "utf-8")
    page = next((match["page"] for message in messages if (match := _READING.search(message))), None)
    where = f"docs/{page}" if page else "mkdocs"
    return f"{where}: {type(error).__name__}: {text} (more in {log})"


def _worded(project: Path, messages: list[str]) -> list[str]:
    """MkDocs' messages, those about a link with the line on which it stands."""
    worded = []
    for message in messages:
        match = _PAGE_IN_MESSAGE.search(message)
        if match:
            page = project / "docs" / match["page"]
            worded.append(f"docs/{match['page']}:{line_of(page, match['link'])}: {message}")
        else:
            worded.append(message)
    return worded


def line_of(page: Path, text: str) -> int:
    """The first line of a file that holds a text, counted from 1; 1 if none does."""
    try:
        lines = page.read_text("utf-8").split("\n")
    except OSError:
        return 1
    return next((number for number, line in enumerate(lines, 1) if text in line), 1)
