"""
Arriving slowly: 4 Mb/s, 100 ms there and back, a processor four times slower.

The page can be read at once, typing waits for nothing, and what it says of the engine on its way is what travels.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from playwright.sync_api import expect

from tests.conftest import new_context

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Route

BYTES_A_SECOND, ROUND_TRIP_MS, SLOWER = 4_000_000 / 8, 100, 4
PAGE = "answers/memory/kit-numbers.html"
READABLE_KB = 260  # what comes before the first text: 0.5 s at 4 Mb/s
ARRIVES_MS = 120_000  # as long as the page itself waits for its engine
SAID = re.compile(r"on its way, this first time: ([\d.]+)(?: of ([\d.]+) MB| MB so far)")
NEARLY_MB = 0.8  # what is still to come when the processor is slow again: more than the page tells at once
NEAR = 0.1  # headers travel too, and 0.1 MB is the last digit said


def test_a_page_is_read_while_its_engine_comes_and_says_what_travels(browser: Browser, site: str) -> None:
    context = new_context(browser, viewport={"width": 390, "height": 844}, is_mobile=True, has_touch=True)
    page = context.new_page()
    chrome = context.new_cdp_session(page)
    chrome.send("Network.enable")
    chrome.send("Network.emulateNetworkConditions", {
        "offline": False, "latency": ROUND_TRIP_MS, "downloadThroughput": BYTES_A_SECOND,
        "uploadThroughput": BYTES_A_SECOND,
    })  # fmt: skip

    def slower(times: float) -> None:
        chrome.send("Emulation.setCPUThrottlingRate", {"rate": times})

    slower(SLOWER)
    names: dict[str, str] = {}
    travelled: dict[str, float] = {}

    def answered(told: dict[str, Any]) -> None:
        names[told["requestId"]] = told["response"]["url"]

    def ended(told: dict[str, Any]) -> None:
        travelled[names.get(told["requestId"], "")] = told["encodedDataLength"]

    chrome.on("Network.responseReceived", answered)
    chrome.on("Network.loadingFinished", ended)
    page.goto(site + PAGE, wait_until="domcontentloaded")
    # read at once: the answer of the example is in the page, and no engine was needed for it
    expect(page.locator(".wa-headline").first).to_contain_text("waits 10")
    assert page.locator(".wa-short-answer").is_visible()
    assert sum(size for name, size in travelled.items() if "/engine/" not in name) < READABLE_KB * 1000
    page.locator("html.wa-awake").wait_for(state="attached")
    page.locator("summary.wa-open-form").first.tap()
    rate = page.get_by_label("Rate").first
    rate.fill("3600")
    state = page.locator(".wa-calculator").first.locator(".wa-state")
    expect(state).to_contain_text(re.compile("is starting|on its way"))
    # A processor is made slower by keeping it busy. It is slow whenever the page has something to do: until here, and
    # from the moment on when nearly all has come; while there is nothing but bytes to wait for it would be for nothing.
    slower(1)
    slow = False
    said: list[tuple[float, float | None]] = []
    headline = page.locator(".wa-headline").first
    for _ in range(ARRIVES_MS // 250):
        if "3600" in (headline.text_content() or ""):
            break
        found = SAID.search(state.text_content() or "")
        now = (float(found[1]), float(found[2]) if found[2] else None) if found else None
        if not slow and now and now[1] and now[1] - now[0] < NEARLY_MB:
            slower(SLOWER)
            slow = True
        if now and now not in said[-1:]:
            said.append(now)
        page.wait_for_timeout(250)
    expect(headline).to_contain_text("3600")
    assert slow, "the engine has started on a processor that was not slow"
    assert rate.input_value() == "3600"
    expect(state).to_be_empty()
    assert len(said) >= 2, said
    assert [come for come, _ in said] == sorted(come for come, _ in said), "what has come never becomes less"
    told = [(come, whole) for come, whole in said if whole is not None]
    assert told
    assert all(come < whole for come, whole in told), "what has arrived is not said to be on its way"
    engine = sum(size for name, size in travelled.items() if "/engine/" in name) / 1e6
    assert abs(told[-1][1] - engine) <= max(NEAR, NEAR * engine), (said, engine)
    print(f"\nengine {engine:.2f} MB; said {said}")
    context.close()


def test_a_file_that_is_not_what_the_build_made_is_not_used(browser: Browser, site: str) -> None:
    context = new_context(browser)
    page = context.new_page()
    spoilt: list[str] = []

    def spoil(route: Route) -> None:
        body = bytearray(route.fetch().body())
        body[len(body) // 2] ^= 1
        spoilt.append(route.request.url)
        route.fulfill(body=bytes(body), headers={"content-type": "application/octet-stream"})

    page.route("**/engine/memory.bin*", spoil)
    page.goto(site + PAGE)
    page.locator("html.wa-awake").wait_for(state="attached")
    page.get_by_label("Rate").first.fill("3600")
    expect(page.locator(".wa-headline").first).to_contain_text("3600", timeout=ARRIVES_MS)
    assert spoilt
    assert page.locator("script[src*=packed]").count() == 0  # it came in its script, which is taken away again
    context.close()
