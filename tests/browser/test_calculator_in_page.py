"""What only a browser shows: typing, mistakes, links, common cases, keyboard, phone, a blocked engine."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from urllib.parse import parse_qsl, urlsplit

import pytest
from playwright.sync_api import Browser, BrowserContext, Locator, Page, Route, expect

from calculators.catalogue import find
from calculators.door import answer
from tests.browser.conftest import Host
from tests.conftest import PAGE_MS, new_context

Visit = Callable[..., Page]
PATIENCE_MS = 20_000  # patience with the engine's first start on a busy machine


def section(page: Page, number: int = 0) -> Locator:
    return page.locator("section.wa-calculator").nth(number)


def settled(page: Page, number: int = 0) -> None:
    """Wait until the result belongs to the inputs."""
    expect(section(page, number).locator(".wa-result")).not_to_have_attribute("aria-busy", "true", timeout=PATIENCE_MS)
    expect(section(page, number)).not_to_have_class(re.compile("wa-stale"), timeout=PATIENCE_MS)


def result_html(page: Page, number: int = 0, of: str = "memory.rate") -> str:
    """The answer's two elements as they stand in the page, with every fold open, as in the HTML that Python makes."""
    whole = section(page, number)
    assert whole.get_attribute("data-calculator") == of
    return whole.evaluate(
        """section => [...section.querySelectorAll(
            ':scope > .wa-outcome .wa-result, :scope > .wa-details'
        )].map(part => {
            const copy = part.cloneNode(true);
            for (const fold of copy.querySelectorAll('details[data-fold]')) {
                fold.removeAttribute('open');
                fold.setAttribute('open', '');
            }
            return copy.innerHTML;
        }).join('')"""
    )


def direct(page: Page, prefix: str, of: str = "memory.rate", **inputs: str) -> str:
    """What Python says for these inputs, as a browser writes the markup out again."""
    html = json.loads(answer(of, json.dumps(inputs), "html", prefix))["html"]
    return page.evaluate(
        "html => { const box = document.createElement('output'); box.innerHTML = html; return box.innerHTML }", html
    )


def open_form(page: Page, number: int = 0) -> None:
    """On a phone the form stands behind its button."""
    button = section(page, number).locator("summary.wa-open-form")
    expect(button).to_have_text("Put in your own parts", use_inner_text=True)
    button.tap()
    expect(button).to_have_text("Close the form", use_inner_text=True)
    expect(section(page, number).locator("form.wa-form")).to_be_visible()


@pytest.fixture(scope="module")
def awake(bench_folder: Path, browser: Browser) -> Iterator[Page]:
    """A page whose engine has been started once for all tests that only type. Another host it asks for nothing."""
    host, context = Host(bench_folder), new_context(browser, warm=False, viewport={"width": 1440, "height": 900})
    context.set_default_timeout(PAGE_MS)
    told: list[str] = []
    own = (host.address, "data:", "blob:")
    context.on("request", lambda asked: None if asked.url.startswith(own) else told.append(f"asked {asked.url}"))
    context.on("weberror", lambda fault: told.append(str(fault.error)))
    page = context.new_page()
    page.goto(f"{host.address}answers/bench/one.html")
    yield page
    context.close()
    host.close()
    assert told == []


@pytest.fixture
def typed(awake: Page) -> Page:
    """That page with the example in its form, worked out anew."""
    awake.get_by_label("Rate").fill("3200")
    awake.get_by_role("textbox", name="CAS latency").fill("16")
    settled(awake)
    assert result_html(awake) == direct(awake, "memory-rate-1", rate="3200", cas="16")
    return awake


@pytest.mark.parametrize("warm", [True, False])
def test_typing_gives_the_very_markup_that_python_makes_here(visit: Visit) -> None:
    page = visit()
    built = direct(page, "memory-rate-1", rate="3200", cas="16")
    assert result_html(page) == built, "the page's own example is not what Python makes"
    page.get_by_label("Rate").fill("3600")
    settled(page)
    assert result_html(page) == direct(page, "memory-rate-1", rate="3600", cas="16")
    page.get_by_label("Rate").fill("3200")
    settled(page)
    assert result_html(page) == built, "back at the example, the live result differs from the built one"


# Notes what a keystroke changes, but for the line that says how it goes: on a slow machine that has something to say.
CHANGES = """
() => {
  window.changes = [];
  const named = ({ nodeType, localName, classList }) =>
    nodeType === 1 ? [localName, ...classList].join(".") : "#text";
  const says = target => (target.closest ? target : target.parentElement)?.closest(".wa-state");
  new MutationObserver(list => {
    for (const { type, attributeName, target } of list) {
      if (!says(target)) window.changes.push(`${named(target)} ${attributeName ?? type}`);
    }
  }).observe(document.body, { subtree: true, childList: true, characterData: true, attributes: true });
}
"""


