"""
The commands: serve, build, test, bench, the presenter's and more. Knows what each needs; other rooms do the work.

Read by the bare Python that starts a command: whatever needs an installed package is imported only after
the command has become the project's own environment.
"""

import argparse
import os
import signal
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path
from types import FrameType

from build_tools import presenter_commands
from build_tools.environment import children, places, swapping
from build_tools.environment.progress import Progress
from build_tools.environment.trouble import Trouble
from build_tools.installer import error_messages, locking, node_packages, ready, uv

PURPOSES: dict[str, ready.Purpose] = {
    "serve": "site",
    "build": "site",
    "test": "tests",
    "parity": "tests",
    "browsers": "tests",
    "bench": "tests",
    "runtime": "site",
    "lock": "locking",
}
STOPPED = "Stopped. The same command goes on from here."


def main(arguments: Sequence[str]) -> int:
    """Runs one command and returns its exit status: 0 done, 1 trouble, 2 wrong use, 130 stopped by Ctrl-C."""
    options, rest = _parser().parse_known_args(arguments)
    if rest and options.command != "test":
        _parser().error(f"unknown: {' '.join(rest)}")
    options.rest = [argument for argument in rest if argument != "--"]
    signal.signal(signal.SIGTERM, _as_interrupt)
    try:
        return _run(options, list(arguments))
    except Trouble as trouble:
        return _end(str(trouble), 1)
    except KeyboardInterrupt:
        return _end(STOPPED, 130)
    except ModuleNotFoundError as error:
        if (error.name or "").partition(".")[0] in ("build_tools", "calculators"):
            raise
        ready.spoil(places.PROJECT)
        return _end(f"The environment has lost {error.name}: run the same command again to mend it.", 1)
    except MemoryError:
        return _end("There is not enough memory for this: close other programs, and run the same command again.", 1)
    except OSError as error:
        if error.errno is None or isinstance(error, FileNotFoundError):
            raise
        return _end(error_messages.of_error(error, places.PROJECT), 1)


def _run(options: argparse.Namespace, arguments: list[str]) -> int:
    project = places.PROJECT
    os.chdir(project)
    swapping.mend(project)
    if options.command == "ask" and not options.file:
        return _ask(project, options.measure)  # needs nothing installed
    is_ready = os.environ.pop(places.READY, "") == str(project)
    if options.command == "serve" and options.port is not None and not is_ready:
        from build_tools.serving.ports import ask_for

        ask_for(options.port).close()  # a port that is taken is reported before a minute of installing
    if not (is_ready and Path(sys.prefix).resolve() == places.environment(project).resolve()):
        python = ready.make_ready(project, PURPOSES.get(options.command, "site"), Progress())
        return _become(python, project, arguments)

    children.end_with_parent()
    if options.command == "serve":
        return _serve(project, options)
    if options.command == "ask":
        from build_tools.post.command import run

        return run(project, options.file, options.episode, options.pick)
    if options.command == "build":
        from build_tools.site.build import build

        build(project, Progress(), options.generator)
        return 0
    if options.command == "test":
        from build_tools.installer.testing import HARD, test

        if options.hard:
            os.environ[HARD] = "1"
        return test(project, options.rest or (["tests/hard", "-q"] if options.hard else []), options.all)
    if options.command == "parity":
        from build_tools.installer.testing import PARITY, test

        os.environ[PARITY] = str(options.count)
        return test(project, ["tests/browser/test_parity.py", "-q"], everything=False)
    if options.command == "browsers":
        return _browsers(project)
    if options.command == "bench":
        from build_tools.bench.command import bench

        return bench(project, options.runs, options.builds, options.calculators)
    if options.command == "runtime":
        from build_tools.engine.other_release import try_release
        from build_tools.site import made

        made.make(project, print)
        print("\n".join(try_release(project, options.version)))
        return 0
    if options.command in presenter_commands.NAMES:
        return presenter_commands.run(project, options)
    return _lock(project)


def _serve(project: Path, options: argparse.Namespace) -> int:
    """Serves the site with the pages of presenter and post. They are joined here: serving imports neither room."""
    from build_tools.post.routes import PostRoutes
    from build_tools.presenting.routes import OnAir
    from build_tools.serving.board import Board
    from build_tools.serving.routes import Extension
    from build_tools.serving.serve import serve

    board = Board()
    on_air = OnAir(project, board)
    if options.prompter:
        on_air.show_elsewhere()
    post = PostRoutes(project)
    routes = {**on_air.routes(), **post.routes()}
    beside = Extension(
        routes, on_air.into_page, lambda at: f"{on_air.announcement(at)}\n{post.announcement(at)}", on_air.close
    )
    return serve(project, options.port, not options.no_browser, board, beside)


def _ask(project: Path, measure: bool) -> int:
    if measure:
        from build_tools.questions.measure import write

        print(f"Measured: {write().relative_to(project)}")
        return 0
    from build_tools.questions.lines import answer_lines

    for stream in (sys.stdin, sys.stdout):
        stream.reconfigure(encoding="utf-8", errors="replace")  # type: ignore[union-attr]
    try:
        return answer_lines(project / "docs", sys.stdin, sys.stdout)
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # the program that read the answers has ended
        return 0


