"""What a bare machine can lack, each lack made real: it is said in one sentence before anything is fetched."""

from __future__ import annotations

import contextlib
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from build_tools.installer import python_packages, pythons
from tests.build_tools.installer.conftest import NEEDED, NODE, SmallProject, complaint

pytestmark = pytest.mark.skipif(os.name != "posix", reason="the stand-in for uv is a shell script")

FULL = "The disk is full: free about 1.5 GB in {} and run the same command again."


# The disk.


@contextlib.contextmanager
def small_disk(folder: Path, megabytes: int) -> Iterator[Path]:
    """A real file system of that size, mounted on a folder; skips where that is not ours to do."""
    folder.mkdir()
    command = ["mount", "-t", "tmpfs", "-o", f"size={megabytes}m", "tmpfs", str(folder)]
    try:
        mounted = subprocess.run(command, capture_output=True).returncode == 0
    except OSError:
        mounted = False
    if not mounted:
        pytest.skip("only root can mount a small disk here")
    try:
        yield folder
    finally:
        subprocess.run(["umount", "--lazy", str(folder)], check=True)


def test_a_disk_that_is_too_small_to_begin(small: SmallProject, tmp_path: Path) -> None:
    with small_disk(tmp_path / "disk", 100) as disk:
        shutil.copytree(small.folder, disk / "project")
        little = SmallProject(disk / "project", small.index)
        assert complaint(little.run("build")) == FULL.format(little.folder)
        assert not little.venv.exists()


# The look before a start sees room enough; the room goes while the environment is being made, taken by a Python
# that fills the disk before it does what it is asked.
FILLING = """\
import pathlib, sys
from build_tools import commands
from build_tools.installer import pythons
version = ".".join(map(str, sys.version_info[:3]))
pythons.this_interpreter = lambda: pythons.Interpreter(pathlib.Path(sys.argv[1]), version)
sys.exit(commands.main(["build"]))
"""


def test_a_disk_that_fills_up_meanwhile(small: SmallProject, tmp_path: Path) -> None:
    large = small.wheel("large", "1.0", {f"large/{number}.txt": "x" * 1_000_000 for number in range(60)})
    small.lock(calculators=[NEEDED, large], site=[NODE])
    with small_disk(tmp_path / "disk", 700) as disk:
        shutil.copytree(small.folder, disk / "project")
        little = SmallProject(disk / "project", small.index)
        filler = disk / "filler"
        for megabytes_left, fails_at in ((4, "Fetching uv"), (45, "Installing Python packages")):
            python = tmp_path / "python"
            fill = f'head -c {700 - megabytes_left}m /dev/zero > "{filler}" 2>/dev/null'
            case = f'case "$*" in *"-m venv"*) {fill};; esac'
            python.write_text(f'#!/bin/sh\n{case}\nexec "{sys.executable}" "$@"\n', "utf-8")
            python.chmod(0o755)
            done = subprocess.run(
                [sys.executable, "-c", FILLING, python],
                cwd=little.folder,
                env=little.environment(),
                capture_output=True,
                text=True,
                timeout=600,
            )
            assert complaint(done) == FULL.format(little.folder)
            assert done.stdout.splitlines()[-1].partition("] ")[2].startswith(fails_at)
            filler.unlink()
        assert little.run("build").stdout.endswith("built 1.0\n")


# The right to write, and the network.


def test_a_folder_that_may_not_be_written(small: SmallProject, tmp_path: Path) -> None:
    with small_disk(tmp_path / "disk", 700) as disk:
        shutil.copytree(small.folder, disk / "project")
        subprocess.run(["mount", "-o", "remount,ro", str(disk)], check=True)
        locked = SmallProject(disk / "project", small.index)
        done = locked.run("build")
        assert complaint(done) == (
            f"The right to write or run files is missing here ({locked.folder / '.cache'}): put the project into a "
            "folder of your own and run the same command again."
        )
        assert done.stdout == "", "nothing was begun"


