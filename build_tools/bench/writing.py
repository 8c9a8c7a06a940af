"""Measures how long one who is writing waits: from a page being saved to its new text in an open browser."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import threading
import time
from pathlib import Path
from typing import TYPE_CHECKING

from build_tools.bench import builds
from build_tools.environment import places

if TYPE_CHECKING:
    from playwright.sync_api import Browser

PAGE = "answers/part-0/question-7"
FILES = ("mkdocs.yml", "package.json", "package-lock.json", "requirements.lock", "pyproject.toml")


def measure(browser: Browser, project: Path, into: Path, count: int, runs: int) -> list[float]:
    """
    Seconds from saving one of so many answers to seeing it, `serve` running and the page open.

    Each run waits for the whole build that follows the page, so that the next one begins at rest.
    """
    for name in ("build_tools", "calculators"):
        shutil.copytree(project / name, into / name, ignore=shutil.ignore_patterns("__pycache__"))
    for name in FILES:
        shutil.copy(project / name, into)
    (into / ".venv").symlink_to(sys.prefix)
    (into / "node_modules").symlink_to(project / "node_modules")
    builds.write(project, into / "docs", count, with_calculators=True)
    shutil.copytree(places.cache(project) / "made", places.cache(into) / "made")
    command = [sys.executable, "-u", "-m", "build_tools", "serve", "--no-browser"]
    variables = os.environ | {places.READY: str(into), "SOURCE_DATE_EPOCH": "0"}
    with subprocess.Popen(command, cwd=into, env=variables, stdout=subprocess.PIPE, text=True) as serve:
        try:
            assert serve.stdout is not None
            for line in serve.stdout:
                if address := re.match(r"Serving  (\S+)", line):
                    break
            else:
                raise RuntimeError("serve has ended by itself")
            threading.Thread(target=serve.stdout.read, daemon=True).start()  # or its pipe would fill
            page = browser.new_page()
            page.goto(f"{address[1]}{PAGE}.html")
            source = into / "docs" / f"{PAGE}.md"
            text = source.read_text("utf-8")
            times = []
            for number in range(runs):
                source.write_text(text.replace("Each stick", f"Stick {number}"), "utf-8")
                start = time.perf_counter()
                page.get_by_text(f"Stick {number} answers").wait_for()
                times.append(time.perf_counter() - start)
                while (places.cache(into) / "ahead").is_dir():
                    time.sleep(0.1)
                time.sleep(1)
            page.close()
        finally:
            serve.terminate()
    return times
