"""
Steps under Linux, for four families of systems: what to do, why, what to see, and how to go back. One step a key.

Written for Debian 12 and 13, Fedora 41 to 43 and Arch of 2026, with their standard start menu and service
manager; 'other' gets the same steps without package commands. Commands: from their manual pages, listed in
tests/check_values/linux_commands.toml and run in tests/references/drivers where a container allows it; the rest
from memory. Last checked 2026-11-24.
NEW_PACKAGE, OLD_PACKAGE and LEFT_BEHIND stand for names that the reader fills in, MODULE for the driver's module.
"""

from __future__ import annotations

from typing import NamedTuple

from calculators.desk.answer import Step
from calculators.drivers.plans.shared_steps import NOTHING_TO_UNDO, SHARED, table

ADAPTERS = "lspci -nnk"
IN_KERNEL = (
    "Most cards run on a driver that comes with the kernel: then kernel, firmware and graphics library are the "
    "packages in question, and nothing of the maker's is needed."
)


class Packages(NamedTuple):
    """How one family of systems handles packages, as commands; empty where the family is not known."""

    fetch: tuple[str, ...]
    snapshot: tuple[str, ...]
    install: tuple[str, ...]
    rehearse: tuple[str, ...]
    remove: tuple[str, ...]
    left_behind: str
    built: tuple[str, ...]
    rebuild: tuple[str, ...]
    signing_key: tuple[str, ...]
    owner: tuple[str, ...]
    administrators: str
    older: str = (
        "The kernels stand in the list, or below its advanced options: choose the next older number, without the word "
        "recovery. The entry holds for this one start."
    )
    third_leg: str = "the older kernel in the start menu is the third leg."
    which_line: str = ""
    other_kernel: str = "the older kernel"
    why_older: str = (
        "An update mostly brings a new kernel, and the old one stays beside it with the driver that fitted it."
    )
    undo: str = "Install the version noted before, or start the older kernel from the start menu."


FAMILIES = {
    "debian": Packages(
        fetch=("sudo apt-get update", "sudo apt-get install --download-only --reinstall NEW_PACKAGE"),
        snapshot=("dpkg --get-selections > ~/packages-before.txt",),
        install=("sudo apt-get install --reinstall NEW_PACKAGE",),
        rehearse=(
            "apt-get --simulate purge OLD_PACKAGE",
            "apt-get --simulate autoremove OLD_PACKAGE",
            "dpkg --get-selections",
        ),
        remove=("sudo apt-get purge OLD_PACKAGE LEFT_BEHIND",),
        left_behind=(
            "The second line is only to be read, never run without --simulate: it can list parts of the "
            "desktop, and the older kernel that you may still need. In it and in the third list look for "
            "what the old driver brought: its kernel module (a name that ends in -dkms), its support and "
            "its modprobe package, all with the driver's name in theirs. Note these as LEFT_BEHIND."
        ),
        built=("dkms status", "modinfo -F signer MODULE", "mokutil --sb-state"),
        rebuild=("sudo update-initramfs -u -k all",),
        signing_key=("sudo mokutil --import /var/lib/dkms/mok.pub",),
        owner=('dpkg -S "$(modinfo -n MODULE)"',),
        administrators="sudo",
        older="Choose the advanced options, and there the entry with the next older number, without the word recovery. "
        "The entry holds for this one start.",
    ),
    "fedora": Packages(
        fetch=("sudo dnf install --downloadonly NEW_PACKAGE", "sudo dnf reinstall --downloadonly NEW_PACKAGE"),
        snapshot=("rpm -qa > ~/packages-before.txt",),
        install=("sudo dnf install NEW_PACKAGE", "sudo dnf reinstall NEW_PACKAGE"),
        rehearse=("sudo dnf remove --assumeno OLD_PACKAGE", "rpm -qa"),
        remove=("sudo dnf remove OLD_PACKAGE LEFT_BEHIND",),
        left_behind="In the second list look for what else bears the old driver's name: its module (akmod-, kmod-) and "
        "its support packages. Note these as LEFT_BEHIND.",
        built=("modinfo -F version MODULE", "modinfo -F signer MODULE", "mokutil --sb-state"),
        rebuild=("sudo dracut --force --regenerate-all",),
        signing_key=("sudo mokutil --import /etc/pki/akmods/certs/public_key.der",),
        owner=('rpm -qf "$(modinfo -n MODULE)"',),
        administrators="wheel",
        older="The kernels stand in the list itself, the newest on top: choose the next older one, and not the one "
        "called rescue. The entry holds for this one start.",
        which_line=" The first line is for a package that is not there yet, the second for one that is.",
    ),
    "arch": Packages(
        fetch=("sudo pacman -Syuw NEW_PACKAGE",),
        snapshot=("pacman -Q > ~/packages-before.txt",),
        install=("sudo pacman -Syu NEW_PACKAGE",),
        rehearse=("pacman -R --print OLD_PACKAGE", "pacman -Q"),
        remove=("sudo pacman -R OLD_PACKAGE LEFT_BEHIND",),
        left_behind="In the second list look for what else bears the old driver's name, its -dkms package above all. "
        "Note these as LEFT_BEHIND.",
        built=("dkms status", "modinfo -F signer MODULE", "mokutil --sb-state"),
        rebuild=("sudo mkinitcpio -P",),
        signing_key=("sudo mokutil --import /var/lib/dkms/mok.pub",),
        owner=('pacman -Qo "$(modinfo -n MODULE)"',),
        administrators="wheel",
        older="Here an upgrade replaces the kernel, so the list has another one only if you installed a second kind, "
        "such as linux-lts: choose that, or one called fallback if there is one. It holds for this one start.",
        third_leg="no older kernel is kept here, so the packages of before in /var/cache/pacman/pkg are the third leg: "
        "sudo pacman -U and their files' names put them back.",
        other_kernel="another kernel, if you installed one",
        why_older="A driver is built for each kernel; another one has its own, which may still fit.",
        undo="Put the versions noted before back: sudo pacman -U and their files in /var/cache/pacman/pkg.",
    ),
    "other": Packages(
        (),
        (),
        (),
        (),
        (),
        "Look also for the kernel module, support and modprobe packages that bear the old driver's name.",
        ("modinfo -F version MODULE", "modinfo -F signer MODULE", "mokutil --sb-state"),
        (),
        (),
        (),
        "wheel",
    ),
}


