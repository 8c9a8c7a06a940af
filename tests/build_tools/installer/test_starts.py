"""A first start, a second one, and all that can come between: each tells one line, and the next start mends it."""

from __future__ import annotations

import contextlib
import dataclasses
import json
import os
import shutil
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from build_tools.installer import python_packages, pythons
from tests.build_tools.installer.conftest import CLOSED, EXTRA, NEEDED, NEWER, NODE, SmallProject, complaint

pytestmark = pytest.mark.skipif(os.name != "posix", reason="the stand-in for Node is a shell script")


@contextlib.contextmanager
def changed(project: SmallProject, *names: str) -> Iterator[None]:
    """Puts files of a project back at the end, and its environment in order."""
    kept = {name: (project.folder / name).read_bytes() for name in names}
    try:
        yield
    finally:
        for name, content in kept.items():
            (project.folder / name).write_bytes(content)
        assert project.run("build").stdout.endswith("built 1.0\n")


def test_the_first_start_makes_everything_and_the_second_nothing(started: SmallProject) -> None:
    begins = started.first_words.index("The first start sets this folder up: Python packages and Node into .venv")
    assert "At most 600 MB on the disk" in started.first_words
    assert "It takes a minute or two" in started.first_words
    assert begins < started.first_words.index("[1/3] Fetching uv, which installs the rest"), "before anything is done"
    assert "[2/3] Installing Python packages (calculators, site, runtime)" in started.first_words
    assert "[3/3] Installing the browser's packages with npm" in started.first_words
    assert started.run("build").stdout == "built 1.0\n"


def test_the_environment_sees_the_project_from_any_folder(started: SmallProject, tmp_path: Path) -> None:
    code = "import build_tools; print(build_tools.__file__)"
    done = subprocess.run([started.venv / "bin/python", "-c", code], cwd=tmp_path, capture_output=True, text=True)
    assert done.stdout.strip() == str(started.folder / "build_tools/__init__.py")


def test_the_environments_own_python_may_start_the_command(started: SmallProject) -> None:
    assert started.run("build", python=started.venv / "bin/python").stdout == "built 1.0\n"


def test_a_changed_lock_file_is_followed_in_place(started: SmallProject) -> None:
    with changed(started, "requirements.lock"):
        started.lock(calculators=[NEEDED, EXTRA], site=[NODE])
        assert started.run("build").stdout.startswith("[1/1] Installing Python packages (calculators, site, runtime)\n")
        assert list(started.venv.rglob("extra.py"))
        started.lock(calculators=[NEWER], site=[NODE])
        again = started.run("build").stdout
        assert again.startswith("[1/1] Installing Python packages (calculators, site, runtime)\n")
        assert again.endswith("built 2.0\n")
        assert not list(started.venv.rglob("extra.py"))  # no longer named, so no longer there
        assert started.run("build").stdout == "built 2.0\n"


def test_changed_npm_packages_are_followed(started: SmallProject) -> None:
    with changed(started, "package-lock.json"):
        lock = json.loads((started.folder / "package-lock.json").read_text("utf-8"))
        (started.folder / "package-lock.json").write_text(json.dumps({**lock, "name": "renamed"}), "utf-8")
        again = started.run("build").stdout
        assert again.startswith("[1/1] Installing the browser's packages with npm\n")
        assert again.endswith("built 1.0\n")


def test_node_packages_that_are_gone_are_fetched_again(started: SmallProject) -> None:
    shutil.rmtree(started.folder / "node_modules")
    again = started.run("build").stdout
    assert again.startswith("[1/1] Installing the browser's packages with npm\n")
    assert again.endswith("built 1.0\n")


