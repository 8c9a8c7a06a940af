"""What tests share: the built site, served on the loopback address, and a browser that looks at it."""

from __future__ import annotations

import gc
import io
import os
import signal
import subprocess
import sys
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import HealthCheck, settings

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page

PROJECT = Path(__file__).resolve().parents[1]

gc.disable()  # while tests are read, which makes much that stays and hardly any garbage

# A busy machine is no fault of a property, so there is no time limit for an example. CI tries the same examples at
# every run, so that what lands and what does not is not a matter of luck; at a desk each run tries new ones.
settings.register_profile(
    "ours", deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=bool(os.environ.get("CI"))
)
# On further Pythons, and in the page's runtime, three times as slow, a property is tried on fewer examples
# (build_tools/installer/testing.py): what is looked for there is another machine's arithmetic, and whole answers are
# compared byte for byte (tests/digests.py, tests/browser/test_parity.py).
settings.register_profile("fewer", settings.get_profile("ours"), max_examples=25)
settings.load_profile("fewer" if sys.platform == "emscripten" else "ours")

# A run that was started in the background ignores Ctrl-C, and so would every program that a test starts and stops.
if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
    signal.signal(signal.SIGINT, signal.default_int_handler)

WORTH_A_TABLE_S = 60  # shorter runs need no table of where their time went
ROWS_OF_TIME = 30

# Files that take long go first, the longest of them first, by the clock of a whole run; so nothing long is left when
# there is little else to do beside it. The first makes the site; the next three do without it meanwhile.
LONG_FIRST = (
    "test_build.py", "test_other_pythons.py", "test_suite_in_pyodide.py", "test_pack.py", "test_calculator_in_page.py",
    "test_starts.py", "test_pictures.py", "test_offline.py", "test_run_sheet.py", "test_into_the_sheet.py",
    "test_desk.py", "test_takes.py", "test_on_the_picture.py", "test_bad_line.py", "test_serve.py",
    "test_real_pages.py", "test_cut_and_compared.py", "test_quota.py", "test_plan.py", "test_order.py",
    "test_parity.py", "test_hard_days.py", "test_asking.py", "test_lasting.py", "test_card.py", "test_bit_flips.py",
    "test_bare_machine.py", "test_attacks.py", "test_attacks_in_browser.py", "test_memory.py", "test_in_the_page.py",
    "test_hostile_texts.py", "test_axe.py", "test_bench.py", "test_tools.py", "test_arriving.py", "test_strict.py",
    "test_folder.py", "test_site.py", "test_index_and_lines.py", "test_moving_text.py", "test_without_its_script.py",
    "test_searches.py", "test_screen.py", "test_other_browsers.py", "test_finder.py", "test_bars.py",
    "test_spelling.py", "test_tabs.py", "test_plugs.py",
)  # fmt: skip
# Files whose tests use one thing that is slow to make, and can only be kept in memory, go to one process.
TOGETHER = {
    f"tests/{file}": "every plan of drivers.reset (tests/calculators/drivers/every_plan.py)"
    for file in (
        "calculators/drivers/test_order.py", "calculators/drivers/test_rules.py", "calculators/drivers/test_reset.py",
        "build_tools/browser/test_plan_ticks.py",
    )
}  # fmt: skip

# With --all each of their tests takes up to some minutes: one process would need more than an hour for the file.
ALONE = ("tests/browser/test_parity.py",)


@pytest.hookimpl(optionalhook=True)  # without pytest-xdist nothing asks
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> Any:
    """A file's tests stay together, as by `--dist loadfile`, and some files too; with --all not those of ALONE."""
    if config.getvalue("dist") != "loadfile":
        return None
    from xdist.scheduler import LoadFileScheduling

    from build_tools.installer.testing import ALL

    class Together(LoadFileScheduling):  # type: ignore[misc]
        def _split_scope(self, nodeid: str) -> str:
            file = nodeid.partition("::")[0]
            return nodeid if file in ALONE and os.environ.get(ALL) else TOGETHER.get(file, file)

    return Together(config, log)


