"""The desk: driven as a presenter would, in a real browser, against the real relay."""

from __future__ import annotations

import json
import os
import re

import pytest
from playwright.sync_api import expect

from build_tools.presenting import answers
from build_tools.presenting.routes import OnAir
from build_tools.presenting.scripts import Scripts
from build_tools.serving import ports
from build_tools.serving.site_server import SiteServer


def test_a_desk_whose_server_has_gone_says_so_and_its_keys_do_nothing(home, site_folder, context):
    first = OnAir(home, site=site_folder)
    server = SiteServer(ports.ask_for(0), site_folder, first.routes())
    server.start()
    desk = context.new_page()
    desk.goto(server.address + "on-air/desk")
    desk.select_option("#calculator", "memory.rate")
    desk.locator("#frame img[alt*='CAS latency']").wait_for()
    desk.locator("#take").click()
    expect(desk.locator("#state")).to_have_text("On the picture")
    server.stop()
    expect(desk.locator("#gone")).to_contain_text("does not answer")
    expect(desk.locator("#state")).to_have_text("")
    colour = desk.locator("#gone").evaluate("each => getComputedStyle(each).backgroundColor")
    red, green, blue = (int(part) for part in re.findall(r"\d+", colour)[:3])
    assert red > 2 * max(green, blue)
    for name in ("take", "next", "freeze", "clear", "go-on"):
        assert desk.locator(f"#{name}").is_disabled()
    desk.locator("#where").click()
    for key in ("c", "ArrowRight", "t", "PageDown"):
        desk.keyboard.press(key)
    assert desk.locator("#where").inner_text().startswith("1 of"), "a key did something"
    first.close()
    again = OnAir(home, site=site_folder)
    assert "CAS latency" in again.picture.shown()["words"], "the picture is not as it was"
    server = SiteServer(ports.ask_for(server.server_address[1]), site_folder, again.routes())
    server.start()
    try:
        expect(desk.locator("#state")).to_have_text("On the picture")
        assert desk.locator("#gone").is_hidden()
        desk.keyboard.press("c")
        expect(desk.locator("#state")).to_have_text("Picture is clear")
        assert again.picture.shown()["svg"] == ""
    finally:
        server.stop()
        again.close()


def test_two_desks_and_the_run_sheet_agree(server, on_air, desk, context):
    other, run = context.new_page(), context.new_page()
    other.goto(server.address + "on-air/desk")
    run.goto(server.address + "on-air/run")
    other.locator("#frame img").wait_for()
    desk.select_option("#calculator", "memory.rate")
    desk.locator("#desk-rate").fill("3600")
    desk.locator("#frame img[alt*='DDR4-3600']").wait_for()
    desk.locator("#take").click()
    expect(desk.locator("#state")).to_have_text("On the picture")
    expect(other.locator("#state")).to_have_text("On the picture: another card")
    other.locator("#on-picture img[alt*='DDR4-3600']").wait_for()
    expect(run.locator("#on-words")).to_contain_text("DDR4-3600")
    other.locator("#freeze").click()
    expect(desk.locator("#state")).to_have_text("On the picture, frozen")
    desk.locator("#next").click()
    expect(desk.locator("#where")).to_contain_text("2 of")
    assert on_air.picture.state()["at"] == 0, "a frozen picture was changed"
    other.locator("#clear").click()
    for page in (desk, other):
        expect(page.locator("#state")).to_have_text("Picture is clear")
    expect(run.locator("#on-words")).to_have_text("Picture is clear")


@pytest.mark.parametrize("idle", [True])
def test_what_the_desk_draws_is_what_the_server_takes(server, on_air, desk):
    """The desk's card comes from the page's engine once that runs; the picture's from the server's own Python."""
    desk.select_option("#calculator", "memory.rate")
    desk.locator("#address").fill("https://answers.example/go/rate")
    asked = []
    desk.on("request", lambda request: asked.append(request.url) if request.method == "POST" else None)
    rate = 3000
    for _ in range(60):  # the engine starts when the page is idle
        rate += 1
        asked.clear()
        desk.locator("#desk-rate").fill(str(rate))
        desk.locator(f"#frame img[alt*='DDR4-{rate}']").wait_for()
        if not asked:
            break
        desk.wait_for_timeout(250)
    assert asked == [], "each edit still asks the server"
    drawn = desk.evaluate("() => document.querySelector('#frame img').alt")
    desk.locator("#take").click()
    expect(desk.locator("#state")).to_have_text("On the picture")
    assert on_air.picture.shown()["words"] == drawn


