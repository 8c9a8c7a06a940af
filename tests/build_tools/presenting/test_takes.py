"""Takes and their marks: begun with a frame and a beep, thrown away and brought back."""

from __future__ import annotations

import json

import pytest
from playwright.sync_api import expect

from build_tools.presenting import routes
from tests.build_tools.presenting.small_home import marked

# What a page shows as a sync frame, with the browser's own clock, and which tones it plays.
WATCH_SYNC = """
window.syncs = [];
new MutationObserver((changes) => {
    const isFrame = (node) => node.className === "sync";
    for (const { addedNodes, removedNodes } of changes) {
        for (const node of [...addedNodes].filter(isFrame)) syncs.push({ at: Date.now(), text: node.textContent });
        for (const node of [...removedNodes].filter(isFrame)) syncs.at(-1).gone = Date.now();
    }
}).observe(document, { childList: true, subtree: true });
"""
LISTEN_TO_TONES = """
window.tones = [];
const source = AudioScheduledSourceNode.prototype, { start, stop } = source;
const ramp = AudioParam.prototype.linearRampToValueAtTime;
let loudest = 0;
AudioParam.prototype.linearRampToValueAtTime = function (value, at) {
    loudest = Math.max(loudest, value);
    return ramp.call(this, value, at);
};
source.start = function (at) {
    const starts = Date.now() + (at - this.context.currentTime) * 1000;
    tones.push({ starts, begins: at, hertz: this.frequency.value, loudest });
    return start.call(this, at);
};
source.stop = function (at) {
    tones.at(-1).lasts = at - tones.at(-1).begins;
    return stop.call(this, at);
};
"""


def test_a_third_press_of_r_begins_the_next_take_before_the_server_has_answered(server, on_air, context):
    page = context.new_page()
    page.goto(server.address + "on-air/run/1")
    page.locator("#sync").uncheck()
    page.locator(".segment[aria-current]").wait_for()
    page.keyboard.press("r")
    expect(page.locator("#state")).to_contain_text("take 1")
    page.route("**/on-air/end", lambda route: (page.wait_for_timeout(700), route.continue_()))
    for _ in range(3):
        page.keyboard.press("r")
    expect(page.locator("#asks")).to_be_hidden()
    expect(page.locator("#state")).to_contain_text("take 2")
    takes = on_air._takes.all(1)
    assert [take["ended"] is None for take in takes] == [False, True]
    assert takes[0]["ended"] <= takes[1]["marks"][0][1], "the second began before the first had ended"


def test_a_take_begins_with_one_still_frame_and_one_beep(server, home, context, monkeypatch):
    """The frame stands on every page at the moment that the takes' file holds; the beep is quiet and short."""
    # Each in a window of its own: a page behind another draws nothing.
    page, picture = context.new_page(), context.browser.new_context().new_page()
    page.add_init_script(LISTEN_TO_TONES)
    for each in (page, picture):
        each.add_init_script(WATCH_SYNC)
    picture.goto(server.address + "on-air/picture")
    page.goto(server.address + "on-air/run")
    page.locator(".segment[aria-current]").wait_for()
    page.keyboard.press("r")
    for each in (page, picture):
        each.wait_for_function("() => window.syncs.some((each) => each.gone)")
    [take] = json.loads((home / ".presenter/takes/001.json").read_text("utf-8"))["takes"]
    assert dict(take["marks"])[0] == take["sync"]
    for each in (page, picture):
        [shown] = each.evaluate("window.syncs")
        assert -0.001 <= shown["at"] / 1000 - take["sync"] < 1  # the browser's clock counts milliseconds
        assert 0.4 < (shown["gone"] - shown["at"]) / 1000 < 2
        assert shown["text"].startswith("Episode 1Take 1")
    picture.context.close()
    assert f"{int(take['sync'] % 1 * 100):02}  20" in shown["text"], "the clock to a hundredth, then the day"
    [tone] = page.evaluate("window.tones")
    assert abs(tone["starts"] / 1000 - take["sync"]) < 0.25  # the sound card's own delay is not known here
    assert (tone["hertz"], round(tone["lasts"], 3)) == (1000, 0.1)
    assert tone["loudest"] == pytest.approx(0.1)  # 20 dB below full scale
    assert page.locator(".sync").count() == 0
    # WCAG 2.2, 2.3.1: no more than three flashes in a second. Ours is one, and the next comes seconds later.
    assert routes.SYNC_EVERY_S > 1
    monkeypatch.setattr(routes, "SYNC_EVERY_S", 600)
    for key in "rr":
        page.keyboard.press(key)
    expect(page.locator("#state")).to_have_text("Not recording")
    page.keyboard.press("r")
    page.locator("#state", has_text="take 2").wait_for()
    takes = json.loads((home / ".presenter/takes/001.json").read_text("utf-8"))["takes"]
    assert [each["sync"] is None for each in takes] == [False, True]
    assert len(page.evaluate("window.syncs")) == len(page.evaluate("window.tones")) == 1
    # What the editor reads off the recording moves every mark.
    page.locator("#of-take").select_option("1")
    expect(page.locator("#sync-at")).to_have_value("0:00")
    page.locator("#sync-at").fill("0:07")
    page.locator("#sync-at").press("Tab")
    expect(page.locator("#sync-at")).to_have_value("0:07")
    page.wait_for_timeout(300)
    assert marked(home)[0] == pytest.approx(take["sync"] - 7)