@pytest.hookimpl(tryfirst=True)
def pytest_collection(session: pytest.Session) -> None:
    """
    Of several processes each begins to read the tests at another file, and each keeps for all what it has made of one
    (build_tools/installer/testing.py): that is two thirds of the reading, and would else be done by all at once.
    """
    given: dict[str, Any] = getattr(session.config, "workerinput", {})
    if given and session.config.args == session.config.getini("testpaths"):
        files = sorted(str(file) for file in (PROJECT / "tests").rglob("test_*.py"))
        begin = len(files) * int(given["workerid"].removeprefix("gw")) // int(given["workercount"])
        session.config.args = files[begin:] + files[:begin]


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Puts the long files first, and all else in the order of its name, wherever the reading began."""
    if settings.get_current_profile_name() == "fewer":
        with_fewer_examples(items)
    order = {name: place for place, name in enumerate(LONG_FIRST)}
    items.sort(key=lambda item: (order.get(item.path.name, len(order)), item.path))


def pytest_collection_finish() -> None:
    """From here on garbage is looked for."""
    gc.enable()


def with_fewer_examples(items: Iterable[Any]) -> None:
    """Holds a property that asks for more examples to the number of the profile, which it would not follow itself."""
    most = settings.get_profile("fewer").max_examples
    for item in items:
        test: Any = getattr(item, "obj", None)
        own = getattr(test, "_hypothesis_internal_use_settings", None)
        if own is not None and own.max_examples > most:
            test._hypothesis_internal_use_settings = settings(own, max_examples=most)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """
    Says where the time went, and names the Pythons that a run has not tried, so that nobody believes they were.

    pytest's own line comes last.
    """
    if sys.platform == "emscripten":
        return  # the page's own runtime, which knows of no other
    _say_where_time_went(terminalreporter)
    from build_tools.installer import pythons, testing

    terminalreporter.write_sep("=", "Pythons")
    terminalreporter.write_line(f"This run is of Python {'.'.join(map(str, sys.version_info[:3]))}.")
    found = pythons.installed()
    kept = [
        pythons.this_interpreter(),
        *testing.for_clones(pythons.builders()),
        *testing.ends(list(pythons.present().values())),
    ]
    passed_over = [each.version for each in found if each not in kept]
    if passed_over:
        terminalreporter.write_line(f"Here, but tried with --all alone: {', '.join(passed_over)}.")
    if pythons.absent():
        terminalreporter.write_line(f"NOT TRIED, because this machine has none: {', '.join(pythons.absent())}.")


def _say_where_time_went(terminalreporter: pytest.TerminalReporter) -> None:
    seconds: defaultdict[str, float] = defaultdict(float)
    for reports in terminalreporter.stats.values():
        for report in reports:
            if isinstance(report, pytest.TestReport):  # of setting up, of the test, and of clearing away
                seconds[report.nodeid.partition("::")[0]] += report.duration
    total = sum(seconds.values())
    if total < WORTH_A_TABLE_S:
        return
    terminalreporter.write_sep("=", "Where the time went")
    for file, spent in sorted(seconds.items(), key=lambda row: -row[1])[:ROWS_OF_TIME]:
        terminalreporter.write_line(f"{spent:7.1f} s  {file}")
    terminalreporter.write_line(f"{total:7.1f} s  all {len(seconds)} files, in all processes together")


@pytest.fixture(scope="session")
def project() -> Path:
    """The project folder."""
    return PROJECT


def shared(folder: Path, make: Callable[[Path], None]) -> Path:
    """A folder that the first of several test processes makes for all of them; none may change it."""
    from build_tools.environment.locks import lock
    from build_tools.environment.progress import Progress

    run = os.environ.get("PYTEST_XDIST_TESTRUNUID", f"process {os.getpid()}")
    made_by = folder.with_name(f"{folder.name}.run")
    with lock(folder.with_name(f"{folder.name}.lock"), Progress(stream=io.StringIO())):
        if not made_by.is_file() or made_by.read_text("utf-8") != run:
            made_by.unlink(missing_ok=True)
            make(folder)
            made_by.write_text(run, "utf-8")
    return folder


def up_to_date(project: Path) -> None:
    """Makes what a build makes first, unless it is there: several tests copy it, and each would make it for itself."""
    from build_tools.environment import places
    from build_tools.environment.locks import lock
    from build_tools.environment.progress import Progress
    from build_tools.site import made

    with lock(places.cache(project) / "build.lock", Progress(stream=io.StringIO())):
        made.make(project, lambda told: None)


@pytest.fixture(scope="session")
def site_folder(project: Path) -> Path:
    """The site, built once for this run."""
    from build_tools.environment import places

    return shared(places.cache(project) / "tested" / "site", lambda into: build_site(project, into))


def build_site(project: Path, into: Path) -> None:
    """Builds the site into a folder of this run's own, and fails with what the build says."""
    code = (
        "import sys; from pathlib import Path; from build_tools.site.build import build; "
        "from build_tools.environment.progress import Progress; "
        "build(Path(sys.argv[1]), Progress(), into=Path(sys.argv[2]))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, str(project), str(into)],
        cwd=project,
        env={name: value for name, value in os.environ.items() if name != "SOURCE_DATE_EPOCH"},  # a test's own date
        capture_output=True,
        text=True,
        encoding="utf-8",
    )
    assert done.returncode == 0, f"the site does not build:\n{done.stdout}{done.stderr}"


