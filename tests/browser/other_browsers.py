"""
Browsers that Playwright cannot drive as a distribution has them: Firefox by Marionette, WebKitGTK by WebDriver.

Each does the same two things here: goes to an address, and runs a script in the page. No driver is installed for it:
Marionette is Firefox's own side of WebDriver, JSON with its length before it on a socket of this machine.
"""

from __future__ import annotations

import json
import os
import socket
import subprocess
import time
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from build_tools.environment import browsers

if TYPE_CHECKING:
    from playwright.sync_api import BrowserType, Page

STARTS_S = 60  # a browser on a busy machine
SCRIPT_MS = 180_000
# A script's own promise is awaited, and its error comes back as one.
AWAITED = """const done = arguments[arguments.length - 1];
(async () => { SCRIPT })().then(value => done({ value }), error => done({ error: String(error) }));"""
MINI_BROWSER = "*/webkit2gtk-4.*/MiniBrowser"  # what the package of the driver leans on brings it


class Other:
    """A browser: `go` and `run`, and the folder where it saves what is downloaded."""

    def __init__(self, name: str, saved: Path, call: Callable[[str, dict[str, Any]], Any]) -> None:
        self.name, self.saved = name, saved
        self._call = call

    def go(self, address: str) -> None:
        """Open a page and wait until it has loaded."""
        self._call("url", {"url": address})

    def run(self, script: str) -> Any:
        """Run the body of an async function in the page, and return what it returns."""
        told = self._call("execute/async", {"script": AWAITED.replace("SCRIPT", script), "args": []})
        if "error" in told:
            raise AssertionError(f"{self.name}: {told['error']}")
        return told.get("value")


@contextmanager
def chromium(work: Path, browser_type: BrowserType) -> Iterator[Other]:
    """Chromium, its profile in a folder of its own: of one process's tests all share one Playwright."""
    saved = work / "saved"
    # A profile of its own, as a person has one: a fresh context would forget what is kept for offline.
    context = browser_type.launch_persistent_context(
        work / "profile", executable_path=browsers.readers(), args=browsers.flags(), downloads_path=saved
    )
    page = context.new_page()
    yield Other("chromium", saved, lambda command, given: _in_playwright(page, command, given))
    context.close()


@contextmanager
def opened(name: str, work: Path) -> Iterator[Other]:
    """One of `OTHERS`, its profile in a folder of its own."""
    with OTHERS[name](work) as browser:
        yield browser


def _in_playwright(page: Page, command: str, given: dict[str, Any]) -> Any:
    if command == "url":
        return page.goto(given["url"])
    return page.evaluate(f"() => new Promise(resolve => (function () {{ {given['script']} }})(resolve))")


@contextmanager
def _firefox(work: Path) -> Iterator[Other]:
    profile, saved, port = work / "profile", work / "saved", _free_port()
    for folder in (profile, saved):
        folder.mkdir(parents=True)
    settings = {
        "marionette.port": port,
        "browser.download.folderList": 2,  # the folder that follows
        "browser.download.dir": str(saved),
        "app.update.enabled": False,
        "datareporting.policy.dataSubmissionEnabled": False,
    }
    lines = [f"user_pref({json.dumps(key)}, {json.dumps(value)});" for key, value in settings.items()]
    (profile / "user.js").write_text("\n".join(lines), "utf-8")
    program = [browsers.program("firefox-esr"), "--headless", "--marionette", "--no-remote", "--profile", str(profile)]
    quiet = subprocess.DEVNULL
    with subprocess.Popen(program, stdout=quiet, stderr=quiet, env={**os.environ, "HOME": str(work)}) as child:
        try:
            with _connected(port) as connection, connection.makefile("rwb") as stream:
                _read(stream)  # its greeting
                ask = _marionette(stream)
                ask("WebDriver:NewSession", {})
                ask("WebDriver:SetTimeouts", {"script": SCRIPT_MS, "pageLoad": SCRIPT_MS})
                names = {"url": "WebDriver:Navigate", "execute/async": "WebDriver:ExecuteAsyncScript"}
                yield Other("firefox", saved, lambda command, given: (ask(names[command], given) or {}).get("value"))
        finally:
            child.terminate()


