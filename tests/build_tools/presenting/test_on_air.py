"""The desk, the picture and the run sheet: driven as a presenter would, in a real browser, against the real relay."""

from __future__ import annotations

import datetime
import json
import os
import re
import shutil
from pathlib import Path

import pytest
from playwright.sync_api import expect
from ruamel.yaml.comments import CommentedMap

from build_tools.episodes import marks
from build_tools.episodes.cuts import cuts_of
from build_tools.episodes.record import differences
from build_tools.episodes.saying import begin_corrections
from build_tools.episodes.sheet import read_sheet
from build_tools.episodes.sheet_edit import CannotEdit, append, edited, quoted
from build_tools.presenting import answers, routes
from build_tools.presenting.current import Current
from build_tools.presenting.picture import Picture
from build_tools.presenting.routes import OnAir
from build_tools.presenting.scripts import Scripts
from build_tools.presenting.workers import Workers
from build_tools.serving import ports
from build_tools.serving.board import Board
from build_tools.serving.site_server import SiteServer
from tests.browser.test_axe import violations

PROJECT = Path(__file__).parents[3]
ANSWER = """---
title: What do the numbers mean?
---
# What do the numbers mean?

/// short-answer
It waits {= memory.rate rate=3200 cas=16 -> latency_ns =}.
///

/// calculator | memory.rate
///
"""
SHEET = """---
title: The first one
recorded: 2026-10-02
summary: A summary.
invented: true
segments:
  - question: What do the numbers mean?
    viewer: otter-7
    answer: memory/numbers
    inputs: {rate: 3600, cas: 18}
  - start: "9:59"
    question: What is that ringing?
    viewer: anonymous
    referred: {to: a hearing specialist, why: That is not ours to judge.}
---
# The first one
"""


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


# The desk starts its engine in an idle moment, and until then the server draws for it.
NEVER_IDLE = "if (location.pathname.startsWith('/on-air/')) window.requestIdleCallback = () => 0;"


@pytest.fixture
def idle():
    """Whether a desk finds an idle moment to start its engine; a test that is about that engine says True."""
    return False


@pytest.fixture
def context(context, idle):
    if not idle:
        context.add_init_script(NEVER_IDLE)
    return context


@pytest.fixture(scope="module")
def place(tmp_path_factory):
    return tmp_path_factory.mktemp("home")


@pytest.fixture(scope="module")
def workers(place):
    """The processes that answer, warm from one test to the next as they are while one server runs."""
    made = Workers(place)
    yield made
    made.close()


@pytest.fixture
def home(place):
    """A small project with one answer and one episode, made anew for each test at the same place."""
    for old in place.iterdir():
        shutil.rmtree(old) if old.is_dir() and not old.is_symlink() else old.unlink()
    (place / "docs/answers/memory").mkdir(parents=True)
    (place / "docs/answers/memory/numbers.md").write_text(ANSWER, "utf-8")
    (place / "docs/episodes").mkdir()
    (place / "docs/episodes/001-the-first-one.md").write_text(SHEET, "utf-8")
    (place / "node_modules").symlink_to(PROJECT / "node_modules")
    return place


@pytest.fixture
def on_air(home, site_folder, workers):
    made = OnAir(home, site=site_folder)
    made._workers = workers
    return made


@pytest.fixture
def server(on_air, site_folder):
    opened = SiteServer(ports.ask_for(0), site_folder, on_air.routes())
    opened.start()
    yield opened
    opened.stop()


@pytest.fixture
def desk(server, context):
    page = context.new_page()
    page.goto(server.address + "on-air/desk")
    page.locator("#frame img").wait_for()
    return page


def test_what_is_taken_is_on_the_picture_and_only_that(server, on_air, desk, context):
    picture = context.new_page()
    picture.goto(server.address + "on-air/picture")
    assert picture.locator("img").count() == 0
    desk.select_option("#calculator", "memory.rate")
    desk.locator("#desk-rate").fill("3600")
    desk.locator("#frame img[alt*='DDR4-3600']").wait_for()
    assert picture.locator("img").count() == 0, "preparing must not reach the picture"
    desk.locator("#take").click()
    picture.locator("img[alt*='DDR4-3600']").wait_for()
    assert picture.locator("img").evaluate("image => image.naturalWidth") == 1920
    assert ">How long does memory" in on_air.picture.shown()["svg"]
    assert picture.locator("button, a, header").count() == 0
    assert picture.evaluate("getComputedStyle(document.body).backgroundColor") == "rgba(0, 0, 0, 0)"


def test_keys_reveal_freeze_and_clear(server, desk, context):
    picture = context.new_page()
    picture.goto(server.address + "on-air/picture")
    desk.select_option("#calculator", "memory.rate")
    desk.locator("#frame img[alt*='CAS latency']").wait_for()
    desk.locator("#where").click()
    desk.keyboard.press("t")
    picture.locator("img").first.wait_for()
    image = picture.locator("main img:last-child")  # the one before lies below it while it fades in
    first = image.get_attribute("src")
    desk.keyboard.press("ArrowRight")
    expect(image).not_to_have_attribute("src", first)
    second = image.get_attribute("src")
    desk.keyboard.press("f")
    desk.keyboard.press("ArrowRight")
    desk.locator("#where", has_text=re.compile("^3 of")).wait_for()
    assert image.get_attribute("src") == second, "a frozen picture stays"
    desk.keyboard.press("f")
    expect(image).not_to_have_attribute("src", second)
    desk.keyboard.press("c")
    expect(picture.locator("main")).to_be_empty()
    expect(desk.locator("#state")).to_have_text("Picture is clear")


