"""
The serve command: builds, serves, watches, builds again. Knows the order; does none of it itself.

Where only pages have changed, they are made first and shown, and the whole build, which also checks them, follows.
"""

import hashlib
import os
import shutil
import subprocess
import sys
import threading
import time
import webbrowser
from pathlib import Path

from build_tools.environment import children, places
from build_tools.serving import ports
from build_tools.serving.board import Board
from build_tools.serving.reloading import News
from build_tools.serving.routes import Extension
from build_tools.serving.site_server import SiteServer
from build_tools.serving.watching import Watch

FOLDERS = ("docs", "calculators", "build_tools")
FILES = ("mkdocs.yml",)
MOST_PAGES = 20  # more at once is no writing: a branch was changed, say


def serve(project: Path, port: int | None, may_open: bool, board: Board, beside: Extension) -> int:
    """
    Serves the site until Ctrl-C, following every change.

    What is served beside the site is there before anything is built: it may be on air.

    Args:
        project: The project folder.
        port: The port to serve on, or None for the first free one.
        may_open: Whether to open a browser where there is a desktop.
        board: Carries to every open page what has changed.
        beside: What is served beside the site.

    Raises:
        Trouble: The port is taken.
    """
    opened = ports.ask_for(port) if port is not None else ports.first_free()
    news = News(board)
    ahead = places.cache(project) / "ahead"
    shutil.rmtree(ahead, ignore_errors=True)
    routes = {**news.routes(), **beside.routes}
    server = SiteServer(opened, project / "site", routes, lambda page: beside.into_page(news.into_page(page)), ahead)
    watch: Watch | None = None
    try:
        server.start()
        if port is None and opened.getsockname()[1] != ports.FIRST:
            print(f"Port {ports.FIRST} is taken; taking {opened.getsockname()[1]} instead (--port chooses one).")
        if line := beside.announcement(server.address):
            print(line, flush=True)
        watch = Watch(project, FOLDERS, FILES)
        _build(project, news, ahead)
        if not (project / "site" / "index.html").is_file():
            print("There is no earlier site to show meanwhile.")
        print(f"Serving  {server.address}  (Ctrl-C ends it)", flush=True)
        if may_open and has_desktop():
            threading.Thread(target=webbrowser.open, args=(server.address,), daemon=True).start()
        while True:
            changed = watch.wait()
            more = f" and {len(changed) - 1} more" if len(changed) > 1 else ""
            print(f"\n{time.strftime('%H:%M:%S')} {changed[0]}{more} changed; building.", flush=True)
            _build_pages(project, changed, news, ahead)
            _build(project, news, ahead)
    except KeyboardInterrupt:
        print("\nServing has ended.", flush=True)
        return 0
    finally:
        if watch:
            watch.stop()
        shutil.rmtree(ahead, ignore_errors=True)
        server.stop()
        beside.close()


def _build_pages(project: Path, changed: list[str], news: News, ahead: Path) -> None:
    """
    Makes the changed pages alone and shows them, where nothing else has changed and there is a site to show them in.

    What is wrong with them is told by the whole build.
    """
    pages = [name.removeprefix("docs/") for name in changed]
    known = all(name.endswith(".md") and (project / "docs" / name).is_file() for name in pages)
    if not known or len(pages) > MOST_PAGES or not (project / "site" / "index.html").is_file():
        return
    command = [sys.executable, "-m", "build_tools.site.one_page", str(ahead), *pages]
    if _run(project, command)[0] == 0:
        news.built(_assets(project))


def _build(project: Path, news: News, ahead: Path) -> None:
    """Builds the whole site. What it prints goes to the terminal as it comes; its complaints go to the pages too."""
    status, complaints = _run(project, [sys.executable, "-m", "build_tools", "build"])
    shutil.rmtree(ahead, ignore_errors=True)
    if status == 0:
        if complaints.strip():
            print(complaints, end="", file=sys.stderr, flush=True)
        news.built(_assets(project))
    else:
        print(complaints.rstrip(), file=sys.stderr, flush=True)
        print("The last good site stays.", flush=True)
        news.failed(complaints.strip() or "The build ended without a word.")


def _run(project: Path, command: list[str]) -> tuple[int, str]:
    """Runs in a process of its own, which ends with us: changed Python is read afresh, and a crash ends no serving."""
    variables = os.environ | {places.READY: str(project), "PYTHONUTF8": "1", children.PARENT: str(os.getpid())}
    with subprocess.Popen(
        command, cwd=project, env=variables, stdin=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True,
        encoding="utf-8", errors="replace", start_new_session=os.name == "posix",
    ) as child:  # fmt: skip
        assert child.stderr is not None
        try:
            complaints = child.stderr.read()
            child.wait()
        except BaseException:
            children.end(child)
            raise
    return child.returncode, complaints


def _assets(project: Path) -> str:
    """A mark of the files that pages use: where it is the same, a page looks different only if its own text does."""
    folders = [project / "docs" / name for name in ("made", "images")]
    files = sorted(path for folder in folders if folder.is_dir() for path in folder.rglob("*") if path.is_file())
    states = [f"{path} {path.stat().st_size} {path.stat().st_mtime_ns}" for path in files]
    return hashlib.sha256("\n".join(states).encode()).hexdigest()[:16]


def has_desktop() -> bool:
    """Whether there is a screen to open a browser on."""
    if os.environ.get("CI") or os.environ.get("SSH_CONNECTION"):
        return False
    if sys.platform in ("win32", "darwin"):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))
