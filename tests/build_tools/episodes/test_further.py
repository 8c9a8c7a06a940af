"""Further calculators and links of a question: read, shown, taken down, and held against today's answer."""

from __future__ import annotations

import pytest

from build_tools.checks import plain_words
from build_tools.environment import places
from build_tools.episodes import bundle, description, saying, sheet
from build_tools.episodes.blocks import episode_html
from build_tools.episodes.programme import Programme
from build_tools.episodes.record import differences
from build_tools.markdown_blocks.places import Place
from build_tools.presenting import answers
from calculators.catalogue import find
from calculators.desk.svg import escape

MIX = find("memory.mix").run({"have_size": 8, "add_size": 16}).answer
OWN = "    inputs: {rate: 3200, cas: 16}\n"
ALSO = """    also:
      - {calculator: memory.mix, inputs: {have_size: 8, add_size: 16}}
      - {calculator: memory.rate, inputs: {rate: 3600, cas: 18}}
    links:
      - {title: "A wall chart: sticks", address: "https://charts.example/sticks"}
"""


@pytest.fixture
def further(pages):
    """The sheet whose first question has two further calculators and a link."""
    pages.change(OWN, OWN + ALSO)
    return pages


def read(pages):
    episode, mistakes = sheet.read_sheet(pages.docs, pages.sheet)
    assert [str(each) for each in mistakes] == []
    return episode


def test_they_are_read_and_named_apart(further):
    first = read(further).segments[0]
    assert [(each.calculator, each.answer) for each in first.also] == [
        ("memory.mix", ""),
        ("memory.rate", "memory/numbers"),
    ]
    assert {name: each.answer.headline for name, each in first.further().items()}["memory.mix"] == MIX.headline
    assert list(first.further()) == ["memory.mix", "memory.rate"]
    assert first.links[0].address == "https://charts.example/sticks"


@pytest.mark.parametrize(
    ("old", "new", "line", "said"),
    [
        ("calculator: memory.mix", "calculator: memory.mx", 12, "no calculator memory.mx; did you mean memory.mix?"),
        ("add_size: 16", "add_size: many", 12, "add_size"),
        ("inputs: {have", "input: {have", 12, "no such entry: input; did you mean inputs?"),
        ("memory.mix,", "memory.mix, answer: memory/numbers,", 12, "no answer page memory/numbers shows memory.mix"),
        ("https://charts.example/sticks", "sticks", 15, "'address:' reads https://"),
    ],
)
def test_mistakes_in_them_are_told_with_their_line(further, old, new, line, said):
    further.change(old, new)
    _, mistakes = sheet.read_sheet(further.docs, further.sheet)
    assert len(mistakes) == 1
    assert said in str(mistakes[0])
    assert mistakes[0].line == line


def test_what_they_say_is_taken_down_and_held_against_today(further):
    episode = read(further)
    saying.take_down(further.docs, episode, [1])
    text = further.sheet.read_text("utf-8")
    assert f'memory.mix: "{MIX.headline}"' in text
    assert differences([read(further)], further.docs) == []
    further.change(MIX.headline, "It said something else then.")
    [slip] = differences([read(further)], further.docs)
    assert [row[0] for row in slip.rows] == ["the figure memory.mix"]
    assert slip.slip, "the answer is as it was: the sheet is wrong"
    made = read(further).segments[0].made
    assert len(made.split()) == 3
    further.change(made, made.replace(made.split()[1], "1-00000000"))  # as before a change of the second calculator
    [changed] = differences([read(further)], further.docs)
    assert not changed.slip


def test_the_run_sheet_shows_and_lines_up_all_of_them(further):
    project = further.docs.parent
    row = answers.reply(project, {"what": "run", "episode": 1})["segments"][0]
    assert row["more"][0]["headline"] == MIX.headline
    cards = answers.reply(project, {"what": "cards", "episode": 1})["cards"]
    assert [each["calculator"] for each in cards[:3]] == ["memory.rate", "memory.mix", "memory.rate"]
    assert cards[2]["inputs"]["rate"] == "3600"


def test_page_description_and_reply_have_them(further):
    episode = read(further)
    settings = Programme(name="P", address="https://answers.example")
    text = description.describe(episode, settings).text
    assert "Also mentioned\nA wall chart: sticks\nhttps://charts.example/sticks" in text
    assert MIX.headline.split(";")[0] in description.replies(episode, settings)
    html = episode_html(Place("docs/episodes/001-one.md", "episodes/001-one.md", further.docs, 0), episode, [episode])
    assert '../answers/memory/numbers.html#memory.rate:rate=3600&amp;cas=18">Also worked out: ' in html
    assert f"Also worked out: {find('memory.mix').title}" in html
    assert '<a href="https://charts.example/sticks">A wall chart: sticks</a>' in html
    assert MIX.headline not in html, "nothing is told as said that was not taken down"
    saying.take_down(further.docs, episode, [1])
    episode = read(further)
    html = episode_html(Place("docs/episodes/001-one.md", "episodes/001-one.md", further.docs, 0), episode, [episode])
    assert f"{escape(episode.segments[0].said)} {escape(MIX.headline)}" in html


def test_what_the_tools_write_of_them_is_nothing_to_mend(further):
    """A further calculator is named in the sheet only, where no viewer reads it; in a text it is still told."""
    saying.take_down(further.docs, read(further), [1])
    text = further.sheet.read_text("utf-8")
    assert "memory.mix" in text
    assert list(plain_words.of_page(text, "docs/episodes/001-one.md")) == []
    spoken = text.replace("links:", 'note: "Says memory.mix: it fits."\n    links:')
    assert ["memory.mix" in fault for _, fault in plain_words.of_page(spoken, "docs/episodes/001-one.md")] == [True]


def test_the_editor_gets_the_cards_of_all_of_them(further, monkeypatch):
    project = further.docs.parent
    (project / "node_modules").symlink_to(places.PROJECT / "node_modules")
    monkeypatch.setattr(bundle, "FACES", {"wide": "card", "title": "title"})
    done = bundle.bundle(project, read(further), project / "out", "25", False, None)
    names = {each["name"].rsplit("-", 1)[0] for each in done.files if each["name"].startswith("cards/01")}
    assert names == {"cards/01-card", "cards/01-memory-mix-card", "cards/01-memory-rate-card"}
    html = (project / "out" / "sources.html").read_text("utf-8")
    assert all(escape(caution.text) in html for caution in MIX.cautions)