def test_fast_keys_come_to_the_picture_in_their_order(server, on_air, desk, context):
    desk.select_option("#calculator", "memory.rate")
    desk.locator("#frame img[alt*='CAS latency']").wait_for()
    desk.locator("#where").click()
    for _ in range(5):
        for key in ("t", "ArrowRight", "ArrowRight", "ArrowRight", "ArrowLeft"):
            desk.keyboard.press(key)
        desk.locator("#where", has_text=re.compile("^2 of")).wait_for()
        shown = desk.locator("#where").inner_text().partition(": ")[2]
        with desk.expect_response(lambda reply: reply.url.endswith("/clear")):
            desk.keyboard.press("t")
            desk.keyboard.press("c")
        assert on_air.picture.shown()["svg"] == ""
        with desk.expect_response(lambda reply: reply.url.endswith("/take")):
            desk.keyboard.press("t")
        assert on_air.picture.shown()["name"] == shown
        for _ in range(2):
            desk.keyboard.press("ArrowLeft")


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


def test_a_prepared_question_goes_into_the_sheet(server, home, desk):
    sheet = home / "docs/episodes/001-the-first-one.md"
    before = sheet.read_text("utf-8")
    desk.select_option("#calculator", "memory.rate")
    desk.locator("#question").fill('Is it: "slow" or not?')
    desk.locator("#desk-rate").fill("2133")
    desk.locator("#frame img[alt*='DDR4-2133']").wait_for()
    desk.locator("#viewer").fill("wren-on-a-wire")
    desk.locator("#into").click()
    expect(desk.locator("#into-told")).to_contain_text("as question 3")
    desk.locator("#viewer").fill("wren-on-a-wire")
    desk.locator("#consent").check()
    desk.locator("#into").click()
    expect(desk.locator("#into-told")).to_contain_text("as question 4")
    added = """  - question: "Is it: \\"slow\\" or not?"
    viewer: "{}"
    answer: memory/numbers
    calculator: memory.rate
    inputs: {{rate: "2133"}}
"""
    text = sheet.read_text("utf-8").replace("    consent: true\n", "")
    assert text == before.replace(
        "---\n# The", added.format("anonymous") + added.format("wren-on-a-wire") + "---\n# The"
    )


LINK_PAGE = """---
title: Will it fit?
---
# Will it fit?

/// short-answer
It may.
///

/// calculator | display.link
///
"""
LINK_SHEET = SHEET.replace(
    """  - start: "9:59"
""",
    """  - question: "4K at 120 over 10 m?"
    viewer: "moth-3"
    consent: true
    answer: display/fits
    calculator: display.link
    inputs: {width: "3840", height: "2160", refresh: "120"}  # as told

  # still to be asked
  - start: "9:59"
""",
)


@pytest.fixture
def cables(home):
    """A sheet whose second question is about a link."""
    (home / "docs/answers/display").mkdir()
    (home / "docs/answers/display/fits.md").write_text(LINK_PAGE, "utf-8")
    sheet = home / "docs/episodes/001-the-first-one.md"
    sheet.write_text(LINK_SHEET, "utf-8")
    assert read_sheet(home / "docs", sheet)[1] == []
    return sheet


def test_a_question_of_the_sheet_gets_other_numbers_and_no_twin(server, on_air, cables, home, context):
    desk = context.new_page()
    desk.goto(server.address + "on-air/desk")
    desk.locator("#fill").click()
    row = desk.locator("#line li", has_text="4K at 120")
    row.get_by_role("button", name="Prepare").click()
    expect(desk.locator("#desk-refresh")).to_have_value("120")
    expect(desk.locator("#how")).to_have_value("numbers")
    expect(desk.locator("#segment")).to_have_value("2")
    expect(desk.locator("#of-viewer")).to_be_hidden()
    desk.select_option("#desk-link", "hdmi-frl-40")
    desk.locator("#into").click()
    expect(desk.locator("#into-told")).to_contain_text("Question 2 has these numbers now, and so has its card in line.")
    changed = LINK_SHEET.replace('refresh: "120"}', 'refresh: "120", link: "hdmi-frl-40"}')
    written = read_sheet(home / "docs", cables)[0].segments[1]
    assert dict(written.inputs) == {"width": "3840", "height": "2160", "refresh": "120", "link": "hdmi-frl-40"}
    assert (written.viewer, written.consent, written.question) == ("moth-3", True, "4K at 120 over 10 m?")
    text = cables.read_text("utf-8")
    assert re.sub(" +# as told", "  # as told", text) == changed, "every other line is left alone"
    lined = [each["card"] for each in on_air._line.read() if each["card"]["calculator"] == "display.link"]
    assert [card["inputs"]["link"] for card in lined] == ["hdmi-frl-40"], "the card in line shows the old numbers"
    desk.locator("#look-back").click()
    desk.locator("#take-back").click()
    expect(desk.locator("#last-told")).to_contain_text("as it was before")
    expect(desk.locator("#into-told")).to_have_text("")
    assert cables.read_text("utf-8") == LINK_SHEET


