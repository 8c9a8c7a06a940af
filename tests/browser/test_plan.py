"""A plan that one ticks off: ticks in the address, the code beside it, the sheet of paper, without a network."""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from pathlib import Path
from urllib.parse import parse_qsl, urlsplit

from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect

from build_tools.installer.testing import ALL
from calculators.catalogue import find
from calculators.desk.answer import Step
from calculators.desk.links import read_fragment
from calculators.drivers.plans.consoles import SAFE_CONSOLE
from tests.browser.conftest import Host
from tests.browser.test_axe import violations
from tests.browser.test_calculator_in_page import direct, result_html
from tests.build_tools.browser.test_qr import codes
from tests.conftest import new_context

Visit = Callable[..., Page]
PLAN = "answers/bench/plan.html"
PUBLIC = "https://answers.example/plan.html"
EXAMPLE = {"change": "other_maker", "trouble": "none", "logo": "yes"}
PATIENCE_MS = 60_000  # patience with the engine's first start on a busy machine
# Long plans and a short one: the sheet must hold them all on two pages.
CASES = (
    "change=other_maker&trouble=none&logo=yes&encrypted=yes&password=no",
    "change=none&trouble=crashes&logo=yes&password=no",
    "change=none&trouble=no_picture&logo=unsure&password=no&network=no",
    "system=linux&change=other_maker&trouble=none&logo=yes&secure_boot=yes",
    "change=other_maker&trouble=no_picture&logo=no",
    "change=same_maker&trouble=no_picture&logo=unsure&other_picture=yes",
    "system=linux&change=same_maker&trouble=crashes&logo=yes&secure_boot=yes&machine=two_chips",
)
# Each run prints the plans with the most and the fewest words; --all prints every one.
BY_LENGTH = sorted(CASES, key=lambda case: len(str(find("drivers.reset").run(dict(parse_qsl(case))).answer.steps)))
PRINTED = CASES if os.environ.get(ALL) else (BY_LENGTH[0], BY_LENGTH[-2], BY_LENGTH[-1])
# Whether what is shown was worked out for these inputs.
IS_FOR = """inputs => {
    const shown = new URLSearchParams(document.querySelector('section.wa-calculator').dataset.link.split(':')[1]);
    return [...new URLSearchParams(inputs)].every(([key, value]) => shown.get(key) === value);
}"""
# For each thing that a step asks to note: the lines to write it on, such as before and after.
LINES = {"key_number": 1, "package": 2, "version": 2, "restore_point": 1, "account": 1}


def steps_of(**inputs: str) -> tuple[Step, ...]:
    return find("drivers.reset").run(inputs).answer.steps


def keys(**inputs: str) -> list[str]:
    return [step.key for step in steps_of(**inputs)]


# How many steps the first plan of the example has, as its headline counts them: those before the first deeper one.
FIRST = next(place for place, step in enumerate(steps_of(**EXAMPLE)) if step.deeper)


def boxes(page: Page) -> Locator:
    return page.locator(".wa-tick input")


def ticked(page: Page) -> list[str]:
    return page.evaluate("[...document.querySelectorAll('.wa-tick input:checked')].map(box => box.value)")


def woken(page: Page) -> Page:
    expect(page.locator(".wa-plan-tools .progress")).to_contain_text("steps", timeout=PATIENCE_MS)
    return page


def settled(page: Page) -> None:
    """Wait until the result belongs to the inputs."""
    expect(page.locator(".wa-result").first).not_to_have_attribute("aria-busy", "true", timeout=PATIENCE_MS)
    expect(page.locator("section.wa-calculator").first).not_to_have_class(re.compile("wa-stale"), timeout=PATIENCE_MS)


def code_on(page: Page) -> list[list[bool]]:
    """The QR code on the page as rows of modules, read from its drawing, without the quiet zone."""
    view, drawn = page.evaluate(
        "() => { const svg = document.querySelector('.wa-plan-tools').shadowRoot.querySelector('svg');"
        " return [svg.getAttribute('viewBox'), svg.querySelectorAll('path')[1].getAttribute('d')]; }"
    )
    side = int(view.split()[2]) - 8
    rows = [[False] * side for _ in range(side)]
    for x, y, width in re.findall(r"M(\d+) (\d+)h(\d+)v1", drawn):
        for i in range(int(width)):
            rows[int(y) - 4][int(x) - 4 + i] = True
    return rows


def made_public(page: Page) -> None:
    """Name a public address, as a published page does; without one there is no code."""
    page.evaluate(
        "href => document.head.append(Object.assign(document.createElement('link'), { rel: 'canonical', href }))",
        PUBLIC,
    )


