"""drivers.reset: is it the display driver, and if so a plan for this machine with a way back at every step."""

from __future__ import annotations

from collections.abc import Sequence

from calculators.desk.answer import (
    COMMON_PRACTICE,
    FROM_MEMORY,
    Answer,
    Caution,
    Column,
    Figure,
    Note,
    Source,
    Step,
    Table,
    Verdict,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.inputs import HOW_TO_TELL, Choice, Input, Option, Values, YesNo
from calculators.desk.numbers import plural, span
from calculators.desk.svg import SMALL, TEXT, WIDTH, Drawing, Sketch
from calculators.drivers.plans.consoles import ON_LINUX, ON_WINDOWS
from calculators.drivers.plans.diagnosis import diagnose
from calculators.drivers.plans.plan_order import DEEPEST, FIRST, PLANS, PREFIXES, Part, choose, worded
from calculators.drivers.plans.situation import Situation, situation
from calculators.drivers.plans.step_tags import minutes, restarts

DEPTH_WORDS = {0: "0: leave the driver alone, or it is not the driver"} | {
    depth: f"{depth}: {words}" for depth, words in PLANS.items()
}
WINDOWS_SOURCES = (
    Source("Microsoft Learn, PnPUtil command syntax", "page of 2024-01-08, examples of 2025-11-05"),
    Source("Microsoft Learn, manage-bde protectors", "page of 2018-08-06; status, page of 2017-10-16"),
    Source("Microsoft Learn, BCDEdit /set and /deletevalue", "pages of 2018-07-03 and 2018-05-21"),
    Source("Microsoft Learn, BCD settings and BitLocker", "page of 2023-09-29: onetimeadvancedoptions is ignored"),
    Source("Microsoft Learn, BitLocker recovery overview", "page of 2023-10-30"),
    Source("Microsoft Learn, shutdown", "page of 2025-03-18"),
    Source("Microsoft Learn, Windows Recovery Environment technical reference", "page of 2017-05-02"),
    Source("Microsoft Learn, Checkpoint-Computer and Get-ComputerRestorePoint 5.1", "pages of 2017-06-09"),
    Source("Microsoft Learn, Timeout detection and recovery", "page of 2020-10-06"),
    Source("Microsoft, terminal project", "issue 11164 of 2021-09-07: it does not start in safe mode"),
    Source("Menu paths, runas, net user, device list", "", FROM_MEMORY),
)
LINUX_SOURCES = (
    Source("apt-get(8) of Debian 12, with its --simulate and --download-only"),
    Source(
        "lspci(8) of pciutils 3.9, modinfo(8) of kmod 30, mokutil(1) 0.6, journalctl(1) and systemd(1) of systemd 252"
    ),
    Source("Debian 12 package index, Depends of card makers' driver packages", "read 2026-11-26"),
    Source("Linux kernel, admin-guide/module-signing", "Configuring module signing"),
    Source("Fedora Packages, akmods 0.6.2", "description"),
    Source("GNU GRUB manual", "command normal; util/grub.d/10_linux.in, list of older kernels"),
    Source("Fedora package grub2, change 420527a", "one entry a kernel, in the first list"),
    Source("Arch Linux bug list, FS#16702", "an upgrade replaces the kernel and its modules"),
    Source("ArchWiki, System maintenance", "Partial upgrades are unsupported", FROM_MEMORY),
    Source("dnf, pacman, dracut, mkinitcpio, update-initramfs and cryptsetup manual pages", "", FROM_MEMORY),
    Source("Linux kernel, admin-guide/kernel-parameters: nomodeset", "", FROM_MEMORY),
)
PRACTICE = Source("Order of the steps and their times", "", COMMON_PRACTICE)


def compute(given: Values) -> Answer:
    """Diagnosis and plan for one machine."""
    s = situation(given)
    diagnosis = diagnose(s)
    parts = choose(s, diagnosis.depth)
    steps = worded(parts, _words(s), ON_WINDOWS if s.windows else ON_LINUX)
    first_plan = [step for step in steps if step.group not in {p.heading for p in parts if p.deeper}]
    low, high = minutes(first_plan)
    counts = f"{plural(len(first_plan), 'step')}, {_restarts(restarts(first_plan))}, {span(low, high, 'minutes', 0)}"
    figures = (
        figure("steps", "Steps of the first plan", len(first_plan), main=True),
        figure("restarts", "Restarts in it", restarts(first_plan), main=True),
        figure("minutes_low", "At least", low, "min", 0),
        figure("minutes_high", "At most", high, "min", 0, main=True),
        Figure("depth", "How deep it goes", diagnosis.depth, "", DEPTH_WORDS[diagnosis.depth]),
        figure("tries", "Short steps to try first", sum(step.group == FIRST for step in steps)),
        figure("steps_in_all", "Steps with all that is left if it does not work", len(steps)),
    )
    return Answer(
        headline=f"{diagnosis.lead}: {counts}." if diagnosis.depth else f"{diagnosis.lead}.",
        verdict=Verdict(diagnosis.verdict, diagnosis.reason, diagnosis.says),
        figures=figures,
        tables=(_plans(parts, steps, diagnosis.depth),) if diagnosis.depth else (),
        drawings=(_ladder(parts, steps, diagnosis.depth),) if diagnosis.depth else (),
        steps=steps,
        steps_title="The plan, with a way back at every step: tick off as you go"
        if diagnosis.depth
        else "What you can do: tick off as you go",
        notes=(*diagnosis.notes, *_notes(s, diagnosis.depth, steps)),
        cautions=_cautions(s, steps),
        sources=(*(WINDOWS_SOURCES if s.windows else LINUX_SOURCES), PRACTICE),
    )


def _words(s: Situation) -> dict[str, Step]:
    """Only the steps of the system at hand are loaded: the reader's browser waits for this."""
    if s.windows:
        from calculators.drivers.plans.windows_steps import WINDOWS

        return WINDOWS
    from calculators.drivers.plans.linux_steps import linux_steps

    return linux_steps(s.family)


def _restarts(count: int) -> str:
    return plural(count, "restart") if count else "no restart"


def _of(part_prefix: str, parts: Sequence[Part], steps: Sequence[Step]) -> list[Step]:
    headings = {p.heading for p in parts if p.prefix == part_prefix}
    return [step for step in steps if step.group in headings]


def _plans(parts: Sequence[Part], steps: Sequence[Step], depth: int) -> Table:
    rows = []
    for deep in range(depth, DEEPEST + 1):
        own = _of(PREFIXES[deep], parts, steps)
        name = PLANS[deep][0].upper() + PLANS[deep][1:]
        rows.append((name, str(len(own)), str(restarts(own)), span(*minutes(own), "min", 0)))
    return Table(
        "The first plan, and what is left if it does not work",
        (Column("Plan"), Column("Steps", True), Column("Restarts", True), Column("Time", True)),
        tuple(rows),
        "Without what comes before: finding out and getting ready are done once.",
        marked=(0,),
    )


def _ladder(parts: Sequence[Part], steps: Sequence[Step], depth: int) -> Drawing:
    """The three plans as rungs, the gentlest on top: where one begins, and what is left below."""
    rows = []
    for deep in range(1, DEEPEST + 1):
        state = "not needed here" if deep < depth else "begin here" if deep == depth else "only if that fails"
        own = _of(PREFIXES[deep], parts, steps)
        rows.append((deep, f"{state}, {plural(len(own), 'step')}" if own else state))
    description = "; ".join(f"{deep}, {PLANS[deep]}: {state}" for deep, state in rows)

    def rungs(width: float, height: float, sizes: tuple[float, float]) -> Drawing:
        sketch = Sketch("How deep it goes", f"Three rungs: {description}.", height * len(rows) + 4, width)
        k = sizes[0] / TEXT
        for i, (deep, state) in enumerate(rows):
            x, y = 2 + 10.0 * k * i, 2 + height * i
            begins = deep == depth
            sketch.rect(
                x, y, width - x - 2, height - 10 * k, fill="none", line="mark" if begins else "line",
                line_width=(2.5 if begins else 1) * k, radius=4 * k,
                dash=f"{4 * k:g} {3 * k:g}" if deep < depth else "",
            )  # fmt: skip
            name = f"{deep}  {PLANS[deep][0].upper()}{PLANS[deep][1:]}"
            first = y + (height - 37 * k) / 2 + 9 * k
            sketch.text(x + 12 * k, first, name, size=sizes[0], bold=begins)
            sketch.text(x + 12 * k, first + 18 * k, state, size=sizes[1], ink="ink" if begins else "soft")
        return sketch.done(for_card)

    def for_card(width: float, height: float, size: float) -> Drawing:
        return rungs(width, max(min(height / 3, size * 4) - 2, size * 3.2), (size, size))

    return rungs(WIDTH, 54, (TEXT, SMALL))


def _notes(s: Situation, depth: int, steps: Sequence[Step]) -> tuple[Note, ...]:
    notes = []
    if s.secure_boot != "no" and s.windows and depth:
        notes.append(
            Note(
                "Secure boot",
                "Leave it on. Under this system a maker's signed package needs no enrolment and no change of it.",
            )
        )
    by_start_menu = ("-older-kernel", "-coarse", "-text-start")
    if not s.windows and any(step.key.endswith(by_start_menu) for step in steps):
        notes.append(
            Note(
                "If you land at grub>",
                "Then Esc was pressed once too often in the start menu. Type normal, press Enter, and press Esc once "
                "as the menu is about to come; or switch off and begin again. Nothing has been changed.",
            )
        )
    if s.windows:
        written = (
            "Versions 10 (from 2004 on) and 11, at their state of 2026-11-24. Where a menu moves between versions the "
            "step gives a command that does not. A version out of its maker's support gets no fixes, and new drivers "
            "may refuse it."
        )
    else:
        written = (
            "Debian 12 and 13, Fedora 41 to 43 and Arch of 2026 with their standard start menu and service manager, "
            "at their state of 2026-11-24; other families get the same steps without package commands. A release out "
            "of its maker's support gets no fixes, and new drivers may refuse it."
        )
    notes.append(Note("What these steps were written for", written))
    return tuple(notes)


def _cautions(s: Situation, steps: Sequence[Step]) -> tuple[Caution, ...]:
    tags = {tag for step in steps for tag in step.tags}
    cautions = []
    sees_nothing = s.dark_from_the_start and not s.sees  # nothing can be copied, and no step writes to a disk
    if tags & {"installs:driver", "removes:driver", "restarts"} and not sees_nothing:
        cautions.append(
            Caution(
                "data",
                "Data first: copy what you cannot lose to a disk that is then unplugged.",
                first=True,
                short="Copy what you cannot lose first.",
            )
        )
    if "matches:key" in tags:
        cautions.append(
            Caution("data", "Keys and passwords are never typed into a page, linked, filmed or sent.", first=True)
        )
    if "needs:power_off" in tags:
        cautions += [
            Caution(
                "person",
                "Mains off at the switch and unplugged before a hand goes in. Never open a power supply.",
                first=sees_nothing,
                short="Unplug it before a hand goes in.",
            ),
            Caution("machine", "Static electricity: touch the bare case first, and hold a card by its edges."),
            Caution(
                "machine",
                "Cables of one modular power supply never in another, even when the plugs fit; and the card's power "
                "lead fully seated, without a sharp bend at the plug.",
            ),
        ]
    if "touches:card" in tags:
        cautions.append(
            Caution(
                "machine",
                "The steps on the card are for desktop machines alone. Before a swap see that the power supply can "
                "feed the new card and has the leads it asks for, and support a heavy card, so that it does not hang "
                "on its slot.",
                "The card's and the supply's manuals say what they ask for and give.",
            )
        )
    if "removes:driver" in tags:
        cautions.append(
            Caution("machine", "Remove by exact name or number only: no stars, and none of the options that force.")
        )
    if tags & {"gives:driver_file", "installs:driver"}:
        cautions.append(
            Caution("machine", "Drivers only from the card's maker or your distribution, with their signature checked.")
        )
    cautions.append(
        Caution(
            "machine",
            "The manuals of card, board and system come before this plan.",
            "If a step does not look as described, stop there and ask a technician.",
        )
    )
    return tuple(sorted(cautions, key=lambda c: (not c.first, not c.short)))  # the gravest on top


UNSURE = Option("unsure", "not sure")
YES, NO = Option("yes", "yes"), Option("no", "no")

INPUTS: tuple[Input, ...] = (
    Choice(
        key="system",
        label="System",
        where_title=HOW_TO_TELL,
        where="The start button or the first words at power-on tell; a machine with drive C: runs Windows.",
        options=(
            Option(
                "windows",
                "Windows 10 or 11",
                ("windows", "win 10", "win 11", "w10", "w11", "blue screen", "stopped responding and has recovered"),
            ),
            Option("linux", "Linux", ("linux", "ubuntu", "mint", "debian", "fedora", "arch", "kernel", "distro")),
        ),
        default="windows",
        group="What happened",
    ),
    Choice(
        key="family",
        label="Which Linux, if it is one",
        where_title=HOW_TO_TELL,
        where="Open a terminal, type cat /etc/os-release and press Enter: it stands after ID_LIKE or ID.",
        options=(
            Option("debian", "Debian and its kin (apt)", ("debian", "ubuntu", "mint", "apt", "apt upgrade")),
            Option("fedora", "Fedora and its kin (dnf)", ("fedora", "dnf")),
            Option("arch", "Arch and its kin (pacman)", ("arch", "pacman")),
            Option("other", "another"),
        ),
        default="debian",
        group="What happened",
        note="under Windows leave it as it is: it changes nothing",
    ),
    Choice(
        key="change",
        label="What was changed, or will be",
        where_title=HOW_TO_TELL,
        where="The maker is the one of the chip on the card, named in its box title and in the device list.",
        options=(
            Option("same_maker", "a newer card of the same maker", ("same maker", "same brand", "same manufacturer")),
            Option(
                "other_maker",
                "a card of another maker",
                (
                    "other maker",
                    "another maker",
                    "another company",
                    "other company",
                    "different company",
                    "other camp",
                    "other vendor",
                    "different vendor",
                    "rival",
                    "competitor",
                    "different maker",
                    "other brand",
                    "different brand",
                    "another brand",
                    "one maker to the other",
                    "switching sides",
                    "red card to a green",
                    "green card to a red",
                    "red to green",
                    "green to red",
                    "changing sides",
                    "one brand to the other",
                    "different manufacturer",
                ),
            ),
            Option(
                "moved_card",
                "a card from another machine",
                (
                    "used card",
                    "card comes out of",
                    "mate old card",
                    "mate old graphics card",
                    "friend old card",
                    "friend old graphics card",
                    "brother old card",
                    "brother old graphics card",
                    "hand-me-down card",
                    "gpu comes out of",
                    "card out of the computer",
                    "inherited card",
                    "card from a colleague",
                    "used gpu",
                    "used graphics card",
                    "second hand card",
                    "second hand gpu",
                    "card out of pc",
                    "gpu out of pc",
                    "card from pc",
                    "gpu from pc",
                    "old card into my",
                    "old graphics card into my",
                    "old gpu into my",
                    "card from a friend",
                    "card from my old pc",
                    "gpu from a friend",
                ),
            ),
            Option(
                "moved_system",
                "the system's disk is from another machine",
                (
                    "disk from another pc",
                    "disk from my old pc",
                    "drive from my old pc",
                    "ssd from my old pc",
                    "moved my disk",
                    "moved the disk",
                    "moved my drive",
                    "disk to the new board",
                    "disk into the new machine",
                    "moved my ssd",
                    "moved the ssd",
                    "moved the drive",
                    "disk into a new pc",
                ),
            ),
            Option(
                "none",
                "nothing",
                (
                    "driver update",
                    "update of the driver",
                    "apt upgrade",
                    "dnf upgrade",
                    "dnf update",
                    "pacman syu",
                    "big update",
                    "automatic update",
                    "last night's update",
                    "updates installed",
                    "the system updated",
                    "driver updated",
                    "since updating",
                    "update broke my screen",
                    "update killed my screen",
                    "after updating",
                    "new driver version",
                    "system update",
                    "kernel update",
                    "kernel upgrade",
                    "system upgrade",
                    "after upgrade",
                    "after the upgrade",
                    "normal update",
                    "windows update",
                    "after an update",
                    "since update",
                    "after update",
                    "after the update",
                    "since the update",
                    "since an update",
                    "the last update",
                    "updated the driver",
                    "updated driver",
                    "updating the driver",
                    "updated the system",
                    "updated windows",
                    "driver package installs",
                    "new driver version",
                    "last kernel",
                ),
            ),
        ),
        default="none",
        group="What happened",
        note="with nothing wrong below, the change still lies ahead",
    ),
    Choice(
        key="trouble",
        label="What goes wrong",
        where_title=HOW_TO_TELL,
        where="What you see yourself. 'The display driver stopped responding and recovered' is a crash.",
        options=(
            Option(
                "none",
                "nothing",
                (
                    "need to reinstall",
                    "need to uninstall",
                    "have to clean out",
                    "need to clean",
                    "have to remove",
                    "need to remove",
                    "can i just swap",
                    "just swap",
                    "can i just put",
                    "just plug it in",
                    "simply plug",
                    "must the driver go",
                    "driver go first",
                    "want to go back to my old card",
                    "driver disturb",
                    "old driver a problem",
                    "want to sell my card",
                    "before i put it in",
                    "before i put in",
                    "before putting",
                    "before i change",
                    "before changing",
                    "what about the old driver",
                    "what about the driver",
                    "do i do first",
                    "arrives",
                    "is coming",
                    "planning to",
                    "ordered a card",
                    "ordered a new card",
                    "have to reinstall",
                    "have to uninstall",
                    "must i reinstall",
                    "must i uninstall",
                    "must i wipe",
                    "need to wipe",
                    "have to wipe",
                    "should i wipe",
                    "must i remove",
                    "must i clean",
                    "should i clean",
                    "wipe first",
                    "uninstall first",
                    "before the new one",
                    "should i uninstall",
                    "should i reinstall",
                    "reinstall anything",
                    "need new drivers",
                    "need a new driver",
                    "leave the driver",
                    "before i swap",
                    "before the swap",
                    "before swapping",
                    "remove the driver first",
                    "what do i do with the driver",
                    "anything to prepare",
                    "going to swap",
                    "will swap",
                    "tomorrow",
                    "next week",
                    "is plugging in enough",
                    "successor",
                ),
            ),
            Option(
                "no_picture",
                "no picture",
                (
                    "no picture",
                    "no signal",
                    "no beep",
                    "dark screen",
                    "screen dark",
                    "screen stays dark",
                    "monitor stays dark",
                    "no image",
                    "no output",
                    "no display",
                    "blank screen",
                    "no logo nothing",
                    "then nothing",
                    "then dark",
                    "goes dark and stays",
                    "black after the logo",
                    "black after that",
                    "black tty",
                    "only a text console",
                    "tty only",
                    "no input",
                    "grey screen",
                    "gray screen",
                    "nothing on the monitor",
                    "monitor shows nothing",
                    "screen shows nothing",
                    "nothing on screen",
                    "no desktop",
                    "pointer on black",
                    "nothing but a mouse pointer",
                    "only a mouse pointer",
                    "just a mouse pointer",
                    "login does not come up",
                    "desktop does not come up",
                    "graphical login does not",
                    "no graphical login",
                    "searching for a signal",
                    "looks for a signal",
                    "looking for a signal",
                    "without a picture",
                    "no video",
                    "no login screen",
                    "cursor blinking",
                    "blinking cursor",
                    "just a cursor",
                    "screen dark",
                    "screen stays off",
                    "monitor stays off",
                    "monitor goes to sleep",
                    "goes dark",
                    "turns black",
                    "just black",
                    "dots and then black",
                    "black and nothing",
                    "no display",
                    "no image",
                    "black screen",
                    "screen black",
                    "goes black",
                    "went black",
                    "stays black",
                    "stayed black",
                    "then black",
                    "blank screen",
                    "screen blank",
                    "stays dark",
                    "then dark",
                    "loses signal",
                    "loses its signal",
                    "lost the signal",
                    "is black",
                    "all black",
                    "nothing but black",
                    "only black",
                    "cannot see anything",
                    "cant see anything",
                    "nothing on the screen",
                ),
            ),
            Option(
                "crashes",
                "crashes, freezes or restarts of the driver",
                (
                    "crash",
                    "crashes",
                    "crashing",
                    "crashed",
                    "freeze",
                    "freezes",
                    "freezing",
                    "stopped responding",
                    "stops responding",
                    "driver stopped",
                    "recovered",
                    "bluescreen",
                    "restarts by itself",
                    "blue screen",
                    "driver timeout",
                    "timeout",
                ),
            ),
            Option(
                "wrong_settings",
                "wrong size, rate or colours",
                (
                    "wrong resolution",
                    "low resolution",
                    "best resolution",
                    "only resolution",
                    "highest resolution",
                    "resolution stuck",
                    "resolution is stuck",
                    "resolution is 1024",
                    "resolution is 800",
                    "resolution is 640",
                    "basic adapter",
                    "basic display",
                    "only 800",
                    "only 1024",
                    "only 640",
                    "everything is huge",
                    "everything huge",
                    "giant icons",
                    "huge icons",
                    "resolution too low",
                    "resolution gone",
                    "stuck at 1024",
                    "stuck at 800",
                    "stuck at 640",
                    "wrong colours",
                    "wrong colors",
                ),
            ),
            Option(
                "installer_fails",
                "the new driver does not install",
                (
                    "driver does not install",
                    "driver wont install",
                    "driver will not install",
                    "installer fails",
                    "installer of the driver stops",
                    "setup fails",
                    "setup hangs",
                    "package hangs",
                    "install hangs",
                    "hangs at percent",
                    "package fails",
                    "package aborts",
                    "setup ends with",
                    "setup stops",
                    "setup aborts",
                    "driver setup",
                    "setup of the driver",
                    "install ends with",
                    "installation ends",
                    "installation stops",
                    "installation aborts",
                    "installer stops with an error",
                    "installer of the graphics driver stops",
                    "error when installing",
                    "fails to install",
                    "installer stops",
                    "installer error",
                    "installer hangs",
                    "install fails",
                    "installation fails",
                    "installation failed",
                    "installer aborts",
                    "installer crashes",
                    "driver package installs",
                    "refuses to install",
                    "cannot install the driver",
                    "cant install the driver",
                ),
            ),
        ),
        default="crashes",
        group="What happened",
    ),
    YesNo(
        key="logo",
        label="Is the firmware's logo seen at power-on?",
        where_title=HOW_TO_TELL,
        where="Watch the first ten seconds: the maker's logo or any text before the system starts.",
        options=(YES, NO, UNSURE),
        default="unsure",
        names=("logo",),
        group="What you can see and do",
    ),
    YesNo(
        key="other_picture",
        label="Is there a picture from another graphics output?",
        where_title=HOW_TO_TELL,
        where="Try the board's own socket, if the processor has graphics, or another card.",
        default="no",
        names=(
            "onboard shows",
            "onboard hdmi shows",
            "onboard works",
            "board's socket shows",
            "other output works",
            "integrated graphics works",
            "other card shows a picture",
        ),
        group="What you can see and do",
    ),
    YesNo(
        key="at_the_machine",
        label="Are you at the machine?",
        where_title=HOW_TO_TELL,
        where="'No' if you reach it by remote access only.",
        default="yes",
        group="What you can see and do",
    ),
    YesNo(
        key="network",
        label="Can another device fetch files?",
        where_title=HOW_TO_TELL,
        where="A second computer with a network and a stick; a telephone counts if it can write one.",
        default="yes",
        group="What you can see and do",
    ),
    YesNo(
        key="encrypted",
        label="Is the system's disk encrypted?",
        where_title=HOW_TO_TELL,
        where="Windows: open the settings and type 'device encryption' into their search. Or press Windows+X, choose "
        "Terminal (Admin), type manage-bde -status C: and press Enter. Linux: open a terminal, type lsblk -f and press "
        "Enter; crypto_LUKS in the list means yes.",
        options=(YES, NO, UNSURE),
        default="unsure",
        names=("encrypted", "disk encryption", "drive encryption", "device encryption"),
        group="How the system is locked",
        note="'not sure' counts as yes",
    ),
    YesNo(
        key="secure_boot",
        label="Is secure boot on?",
        where_title=HOW_TO_TELL,
        where="Windows: press Windows+R, type msinfo32, press Enter and look for the line Secure Boot State. Linux: "
        "open a terminal, type mokutil --sb-state and press Enter.",
        options=(YES, NO, UNSURE),
        default="unsure",
        group="How the system is locked",
    ),
    YesNo(
        key="password",
        label="Does an administrator's account have a password?",
        where_title=HOW_TO_TELL,
        where="A real password, not a PIN, a face or a finger. Settings, accounts, sign-in options.",
        default="yes",
        group="How the system is locked",
    ),
    YesNo(
        key="admin",
        label="Do you have an administrator's rights?",
        names=("admin", "administrator", "admin rights", "administrator rights"),
        where_title=HOW_TO_TELL,
        where="If the system asks you only to confirm, you do; if it asks for another's password, you do not.",
        default="yes",
        group="How the system is locked",
    ),
    Choice(
        key="machine",
        label="What kind of machine",
        where_title=HOW_TO_TELL,
        where="A desktop has two sets of display sockets if its processor has graphics too: some up beside USB, some "
        "low down in the row of slots.",
        options=(
            Option("desktop", "a desktop, or not sure"),
            Option(
                "two_chips",
                "a desktop with graphics in the processor too",
                ("processor has graphics", "cpu has graphics"),
            ),
            Option("laptop", "a laptop"),
        ),
        default="desktop",
        group="What you can see and do",
    ),
)

_MACHINE_WORDS = {"desktop": "a desktop", "two_chips": "a desktop with two graphics chips", "laptop": "a laptop"}
_SYSTEM_WORDS = {
    "debian": "Debian and its kin",
    "fedora": "Fedora and its kin",
    "arch": "Arch and its kin",
    "other": "Linux",
}
_CHANGE_WORDS = {
    "same_maker": "a newer card of the same maker",
    "other_maker": "a card of another maker",
    "moved_card": "a card from another machine",
    "moved_system": "a disk from another machine",
    "none": "",
}
_TROUBLE_WORDS = {
    "none": "",
    "no_picture": "no picture",
    "crashes": "crashes",
    "wrong_settings": "wrong size, rate or colours",
    "installer_fails": "a driver that does not install",
}


def worked_for(given: Values) -> str:
    """The machine, its system, what changed and what is wrong."""
    system = "Windows" if given["system"] == "windows" else _SYSTEM_WORDS[given["family"]]
    parts = [f"{_MACHINE_WORDS[given['machine']]} with {system}"]
    parts += [part for part in (_CHANGE_WORDS[given["change"]], _TROUBLE_WORDS[given["trouble"]]) if part]
    if given["encrypted"] != "no":
        parts.append("an encrypted disk" if given["encrypted"] == "yes" else "a disk that may be encrypted")
    return ", ".join(parts)


calculator = Calculator(
    name="drivers.reset",
    version=3,
    title="Is it the display driver, and how do I start clean?",
    summary="First whether it is the driver at all, then a plan for this machine with a way back at every step.",
    inputs=INPUTS,
    compute=compute,
    worked_for=worked_for,
    presets=(
        Preset(
            "newer-card", "Newer card, same maker",
            {"change": "same_maker", "trouble": "none", "logo": "yes", "encrypted": "unsure"},
        ),
        Preset(
            "other-maker", "Card of another maker",
            {"change": "other_maker", "trouble": "none", "logo": "yes", "encrypted": "unsure"},
        ),
        Preset(
            "no-logo", "New card, not even a logo",
            {"change": "other_maker", "trouble": "no_picture", "logo": "no"},
        ),
        Preset(
            "dark", "Logo, then dark",
            {"change": "other_maker", "trouble": "no_picture", "logo": "yes", "encrypted": "yes"},
        ),
        Preset(
            "recovered", "Driver stopped and recovered",
            {"change": "none", "trouble": "crashes", "logo": "yes"},
        ),
        Preset(
            "linux-dark", "Linux, dark after an update",
            {"system": "linux", "family": "debian", "change": "none", "trouble": "no_picture", "logo": "yes",
             "secure_boot": "yes"},
        ),
    ),
)  # fmt: skip
