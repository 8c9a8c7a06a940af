"""The box that reads whole questions, in a browser: labels before results, corrections, pastes, and the same bytes."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from build_tools.questions.index import of_docs
from calculators.asking.door import answer
from tests.browser.conftest import Host
from tests.conftest import new_context

Visit = Callable[..., Page]
PROJECT = Path(__file__).resolve().parents[2]
START_MS = 90_000  # on a machine that may be busy
QUESTION = "got 2x8 gb ddr4 3200 c16, want to add 2x16 gb 3600, good idea?"
SECRET = "7F3A9C21"
LISTING = (
    "Memory Device\n\tSize: 8 GB\n\tType: DDR4\n\tForm Factor: DIMM\n\tSpeed: 3200 MT/s\n"
    f"\tSerial Number: {SECRET}\n\tConfigured Memory Speed: 2133 MT/s\n"
)
PASTE = """
text => {
  const data = new DataTransfer();
  data.setData("text/plain", text);
  const event = new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true });
  document.activeElement.dispatchEvent(event);
}
"""
START = """
async () => {
  const bring = async name => (await fetch(`made/engine/${name}`)).arrayBuffer();
  const unpacked = ({ body }) => new Response(body.pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
  const script = new Blob([await bring("worker.js")], { type: "text/javascript" });
  const worker = new Worker(URL.createObjectURL(script));
  worker.postMessage({ kind: "snapshot", memory: await bring("memory.bin") });
  const wasm = await WebAssembly.compileStreaming(fetch("made/engine/lean.wasm"));
  worker.postMessage({ kind: "runtime", wasm });
  const first = await new Promise(resolve => { worker.onmessage = ({ data }) => resolve(data); });
  if (first.kind !== "ready") throw new Error(JSON.stringify(first));
  worker.postMessage({ kind: "bundle", file: await unpacked(await fetch("made/engine/asking.reader.bin")) });
  window.askAll = async orders => {
    const replies = [];
    for (const [id, inputs] of orders.entries()) {
      replies.push(await new Promise((resolve, reject) => {
        worker.onmessage = ({ data: reply }) => {
          if (reply.kind === "answer") resolve(reply.answer); else reject(new Error(JSON.stringify(reply)));
        };
        worker.postMessage(JSON.stringify({ id, name: "asking.reader", inputs, wanted: "ask", prefix: "" }));
      }));
    }
    return replies;
  };
}
"""


@pytest.fixture(scope="module")
def home(bench_folder: Path, browser: Browser) -> Iterator[Page]:
    """The home page, whose reader has been started once for all questions."""
    host, context = Host(bench_folder), new_context(browser, viewport={"width": 1440, "height": 900})
    told: list[str] = []
    own = (host.address, "data:", "blob:")
    context.on("request", lambda asked: None if asked.url.startswith(own) else told.append(f"asked {asked.url}"))
    context.on("weberror", lambda fault: told.append(str(fault.error)))
    page = context.new_page()
    page.goto(f"{host.address}index.html")
    yield page
    context.close()
    host.close()
    assert told == []


def ask(page: Page, text: str) -> Locator:
    page.locator("main .wa-find textarea").fill(text)
    shown = page.locator(".wa-asked")
    expect(shown.locator(".wa-asked-page").or_(shown.locator(".wa-asked-danger")).first).to_be_visible(timeout=START_MS)
    return shown


def test_a_few_words_fetch_no_reader(visit: Visit) -> None:
    page = visit("index.html")
    page.locator("main .wa-find textarea").fill("memory kit")
    expect(page.locator(".wa-hits a").first).to_be_visible()
    assert page.evaluate("[...document.scripts].filter(script => /asking|questions/.test(script.src)).length") == 0


def test_a_question_starts_the_quick_engine_and_no_other(home: Page) -> None:
    ask(home, QUESTION)
    names = home.evaluate("performance.getEntriesByType('resource').map(({ name }) => new URL(name).pathname)")
    fetched = {name.rpartition("/")[2] for name in names if "/engine/" in name}
    assert fetched == {"worker.js", "lean.wasm", "memory.bin", "bundles.json", "asking.reader.bin"}


def test_labels_result_correction_and_the_page_filled_in(home: Page) -> None:
    shown = ask(home, QUESTION)
    labels = shown.locator(".wa-asked-read li")
    expect(labels).to_have_count(9)
    expect(shown.locator(".wa-asked-headline")).to_contain_text("48 GB")
    order = home.evaluate(
        "[...document.querySelectorAll('.wa-asked-read, .wa-asked-result')].map(each => each.className)"
    )
    assert order == ["wa-asked-read", "wa-asked-result"]  # what it was worked out from comes first
    shown.get_by_role("button", name="Size of one stick: 16 GB. Change it").click()
    entry = shown.locator(".wa-asked-read input")
    expect(entry).to_be_focused()
    entry.fill("32")
    entry.press("Tab")
    expect(shown.locator(".wa-asked-headline")).to_contain_text("80 GB")
    shown.get_by_role("button", name="Throw out: Timings").click()
    expect(labels).to_have_count(8)
    shown.locator(".wa-asked-missing select").first.select_option("4")
    expect(labels).to_have_count(9)
    link = shown.locator(".wa-asked-go a").get_attribute("href") or ""
    base = home.url.removesuffix("index.html")
    assert link.startswith(f"{base}answers/memory/add-bigger-sticks.html#memory.mix:have_generation=ddr4")
    assert "add_size=32" in link
    assert "slots=4" in link
    assert "have_timings" not in link


@pytest.mark.parametrize("at", [".wa-asked-read", ".wa-asked-missing"])
def test_an_answer_that_comes_late_takes_no_open_entry_away(home: Page, at: str) -> None:
    shown = ask(home, QUESTION)
    expect(shown.locator(".wa-asked-read li")).to_have_count(9)
    answered_anew(home, QUESTION)
    if at == ".wa-asked-read":
        shown.get_by_role("button", name="Size of one stick: 16 GB. Change it").click()
    entry = shown.locator(f"{at} input").first
    entry.press_sequentially("1")
    typed = entry.input_value()
    answered_anew(home, QUESTION)
    expect(entry).to_be_focused()
    expect(entry).to_have_value(typed)
    page_before = shown.locator(".wa-asked-go a").get_attribute("href") or ""
    entry.press("Enter")  # now it counts, though the browser saw it put back and not typed
    expect(shown.locator(".wa-asked-go a").or_(shown.locator(".wa-asked-wrong")).first).not_to_have_attribute(
        "href", page_before
    )
    answered_anew(home, "smoke out of my pc")  # leaves nothing open


def answered_anew(page: Page, text: str) -> None:
    """Puts a question into the box as typing does, without going there, until its answer has come."""
    page.evaluate("() => { document.querySelector('.wa-asked > div').firstElementChild.dataset.old = '' }")
    page.locator("main .wa-find textarea").evaluate(
        "(box, text) => { box.value = text; box.dispatchEvent(new Event('input', { bubbles: true })) }", text
    )
    expect(page.locator(".wa-asked > div > [data-old]")).to_have_count(0, timeout=START_MS)


def test_a_danger_comes_first_and_nothing_is_worked(home: Page) -> None:
    shown = ask(home, "there is smoke coming out of my pc at 4k 144 over hdmi 2.0")
    expect(shown.get_by_role("alert")).to_contain_text("Switch the power off")
    expect(shown.locator(".wa-asked-headline")).to_have_count(0)


def test_what_a_system_printed_fills_the_kit_and_its_serials_are_nowhere(home: Page) -> None:
    home.locator("main .wa-find textarea").fill("")
    home.locator("main .wa-find textarea").focus()
    home.evaluate(PASTE, LISTING)
    shown = home.locator(".wa-asked")
    expect(shown.locator(".wa-asked-pasted")).to_contain_text("1 × 8 GB, DDR4, rated 3200 MT/s", timeout=START_MS)
    assert home.locator("main .wa-find textarea").input_value() == ""
    everywhere = home.evaluate(
        "document.documentElement.outerHTML + location.href + JSON.stringify(localStorage) + "
        "JSON.stringify(sessionStorage) + JSON.stringify(history.state) + document.cookie"
    )
    assert SECRET not in everywhere


@pytest.fixture(scope="module")
def reader(bench_folder: Path, browser: Browser) -> Iterator[Page]:
    host = Host(bench_folder)
    page = browser.new_page()
    page.goto(f"{host.address}404.html")
    page.evaluate(START)
    yield page
    page.close()
    host.close()


def test_the_browser_reads_the_bytes_that_python_reads_here(reader: Page) -> None:
    rows = json.loads((PROJECT / "tests/calculators/asking/questions.json").read_text("utf-8"))[::5]
    orders = [{"text": row["text"], "mark": "parity"} for row in rows] + [{"text": LISTING, "mark": "parity"}]
    orders.insert(0, {"text": "", "mark": "parity", "index": of_docs(PROJECT / "docs")})
    texts = [json.dumps(order) for order in orders]
    here = [answer(text) for text in texts]
    assert sum('"headline"' in reply for reply in here) > len(rows) / 2
    there = reader.evaluate("orders => askAll(orders)", texts)
    for order, one, other in zip(orders[1:], here[1:], there[1:], strict=True):
        assert one == other, order["text"]


def test_a_listing_pasted_into_a_form_is_shown_as_labels_and_put_in_by_a_press(visit: Visit) -> None:
    page = visit("answers/bench/one.html")
    place = page.locator(".wa-paste").first
    before = page.locator('[data-input="rate"] input').first.input_value()
    place.locator("summary").click()
    place.locator("textarea").focus()
    page.wait_for_function("() => document.querySelector('.wa-paste').dataset.awake !== undefined")
    page.evaluate(PASTE, LISTING)
    expect(place.locator(".wa-paste-read li").first).to_be_visible(timeout=START_MS)
    assert page.locator('[data-input="rate"] input').first.input_value() == before
    place.locator(".wa-paste-use").click()
    expect(page.locator('[data-input="rate"] input').first).to_have_value("3200")
    cas = page.locator('[data-input="cas"]').first  # not in the listing: what stands there passes for nobody's own
    expect(cas.locator(".wa-not-told")).to_be_visible()
    expect(page.locator('[data-input="rate"] .wa-not-told')).to_have_count(0)
    cas.locator("input").fill("14")
    expect(cas.locator(".wa-not-told")).to_have_count(0)
    assert SECRET not in page.content()
    assert place.locator("textarea").input_value() == ""