def _browsers(project: Path) -> int:
    from build_tools.environment.browsers import install_others
    from build_tools.installer.testing import OTHER_BROWSERS, test

    if missing := install_others(project, Progress()):
        raise Trouble(f"This needs {', '.join(missing)}: run  sudo apt install {' '.join(missing)}  and try again.")
    os.environ[OTHER_BROWSERS] = "1"
    return test(project, ["tests/browser/test_other_browsers.py", "-v", "--durations=0"], everything=False)


def _lock(project: Path) -> int:
    progress = Progress(2)
    uv.install(project, progress)
    node_packages.relock(project, progress)
    with progress.step("Locking the Python packages"):
        text = locking.lock(project, lambda arguments: uv.run_by_the_index(project, arguments))
        (project / locking.FILE).write_text(text, "utf-8")
    return 0


def _become(python: Path, project: Path, arguments: list[str]) -> int:
    """Starts the same command in the environment. Where the system can, this process becomes that one."""
    command = [str(python), "-m", "build_tools", *arguments]
    variables = os.environ | {places.READY: str(project)}
    sys.stdout.flush()
    sys.stderr.flush()
    if os.name == "posix":
        os.execve(python, command, variables)
    with subprocess.Popen(command, env=variables) as child:
        while True:
            try:
                return child.wait()
            except KeyboardInterrupt:
                pass  # the child has heard it too, and says the last word


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python3 -m build_tools",
        description="Builds, serves and tests the answers. Each command first installs what it needs.",
    )
    commands = parser.add_subparsers(dest="command", required=True, metavar="command")
    serve = commands.add_parser("serve", help="build, show in a browser, and follow every change")
    serve.add_argument("--port", type=_port, help="the port to serve on (otherwise the first free one from 8321)")
    serve.add_argument(
        "--prompter", action="store_true", help="show the prompter to other devices in this room too, behind a code"
    )
    serve.add_argument("--no-browser", action="store_true", help="print the address and open nothing")
    build = commands.add_parser("build", help="write site/")
    build.add_argument(
        "--generator", choices=("mkdocs", "zensical"), default="mkdocs", help="which program makes the pages"
    )
    test = commands.add_parser(
        "test", help="run every check and test; what follows goes to pytest", add_help=False, allow_abbrev=False
    )
    test.add_argument("--all", action="store_true", help="try every Python of this machine, and the long comparisons")
    test.add_argument(
        "--hard", action="store_true", help="kills, crowds, a full disk and the like, often; with a table"
    )
    parity = commands.add_parser("parity", help="compare the page's engine with this Python, byte for byte")
    parity.add_argument("--count", type=_positive, default=10_000, help="random inputs a calculator (10000)")
    commands.add_parser("browsers", help="try a page in Firefox and WebKit beside Chromium")
    bench = commands.add_parser("bench", help="measure pages in Chromium, and builds, each beside the plain way")
    often = "how often each thing is measured (5); first live results three times as often"
    bench.add_argument("--runs", type=_positive, default=5, help=often)
    bench.add_argument(
        "--builds", type=_counts, default=(20, 200, 1000, 3000), help="answers to build, such as 20,200; 0 for none"
    )
    bench.add_argument(
        "--calculators", type=_counts, default=(100, 400), help="calculators in a site, such as 100,400; 0 for none"
    )
    runtime = commands.add_parser("runtime", help="try another release of the browser's Python, in a folder of its own")
    runtime.add_argument("version", help="as the registry names it, such as 314.0.6")
    ask = commands.add_parser("ask", help="read questions in viewers' own words")
    how = ask.add_mutually_exclusive_group(required=True)
    how.add_argument("--lines", action="store_true", help='{"text": …} a line in, {"answers": […]} a line out')
    how.add_argument("--measure", action="store_true", help="after changing a calculator: which inputs decide most")
    how.add_argument("file", nargs="?", help="comments: one a block, or a table with a column 'comment'; - for stdin")
    ask.add_argument("--episode", default="", metavar="TITLE", help="make a sheet of the picked questions")
    ask.add_argument("--pick", default="", metavar="NUMBERS", help="which of the printed questions, such as 1,3,4")
    presenter_commands.add_to(commands)
    commands.add_parser("lock", help="after changing a dependency: write requirements.lock and package-lock.json")
    return parser


def _port(text: str) -> int:
    if not text.isascii() or not text.isdigit() or not 1 <= int(text) <= 65535:
        raise argparse.ArgumentTypeError(f"a port is a whole number from 1 to 65535, got {text}")
    return int(text)


def _positive(text: str) -> int:
    if not text.isascii() or not text.isdigit() or int(text) < 1:
        raise argparse.ArgumentTypeError(f"a whole number from 1 on, got {text}")
    return int(text)


def _counts(text: str) -> tuple[int, ...]:
    return () if text == "0" else tuple(_positive(part) for part in text.split(","))


def _as_interrupt(number: int, frame: FrameType | None) -> None:
    raise KeyboardInterrupt


def _end(sentence: str, status: int) -> int:
    sys.stdout.flush()
    print(sentence, file=sys.stderr, flush=True)
    return status