def test_a_keystroke_touches_nothing_but_what_is_another(typed: Page) -> None:
    page = typed
    page.get_by_label("Rate").fill("3600")
    settled(page)
    page.evaluate(CHANGES)
    page.get_by_label("Rate").fill("3601")
    settled(page)
    expect(section(page).locator(".wa-headline")).to_contain_text("3601")
    changes = set(page.evaluate("changes"))
    assert "#text characterData" in changes
    # A machine that needs more than 50 ms has the result marked, and the buttons off, in between.
    marked = {"button.wa-action disabled", "button.wa-action.wa-to-screen disabled"}
    assert {each for each in changes if not each.endswith(("characterData", " width", " x"))} - marked == {
        "output.wa-result aria-busy", "div.wa-answer.wa-first data-digest", "section.wa-calculator data-link",
        "section.wa-calculator class",
    }  # fmt: skip


def test_what_is_pressed_while_a_result_is_on_its_way_hands_on_that_result(typed: Page) -> None:
    page = typed
    page.get_by_label("Rate").fill("3600")
    settled(page)
    page.evaluate(
        """() => {
        window.copied = [];
        const clipboard = { writeText: async text => void copied.push(text) };
        Object.defineProperty(navigator, "clipboard", { value: clipboard, configurable: true });
        const rate = document.querySelector("input[name=rate]");
        const type = value => {
            rate.value = value;
            rate.dispatchEvent(new Event("input", { bubbles: true }));
        };
        const copy = [...document.querySelectorAll("button")].find(each => each.textContent === "Copy link");
        type("3601");
        copy.click(); // before anything could have been worked out
        window.pressed = copied.length;
        type("3602"); // whoever types on has not asked for this one's link
        type("3603");
        copy.click();
    }"""
    )
    settled(page)
    page.wait_for_function("() => copied.length")
    assert page.evaluate("pressed") == 0, "the result before is not handed on"
    page.get_by_label("Rate").fill("3604")
    settled(page)
    assert [text.partition("rate=")[2][:4] for text in page.evaluate("copied")] == ["3603"], "once, and not once more"
    page.evaluate("delete navigator.clipboard")


def test_the_newest_edit_wins(typed: Page) -> None:
    page = typed
    rate = page.get_by_label("Rate")
    rate.fill("3600")
    settled(page)
    rate.press("End")
    rate.press("Backspace")
    for key in ("1", "Backspace", "2", "Backspace", "5"):
        rate.press(key)
    settled(page)
    expect(section(page).locator(".wa-headline")).to_contain_text("3605")


def test_a_wrong_value_stays_and_is_explained_beside_it(typed: Page) -> None:
    page = typed
    before = result_html(page)
    rate = page.get_by_label("Rate")
    rate.fill("three thousand")
    error = section(page).locator("[data-input=rate] .wa-error")
    expect(error).to_contain_text("must be", timeout=PATIENCE_MS)
    expect(error).to_contain_text("'three thousand'")
    expect(rate).to_have_value("three thousand")
    expect(rate).to_have_attribute("aria-invalid", "true")
    assert error.get_attribute("id") in (rate.get_attribute("aria-describedby") or "").split()
    expect(section(page)).to_have_class(re.compile("wa-stale"))
    expect(section(page).locator(".wa-state")).to_contain_text("earlier values")
    assert result_html(page) == before, "the old result is marked, not taken away"
    expect(page.get_by_role("button", name="Copy link")).to_be_disabled()
    rate.fill("3600")
    settled(page)
    expect(error).to_be_hidden()
    expect(rate).not_to_have_attribute("aria-invalid", "true")


def test_all_wrong_values_are_told_at_once(typed: Page) -> None:
    page = typed
    page.get_by_label("Rate").fill("0")
    page.get_by_role("textbox", name="CAS latency").fill("")
    expect(section(page).locator(".wa-error:visible")).to_have_count(2, timeout=PATIENCE_MS)
    expect(section(page).locator(".wa-state")).to_contain_text("2 values")