def linux_steps(family: str) -> dict[str, Step]:
    """
    The steps for one family of systems.

    Args:
        family: debian, fedora, arch or other. [text]

    Returns:
        The steps by key; the same keys and tags for every family. [mapping]

    Raises:
        KeyError: There is no such family.

    Source:
        Manual pages named in tests/check_values/linux_commands.toml; the rest from memory.

    Example:
        >>> linux_steps("debian")["remove"].commands[0]
        'sudo apt-get purge OLD_PACKAGE LEFT_BEHIND'
    """
    own = FAMILIES[family]
    whole = (
        (
            " Here that is a full upgrade: one package alone, taken newer than the rest, can leave the "
            "system unable to start."
        )
        if family == "arch"
        else ""
    )
    waits = (
        "Here the module is built in the background after the package manager has ended, which takes some minutes: "
        "repeat the first line until it names the version that you installed."
        if family == "fedora"
        else (
            "Wait until the package manager has ended, then ask: the first line must name the kernel that "
            "you will start."
        )
    )
    newer_kernel = (
        "The upgrade brought a newer kernel? Then modinfo finds nothing: write -k and its version right after it."
        if family == "arch"
        else "A newer kernel came with it? Then write -k and its version right after modinfo."
    )
    with_manager = "" if own.install else " Use your own package manager's words for it."
    return SHARED | table(
        (
            Step(
                key="wake",
                title="See whether only the desktop is dark",
                do=(
                    "Press Ctrl, Alt and F3 together. A text sign-in means that system and screen are alive.",
                    "Back to the desktop: Ctrl, Alt and F1, then F2, then F7.",
                ),
                why="A text console needs hardly anything of the display driver.",
                see="Text: then sign in there and read the messages of this start.",
                otherwise="Nothing at all: go on.",
                back="Ctrl, Alt and F1 or F2.",
                commands=("journalctl -b -k -p warning",),
                tags=("tries", "needs:at_machine", "takes_picture"),
                minutes=(1, 4),
            ),
            Step(
                key="look",
                title="See which driver runs now",
                do=(
                    (
                        "In the list find the entries marked 0300, 0302 or 0380: those are the "
                        "display adapters, and the line 'Kernel driver in use' below each is its driver. Note its name."
                    ),
                    "With that name in place of MODULE, the other lines tell version and package.",
                    "'Which driver does each card run on?' on this site reads the list for you.",
                ),
                commands=(ADAPTERS, "modinfo MODULE", *own.owner, "uname -r"),
                why="Without knowing what was there, there is no way back to it.",
                see="One 'Kernel driver in use' for each adapter.",
                otherwise="No such line: the adapter has no driver of its own, which is a finding, not an error.",
                back=NOTHING_TO_UNDO,
                tags=(
                    "needs:console",
                    "tries",
                    "reads",
                    "checks:card",
                    "checks:driver",
                    "notes:version",
                    "notes:package",
                ),
                minutes=(2, 6),
            ),
            Step(
                key="events",
                title="See when it began",
                do=(
                    "Read the kernel's warnings of the last start and of the one before, and list the past starts.",
                    "Note the first day with messages of the display driver, and what was updated on that day.",
                ),
                commands=("journalctl -k -b -1 -p warning", "journalctl --list-boots"),
                why="A driver that began to fail on the day of an update is a different case from a card that fails "
                "in the heat.",
                see="A day on which it started, or messages spread over months.",
                otherwise="No such messages: whatever crashes, the display driver did not complain.",
                back=NOTHING_TO_UNDO,
                tags=(
                    "needs:console",
                    "tries",
                    "reads",
                ),
                minutes=(3, 10),
            ),
            Step(
                key="settings",
                title="Set the picture right first",
                do=(
                    (
                        "Open the desktop's display settings: resolution, scale, refresh rate. Confirm only what you "
                        "can read."
                    ),
                    "Look whether hand-made settings are in force: the listing shows such files.",
                ),
                commands=("ls -l /etc/X11/xorg.conf /etc/X11/xorg.conf.d /etc/modprobe.d",),
                why="A wrong size, rate or colour is more often a setting than a driver.",
                see="The picture as it should be; the display's own menu shows the same resolution and rate.",
                otherwise="The right value is not offered: cable and input decide what is offered. Try another cable, "
                "then go on.",
                back="Wait: a setting that you do not confirm is taken back after a few seconds.",
                tags=("needs:console", "tries", "needs:at_machine", "takes_picture", "sets:display"),
                minutes=(3, 10),
            ),
            Step(
                key="package",
                title="See why the installation fails",
                do=(
                    "Which kernel runs, are modules built for it, and is there room on the disk?",
                    (
                        "Was the driver once installed by the maker's own script? Then use that script's way of "
                        "removing it before any package."
                    ),
                ),
                commands=("uname -r", "dkms status", "df -h / /boot"),
                why="A module built for another kernel, missing kernel headers and a full disk are the usual three.",
                see=(
                    "A module listed as installed for the kernel that runs, and room on both. 'Installed' "
                    "does not yet mean that it may be loaded: under secure boot its signature decides, and "
                    "a later step looks at that."
                ),
                otherwise="Headers missing or disk full: mend that, and try the installation again first.",
                back=NOTHING_TO_UNDO,
                tags=(
                    "needs:console",
                    "tries",
                    "reads",
                ),
                minutes=(3, 10),
            ),
            Step(
                key="key",
                title="Try the disk's passphrase, and note its slot",
                do=(
                    (
                        "The first command shows encrypted partitions as crypto_LUKS; if there are none, tick "
                        "the steps about the key and go on."
                    ),
                    (
                        "The second, with that partition in place of PARTITION, asks for the passphrase and names the "
                        "key slot that it opens. Note the slot's number. The passphrase itself belongs where you can "
                        "read it away from this machine."
                    ),
                ),
                commands=(
                    "lsblk -o NAME,FSTYPE,SIZE,MOUNTPOINTS",
                    "sudo cryptsetup open --test-passphrase --verbose /dev/PARTITION",
                ),
                why="Firmware or start settings that changed can end an automatic unlocking; then only the passphrase "
                "opens the disk.",
                see="Key slot, a number, unlocked.",
                otherwise="No passphrase fits: stop. Add one first (sudo cryptsetup luksAddKey /dev/PARTITION), then "
                "begin again.",
                back=NOTHING_TO_UNDO,
                caution="Never film, type elsewhere or send the passphrase; note only the slot's number.",
                tags=("needs:console", "reads", "needs:admin", "gives:key", "matches:key", "notes:key_number"),
                minutes=(3, 15),
            ),
            Step(
                key="key_away",
                title="Have the disk's passphrase at hand",
                do=(
                    (
                        "Find the passphrase of the encrypted disk, and the recovery key if one was made, away from "
                        "this machine: on paper, or in a password store on another device."
                    ),
                    (
                        "Two disks or two systems? The prompt shows the partition's name: match each by it. Note the "
                        "number of the key slot if it was written down with the passphrase."
                    ),
                ),
                why="Firmware or start settings that changed can end an automatic unlocking; then only the passphrase "
                "opens the disk.",
                see="A passphrase for each encrypted disk, readable away from the machine.",
                otherwise="None at all: stop here. If the disk is encrypted and the passphrase is lost, so are the "
                "files.",
                back=NOTHING_TO_UNDO,
                caution="Never film, type elsewhere or send the passphrase.",
                tags=("reads", "gives:key", "matches:key", "notes:key_number"),
                minutes=(3, 15),
            ),
            Step(
                key="fetch",
                title="Fetch the new packages without installing them",
                do=(
                    IN_KERNEL,
                    "Download only, from your system's own, signed package sources; the name of the package stands "
                    "in your distribution's documentation for your card." + own.which_line + whole + with_manager,
                ),
                commands=own.fetch,
                why="Once the old driver is gone, there may be no network to fetch the new one.",
                see="The download completes without a word about signatures.",
                otherwise="A signature is not accepted: stop, and mend the package sources first. Never switch the "
                "check off.",
                back="Nothing was installed; the download may stay."
                + (" But install nothing by itself before the full upgrade below." if family == "arch" else ""),
                tags=("needs:console", "needs:admin", "gives:driver_file", "notes:package"),
                minutes=(3, 20),
            ),
            Step(
                key="fetch_here",
                title="Fetch the new packages while this machine still has its network",
                do=(
                    IN_KERNEL,
                    "No other device can fetch them later. Download only, from your system's own, signed package "
                    "sources or its installation disc." + own.which_line + whole + with_manager,
                ),
                commands=own.fetch,
                why="They must lie on this disk before anything is taken away.",
                see="The download completes without a word about signatures.",
                otherwise="A signature is not accepted, or no network: stop here; nothing has been removed.",
                back="Nothing was installed; the download may stay."
                + (" But install nothing by itself before the full upgrade below." if family == "arch" else ""),
                tags=("needs:console", "needs:admin", "gives:driver_file", "notes:package"),
                minutes=(3, 20),
            ),
            Step(
                key="restore",
                title="Save what stands in for a restore point",
                do=(
                    "Many Linux systems have none. A list of all packages and a copy of the settings stand in for it; "
                    + own.third_leg
                    + with_manager,
                    "Is your system set up with snapshots? Then take one now as well.",
                ),
                commands=(*own.snapshot, "sudo cp -a /etc ~/etc-before", "ls -ld ~/packages-before.txt ~/etc-before"),
                why="With list and copy the present state can be put back package by package.",
                see="The listing shows both, dated today.",
                otherwise="One is missing: is the disk full? Make room before you go on.",
                back="Packages: install what the list has and the system has not. Settings: copy single files back "
                "from ~/etc-before.",
                tags=(
                    "needs:console",
                    "needs:admin",
                    "gives:restore_point",
                    "checks:restore_point",
                    "notes:restore_point",
                ),
                minutes=(2, 8),
            ),
            Step(
                key="install",
                title="Install the driver's packages",
                do=(
                    "Save what is open. Install over what is there; read what would be changed before you agree."
                    + own.which_line
                    + whole
                    + with_manager,
                ),
                commands=own.install,
                why="It puts every file of the driver in place as its maker or your distribution signed it.",
                see="It ends without an error; a module that had to be built is reported as built.",
                otherwise="A module does not build: kernel headers for the running kernel are missing, or the driver "
                f"does not know this kernel yet. Then start {own.other_kernel}.",
                back=own.undo,
                tags=(
                    "needs:console",
                    "needs:admin",
                    "needs:at_machine",
                    "needs:driver_file",
                    "needs:restore_point",
                    "installs:driver",
                    "takes_picture",
                ),
                minutes=(3, 15),
            ),
            Step(
                key="enrol",
                title="Ask for the signing key to be enrolled",
                do=(
                    (
                        "The first command tells whether secure boot is on. If not, or if your driver comes with the "
                        "kernel, tick this and go on."
                    ),
                    "The second asks you to invent a password for one use; you type it at the next start."
                    + ("" if own.signing_key else " The key's file is named in your distribution's documentation."),
                ),
                commands=(
                    "mokutil --sb-state",
                    *(own.signing_key or ("sudo mokutil --import KEY_FILE",)),
                    "mokutil --list-new",
                ),
                why="Under secure boot the kernel refuses modules that nobody it trusts has signed; without the "
                "enrolment the screen may stay coarse or dark.",
                see="The third command lists the key as waiting.",
                otherwise="No such file: some systems of this kind keep it as /var/lib/shim-signed/mok/MOK.der; else "
                "the module was not built here, so look how your distribution signs it.",
                back="sudo mokutil --revoke-import takes the request back.",
                tags=("needs:console", "needs:admin", "gives:enrolment_asked"),
                minutes=(2, 6),
            ),
            Step(
                key="restart_enrol",
                title="Restart, and enrol the key at the screen",
                do=(
                    "Restart and stay in front of the screen: a blue page waits about ten seconds for any key.",
                    "Choose to enrol the key, continue, confirm, type the password that you invented, reboot.",
                ),
                commands=("systemctl reboot",),
                why="Only somebody at the screen may add a key: that is the point of it.",
                see="After the restart the list of enrolled keys has it (mokutil --list-enrolled), and the picture is "
                "sharp.",
                otherwise="The page was missed: ask for the enrolment again and restart. A dark screen: hold Esc or "
                f"Shift after the logo and choose {own.other_kernel}.",
                back="sudo mokutil --delete with the same file takes the key out again.",
                tags=(
                    "needs:console",
                    "needs:at_machine",
                    "restarts",
                    "gives:enrolment",
                    "takes_picture",
                    "takes_network",
                    "asks_for_key",
                ),
                minutes=(3, 8),
            ),
            Step(
                key="restart",
                title="Restart",
                do=("Save what is open, then restart.",),
                commands=("systemctl reboot",),
                why="A kernel module is exchanged only at a start.",
                see="The sign-in at the full resolution of the display.",
                otherwise=f"Dark: hold Esc or Shift after the logo and choose {own.other_kernel}, or see 'How do I get "
                "into safe start when there is no picture?'.",
                back="A restart needs none.",
                tags=(
                    "needs:console",
                    "needs:at_machine",
                    "restarts",
                    "takes_picture",
                    "takes_network",
                    "asks_for_key",
                ),
                minutes=(2, 6),
            ),
            Step(
                key="rehearse",
                title="Rehearse the removal",
                do=(
                    "With the old driver's package in place of OLD_PACKAGE, see what would go, without doing it."
                    + with_manager,
                    own.left_behind,
                ),
                commands=own.rehearse,
                why="A driver's package can take the desktop with it; better to read that than to see it.",
                see=(
                    "Lists of the driver's own packages, and nothing of the desktop or the kernel in what "
                    "you would remove."
                ),
                otherwise="The desktop or a kernel is in the list: do not remove; install the new driver beside it.",
                back=NOTHING_TO_UNDO,
                tags=("needs:console", "needs:admin", "reads", "notes:package"),
                minutes=(2, 6),
            ),
            Step(
                key="remove",
                title="Remove the old driver's packages",
                do=(
                    "With the very package manager of your system, by exact names, and only what you rehearsed: the "
                    "driver, and what you noted as left behind by it. Nothing noted: leave that word out."
                    + with_manager,
                    (
                        "Leave the network plugged in: what the new driver shares with the old one is "
                        "fetched again. A driver that comes with the kernel stays: skip this."
                    ),
                ),
                commands=own.remove,
                why="Two drivers for one card stand in each other's way.",
                see="It ends without an error; what runs now goes on until the restart.",
                otherwise="Dependencies are in the way: answer no, and go on without removing.",
                back="Install the same package again, from the list in ~/packages-before.txt.",
                caution="Give the package's exact name. No star in its place, and none of the options that force or "
                "ignore dependencies: they can take the desktop or leave a half-installed system.",
                tags=(
                    "needs:console",
                    "needs:admin",
                    "needs:at_machine",
                    "needs:driver_file",
                    "needs:restore_point",
                    "removes:driver",
                    "takes_picture",
                ),
                minutes=(2, 8),
            ),
            Step(
                key="tidy",
                title="Move hand-made display settings out of the way",
                do=(
                    (
                        "If these files exist and you or an installer made them, move them into a folder; those that a "
                        "package owns stay. Look into /etc/modprobe.d for lines that name the old driver."
                    ),
                ),
                commands=(
                    "mkdir -p ~/old-display-settings",
                    "sudo mv /etc/X11/xorg.conf ~/old-display-settings/",
                    "grep -r -e blacklist -e options /etc/modprobe.d",
                ),
                why="A setting that asks for the old driver keeps the new one out.",
                see="The folder holds the file, or there was none.",
                otherwise="'No such file' is good news here.",
                back="sudo mv ~/old-display-settings/xorg.conf /etc/X11/",
                tags=("needs:console", "needs:admin", "needs:restore_point", "removes:settings"),
                minutes=(2, 8),
            ),
            Step(
                key="rebuild",
                title="Build the start image anew",
                do=(
                    "The start image holds copies of drivers; let the system build it from what is now installed."
                    + with_manager,
                ),
                commands=own.rebuild,
                why="Else the next start still loads the old driver.",
                see="One line for each kernel, without errors.",
                otherwise="No room in /boot: remove kernels that you no longer use, never the last working one, then "
                "again.",
                back="Put the packages of before back, then build it again: older kernels' images are built anew too.",
                tags=("needs:console", "needs:admin", "needs:at_machine"),
                minutes=(1, 5),
            ),
            Step(
                key="protect",
                title="See that the disk is still encrypted",
                do=("The partition must still show crypto_LUKS, with the system below it.",),
                commands=("lsblk -o NAME,FSTYPE,SIZE,MOUNTPOINTS",),
                why="Nothing here suspends this encryption, so nothing has to come back; looking costs ten seconds.",
                see="crypto_LUKS, as before.",
                otherwise="If it was bound to the firmware's chip and asks for the passphrase now, bind it again as "
                "your distribution describes.",
                back=NOTHING_TO_UNDO,
                tags=("needs:console", "reads", "checks:protection"),
                minutes=(1, 2),
            ),
            Step(
                key="password",
                title="Try an administrator's password",
                do=("Forget the remembered password, then ask for it again; note the account's name.",),
                commands=("sudo -k", "sudo -v", "id"),
                why="In a text start nothing signs you in by itself, and a finger or face may not be asked for.",
                see="No complaint after the password; sudo, wheel or root among the groups.",
                otherwise="Refused: set a password with passwd before you go on, and try it again.",
                back=NOTHING_TO_UNDO,
                tags=("needs:console", "needs:admin", "needs:at_machine", "gives:password", "notes:account"),
                minutes=(1, 3),
            ),
            Step(
                key="make_admin",
                title="Make a local administrator for the repair",
                do=(
                    (
                        "No account has a password, so make one that has, for this repair only. The group of "
                        f"administrators is called {own.administrators} here; some systems call it otherwise."
                    ),
                ),
                commands=(
                    "sudo useradd -m repair",
                    "sudo passwd repair",
                    f"sudo usermod -aG {own.administrators} repair",
                    "su - repair -c 'sudo -v'",
                ),
                why="In a text start nothing signs you in by itself, and an account without a password may be refused.",
                see="The last line asks twice for the new password and ends without a complaint.",
                otherwise="'Not in the sudoers file': the group has the other name; do the third line with it.",
                back="sudo userdel -r repair",
                tags=(
                    "needs:console",
                    "needs:admin",
                    "needs:at_machine",
                    "gives:extra_account",
                    "gives:password",
                    "notes:account",
                ),
                minutes=(2, 6),
            ),
            Step(
                key="drop_admin",
                title="Remove the account made for the repair",
                do=("Sign in with your own account and delete the other.",),
                commands=("sudo userdel -r repair",),
                why="A forgotten administrator is an open door.",
                see="No complaint; at most a remark about its mail.",
                otherwise="'Currently used': sign it out, or restart, and again.",
                back="sudo useradd -m repair makes it anew.",
                tags=("needs:console", "needs:admin", "ends:extra_account"),
                minutes=(1, 2),
            ),
            Step(
                key="coarse",
                title="Start once with a coarse picture",
                do=(
                    (
                        "Press the power button once, briefly, and wait until the machine is off. Start, and right "
                        "after the logo tap Esc or hold Shift until the start menu shows."
                    ),
                    (
                        "On the first entry press e. At the end of the line that begins with linux add a space and "
                        "nomodeset, then press Ctrl+X. Sign in as you always do."
                    ),
                ),
                why="It is a usual start without the driver's modes, for this one time: an account with a password can "
                "be made in it.",
                see="Your desktop, or a text sign-in, in a coarse picture.",
                otherwise="No menu: try again, a little earlier. No picture even so: stop; borrow a card that works, "
                "or ask a technician.",
                back="Restart: what is added in the menu holds once.",
                tags=("needs:at_machine", "restarts", "takes_picture", "takes_network", "asks_for_key"),
                minutes=(3, 12),
            ),
            Step(
                key="text_start",
                title="Start once into text, with the basic driver",
                do=(
                    (
                        "Restart, or press the power button once, briefly, and start again. Right after the logo tap "
                        "Esc or hold Shift until the start menu shows."
                    ),
                    (
                        "On the first entry press e. At the end of the line that begins with linux add the words below "
                        "after a space, then press Ctrl+X. Sign in with the password that you tried."
                    ),
                ),
                commands=("nomodeset systemd.unit=multi-user.target",),
                why="In this safe start no desktop and no display driver is in use. It holds for one start only.",
                see="A text sign-in.",
                otherwise=f"No menu: try again, a little earlier. Still dark: choose {own.other_kernel}, there.",
                back="Restart: what is added in the menu holds once.",
                tags=(
                    "needs:at_machine",
                    "needs:password",
                    "restarts",
                    "gives:safe_start",
                    "takes_picture",
                    "takes_network",
                    "asks_for_key",
                ),
                minutes=(3, 12),
            ),
            Step(
                key="leave",
                title="Leave the safe start",
                do=("Restart. What was added in the start menu is forgotten.",),
                commands=("systemctl reboot",),
                why="Driver and desktop come together only in a usual start.",
                see="The sign-in of your desktop.",
                otherwise=f"Dark again: once more into text, then {own.other_kernel}; report what you saw.",
                back="The same words in the start menu lead back.",
                tags=(
                    "needs:console",
                    "needs:at_machine",
                    "restarts",
                    "ends:safe_start",
                    "takes_picture",
                    "takes_network",
                    "asks_for_key",
                ),
                minutes=(2, 6),
            ),
            Step(
                key="leave_enrol",
                title="Leave the safe start, and enrol the key at the screen",
                do=(
                    "Restart and stay in front of the screen: a blue page waits about ten seconds for any key.",
                    (
                        "Choose to enrol the key, continue, confirm, type the password that you invented, reboot. No "
                        "page comes if no enrolment was asked for."
                    ),
                ),
                commands=("systemctl reboot",),
                why="Only somebody at the screen may add a key: that is the point of it.",
                see="The sign-in of your desktop, sharp.",
                otherwise="The page was missed: ask for the enrolment again and restart.",
                back="sudo mokutil --delete with the same file takes the key out again.",
                tags=(
                    "needs:console",
                    "needs:at_machine",
                    "restarts",
                    "ends:safe_start",
                    "gives:enrolment",
                    "takes_picture",
                    "takes_network",
                    "asks_for_key",
                ),
                minutes=(3, 8),
            ),
            Step(
                key="older_kernel",
                title="Start the older kernel once",
                do=(
                    (
                        "Press the power button once, briefly, and wait until the machine is off. Start, and right "
                        "after the logo tap Esc or hold Shift until the start menu shows."
                    ),
                    own.older,
                ),
                why=own.why_older + " This goes back without removing anything.",
                see="The desktop as before: the new kernel, or the module built for it, is the cause. Work from here.",
                otherwise="No older entry, or as dark as before: go on.",
                back="Restart: the next start takes the newest kernel again.",
                tags=(
                    "tries",
                    "goes_back",
                    "needs:at_machine",
                    "restarts",
                    "takes_picture",
                    "takes_network",
                    "asks_for_key",
                ),
                minutes=(3, 10),
            ),
            Step(
                key="built",
                title="Wait until the module is built, and see whether it may be loaded",
                do=(
                    waits + " A driver that comes with the kernel needs none of this: tick it and go on.",
                    (
                        "'Installed' is not 'loadable'. If the last line says that secure boot is on, the "
                        "second must name a signer, and the key of that signer must be enrolled; the plan "
                        "comes to that."
                    ),
                    newer_kernel,
                ),
                commands=own.built,
                why="A restart before the module is there, or with one that the kernel refuses, ends in a coarse or "
                "dark screen.",
                see=(
                    "A version or a line 'installed' for the kernel that you will start, and a signer under "
                    "secure boot."
                ),
                otherwise="No module: wait, then look for missing kernel headers. No signer under secure boot: the "
                f"kernel will refuse it; do not restart before that is mended, or start {own.other_kernel}.",
                back=NOTHING_TO_UNDO,
                tags=("needs:console", "reads", "checks:module"),
                minutes=(2, 10),
            ),
            Step(
                key="photos",
                title="Photograph the firmware's settings",
                do=(
                    "Save what is open; the line restarts into the firmware's menu.",
                    (
                        "Photograph each page, above all how the disks are attached (the disk mode), secure "
                        "boot, start order and memory. Change nothing, and leave without saving."
                    ),
                ),
                commands=("systemctl reboot --firmware-setup",),
                why="Should the settings be lost or reset, a system may not start until the disk mode is as it was.",
                see="Pictures that you can read on your telephone.",
                otherwise="Refused: restart, and right after power-on tap the key that the board's manual names, often "
                "Del or F2.",
                back="Nothing changes here, as you leave without saving.",
                tags=(
                    "needs:console",
                    "needs:at_machine",
                    "restarts",
                    "takes_picture",
                    "takes_network",
                    "asks_for_key",
                    "gives:photos",
                ),
                minutes=(5, 15),
            ),
            Step(
                key="only_if_basic",
                title="Is it the basic driver? Only then go on",
                do=(
                    (
                        "Compare with what you noted at the first step: does 'Kernel driver in use' name a "
                        "driver made for this card?"
                    ),
                    "If so, stop here: settings, cable and input decide the size, not a new package.",
                ),
                commands=(ADAPTERS,),
                why="On the basic driver size and rate are fixed; on the card's own they are a setting.",
                see="No driver in use for the card that the display hangs on, or the basic one.",
                otherwise="A driver of its own: go back to the display's settings, and leave the driver alone.",
                back=NOTHING_TO_UNDO,
                tags=("needs:console", "reads", "checks:card", "checks:driver"),
                minutes=(1, 3),
            ),
            Step(
                key="runs",
                title="Does it run already? Then you are done",
                do=(
                    "Look at the picture and at the list. Is it sharp, and has the card a driver of its own?",
                    "If so, stop here: nothing below is needed.",
                ),
                commands=(ADAPTERS,),
                why="A driver that was here before, or comes with the kernel, may serve this card: then all is done.",
                see="'Kernel driver in use' names a driver other than the basic one.",
                otherwise="A coarse picture, or the basic driver in the list: go on with the next step.",
                back=NOTHING_TO_UNDO,
                tags=("needs:console", "reads", "checks:card", "checks:driver"),
                minutes=(2, 5),
            ),
            Step(
                key="check",
                title="Check that it worked",
                do=(
                    "Which card, which driver, which version: compare with what you noted.",
                    "Then do for ten minutes what used to fail, and read the kernel's warnings since the start.",
                ),
                commands=(ADAPTERS, "modinfo MODULE", "uname -r", "journalctl -b -k -p warning"),
                why="A picture alone proves little: the basic driver shows one too.",
                see="'Kernel driver in use' names the driver that you wanted, and no warnings of it.",
                otherwise="It did not work: go on with the next heading below; it says what is left.",
                back=NOTHING_TO_UNDO,
                tags=("needs:console", "reads", "checks:card", "checks:driver", "checks:version", "notes:version"),
                minutes=(5, 15),
            ),
        )
    )
