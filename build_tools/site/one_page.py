"""
Makes single pages again without the rest of the site, for one who is writing them.

Knows how MkDocs goes from a page's text to its HTML. Every page's text is read, since the menu needs their titles; only
those asked for are worked out. The whole build, which comes after, has the last word: what is made here is looked at
only until then. `python3 -m build_tools.site.one_page INTO PAGE…` is what `serve` runs.
"""

from __future__ import annotations

import logging
import os
import re
import sys
from collections.abc import Collection
from pathlib import Path

from build_tools.environment import children, places
from build_tools.site import frame, mkdocs_pages, policy

_HEADING = re.compile(r"^# +(.+?) *$", re.MULTILINE)


def make(project: Path, pages: Collection[str], into: Path) -> list[str]:
    """
    Write the HTML of these pages, finished as in a built site, below a folder.

    Args:
        project: The project folder.
        pages: Paths below docs/, with forward slashes; what is no page is left out.
        into: The folder to write to.

    Returns:
        The written files, as paths below the folder.

    Raises:
        Exception: Whatever the page or the generator raises; the whole build tells it in words.
        ValueError: MkDocs complains of one of the pages, which the whole build would not take either.
    """
    from mkdocs.commands import build
    from mkdocs.config import load_config
    from mkdocs.structure.files import get_files, set_exclusions
    from mkdocs.structure.nav import get_navigation
    from mkdocs.structure.pages import Page

    listener = mkdocs_pages.Listener()
    logger = logging.getLogger("mkdocs")
    logger.addHandler(listener)
    logger.propagate = False
    config = load_config(str(project / "mkdocs.yml"), site_dir=str(into), strict=False)
    config.plugins.on_startup(command="build", dirty=True)
    config = config.plugins.on_config(config)
    # From here on as mkdocs.commands.build.build does, which has no way to leave pages out; requirements.lock pins it,
    # and a test compares the bytes.
    files = get_files(config)
    environment = config.theme.get_env()
    files.add_files_from_theme(environment, config)
    files = config.plugins.on_files(files, config=config)
    set_exclusions(files, config)
    navigation = config.plugins.on_nav(get_navigation(files, config), config=config, files=files)
    listed = list(files.documentation_pages())
    wanted = [file for file in listed if file.src_uri in pages]
    for file in listed:
        page = file.page or Page(None, file, config)  # one that the menu leaves out has none yet
        if file in wanted:
            build._populate_page(page, config, files)
        else:
            page.read_source(config)
            heading = _HEADING.search(page.markdown or "")
            if heading:
                page.meta.setdefault("title", heading[1])  # what the menu calls it
    if listener.messages:
        raise ValueError("; ".join(listener.messages))
    environment = config.plugins.on_env(environment, config=config, files=files) or environment
    around = frame.of_project(project)
    for file in wanted:
        assert file.page is not None
        build._build_page(file.page, config, listed, navigation, environment)
        target = into / file.dest_uri
        html = frame.framed(target.read_bytes().decode("utf-8"), file.dest_uri, around)
        if policy.strangers(html, around.scripts):
            raise ValueError(f"{file.src_uri} holds a script of its own")
        html = policy.with_policy(html, around.scripts)
        target.write_bytes(html.encode("utf-8"))
    return [file.dest_uri for file in wanted]


def main(arguments: list[str]) -> int:
    """Make the pages named on the command line."""
    children.end_with_parent()
    os.environ.setdefault("SOURCE_DATE_EPOCH", "0")
    made = make(places.PROJECT, frozenset(arguments[1:]), Path(arguments[0]))
    return 0 if made else 1


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
