"""Runs our own scripts under the Node of our own environment. Knows Node's place; knows no script."""

import os
import subprocess
from pathlib import Path

from build_tools.environment import places
from build_tools.environment.trouble import Trouble


def run(project: Path, script: Path, order: str, failing: str) -> str:
    """
    Run a script, in a time zone and a language that are the same everywhere, and return what it prints.

    Args:
        project: The project folder, in which it runs.
        script: The script.
        order: Its one argument.
        failing: What to say, before Node's own words, when it fails.

    Raises:
        Trouble: The script failed.
    """
    variables = {name: value for name, value in os.environ.items() if not name.startswith(("NODE_", "PYTHON", "LC_"))}
    done = subprocess.run(
        [str(places.node(project)), str(script), order],
        cwd=project,
        env={**variables, "TZ": "UTC", "LANG": "C"},
        capture_output=True,
        text=True,
        encoding="utf-8",
        errors="replace",
    )
    if done.returncode != 0:
        raise Trouble(f"{failing}:\n{done.stderr.strip()[-2000:]}")
    return done.stdout