def test_a_further_calculator_is_put_beside_a_question_and_taken_back(server, cables, home, context):
    cables.write_text(LINK_SHEET.replace('refresh: "120"}', 'refresh: "120", link: "hdmi-frl-40"}'), "utf-8")
    before = cables.read_text("utf-8")
    desk = context.new_page()
    desk.goto(server.address + "on-air/desk")
    desk.locator("#fill").click()
    desk.locator("#line li", has_text="4K at 120").get_by_role("button", name="Prepare").click()
    expect(desk.locator("#how")).to_have_value("numbers")
    desk.select_option("#calculator", "display.reach")
    expect(desk.locator("#desk-link")).to_have_value("hdmi-frl-40")  # what both ask for is not typed twice
    expect(desk.locator("#how")).to_have_value("beside")
    expect(desk.locator("#segment")).to_have_value("2")
    desk.locator("#desk-length").fill("10")
    desk.locator("#into").click()
    expect(desk.locator("#into-told")).to_contain_text("It stands beside question 2 now")
    text = cables.read_text("utf-8")
    [further] = read_sheet(home / "docs", cables)[0].segments[1].also
    assert (further.calculator, dict(further.inputs)) == ("display.reach", {"link": "hdmi-frl-40", "length": "10"})
    assert len(text.splitlines()) == len(before.splitlines()) + 2
    assert [line for line in before.splitlines() if line not in text.splitlines()] == []
    desk.locator("#desk-length").fill("7.5")  # once more: other numbers, and no third calculator
    desk.locator("#into").click()
    expect(desk.locator("#into-told")).to_contain_text("Question 2 has these numbers now")
    [further] = read_sheet(home / "docs", cables)[0].segments[1].also
    assert further.inputs["length"] == "7.5"
    desk.locator("#fill").click()
    expect(desk.locator("#line li", has_text="4K at 120")).to_have_count(2)
    desk.locator("#look-back").click()
    expect(desk.locator("#last-lines")).to_contain_text("display.reach")
    desk.locator("#take-back").click()
    expect(desk.locator("#last-told")).to_contain_text("as it was before")
    assert cables.read_text("utf-8") == text


def test_beside_a_question_stands_what_can_stand_there(home, cables):
    wanted = {"what": "into", "episode": 1, "how": "beside", "segment": 2, "calculator": "display.reach"}
    for changed, said in (
        ({"segment": 3}, "has no calculator yet"),
        ({"segment": 9}, "has no question 9"),
        ({"calculator": "display.link"}, "change its numbers instead"),
        ({"inputs": {"length": "far"}}, "length"),
        ({"how": "over"}, "a new question, new numbers, or a further calculator"),
    ):
        assert said in answers.reply(home, {**wanted, **changed})["errors"][0]["message"]
        assert cables.read_text("utf-8") == LINK_SHEET
    # Not given, what both ask for is the question's own, and the reply says so.
    own = LINK_SHEET.replace('refresh: "120"}', 'refresh: "120", link: "hdmi-frl-40"}')
    cables.write_text(own, "utf-8")
    assert answers.reply(home, {**wanted, "inputs": {"length": "10"}})["taken"] == ["Link"]
    [further] = read_sheet(home / "docs", cables)[0].segments[1].also
    assert dict(further.inputs) == {"link": "hdmi-frl-40", "length": "10"}


def test_a_result_of_a_served_page_goes_beside_a_question(cables, home, on_air, site_folder, context):
    server = SiteServer(ports.ask_for(0), site_folder, on_air.routes(), on_air.into_page)
    server.start()
    try:
        page = context.new_page()
        page.goto(server.address + "answers/memory/kit-numbers.html#memory.rate:rate=2666&cas=19")
        page.locator(".wa-result", has_text="DDR4-2666").wait_for()
        page.get_by_role("button", name="Into the episode").first.click()
        form = page.get_by_role("dialog", name="Into the episode")
        expect(form.get_by_label("Which question")).to_be_hidden()
        form.get_by_label("What goes into it").select_option("beside")
        form.get_by_label("Which question").select_option("2")
        expect(form.get_by_label("Who asked")).to_be_hidden()
        form.get_by_role("button", name="Write it into the sheet").click()
        expect(form.get_by_role("status")).to_contain_text("It stands beside question 2 now")
    finally:
        server.stop()
    [further] = read_sheet(home / "docs", cables)[0].segments[1].also
    assert (further.calculator, dict(further.inputs)) == ("memory.rate", {"rate": "2666", "cas": "19"})


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


def test_a_correction_is_taken_back_at_the_desk(server, home, desk):
    sheet = home / "docs/episodes/001-the-first-one.md"
    desk.locator("#look-back").click()
    expect(desk.locator("#last-told")).to_have_text("No change of this sheet is known that could be taken back.")
    said = SHEET.replace(
        "    inputs: {rate: 3600", "    said: It waits 9 ns.\n    made: 1-0000\n    inputs: {rate: 3600"
    )
    sheet.write_text(said, "utf-8")
    episode, mistakes = read_sheet(home / "docs", sheet)
    assert mistakes == []
    assert begin_corrections(home / "docs", episode, [1], datetime.date(2026, 11, 1)) == [1]
    begun = sheet.read_text("utf-8")
    desk.locator("#look-back").click()
    expect(desk.locator("#last-lines")).to_contain_text('+ was: "It waits 9 ns."')
    assert sheet.read_text("utf-8") == begun, "looking changes nothing"
    sheet.write_text(begun.replace("A summary.", "Another."), "utf-8")  # meanwhile, in an editor
    desk.locator("#take-back").click()
    expect(desk.locator("#last-told")).to_contain_text("has been changed since this was shown")
    sheet.write_text(begun, "utf-8")
    desk.locator("#look-back").click()
    desk.locator("#take-back").click()
    expect(desk.locator("#last-told")).to_contain_text("as it was before")
    assert sheet.read_text("utf-8") == said
    desk.locator("#look-back").click()
    desk.locator("#take-back").click()
    expect(desk.locator("#last-told")).to_contain_text("as it was before")
    assert sheet.read_text("utf-8") == begun, "the change was not lost"