def test_a_frame_that_would_tell_another_moment_is_not_shown(server, context, monkeypatch):
    monkeypatch.setattr(routes, "SYNC_LEAD_S", -0.5)  # as where the server's word has come too late
    page = context.new_page()
    page.add_init_script(WATCH_SYNC)
    page.goto(server.address + "on-air/run")
    page.locator(".segment[aria-current]").wait_for()
    page.keyboard.press("r")
    expect(page.locator("#wrong")).to_contain_text("came too late")
    assert page.evaluate("window.syncs") == []


def test_frame_and_beep_can_be_left_out_and_stay_so(server, home, context):
    page = context.new_page()
    page.add_init_script(LISTEN_TO_TONES)
    page.goto(server.address + "on-air/run")
    page.locator(".segment[aria-current]").wait_for()
    page.locator("#sync").uncheck()
    expect(page.locator("#beep")).to_be_hidden()
    page.reload()
    page.locator(".segment[aria-current]").wait_for()
    expect(page.locator("#sync")).not_to_be_checked()
    page.keyboard.press("r")
    page.locator("#state", has_text="Recording since").wait_for()
    assert json.loads((home / ".presenter/takes/001.json").read_text("utf-8"))["takes"][0]["sync"] is None
    assert page.evaluate("window.tones") == []


def test_a_browser_that_keeps_nothing_and_makes_no_sound_keeps_no_take_from_beginning(server, home, context):
    page = context.new_page()
    page.add_init_script("""
        delete window.AudioContext;
        Object.defineProperty(window, "localStorage", { get() { throw new Error("forbidden"); } });
    """)
    page.goto(server.address + "on-air/run")
    page.locator(".segment[aria-current]").wait_for()
    page.keyboard.press("r")
    page.locator("#state", has_text="Recording since").wait_for()
    assert marked(home).keys() == {0}


def test_a_take_thrown_away_comes_back(server, home, context):
    page = context.new_page()
    page.goto(server.address + "on-air/run")
    page.locator(".segment[aria-current]").wait_for()
    for key in "rm":
        page.keyboard.press(key)
    page.locator(".segment[aria-current] .facts", has_text="marked").wait_for()
    before = marked(home)
    page.locator("#throw-away").click()
    page.get_by_role("button", name="Throw it away").click()
    expect(page.locator("#state")).to_have_text("Not recording")
    page.locator("h1").click()
    page.keyboard.press("r")
    page.locator("#state", has_text="take 2").wait_for()  # the number of one that may come back is not given again
    page.reload()
    page.get_by_role("button", name="Bring take 1 back").click()
    expect(page.locator("#of-take option")).to_have_count(2)
    assert marked(home) == before
    expect(page.locator("#state")).to_contain_text("take 2")
    expect(page.locator("#thrown")).to_be_hidden()
    kept = json.loads((home / ".presenter/takes/001.json").read_text("utf-8"))
    assert kept["takes"][0]["ended"] == max(before.values()), "nobody has recorded it since"
