"""What a person sees of work that takes a while, on a terminal and in a log."""

from __future__ import annotations

import io
import re
import time

import pytest

from build_tools.environment import progress as module
from build_tools.environment.progress import Progress


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        """Yes."""
        return True


@pytest.fixture(autouse=True)
def fast(monkeypatch: pytest.MonkeyPatch) -> None:
    """Tenths of a second for seconds."""
    monkeypatch.setattr(module, "LIVE_EVERY_S", 0.02)
    monkeypatch.setattr(module, "PLAIN_EVERY_S", 0.05)
    monkeypatch.setattr(module, "SHORT_S", 0.1)


def test_a_terminal_sees_one_line_that_changes() -> None:
    stream = Terminal()
    with Progress(2, stream).step("Fetching") as step:
        time.sleep(0.06)
        step.note = "3 of 7"
        time.sleep(0.06)
    shown = stream.getvalue().split("\r\x1b[K")
    assert shown[1] == "[1/2] Fetching: 0 s"
    assert "[1/2] Fetching: 0 s, 3 of 7" in shown
    assert re.fullmatch(r"\[1/2\] Fetching: done \(\d\.\d s\)\n", shown[-1])


def test_a_log_gets_a_line_at_the_start_now_and_then_and_at_the_end() -> None:
    stream = io.StringIO()
    with Progress(1, stream).step("Fetching"):
        time.sleep(0.12)
    first, *between, last = stream.getvalue().splitlines()
    assert first == "[1/1] Fetching"
    assert between
    assert set(between) == {"[1/1] Fetching: 0 s"}
    assert re.fullmatch(r"\[1/1\] Fetching: done \(\d\.\d s\)", last)


def test_what_takes_no_time_gets_one_line() -> None:
    stream = io.StringIO()
    with Progress(1, stream).step("Looking"):
        pass
    assert stream.getvalue() == "[1/1] Looking\n"


def test_what_fails_is_not_called_done() -> None:
    stream = io.StringIO()
    with pytest.raises(ValueError, match="no"), Progress(1, stream).step("Trying"):
        raise ValueError("no")
    assert stream.getvalue().splitlines()[-1].startswith("[1/1] Trying: not done (")


def test_the_total_may_grow() -> None:
    stream = io.StringIO()
    progress = Progress(0, stream)
    with progress.step("One"):
        pass
    progress.total += 2
    with progress.step("Two"):
        pass
    assert stream.getvalue() == "[1/1] One\n[2/2] Two\n"