def test_cards_stand_in_line_and_a_clicker_goes_through_them(server, on_air, home, desk, context):
    desk.locator("#fill").click()
    line = desk.locator("#line li")
    expect(line).to_have_count(1)
    line.locator("img[alt*='DDR4-3600']").wait_for()
    desk.select_option("#calculator", "memory.rate")
    desk.locator("#desk-rate").fill("2133")
    desk.locator("#frame img[alt*='DDR4-2133']").wait_for()
    desk.locator("#keep").click()
    expect(line).to_have_count(2)
    other = context.new_page()
    other.goto(server.address + "on-air/desk")
    expect(other.locator("#line li")).to_have_count(2)
    line.first.get_by_role("button", name="Prepare").click()
    desk.locator("#frame img[alt*='DDR4-3600']").wait_for()
    desk.locator("#where").click()
    steps = int(desk.locator("#where").inner_text().split(" ")[2].rstrip(":"))
    for step in range(steps):
        desk.keyboard.press("PageDown")
        expect(desk.locator("#on-words")).to_contain_text(f"{step + 1} / {steps}: DDR4-3600")
    desk.keyboard.press("PageDown")
    expect(desk.locator("#on-words")).to_contain_text("1 / ")
    expect(desk.locator("#on-words")).to_contain_text("DDR4-2133")
    assert "DDR4-2133" in on_air.picture.shown()["words"]
    assert len(json.loads((home / ".presenter/line.json").read_text("utf-8"))) == 2


def test_what_is_typed_at_the_desk_moves_no_picture_and_what_is_wrong_is_told_beside_its_field(on_air, desk):
    # Keys do nothing while one types.
    desk.locator("#question").fill("")
    desk.locator("#question").press_sequentially("cat")
    expect(desk.locator("#question")).to_have_value("cat")
    assert desk.locator("#state").inner_text() == "Picture is clear"
    assert on_air.picture.shown()["svg"] == ""
    # Wrong input is told beside its field, and the card stays.
    desk.select_option("#calculator", "memory.rate")
    desk.locator("#frame img[alt*='CAS latency']").wait_for()
    before = desk.locator("#frame").inner_html()
    desk.locator("#desk-rate").fill("fast")
    desk.locator("#desk-rate-error", has_text="Rate must be a whole number").wait_for()
    assert desk.locator("#take").is_disabled()
    desk.locator("#where").click()
    desk.keyboard.press("t")
    expect(desk.locator("#wrong")).to_contain_text("cannot be taken")
    assert desk.locator("#state").inner_text() == "Picture is clear"
    assert desk.locator("#frame").inner_html() == before
    assert desk.locator("#desk-rate").input_value() == "fast"
    # Another generation brings its usual values, to the desk, too.
    desk.locator("#desk-rate").fill("3600")
    desk.locator("#frame img[alt*='DDR4-3600']").wait_for()
    desk.select_option("#desk-generation", "ddr5")
    assert desk.locator("#desk-rate").input_value() == "6000"
    desk.locator("#frame img[alt*='DDR5-6000']").wait_for()


def test_requests_that_cannot_be_answered_get_words(home):
    assert answers.reply(home, {"what": "form", "calculator": "memory.rat"})["errors"][0]["message"].startswith(
        "no calculator memory.rat; did you mean memory.rate?"
    )
    told = answers.reply(home, {"what": "card", "calculator": "memory.rate", "inputs": {"rate": "x", "cas": "y"}})
    assert [e["input"] for e in told["errors"]] == ["rate", "cas"]
    assert answers.reply(home, {"what": "nonsense"})["errors"]
    assert [e["title"] for e in answers.reply(home, {"what": "run", "episode": 9})["episodes"]] == ["The first one"]


def test_a_build_with_the_same_engine_leaves_an_open_desk_as_it_is(tmp_path):
    engine = tmp_path / "made/engine"
    engine.mkdir(parents=True)
    (engine / "worker.js").write_text("1", "utf-8")
    scripts = Scripts(tmp_path)
    before = scripts.state()
    (engine / "worker.js").unlink()
    (engine / "worker.js").write_text("1", "utf-8")
    os.utime(engine / "worker.js", (1, 1))
    assert scripts.state() == before
    (engine / "worker.js").write_text("2", "utf-8")
    assert scripts.state() != before


def test_a_result_of_a_served_page_goes_to_the_desk(home, on_air, site_folder, context):
    server = SiteServer(ports.ask_for(0), site_folder, on_air.routes(), on_air.into_page)
    server.start()
    try:
        page = context.new_page()
        page.goto(server.address + "answers/memory/kit-numbers.html#memory.rate:rate=2666&cas=19")
        page.locator(".wa-result", has_text="DDR4-2666").wait_for()
        with context.expect_page() as opened:
            page.get_by_role("button", name="To the desk").first.click()
        desk = opened.value
        desk.locator("#frame img[alt*='DDR4-2666 with CAS latency 19']").wait_for()
        assert desk.locator("#question").input_value() == page.locator("h1").inner_text()
    finally:
        server.stop()


def test_a_segment_is_handed_to_the_desk_with_its_numbers_each_time(server, context):
    page = context.new_page()
    page.goto(server.address + "on-air/run/1")
    link = page.locator("a", has_text="Prepare the card")
    with context.expect_page() as opened:
        link.first.click()
    desk = opened.value
    desk.locator("#frame img[alt*='DDR4-3600 with CAS latency 18']").wait_for()
    assert desk.locator("#question").input_value() == "What do the numbers mean?"
    desk.locator("#desk-rate").fill("3200")
    desk.locator("#frame img[alt*='DDR4-3200']").wait_for()
    link.first.click()
    desk.locator("#frame img[alt*='DDR4-3600 with CAS latency 18']").wait_for()
