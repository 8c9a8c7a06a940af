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

from build_tools.bench import builds, pages, plain_page, writing
from build_tools.bench.host import Host
from build_tools.environment import browsers, places
from build_tools.environment.progress import Progress
from build_tools.environment.trouble import Trouble
from build_tools.site import archive, finish, made

DOCS = "tests/browser/pages"
WRITTEN = 200  # answers in the site of the one who is writing


def bench(project: Path, runs: int, counts: tuple[int, ...]) -> int:
    """
    Measure everything and print it.

    Args:
        project: The project folder.
        runs: How often each thing is measured; medians are reported.
        counts: For how many answers the build is measured; none leaves it out.

    Returns:
        0.

    Raises:
        Trouble: There is no Chromium.
    """
    from playwright.sync_api import sync_playwright

    progress = Progress(4 if counts else 2)
    program = browsers.find_or_install(project, progress)
    if program is None:
        raise Trouble(browsers.missing())
    with tempfile.TemporaryDirectory(dir=places.cache(project)) as folder:
        work = Path(folder)
        with progress.step("Preparing the pages"):
            _site(project, work)
        host = Host({"/plain/": work / "plain", "/site/": work / "site"})
        with progress.step("Measuring pages in Chromium"), sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=program, args=browsers.flags())
            version = browser.version
            found: dict[str, Any] = {
                "first": pages.first_results(browser, host, work / archive.FOLDER, runs),
                "reader": pages.reader(browser, host, runs),
            }
            host.close()
            if counts:
                with progress.step("Measuring a page's way from being saved to being seen"):
                    found["writing"] = writing.measure(browser, project, work / "writing", WRITTEN, runs)
            browser.close()
        if counts:
            with progress.step("Measuring builds"):
                found["builds"] = builds.measure(project, work / "builds", counts, min(runs, 3))
    found["on"] = {
        "chromium": version,
        "python": platform.python_version(),
        "cores": os.cpu_count(),
        "load": [round(each, 1) for each in os.getloadavg()] if hasattr(os, "getloadavg") else None,
        "runs": runs,
    }
    into = places.cache(project) / "bench.json"
    into.write_text(json.dumps(found, indent=1) + "\n", "utf-8")
    print("\n".join(table(found)))
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


def table(found: dict[str, Any]) -> Iterator[str]:
    """The figures as a table: ours, the plain way beside it, and the ratio."""
    times = {name: median(each) for name, each in found["first"]["times"].items()}
    sizes, reader = found["first"]["bytes"], found["reader"]
    yield f"{'':44}{'ours':>12}{'plain':>12}{'ratio':>8}"
    for kind in ("cold", "warm"):
        ours, plain = times[f"ours {kind}"], times[f"plain {kind}"]
        yield _beside(f"first live result, {kind} [ms]", ours, plain, 0)
    for kind in ("cold", "warm"):
        yield f"{f'first live result from a folder, {kind} [ms]':44}{times[f'folder {kind}']:12.0f}{'cannot':>12}"
    yield _beside("until then, gzip [MB]", sizes["ours"] / 1e6, sizes["plain"] / 1e6, 2)
    yield f"{'page before anything is touched [kB]':44}{reader['weight'] / 1e3:12.0f}"
    yield f"{'longest task while the engine starts [ms]':44}{median(reader['longest task']):12.0f}   (0: none above 50)"
    yield f"{'touched after 5 s, to the result [ms]':44}{median(reader['after idle']):12.1f}"
    for kind, name in (("in the page", "typing"), ("to its frame", "typing to frame")):
        middle, most = median(reader[name]), quantiles(reader[name], n=20)[-1]
        yield f"{f'a keystroke to its result {kind} [ms]':44}{middle:12.1f}   (95th percentile {most:.1f})"
    yield f"{'phone size, CPU 4 times slower, first [ms]':44}{median(reader['phone']):12.0f}"
    if "writing" in found:
        yield f"{f'a saved page on screen, {WRITTEN} answers [s]':44}{median(found['writing']):12.2f}"
    for count, each in found.get("builds", {}).items():
        yield _beside(f"build of {count} answers [s]", each["ours"], each["plain"], 1)
        yield _beside("  of it at work in the processor [s]", each["ours cpu"], each["plain cpu"], 1)
        yield _beside("  memory of its largest process [MB]", each["ours memory"] / 1e6, each["plain memory"] / 1e6, 0)
    yield f"Chromium {found['on']['chromium']}, {found['on']['cores']} cores, load {found['on']['load']}"


def _beside(what: str, ours: float, plain: float, digits: int) -> str:
    return f"{what:44}{ours:12.{digits}f}{plain:12.{digits}f}{plain / (ours or 1):8.2f}"