def test_a_copied_link_brings_the_inputs_back(visit: Visit, browser: Browser) -> None:
    page = visit()
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.get_by_label("Rate").fill("3600")
    settled(page)
    page.get_by_role("button", name="Copy link").click()
    expect(section(page).locator(".wa-doubt > .wa-told")).to_contain_text("Link copied")
    link = page.evaluate("navigator.clipboard.readText()")
    name, _, carried = urlsplit(link).fragment.partition(":")
    assert name == "memory.rate"
    pairs = dict(parse_qsl(carried))
    digest = section(page).locator(".wa-first").get_attribute("data-digest")
    assert pairs == {"rate": "3600", "cas": "16", "made": f"{find('memory.rate').version}-{digest}"}
    shown = result_html(page)
    page.context.new_page().goto(link)
    other = page.context.pages[-1]
    settled(other)
    expect(other.get_by_label("Rate")).to_have_value("3600")
    assert result_html(other) == shown
    expect(section(other).locator(".wa-link-note")).to_have_text("These are the values from the link you followed.")


def test_an_answer_on_its_way_is_not_shown_for_a_link_to_the_example(visit: Visit, host: Host) -> None:
    host.late["memory.bin"] = 1
    page = visit("answers/bench/two.html")
    built = result_html(page)
    first, second = (section(page, number).get_by_label("Rate") for number in range(2))
    example = first.input_value()
    first.fill("3601")
    expect(section(page)).to_have_class(re.compile("wa-stale"))
    page.evaluate("rate => { location.hash = `memory.rate:rate=${rate}&cas=16` }", example)
    expect(section(page)).not_to_have_class(re.compile("wa-stale"))
    second.fill("5602")  # asked after the earlier question, so once this is answered that answer would be there
    settled(page, 1)
    expect(section(page, 1).locator(".wa-headline")).to_contain_text("5602")
    expect(first).to_have_value(example)
    assert result_html(page) == built
    first.fill("3602")
    settled(page)
    expect(section(page).locator(".wa-headline")).to_contain_text("3602")


STALE_LINKS = [
    ("memory.rate:rate=3600&colour=blue&made=1-00000000", ".wa-link-note", "“colour”", "3600"),
    ("memory.rate:rate=3600&made=1-00000000", ".wa-link-note", "Today’s answer differs", "3600"),
    ("memory.rate:rate=fast&cas=18", ".wa-state", "needs another look", "fast"),
    ("memory.rate:generation=ddr9", ".wa-state", "needs another look", "3200"),
    ("memory.rate:&&=&%ff=%00", ".wa-link-note", "", "3200"),
    ("memory.gone:rate=3600", ".wa-link-note", "not on this page (memory.gone)", "3200"),
]  # by its fragment: where something is said of it, what, and the rate in the form


def test_a_stale_link_is_told_and_the_rest_used(visit: Visit, host: Host) -> None:
    page = visit()
    for fragment, place, said, rate in STALE_LINKS:
        page.goto("about:blank")  # else the page would stay and only be told of another link
        page.goto(f"{host.address}answers/bench/one.html#{fragment}")
        expect(section(page).locator(place)).to_contain_text(said, timeout=PATIENCE_MS)
        expect(page.get_by_label("Rate")).to_have_value(rate)


@pytest.mark.parametrize("fragment", ["memory.rate:rate=3600&colour=blue&made=1-00000000", "memory.gone:rate=3600"])
def test_on_a_phone_what_is_said_of_a_link_and_of_copying_is_in_view(
    browser: Browser, host: Host, fragment: str
) -> None:
    context = new_context(browser, warm=False, viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True)
    page = context.new_page()
    page.goto(f"{host.address}answers/bench/one.html#{fragment}")
    note = section(page).locator(".wa-link-note")
    expect(note).to_contain_text("ink", timeout=PATIENCE_MS)
    settled(page)
    expect(note).to_be_in_viewport(ratio=1)
    assert (
        page.evaluate(
            """() => {
            const { left, top } = document.querySelector('.wa-link-note').getBoundingClientRect();
            return document.elementFromPoint(left + 20, top + 2)?.className;
        }"""
        )
        == "wa-link-note"
    ), "something lies over the note"
    button = page.get_by_role("button", name="Copy as text")
    button.click()
    told = section(page).locator(".wa-actions > .wa-told")
    expect(told).not_to_be_empty()
    expect(told).to_be_in_viewport(ratio=1)
    open_form(page)
    page.get_by_label("Rate").fill("3601")
    expect(note).to_be_empty()
    expect(told).to_be_empty()
    context.close()


def phone_page(browser: Browser, host: Host, width: int = 360, path: str = "answers/bench/one.html") -> Page:
    """A page on a phone; close its context."""
    context = new_context(browser, warm=False, viewport={"width": width, "height": 740}, has_touch=True, is_mobile=True)
    page = context.new_page()
    page.goto(host.address + path)
    return page


