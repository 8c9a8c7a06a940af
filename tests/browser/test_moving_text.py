"""Lines that move: only on a press, never against less motion, and in every frame where the stated speed puts them."""

from __future__ import annotations

import io
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import Host
from tests.conftest import new_context

images = pytest.importorskip("PIL.Image")
numpy = pytest.importorskip("numpy")

Visit = Callable[..., Page]
PAGE = "answers/bench/moving.html"
LINES = 4
# In place of the browser's own frames: the test says when a frame is drawn, and for which moment.
FRAMES_BY_HAND = """
(() => {
  let waiting = new Map(), last = 0;
  window.requestAnimationFrame = (call) => (waiting.set(++last, call), last);
  window.cancelAnimationFrame = (id) => waiting.delete(id);
  window.drawFrame = (now) => { const calls = waiting; waiting = new Map(); calls.forEach((call) => call(now)); };
})();
"""
PLACES = """
() => [...document.querySelectorAll(".wa-moving-strip")].map((strip) => ({
  transform: strip.style.transform,
  period: strip.firstElementChild?.getBoundingClientRect().width ?? 0,
}))
"""


BOXES = """
() => [...document.querySelectorAll(".wa-moving-line")].map((line) => {
  const { left, top, right, bottom } = line.getBoundingClientRect();
  if (top < 0 || bottom > innerHeight) throw new Error("a line is not on the screen");
  return [left, top, right, bottom].map(Math.round);
})
"""


def pictures(page: Page) -> list[Any]:
    """Every line as it is drawn, out of one picture of the part of the screen that holds them."""
    boxes = page.evaluate(BOXES)
    x, y = min(box[0] for box in boxes), min(box[1] for box in boxes)
    clip = {"x": x, "y": y, "width": max(box[2] for box in boxes) - x, "height": max(box[3] for box in boxes) - y}
    whole = numpy.asarray(images.open(io.BytesIO(page.screenshot(clip=clip))).convert("RGB"))
    return [whole[top - y : bottom - y, left - x : right - x] for left, top, right, bottom in boxes]


def moved(page: Page) -> list[float]:
    """How far each line has moved, in the page's pixels."""
    found = [each["transform"] for each in page.evaluate(PLACES)]
    return [float(each.removeprefix("translateX(").removesuffix("px)")) if each else 0.0 for each in found]


@pytest.fixture
def by_hand(visit: Visit, context: Any) -> Page:
    context.add_init_script(FRAMES_BY_HAND)
    page = visit(PAGE)
    expect(page.get_by_role("button", name="Move the lines")).to_be_enabled()
    return page


def test_nothing_moves_before_the_press_nor_after_the_second(by_hand: Page) -> None:
    by_hand.evaluate("drawFrame(1000); drawFrame(2000)")
    assert moved(by_hand) == [0.0] * LINES
    by_hand.get_by_role("button", name="Move the lines").click()
    by_hand.evaluate("drawFrame(3000); drawFrame(3500)")
    assert all(moved(by_hand))
    by_hand.get_by_role("button", name="Stop").click()
    by_hand.evaluate("drawFrame(4000)")
    assert moved(by_hand) == [0.0] * LINES


