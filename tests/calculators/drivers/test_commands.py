"""
Every command of every step against what its maker publishes: tests/check_values/windows_commands.toml and
linux_commands.toml. Published, where those files say so.
"""

from __future__ import annotations

import re
import shlex
import tomllib
from pathlib import Path

import pytest

from calculators.drivers.plans import diagnosis
from calculators.drivers.plans.linux_families import FAMILIES
from calculators.drivers.plans.linux_steps import linux_steps
from calculators.drivers.plans.windows_steps import WINDOWS
from calculators.drivers.reset import calculator

pytestmark = pytest.mark.once

VALUES = Path(__file__).parents[2] / "check_values"
WINDOWS_PAGES = tomllib.loads((VALUES / "windows_commands.toml").read_text("utf-8"))
LINUX_PAGES = tomllib.loads((VALUES / "linux_commands.toml").read_text("utf-8"))

WINDOWS_COMMANDS = sorted({command for step in WINDOWS.values() for command in step.commands})
LINUX_COMMANDS = sorted(
    {command for family in FAMILIES for step in linux_steps(family).values() for command in step.commands}
)


def windows_faults(command: str) -> list[str]:
    """What in a command no page of the maker gives."""
    faults = []
    first = command.split(" | ")[0]
    words = first.split()
    if words[0] == "powershell" and len(words) > 1:  # only starts the shell for what follows
        words = words[1:]
    name = words[0]
    page = next((p for p in WINDOWS_PAGES["pages"] if p["program"] == name or name in p.get("names", ())), None)
    if page is None:
        return [f"no page for {name}"]
    verb = next((v for v in page["verbs"] if v["verb"] in ("", words[1] if len(words) > 1 else "")), None)
    if verb is None:
        return [f"{page['page']} has no {words[1]}"]
    for word in words[2 if verb["verb"] else 1 :]:
        # options begin with / or -, or with / in the middle of a path; S-1-5-… and C:\… are values
        if re.fullmatch(r"[/-][A-Za-z-]+:?.*", word):
            known = any(word == o or (o.endswith(":") and word.startswith(o)) for o in verb["options"])
            if not known:
                faults.append(f"{page['page']} has no {word} for {verb['verb'] or name}")
    return faults


def linux_faults(command: str) -> list[str]:
    """What in a command no manual page gives."""
    if "$(" in command:
        inner = re.search(r'"\$\(([^()]+)\)"', command)
        assert inner, command
        return linux_faults(inner.group(1)) + linux_faults(command.replace(inner.group(0), "FILE"))
    words = shlex.split(command.split(" > ")[0])
    if words[0] == "sudo" and len(words) > 1 and not words[1].startswith("-"):
        words = words[1:]
    page = next((p for p in LINUX_PAGES["pages"] if p["program"] == words[0]), None)
    if page is None:
        return [f"no page for {words[0]}"]
    faults = []
    if page["verbs"] and not any(verb in words for verb in page["verbs"]):
        faults.append(f"{page['page']}: none of {page['verbs']} in it")
    for word in words[1:]:
        if word.startswith("-") and word != "-" and word not in page["options"] and not bundled(word, page["options"]):
            faults.append(f"{page['page']} has no {word}")
    return faults


def bundled(word: str, options: list[str]) -> bool:
    """Whether one-letter options stand together, as in -aG."""
    return len(word) > 2 and word[1] != "-" and all(f"-{letter}" in options for letter in word[1:])


@pytest.mark.parametrize("command", WINDOWS_COMMANDS)
def test_every_windows_command_is_as_its_maker_publishes_it(command):
    assert windows_faults(command) == []


@pytest.mark.parametrize("command", LINUX_COMMANDS)
def test_every_linux_command_is_as_its_manual_page_says(command):
    assert linux_faults(command) == []


@pytest.mark.parametrize(
    ("command", "fault"),
    [
        ("pnputil /delete-driver oem1.inf /purge", "/purge"),
        ("pnputil /erase-driver oem1.inf", "/erase-driver"),
        ("manage-bde -protectors -suspend C:", "-suspend"),
        ("shutdown /r /now", "/now"),
        ("sweep /all", "no page"),
    ],
)
def test_a_windows_command_that_is_not_published_is_found(command, fault):
    assert fault in " ".join(windows_faults(command))


@pytest.mark.parametrize(
    ("command", "fault"),
    [
        ("sudo apt-get install --force-all X", "--force-all"),
        ("sudo apt-get erase X", "none of"),
        ("sudo pacman -Rdd X", "-Rdd"),
        ("sweep --all", "no page"),
    ],
)
def test_a_linux_command_that_no_page_gives_is_found(command, fault):
    assert fault in " ".join(linux_faults(command))