def test_an_example_is_called_one_until_something_is_changed(browser: Browser, host: Host) -> None:
    page = phone_page(browser, host)
    label = section(page).locator(".wa-example")
    strip = section(page).locator(".wa-glance")
    expect(label).to_have_text("An example")
    expect(strip).to_be_hidden()
    open_form(page)
    page.get_by_label("Rate").evaluate("field => field.scrollIntoView({ block: 'start' })")
    expect(strip).to_contain_text(re.compile("^The example. Tap to see all of it.*DDR4-3200"))
    page.get_by_label("Rate").fill("nonsense")
    expect(section(page).locator(".wa-error:visible")).to_have_count(1, timeout=PATIENCE_MS)
    expect(strip).to_have_text("One value needs another look")
    page.get_by_label("Rate").fill("3600")
    settled(page)
    expect(strip).to_contain_text(re.compile("^Your result. Tap to see all of it.*DDR4-3600"))
    expect(label).to_have_text("Your result")
    # inputs are kept after a short pause, since browsers limit how often a page may write its history
    page.wait_for_function("() => JSON.stringify(history.state).includes('3600')")
    page.reload()
    settled(page)
    expect(section(page).locator(".wa-headline")).to_contain_text("3600", timeout=PATIENCE_MS)
    expect(label).to_have_text("Your result")
    page.context.close()


# By then the page has been told what came into view, and has drawn what it makes of that.
TWO_FRAMES = "new Promise(drawn => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(drawn))))"


def test_on_a_phone_the_strip_never_covers_the_field_one_types_in(browser: Browser, host: Host) -> None:
    """Not when a field is reached, and not when the strip grows with what it says."""
    page = phone_page(browser, host, 390, "answers/bench/mix.html")
    open_form(page)
    strip = section(page).locator(".wa-glance")
    fields = section(page).locator(".wa-form :is(input, select, textarea):visible")
    covered = """field => {
        const strip = document.querySelector('.wa-glance').getBoundingClientRect();
        const box = field.getBoundingClientRect();
        return box.bottom > strip.top || box.top < 0;
    }"""
    assert fields.count() > 3
    seen = 0
    for field in fields.all():
        field.evaluate("field => field.scrollIntoView({ block: 'end', behavior: 'instant' })")
        field.evaluate("field => field.focus({ preventScroll: true })")
        page.evaluate(TWO_FRAMES)
        if strip.is_visible():
            seen += 1
            assert not field.evaluate(covered), field.evaluate("field => field.name")
    assert seen > 3
    field = section(page).locator(".wa-form input[type=text]:visible").last
    field.focus()
    for typed in ("nonsense", "1", "2"):
        field.evaluate("field => field.scrollIntoView({ block: 'end', behavior: 'instant' })")
        page.keyboard.press("ControlOrMeta+a")
        page.keyboard.type(typed)
        expect(strip).to_be_visible()
        expect(section(page).locator(".wa-result")).to_have_attribute("aria-busy", "false", timeout=PATIENCE_MS)
        page.evaluate(TWO_FRAMES)
        assert not field.evaluate(covered), typed
    page.context.close()


def test_the_strip_says_that_numbers_are_being_worked_out_and_never_shows_old_ones(
    browser: Browser, host: Host
) -> None:
    context = new_context(browser, warm=False, viewport={"width": 390, "height": 740}, has_touch=True, is_mobile=True)
    put_in_place_of_the_first_worker(context, NEVER_READY)
    page = context.new_page()
    page.goto(f"{host.address}answers/bench/one.html")
    open_form(page)
    page.get_by_label("Rate").evaluate("field => field.scrollIntoView({ block: 'start' })")
    strip = section(page).locator(".wa-glance")
    expect(strip).to_contain_text("3200")
    page.get_by_label("Rate").fill("3600")
    expect(strip).to_be_visible()
    expect(strip).to_have_text("Working out your numbers")
    context.close()


def test_on_a_wide_screen_the_answer_stays_in_view_beside_the_form_and_never_over_what_comes_below(
    visit: Visit,
) -> None:
    page = visit("answers/bench/mix.html")
    places = """() => Object.fromEntries(
        ['.wa-first', '.wa-asks', '.wa-header', '.wa-between', '.wa-details'].map(each => {
        const { top, bottom } = document.querySelector(each).getBoundingClientRect();
        return [each, [top, bottom]];
    }))"""
    form_ends = page.evaluate(places)[".wa-asks"][1]
    assert form_ends > 1000, "a form longer than the screen"
    for at in range(0, int(form_ends) + 1200, 150):
        page.evaluate(f"window.scrollTo({{ top: {at}, behavior: 'instant' }})")
        page.evaluate("new Promise(requestAnimationFrame)")
        seen = page.evaluate(places)
        assert seen[".wa-first"][1] <= min(seen[".wa-between"][0], seen[".wa-details"][0]) + 1, at
        if at and seen[".wa-asks"][1] > 600:  # still among the inputs
            assert seen[".wa-first"][0] >= seen[".wa-header"][1], at
            expect(page.locator(".wa-headline").first).to_be_in_viewport(ratio=1)