def test_a_question_without_a_page_or_with_a_mistake_changes_no_sheet(home):
    sheet = home / "docs/episodes/001-the-first-one.md"
    wanted = {
        "what": "into",
        "episode": 1,
        "question": "What?",
        "calculator": "memory.rate",
        "answer": "memory/numbers",
    }
    for changed in ({"question": " "}, {"answer": ""}, {"answer": "memory/nowhere"}, {"inputs": {"rate": "x"}},
                    {"episode": 7}):  # fmt: skip
        assert answers.reply(home, {**wanted, **changed})["errors"][0]["message"]
        assert sheet.read_text("utf-8") == SHEET


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


def test_the_picture_comes_back_by_itself(home, site_folder, context):
    """A mixing program keeps the page open; the server may be started again at the same address."""
    svg = '<svg xmlns="http://www.w3.org/2000/svg" width="{0}" height="{0}"></svg>'
    first = OnAir(home)
    server = SiteServer(ports.ask_for(0), site_folder, first.routes())
    server.start()
    port = server.server_address[1]
    picture = context.new_page()
    picture.goto(server.address + "on-air/picture")
    first.picture.take(svg.format(8), words="before")
    picture.get_by_alt_text("before").wait_for(state="attached")  # so it hears the server, and not only was given by it
    server.stop()
    again = OnAir(home)
    server = SiteServer(ports.ask_for(port), site_folder, again.routes())
    server.start()
    try:
        again.picture.take(svg.format(9), words="back again")
        picture.get_by_alt_text("back again").wait_for(state="attached")
    finally:
        server.stop()


def test_the_same_picture_taken_with_other_words_is_told_in_them(site_folder, home, context):
    """An example's card and that of a viewer's values may look alike. Who hears the picture hears what it is of."""
    on_air = OnAir(home)
    server = SiteServer(ports.ask_for(0), site_folder, on_air.routes())
    server.start()
    try:
        picture = context.new_page()
        picture.goto(server.address + "on-air/picture")
        svg = '<svg xmlns="http://www.w3.org/2000/svg" width="8" height="8"></svg>'
        on_air.picture.take(svg, words="of the example")
        drawn = picture.get_by_alt_text("of the example")
        drawn.wait_for(state="attached")
        drawn.evaluate("image => { image.dataset.before = ''; }")
        on_air.picture.take(svg, words="of Ada, who is invented")
        told = picture.get_by_alt_text("of Ada, who is invented")
        told.wait_for(state="attached")
        assert told.get_attribute("data-before") == "", "the picture itself is not drawn anew"
        assert picture.locator("img").count() == 1
    finally:
        server.stop()


def marked(home, take=0):
    return dict(json.loads((home / ".presenter/takes/001.json").read_text("utf-8"))["takes"][take]["marks"])


def read_of(place):
    """What is read there, with plain spaces where a number holds its unit."""
    return place.inner_text().replace("\u00a0", " ")


def test_run_sheets_agree_on_the_question_and_come_back_to_it(server, home, context):
    page, other = context.new_page(), context.new_page()
    for each in (page, other):
        each.goto(server.address + "on-air/run")
        each.locator(".segment[aria-current] h2", has_text="What do the numbers mean?").wait_for()
    page.keyboard.press("n")
    for each in (page, other):
        each.locator(".segment[aria-current] h2", has_text="What is that ringing?").wait_for()
    for key in "pnpnp":  # faster than the replies come
        other.keyboard.press(key)
    for each in (page, other):
        each.locator(".segment[aria-current] h2", has_text="What do the numbers mean?").wait_for()
    kept = home / ".cache/on-air-at.json"
    for before in iter(kept.read_bytes, b""):  # until the server has heard all five: whoever presses last has it
        page.wait_for_timeout(1000)
        if kept.read_bytes() == before:
            break
    page.keyboard.press("n")
    expect(other.locator(".here")).to_have_text("2. What is that ringing?")
    board = Board()
    Current(board, kept)  # as after kill -9
    assert json.loads(board.text())["at"]["segment"] == 2
    kept.write_text("{", "utf-8")
    Current(board, kept)
    assert json.loads(board.text())["at"]["segment"] == 0


def test_all_requests_of_a_page_of_an_earlier_run_are_answered(server, context):
    """After a restart a page's requests are refused together; each comes through, whichever learns the new token."""
    page = context.new_page()

    page.add_init_script("""
        new MutationObserver((_, observer) => {
            const token = document.querySelector("meta[name=run-token]");
            if (!token) return;
            token.content = "of-an-earlier-run";
            observer.disconnect();
        }).observe(document, { childList: true, subtree: true });
    """)
    page.goto(server.address + "on-air/run")
    page.locator(".segment[aria-current]").wait_for()
    for key in "rm":
        page.keyboard.press(key)
    page.locator(".segment[aria-current] .facts", has_text="marked").wait_for()
    expect(page.locator("#on-words")).to_have_text("Picture is clear")
    assert page.locator("#wrong").inner_text() == ""


def test_cuts_count_in_the_recordings_own_time(home):
    """Own arithmetic: 320 s into the recording lies in the cut from 310 to 340; the video begins 5 s in: 310 - 5."""
    wanted = {"what": "starts", "episode": 1, "lead": "0:05", "cuts": "5:10-5:40"}
    told = answers.reply(home, {**wanted, "marks": {"0": 1000.0, "1": 1320.0, "2": 1400.0}})
    assert told["starts"] == {1: "5:05", 2: "6:05"}


