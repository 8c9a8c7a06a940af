"""Test pictures in the page and alone on the screen, compared pixel by pixel; a file chosen for a private input."""

from __future__ import annotations

import io
import os
import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect

from build_tools.environment import browsers
from build_tools.installer.testing import ALL
from calculators.colour.test_pictures.patterns import paint
from tests.browser.conftest import Host
from tests.calculators.display.declaration_builder import desk_display
from tests.conftest import new_context

images = pytest.importorskip("PIL.Image")
numpy = pytest.importorskip("numpy")

Visit = Callable[..., Page]
PAGE = "answers/bench/pictures.html"
WINDOW = "900,700"  # holds a picture at every density, and is no larger: at the highest it has nine times the pixels
QUIET_AFTER_MS = 2500  # full_screen.ts
PATIENCE_MS = 60_000  # with the engine, on a machine that does much else


def picture_section(page: Page) -> Locator:
    return page.locator('section.wa-calculator[data-calculator="colour.picture"]')


def declared_section(page: Page) -> Locator:
    return page.locator('section.wa-calculator[data-calculator="display.declared"]')


def painted(key: str, width: int = 640, height: int = 360) -> Any:
    rows = b"".join(paint(key, width, height).rows)
    return numpy.frombuffer(rows, numpy.uint8).reshape(height, width, 3)


def screen(page: Page) -> Any:
    return numpy.asarray(images.open(io.BytesIO(page.screenshot())).convert("RGB"))


def holds(whole: Any, part: Any) -> bool:
    """Whether a picture stands in a screenshot somewhere, every pixel as it is."""
    height, width, _ = part.shape
    first = part[0, :8].tobytes()
    for y in range(whole.shape[0] - height + 1):
        row = whole[y].tobytes()
        at = row.find(first)
        while at >= 0:
            x = at // 3
            inside = at % 3 == 0 and x + width <= whole.shape[1]
            if inside and numpy.array_equal(whole[y : y + height, x : x + width], part):
                return True
            at = row.find(first, at + 1)
    return False


@pytest.fixture(params=[1, 1.25, 1.5, 2, *([1.1, 1.75, 3] if os.environ.get(ALL) else [])])
def dense(request: pytest.FixtureRequest, browser: Browser, host: Host) -> Iterator[Page]:
    """The page on a screen of some density, in earnest: an emulated one rounds places in another way."""
    scale = [f"--force-device-scale-factor={request.param}", f"--window-size={WINDOW}"]
    started = browser.browser_type.launch(executable_path=browsers.find(), args=[*browsers.flags(), *scale])
    context = new_context(started, warm=False, no_viewport=True)
    context.set_default_timeout(60_000)
    page = context.new_page()
    page.clock.install()
    page.goto(host.address + PAGE)
    page.locator("html.wa-pictures").wait_for(state="attached")  # the script that gives pictures their size has come
    yield page
    started.close()


def choose(page: Page, key: str) -> None:
    asks = picture_section(page).locator("details.wa-asks")
    if asks.get_attribute("open") is None:  # on a dense screen the window is as narrow as a tablet's
        asks.locator("> summary").click()
    picture_section(page).locator(f'.wa-preset[data-preset="{key}"]').click()
    expect(picture_section(page).locator(".wa-picture-box")).to_have_attribute("aria-label", re.compile(f"^{key}-"))


def quiet(page: Page) -> Any:
    """The screen once the bar over a picture has gone. News of the full screen, which may be late, brings it back."""
    while True:
        page.clock.fast_forward(QUIET_AFTER_MS)
        page.wait_for_selector(".wa-stage-quiet", state="attached")
        page.evaluate("document.querySelector('.wa-stage img').decode()")
        shown = screen(page)
        if page.locator(".wa-stage-quiet").count():
            return shown


def test_one_image_pixel_is_one_screen_pixel_in_the_page_and_alone_on_its_ground(dense: Page) -> None:
    for key in ("pixels", "near-black"):
        choose(dense, key)
        dense.locator(".wa-picture img").scroll_into_view_if_needed()
        dense.evaluate("document.querySelector('.wa-picture').scrollIntoView({block: 'center', behavior: 'instant'})")
        assert holds(screen(dense), painted(key)), f"{key} is not unscaled in the page"
        dense.get_by_role("button", name="Alone on the screen").click()
        dialog = dense.get_by_role("dialog", name="Picture alone on the screen")
        expect(dialog).to_be_visible()
        shown = quiet(dense)
        wide, high = shown.shape[1], shown.shape[0]
        left, top = (wide - 640) // 2, (high - 360) // 2
        assert numpy.array_equal(shown[top : top + 360, left : left + 640], painted(key)), f"{key} is not unscaled"
        ground = numpy.array(paint(key, 640, 360).ground)
        around = shown.copy()
        around[top : top + 360, left : left + 640] = ground
        assert (around == ground).all(), f"something stands beside {key}"
        dense.keyboard.press("Escape")
        expect(dialog).to_have_count(0)