def test_without_the_package_index(started: SmallProject) -> None:
    with changed(started, "requirements.lock"):
        started.lock(calculators=[NEWER], site=[NODE])
        offline = {"PIP_NO_INDEX": "0", "PIP_FIND_LINKS": "", "PIP_INDEX_URL": CLOSED}
        assert complaint(started.run("build", **offline)) == (
            "The Python package index cannot be reached: check the network connection or proxy and run the same "
            "command again."
        )
        again = started.run("build").stdout
        assert again.startswith("[1/1] Installing Python packages (calculators, site, runtime)\n")  # the rest is kept
        assert again.endswith("built 2.0\n")


def test_without_the_npm_registry(started: SmallProject) -> None:
    with changed(started, "package.json", "package-lock.json"):
        package = {"name": "small", "version": "1.0.0", "private": True, "dependencies": {"nothing": "1.0.0"}}
        wanted = {"version": "1.0.0", "integrity": "sha512-" + "A" * 86 + "=="}
        lock = {"name": "small", "version": "1.0.0", "lockfileVersion": 3, "requires": True}
        lock["packages"] = {"": package, "node_modules/nothing": wanted}
        (started.folder / "package.json").write_text(json.dumps(package), "utf-8")
        (started.folder / "package-lock.json").write_text(json.dumps(lock), "utf-8")
        assert complaint(started.run("build")) == (
            "The npm registry cannot be reached: check the network connection or proxy and run the same command again."
        )


def test_when_the_two_npm_files_disagree(started: SmallProject) -> None:
    with changed(started, "package.json"):
        package = {"name": "small", "version": "1.0.0", "private": True, "dependencies": {"nothing": "1.0.0"}}
        (started.folder / "package.json").write_text(json.dumps(package), "utf-8")
        assert complaint(started.run("build")) == (
            "package.json and package-lock.json do not agree: after changing package.json run  "
            "python3 -m build_tools lock."
        )


def test_when_the_index_sends_another_file(started: SmallProject) -> None:
    good = (started.index / NEWER).read_bytes()
    with changed(started, "requirements.lock"):
        started.lock(calculators=[NEWER], site=[NODE])
        started.wheel("needed", "2.0", {"needed.py": "VERSION = 'not what was locked'\n"})
        said = complaint(started.run("build"))
        (started.index / NEWER).write_bytes(good)
        assert said.startswith("The package index sent a file that is not the one requirements.lock names.")
        assert next(started.venv.rglob("needed.py")).read_text("utf-8") == "VERSION = '1.0'\n"


def test_when_there_is_no_build_for_this_python(started: SmallProject) -> None:
    lone = started.wheel("lone", "1.0", {"lone.py": ""})
    with changed(started, "requirements.lock"):
        started.lock(calculators=[NEEDED, lone], site=[NODE])
        (started.index / lone).unlink()
        said = complaint(started.run("build"))
        assert said.startswith(f"The package index has no lone for Python {sys.version.split()[0]} on ")
        assert said.endswith("use a CPython from 3.11 to 3.14.")


def test_settings_that_lead_pip_astray_do_not(started: SmallProject, tmp_path: Path) -> None:
    with changed(started, "requirements.lock"):
        started.lock(calculators=[NEWER], site=[NODE])
        astray = {"PIP_TARGET": str(tmp_path / "elsewhere"), "PIP_USER": "1", "PYTHONPATH": str(tmp_path)}
        assert started.run("build", **astray).stdout.endswith("built 2.0\n")
        assert not (tmp_path / "elsewhere").exists()


def test_a_file_of_the_project_that_is_missing(started: SmallProject) -> None:
    with changed(started, "package-lock.json"):
        (started.folder / "package-lock.json").unlink()
        assert complaint(started.run("build")).endswith("get it back with  git checkout package-lock.json")


# What can be wrong with an environment, and how a start sees it.


def wanted(project: SmallProject) -> python_packages.Wanted:
    """The environment that a project's build asks for."""
    interpreter = pythons.this_interpreter()
    return python_packages.Wanted(project.venv, interpreter, project.folder, ("calculators", "site", "runtime"))