def test_on_a_phone_the_working_waits_to_be_opened_and_stays_as_the_reader_has_it(browser: Browser, host: Host) -> None:
    page = phone_page(browser, host, 390)
    fold = section(page).locator(".wa-working-fold")
    expect(fold).not_to_have_attribute("open", re.compile(""))
    open_form(page)
    page.get_by_label("Rate").fill("3600")
    settled(page)
    expect(section(page).locator(".wa-headline")).to_contain_text("3600", timeout=PATIENCE_MS)
    expect(fold).not_to_have_attribute("open", re.compile(""))
    fold.locator("summary").click()
    page.get_by_label("Rate").fill("3733")
    settled(page)
    expect(section(page).locator(".wa-headline")).to_contain_text("3733", timeout=PATIENCE_MS)
    expect(fold).to_have_attribute("open", "")
    page.context.close()


OPEN_FOLDS = """section => [...section.querySelectorAll(':is(.wa-result, .wa-details) details[data-fold]')]
    .filter(fold => fold.open).map(fold => fold.querySelector('summary').textContent)"""


def test_a_fold_stays_as_the_reader_has_it_while_folds_before_it_come_and_go(visit: Visit) -> None:
    page = visit("answers/bench/mix.html")
    whole = section(page)
    note, working = "Leave on automatic", "The working"  # every case has both, among ever other notes
    folds = whole.locator(".wa-details details[data-fold]")
    names = [each.text_content() for each in folds.locator("> summary").all()]
    assert note not in whole.evaluate(OPEN_FOLDS)
    assert working in whole.evaluate(OPEN_FOLDS)
    folds.nth(names.index(note)).locator("> summary").click()
    folds.nth(names.index(working)).locator("> summary").click()  # the reader closes this one
    notes_open = """section => [...section.querySelectorAll('details[data-fold=note][open] > summary')]
        .map(summary => summary.innerText)"""
    places = set()
    for button in whole.locator(".wa-preset").all():
        button.click()
        expect(button).to_have_attribute("aria-pressed", "true")
        assert whole.evaluate(notes_open) == [note]
        assert working not in whole.evaluate(OPEN_FOLDS)
        titles = [each.text_content() for each in whole.locator("details[data-fold=note] > summary").all()]
        places.add(titles.index(note))
    assert len(places) > 1, "it stood among other notes each time"


def test_a_link_into_a_folded_part_opens_it(browser: Browser, host: Host) -> None:
    page = phone_page(browser, host, 390)
    why = page.locator('details[data-fold="why"]')
    expect(why).not_to_have_attribute("open", re.compile(""))
    expect(page.get_by_text("Prose with code")).to_be_hidden()
    for _ in range(2):  # once more after the reader has closed it: the address stays the same then
        page.locator(".wa-jumps").get_by_role("link", name="Why").tap()
        expect(why).to_have_attribute("open", "")
        expect(page.get_by_text("Prose with code")).to_be_in_viewport()
        why.locator("> summary").tap()
        expect(why).not_to_have_attribute("open", re.compile(""))
    address = page.url
    assert "#" in address
    page.close()
    page = phone_page(browser, host, 390, address.removeprefix(host.address))
    expect(page.locator('details[data-fold="why"]')).to_have_attribute("open", "")
    expect(page.locator('details[data-fold="why"] h2')).to_be_in_viewport()
    page.context.close()


def test_paper_has_no_folds_and_afterwards_they_are_as_they_were(browser: Browser, host: Host) -> None:
    page = phone_page(browser, host, 390, "answers/bench/plan.html")
    expect(page.locator("html")).to_have_class(re.compile("wa-awake"))
    closed = "[...document.querySelectorAll('details[data-fold]')].map(fold => fold.open)"
    before = page.evaluate(closed)
    assert before.count(False) > 10
    page.evaluate("window.dispatchEvent(new Event('beforeprint'))")
    assert all(page.evaluate(closed))
    page.evaluate("window.dispatchEvent(new Event('afterprint'))")
    assert page.evaluate(closed) == before
    page.context.close()


def test_on_a_phone_every_common_case_is_seen_whole(browser: Browser, host: Host) -> None:
    page = phone_page(browser, host)
    open_form(page)
    buttons = section(page).locator(".wa-preset")
    assert buttons.count() > 2
    for button in buttons.all():
        box = button.bounding_box()
        assert box is not None
        assert box["x"] >= 0
        assert box["x"] + box["width"] <= 360
        assert button.evaluate("each => each.scrollWidth <= each.clientWidth"), "no word is cut"
        assert box["height"] >= 44
    buttons.last.click()
    expect(buttons.last).to_have_attribute("aria-pressed", "true")
    assert page.evaluate("document.documentElement.scrollWidth") == 360
    page.context.close()