def test_escape_and_the_button_both_lead_back_to_where_one_was(visit: Visit) -> None:
    page = visit(PAGE)
    button = page.get_by_role("button", name="Alone on the screen")
    dialog = page.get_by_role("dialog", name="Picture alone on the screen")
    button.focus()
    page.keyboard.press("Enter")
    expect(dialog).to_be_visible()
    page.keyboard.press("Escape")
    expect(dialog).to_have_count(0)
    expect(button).to_be_focused()
    page.keyboard.press("Enter")
    page.get_by_role("button", name="Close (Escape)").click()
    expect(dialog).to_have_count(0)
    expect(button).to_be_focused()


def test_the_picture_can_be_made_as_large_as_the_screen(visit: Visit, context: BrowserContext) -> None:
    context.clock.install()
    page = visit(PAGE)
    choose(page, "pixels")
    page.get_by_role("button", name="Alone on the screen").click()
    page.get_by_role("button", name="Fill the screen (1440 × 900)").click()
    expect(page.locator(".wa-stage img")).to_have_attribute("data-width", "1440", timeout=PATIENCE_MS)
    page.wait_for_function("() => document.querySelector('.wa-stage img').naturalWidth === 1440")
    shown = quiet(page)
    assert numpy.array_equal(shown, painted("pixels", 1440, 900))


def test_the_picture_can_be_saved(visit: Visit) -> None:
    page = visit(PAGE)
    choose(page, "greys")
    with page.expect_download() as caught:
        page.get_by_role("button", name="Save greys-640x360.png").click()
    assert caught.value.suggested_filename == "greys-640x360.png"
    saved = images.open(caught.value.path())
    assert numpy.array_equal(numpy.asarray(saved), painted("greys"))


def test_without_scripts_the_picture_is_there_and_no_button_that_does_nothing(browser: Browser, host: Host) -> None:
    context = new_context(browser, warm=False, viewport={"width": 1440, "height": 900}, java_script_enabled=False)
    page = context.new_page()
    page.goto(host.address + PAGE)
    expect(page.locator(".wa-picture img")).to_be_visible()
    expect(page.locator("button.wa-alone")).to_be_hidden()
    context.close()


def test_on_a_phone_the_box_scrolls_and_the_page_does_not(browser: Browser, host: Host) -> None:
    context = new_context(browser, warm=False, viewport={"width": 360, "height": 740}, device_scale_factor=1)
    page = context.new_page()
    page.goto(host.address + PAGE)
    expect(page.locator(".wa-picture img")).to_have_css("width", "640px")
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    context.close()


FILES = {
    "edid": desk_display(),
    "edid.txt": desk_display().hex(" ").encode("ascii"),
    "edid.reg": ('"EDID"=hex:' + desk_display().hex(",")).encode("utf-16"),
}


def test_a_chosen_file_is_read_like_a_pasted_text(visit: Visit) -> None:
    page = visit(PAGE)
    section = declared_section(page)
    headline, chosen = section.locator(".wa-headline"), section.locator("input[type=file]")
    built = headline.inner_text()
    assert "3840 × 2160" not in built
    for name, content in FILES.items():
        chosen.set_input_files({"name": name, "mimeType": "application/octet-stream", "buffer": content})
        expect(headline, name).to_contain_text("3840 × 2160", timeout=PATIENCE_MS)
        section.locator('.wa-preset[data-preset="old"]').click()
        expect(headline, name).not_to_contain_text("3840 × 2160")


def test_a_declaration_never_enters_the_link_or_the_browser_s_memory(visit: Visit) -> None:
    page = visit(PAGE)
    section = declared_section(page)
    section.locator("textarea[name=declaration]").fill(desk_display().hex(" "))
    expect(section.locator(".wa-headline")).to_contain_text("3840 × 2160", timeout=PATIENCE_MS)
    page.evaluate("window.copied = ''; navigator.clipboard.writeText = async text => { window.copied = text }")
    section.get_by_role("button", name="Copy link").click()
    page.wait_for_function("() => window.copied !== ''")
    link = page.evaluate("window.copied")
    section.get_by_role("button", name="Copy as text").click()
    page.wait_for_function("link => window.copied !== link", arg=link)
    kept = page.evaluate("JSON.stringify([history.state, {...localStorage}, {...sessionStorage}, window.copied])")
    for text in (link, kept):
        assert "00 ff ff" not in text
        assert "A0123456789" not in text
