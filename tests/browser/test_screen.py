"""A result put on the screen from its page: Python's own card, saved whole, by keyboard alone, and nothing private."""

from __future__ import annotations

import json
import struct
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page, expect

from build_tools.cards.command import face_css
from calculators.desk.card_theme import DARK
from calculators.door import card
from tests.browser.conftest import Host

ENGINE_MS = 30_000
SITE = "https://answers.example/page.html"


def opened(page: Page, key: str = "rate", value: str = "3600") -> Page:
    """The panel over the page's first calculator, after one edit."""
    section = page.locator("section.wa-calculator").first
    section.locator(f"[name={key}]").first.fill(value)
    button = section.get_by_role("button", name="Put on screen")
    # Until its result is there a press hands on nothing; the button looks the same in the first moment.
    expect(section.locator(".wa-result")).to_have_attribute("aria-busy", "false", timeout=ENGINE_MS)
    expect(button).to_be_enabled(timeout=ENGINE_MS)
    button.focus()
    page.keyboard.press("Enter")
    page.locator(".stage svg").wait_for(timeout=ENGINE_MS)
    return page


def shown(page: Page) -> str:
    return str(page.locator(".stage").evaluate("stage => stage.innerHTML"))


def as_shown(page: Page, svg: str) -> str:
    """The same SVG once through the browser's own writer, which puts a space here and a sign there otherwise."""
    written = "svg => { const box = document.createElement('div'); box.innerHTML = svg; return box.innerHTML; }"
    return str(page.evaluate(written, svg))


def python_frames(options: dict[str, object], inputs: dict[str, str]) -> list[dict[str, str]]:
    return list(json.loads(card("memory.rate", json.dumps(inputs), json.dumps(options)))["frames"])


def inputs_of(page: Page) -> dict[str, str]:
    script = "form => Object.fromEntries([...form.elements].filter(e => e.name).map(e => [e.name, e.value]))"
    return dict(page.locator("form.wa-form").first.evaluate(script))


def test_the_card_in_the_page_is_python_s_own(visit: Callable[..., Page], host: Host) -> None:
    page = opened(visit())
    question = page.get_by_label("Question on the card").input_value()
    assert question == "What do the numbers mean here?"
    background = page.get_by_label("Background").input_value()
    frames = python_frames({"question": question, "shape": "wide", "background": background}, inputs_of(page))
    for number, frame in enumerate(frames, 1):
        assert page.locator("output", has_text=f"{number} of {len(frames)}: {frame['name']}").count() == 1
        assert shown(page) == as_shown(page, frame["svg"])
        page.keyboard.press("ArrowRight")
    # the last page stays where there is no next
    assert page.locator("output", has_text=f"{len(frames)} of {len(frames)}").count() == 1
    # a page from this machine alone has no address to show, and so no code
    assert "127.0.0.1" not in "".join(frame["svg"] for frame in frames)
    assert host.address.split("/")[2] not in shown(page)


def test_saved_pictures_are_whole(visit: Callable[..., Page], tmp_path: Path, project: Path) -> None:
    page = opened(visit())
    page.get_by_label("Background").select_option("dark")
    expect(page.locator(".stage svg > rect").first).to_have_attribute("fill", DARK["paper"])
    with page.expect_download() as saving:
        page.get_by_role("button", name="Save PNG").click()
    path = tmp_path / "card.png"
    saving.value.save_as(path)
    assert struct.unpack(">II", path.read_bytes()[16:24]) == (1920, 1080)
    with page.expect_download() as saving:
        page.get_by_role("button", name="Save SVG").click()
    saving.value.save_as(tmp_path / "card.svg")
    options = {
        "question": page.get_by_label("Question on the card").input_value(),
        "background": "dark",
        "font_css": face_css(project),
    }
    assert (tmp_path / "card.svg").read_text("utf-8") == python_frames(options, inputs_of(page))[0]["svg"]


def test_escape_closes_and_the_focus_returns(visit: Callable[..., Page]) -> None:
    page = opened(visit())
    page.keyboard.press("Escape")
    page.locator(".stage").wait_for(state="detached")
    assert page.evaluate("document.activeElement.textContent") == "Put on screen"


def test_a_public_page_shows_its_address_with_a_code(visit: Callable[..., Page]) -> None:
    page = visit()
    page.evaluate(
        """address => {
          document.querySelector("link[rel=canonical]")?.remove();
          const link = document.createElement("link");
          link.rel = "canonical";
          link.href = address;
          document.head.append(link);
        }""",
        SITE,
    )
    opened(page)
    following = page.get_by_role("button", name="Next")
    while following.is_enabled():  # the address comes with the last step
        following.click()
    assert SITE.removeprefix("https://") in page.locator(".stage").inner_text()
    assert page.locator('.stage rect[fill="#ffffff"]').count() == 1  # the code's white ground


def test_private_input_is_on_no_card(visit: Callable[..., Page]) -> None:
    page = visit("answers/bench/private.html")
    secret = "01:00.0 VGA compatible controller [0300]: Secret Maker Q7 [1234:5678]\n\tKernel driver in use: madeup\n"
    opened(page, "said", secret)
    while True:
        assert "Secret Maker" not in shown(page)
        following = page.get_by_role("button", name="Next")
        if following.is_disabled():
            break
        following.click()