def test_ticks_are_in_the_address_and_survive_a_restart(visit: Visit, context: BrowserContext) -> None:
    page = woken(visit(PLAN))
    order = keys(**EXAMPLE)
    for i in (0, 2, 3):
        boxes(page).nth(i).check()
    expect(page.locator(".wa-plan-tools .progress")).to_contain_text(f"3 of {FIRST} steps of the first plan done.")
    expect(page.locator(".wa-plan-tools .progress")).to_contain_text(f"Next: {steps_of(**EXAMPLE)[1].title}")
    link = read_fragment(urlsplit(page.url).fragment)
    assert link.name == "drivers.reset"
    assert link.inputs == EXAMPLE
    assert len(link.ticks) == 9
    page.reload()
    assert ticked(woken(page)) == [order[i] for i in (0, 2, 3)]
    address = page.url
    page.close()
    again = context.new_page()  # as after a restart, from a bookmark
    again.goto(address)
    assert ticked(woken(again)) == [order[i] for i in (0, 2, 3)]


def test_the_address_carries_the_ticks_to_a_phone_and_a_copied_link_does_not(visit: Visit, browser: Browser) -> None:
    page = woken(visit(PLAN))
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    boxes(page).nth(1).check()
    page.get_by_role("button", name="Copy link").click()
    expect(page.locator(".wa-doubt > .wa-told")).to_contain_text("Link copied")
    copied = read_fragment(urlsplit(page.evaluate("navigator.clipboard.readText()")).fragment)
    assert (copied.inputs, copied.ticks) == (EXAMPLE, "")
    phone = new_context(browser, warm=False, viewport={"width": 390, "height": 844}, has_touch=True)
    there = phone.new_page()
    there.goto(page.url)
    assert ticked(woken(there)) == [keys(**EXAMPLE)[1]]
    assert there.evaluate("document.documentElement.scrollWidth") == 390
    phone.close()


def test_the_code_beside_the_plan_is_the_address(visit: Visit, project: Path) -> None:
    """That the library draws what another draws for the same text: tests/build_tools/browser/test_qr.py."""
    page = woken(visit(PLAN))
    made_public(page)
    boxes(page).nth(0).check()
    before = code_on(page)
    boxes(page).nth(5).check()
    assert code_on(page) == codes(project, f"{PUBLIC}#{urlsplit(page.url).fragment}")["chosen"]
    assert code_on(page) != before
    expect(page.locator(".wa-plan-tools .code details")).to_have_attribute("open", "")


def test_on_a_phone_the_code_is_folded_until_asked_for(browser: Browser, host: Host) -> None:
    context = new_context(browser, warm=False, viewport={"width": 390, "height": 844}, has_touch=True)
    page = context.new_page()
    page.goto(host.address + PLAN)
    made_public(woken(page))
    boxes(page).nth(0).check()
    expect(page.locator(".wa-plan-tools .code svg")).to_be_hidden()
    page.locator(".wa-plan-tools .code summary").click()
    expect(page.locator(".wa-plan-tools .code svg")).to_be_visible()
    boxes(page).nth(1).check()
    expect(page.locator(".wa-plan-tools .code svg")).to_be_visible()
    context.close()


def test_of_deeper_steps_every_title_and_box_shows_and_the_rest_opens_by_a_tap(visit: Visit) -> None:
    page = woken(visit(PLAN))
    deeper = page.locator(".wa-steps[data-deeper] .wa-step")
    wanted = [step for step in steps_of(**EXAMPLE) if step.deeper]
    assert len(wanted) > 1
    assert deeper.count() == len(wanted)
    for i, step in enumerate(wanted):
        expect(deeper.nth(i).locator(".wa-step-title")).to_have_text(step.title)
        expect(deeper.nth(i).locator(".wa-step-title")).to_be_visible()
        expect(deeper.nth(i).locator(".wa-tick input")).to_be_visible()
        expect(deeper.nth(i).locator('details.wa-step-fold[data-fold="deeper"] > p').first).to_be_hidden()
    last = deeper.last
    last.locator("summary").first.click()
    expect(last.locator("details.wa-step-fold > p").first).to_be_visible()
    boxes(page).nth(0).check()
    expect(last.locator("details.wa-step-fold > p").first).to_be_visible()
    last.locator("summary").first.click()
    boxes(page).nth(1).check()
    expect(last.locator("details.wa-step-fold > p").first).to_be_hidden()