@pytest.fixture(scope="session")
def worker_name(request: pytest.FixtureRequest) -> str:
    """A name for what each of several test processes has for itself."""
    return str(getattr(request.config, "workerinput", {}).get("workerid", "alone"))


@pytest.fixture(scope="session")
def site(site_folder: Path) -> Iterator[str]:
    """The address of the built site, ending in a slash."""
    from build_tools.serving import ports
    from build_tools.serving.site_server import SiteServer

    server = SiteServer(ports.ask_for(0), site_folder)
    server.start()
    yield server.address
    server.stop()


# Machine code as it arrives, and not optimised in the background while it runs: a third of what a visit costs, where a
# few answers are asked. What asks thousands, or measures, takes `optimising_browser`.
AT_ONCE = "--js-flags=--liftoff-only"


@pytest.fixture(scope="session")
def chromium() -> Iterator[Callable[..., Browser]]:
    """Starts Chromium without a window, with further flags if there are any, and ends it with the run."""
    from playwright.sync_api import expect, sync_playwright

    from build_tools.environment import browsers

    program = browsers.find()
    if program is None:
        pytest.fail(browsers.missing())
    expect.set_options(timeout=PAGE_MS)
    with sync_playwright() as playwright:
        started: list[Browser] = []

        def start(*flags: str) -> Browser:
            opened = playwright.chromium.launch(executable_path=program, args=[*browsers.flags(), *flags])
            started.append(opened)
            return opened

        yield start
        for each in started:
            each.close()


@pytest.fixture(scope="session")
def browser(chromium: Callable[..., Browser]) -> Browser:
    """A Chromium that runs WebAssembly without optimising it, see AT_ONCE."""
    return chromium(AT_ONCE)


@pytest.fixture(scope="session")
def optimising_browser(chromium: Callable[..., Browser]) -> Browser:
    """A Chromium that runs WebAssembly as a reader's does; where thousands of answers are asked, it is `browser`."""
    return chromium()


# What the browser says of a reader who pays for what is fetched: the engine comes when something is asked, not before.
PAGE_MS = 60_000  # the longest that a page may take to come to what a test waits for, on a machine that may be busy
SAVES_DATA = "Object.defineProperty(navigator, 'connection', { value: { saveData: true } })"


def new_context(browser: Browser, *, warm: bool = True, **options: Any) -> BrowserContext:
    """
    A fresh browser profile. A page left to itself brings its engine, and then the whole site for reading offline.

    Args:
        browser: Where it is opened.
        warm: Whether the engine is brought before it is asked for; a test that asks nothing does without.
        options: As Playwright has them. The site is kept where `service_workers="allow"` says so, since every new
            profile would bring all of it.
    """
    opened = browser.new_context(**({"service_workers": "block"} | options))
    if not warm:
        opened.add_init_script(SAVES_DATA)
    return opened


@pytest.fixture
def service_workers() -> str:
    """Whether the site is kept for reading offline: "block", or "allow" where a file of tests is about that."""
    return "block"


@pytest.fixture
def warm() -> bool:
    """Whether pages bring their engine, and rehearse it, before it is asked for; tests that are about that say True."""
    return False


@pytest.fixture
def context(browser: Browser, service_workers: str, warm: bool) -> Iterator[BrowserContext]:
    """A fresh browser profile, the size of a laptop's screen."""
    size = {"width": 1440, "height": 900}
    opened = new_context(browser, warm=warm, viewport=size, service_workers=service_workers)
    opened.set_default_timeout(PAGE_MS)
    yield opened
    opened.close()


@pytest.fixture
def page(context: BrowserContext, site: str) -> Iterator[Page]:
    """An empty page. At the end it must have asked no other host for anything, and no script may have failed."""
    opened = context.new_page()
    strangers: list[str] = []
    faults: list[str] = []
    allowed = (site, "data:", "blob:", "about:")
    opened.on("request", lambda request: None if request.url.startswith(allowed) else strangers.append(request.url))
    opened.on("pageerror", lambda error: faults.append(str(error)))
    yield opened
    assert not strangers, f"the page asked other hosts: {strangers}"
    assert not faults, f"a script failed in the page: {faults}"