def test_what_one_needs_while_recording_is_in_view_at_once(server, context):
    desk = context.new_page()
    desk.goto(server.address + "on-air/desk")
    desk.locator("#frame img").wait_for()
    desk.locator("#fill").click()
    desk.locator("#line img").first.wait_for()
    run = context.new_page()
    run.goto(server.address + "on-air/run")
    run.locator(".segment[aria-current]").wait_for()
    for width, height in ((1440, 900), (1920, 1080)):
        desk.set_viewport_size({"width": width, "height": height})
        for name in ("#frame img", "#take", "#go-on", "#clear", "#line li", "#keep"):
            box = desk.locator(name).first.bounding_box()
            assert box["y"] >= 0, (name, width)
            assert box["y"] + box["height"] <= height, (name, width)
        run.set_viewport_size({"width": width, "height": height})
        for name in (".segment[aria-current] .said", "#mark", "#begin", "#of-episode"):
            box = run.locator(name).bounding_box()
            assert 0 <= box["y"] <= height - box["height"], (name, width)


@pytest.mark.parametrize("name", ["desk", "run"])
def test_a_phone_shows_all_of_it_without_moving_sideways(server, context, name):
    page = context.new_page()
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(server.address + f"on-air/{name}")
    page.locator("#frame img, .segment[aria-current]").first.wait_for()
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    for field in page.locator("#question, #address, #viewer").all():
        assert field.bounding_box()["width"] > 150, "too narrow to read what one types"


def test_the_run_sheet_reads_records_and_writes(server, home, context):
    page, other = context.new_page(), context.new_page()
    page.goto(server.address + "on-air/run")
    current = page.locator(".segment[aria-current]")
    current.wait_for()
    assert "DDR4-3600 with CAS latency 18 waits 10 ns" in read_of(current.locator(".said"))
    assert "It waits 10 ns." in read_of(current)
    assert "To be read: about" in page.locator("#total").inner_text()
    other.goto(server.address + "on-air/run")
    page.keyboard.press("r")
    page.keyboard.press("m")  # at once: a mark waits for the take that it belongs to
    for each in (page, other):
        each.locator("#state", has_text="Recording since").wait_for()
    current.locator(".facts", has_text="marked").wait_for()
    other.locator(".segment[aria-current] .facts", has_text="marked").wait_for()
    page.keyboard.press("n")
    page.locator(".segment[aria-current] h2", has_text="What is that ringing?").wait_for()
    assert "Passed on to a hearing specialist" in page.locator(".segment[aria-current]").inner_text()
    page.keyboard.press("r")  # asks, and ends nothing
    page.locator("#asks", has_text="Take 1 is running. End it?").wait_for()
    page.keyboard.press("Escape")
    assert set(marked(home)) == {0, 1}
    page.locator("#write").click()  # the second question has no mark: nothing is written
    expect(page.locator("#starts-told")).to_contain_text("Question 2, 'What is that ringing?', has no mark")
    assert (home / "docs/episodes/001-the-first-one.md").read_text("utf-8") == SHEET
    page.keyboard.press("m")
    page.locator(".segment[aria-current] .facts", has_text="marked").wait_for()
    page.keyboard.press("u")
    expect(page.locator(".segment[aria-current] .facts")).not_to_contain_text("marked")
    page.keyboard.press("r")
    page.keyboard.press("r")
    expect(page.locator("#state")).to_have_text("Not recording")
    fields = page.locator("#marks input")
    for place, typed in ((0, "0:10"), (1, "1:40")):
        fields.nth(place).fill(typed)
        fields.nth(place).press("Tab")
        expect(page.locator("#marks input").nth(place)).to_have_value(typed)
        if place == 0:
            page.wait_for_timeout(300)  # until the reply has built the table anew
            expect(page.locator("#marks input").nth(1)).to_be_focused()
    page.locator("#lead").fill("0:05")
    page.locator("#cuts").fill("0:20–0:30\n0:40 to 1:00")
    page.locator("#work-out").click()
    page.locator("#times tr").nth(1).wait_for()
    assert page.locator("#starts-told").inner_text() == ""
    page.locator("#write").click()
    page.locator(".facts", has_text="starts at 1:05").wait_for()
    text = (home / "docs/episodes/001-the-first-one.md").read_text("utf-8")
    assert '  - start: "0:05"\n    question: What do the numbers mean?' in text
    assert '  - start: "1:05"\n    question: What is that ringing?' in text
    assert text.count("start:") == 2
    assert f"recorded: {datetime.date.today()}\n" in text, "the day of the take, not of the sheet"
    assert 'lead: "0:05"\ncuts: ["0:20-0:30", "0:40-1:00"]' in text, "the editor's cut list is made of it"
    other.reload()
    expect(other.locator("#cuts")).to_have_value("0:20-0:30\n0:40-1:00")
    page.locator("#rehearsal").check()
    page.keyboard.press("r")  # the box has the keyboard, and only what ticks it is its own
    page.locator("#state", has_text="rehearsal 2").wait_for()
    expect(page.locator("#rehearsal")).not_to_be_checked()
    expect(page.locator("#of-take")).to_have_value("2")  # what one throws away is the take that has just been made
    page.locator("#write").click()
    expect(page.locator("#starts-told")).to_contain_text("This is a rehearsal: choose the take")
    assert (home / "docs/episodes/001-the-first-one.md").read_text("utf-8") == text
    page.locator("#throw-away").click()
    expect(page.locator("#asks")).to_contain_text("Throw rehearsal 2 away")
    expect(page.locator("#asks")).to_contain_text("with its 0 marks?")
    page.get_by_role("button", name="Throw it away").click()
    expect(page.locator("#of-take option")).to_have_count(1)
    assert marked(home).keys() == {0, 1, 2}


