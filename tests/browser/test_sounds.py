"""A sound of a result: it is played from the page, saved from its player, and follows what is typed."""

import io
import wave
from pathlib import Path

from playwright.sync_api import Page, expect

PLAYER = ".wa-details .wa-sound audio"


def test_a_sound_is_saved_as_it_stands_in_the_page(page: Page, site: str) -> None:
    page.goto(f"{site}answers/audio/is-left-left.html")
    save = page.get_by_role("button", name="Save left-500-hz.wav")
    expect(save).to_be_visible()
    with page.expect_download() as waited:
        save.click()
    assert waited.value.suggested_filename == "left-500-hz.wav"
    with wave.open(io.BytesIO(Path(waited.value.path()).read_bytes())) as opened:
        assert (opened.getnchannels(), opened.getframerate(), opened.getnframes()) == (2, 8000, 8000)


def test_the_browser_can_play_it_and_a_typed_length_makes_another(page: Page, site: str) -> None:
    page.goto(f"{site}answers/audio/is-left-left.html")
    assert played_seconds(page) == 1
    built = page.locator(PLAYER).get_attribute("src")
    page.get_by_label("Length").fill("2,5")
    page.wait_for_function("([player, old]) => document.querySelector(player).src !== old", arg=[PLAYER, built])
    assert played_seconds(page) == 2.5


def played_seconds(page: Page) -> float:
    """How long the browser itself takes the sound for, once it has read it."""
    seconds = page.locator(PLAYER).evaluate(
        "player => new Promise((done, fail) => {"
        " player.onloadedmetadata = () => done(player.duration);"
        " player.onerror = () => fail(new Error('the browser cannot read the sound'));"
        " player.preload = 'metadata'; player.load(); })"
    )
    return float(seconds)


def test_the_caution_stands_above_the_player(page: Page, site: str) -> None:
    page.goto(f"{site}answers/audio/is-left-left.html")
    caution = page.locator(".wa-details .wa-cautions").first.bounding_box()
    player = page.locator(PLAYER).bounding_box()
    assert caution is not None
    assert player is not None
    assert caution["y"] + caution["height"] <= player["y"]