def test_a_common_case_shows_at_once_and_without_the_engine(visit: Visit, host: Host) -> None:
    host.missing.update({"worker.js"})
    page = visit()
    page.get_by_role("button", name="DDR5-6000, CAS 30").click()
    expect(section(page).locator(".wa-headline")).to_contain_text("DDR5-6000", timeout=500)
    expect(page.get_by_label("Rate")).to_have_value("6000")
    expect(page.get_by_role("button", name="DDR5-6000, CAS 30")).to_have_attribute("aria-pressed", "true")


def test_without_scripts_the_page_answers_its_example(browser: Browser, host: Host) -> None:
    context = new_context(browser, java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{host.address}answers/bench/one.html")
    expect(section(page).locator(".wa-headline")).to_contain_text("DDR4-3200")
    expect(section(page).locator(".wa-example")).to_be_visible()
    expect(page.get_by_label("Rate")).to_be_disabled()
    context.close()


def test_by_keyboard_alone(visit: Visit) -> None:
    page = visit()
    for _ in range(80):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement?.name") == "rate":
            break
    else:
        pytest.fail("the Tab key never reaches the rate")
    page.keyboard.press("ControlOrMeta+a")
    page.keyboard.type("3600")
    page.keyboard.press("Enter")
    settled(page)
    assert page.evaluate("document.activeElement?.name") == "rate", "the result took the focus away"
    expect(section(page).locator(".wa-headline")).to_contain_text("3600")
    reached = set()
    for _ in range(40):
        page.keyboard.press("Tab")
        reached.add(page.evaluate("document.activeElement?.textContent.trim()"))
    assert {"Copy link", "Copy as text", "This is wrong"} <= reached


def test_this_is_wrong_gives_a_text_to_send(typed: Page) -> None:
    page = typed
    page.get_by_label("Rate").fill("3600")
    settled(page)
    button = page.get_by_role("button", name="This is wrong")
    button.click()
    expect(button).to_have_attribute("aria-expanded", "true")
    text = page.get_by_label("What to send").input_value()
    version = find("memory.rate").version
    for part in ("#memory.rate:rate=3600", f"memory.rate, version {version}", "rate = 3600", "What I think is right"):
        assert part in text
    page.get_by_label("What to send").fill("It is 8 ns. " + text)
    page.get_by_label("Rate").fill("3200")  # closes it: the report would be of another result
    settled(page)
    button.click()
    again = page.get_by_label("What to send").input_value()
    assert again.startswith("It is 8 ns. What I think is right")
    assert "rate = 3200" in again
    assert "rate = 3600" not in again


# An address for corrections, as a programme sets it, and where the report then goes.
ADDRESSES = [
    ("corrections@answers.example", "mailto:corrections@answers.example?", "body"),
    ("https://answers.example/wrong?from=page", "https://answers.example/wrong?from=page&", "text"),
]


def set_corrections(context: BrowserContext, address: str) -> None:
    """Pages come as if the programme had set this address."""

    def answer_with(route: Route) -> None:
        if not route.request.is_navigation_request():  # kept for reading offline
            return route.continue_()
        response = route.fetch()
        page = re.sub(r'data-corrections="[^"]*"', f'data-corrections="{address}"', response.text())
        assert f'data-corrections="{address}"' in page
        return route.fulfill(response=response, body=page)

    context.route("**/*.html", answer_with)


@pytest.mark.parametrize(("address", "start", "carries"), ADDRESSES)
def test_this_is_wrong_leads_to_the_programme_with_page_inputs_and_answer(
    visit: Visit, context: BrowserContext, address: str, start: str, carries: str
) -> None:
    set_corrections(context, address)
    page = visit()
    page.get_by_label("Rate").fill("3600")
    settled(page)
    page.get_by_role("button", name="This is wrong").click()
    send = page.get_by_role("link", name="Send it to the programme")
    send.evaluate("link => link.addEventListener('click', event => event.preventDefault())")
    send.click()
    target = send.get_attribute("href") or ""
    assert target.startswith(start)
    sent = dict(parse_qsl(urlsplit(target).query))[carries]
    assert sent == page.get_by_label("What to send").input_value()
    # the page keeps numbers and units together, what is sent has plain spaces
    headline = section(page).locator(".wa-headline").inner_text().replace("\u00a0", " ")
    for part in (page.title(), page.url.partition("#")[0], "#memory.rate:rate=3600", "rate = 3600", headline):
        assert part in sent


def test_where_no_address_is_set_nothing_leads_nowhere(visit: Visit, context: BrowserContext) -> None:
    set_corrections(context, "")
    page = visit()
    page.get_by_role("button", name="This is wrong").click()
    expect(page.get_by_label("What to send")).to_be_visible()
    expect(page.get_by_role("link", name="Send it to the programme")).to_have_count(0)
    expect(page.locator(".wa-report > p")).to_contain_text("where you found the link")


def test_back_brings_the_inputs_back(visit: Visit) -> None:
    page = visit()
    page.get_by_label("Rate").fill("3600")
    settled(page)
    page.get_by_role("link", name="link", exact=True).click()
    expect(page).to_have_title(re.compile("Two calculators"))
    page.go_back()
    expect(page.get_by_label("Rate")).to_have_value("3600")
    settled(page)
    expect(section(page).locator(".wa-headline")).to_contain_text("3600")


def test_two_calculators_share_the_engine_and_nothing_else(visit: Visit) -> None:
    page = visit("answers/bench/two.html")
    second = result_html(page, 1)
    section(page, 0).get_by_label("Rate").fill("3600")
    settled(page, 0)
    assert result_html(page, 1) == second
    section(page, 1).get_by_label("Rate").fill("5600")
    settled(page, 1)
    expect(section(page, 0).locator(".wa-headline")).to_contain_text("3600")
    expect(section(page, 1).locator(".wa-headline")).to_contain_text("5600")
    assert len([each for each in page.workers if each.url.startswith("blob:")]) == 1
    assert page.evaluate("[...document.querySelectorAll('[id]')].length") == page.evaluate(
        "new Set([...document.querySelectorAll('[id]')].map(each => each.id)).size"
    ), "an id stands on the page twice"


@pytest.mark.parametrize("width", [360, 390])
def test_on_a_phone_nothing_sticks_out_and_a_thumb_can_hit(browser: Browser, host: Host, width: int) -> None:
    context = new_context(browser, warm=False, viewport={"width": width, "height": 740}, has_touch=True, is_mobile=True)
    page = context.new_page()
    for path in ("index.html", "answers/bench/one.html", "answers/bench/two.html"):
        page.goto(host.address + path)
        page.evaluate("document.querySelectorAll('details').forEach(each => each.open = true)")
        assert page.evaluate("document.documentElement.scrollWidth") == width, path
        small = page.evaluate(
            """() => [...document.querySelectorAll('.wa-calculator :is(button, input, select, summary)')]
                .filter(each => each.getClientRects().length && each.getBoundingClientRect().height < 44)
                .map(each => each.outerHTML.slice(0, 90))"""
        )
        assert not small, f"too small for a thumb on {path}"
    context.close()


def both(name: str) -> set[str]:
    """An engine file and the script that it also stands in."""
    return {name, f"{name}.js"}


POLICY = "default-src 'self'; script-src 'self' 'unsafe-inline'; style-src 'self' 'unsafe-inline'; img-src 'self' data:"


@pytest.mark.parametrize(
    ("missing", "headers", "said"),
    [
        (set(), {"Content-Security-Policy": POLICY}, "security policy"),
        # Each file also stands in a script, so both must be away; behind the kept memory is the plain start.
        (both("worker.js") | both("plain_worker.js"), {}, "could not be loaded"),
        (both("lean.wasm") | both("pyodide.asm.wasm"), {}, "could not be loaded"),
        (both("memory.bin") | both("python_stdlib.zip"), {}, "could not be loaded"),
        (both("memory.bin") | both("pyodide-lock.json"), {}, "could not be loaded"),
        (both("memory.bin") | both("calculators-1-cp314-none-any.whl"), {}, "could not be loaded"),
    ],
)
def test_an_engine_that_cannot_start_is_told_and_the_built_answer_stays(
    visit: Visit, host: Host, missing: set[str], headers: dict[str, str], said: str
) -> None:
    host.missing.update(missing)
    host.headers.update(headers)
    page = visit()
    built = result_html(page)
    page.get_by_label("Rate").fill("3600")
    state = section(page).locator(".wa-state")
    expect(state).to_contain_text(said, timeout=PATIENCE_MS)
    expect(state).to_contain_text("worked out when this page was made")
    assert result_html(page) == built
    assert "Error" not in state.inner_text()
    asked = {path.partition("?")[0].rpartition("/")[2] for path in host.asked}
    assert missing <= asked, "each way is tried: the second copy of a file, and the plain start"


def test_after_a_failed_start_the_next_edit_tries_again(visit: Visit, host: Host) -> None:
    host.missing.update(both("lean.wasm") | both("pyodide.asm.wasm"))
    page = visit()
    page.get_by_label("Rate").fill("3600")
    expect(section(page).locator(".wa-state")).to_contain_text("could not be loaded", timeout=PATIENCE_MS)
    host.missing.clear()
    page.get_by_label("Rate").fill("3601")
    settled(page)
    expect(section(page).locator(".wa-headline")).to_contain_text("3601")


# A worker that is ready at once and never answers.
STUCK = """self.onmessage = ({ data }) => {
  if (data.kind === "hello") self.postMessage({ kind: "up" });
  if (typeof data === "string") while (true) {}
  if (data.kind === "runtime") self.postMessage({ kind: "ready", how: "snapshot", heap: 1 });
};"""
NEVER_READY = "self.onmessage = () => {};"


def put_in_place_of_the_first_worker(context: BrowserContext, script: str) -> None:
    """The engine's first worker on a page runs another script; later ones are its own."""
    context.add_init_script(
        f"""const Real = window.Worker; let first = true;
        window.Worker = class extends Real {{
          constructor(address, options) {{
            super(first ? URL.createObjectURL(new Blob([{json.dumps(script)}])) : address, options);
            first = false;
          }}
        }};"""
    )


# Notes all that is said of a calculator, however soon something else is said.
STATES = """() => {
  const state = document.querySelector(".wa-state");
  window.states = [];
  new MutationObserver(() => states.push(state.textContent)).observe(state, { childList: true, characterData: true });
}"""


def hurry(context: BrowserContext, times: int) -> None:
    """Let waits of five to twenty seconds, for an answer or a page's end, pass as many times faster as `hurry` says."""
    context.add_init_script(
        f"window.hurry = {times}; const plain = window.setTimeout; window.setTimeout = (call, ms, ...rest) =>"
        f" plain(call, ms >= 5000 && ms <= 20000 ? ms / window.hurry : ms, ...rest);"
    )


def test_a_calculation_that_does_not_end_is_stopped_and_the_next_gets_a_fresh_worker(
    visit: Visit, host: Host, context: BrowserContext
) -> None:
    hurry(context, 20)
    put_in_place_of_the_first_worker(context, STUCK)
    page = visit()
    built = result_html(page)
    page.evaluate(STATES)
    page.get_by_label("Rate").fill("3600")
    expect(section(page).locator(".wa-state")).to_contain_text("more than ten seconds and was stopped")
    assert page.evaluate("states.at(-2)") == "Working it out."
    page.evaluate("hurry = 1")  # the next one is a real one
    assert result_html(page) == built
    page.get_by_label("Rate").fill("3601")
    settled(page)
    expect(section(page).locator(".wa-headline")).to_contain_text("3601")


def test_an_engine_that_never_gets_ready_is_told_after_two_minutes(
    visit: Visit, host: Host, context: BrowserContext
) -> None:
    put_in_place_of_the_first_worker(context, NEVER_READY)
    context.clock.install()
    page = visit()
    page.get_by_label("Rate").fill("3600")
    state = section(page).locator(".wa-state")
    expect(state).to_contain_text("tarting")
    page.get_by_label("Rate").press_sequentially("1")
    expect(page.get_by_label("Rate")).to_have_value("36001")
    page.clock.fast_forward(1500)
    expect(state).to_contain_text("this first time")
    for _ in range(2):
        expect(state).to_contain_text("this first time")
        page.clock.fast_forward(60_000)
    expect(state).to_contain_text("did not start within two minutes")


def test_nothing_of_the_engine_is_fetched_for_readers_who_save_data(browser: Browser, host: Host) -> None:
    context = new_context(browser, warm=False, service_workers="allow")
    page = context.new_page()
    page.goto(f"{host.address}answers/bench/one.html", wait_until="networkidle")
    # A busy browser tells of a form that came open only when the page's script already listens.
    late = "form => { form.dispatchEvent(new Event('toggle')); return form.open }"
    assert page.locator("details.wa-asks").first.evaluate(late)
    # What an idle page brings last; it has run, and another idle moment has passed.
    kept = "() => performance.getEntriesByType('resource').some(({ name }) => name.endsWith('/keep_offline.js'))"
    page.wait_for_function(kept)
    page.evaluate("new Promise(idle => requestIdleCallback(() => requestIdleCallback(idle)))")
    page.wait_for_timeout(500)
    assert not [path for path in host.asked if "/engine/" in path or "/offline.js" in path]
    page.get_by_label("Rate").fill("3600")
    settled(page)
    assert not [path for path in host.asked if "/offline.js" in path]
    context.close()
