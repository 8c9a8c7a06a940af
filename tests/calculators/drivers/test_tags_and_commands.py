"""
The tags tell the truth: held against the text of the commands, both ways, for every step of every system.

Own rules of this project: what each command does is in its maker's page (tests/check_values/*_commands.toml).
"""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest

from calculators.desk.answer import Step
from calculators.drivers.plans.linux_families import FAMILIES
from calculators.drivers.plans.linux_steps import linux_steps
from calculators.drivers.plans.step_tags import MEANING
from calculators.drivers.plans.windows_steps import WINDOWS

pytestmark = pytest.mark.once

STEPS = [("windows", step) for step in WINDOWS.values()] + [
    (family, step) for family in FAMILIES for step in linux_steps(family).values()
]

# What a command does, by its text, and the tag that must say so. Both ways: the command asks for the tag, and a step
# with the tag has such a command, unless its work is done by hand (BY_HAND).
BOTH_WAYS = {
    "removes:driver": r"pnputil /delete-driver|^appwiz\.cpl|"
    r"^sudo (apt-get purge|dnf remove(?! --assumeno)|pacman -R(?! --print)) ",
    "removes:settings": r"^sudo mv /etc/",
    "installs:driver": r"pnputil /add-driver|^devmgmt\.msc|"
    r"^sudo (apt-get install(?! --download)|dnf (re)?install(?! --down)|pacman -Syu )",
    "gives:suspended": r"manage-bde -protectors -disable",
    "ends:suspended": r"manage-bde -protectors -enable",
    "checks:protection": r"manage-bde -protectors -enable|^lsblk -o NAME,FSTYPE",
    "matches:key": r"manage-bde -protectors -get|cryptsetup open --test-passphrase",
    "gives:key": r"manage-bde -protectors -get|cryptsetup open --test-passphrase",
    "gives:old_package": r"pnputil /export-driver",
    "gives:driver_file": r"Get-AuthenticodeSignature|--download-?only|pacman -Syuw",
    "gives:restore_point": r"Checkpoint-Computer|/export-driver \*|cp -a /etc",
    "checks:restore_point": r"Get-ComputerRestorePoint|^dir C:|^ls -ld",
    "gives:safe_start_repeats": r"bcdedit /set \S+ safeboot",
    "ends:safe_start_repeats": r"bcdedit /deletevalue \S+ safeboot",
    "gives:safe_start": r"bcdedit /set \S+ onetimeadvancedoptions|^nomodeset systemd\.unit=multi-user",
    "checks:module": r"^modinfo -F signer",
    "gives:enrolment_asked": r"mokutil --import",
    "gives:extra_account": r"net user \S+ \* /add|useradd",
    "ends:extra_account": r"net user \S+ /delete|userdel",
    "gives:password": r"^runas /user|sudo -v",
    "checks:card": r"^pnputil /enum-devices|^lspci -nnk",
    "checks:driver": r"^pnputil /enum-devices|^lspci -nnk",
    "checks:version": r"^Get-CimInstance Win32_VideoController|^modinfo ",
}
BY_HAND = {
    # the maker's own package is started by its name, which nobody here knows
    ("windows", "install", "installs:driver"),
    # chosen in a menu before any console is there
    ("windows", "safe", "gives:safe_start"),
    # done on another device
    ("windows", "password_away", "gives:password"),
    *((system, "key_away", tag) for system in ("windows", *FAMILIES) for tag in ("matches:key", "gives:key")),
    # no package manager is known for 'other': the words send one to it
    *(("other", key, tag) for key, tag in (
        ("remove", "removes:driver"), ("install", "installs:driver"), ("fetch", "gives:driver_file"),
        ("fetch_here", "gives:driver_file"),
    )),
}  # fmt: skip
# What a command says asks for the tag, but not every step with the tag has such a command.
ONE_WAY = {
    "restarts": r"^shutdown /r|^systemctl reboot|bcdedit /set|^nomodeset",
    "needs:admin": r"pnputil /(delete|export|add)-driver|bcdedit|manage-bde|Checkpoint-Computer|^net user|"
    r"Add-LocalGroupMember|^sudo ",
    "takes_picture": r"^shutdown|^systemctl reboot|^nomodeset|/delete-driver|^start ms-settings",
    "takes_network": r"^shutdown|^systemctl reboot|onetimeadvancedoptions",
    "asks_for_key": r"^shutdown /r|^systemctl reboot|bcdedit /set",
}
# What a step may type that says it only reads.
READING = (
    r"pnputil /enum-|Get-|perfmon /rel|winver|manage-bde -(status|protectors -get)|lspci|modinfo|uname|journalctl|"
    r"ls |lsblk|df |dkms status|dpkg (-S|--get-selections)|rpm -q|pacman -Q|apt-get --simulate|"
    r"mokutil --sb-state|sudo dnf remove --assumeno|"
    r"pacman -R --print|sudo cryptsetup open --test-passphrase|sudo -k|sudo -v|id$"
)


