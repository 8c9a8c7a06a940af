"""Many tabs of the served site at once: they share one stream, and where they cannot, hidden ones hold none."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.build_tools.serving.conftest import Served

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext

TWELVE = ["index.html"] * 5 + ["deep/"] * 3 + ["on-air/desk", "on-air/run", "on-air/picture", "on-air/picture"]
CARD = b'{"calculator": "memory.rate", "inputs": {"rate": "3600"}, "frame": 0}'
SEEN = """how => {
  Object.defineProperty(document, "visibilityState", {value: how, configurable: true});
  document.dispatchEvent(new Event("visibilitychange"));
}"""


def streams(served: Served, count: int, seconds: float = 8) -> None:
    """Waits until so many streams are open."""
    ends = time.monotonic() + seconds
    while served.board.listeners != count and time.monotonic() < ends:
        time.sleep(0.02)
    assert served.board.listeners == count


def test_twelve_tabs_share_one_stream_and_all_hear(served: Served, context: BrowserContext) -> None:
    pages = []
    for path in TWELVE:
        page = context.new_page()
        page.goto(served.server.address + path)
        pages.append(page)
    streams(served, 1)
    site = [page for page, path in zip(pages, TWELVE, strict=True) if not path.startswith("on-air")]
    pictures = [page for page, path in zip(pages, TWELVE, strict=True) if path == "on-air/picture"]

    served.news.failed("docs/page.md:3: a dead link")
    for page in site:
        page.get_by_role("alert").filter(has_text="a dead link").wait_for()
    assert b"errors" not in served.post("take", CARD).body
    for page in pictures:
        page.locator("img[alt*='DDR4-3600']").wait_for()

    # the thirteenth, and the desk once more: nothing waits for a connection
    began = time.monotonic()
    for path in ("index.html", "on-air/desk"):
        another = context.new_page()
        another.goto(served.server.address + path)
        pages.append(another)
    assert time.monotonic() - began < 8
    streams(served, 1)

    (served.server.site / "index.html").write_text("<body><p>newer</p></body>", "utf-8")
    served.news.built("")
    for page in site[:5]:
        page.get_by_text("newer").wait_for()
    for page in pages:
        page.close()
    streams(served, 0)


def test_a_page_hears_again_after_one_went_back_to_it(served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    page.goto(served.server.address + "index.html")
    page.goto(served.server.address + "deep/")
    page.go_back()
    streams(served, 1)
    served.news.failed("a fault to hear of")
    page.get_by_role("alert").filter(has_text="a fault to hear of").wait_for()


def test_where_tabs_cannot_share_a_hidden_one_holds_no_stream(served: Served, context: BrowserContext) -> None:
    context.add_init_script("delete globalThis.SharedWorker")
    page = context.new_page()
    page.goto(served.server.address + "index.html")
    streams(served, 1)
    page.evaluate(SEEN, "hidden")
    streams(served, 0)
    served.news.failed("while nobody looked")
    page.evaluate(SEEN, "visible")
    page.get_by_role("alert").filter(has_text="while nobody looked").wait_for()
    streams(served, 1)
    page.goto("about:blank")
    streams(served, 0)


def test_a_picture_that_cannot_share_still_follows(served: Served, context: BrowserContext) -> None:
    context.add_init_script("delete globalThis.SharedWorker")
    picture = context.new_page()
    picture.goto(served.server.address + "on-air/picture")
    streams(served, 1)
    assert b"errors" not in served.post("take", CARD).body
    picture.locator("img[alt*='DDR4-3600']").wait_for()
    assert served.post("clear", b"{}").status == 200
    expect(picture.locator("main")).to_be_empty()
