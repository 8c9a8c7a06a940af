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
from calculators.desk.inputs import Values
from calculators.desk.numbers import plural, span
from calculators.desk.svg import SMALL, TEXT, WIDTH, Drawing, Sketch
from calculators.drivers.plans.consoles import ON_LINUX, ON_WINDOWS
from calculators.drivers.plans.diagnosis import diagnose
from calculators.drivers.plans.plan_inputs import INPUTS
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
                short="First, copy your files.",
                tag="Copy files",
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
                tag="Unplug first",
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