def _marionette(stream: Any) -> Callable[[str, dict[str, Any]], Any]:
    count = 0

    def ask(name: str, given: dict[str, Any]) -> Any:
        nonlocal count
        count += 1
        told = json.dumps([0, count, name, given]).encode()
        stream.write(b"%d:%s" % (len(told), told))
        stream.flush()
        _, _, error, result = _read(stream)
        if error:
            raise AssertionError(f"firefox: {error['error']}: {error['message']}")
        return result

    return ask


def _read(stream: Any) -> Any:
    size = b""
    while (byte := stream.read(1)) != b":":
        if not byte:
            raise AssertionError("firefox has ended")
        size += byte
    return json.loads(stream.read(int(size)))


@contextmanager
def _webkit(work: Path) -> Iterator[Other]:
    port, saved = _free_port(), work / "saved"
    saved.mkdir(parents=True)
    (work / "config").mkdir()
    (work / "config" / "user-dirs.dirs").write_text(f'XDG_DOWNLOAD_DIR="{saved}"\n', "utf-8")
    places = {f"XDG_{name.upper()}_HOME": str(work / name) for name in ("config", "data", "cache")}
    with _screen() as screen:
        # Its sandbox does not work for root, who tests in throw-away machines only; there is no graphics card either.
        root = {"WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS": "1"} if os.geteuid() == 0 else {}
        variables = {**os.environ, **places, **root, "HOME": str(work), "DISPLAY": screen, "LIBGL_ALWAYS_SOFTWARE": "1"}
        with subprocess.Popen([browsers.program("WebKitWebDriver"), f"--port={port}"], env=variables) as child:
            try:
                _connected(port).close()
                program = next(each for lib in ("/usr/lib", "/usr/libexec") for each in Path(lib).glob(MINI_BROWSER))
                wanted = {"webkitgtk:browserOptions": {"binary": str(program), "args": ["--automation"]}}
                session = _webdriver(port, "session", {"capabilities": {"alwaysMatch": wanted}})["sessionId"]
                own = f"session/{session}"
                _webdriver(port, f"{own}/timeouts", {"script": SCRIPT_MS, "pageLoad": SCRIPT_MS})
                yield Other("webkit", saved, lambda command, given: _webdriver(port, f"{own}/{command}", given))
                _webdriver(port, own, None)
            finally:
                child.terminate()


def _webdriver(port: int, path: str, given: dict[str, Any] | None) -> Any:
    """W3C WebDriver over HTTP; without anything given, a deletion."""
    body = None if given is None else json.dumps(given).encode()
    headers = {"Content-Type": "application/json"}
    address = f"http://127.0.0.1:{port}/{path}"
    request = urllib.request.Request(address, body, headers, method="DELETE" if body is None else "POST")
    try:
        with urllib.request.urlopen(request, timeout=SCRIPT_MS / 1000 + 30) as reply:
            return json.load(reply)["value"]
    except urllib.error.HTTPError as problem:
        raise AssertionError(f"webkit: {problem.read().decode()}") from None


@contextmanager
def _screen() -> Iterator[str]:
    """A screen that nobody sees, for a browser that needs one."""
    reading, writing = os.pipe()
    program = [browsers.program("Xvfb"), "-displayfd", str(writing), "-screen", "0", "1280x900x24", "-nolisten", "tcp"]
    with subprocess.Popen(program, pass_fds=[writing], stderr=subprocess.DEVNULL) as child:
        os.close(writing)
        try:
            yield f":{os.read(reading, 20).decode().strip()}"
        finally:
            os.close(reading)
            child.terminate()


def _free_port() -> int:
    with socket.socket() as asked:
        asked.bind(("127.0.0.1", 0))
        return int(asked.getsockname()[1])


def _connected(port: int) -> socket.socket:
    until = time.monotonic() + STARTS_S
    while True:
        try:
            return socket.create_connection(("127.0.0.1", port))
        except OSError:
            if time.monotonic() > until:
                raise
            time.sleep(0.1)


OTHERS = {"firefox": _firefox, "webkit": _webkit}
