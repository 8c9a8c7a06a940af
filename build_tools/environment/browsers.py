"""
Finds a Chromium for the browser tests, or installs one where this account may do so. Knows no test.

Tried in this order: one named in WORKED_ANSWERS_CHROMIUM, one on the path, one that Playwright has
fetched; then Debian's package (as root, on Debian), then Playwright's own. The one without a window
comes first: it is the same engine of the same version, and a page in it costs two thirds.
"""

import os
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

from build_tools.environment import children
from build_tools.environment.logs import Log
from build_tools.environment.progress import Progress, Step

NAMED = "WORKED_ANSWERS_CHROMIUM"
WINDOWLESS = "chromium-headless-shell"  # Debian's package, and the program in it
# Itself, before the shell script on the path: that waits for it, and whoever ended the script would leave it running.
WINDOWLESS_PLACES = (f"/usr/lib/chromium/{WINDOWLESS}",)
WHOLE = ("chromium", "chromium-browser")  # as readers have it
PLACES = ("/Applications/Chromium.app/Contents/MacOS/Chromium", "/usr/lib/chromium/chromium")

# So that a test run asks nothing of any host but ours.
QUIET = (
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-default-apps",
    "--disable-domain-reliability",
    "--disable-sync",
    "--no-first-run",
    "--no-default-browser-check",
)
# Features of the window around a page. The list below the address bar is a page of its own, and costs more than most
# of ours; the others ask hosts. Chromium heeds the last such flag alone, so what Playwright turns off stands here too.
NOT_NEEDED = (
    "WebUIOmniboxPopup", "WebUIOmniboxAimPopup", "AimEnabled", "NetworkTimeServiceQuerying", "OptimizationHints",
    "PreconnectToSearch", "MediaRouter", "HttpsUpgrades", "HttpsFirstBalancedModeAutoEnable",
    "AvoidUnnecessaryBeforeUnloadCheckSync", "DestroyProfileOnBrowserClose", "PaintHolding",
    "ThirdPartyStoragePartitioning", "AvoidCorsURLLoaderRestartOnRedirect", "TcpPortRandomizationWin",
)  # fmt: skip

# What the other browsers' test needs, by Debian's package: the program that it brings.
OTHERS = {"chromium": "chromium", "firefox-esr": "firefox-esr", "webkit2gtk-driver": "WebKitWebDriver", "xvfb": "Xvfb"}

MISSING = (
    "The browser tests need Chromium, and none was found or could be installed: {how}, or name one in "
    f"{NAMED}, and run the tests again."
)


def find() -> Path | None:
    """A Chromium on this machine that starts, or None."""
    named = os.environ.get(NAMED)
    for candidate in (named,) if named else _candidates():
        if candidate and _starts(Path(candidate)):
            return Path(candidate)
    return None


def readers() -> Path | None:
    """A whole Chromium, as readers have it, or else what there is: for what is measured, or tried beside others."""
    named = os.environ.get(NAMED)
    if not named or Path(named).name == WINDOWLESS:  # a test run names what it has found
        for candidate in (*map(shutil.which, WHOLE), *PLACES):
            if candidate and _starts(Path(candidate)):
                return Path(candidate)
    return find()


def _candidates() -> Iterator[str | None]:
    """Paths at which a Chromium may be; Playwright, which is slow to ask, comes last."""
    yield from WINDOWLESS_PLACES
    yield from map(shutil.which, (WINDOWLESS, *WHOLE))
    yield from PLACES
    yield _playwrights_own()


def flags() -> list[str]:
    """Chromium's flags. Its sandbox does not work for root, so root goes without: that is for throw-away machines."""
    root = os.name == "posix" and os.geteuid() == 0
    return [*QUIET, f"--disable-features={','.join(NOT_NEEDED)}", *(["--no-sandbox"] if root else [])]


def find_or_install(project: Path, progress: Progress) -> Path | None:
    """A Chromium, installed if it must and may be; None when there is none to be had."""
    browser = find()
    if browser or os.environ.get(NAMED):
        return browser
    for package in (WINDOWLESS, "chromium") if may_use_apt() else ():
        progress.total += 1
        with progress.step(f"Installing Debian's {package} package") as step:
            _install_from_debian(project, step, [package])
        if browser := find():
            return browser
    progress.total += 1
    with progress.step("Fetching Playwright's own Chromium") as step:
        _, printed = children.run([sys.executable, "-m", "playwright", "install", "chromium"], project)
        Log(project, "chromium-playwright").keep(printed)
    return find()


def readers_or_install(project: Path, progress: Progress) -> Path | None:
    """A whole Chromium, installed if it must and may be, or else what there is; None when there is none to be had."""
    there = readers()
    if (there is None or there.name == WINDOWLESS) and not os.environ.get(NAMED) and may_use_apt():
        progress.total += 1
        with progress.step("Installing Debian's chromium package") as step:
            _install_from_debian(project, step, ["chromium"])
    return find_or_install(project, progress) and readers()


def install_others(project: Path, progress: Progress) -> list[str]:
    """Firefox, WebKit and a screen for it, installed if they must and may be. Returns the packages that are missing."""
    due = [package for package, program in OTHERS.items() if not shutil.which(program)]
    if due and may_use_apt():
        progress.total += 1
        with progress.step(f"Installing {', '.join(due)} from Debian") as step:
            _install_from_debian(project, step, due)
    return [package for package in due if not shutil.which(OTHERS[package])]


def program(name: str) -> str:
    """Where a program is."""
    path = shutil.which(name)
    if path is None:
        raise FileNotFoundError(name)
    return path


def _install_from_debian(project: Path, step: Step, packages: list[str]) -> None:
    variables = children.clean_environment(DEBIAN_FRONTEND="noninteractive")

    def note(line: str) -> None:
        step.note = line.strip()[:60]

    printed = ""
    for command in (
        ["apt-get", "update"],
        ["apt-get", "install", "--yes", "--no-install-recommends", *packages],
    ):
        status, more = children.run(command, project, variables=variables, on_line=note)
        printed += more
        if status != 0:
            break
    Log(project, f"{packages[0]}-package").keep(printed)


def missing() -> str:
    """What to tell a person who has no browser for the tests."""
    how = "install it from your system's packages"
    if shutil.which("apt-get"):
        how = "run  sudo apt install chromium"
    return MISSING.format(how=how)


def may_use_apt() -> bool:
    """Whether this is Debian and we are root: the only case in which packages are ours to install."""
    if os.name != "posix" or os.geteuid() != 0 or not shutil.which("apt-get"):
        return False
    try:
        return "\nID=debian\n" in "\n" + Path("/etc/os-release").read_text("utf-8")
    except OSError:
        return False


def _playwrights_own() -> str | None:
    """Where Playwright keeps its Chromium; None where Playwright itself is not installed."""
    try:
        from playwright.sync_api import sync_playwright
    except ImportError:
        return None
    with sync_playwright() as playwright:
        return playwright.chromium.executable_path


def _starts(program: Path) -> bool:
    if not program.is_file():
        return False
    try:
        status, printed = children.run([program, "--version", *flags()], program.parent)
    except OSError:
        return False
    return status == 0 and "chrom" in printed.lower()
