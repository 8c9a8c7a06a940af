"""
What was cut from the machine code and is asked for all the same is answered by the whole of it; what is not what the
build made is not run.
"""

from __future__ import annotations

import base64
import hashlib
import os
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from build_tools.installer.testing import ALL
from tests.browser.conftest import Host
from tests.browser.test_calculator_in_page import PATIENCE_MS, direct, result_html, section

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page

EVERYTHING = bool(os.environ.get(ALL))
FURTHER_CUTS = 10  # from all over the file; an ordinary run tries every third
TRAP = b"\x00\x00\x0b"  # no local variables, unreachable, end: WebAssembly Core Specification, "Binary Format"
CODE = 10
LIVE = "answers/bench/one.html"
ENGINE, SCRIPT = "made/engine/", "made/browser/page.js"
# One for each way in which a file comes and is known: compiled while it comes, by its hash in the script, and by its
# hash in a list. With --all also what comes as the second does, of which one is that list.
ENGINE_FILES = ["lean.wasm", "memory.bin", "memory.rate.bin", *(["worker.js", "bundles.json"] if EVERYTHING else [])]


# Without these there is no snapshot to go on with, and Python starts as it comes.
PLAIN_WITHOUT = ("memory.bin", "memory.rate.bin", "worker.js", "bundles.json")


def leb(data: bytes, at: int) -> tuple[int, int]:
    """An unsigned LEB128 number, and where the next byte stands."""
    value = shift = 0
    while True:
        byte = data[at]
        at += 1
        value |= (byte & 0x7F) << shift
        shift += 7
        if byte < 0x80:
            return value, at


def bodies(wasm: bytes) -> Iterator[tuple[int, int]]:
    """Where each function's body begins and ends."""
    at = 8
    while at < len(wasm):
        kind = wasm[at]
        size, at = leb(wasm, at + 1)
        if kind == CODE:
            count, at = leb(wasm, at)
            for _ in range(count):
                length, at = leb(wasm, at)
                yield at, at + length
                at += length
            return
        at += size
    raise AssertionError("no code")


def with_a_trap(wasm: bytes, start: int, end: int) -> bytes:
    """The file in which one body traps at once; its length stays."""
    return wasm[:start] + b"\x00\x00" + b"\x01" * (end - start - 3) + b"\x0b" + wasm[end:]  # 01: no operation


def integrity(data: bytes) -> str:
    return f"sha256-{base64.b64encode(hashlib.sha256(data).digest()).decode()}"


@pytest.fixture
def open_page(context: BrowserContext, host: Host) -> Callable[[], Page]:
    def go() -> Page:
        page = context.new_page()
        page.goto(host.address + LIVE)
        return page

    return go


def put(host: Host, name: str, data: bytes, known: bool) -> None:
    """Another engine file; `known`: as if the build had made it."""
    before = host.read(ENGINE + name)
    host.put[ENGINE + name] = data
    if known:
        text = host.read(SCRIPT).decode()
        old, new = (f'bytes:{len(each)},integrity:"{integrity(each)}"' for each in (before, data))
        assert text.count(old) == 1
        host.put[SCRIPT] = text.replace(old, new).encode()


def live(page: Page) -> None:
    """A live result, and it is Python's."""
    page.get_by_label("Rate").fill("3600")
    expect(section(page).locator(".wa-headline")).to_contain_text("3600", timeout=4 * PATIENCE_MS)
    assert result_html(page) == direct(page, "memory-rate-1", rate="3600", cas="16")


@pytest.mark.parametrize("number", range(0, FURTHER_CUTS, 1 if EVERYTHING else 3))
def test_a_function_that_was_cut_too_far_is_answered_for_by_the_whole(
    host: Host, open_page: Callable[[], Page], number: int
) -> None:
    wasm = host.read(ENGINE + "lean.wasm")
    left = [(start, end) for start, end in bodies(wasm) if wasm[start:end] != TRAP]
    assert len(left) > 500, "an answer needs some functions"
    start, end = left[(2 * number + 1) * len(left) // (2 * FURTHER_CUTS)]
    put(host, "lean.wasm", with_a_trap(wasm, start, end), known=True)
    live(open_page())


def test_when_it_stops_in_the_middle_the_question_is_asked_again(
    context: BrowserContext, host: Host, open_page: Callable[[], Page]
) -> None:
    # The worker with the cut machine code, which has few names left, stops at its second answer: the first is the
    # proof.
    harm = """{
      let lean = false, answers = 0;
      const post = self.postMessage.bind(self);
      self.addEventListener("message", ({ data }) => {
        if (data.kind === "runtime") lean = WebAssembly.Module.exports(data.wasm).length < 1000;
      });
      self.postMessage = message => {
        const { kind, id } = message;
        const stop = lean && kind === "answer" && ++answers === 2;
        post(stop ? { kind: "stopped", id, detail: "for a test" } : message);
      };
    }"""
    text = host.read(ENGINE + "worker.js")
    put(host, "worker.js", harm.encode() + text, known=True)
    told: list[str] = []
    context.on("console", lambda line: told.append(line.text))
    live(open_page())
    assert any("have stopped (lean)" in line for line in told)


@pytest.mark.parametrize("name", ENGINE_FILES)
def test_a_file_that_is_not_what_the_build_made_is_not_run(
    host: Host, open_page: Callable[[], Page], name: str
) -> None:
    data = bytearray(host.read(ENGINE + name))
    data[len(data) // 2] ^= 1
    put(host, name, bytes(data), known=False)
    live(open_page())  # out of packed/, whose copy is whole


@pytest.mark.parametrize("name", ENGINE_FILES)
def test_nor_is_one_of_another_edition_out_of_packed(host: Host, open_page: Callable[[], Page], name: str) -> None:
    host.missing.add(name)
    other = "memory.bin" if name == "worker.js" else "worker.js"
    script = host.read(f"{ENGINE}packed/{other}.js").replace(f'["{other}"]'.encode(), f'["{name}"]'.encode())
    host.put[f"{ENGINE}packed/{name}.js"] = script
    live(open_page())  # a slower start without that file
    plain = any("python_stdlib.zip" in path for path in host.asked)
    assert plain is (name in PLAIN_WITHOUT), host.asked


def test_an_engine_that_does_not_come_to_the_built_answer_is_thrown_away(
    host: Host, open_page: Callable[[], Page]
) -> None:
    host.put[LIVE] = host.read(LIVE).replace(b'<p class="wa-what">', b'<p class="wa-what"> ', 1)
    assert host.put[LIVE] != (host.folder / LIVE).read_bytes()
    page = open_page()
    page.get_by_label("Rate").fill("3600")
    expect(section(page).locator(".wa-state")).to_contain_text("is broken", timeout=6 * PATIENCE_MS)
    expect(section(page).locator(".wa-headline")).not_to_contain_text("3600")