def every_step(check: Callable[[str, Step], None]) -> Callable[[], None]:
    """One test that makes a check of every step of every system, and names each step that fails it."""

    def test() -> None:
        faults = []
        for system, step in STEPS:
            try:
                check(system, step)
            except AssertionError as fault:
                faults.append(f"{system}-{step.key}: {fault}")
        assert not faults, "\n".join(faults)

    test.__name__, test.__doc__ = check.__name__, check.__doc__
    return test


def text(step: Step) -> str:
    return " ".join((step.title, *step.do, step.why, step.see, step.otherwise, step.back, step.caution))


@every_step
def test_every_step_says_all_that_a_step_must_say(system, step):
    for part in ("title", "why", "see", "otherwise", "back"):
        assert getattr(step, part).strip(), part
    assert step.do
    assert all(line.strip() for line in step.do)
    assert step.minutes
    assert 0 < step.minutes[0] <= step.minutes[1]
    assert step.tags
    assert len(set(step.tags)) == len(step.tags)
    assert set(step.tags) <= set(MEANING), set(step.tags) - set(MEANING)


@every_step
def test_commands_ask_for_their_tags(system, step):
    for tag, pattern in (BOTH_WAYS | ONE_WAY).items():
        if tag in ("gives:restore_point", "checks:version", "gives:safe_start", "checks:protection"):
            continue  # the same command serves other ends too; these are held the other way only
        if any(re.search(pattern, command) for command in step.commands):
            assert tag in step.tags, f"{step.commands} ask for {tag}"


@every_step
def test_tags_are_borne_out_by_a_command(system, step):
    for tag, pattern in BOTH_WAYS.items():
        if tag in step.tags and (system, step.key, tag) not in BY_HAND:
            assert any(re.search(pattern, command) for command in step.commands), f"{tag}: {step.commands}"


@every_step
def test_a_step_that_only_reads_types_nothing_that_changes(system, step):
    changing = {"installs:driver", "removes:driver", "removes:settings", "restarts", "takes_picture", "takes_network"}
    if "reads" in step.tags:
        for command in step.commands:
            assert re.match(READING, command), command
        assert not changing & set(step.tags)
        assert step.back.startswith("Nothing changes") or step.key in ("display", "stick"), step.back


@every_step
def test_a_restart_takes_picture_and_network(system, step):
    if "restarts" in step.tags:
        assert {"takes_picture", "takes_network"} <= set(step.tags)
        assert "asks_for_key" in step.tags or step.key.startswith("power_off"), "power_on, which follows it, says so"


@every_step
def test_removal_is_by_name_and_never_forced(system, step):
    for command in step.commands:
        if re.search(BOTH_WAYS["removes:driver"], command):
            assert "*" not in command
            assert not re.search(r"force|nodeps|--yes|-y\b|-Rdd|-Rsc", command), command
    if "removes:driver" in step.tags and step.key == "remove":
        assert "star" in step.caution
        assert "force" in step.caution


@every_step
def test_words_bear_out_the_tags_of_work_done_by_hand(system, step):
    words = text(step)
    if re.search(r"[Pp]ull the network cable", words):
        assert {"takes_network", "gives:held_off"} <= set(step.tags)
    if "gives:held_off" in step.tags:
        assert "network cable" in words
    if "ends:held_off" in step.tags:
        assert "Plug the network cable in" in words
    if "last_resort" in step.tags:
        assert "Last resort" in step.title
        assert "power button" in words
    if re.search(r"hold the power button until", " ".join(step.do)):
        assert "last_resort" in step.tags
    if "gives:power_off" in step.tags or "ends:power_off" in step.tags:
        assert "mains" in words
    if any(tag.startswith("touches:") for tag in step.tags):
        assert "Touch bare metal" in words or step.key == "without_card"
    if "gives:safe_start" in step.tags:
        assert "safe start" in words.lower()
    if system == "other" and step.key in ("remove", "install", "fetch", "fetch_here", "rehearse", "rebuild"):
        assert "package manager" in words
    if "gives:key" in step.tags:
        assert re.search(r"[Nn]ever film", step.caution)
    if "notes:key_number" in step.tags:
        assert "number" in words


def test_the_families_differ_in_commands_only():
    known = {key: step.tags for key, step in linux_steps("debian").items()}
    for family in FAMILIES:
        assert {key: step.tags for key, step in linux_steps(family).items()} == known


def test_no_step_names_what_it_should_not():
    """A product for this job, or its way of speaking: the steps are the system's own means in our own words."""
    for _, step in STEPS:
        assert not re.search(r"uninstaller tool|cleaner|clean install|clean and restart", text(step), re.IGNORECASE)
