"""Steps under Linux: starting, restarting, and who may. Sources: linux_steps.py."""

from __future__ import annotations

from calculators.desk.answer import Step
from calculators.drivers.plans.linux_families import Packages
from calculators.drivers.plans.shared_steps import NOTHING_TO_UNDO


def starting(own: Packages) -> tuple[Step, ...]:
    """
    Starting, restarting, and who may, in the words of one family.

    Args:
        own: How the family handles packages. [commands]

    Returns:
        The steps. [tuple]

    Source:
        Manual pages named in tests/check_values/linux_commands.toml; the rest from memory.

    Example:
        >>> from calculators.drivers.plans.linux_families import FAMILIES
        >>> starting(FAMILIES["debian"])[0].key
        'enrol'
    """
    return (
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
    )
