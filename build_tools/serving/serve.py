"""The serve command: builds, serves, watches, builds again. Knows the order; does none of it itself."""

import os
import subprocess
import sys
import threading
import time
import webbrowser
from pathlib import Path

from build_tools.environment import children, places
from build_tools.presenting.routes import PREFIX, OnAir
from build_tools.serving import ports
from build_tools.serving.reloading import News
from build_tools.serving.site_server import SiteServer
from build_tools.serving.watching import Watch

FOLDERS = ("docs", "calculators", "build_tools")
FILES = ("mkdocs.yml",)


def serve(project: Path, port: int | None, may_open: bool) -> int:
    """
    Serves the site until Ctrl-C, following every change.

    Args:
        project: The project folder.
        port: The port to serve on, or None for the first free one.
        may_open: Whether to open a browser where there is a desktop.

    Raises:
        Trouble: The port is taken.
    """
    opened = ports.ask_for(port) if port is not None else ports.first_free()
    news = News()
    watch = Watch(project, FOLDERS, FILES)
    on_air = OnAir(project)
    server = SiteServer(opened, project / "site", {**news.routes(), **on_air.routes()}, news.into_page)
    if port is None and opened.getsockname()[1] != ports.FIRST:
        print(f"Port {ports.FIRST} is taken; taking {opened.getsockname()[1]} instead (--port chooses one).")
    try:
        _build(project, news)
        server.start()
        if not (project / "site" / "index.html").is_file():
            print("There is no earlier site to show meanwhile.")
        print(f"Serving  {server.address}  (Ctrl-C ends it)", flush=True)
        on_air_at = f"{server.address.rstrip(chr(47))}{PREFIX}"
        print(f"On air   {on_air_at}desk  (picture: {on_air_at}picture, run sheet: {on_air_at}run)", flush=True)
        if may_open and has_desktop():
            threading.Thread(target=webbrowser.open, args=(server.address,), daemon=True).start()
        while True:
            changed = watch.wait()
            more = f" and {len(changed) - 1} more" if len(changed) > 1 else ""
            print(f"\n{time.strftime('%H:%M:%S')} {changed[0]}{more} changed; building.", flush=True)
            _build(project, news)
    except KeyboardInterrupt:
        print("\nServing has ended.", flush=True)
        return 0
    finally:
        watch.stop()
        if server.closing.is_set() is False:
            _stop(server)


def _stop(server: SiteServer) -> None:
    """Ends the server, started or not."""
    threading.Thread(target=server.stop, daemon=True).start()
    server.closing.wait(1)


def _build(project: Path, news: News) -> None:
    """
    Builds in a process of its own, so that changed Python is read afresh and a crash ends no serving.

    What it prints goes to the terminal as it comes; what it complains of goes to the pages too.
    """
    command = [sys.executable, "-m", "build_tools", "build"]
    variables = os.environ | {places.READY: str(project), "PYTHONUTF8": "1"}
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
    if child.returncode == 0:
        if complaints.strip():
            print(complaints, end="", file=sys.stderr, flush=True)
        news.built()
    else:
        print(complaints.rstrip(), file=sys.stderr, flush=True)
        print("The last good site stays.", flush=True)
        news.failed(complaints.strip() or "The build ended without a word.")


def has_desktop() -> bool:
    """Whether there is a screen to open a browser on."""
    if os.environ.get("CI") or os.environ.get("SSH_CONNECTION"):
        return False
    if sys.platform in ("win32", "darwin"):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))
