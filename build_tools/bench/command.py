"""The bench command: prepares, measures, prints the table, writes the figures. Knows no single measurement."""

from __future__ import annotations

import json
import os
import platform
import shutil
import tempfile
import zipfile
from collections.abc import Iterator
from pathlib import Path
from statistics import median, quantiles
from typing import Any

from build_tools.bench import builds, many, pages, plain_page, questions, writing
from build_tools.bench.host import Host
from build_tools.environment import browsers, places
from build_tools.environment.progress import Progress
from build_tools.environment.trouble import Trouble
from build_tools.site import archive, finish, made
from calculators.catalogue import names

DOCS = "tests/browser/pages"
WRITTEN = 200  # answers in the site in which a page is saved, to measure how long an open browser waits for it


def bench(project: Path, runs: int, counts: tuple[int, ...], calculators: tuple[int, ...]) -> int:
    """
    Measure everything and print it.

    Args:
        project: The project folder.
        runs: How often each thing is measured; three times as often first live results, which vary most. Medians are
            reported.
        counts: For how many answers the build is measured; none leaves it out.
        calculators: For how many calculators, beside those that stand, a page is measured; none leaves it out.

    Returns:
        0.

    Raises:
        Trouble: There is no Chromium.
    """
    from playwright.sync_api import sync_playwright

    progress = Progress(2 + (2 if counts else 0) + (1 if calculators else 0))
    program = browsers.readers_or_install(project, progress)
    if program is None:
        raise Trouble(browsers.missing())
    with tempfile.TemporaryDirectory(dir=places.cache(project)) as folder:
        work = Path(folder)
        with progress.step("Preparing the pages"):
            _site(project, work)
        host = Host({"/plain/": work / "plain", "/site/": work / "site"})
        with progress.step("Measuring pages in Chromium"), sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=program, args=browsers.flags())
            version = f"{browser.version} ({program.name})"
            measured: dict[str, Any] = {
                "first": pages.first_results(browser, host, work / archive.FOLDER, 3 * runs, runs),
                "reader": pages.reader(browser, host, runs),
                "typing": pages.typing(browser, host, runs),
                "slow line": pages.slow_line(browser, host, runs),
                "sticks": pages.bytes_of_sticks(browser, host),
                "questions": questions.measure(browser, host, project, runs),
            }
            free = playwright.chromium.launch(
                executable_path=program, args=[*browsers.flags(), *pages.NO_DISPLAY_CLOCK]
            )
            measured["typing, no display clock"] = pages.typing(free, host, runs)
            free.close()
            host.close()
            if calculators:
                with progress.step("Measuring sites with more calculators"):
                    all_of = (len(names()), *calculators)
                    measured["many"] = many.measure(browser, project, work / "docs", work / "many", all_of, runs)
            if counts:
                with progress.step("Measuring a page's way from being saved to being seen"):
                    measured["writing"] = writing.measure(browser, project, work / "writing", WRITTEN, runs)
            browser.close()
        if counts:
            with progress.step("Measuring builds"):
                measured["builds"] = builds.measure(project, work / "builds", counts, min(runs, 3))
    measured["on"] = {
        "chromium": version,
        "python": platform.python_version(),
        "cores": os.cpu_count(),
        "load": [round(each, 1) for each in os.getloadavg()] if hasattr(os, "getloadavg") else None,
        "runs": runs,
    }
    into = places.cache(project) / "bench.json"
    into.write_text(json.dumps(measured, indent=1) + "\n", "utf-8")
    print("\n".join(table(measured)))
    print(f"\nEvery run: {into.relative_to(project)}")
    return 0


def _site(project: Path, work: Path) -> None:
    """The tests' pages as a finished site, its archive unpacked, and the plain page."""
    from mkdocs.commands.build import build
    from mkdocs.config import load_config

    made.make(project, lambda line: None)
    docs = work / "docs"
    shutil.copytree(project / DOCS, docs / "answers" / "bench")
    shutil.copy(project / "docs" / "index.md", docs)
    for folder in ("made", "images"):
        shutil.copytree(project / "docs" / folder, docs / folder)
    settings = str(project / "mkdocs.yml")
    build(load_config(settings, docs_dir=str(docs), site_dir=str(work / "site"), nav=None, strict=False))
    finish.finish(work / "site", project, docs)
    with zipfile.ZipFile(work / "site" / archive.NAME) as packed:
        packed.extractall(work)
    plain_page.write(project, work / "plain")