def test_a_further_calculator_is_read_aloud_below_and_goes_to_the_desk(server, home, context):
    sheet = home / "docs/episodes/001-the-first-one.md"
    own = "    inputs: {rate: 3600, cas: 18}\n"
    also = "    also:\n      - {calculator: memory.mix, inputs: {have_size: 8, add_size: 16}}\n"
    sheet.write_text(SHEET.replace(own, own + also), "utf-8")
    page = context.new_page()
    page.goto(server.address + "on-air/run/1")
    said = page.locator(".segment[aria-current] .said")
    expect(said).to_have_count(2)
    assert "DDR4-3600" in said.first.inner_text()
    assert read_of(said.nth(1)).startswith("Depends: ")
    with context.expect_page() as opened:
        page.locator(".segment[aria-current] a", has_text="Prepare: ").click()
    desk = opened.value
    desk.locator("#frame img").wait_for()
    expect(desk.locator("#calculator")).to_have_value("memory.mix")
    expect(desk.locator("#form [data-input=add_size] input")).to_have_value("16")


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


def test_a_press_takes_down_what_stood_there_with_words_of_ones_own(server, home, context):
    sheet = home / "docs/episodes/001-the-first-one.md"
    page, other = context.new_page(), context.new_page()
    for each in (page, other):
        each.goto(server.address + "on-air/run")
    current = page.locator(".segment[aria-current]")
    read = read_of(current.locator(".said"))
    current.locator("textarea").fill("I said: more or less\nten.")
    current.get_by_role("button", name="Take this down as said").click()
    expect(page.locator("#said-told")).to_have_text("What stood at question 1 is in the sheet as said.")
    expect(other.locator(".segment[aria-current] .facts")).to_contain_text("taken down as said")
    episode, mistakes = read_sheet(home / "docs", sheet)
    assert mistakes == []
    first = episode.segments[0]
    assert first.said in read
    assert first.made
    assert (first.short_answer, first.spoken) == ("It waits 10 ns.", "I said: more or less ten.")
    assert differences([episode], home / "docs") == []
    current.locator("textarea").fill("")
    page.locator("h1").click()
    page.keyboard.press("s")
    page.wait_for_function("() => document.querySelector('.taking-down textarea').value === ''")
    expect(other.locator(".segment[aria-current] textarea")).to_have_value("")
    assert "spoken:" not in sheet.read_text("utf-8")


def test_what_has_changed_since_it_was_shown_is_not_taken_down(home):
    sheet = home / "docs/episodes/001-the-first-one.md"
    shown = answers.reply(home, {"what": "run", "episode": 1})["segments"][0]["shown"]
    page = home / "docs/answers/memory/numbers.md"
    page.write_text(ANSWER.replace("It waits", "It has to wait"), "utf-8")
    wanted = {"what": "said", "episode": 1, "segment": 1, "spoken": "", "shown": shown}
    assert "has changed since this page showed it" in answers.reply(home, wanted)["errors"][0]["message"]
    assert "no segment 9" in answers.reply(home, {**wanted, "segment": 9})["errors"][0]["message"]
    assert sheet.read_text("utf-8") == SHEET


def test_targets_are_kept_and_what_is_left_is_told(server, home, context):
    page, other = context.new_page(), context.new_page()
    for each in (page, other):
        each.goto(server.address + "on-air/run")
        each.locator(".segment[aria-current]").wait_for()
    page.locator("#target").fill("20:00")
    page.locator("#target").press("Tab")
    page.locator(".segment[aria-current] input").fill("90")
    page.locator(".segment[aria-current] input").press("Tab")
    expect(other.locator(".segment[aria-current] input")).to_have_value("1:30")
    assert json.loads((home / ".presenter/targets/001.json").read_text("utf-8")) == {"0": 1200, "1": 90}
    page.locator("h1").click()
    page.keyboard.press("r")
    expect(page.locator("#of-episode")).to_contain_text(re.compile(r"(19:5\d|20:00) left"))


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


def test_a_result_of_a_served_page_goes_straight_into_the_sheet(home, on_air, site_folder, context):
    (home / "docs/answers/memory/kit-numbers.md").write_text(ANSWER, "utf-8")
    server = SiteServer(ports.ask_for(0), site_folder, on_air.routes(), on_air.into_page)
    server.start()
    try:
        page = context.new_page()
        page.goto(server.address + "answers/memory/kit-numbers.html#memory.rate:rate=2666&cas=19")
        page.locator(".wa-result", has_text="DDR4-2666").wait_for()
        press = page.get_by_role("button", name="Into the episode").first
        page.evaluate("document.querySelector('.wa-calculator').classList.add('wa-waiting')")
        expect(press).to_be_disabled()  # else the example's numbers would go into the sheet
        page.evaluate("document.querySelector('.wa-calculator').classList.remove('wa-waiting')")
        press.click()
        form = page.get_by_role("dialog", name="Into the episode")
        form.locator("option[value='memory/kit-numbers']").wait_for(state="attached")
        expect(form.get_by_label("Answer page")).to_have_value("memory/kit-numbers")
        expect(form.locator(".values")).to_contain_text("DDR4-2666 with CAS latency 19 waits")
        form.get_by_label("The question, in the viewer's words").fill("Is 2666 slow?")
        form.get_by_label("Who asked").fill("wren-on-a-wire")
        form.get_by_role("button", name="Write it into the sheet").click()
        expect(form.get_by_role("status")).to_have_text("It stands in the sheet of episode 1 now, as question 3.")
        expect(form.get_by_role("button", name="Write it into the sheet")).to_be_disabled()
        form.get_by_role("button", name="Close").click()
        expect(page.locator("dialog")).to_have_count(0)
    finally:
        server.stop()
    episode, mistakes = read_sheet(home / "docs", home / "docs/episodes/001-the-first-one.md")
    assert mistakes == []
    added = episode.segments[2]
    assert (added.question, added.viewer, added.answer) == ("Is 2666 slow?", "anonymous", "memory/kit-numbers")
    assert (added.calculator, dict(added.inputs)) == ("memory.rate", {"rate": "2666", "cas": "19"})


