"""drivers.which: which driver each display adapter really runs on, by what the system itself says."""

from __future__ import annotations

from textwrap import dedent

from calculators.desk.answer import (
    DEPENDS,
    FROM_MEMORY,
    NO,
    YES,
    Answer,
    Caution,
    Column,
    Figure,
    Note,
    Source,
    Table,
    Verdict,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.inputs import PrivateText, Values
from calculators.desk.numbers import listed, plural
from calculators.drivers.listings.adapter_facts import LENT, STOPPED, UNTOLD, WORKS, Adapter, Listing, Package
from calculators.drivers.listings.examples import (
    LINUX_PLAIN,
    LINUX_TWO,
    WINDOWS_LEFT_OVER,
    WINDOWS_OTHER_LANGUAGE,
    WINDOWS_VERSIONS,
)
from calculators.drivers.listings.linux_parser import numbers_cut_off, read_linux, without_numbers
from calculators.drivers.listings.windows_parser import read_windows

# The command that names the driver of each adapter, for viewers whose pasted text does not.
WINDOWS_TELLS = "pnputil /enum-devices /class Display /connected"
LINUX_TELLS = "lspci -nnk"
LINES = 20_000  # more than any machine says; a longer text is refused, not read in part

SOURCES = (
    Source("PCI Code and ID Assignment Specification", "base class 03h, display controller", FROM_MEMORY),
    Source("Microsoft Learn, PnPUtil examples", "page of 2025-11-05"),
    Source("Microsoft Learn, Win32_VideoController class", "properties InfFilename, DriverVersion, PNPDeviceID"),
    Source("Microsoft Learn, Microsoft Basic Display Driver", "page of 2017-04-20"),
    Source("lspci(8) of pciutils 3.9.0 and lsmod(8) of kmod 30"),
    Source("Names of the basic display packages; class GUID of display adapters", "", FROM_MEMORY),
)


def read_list(text: str) -> Listing:
    """
    What a system said of its display adapters.

    Args:
        text: The pasted output of pnputil, or of lspci and lsmod. [text]

    Returns:
        The adapters, packages and modules in it. [object]

    Raises:
        ValueError: Nothing in it can be told apart, or it is too long; the sentence says what to paste instead.

    Source:
        As read_windows and read_linux.

    Example:
        >>> read_list("01:00.0 VGA compatible controller [0300]: Maker A [1234:5678]").system
        'linux'
    """
    lines = dedent(text.replace("\ufeff", "")).splitlines()
    if len(lines) > LINES:
        raise ValueError(f"it has more than {LINES:,} lines; paste the command's own output alone")
    if numbers_cut_off(lines):
        raise ValueError("a display adapter in the list has lost its numbers; copy the list again, whole")
    windows, linux = read_windows(lines), read_linux(lines)
    if windows is not None and linux is not None:
        raise ValueError("it holds the lists of two systems at once; paste one of them")
    listing = windows if windows is not None else linux
    if listing is None:
        if without_numbers(lines):
            raise ValueError("the list has no numbers in brackets; make it again with lspci -nnk")
        raise ValueError("no display adapter and no driver package can be told apart in it")
    if listing.adapters == () and not listing.packages and listing.loaded is None and not listing.gone:
        raise ValueError("there is a list of devices in it, but none of them is a display adapter")
    return listing


def _nothing_shown(listing: Listing) -> str:
    """The text for a link or a card: empty, since what was pasted is never shown again."""
    return ""


def compute(given: Values) -> Answer:
    """The adapters, what they run on, and what is left over."""
    listing: Listing = given["said"]
    left = left_over(listing)
    figures: list[Figure] = []
    if listing.adapters is not None:
        on_basic = sum(a.basic for a in listing.adapters)
        figures.append(figure("adapters", "Display adapters", len(listing.adapters), main=True))
        figures.append(figure("on_basic_driver", "On the basic driver, or on none", on_basic, main=True))
        if untold := sum(not a.driver_known for a in listing.adapters):
            figures.append(figure("not_told", "Driver not told", untold, main=True))
    if left is not None:
        figures.append(figure("left_over", "Left over", len(left), main=True))
    if listing.packages is not None:
        figures.append(figure("packages", "Display packages in the store", len(listing.packages)))
    verdict = _verdict(listing)
    return Answer(
        headline=_headline(listing, left),
        verdict=verdict,
        figures=tuple(figures),
        tables=tuple(_tables(listing, left)),
        notes=tuple(_notes(listing, left)),
        cautions=tuple(_cautions(left)),
        sources=SOURCES,
    )


def left_over(listing: Listing) -> tuple[str, ...] | None:
    """
    The packages in the store, or the loaded modules, that no adapter uses.

    Args:
        listing: What the system said. [object]

    Returns:
        Their names in order; None where the list of adapters or that of packages or modules is missing, or where the
        driver of an adapter is not named. [list]

    Source:
        Arithmetic: what is there, less what is in use.

    Example:
        >>> left_over(Listing("windows", (), (Package("oem3.inf", "a.inf", "", "1.0"),)))
        ('oem3.inf',)
    """
    if listing.adapters is None or not all(a.driver_known for a in listing.adapters):
        return None  # of an adapter whose driver is not told, any package may be the one in use
    used = {_same(a.driver) for a in listing.adapters}
    if listing.packages is not None:
        return tuple(p.name for p in listing.packages if p.name not in used)
    if listing.loaded is not None:
        loaded = {_same(name) for name in listing.loaded}
        could = sorted({_same(name) for a in listing.adapters for name in a.candidates})
        return tuple(name for name in could if name in loaded and name not in used)
    return None


def _same(module: str) -> str:
    """A module's name as the kernel keeps it: a hyphen and an underscore are the same."""
    return module if module.endswith(".inf") else module.replace("-", "_")


def _headline(listing: Listing, left: tuple[str, ...] | None) -> str:
    if listing.adapters is None:
        if listing.packages is not None:
            return (
                f"{plural(len(listing.packages), 'display package')} in the store; which one is in use is told by "
                f"{WINDOWS_TELLS}."
            )
        return f"Only loaded modules were pasted; which adapter uses which is told by {LINUX_TELLS}."
    headline = _drivers_missing(listing)
    on_basic = sum(a.basic for a in listing.adapters)
    total = len(listing.adapters)
    if not total:
        runs = "No display adapter is connected"
    elif not on_basic:
        runs = (
            f"{_all_of(total)} on {'a driver' if total == 1 else 'drivers'} of {'its' if total == 1 else 'their'} own"
        )
    else:
        whose = "its" if on_basic == 1 else "their"
        part = "The display adapter has" if total == 1 else f"Of {total} display adapters {on_basic} {_have(on_basic)}"
        runs = f"{part} no driver of {whose} own"
    if headline:  # of some adapters at least the driver is not told
        return f"{runs}; the rest is not told, but {_tells(listing.system)} tells it." if on_basic else headline
    if left is None:
        return f"{runs}."
    thing = "package" if listing.system == "windows" else "module"
    rest = f"{plural(len(left), thing)} {'is' if len(left) == 1 else 'are'}" if left else "nothing is"
    return f"{runs}, and {rest} left over."


def _drivers_missing(listing: Listing) -> str:
    """The headline where what was pasted does not name the driver of each adapter; else ''."""
    adapters = listing.adapters or ()
    untold = sum(not a.driver_known for a in adapters)
    if not untold:
        return ""
    if len(adapters) == 1:
        whose = "the driver of the display adapter"
    elif untold == len(adapters):
        whose = f"the drivers of the {untold} display adapters"
    else:
        whose = f"the driver of {untold} of {len(adapters)} display adapters"
    return f"What you pasted does not tell {whose}; {_tells(listing.system)} does."


def _tells(system: str) -> str:
    """The command that names the driver of each adapter."""
    return WINDOWS_TELLS if system == "windows" else LINUX_TELLS


def _all_of(total: int) -> str:
    return {1: "The display adapter runs", 2: "Both display adapters run"}.get(
        total, f"All {total} display adapters run"
    )


def _have(count: int) -> str:
    return "has" if count == 1 else "have"


def _verdict(listing: Listing) -> Verdict:
    if listing.adapters is None:
        return Verdict(DEPENDS, "Only the list of devices says which driver is in use.", "Not told.")
    if any(a.basic for a in listing.adapters):
        return Verdict(
            NO, "At least one adapter runs on the system's basic fallback, slow and coarse.", "The basic one."
        )
    if any(not a.driver_known for a in listing.adapters):
        return Verdict(DEPENDS, "The list leaves the driver out; one more command tells it.", "Not told.")
    if any(a.state == STOPPED for a in listing.adapters):
        return Verdict(
            DEPENDS,
            "Each adapter has its driver, but the system says that one does not run.",
            "Its own, but not running.",
        )
    if any(a.state == LENT for a in listing.adapters):
        return Verdict(
            DEPENDS, "One adapter is kept for a virtual machine; this system does not draw with it.", "One is lent."
        )
    if any(a.state == UNTOLD for a in listing.adapters):
        return Verdict(YES, "Each adapter has a driver of its own; whether it runs is not told.", "Its own driver.")
    if not listing.adapters:
        return Verdict(NO, "The system sees no display adapter.", "None.")
    return Verdict(YES, "Each adapter has a driver of its own and runs on it.", "On its own driver.")


STATE_WORDS = {WORKS: "runs", STOPPED: "does not run", LENT: "kept for a virtual machine", UNTOLD: "not told"}


def _tables(listing: Listing, left: tuple[str, ...] | None) -> list[Table]:
    tables = []
    stored = {p.name: p for p in listing.packages or ()}
    if listing.adapters:
        versions = listing.system == "windows"
        rows = []
        for i, a in enumerate(listing.adapters, 1):
            version = a.version or (stored[a.driver].version if a.driver in stored else "")
            rows.append(
                (
                    str(i),
                    _numbers(a),
                    _driver(a, listing.system),
                    *([version or "not told"] if versions else []),
                    f"problem {a.problem}" if a.problem else STATE_WORDS[a.state],
                )
            )
        columns = ("Adapter", "PCI numbers", "Driver", *(["Version"] if versions else []), "State")
        tables.append(
            Table("Each adapter and its driver", tuple(Column(c) for c in columns), tuple(rows), _versions(listing))
        )
    if stored:
        used = {a.driver for a in listing.adapters or ()}
        rows2 = [
            (
                p.name,
                p.original or "not told",
                p.version or "not told",
                p.date or "not told",
                _use(p, used, listing.adapters is not None),
            )
            for p in stored.values()
        ]
        columns = ("Package", "Came as", "Version", "Date", "Use")
        tables.append(Table("Display packages in the store", tuple(Column(c) for c in columns), tuple(rows2)))
    if listing.loaded is not None and left:
        tables.append(
            Table("Loaded without use", (Column("Module"),), tuple((name,) for name in left), "It could serve a card.")
        )
    return tables


def _numbers(adapter: Adapter) -> str:
    if adapter.vendor:
        return f"{adapter.vendor}:{adapter.device}"
    return "not on PCI" if adapter.placed else "not told"


def _driver(adapter: Adapter, system: str) -> str:
    if not adapter.driver_known:
        return "not told"
    if not adapter.driver:
        return "none: basic fallback" if system == "linux" else "none"
    return f"{adapter.driver}, basic" if adapter.basic else adapter.driver


def _versions(listing: Listing) -> str:
    """The line below the table of adapters: how to find a version that what was pasted does not hold."""
    if listing.system == "linux":
        return "The version of a module: modinfo and its name; of one that comes with the kernel: uname -r."
    if listing.packages or all(a.version for a in listing.adapters or ()):
        return ""
    return "Versions stand in the list of packages: pnputil /enum-drivers"


def _use(package: Package, used: set[str], devices_known: bool) -> str:
    if not devices_known:
        return "not told"
    return "in use" if package.name in used else "left over"


def _notes(listing: Listing, left: tuple[str, ...] | None) -> list[Note]:
    notes = []
    basic = [i for i, a in enumerate(listing.adapters or (), 1) if a.basic]
    if basic:
        which = listed([str(i) for i in basic])
        notes.append(
            Note(
                "What the basic fallback means",
                f"Adapter {which}: the system draws into the memory that the firmware set up. The picture is coarse or "
                "fixed in size, and games and films are slow, but nothing is broken. It is also what one sees in a "
                "safe start, between two drivers, or when the maker's driver was refused.",
            )
        )
    problems = [f"adapter {i}: problem {a.problem}" for i, a in enumerate(listing.adapters or (), 1) if a.problem]
    if problems:
        notes.append(
            Note(
                "What a problem number means",
                f"{listed(problems)[0].upper()}{listed(problems)[1:]}. 28 says that no driver is installed, 22 that "
                "the device was switched off, 31 that its driver did not load, 43 that the driver itself reported a "
                "fault, 52 that a signature was refused. As we remember it; the device list shows the sentence.",
            )
        )
    if left:
        left_words = (
            "A package that no adapter uses is not loaded and slows nothing down. It matters only when the system "
            "chooses it again at a change of card; the plan for a clean start removes it by its number, with a way "
            "back."
            if listing.system == "windows"
            else "These modules are loaded and could serve a card, but another driver does. Two at once can stand in "
            "each other's way; the plan for a clean start looks into that."
        )
        notes.append(Note("What is left over", left_words))
    if any(not a.driver_known for a in listing.adapters or ()):
        notes.append(
            Note(
                "What is not told",
                "A list that does not name a driver does not mean that there is none. "
                f"{_tells(listing.system)} names it; "
                "paste its output as well, from its first line to its last.",
            )
        )
    elif left is None and listing.adapters is not None:
        missing = (
            "pnputil /enum-drivers lists the packages; paste both outputs, one after the other."
            if listing.system == "windows"
            else "lsmod lists the loaded modules; paste both outputs, one after the other."
        )
        notes.append(Note("Whether something is left over", f"That takes a second list: {missing}"))
    if listing.gone:
        notes.append(
            Note(
                "Adapters of the past",
                f"The system remembers {plural(listing.gone, 'adapter')} that is no longer connected; "
                "not counted above."
                if listing.gone == 1
                else f"The system remembers {listing.gone} adapters that are no longer connected; not counted above.",
            )
        )
    notes.append(
        Note(
            "What happens to what you paste",
            "It stays in this page. Of it the answer repeats only PCI numbers, file names, versions and states: no "
            "descriptions, no serial parts.",
        )
    )
    return notes


def _cautions(left: tuple[str, ...] | None) -> list[Caution]:
    if not left:
        return []
    return [
        Caution(
            "machine",
            "Remove nothing on the strength of this list alone: first the new driver on the disk, the old one saved, "
            "and a restore point.",
            "The plan in 'How do I start clean?' has the order.",
            short="Remove nothing because of this list.",
            tag="Remove nothing",
        )
    ]


def worked_for(given: Values) -> str:
    """What was pasted, counted and not repeated."""
    adapters = given["said"].adapters
    if adapters is None:
        return "the text you pasted"
    return f"the text you pasted, with {plural(len(adapters), 'display adapter')}"


calculator = Calculator(
    name="drivers.which",
    version=4,
    title="Which driver does each card run on?",
    summary="What the system says of its display adapters, told in plain words; nothing leaves the page.",
    inputs=(
        PrivateText(
            key="said",
            label="What the system says",
            where=(
                "Windows, in a console (Windows+X, Terminal): pnputil /enum-devices /class Display "
                "/connected and then pnputil /enum-drivers. Linux, in a terminal: lspci -nnk and then "
                "lsmod. Paste everything, one after the other."
            ),
            note="It stays in this page, on this device",
            example="01:00.0 VGA compatible controller [0300]: Maker A [1234:5678]",
            shape="the output of pnputil, or of lspci -nnk and lsmod",
            parse=read_list,
            canonical=_nothing_shown,
        ),
    ),
    compute=compute,
    worked_for=worked_for,
    presets=(
        Preset("left-over", "Invented: a package left over", {"said": WINDOWS_LEFT_OVER}),
        Preset("other-language", "Invented: another language, basic driver", {"said": WINDOWS_OTHER_LANGUAGE}),
        Preset("versions", "Invented: versions alone", {"said": WINDOWS_VERSIONS}),
        Preset("linux-two", "Invented: Linux, two cards", {"said": LINUX_TWO}),
        Preset("linux-plain", "Invented: Linux, no driver in use", {"said": LINUX_PLAIN}),
    ),
)