def test_counts_of_commands_and_pages():
    assert len(WINDOWS_COMMANDS) >= 25
    assert len(LINUX_COMMANDS) >= 40
    assert len(WINDOWS_PAGES["pages"]) + len(LINUX_PAGES["pages"]) >= 40


def linux_fact(key: str) -> dict[str, object]:
    return next(f for f in LINUX_PAGES["facts"] if f["key"] == key)


def test_what_a_drivers_package_leaves_behind_is_named_rehearsed_and_removed():
    debian = linux_steps("debian")
    words = " ".join(debian["rehearse"].do)
    for part in linux_fact("left_behind")["value"]:
        assert part in words
    assert "apt-get --simulate autoremove OLD_PACKAGE" in debian["rehearse"].commands
    assert "LEFT_BEHIND" in debian["remove"].commands[0]
    for family in FAMILIES:
        for step in linux_steps(family).values():
            for command in step.commands:
                assert "autoremove" not in command or "--simulate" in command, "it is read, never run"


def test_an_installed_module_is_asked_for_its_signature():
    assert "signed" in linux_fact("signature")["value"]
    for family in FAMILIES:
        commands = linux_steps(family)["built"].commands
        assert "modinfo -F signer MODULE" in commands
        assert "mokutil --sb-state" in commands
    assert linux_steps("debian")["built"].commands[0] == "dkms status"


def test_where_modules_are_built_in_the_background_the_plan_waits_for_them():
    assert linux_fact("background_build")["value"] == "background daemon"
    assert "in the background" in linux_steps("fedora")["built"].do[0]
    assert linux_steps("fedora")["built"].commands[0] == "modinfo -F version MODULE"


def test_a_rolling_release_is_only_upgraded_whole():
    whole = linux_fact("partial_upgrade")["value"]
    for step in linux_steps("arch").values():
        for command in step.commands:
            if re.search(r"pacman -S", command):
                assert f"pacman {whole}" in command, command


def test_the_older_kernel_is_looked_for_where_each_family_keeps_it():
    older = {family: " ".join(linux_steps(family)["older_kernel"].do) for family in FAMILIES}
    assert linux_fact("older_in_submenu")["value"] in older["debian"].lower()
    assert "advanced" not in older["fedora"], linux_fact("older_in_list")["says"]
    assert "linux-lts" in older["arch"], linux_fact("older_replaced")["says"]
    assert "older kernel in the start menu" not in " ".join(linux_steps("arch")["restore"].do)
    assert "/var/cache/pacman/pkg" in " ".join(linux_steps("arch")["restore"].do)
    for step in linux_steps("arch").values():
        words = " ".join((*step.do, step.why, step.see, step.otherwise, step.back))
        assert "the older kernel" not in words, (step.key, linux_fact("older_replaced")["says"])


def test_a_module_is_asked_for_under_the_kernel_that_will_start():
    (page,) = [page for page in LINUX_PAGES["pages"] if page["program"] == "modinfo"]
    assert "-k" in page["options"]
    for family in FAMILIES:
        assert "write -k and its version" in " ".join(linux_steps(family)["built"].do)


def test_the_way_back_from_a_new_start_image_is_no_image_that_was_built_anew_as_well():
    for family in FAMILIES:
        step = linux_steps(family)["rebuild"]
        if any(word in " ".join(step.commands) for word in ("all", "-P")):
            assert "Start the older kernel" not in step.back


def test_no_step_goes_by_a_status_that_no_step_before_has_shown():
    assert "manage-bde -status C: tells" in WINDOWS["suspend"].do[0]


def test_the_way_out_of_the_start_menus_prompt_is_its_manuals():
    notes = calculator.run({"system": "linux", "trouble": "no_picture", "logo": "yes"}).answer.notes
    (prompt,) = [n for n in notes if "grub>" in n.title]
    assert f"Type {linux_fact('grub_prompt')['value']}," in prompt.text


def test_a_start_list_asked_for_once_is_what_the_maker_publishes():
    value = str(fact("next start only"))
    for key in ("stick_safe", "stick_once"):
        assert WINDOWS[key].commands == (f"bcdedit /set {{default}} {value} on",)


def fact(words: str) -> int:
    return next(f["value"] for f in WINDOWS_PAGES["facts"] if words in f["says"])


def test_what_the_prose_says_of_a_restarted_driver_is_what_the_maker_says():
    words = {2: "two", 6: "six"}
    text = diagnosis.RECOVERED.text
    assert f"the limit is {words[fact('restarts a display driver')]} seconds" in text
    assert f"after {words[fact('within a minute')]} or more such hangs within a minute the next one stops" in text


def test_what_the_steps_say_of_recovery_and_restore_points_is_what_the_maker_says():
    assert {2: "two failed starts in a row"}[fact("failed starts")] in WINDOWS["interrupt_once"].why
    assert f"within the last {fact('hours')} hours" in WINDOWS["restore"].otherwise