def test_whoever_has_done_a_step_sees_the_next(browser: Browser, host: Host) -> None:
    """On a phone later steps show their titles alone until they are due."""
    context = new_context(browser, warm=False, viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    page = context.new_page()
    page.goto(host.address + PLAN)
    folds = woken(page).locator("details.wa-step-fold")
    expect(folds.nth(0)).not_to_have_attribute("open", re.compile(""))
    before = boxes(page).count() - folds.count()  # the steps that are never folded
    for i in range(before):
        boxes(page).nth(i).check()
    expect(folds.nth(0)).to_have_attribute("open", "")
    expect(folds.nth(1)).not_to_have_attribute("open", re.compile(""))
    context.close()


def test_a_command_is_whole_on_a_phone_and_can_be_copied(browser: Browser, host: Host) -> None:
    context = new_context(browser, warm=False, viewport={"width": 390, "height": 844}, has_touch=True)
    context.grant_permissions(["clipboard-read", "clipboard-write"])
    page = context.new_page()
    page.clock.install()
    page.goto(host.address + PLAN)
    woken(page)
    cut_off = "all => all.filter(each => each.scrollWidth > each.clientWidth).map(each => each.textContent)"
    page.evaluate("document.querySelectorAll('details[data-fold]').forEach(fold => fold.open = true)")
    assert page.locator(".wa-command").count() > 10
    assert page.locator(".wa-command").evaluate_all(cut_off) == []
    button = page.locator(".wa-copy").nth(1)
    button.click()
    expect(button).to_have_text("Copied")
    assert page.evaluate("navigator.clipboard.readText()") == page.locator(".wa-command").nth(1).text_content()
    page.clock.fast_forward(2000)
    expect(button).to_have_text("Copy")
    context.close()


def test_ticks_stay_with_their_steps_when_the_plan_changes(visit: Visit) -> None:
    page = woken(visit(PLAN))
    order = keys(**EXAMPLE)
    for name in ("ready-data", "clean-remove"):
        boxes(page).nth(order.index(name)).check()
    page.get_by_label("Is the system's disk encrypted?").select_option("no")
    settled(page)
    expect(page.locator('[data-step="ready-key"]')).to_have_count(0)
    assert ticked(page) == ["ready-data", "clean-remove"]
    link = read_fragment(urlsplit(page.url).fragment)
    assert link.inputs == EXAMPLE | {"encrypted": "no"}
    assert len(link.ticks) == 6


def test_the_results_markup_stays_what_python_made(visit: Visit) -> None:
    page = woken(visit(PLAN))
    boxes(page).nth(0).check()
    name = "drivers.reset"
    assert result_html(page, of=name) == direct(page, "drivers-reset-1", name, **EXAMPLE)


def test_made_up_ticks_do_no_harm_and_untick_takes_them_all_back(visit: Visit) -> None:
    page = woken(visit(PLAN + "#drivers.reset:change=other_maker&trouble=none&logo=yes&done=%3Cb%3Ezzzzz"))
    assert ticked(page) == []
    expect(page.locator(".wa-link-note")).to_contain_text("from the link")
    expect(page.locator(".wa-link-note")).not_to_contain_text("does not know")
    boxes(page).nth(0).check()
    page.get_by_role("button", name="Untick all").click()
    assert ticked(page) == []
    settled(page)  # the address follows as soon as the result is the link's
    assert read_fragment(urlsplit(page.url).fragment).ticks == ""


def test_the_sheet_is_one_or_two_pages_with_boxes_and_lines(visit: Visit) -> None:
    page = woken(visit(PLAN))
    page.evaluate("window.print = () => {}")
    for case in PRINTED:
        page.evaluate("link => { location.hash = link }", f"drivers.reset:{case}")
        page.wait_for_function(IS_FOR, arg=case, timeout=PATIENCE_MS)
        expect(page.locator(".wa-link-note")).to_have_text(re.compile("These are the values"), timeout=PATIENCE_MS)
        settled(page)
        steps = find("drivers.reset").run(dict(parse_qsl(case))).answer.steps
        expect(boxes(page)).to_have_count(len(steps))
        boxes(page).nth(0).check()
        noted = {tag[6:] for step in steps for tag in step.tags if tag.startswith("notes:")}
        lines = sum(LINES[thing] for thing in noted)
        assert lines, case
        for size in ("A4", "Letter"):
            page.get_by_role("button", name="Print the plan").click()
            assert page.locator(".wa-sheet .wa-sheet-box").count() == len(steps), case
            in_safe = sum(SAFE_CONSOLE in step.do for step in steps)
            assert page.locator(".wa-sheet").get_by_text(SAFE_CONSOLE, exact=True).count() == in_safe, case
            assert page.locator(".wa-sheet .wa-sheet-box").first.text_content() == "✓", case
            assert page.locator(".wa-sheet-line").count() == lines, case
            sheets = len(re.findall(rb"/Type\s*/Page\b(?!s)", page.pdf(format=size)))
            assert 1 <= sheets <= 2, f"{case}: {sheets} pages of {size}"
            expect(page.locator(".wa-sheet")).to_have_count(0)


def test_on_paper_each_step_says_all_that_its_folds_hold(visit: Visit) -> None:
    """What comes only if the first plan failed is printed short; a step that is there twice says so."""
    page = woken(visit(PLAN))
    page.evaluate("window.print = () => {}")
    page.get_by_role("button", name="Print the plan").click()
    printed = page.locator(".wa-sheet-step")
    met: set[str] = set()
    for i, step in enumerate(steps_of(**EXAMPLE)):
        text = (printed.nth(i).text_content() or "").replace("\u00a0", " ")
        assert f"{i + 1}. {step.title}" in text
        if step.title in met:
            assert "(as step" in text
            continue
        for command in step.commands:
            assert command in text, step.key
            # one who works from the sheet reads it top to bottom: first what can go wrong, then what does it
            assert not step.caution or -1 < text.find(step.caution) < text.index(command), step.key
        if step.deeper:
            continue
        met.add(step.title)
        for sentence in (step.caution, *step.do, step.see, step.otherwise, step.back):
            if sentence and not sentence.startswith("Nothing changes here"):
                assert sentence in text, step.key
    assert met


def test_axe_finds_nothing_in_the_tools(visit: Visit, project: Path) -> None:
    page = woken(visit(PLAN))
    boxes(page).nth(0).check()
    assert violations(page, project) == []


def test_by_keyboard(visit: Visit) -> None:
    page = woken(visit(PLAN))
    boxes(page).nth(4).focus()
    page.keyboard.press("Space")
    assert ticked(page) == [keys(**EXAMPLE)[4]]


def test_without_a_network_one_can_still_tick_and_print(visit: Visit) -> None:
    page = woken(visit(PLAN))
    page.context.set_offline(True)
    page.evaluate("window.print = () => { window.printed = true }")
    boxes(page).nth(0).check()
    expect(page.locator(".wa-plan-tools .progress")).to_contain_text(f"1 of {FIRST}")
    page.get_by_role("button", name="Print the plan").click()
    assert page.evaluate("window.printed")
    page.context.set_offline(False)


def test_from_a_folder_the_code_says_that_it_leads_nowhere(browser: Browser, bench_folder: Path) -> None:
    page = browser.new_page()
    page.goto((bench_folder / PLAN).as_uri())
    woken(page)
    boxes(page).nth(0).check()
    expect(page.locator(".wa-plan-tools figcaption")).to_contain_text("leads nowhere on a phone")
    expect(page.locator(".wa-plan-tools svg")).to_have_count(0)
    assert read_fragment(urlsplit(page.url).fragment).ticks
    page.close()


def test_without_scripts_the_plan_is_there_without_boxes(browser: Browser, host: Host) -> None:
    context = new_context(browser, java_script_enabled=False)
    page = context.new_page()
    page.goto(host.address + PLAN)
    expect(page.locator(".wa-step").first).to_be_visible()
    expect(page.locator(".wa-tick").first).to_be_hidden()
    expect(page.locator(".wa-copy").first).to_be_hidden()
    folds = page.locator("details.wa-step-fold")
    assert folds.count() > 10
    for fold in folds.all():
        expect(fold).to_have_attribute("open", "")
    expect(folds.last.locator("> p").first).to_be_visible()
    context.close()


def test_pages_without_a_plan_do_not_fetch_its_script(visit: Visit) -> None:
    page = visit()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.reload()
    page.get_by_label("Rate").fill("3600")
    settled(page)
    assert asked
    assert not [url for url in asked if "plan." in url]


def test_what_comes_next_has_the_numbers_of_its_step(visit: Visit) -> None:
    page = visit("answers/bench/mix.html")
    page.locator("fieldset:enabled").first.wait_for(state="attached")
    page.evaluate("document.querySelectorAll('details').forEach(each => each.open = true)")
    field = page.locator("[data-input=have_timings] input")
    # By other numbers alone the step stays where it is, and is changed in place.
    for timings in ("16-18-18-38", "16-18-18-39", "17-18-18-38"):
        field.fill(timings)
        settled(page)
        titles = [step.title for step in find("memory.mix").run({"have_timings": timings}).answer.steps if step.tags]
        assert timings[-2:] in titles[0]
        expect(page.locator(".wa-plan-tools .progress")).to_contain_text(f"Next: {titles[0]}")