@pytest.mark.parametrize("warm", [True])  # unasked, it reads no question of somebody who saves data
def test_a_whole_question_goes_into_the_sheet_with_nothing_typed_twice(home, on_air, site_folder, context):
    asked = "I have 2x8 GB DDR4 3200 and want to add 2x16 GB 3600, is that ok?"
    shutil.copy(PROJECT / "docs/answers/memory/add-bigger-sticks.md", home / "docs/answers/memory")
    server = SiteServer(ports.ask_for(0), site_folder, on_air.routes(), on_air.into_page)
    server.start()
    try:
        page = context.new_page()
        page.goto(server.address + "index.html")
        page.locator(".wa-find textarea").first.fill(asked)
        page.locator(".wa-to-presenter").wait_for(timeout=90_000)
        page.locator(".wa-to-presenter").get_by_role("button", name="Into the episode").click()
        form = page.get_by_role("dialog", name="Into the episode")
        form.locator("option[value='memory/add-bigger-sticks']").wait_for(state="attached")
        expect(form.locator(".values")).to_contain_text("Its 8 numbers are written with it. They give: Together")
        form.get_by_role("button", name="Write it into the sheet").click()
        expect(form.get_by_role("status")).to_contain_text("as question 3")
    finally:
        server.stop()
    episode, mistakes = read_sheet(home / "docs", home / "docs/episodes/001-the-first-one.md")
    assert mistakes == []
    added = episode.segments[2]
    assert (added.question, added.answer, added.calculator) == (asked, "memory/add-bigger-sticks", "memory.mix")
    assert (added.inputs["have_size"], added.inputs["add_rate"]) == ("8", "3600")


def test_a_mistake_in_one_sheet_empties_no_other_run_sheet(home):
    (home / "docs/episodes/002-broken.md").write_text("---\ntitle: [\n---\n", "utf-8")
    (home / "docs/episodes/003-latin.md").write_bytes(b"---\ntitle: \xff\n---\n")
    told = answers.reply(home, {"what": "run", "episode": 1})
    assert [each["question"] for each in told["segments"]] == ["What do the numbers mean?", "What is that ringing?"]
    assert told["mistakes"] == []
    assert [bool(each["mistakes"]) for each in told["episodes"]] == [False, True, True]
    sheet = home / "docs/episodes/001-the-first-one.md"
    sheet.write_text(SHEET.replace("cas: 18", "cas: 18, cat: 3"), "utf-8")
    told = answers.reply(home, {"what": "run", "episode": 1})
    assert len(told["segments"]) == 2
    assert "cat" in told["mistakes"][0]


def test_the_prompter_keeps_its_line_and_obeys_keys(server, context):
    page = context.new_page()
    page.goto(server.address + "on-air/prompter/1")
    page.locator("#text h2").first.wait_for()
    line = page.locator(".line-at").bounding_box()["y"]
    first = page.locator("#text section").first.locator("p").first
    assert first.bounding_box()["y"] > line + 1
    page.keyboard.press("PageDown")  # as a clicker sends it
    assert abs(first.bounding_box()["y"] - line) <= 1
    page.keyboard.press("n")
    assert abs(page.locator("#text section").nth(1).bounding_box()["y"] - line) <= 1
    assert page.locator(".line-at").bounding_box()["y"] == line
    size = "() => getComputedStyle(document.body).fontSize"
    before = page.evaluate(size)
    page.keyboard.press("+")
    assert page.evaluate(size) != before
    page.keyboard.press("m")
    assert "matrix(-1" in page.locator("#text").evaluate("each => getComputedStyle(each).transform")
    page.keyboard.press("Home")
    assert page.evaluate("scrollY") == 0
    page.keyboard.press(" ")
    page.evaluate("new Promise((moved) => addEventListener('scroll', () => scrollY > 5 && moved()))")
    page.keyboard.press(" ")
    page.reload()
    expect(page.locator("body")).to_have_class("prompter mirrored")


def test_axe_finds_nothing_on_the_prompter_nor_in_its_mirror(server, context):
    page = context.new_page()
    page.goto(server.address + "on-air/prompter/1")
    page.locator("#text h2").first.wait_for()
    assert violations(page, PROJECT) == []
    page.keyboard.press("m")
    expect(page.locator("body")).to_have_class("prompter mirrored")
    assert violations(page, PROJECT) == [], "in the mirror"


def test_a_question_stands_before_what_was_written_behind_the_questions():
    head = '---\nsegments:\n  - question: "A?"\n    inputs: {a: 1}  # as told\n'
    rest = "\n# to be put right\ncorrections: []\n---\n# T\n"
    row = CommentedMap({"question": quoted("B?")})
    counts = []
    text = edited(head + rest, "a.md", lambda front: counts.append(append(front, "segments", row)))
    assert text == head + '  - question: "B?"\n' + rest
    assert counts == [2]
    with pytest.raises(CannotEdit, match="no entry"):
        edited("---\nsegments: []\n---\n", "a.md", lambda front: append(front, "segments", row))