def test_a_machine_without_a_network(small: SmallProject) -> None:
    """The first start in a network of its own, which has no way out of it: the sentence comes before anything else."""
    alone = ["unshare", "--net", "--map-root-user"]
    try:
        possible = subprocess.run([*alone, "true"], capture_output=True).returncode == 0
    except OSError:
        possible = False
    if not possible:
        pytest.skip("only on Linux, and where a network may be cut off")
    done = subprocess.run(
        [*alone, *small.command("build")],
        cwd=small.folder,
        env=small.environment(PIP_NO_INDEX="0", PIP_FIND_LINKS=""),
        capture_output=True,
        text=True,
        timeout=600,
    )
    assert complaint(done) == (
        "The Python package index cannot be reached: check the network connection or proxy and run the same command "
        "again."
    )
    assert not small.venv.exists()
    assert not (small.folder / "node_modules").exists()


# The Python that starts it all.


def test_a_python_without_ensurepip(small: SmallProject, tmp_path: Path) -> None:
    """A real interpreter with its library, the one part left out, as Debian ships it."""
    short = f"{sys.version_info[0]}.{sys.version_info[1]}"
    library = tmp_path / "python" / "lib" / f"python{short}"
    library.mkdir(parents=True)
    for path in Path(os.__file__).parent.iterdir():
        if path.name not in ("ensurepip", "site-packages"):
            (library / path.name).symlink_to(path)
    python = tmp_path / "python" / "bin" / f"python{short}"
    python.parent.mkdir()
    shutil.copy(pythons.this_interpreter().path.resolve(), python)
    tried = subprocess.run([python, "-I", "-c", "import ensurepip"], capture_output=True, text=True)
    if "No module named 'ensurepip'" not in tried.stderr:
        pytest.skip("this interpreter finds its library elsewhere than beside itself")
    said = complaint(small.run("build", python=python))
    assert said.startswith(f"This Python {short} lacks its ensurepip part: ")
    if "ID=debian" in Path("/etc/os-release").read_text("utf-8").splitlines():
        assert f": run  sudo apt install python{short}-venv, and then the same command again." in said


def old_pythons() -> list[Path]:
    """Pythons before 3.11 on this machine."""
    root = Path(os.environ.get("PYENV_ROOT") or Path.home() / ".pyenv") / "versions"
    found = [*root.glob("2.7*/bin/python2.7"), *root.glob("3.[6-9].*/bin/python3"), *root.glob("3.10.*/bin/python3")]
    return [Path(name) for name in map(shutil.which, ("python2", "python2.7")) if name and "shims" not in name] + found


@pytest.mark.parametrize("python", old_pythons() or [None], ids=lambda python: python and python.parents[1].name)
def test_an_old_python_says_what_to_do(small: SmallProject, python: Path | None) -> None:
    if python is None:
        pytest.skip("this machine has no Python before 3.11")
    nothing_newer = complaint(small.run("serve", python=python, PATH="/nowhere"))
    assert nothing_newer.endswith(
        ", and Python 3.11 or newer is needed: install one, from python.org or your system's packages, and run the "
        "same command with it."
    )
    newer = small.folder / "python3.12"
    newer.write_text("", "utf-8")
    newer.chmod(0o755)
    said = complaint(small.run("serve", "--no-browser", python=python, PATH=f":/nowhere:{small.folder}"))
    assert said.endswith(": run  python3.12 -m build_tools serve --no-browser")


def test_the_first_file_is_readable_to_old_pythons() -> None:
    import ast

    text = Path(python_packages.__file__).parents[1].joinpath("__main__.py").read_text("utf-8")
    ast.parse(text, feature_version=(3, 4))
    assert not [node for node in ast.walk(ast.parse(text)) if isinstance(node, ast.JoinedStr | ast.AnnAssign)]
