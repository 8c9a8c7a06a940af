"""Measures builds: many answers with calculators, beside a plain build of the same text by the same generator."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import median

RATES = (2400, 2666, 2933, 3000, 3200, 3466, 3600, 4000)

# An answer as the site's own checks want it, of ordinary length.
TEXT = """---
title: Question {n} about memory at {rate}
question: How long does kit {n} wait at {rate}?
subject: memory
checked: 2026-01-01
review_by: 2036-01-01
---
# Question {n} about memory at {rate}

{short}

## Your numbers

{block}

## What to do

Read the sticker, put its numbers in, and compare with the other kit.

## If it does not work

Switch the profile off, start, and switch it on again. If it still does not start, take one stick out.

## Why

Each stick answers after a number of clocks, and each clock lasts as long as the rate says. More of one can be as quick
as less of the other. A board that runs a kit slower than its sticker is within its rights.

## Cautions

Switch the computer off at the wall before you touch its parts, and follow the board's manual.

## Sources

- The sticker of the kit.

## History

- 2026-01-01: written.
"""

SHORT = """A kit of this rate waits as long as its clocks say, and carries what its channels allow. The numbers below
are those of one kit; yours may differ, and the sticker tells."""
BLOCK = """/// calculator | memory.rate
    inputs:
        rate: {rate}
        cas: {cas}
///"""

# Both ways of building are one process from start to end, the generator's own start included. Ours does all that
# `build` does but what does not hang on the pages: engine, script and style. The plain one has the same theme as it
# comes: with the whole menu on every page.
OURS = """
import sys
from pathlib import Path
import mkdocs.commands.build, mkdocs.config
from build_tools.checks import built_site, on_the_record, pages
from build_tools.episodes import short_addresses
from build_tools.finding import index, made
from build_tools.site import finish, mkdocs_pages
project, docs, site = map(Path, sys.argv[1:])
wrong = pages.check(docs) + on_the_record.check(docs)
(docs / "made" / "finding" / made.NAME).write_bytes(made.as_script(index.of_docs(docs)))
(docs / "made" / "finding" / made.QUESTIONS).write_bytes(made.questions(docs))
config = mkdocs.config.load_config(
    str(project / "mkdocs.yml"), docs_dir=str(docs), site_dir=str(site), nav=None, strict=False
)
with mkdocs_pages.one_after_the_other():
    mkdocs.commands.build.build(config)
short_addresses.write(short_addresses.collect(docs, [])[0], site)
finish.finish(site, project, docs)
wrong += built_site.check(site, docs)
if wrong:
    sys.exit("\\n".join(wrong[:5]))
"""
PLAIN = """
import sys
from pathlib import Path
import mkdocs.commands.build, mkdocs.config
project, docs, site = map(Path, sys.argv[1:])
config = mkdocs.config.load_config(
    str(project / "mkdocs.yml"), docs_dir=str(docs), site_dir=str(site), nav=None, strict=False,
    extra_css=[], extra_javascript=[], theme={"name": "material", "font": False},
    markdown_extensions=["abbr", "admonition", "attr_list", "def_list", "footnotes", "md_in_html", "tables",
                         {"toc": {"permalink": True}}, "pymdownx.superfences"],
)
mkdocs.commands.build.build(config)
"""


def write(project: Path, docs: Path, count: int, with_calculators: bool) -> None:
    """Write so many answers into a folder, with a calculator in each or with the same text alone."""
    for number in range(count):
        rate = RATES[number % len(RATES)]
        short = f"/// short-answer\n{SHORT}\n///" if with_calculators else SHORT
        turn, more = number // len(RATES) % 180, number // (180 * len(RATES))
        filled = BLOCK.format(rate=rate + more, cas=14 + turn)  # no two alike
        block = filled if with_calculators else "The rate and the clocks."
        path = docs / "answers" / f"part-{number // 100}" / f"question-{number}.md"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(TEXT.format(n=number, rate=rate, short=short, block=block), "utf-8")
    listed = "/// questions\n///" if with_calculators else "Many."
    (docs / "index.md").write_text(f"# Questions\n\n{listed}\n", "utf-8")
    shutil.copytree(project / "docs" / "images", docs / "images")
    if with_calculators:
        shutil.copytree(project / "docs" / "made", docs / "made")


def measure(project: Path, into: Path, counts: tuple[int, ...], runs: int) -> dict[str, dict[str, float]]:
    """
    What both builds take for each count of answers, medians of so many runs taken in turn.

    Returns:
        By count: seconds under `ours` and `plain`, processor seconds under `ours cpu`, and so on; and under `ours
        memory` the most bytes that one of the build's processes held at once.
    """
    medians: dict[str, dict[str, float]] = {}
    for count in counts:
        times: dict[str, list[float]] = {"ours": [], "plain": []}
        used: dict[str, list[float]] = {}
        for name in times:
            write(project, into / f"{count}-{name}", count, name == "ours")
        for _ in range(runs if count < 1000 else 1):
            for name, script in (("plain", PLAIN), ("ours", OURS)):
                site = into / f"{count}-{name}-site"
                shutil.rmtree(site, ignore_errors=True)
                folders = [str(project), str(into / f"{count}-{name}"), str(site)]
                command = [sys.executable, "-W", "ignore", "-c", script, *folders]
                start = time.perf_counter()
                cpu, memory = run(command, project)
                times[name].append(time.perf_counter() - start)
                used.setdefault(f"{name} cpu", []).append(cpu)
                used.setdefault(f"{name} memory", []).append(memory)
        medians[str(count)] = {name: median(each) for name, each in (times | used).items()}
        for name in times:
            shutil.rmtree(into / f"{count}-{name}")
            shutil.rmtree(into / f"{count}-{name}-site")
    return medians


def run(command: list[str], folder: Path) -> tuple[float, float]:
    """
    Run a command and the processes that it starts.

    Returns:
        Processor seconds of all of them, and the most bytes that one held at once; 0 and 0 where the system tells
        neither.

    Raises:
        RuntimeError: It failed; with its last words.
    """
    with tempfile.TemporaryFile() as output:
        child = subprocess.Popen(command, cwd=folder, stdout=output, stderr=output)
        if hasattr(os, "wait4"):
            _, status, usage = os.wait4(child.pid, 0)
            child.returncode = os.waitstatus_to_exitcode(status)
            # told in kilobytes, and in bytes on macOS
            largest = usage.ru_maxrss * (1 if sys.platform == "darwin" else 1024)
            used = (usage.ru_utime + usage.ru_stime, float(largest))
        else:
            child.wait()
            used = (0.0, 0.0)
        if child.returncode != 0:
            output.seek(0)
            raise RuntimeError(output.read().decode("utf-8", "replace")[-2000:])
    return used