def table(measured: dict[str, Any]) -> Iterator[str]:
    """The figures as a table: ours, the plain way beside it, and the ratio."""
    times = {name: median(each) for name, each in measured["first"]["times"].items()}
    sizes, reader = measured["first"]["bytes"], measured["reader"]
    yield f"{'':44}{'ours':>12}{'plain':>12}{'ratio':>8}"
    for kind in ("cold", "warm"):
        ours, plain = times[f"ours {kind}"], times[f"plain {kind}"]
        least = {"cold": 6.5, "warm": 10}[kind]
        yield f"{_beside(f'first live result, {kind} [ms]', ours, plain, 0)}   (at least {least})"
    for kind in ("cold", "warm"):
        yield f"{f'first live result from a folder, {kind} [ms]':44}{times[f'folder {kind}']:12.0f}{'cannot':>12}"
    ours, plain = times["folder cold"], times["plain cold"]
    yield _beside("  beside the plain way over HTTP", ours, plain, 0)
    yield _beside("until then, gzip [MB]", sizes["ours"] / 1e6, sizes["plain"] / 1e6, 2)
    yield f"{'on the page with larger sticks, gzip [MB]':44}{measured['sticks'] / 1e6:12.2f}   (at most 4.20)"
    slow = {name: median(each) for name, each in measured["slow line"].items()}
    yield _beside("10 Mb/s, 40 ms, CPU 4 times slower [ms]", slow["ours"], slow["plain"], 0)
    yield f"{'page before anything is touched [kB]':44}{reader['weight'] / 1e3:12.0f}"
    yield f"{'longest task while the engine starts [ms]':44}{median(reader['longest task']):12.0f}   (0: none above 50)"
    yield f"{'touched after 5 s, to the result [ms]':44}{median(reader['after idle']):12.1f}"
    free = measured["typing, no display clock"]
    for what, each, which, limit in (
        ("a keystroke to its result in the page [ms]", free, "there", ""),
        ("a keystroke to its painted frame [ms]", free, "painted", "   (at most 10)"),
        ("  with all of the answer [ms]", free, "whole", ""),
        ("  on a display of 60 Hz", measured["typing"], "painted", ""),
    ):
        yield _beside(what, median(each[which]), median(each[f"plain {which}"]), 1)
        ours, plain = (quantiles(each[f"{way}{which}"], n=20)[-1] for way in ("", "plain "))
        yield f"{_beside('    95th percentile', ours, plain, 1)}{limit}"
    yield f"{'phone size, CPU 4 times slower, first [ms]':44}{median(reader['phone']):12.0f}"
    asked = measured["questions"]
    for what, which, digits in (("first question read, cold", "first", 0), ("a question, once it runs", "each", 1)):
        yield _beside(f"{what} [ms]", median(asked["ours"][which]), median(asked["plain"][which]), digits)
    yield f"{'  95th percentile':44}{quantiles(asked['ours']['each'], n=20)[-1]:12.1f}   (at most 80)"
    few: dict[str, float] = next(iter(measured.get("many", {}).values()), {})
    for count, each in measured.get("many", {}).items():
        more = ", ".join(f"{100 * (each[what] / few[what] - 1):+.1f} %" for what in ("bytes", "ms"))
        here = f"{each['bytes'] / 1e6:12.2f}{each['ms']:12.0f}"
        yield f"{f'{count} calculators: until then [MB], [ms]':44}{here}   ({more}; within 5 %)"
    if "writing" in measured:
        yield f"{f'a saved page on screen, {WRITTEN} answers [s]':44}{median(measured['writing']):12.2f}"
    for count, each in measured.get("builds", {}).items():
        yield _beside(f"build of {count} answers [s]", each["ours"], each["plain"], 1)
        yield _beside("  of it at work in the processor [s]", each["ours cpu"], each["plain cpu"], 1)
        yield _beside("  memory of its largest process [MB]", each["ours memory"] / 1e6, each["plain memory"] / 1e6, 0)
    yield f"Chromium {measured['on']['chromium']}, {measured['on']['cores']} cores, load {measured['on']['load']}"


def _beside(what: str, ours: float, plain: float, digits: int) -> str:
    return f"{what:44}{ours:12.{digits}f}{plain:12.{digits}f}{plain / (ours or 1):8.2f}"
