"""The two lock files: whole, hashed, for every promised Python, and without the address of any host."""

from __future__ import annotations

import importlib.metadata
import json
import re
import tomllib

import pytest

from build_tools.environment import places
from build_tools.environment.trouble import Trouble
from build_tools.installer import locking

PROJECT = places.PROJECT
TEXT = (PROJECT / "requirements.lock").read_text("utf-8")


def plain(name: str) -> str:
    """A package's name as registries compare it."""
    return re.sub(r"[-_.]+", "-", re.split(r"[\[<>=; ]", name)[0]).lower()


def test_every_group_is_a_section_that_holds_what_it_names() -> None:
    groups = tomllib.loads((PROJECT / "pyproject.toml").read_text("utf-8"))["dependency-groups"]
    assert tuple(groups) == locking.GROUPS
    shared: set[str] = set()
    for group, text in locking.sections(TEXT).items():
        names = set(locking.names(text))
        shared |= names if group in locking.SHARED else set()
        assert {plain(name) for name in groups[group]} <= (shared if group in locking.SHARED else names)


def test_no_package_stands_in_two_sections_of_one_environment() -> None:
    sections = locking.sections(TEXT)
    names = [name for group in locking.SHARED for name in locking.names(sections[group])]
    assert len(names) == len(set(names))
    assert len(names) > 50


@pytest.mark.parametrize("group", ["calculators", "site", "runtime"])
def test_every_python_builds_with_the_same_versions(group: str) -> None:
    pins = re.findall(r"^([A-Za-z0-9._-]+)==", locking.sections(TEXT)[group], re.MULTILINE)
    assert pins
    assert len(pins) == len(set(pins))


def test_every_pin_has_hashes() -> None:
    pins = re.split(r"^(?=[A-Za-z0-9])", TEXT.partition("\n\n")[2], flags=re.MULTILINE)[1:]
    assert len(pins) > 50
    assert [pin.split("==")[0] for pin in pins if "--hash=sha256:" not in pin] == []


def test_what_holds_machine_code_has_a_file_for_every_python() -> None:
    """An index of this machine may hold but one such file; then no other Python could install the package."""
    pins = re.split(r"^(?=[A-Za-z0-9])", TEXT.partition("\n\n")[2], flags=re.MULTILINE)[1:]
    files: dict[str, int] = {}
    for pin in pins:
        name = plain(pin)
        files[name] = max(files.get(name, 0), pin.count("--hash=sha256:"))
    compiled = [
        plain(found.metadata["Name"])
        for found in importlib.metadata.distributions()
        if "Root-Is-Purelib: false" in (found.read_text("WHEEL") or "")
    ]
    assert len(compiled) > 3
    assert {name: files[name] for name in compiled if name in files and files[name] < 4} == {}


def test_neither_file_names_a_host() -> None:
    assert "://" not in TEXT
    lock = json.loads((PROJECT / "package-lock.json").read_text("utf-8"))
    assert [name for name, entry in lock["packages"].items() if "resolved" in entry] == []
    assert [name for name, entry in lock["packages"].items() if name and "integrity" not in entry] == []


def test_the_npm_lock_belongs_to_package_json() -> None:
    package = json.loads((PROJECT / "package.json").read_text("utf-8"))
    root = json.loads((PROJECT / "package-lock.json").read_text("utf-8"))["packages"][""]
    assert (package.get("dependencies"), package.get("devDependencies")) == (
        root.get("dependencies"),
        root.get("devDependencies"),
    )


@pytest.mark.parametrize("text", ["", "## calculators\n", TEXT.replace("\n## site\n", "\n")])
def test_a_lock_file_that_is_not_whole(text: str) -> None:
    with pytest.raises(Trouble, match=r"^requirements\.lock is not whole: get it back with  git checkout"):
        locking.sections(text)


def test_names_come_once_though_pinned_for_several_pythons() -> None:
    text = "a==1 ; python_full_version < '3.12' \\\n    --hash=x\na==2 \\\n    --hash=y\n    # via b\nb-c.d==1 \\\n"
    assert locking.names(text) == ["a", "b-c.d"]
