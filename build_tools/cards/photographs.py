"""
Pictures of cards through one Chromium, however many they are. Knows SVG, pixels and the browser; knows no card.

The browser is asked over two pipes in the DevTools protocol, as JSON texts that each end in a zero byte: neither a
library nor a port is needed. Where a program cannot be handed pipes (Windows), each picture has a browser of its own.
"""

from __future__ import annotations

import base64
import itertools
import json
import os
import select
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from types import TracebackType
from typing import Any

from build_tools.environment import browsers

WAIT_S = 60.0  # for one picture, on a machine that has much else to do
_CHUNK = 1 << 20
_CLEAR = {"color": {"r": 0, "g": 0, "b": 0, "a": 0}}
_PAGE = '<!doctype html><meta charset="utf-8"><body style="margin:0">{}'
# The face stands in the drawing itself, and is there once the page's faces are.
_READY = (
    "document.fonts.ready.then(() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done))))"
)


# Chromium reads from file descriptor 3 and writes to 4, and Python cannot hand over a pipe under another number.
_LAUNCH = (
    "import os, sys; os.dup2(int(sys.argv[1]), 3); os.dup2(int(sys.argv[2]), 4); os.execv(sys.argv[3], sys.argv[3:])"
)
_FREE = 10  # from this number on, a file descriptor is not overwritten by those two


class NoPicture(Exception):
    """The browser made no picture; the text says why."""


class Photographer:
    """One browser, from the first picture on until the end of the `with` block."""

    def __init__(self, browser: Path) -> None:
        """
        Args:
            browser: A Chromium.
        """
        self._browser = browser
        self._pipes: _Pipes | None = None

    def __enter__(self) -> Photographer:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, problem: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self._pipes:
            self._pipes.close()

    def picture(self, svg: str, size: tuple[int, int], transparent: bool = False) -> bytes:
        """
        One drawing as PNG, as viewers' browsers draw it.

        Args:
            svg: The drawing. [text]
            size: Width and height. [px]
            transparent: Leave its background open, with straight alpha.

        Raises:
            NoPicture: The browser did not start, broke off, or took longer than a minute.
        """
        if os.name != "posix":
            return _alone(self._browser, svg, size, transparent)
        if self._pipes is None:
            self._pipes = _Pipes(self._browser)
        return self._pipes.picture(svg, size, transparent)


class _Pipes:
    """A browser and the two pipes to it."""

    def __init__(self, browser: Path) -> None:
        self._numbers = itertools.count(1)
        self._read = b""
        self._session = ""
        self._folder = tempfile.TemporaryDirectory(ignore_cleanup_errors=True)
        theirs_in, self._to = os.pipe()
        self._from, theirs_out = os.pipe()
        theirs = [_out_of_the_way(theirs_in), _out_of_the_way(theirs_out)]
        command = [
            str(browser), "--headless", "--disable-gpu", "--hide-scrollbars", "--remote-debugging-pipe",
            *browsers.flags(), f"--user-data-dir={self._folder.name}/profile",
        ]  # fmt: skip
        self._log = Path(self._folder.name) / "log"
        with self._log.open("wb") as log:
            try:
                self._process = subprocess.Popen(
                    [sys.executable, "-c", _LAUNCH, *map(str, theirs), *command],
                    stdin=subprocess.DEVNULL, stdout=log, stderr=log, pass_fds=theirs,
                )  # fmt: skip
            except OSError as problem:
                raise NoPicture(f"the browser did not start: {problem}") from None
            finally:
                for each in theirs:
                    os.close(each)
        try:
            target = self._ask("Target.createTarget", {"url": "about:blank"})["targetId"]
            self._session = self._ask("Target.attachToTarget", {"targetId": target, "flatten": True})["sessionId"]
        except NoPicture:
            self.close()
            raise

    def picture(self, svg: str, size: tuple[int, int], transparent: bool) -> bytes:
        frame = self._ask("Page.getFrameTree")["frameTree"]["frame"]["id"]
        width, height = size
        self._ask(
            "Emulation.setDeviceMetricsOverride",
            {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": False},
        )
        self._ask("Emulation.setDefaultBackgroundColorOverride", _CLEAR if transparent else {})
        self._ask("Page.setDocumentContent", {"frameId": frame, "html": _PAGE.format(svg)})
        self._ask("Runtime.evaluate", {"expression": _READY, "awaitPromise": True})
        return base64.b64decode(self._ask("Page.captureScreenshot", {"format": "png"})["data"])

    def close(self) -> None:
        os.close(self._to)
        self._process.terminate()
        try:
            self._process.wait(10)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.wait()
        os.close(self._from)
        self._folder.cleanup()

    def _ask(self, method: str, given: dict[str, Any] | None = None) -> dict[str, Any]:
        """One request, and the reply to it; what the browser tells unasked is dropped."""
        number = next(self._numbers)
        wanted = {"id": number, "method": method, "params": given or {}}
        if self._session:
            wanted["sessionId"] = self._session
        text = json.dumps(wanted).encode() + b"\0"
        until = time.monotonic() + WAIT_S
        try:
            while text:  # a drawing is larger than a pipe
                text = text[os.write(self._to, text) :]
        except OSError:
            raise NoPicture(f"the browser broke off: {self._last_words()}") from None
        while True:
            told = json.loads(self._next(until))
            if told.get("id") != number:
                continue
            if "error" in told:
                raise NoPicture(f"the browser refused {method}: {told['error'].get('message')}")
            result: dict[str, Any] = told["result"]
            return result

    def _next(self, until: float) -> bytes:
        parts = self._read.split(b"\0", 1)
        while len(parts) == 1:
            left = until - time.monotonic()
            if left <= 0 or not select.select([self._from], [], [], left)[0]:
                raise NoPicture(f"the browser took longer than {WAIT_S:.0f} s")
            more = os.read(self._from, _CHUNK)
            if not more:
                raise NoPicture(f"the browser broke off: {self._last_words()}")
            parts = (parts[0] + more).split(b"\0", 1)
        self._read = parts[1]
        return parts[0]

    def _last_words(self) -> str:
        said = self._log.read_text("utf-8", "replace").strip().splitlines()
        return said[-1] if said else "it said nothing"


def _out_of_the_way(number: int) -> int:
    import fcntl  # there is none where pipes cannot be handed over

    moved = fcntl.fcntl(number, fcntl.F_DUPFD_CLOEXEC, _FREE)
    os.close(number)
    return moved


def _alone(browser: Path, svg: str, size: tuple[int, int], transparent: bool) -> bytes:
    """One picture by a browser of its own."""
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        page, made = Path(folder) / "card.html", Path(folder) / "card.png"
        page.write_text(_PAGE.format(svg), "utf-8")
        command = [
            str(browser), "--headless", "--disable-gpu", "--hide-scrollbars", *browsers.flags(),
            f"--user-data-dir={folder}/profile", f"--window-size={size[0]},{size[1]}",
            f"--screenshot={made}", *(["--default-background-color=00000000"] if transparent else []),
            page.as_uri(),
        ]  # fmt: skip
        try:
            done = subprocess.run(command, capture_output=True, text=True, timeout=WAIT_S)
        except (OSError, subprocess.TimeoutExpired) as problem:
            raise NoPicture(f"the browser made no picture: {problem}") from None
        if done.returncode or not made.is_file():
            last = (done.stderr.strip().splitlines() or ["it said nothing"])[-1]
            raise NoPicture(f"the browser made no picture: {last}")
        return made.read_bytes()