@contextlib.contextmanager
def away(path: Path) -> Iterator[None]:
    """Takes a file or folder away for a while."""
    hidden = path.with_name(path.name + "-hidden")
    path.rename(hidden)
    try:
        yield
    finally:
        if path.exists() or path.is_symlink():
            path.unlink()
        hidden.rename(path)


def test_an_environment_in_order_lacks_nothing(started: SmallProject) -> None:
    assert python_packages.missing_groups(wanted(started)) == ()


def test_one_whose_interpreter_is_gone_is_made_anew(started: SmallProject) -> None:
    with away(started.venv / "bin" / "python"):
        (started.venv / "bin" / "python").symlink_to("/nowhere/python3")
        assert python_packages.missing_groups(wanted(started)) is None


def test_one_that_has_lost_a_package_is_made_anew(started: SmallProject) -> None:
    with away(next(started.venv.rglob("needed-1.0.dist-info"))):
        assert python_packages.missing_groups(wanted(started)) is None


@pytest.mark.parametrize("stamp", [None, "", '{"origin":', "[]", "{}"])
def test_one_whose_stamp_is_gone_or_damaged_is_made_anew(started: SmallProject, stamp: str | None) -> None:
    file = started.venv / python_packages.STAMP
    with away(file):
        if stamp is not None:
            file.write_text(stamp, "utf-8")
        assert python_packages.missing_groups(wanted(started)) is None


@pytest.mark.parametrize("other", [{"version": "3.11.999"}, {"project": Path("/elsewhere")}])
def test_one_of_another_python_or_place_is_made_anew(started: SmallProject, other: dict[str, object]) -> None:
    asked = wanted(started)
    if "version" in other:
        asked = dataclasses.replace(asked, interpreter=dataclasses.replace(asked.interpreter, **other))
        assert python_packages.missing_groups(asked) is None
    else:
        assert asked.origin() != {**asked.origin(), "project": str(other["project"])}
        moved = started.folder.rename(started.folder.with_name("moved"))
        try:
            assert python_packages.missing_groups(wanted(SmallProject(moved, started.index))) is None
        finally:
            moved.rename(started.folder)


def test_a_broken_environment_is_mended_by_the_same_command(started: SmallProject) -> None:
    (started.venv / "bin" / "python").unlink()
    (started.venv / "bin" / "python").symlink_to("/nowhere/python3")
    again = started.run("build")
    assert again.stdout.startswith("[1/2] Removing the unfinished or outdated environment in .venv\n"), again.stderr
    assert again.stdout.endswith("built 1.0\n")


def test_a_package_whose_files_are_gone_is_told_and_mended(started: SmallProject) -> None:
    """Its record is still there, so only its use shows the loss."""
    next(started.venv.rglob("needed.py")).unlink()
    assert complaint(started.run("build")) == (
        "The environment has lost needed: run the same command again to mend it."
    )
    assert started.run("build").stdout.endswith("built 1.0\n")


OTHERS = {name: each for name, each in pythons.present().items() if each.short != sys.version_info[:2]}


@pytest.mark.skipif(not OTHERS, reason="this machine has no other CPython from 3.11 to 3.14")
def test_another_python_gets_an_environment_of_its_own(small: SmallProject) -> None:
    other = next(iter(OTHERS.values()))
    shutil.copytree(Path(sys.prefix) / "bin", small.venv / "bin", symlinks=True)  # what is left of another
    again = small.run("build", python=other.path)
    assert "Removing the unfinished or outdated environment in .venv" in again.stdout, again.stderr
    assert f"version_info = {other.version}" in (small.venv / "pyvenv.cfg").read_text("utf-8")
    assert again.stdout.endswith("built 1.0\n")


# Stops and crowds.


