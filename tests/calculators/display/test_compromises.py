"""What to give up first: the order, two small things at once, and films that keep their own frames."""

from __future__ import annotations

import re

import pytest

from calculators.catalogue import find
from calculators.desk.as_text import as_text
from calculators.display.links.compromises import film_rates


def run(**given: object):
    return find("display.link").run(given)


def figures(result) -> dict[str, float | str]:
    return {f.key: f.value for f in result.answer.figures}


def offered(result) -> list[str]:
    table = result.answer.tables[0]
    assert table.title.startswith("What ")
    return [row[0].partition(" ")[2] for row in table.rows]


@pytest.mark.parametrize("use", ["text", "film", "games"])
@pytest.mark.parametrize(
    "given",
    [{"refresh": 240, "depth": 10, "link": "hdmi-frl-48"}, {"refresh": 144, "link": "dp-hbr3"}],
)
def test_compression_comes_before_a_lower_refresh_or_size(given, use):
    assert figures(run(**given, use=use))["give_up_first"] == "compressed"


def test_compression_is_not_offered_where_there_is_none():
    for key in ("dp-hbr2", "hdmi-tmds-600", "dvi-dual"):
        assert not any("ompression" in row for row in offered(run(refresh=240, link=key)))


def test_two_small_things_are_offered_where_one_alone_is_not_enough():
    # 2560×1440 at 144 with 10 bits on 17.28 Gb/s: 17.6 with the second reduced blanking; 14.5 with 8 bits is enough
    alone = run(width=2560, height=1440, refresh=144, depth=10, blanking="cvt-rb", link="dp-hbr2")
    assert not any(row.startswith("Bits and blanking") for row in offered(alone))
    # 3840×2160 at 120 with 10 bits on 25.92: 32.27 with the shorter blanking, 26.35 with 8 bits, 25.82 with both
    both = run(refresh=120, depth=10, blanking="cvt-rb", link="dp-hbr3")
    assert "Bits and blanking: 8 bits and second reduced blanking" in offered(both)


@pytest.mark.parametrize(
    ("content", "below", "rates"),
    [
        (24, 240, [144, 120, 72, 48, 24]),
        (23.976, 60, [47.952, 23.976]),
        (25, 144, [100, 50, 25]),
        (30, 120, [60, 30]),
        (29.97, 120, [59.94, 29.97]),
        (50, 120, [100, 50]),
        (60, 144, [120, 60]),
    ],
)
def test_films_go_only_to_whole_multiples_of_their_frames(content, below, rates):
    assert film_rates(content, below) == rates


@pytest.mark.parametrize("content", ["23.976", "24", "25", "30", "60"])
@pytest.mark.parametrize("refresh", [60, 120, 144, 240])
def test_no_film_is_offered_a_refresh_that_its_frames_do_not_divide(content, refresh):
    result = run(refresh=refresh, depth=10, link="hdmi-tmds-600", use="film", content=content)
    for row in offered(result):
        if row.endswith(" Hz"):
            ratio = float(row.rpartition(": ")[2].removesuffix(" Hz")) / float(content)
            assert ratio == pytest.approx(round(ratio), abs=1e-4)


def test_compressed_together_names_the_compressed_rate():
    # 3147.688 MHz with the second reduced blanking: at 8 bits a pixel 25.18 Gb/s, of 25.30 with error correction on
    result = run(width=7680, height=4320, refresh=90, blanking="cvt-rb", link="dp-hbr3")
    words = "second reduced blanking and compressed together, which needs 25.18 Gb/s"
    assert any(words in n.text for n in result.answer.notes)


def test_used_above_all_never_stands_beside_it_fits():
    result = run(refresh=120, depth=10, link="hdmi-frl-40")
    assert result.answer.verdict.said() == "It fits."
    assert figures(result)["used_percent"] > 100  # for programs
    text = as_text(result)
    assert "Used:" not in text
    assert "Left over:" not in text
    assert "101.8" not in text


@pytest.mark.parametrize("link", ["hdmi-tmds-340", "hdmi-tmds-600", "dp-hbr2", "dvi-dual", "hdmi-frl-18"])
@pytest.mark.parametrize("use", ["text", "film", "games"])
@pytest.mark.parametrize("refresh", [60, 120, 144, 240])
def test_several_things_are_never_offered_with_one_that_is_enough_alone(link, use, refresh):
    """'To 24 Hz. Or several milder things: second reduced blanking and 24 Hz' is no milder than 24 Hz."""
    notes = {
        n.title: n.text for n in find("display.link").run({"refresh": refresh, "link": link, "use": use}).answer.notes
    }
    said = notes.get("Give up first", "") + notes.get("Try it first", "")
    first, _, several = said.partition("Or several milder things: ")
    found = re.search(r"(?:go down to|take) (.+?)(?: a channel)?\. (?=[A-Z])", first)
    if found and several:
        assert found[1] not in re.split(r", | and | together", several)


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"refresh": 120, "depth": "10", "link": "dp-hbr2", "use": "film"}, "go down to 48 Hz. That costs nothing"),
        ({"width": 2560, "height": 1440, "refresh": 144, "depth": "10"}, "go down to 8 bits a channel. Smooth skies"),
    ],
)
def test_what_to_give_up_is_said_as_something_to_do(given, said):
    """'For films and television: refresh, to 24 Hz.' was no sentence."""
    notes = {n.title: n.text for n in find("display.link").run({"link": "dp-hbr2", **given}).answer.notes}
    assert said in notes.get("Give up first", "") + notes.get("Try it first", "")


def test_compression_is_advised_in_words_that_one_says():
    notes = {
        n.title: n.text
        for n in find("display.link").run({"refresh": 144, "link": "dp-hbr3", "use": "games"}).answer.notes
    }
    assert "switch compression on. That costs hardly anything" in notes["Give up first"]
