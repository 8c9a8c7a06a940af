"""Steps under Linux: what is looked at, noted and compared. Sources: linux_steps.py."""

from __future__ import annotations

from calculators.desk.answer import Step
from calculators.drivers.plans.linux_families import ADAPTERS, Packages
from calculators.drivers.plans.shared_steps import NOTHING_TO_UNDO


def looking(own: Packages) -> tuple[Step, ...]:
    """
    What is looked at, noted and compared, in the words of one family.

    Args:
        own: How the family handles packages. [commands]

    Returns:
        The steps. [tuple]

    Source:
        Manual pages named in tests/check_values/linux_commands.toml; the rest from memory.

    Example:
        >>> from calculators.drivers.plans.linux_families import FAMILIES
        >>> looking(FAMILIES["debian"])[0].key
        'wake'
    """
    return (
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
            key="built",
            title="Wait until the module is built, and see whether it may be loaded",
            do=(
                own.waits + " A driver that comes with the kernel needs none of this: tick it and go on.",
                (
                    "'Installed' is not 'loadable'. If the last line says that secure boot is on, the "
                    "second must name a signer, and the key of that signer must be enrolled; the plan "
                    "comes to that."
                ),
                own.newer_kernel,
            ),
            commands=own.built,
            why="A restart before the module is there, or with one that the kernel refuses, ends in a coarse or "
            "dark screen.",
            see=("A version or a line 'installed' for the kernel that you will start, and a signer under secure boot."),
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