class Silent:
    """A package index that takes a question and never answers."""

    def __init__(self) -> None:
        self._listening = socket.create_server(("127.0.0.1", 0))
        self._listening.settimeout(90)
        self._asked: list[socket.socket] = []
        address = f"http://127.0.0.1:{self._listening.getsockname()[1]}/"
        self.variables = {"PIP_NO_INDEX": "0", "PIP_FIND_LINKS": "", "PIP_INDEX_URL": address}

    def wait_for_a_question(self) -> None:
        """Returns when pip is at work."""
        self._asked.append(self._listening.accept()[0])

    def close(self) -> None:
        """Hangs up."""
        for opened in (self._listening, *self._asked):
            opened.close()


@pytest.fixture
def silent() -> Iterator[Silent]:
    """A package index that says nothing."""
    opened = Silent()
    yield opened
    opened.close()


@contextlib.contextmanager
def begun(project: SmallProject, **more: str) -> Iterator[subprocess.Popen[str]]:
    """A build that has been started; it is gone at the end, whatever happens."""
    with subprocess.Popen(
        project.command("build"),
        cwd=project.folder,
        env=project.environment(**more),
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    ) as child:
        try:
            yield child
        finally:
            child.kill()


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_stopped_in_the_middle(started: SmallProject, silent: Silent, number: signal.Signals) -> None:
    """Until then its progress is shown: where there is no terminal, by a line every few seconds."""
    with changed(started, "requirements.lock"):
        started.lock(calculators=[NEWER], site=[NODE])
        with begun(started, **silent.variables) as child:
            silent.wait_for_a_question()
            assert child.stdout is not None
            if number == signal.SIGINT:
                shown = [child.stdout.readline() for _ in range(2)]
                assert shown[1] == f"{shown[0].strip()}: 5 s\n"
            child.send_signal(number)
            _, complaints = child.communicate(timeout=300)
        assert child.returncode == 130
        assert complaints == "Stopped. The same command goes on from here.\n"
        again = started.run("build").stdout
        assert again.startswith("[1/1] Installing Python packages (calculators, site, runtime)\n")
        assert again.endswith("built 2.0\n")


def test_killed_outright_and_what_is_left_running_is_waited_for(started: SmallProject, silent: Silent) -> None:
    with changed(started, "requirements.lock"):
        started.lock(calculators=[NEWER], site=[NODE])
        with begun(started, **silent.variables) as first:
            silent.wait_for_a_question()
            first.kill()
            first.communicate(timeout=300)
        with begun(started) as second:
            assert second.stdout is not None
            assert second.stdout.readline() == "Another command is at work on this folder; waiting for it to end.\n"
            assert second.poll() is None
            silent.close()  # uv, left alone, gets no answer and gives up
            printed, complaints = second.communicate(timeout=600)
        assert printed.startswith("[1/2] Removing the unfinished or outdated environment in .venv\n")
        assert printed.endswith("built 2.0\n"), complaints


def test_two_at_once(started: SmallProject) -> None:
    shutil.rmtree(started.venv)
    with begun(started) as one, begun(started) as other:
        printed = [child.communicate(timeout=600)[0] for child in (one, other)]
    assert [one.returncode, other.returncode] == [0, 0], printed
    assert sum("waiting for it to end" in text for text in printed) == 1
    assert sum(text.count("Installing Python packages (calculators, site, runtime)\n") for text in printed) == 1


# Ports.


def test_a_taken_port_is_told_before_anything_is_installed(small: SmallProject) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        said = complaint(small.run("serve", "--port", str(port)))
    assert said == (
        f"Port {port} is taken by another program: choose another with --port, or leave --port out to take the "
        "first free one."
    )
    assert not small.venv.exists()


@pytest.mark.parametrize("port", ["0", "65536", "x", "-1", "８０８０"])
def test_a_port_that_is_none(small: SmallProject, port: str) -> None:
    done = small.run("serve", f"--port={port}")
    assert done.returncode == 2
    assert f"a port is a whole number from 1 to 65535, got {port}" in done.stderr
