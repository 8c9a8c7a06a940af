"""Copies of the project with a few pages of their own, so that builds can fail without harm to the real ones."""

from __future__ import annotations

import compileall
import importlib.util
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from build_tools.environment import children, places
from tests.conftest import shared, up_to_date

PROJECT = places.PROJECT
PAGES = {
    "index.md": "# Front\n\n[The page](page.md)\n",
    "page.md": "# Page\n\nA table:\n\n| a | b |\n| - | - |\n| 1 | 2 |\n\n/// calculator | memory.rate\n///\n",
}
EPOCH = "1700000000"


class Copy:
    """
    A copy of the project: its own pages, the real tools, the real environment behind links.

    A warm one brings along what the project has generated already, which its first build then takes over.
    """

    def __init__(self, folder: Path, warm: bool = True) -> None:
        self.folder = folder
        for name in ("build_tools", "calculators"):
            shutil.copytree(PROJECT / name, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
            if not sys.dont_write_bytecode:
                copy_byte_code(PROJECT / name, folder / name)
        for name in ("mkdocs.yml", "package.json", "package-lock.json", "requirements.lock", "pyproject.toml"):
            shutil.copy(PROJECT / name, folder)
        (folder / ".venv").symlink_to(sys.prefix)
        (folder / "node_modules").symlink_to(PROJECT / "node_modules")
        settings = (folder / "mkdocs.yml").read_text("utf-8").partition("\nnav:")[0]
        (folder / "mkdocs.yml").write_text(settings + "\n", "utf-8")
        (folder / "docs" / "images").mkdir(parents=True)
        shutil.copy(PROJECT / "docs" / "images" / "mark.svg", folder / "docs" / "images")  # mkdocs.yml names it
        for name, text in PAGES.items():
            (folder / "docs" / name).write_text(text, "utf-8")
        if warm:
            up_to_date(PROJECT)
            for name in ("docs/made", ".cache/made"):
                if (PROJECT / name).is_dir():
                    shutil.copytree(PROJECT / name, folder / name)

    @classmethod
    def of(cls, other: Path, folder: Path) -> Copy:
        """The same as in another folder once more, with all that was built there."""
        shutil.copytree(other, folder, symlinks=True, dirs_exist_ok=True)  # times as well, which stamps hold
        made = cls.__new__(cls)
        made.folder = folder
        return made

    def build(self, *arguments: str) -> subprocess.CompletedProcess[str]:
        """Builds it, as from the command line."""
        return subprocess.run(
            [sys.executable, "-m", "build_tools", "build", *arguments],
            cwd=self.folder,
            env=self.environment(),
            capture_output=True,
            text=True,
            encoding="utf-8",
            timeout=600,  # for one that hangs; a busy machine is no fault of a build
        )

    def environment(self) -> dict[str, str]:
        """The variables to start its commands with: its environment counts as in order."""
        own = {children.PARENT: str(os.getpid())}  # a run of tests that is killed leaves no server behind
        # Byte code stands beside the sources, as it does without the run's own place for it: so copies have it too.
        kept = {name: value for name, value in os.environ.items() if name != "PYTHONPYCACHEPREFIX"}
        return kept | own | {places.READY: str(self.folder), "SOURCE_DATE_EPOCH": EPOCH}

    def site(self) -> dict[str, bytes]:
        """The built site: name and content of every file."""
        root = self.folder / "site"
        found = sorted(path for path in root.rglob("*") if path.is_file())
        return {path.relative_to(root).as_posix(): path.read_bytes() for path in found}


def copy_byte_code(source: Path, copied: Path) -> None:
    """
    Puts byte code beside copied modules, which Python takes while their time and size agree. It is made once in a run,
    and serves whatever else the run starts in the project's own folder.
    """
    compileall.compile_dir(source, quiet=2)
    for module in source.rglob("*.py"):
        compiled = Path(importlib.util.cache_from_source(str(module)))
        if compiled.is_file():
            beside = copied / module.relative_to(source).parent / "__pycache__"
            beside.mkdir(exist_ok=True)
            try:
                shutil.copy(compiled, beside)
            except FileNotFoundError:  # another process has just put a newer one in its place
                pass


def build_copy(folder: Path) -> None:
    """Makes a copy and builds its site."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    done = Copy(folder).build()
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.fixture(scope="session")
def built() -> Path:
    """The folder of a copy with its site, built once for this run; no test may change it."""
    return shared(places.cache(PROJECT) / "tested" / "copy", build_copy)


@pytest.fixture
def copy(built: Path, tmp_path: Path) -> Copy:
    """A copy of a test's own, its site built."""
    return Copy.of(built, tmp_path / "copy")
