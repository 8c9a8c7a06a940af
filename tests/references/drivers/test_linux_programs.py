"""
The Linux commands of drivers.reset, asked of the programs themselves on Debian, as far as a container allows.

Reference: the installed programs' own help and manual pages. Nothing is run that changes anything: help texts,
listings and rehearsals only. A program is skipped only where it is truly absent.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import tomllib
from pathlib import Path

import pytest

from calculators.drivers.plans.linux_steps import linux_steps

VALUES = tomllib.loads((Path(__file__).parents[2] / "check_values" / "linux_commands.toml").read_text("utf-8"))
ASKED = [page for page in VALUES["pages"] if page["asked"]]


def where(program: str) -> str:
    """The program's path, or a skip: a container need not have all of them."""
    found = shutil.which(program, path="/usr/local/bin:/usr/bin:/bin:/usr/sbin:/sbin")
    if found is None:
        pytest.skip(f"{program} is not installed here")
    return found


def run(*command: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        command, capture_output=True, text=True, timeout=60, stdin=subprocess.DEVNULL, check=False,
        env={"PATH": "/usr/local/bin:/usr/bin:/bin:/usr/sbin:/sbin", "LC_ALL": "C.UTF-8", "MANPAGER": "cat"},
    )  # fmt: skip


def said_of(program: str) -> str:
    """All that a program's help and manual page say."""
    texts = [run(program, "--help")]
    if shutil.which("man"):
        texts += [run("man", Path(program).name)]
    if Path(program).name == "dpkg":
        texts.append(run("dpkg-query", "--help"))
    return "\n".join(t.stdout + t.stderr for t in texts)


@pytest.mark.parametrize("page", ASKED, ids=lambda p: p["program"])
def test_the_program_itself_knows_the_options(page):
    text = said_of(where(page["program"]))
    for option in [*page["options"], *page["verbs"]]:
        if option == "-1":  # a start's number, not an option
            continue
        letters = option[1:] if re.fullmatch(r"-[a-z]{2,}", option) else ""
        for one in [f"-{letter}" for letter in letters] or [option]:
            assert re.search(rf"(?<![\w-]){re.escape(one)}(?![\w-])", text), f"{page['program']} does not say {one}"


def test_a_rehearsed_removal_changes_nothing_and_names_what_would_go():
    where("apt-get")
    command = linux_steps("debian")["rehearse"].commands[0].replace("OLD_PACKAGE", "sensible-utils").split()
    before = run("dpkg", "-l").stdout
    done = run(*command)
    assert done.returncode == 0, done.stderr
    assert re.search(r"(?m)^Purg sensible-utils|is not installed, so not removed", done.stdout + done.stderr)
    assert run("dpkg", "-l").stdout == before


def test_the_list_of_packages_can_be_made():
    where("dpkg")
    command = linux_steps("debian")["restore"].commands[0]
    done = run(*command.split(" > ")[0].split())
    assert done.returncode == 0
    assert re.search(r"(?m)^dpkg\s+install$", done.stdout)


def test_the_package_behind_a_file_is_named():
    where("dpkg")
    done = run("dpkg", "-S", "/usr/bin/dpkg")
    assert done.stdout.strip() == "dpkg: /usr/bin/dpkg"


def test_a_wrong_option_is_refused():
    """So that a program that agrees to everything is not taken for one that knows its options."""
    where("apt-get")
    assert run("apt-get", "--simulate", "--no-such-option", "purge", "sensible-utils").returncode != 0
