"""Builds site/. Knows the order of the steps and that the old site stays until the new one is whole."""

import os
import subprocess
from pathlib import Path

from build_tools import keeping
from build_tools.checks import built_site, on_the_record, pages, placeholders
from build_tools.environment import locks, swapping
from build_tools.environment.progress import Progress
from build_tools.environment.trouble import Trouble
from build_tools.episodes import programme, record, sheet, short_addresses
from build_tools.site import finish, made

# For a folder without a history: the earliest moment that a zip archive can hold.
NO_HISTORY = "315532800"


def build(project: Path, progress: Progress, generator: str = "mkdocs", into: Path | None = None) -> None:
    """
    Makes site/ from docs/, calculators/ and build_tools/.

    Args:
        project: The project folder.
        progress: Told what is being done.
        generator: The program that makes the pages: mkdocs or zensical.
        into: The folder to write, on the same disk as the project; site/ unless another is given.

    Raises:
        Trouble: The build failed; the text has one line a problem, with file and line. The
            folder is as it was.
    """
    os.environ["SOURCE_DATE_EPOCH"] = commit_date(project)
    progress.total += 4
    fresh, target = swapping.fresh_site(project), into or project / "site"
    with locks.lock(swapping.lock_file(project), progress):
        swapping.bring_back(fresh, target)
        docs = project / "docs"
        mistakes = programme.mistakes(project) or pages.check(docs)
        mistakes = mistakes or on_the_record.check(docs) or placeholders.check(project)
        if mistakes:
            raise Trouble("\n".join([*mistakes, f"Not built: {len(mistakes)} mistakes in the pages."]))
        with progress.step("Preparing the engine and the page's script and style") as step:
            made.make(project, lambda text: setattr(step, "note", text))
        with progress.step(f"Making the pages with {generator}"):
            swapping.remove(fresh)
            if generator == "zensical":
                from build_tools.site import zensical_pages

                zensical_pages.make(project, fresh)
            else:
                from build_tools.site import mkdocs_pages

                mkdocs_pages.make(project, fresh)
        episodes, _ = sheet.read_all(project / "docs")
        short_addresses.write(short_addresses.collect(docs, episodes)[0], fresh)
        with progress.step("Finishing the pages: frame, policy, offline, site.zip"):
            finish.finish(fresh, project)
        with progress.step("Checking the pages"):
            problems = built_site.check(fresh, project / "docs")
            if problems:
                raise Trouble("\n".join([*problems, f"Not built: {len(problems)} problems in the pages."]))
        swapping.swap(fresh, target)
        try:
            record.note_holding(docs, episodes)
        except keeping.CannotKeep as problem:  # the site is whole, and a later build notes it
            progress.say(f"{problem}.")


def commit_date(project: Path) -> str:
    """The moment that stands in the site for 'now': of the last commit, in seconds since 1970."""
    given = os.environ.get("SOURCE_DATE_EPOCH", "")
    if given.isdigit():
        return given
    try:
        done = subprocess.run(
            ["git", "log", "-1", "--format=%ct"], cwd=project, capture_output=True, text=True, timeout=30
        )
    except (OSError, subprocess.TimeoutExpired):
        return NO_HISTORY
    return done.stdout.strip() if done.returncode == 0 and done.stdout.strip().isdigit() else NO_HISTORY
