"""Steps under Linux: what is fetched, put in and taken out. Sources: linux_steps.py."""

from __future__ import annotations

from calculators.desk.answer import Step
from calculators.drivers.plans.linux_families import IN_KERNEL, Packages
from calculators.drivers.plans.shared_steps import NOTHING_TO_UNDO


def packages(own: Packages) -> tuple[Step, ...]:
    """
    What is fetched, put in and taken out, in the words of one family.

    Args:
        own: How the family handles packages. [commands]

    Returns:
        The steps. [tuple]

    Source:
        Manual pages named in tests/check_values/linux_commands.toml; the rest from memory.

    Example:
        >>> from calculators.drivers.plans.linux_families import FAMILIES
        >>> packages(FAMILIES["debian"])[0].key
        'package'
    """
    return (
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
            otherwise="None at all: stop here. If the disk is encrypted and the passphrase is lost, so are the files.",
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
                "in your distribution's documentation for your card." + own.which_line + own.whole + own.with_manager,
            ),
            commands=own.fetch,
            why="Once the old driver is gone, there may be no network to fetch the new one.",
            see="The download completes without a word about signatures.",
            otherwise="A signature is not accepted: stop, and mend the package sources first. Never switch the "
            "check off.",
            back="Nothing was installed; the download may stay." + own.first_whole,
            tags=("needs:console", "needs:admin", "gives:driver_file", "notes:package"),
            minutes=(3, 20),
        ),
        Step(
            key="fetch_here",
            title="Fetch the new packages while this machine still has its network",
            do=(
                IN_KERNEL,
                "No other device can fetch them later. Download only, from your system's own, signed package "
                "sources or its installation disc." + own.which_line + own.whole + own.with_manager,
            ),
            commands=own.fetch,
            why="They must lie on this disk before anything is taken away.",
            see="The download completes without a word about signatures.",
            otherwise="A signature is not accepted, or no network: stop here; nothing has been removed.",
            back="Nothing was installed; the download may stay." + own.first_whole,
            tags=("needs:console", "needs:admin", "gives:driver_file", "notes:package"),
            minutes=(3, 20),
        ),
        Step(
            key="restore",
            title="Save what stands in for a restore point",
            do=(
                "Many Linux systems have none. A list of all packages and a copy of the settings stand in for it; "
                + own.third_leg
                + own.with_manager,
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
                + own.whole
                + own.with_manager,
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
            key="rehearse",
            title="Rehearse the removal",
            do=(
                "With the old driver's package in place of OLD_PACKAGE, see what would go, without doing it."
                + own.with_manager,
                own.left_behind,
            ),
            commands=own.rehearse,
            why="A driver's package can take the desktop with it; better to read that than to see it.",
            see=(
                "Lists of the driver's own packages, and nothing of the desktop or the kernel in what you would remove."
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
                + own.with_manager,
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
                + own.with_manager,
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
    )