@pytest.mark.parametrize(
    ("moments", "said"),
    [
        ({"0": 100, "1": 110}, "Question 2, 'What is that ringing?', has no mark in this take."),
        ({"0": 100, "1": 110, "2": 110.4}, "Question 2, 'What is that ringing?', would start at 0:10 like question 1"),
        ({"0": 100, "1": 130, "2": 110}, "would start at 0:10, before question 1 at 0:30"),
        ({"0": 100, "1": 110, "2": 120, "7": 130}, "There are marks for questions that the sheet does not have: 7."),
    ],
)
def test_start_times_that_are_none_change_nothing(home, moments, said):
    wanted = {"what": "starts", "episode": 1, "marks": moments, "write": True}
    told = answers.reply(home, wanted)
    assert said in told["errors"][0]["message"]
    assert answers.reply(home, {**wanted, "write": False})["problems"] == [each["message"] for each in told["errors"]]
    assert (home / "docs/episodes/001-the-first-one.md").read_text("utf-8") == SHEET


def test_start_times_are_written_into_no_sheet_with_a_mistake(home):
    sheet = home / "docs/episodes/001-the-first-one.md"
    faulty = SHEET.replace("cas: 18", "cas: fast")
    sheet.write_text(faulty, "utf-8")
    wanted = {"what": "starts", "episode": 1, "marks": {"0": 100, "1": 110, "2": 120}, "write": True}
    assert "cas" in answers.reply(home, wanted)["errors"][0]["message"]
    assert sheet.read_text("utf-8") == faulty


@pytest.mark.parametrize("typed", ["5:10-5:40", "5:10–5:40", "5:10 — 5:40", "5:10 to 5:40", "from 5:10 to 5:40,"])
def test_a_cut_is_read_as_people_type_it(typed):
    assert cuts_of(typed) == [(310.0, 340.0)]


@pytest.mark.parametrize("typed", ["5:10", "5:40-5:10", "5:10-5:90", "a to b", "5:10-5:20-5:30"])
def test_a_cut_that_cannot_be_read_is_named(typed):
    with pytest.raises(ValueError, match=re.escape(typed)):
        cuts_of(typed)


def test_a_picture_is_as_it_was_after_a_kill(tmp_path):
    file = tmp_path / "on-air.json"
    first = Picture(file=file)
    first.show({"calculator": "x"}, [{"svg": "<svg/>", "name": n, "words": n} for n in ("a", "b")], 1)
    first.freeze(True)
    again = Picture(file=file)
    assert (again.shown(), again.state()) == (first.shown(), first.state())
    for damage in (b"", b"{", b"[]", b'{"number": 1, "frames": [1], "at": 0, "card": null}', b"\xff"):
        file.write_bytes(damage)
        assert Picture(file=file).shown()["svg"] == ""


def test_requests_that_cannot_be_answered_get_words(home):
    assert answers.reply(home, {"what": "form", "calculator": "memory.rat"})["errors"][0]["message"].startswith(
        "no calculator memory.rat; did you mean memory.rate?"
    )
    told = answers.reply(home, {"what": "card", "calculator": "memory.rate", "inputs": {"rate": "x", "cas": "y"}})
    assert [e["input"] for e in told["errors"]] == ["rate", "cas"]
    assert answers.reply(home, {"what": "nonsense"})["errors"]
    assert [e["title"] for e in answers.reply(home, {"what": "run", "episode": 9})["episodes"]] == ["The first one"]


def test_a_board_hears_that_the_picture_has_changed_and_not_what_it_shows():
    board = Board()
    picture = Picture(board)
    before = json.loads(board.text())
    picture.take("<svg/>", "result", "ten")
    after = json.loads(board.text())
    assert before["picture"] != after["picture"] == picture.shown()["number"]
    assert set(after) == {"picture"}
    assert "svg" not in board.text()
    assert picture.shown()["svg"] == "<svg/>"


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


def test_a_disk_that_is_full_keeps_nothing_off_the_picture_and_is_told(tmp_path):
    (tmp_path / "taken").write_text("a file where a folder should be", "utf-8")
    picture = Picture(file=tmp_path / "taken" / "on-air.json")
    picture.take("<svg/>", "result", "ten")
    assert picture.shown()["svg"] == "<svg/>"
    assert picture.state()["kept"] is False


@pytest.mark.parametrize(
    ("moments", "began", "cuts", "found"),
    [
        ({1: 100.0, 2: 160.9}, 100.0, [], {1: 0, 2: 60}),
        ({1: 90.0}, 100.0, [], {1: 0}),
        ({1: 130.0}, 100.0, [(10, 20), (15, 25)], {1: 15}),
        ({1: 115.0}, 100.0, [(10, 20)], {1: 10}),
        ({1: 105.0}, 100.0, [(10, 20)], {1: 5}),
    ],
)
def test_marks_become_start_times(moments, began, cuts, found):
    assert marks.starts(moments, began, cuts) == found


def test_a_cut_backwards_is_refused():
    with pytest.raises(ValueError, match=r"a cut goes from an earlier to a later time, got 0:20 to 0:10"):
        marks.starts({1: 1.0}, 0.0, [(20, 10)])


def test_start_times_are_written_without_touching_anything_else(tmp_path):
    sheet = tmp_path / "001-a.md"
    sheet.write_text(SHEET, "utf-8")
    text = marks.write_starts(sheet, {1: 4, 2: 605})
    expected = SHEET.replace("  - question: What do", '  - start: "0:04"\n    question: What do').replace(
        '"9:59"', '"10:05"'
    )
    assert text == expected
    with pytest.raises(marks.CannotWrite, match="has 2 segments, so there is no segment 3"):
        marks.write_starts(sheet, {3: 1})
    assert sheet.read_text("utf-8") == expected