def test_every_frame_stands_where_the_speed_puts_it(by_hand: Page) -> None:
    start = 5000.0
    for speed, rate in ((960, 60), (960, 144), (240, 60), (1920, 60)):
        case = f"{speed} px/s at {rate} Hz"
        by_hand.get_by_label("Speed").select_option(str(speed))
        by_hand.get_by_role("button", name="Move the lines").click()
        by_hand.evaluate("now => drawFrame(now)", start)
        by_hand.evaluate("document.querySelector('.wa-moving-line').scrollIntoView({ block: 'center' })")
        first = pictures(by_hand)
        assert len(first) == LINES
        assert all(len(numpy.unique(each)) > 2 for each in first), f"{case}: a line shows nothing"
        periods = [round(each["period"]) for each in by_hand.evaluate(PLACES)]
        compared = 0
        for frame in range(1, 31):
            by_hand.evaluate("now => drawFrame(now)", start + 1000 * frame / rate)
            gone = int(speed * frame / rate + 0.5)
            assert moved(by_hand) == [-(gone % period) for period in periods], (case, frame)
            shifts = [gone % period for period in periods]
            if frame % 5:  # each place was told; every fifth is looked at, too
                continue
            for at, (before, now) in enumerate(zip(first, pictures(by_hand), strict=True)):
                if shifts[at] >= before.shape[1] - 40:
                    continue
                assert numpy.array_equal(now[:, : before.shape[1] - shifts[at]], before[:, shifts[at] :]), (
                    case, at, frame,
                )  # fmt: skip
                compared += 1
        assert compared >= LINES, case
        by_hand.get_by_role("button", name="Stop").click()


def test_they_stop_by_escape_after_half_a_minute_and_say_how_many_pictures_are_drawn(by_hand: Page) -> None:
    button = by_hand.get_by_role("button", name="Move the lines")
    said = by_hand.locator(".wa-moving-said")
    button.click()
    for frame in range(40):
        by_hand.evaluate("now => drawFrame(now)", 1000 + frame * 1000 / 120)
    expect(said).to_contain_text("about 120 pictures a second")
    expect(said).to_contain_text("about 8 pixels further")
    by_hand.keyboard.press("Escape")
    expect(button).to_be_focused()
    assert moved(by_hand) == [0.0] * LINES
    button.click()
    by_hand.evaluate("drawFrame(1000); drawFrame(30_900)")
    expect(by_hand.get_by_role("button", name="Stop")).to_be_visible()
    by_hand.evaluate("drawFrame(31_100)")
    expect(button).to_be_visible()


def test_in_real_time_each_frame_is_where_its_moment_puts_it(visit: Visit) -> None:
    page = visit(PAGE)
    page.get_by_role("button", name="Move the lines").click()
    seen = page.evaluate(
        """() => new Promise((done) => {
          const seen = [];
          const look = (now) => {
            const strip = document.querySelector(".wa-moving-strip");
            seen.push([now, strip.style.transform, strip.firstElementChild.getBoundingClientRect().width]);
            seen.length < 60 ? requestAnimationFrame(look) : done(seen);
          };
          requestAnimationFrame(look);
        })"""
    )
    told = [(now, -float(place.removeprefix("translateX(").removesuffix("px)")), wide)
            for now, place, wide in seen if place]  # fmt: skip
    assert len(told) > 30
    begun, at_first, _ = told[0]
    for now, stands, period in told:
        due = at_first + 960 * (now - begun) / 1000
        off = (stands - due) % period
        assert min(off, period - off) <= 1.01  # both ends stand on a whole pixel


def test_where_less_motion_is_asked_for_nothing_moves(browser: Browser, host: Host) -> None:
    context = new_context(browser, warm=False, reduced_motion="reduce")
    page = context.new_page()
    page.goto(host.address + PAGE)
    expect(page.get_by_role("button", name="Move the lines")).to_be_disabled()
    expect(page.locator(".wa-moving-said")).to_contain_text("less motion")
    page.emulate_media(reduced_motion="no-preference")
    button = page.get_by_role("button", name="Move the lines")
    expect(button).to_be_enabled()
    button.click()
    expect(page.get_by_role("button", name="Stop")).to_be_visible()
    page.emulate_media(reduced_motion="reduce")
    expect(button).to_be_disabled()
    assert moved(page) == [0.0] * LINES
    context.close()


def test_without_a_script_the_lines_are_there_to_read(browser: Browser, host: Host) -> None:
    context = new_context(browser, java_script_enabled=False)
    page = context.new_page()
    page.goto(host.address + PAGE)
    expect(page.get_by_text("A goose walks home along the wall.")).to_be_visible()
    context.close()
