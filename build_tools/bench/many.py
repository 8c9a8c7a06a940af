"""
Measures what more calculators cost a page that uses one: the same site with copies of a subject under other names.

Knows folders and names; pages.py measures. The copies are real calculators, each with a bundle of its own; what is cut
from the machine code is not found out anew for them, since they reach what the originals reach.
"""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path
from statistics import median
from typing import TYPE_CHECKING

from build_tools.bench import pages
from build_tools.bench.host import Host
from build_tools.environment import places
from calculators.catalogue import names

if TYPE_CHECKING:
    from playwright.sync_api import Browser

COPIED = "memory"  # the subject
PROGRAM = """
import shutil, sys
from pathlib import Path
from mkdocs.commands.build import build
from mkdocs.config import load_config
from build_tools.browser import make as browser
from build_tools.engine import pack
from build_tools.site import finish
project, lean = map(Path, sys.argv[1:])
made = project / "docs" / "made"
pack._cut_runtime = lambda *_: bool(shutil.copy(lean, made / "engine" / pack.LEAN_NAME))
said = []
pack.make(project, made / "engine", said.append)
if any(pack.NO_FIT in line for line in said):
    sys.exit("\\n".join(said))
browser.make(project, made / "browser", print)
build(load_config(str(project / "mkdocs.yml"), docs_dir=str(project / "docs"), site_dir=str(project / "site"), nav=None,
                  strict=False))
finish.finish(project / "site", project, project / "docs")
"""


def measure(
    browser: Browser, project: Path, docs: Path, into: Path, counts: tuple[int, ...], runs: int
) -> dict[str, dict[str, float]]:
    """
    Bytes and time until a page's first live result, for each count of calculators, cold.

    Args:
        browser: Chromium.
        project: The project folder, everything made.
        docs: The pages of the bench, with what is made for them.
        into: An empty folder.
        counts: How many calculators there are to be, at least.
        runs: How often each is measured, in turn; medians are told.

    Returns:
        For each count "bytes" and "ms".
    """
    sites = {count: build(project, docs, into / str(count), count) for count in counts}
    hosts = {count: Host({"/site/": folder / "site"}) for count, folder in sites.items()}
    times: dict[int, list[float]] = {count: [] for count in counts}
    sizes: dict[int, list[float]] = {count: [] for count in counts}
    for _ in range(runs):
        for count, host in hosts.items():
            took, sent = pages.first_result(browser, host, f"{host.address}/site/{pages.OURS}")
            times[count].append(took)
            sizes[count].append(sent)
    for host in hosts.values():
        host.close()
    return {str(count): {"bytes": median(sizes[count]), "ms": median(times[count])} for count in counts}


def build(project: Path, docs: Path, folder: Path, count: int) -> Path:
    """The bench's site with at least so many calculators, in a project of its own. Returns the project's folder."""
    folder.mkdir(parents=True)
    for name in ("node_modules", ".venv"):
        (folder / name).symlink_to(project / name, target_is_directory=True)
    for name in (
        "pyproject.toml",
        "mkdocs.yml",
        "requirements.lock",
        "package.json",
        "package-lock.json",
        "screen-cards.toml",
    ):
        shutil.copy(project / name, folder)
    for name in ("build_tools", "calculators"):
        shutil.copytree(project / name, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copytree(docs, folder / "docs")
    copy_calculators(folder / "calculators", count)
    lean = project / "docs" / "made" / "engine" / "lean.wasm"
    command = [str(places.python_of(project / ".venv")), "-W", "ignore", "-c", PROGRAM, str(folder), str(lean)]
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, encoding="utf-8")
    if done.returncode != 0:
        raise RuntimeError(done.stderr[-2000:])
    return folder


def copy_calculators(package: Path, count: int) -> int:
    """Copy a subject under other names until there are at least so many calculators. Returns how many there are."""
    own = sum(name.startswith(f"{COPIED}.") for name in names())
    there = len(names())
    while there < count:
        copy = f"{COPIED}{there}"
        shutil.copytree(package / COPIED, package / copy)
        for path in (package / copy).rglob("*.py"):
            text = path.read_text("utf-8")
            text = text.replace(f"calculators.{COPIED}", f"calculators.{copy}").replace(f'"{COPIED}.', f'"{copy}.')
            path.write_text(text, "utf-8")
        there += own
    return there
