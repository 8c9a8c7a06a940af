"""Once something was put right: replies, description, pin, feed, pages and cards say so; what is dangerous on top."""

import re
import xml.etree.ElementTree as etree
from dataclasses import replace

import markdown
import pytest

from build_tools.episodes import description, feed, made, sheet
from build_tools.episodes.programme import Programme

PROGRAMME = Programme("P & Q", "https://answers.example")
SPACE = {"a": "http://www.w3.org/2005/Atom"}


def corrected(pages, more=""):
    entry = (
        "corrections:\n  - date: 2026-10-20\n    segment: 2\n    was: Hold it at 80.\n    now: Never above 70.\n"
        f"    why: A slip.\n{more}"
    )
    pages.change("---\n# The", f"{entry}---\n# The")
    episode, mistakes = sheet.read_sheet(pages.docs, pages.sheet)
    assert mistakes == []
    return episode


def html(pages, monkeypatch, name):
    """A page as the generator shows it; its place is told as MkDocs tells it."""
    from build_tools.episodes import blocks
    from build_tools.markdown_blocks.places import Place

    blocks._looked.clear()  # it looks again after half a second, and a test is quicker
    path = pages.docs / name
    monkeypatch.setattr(blocks, "place_of", lambda md: Place(f"docs/{name}", name, pages.docs, 0))
    body = path.read_text("utf-8").split("---\n", 2)[2]
    return markdown.markdown(body, extensions=["build_tools.markdown_blocks", "build_tools.episodes.blocks"])


def test_replies_to_who_was_told_wrong_begin_with_it(pages):
    parts = description.replies(corrected(pages), PROGRAMME).split("\n\n")
    assert parts[1].startswith("We were wrong, question 2 (1:10): Never above 70. A slip.")
    assert "wrong" not in parts[0] + parts[2]


def test_the_description_begins_with_it_and_there_is_a_comment_to_pin(pages):
    episode = corrected(pages)
    first = description.describe(episode, PROGRAMME).text.split("\n")[0]
    assert first == "We were wrong at 1:10, corrected on 2026-10-20: Never above 70."
    pin = description.pinned(episode)
    assert pin == "We were wrong at 1:10. We said: Hold it at 80. Right is: Never above 70. A slip. (2026-10-20)\n"
    assert len(pin.split("\n")) == 2


def test_files_for_it_are_made_and_go_again(pages, tmp_path):
    into = tmp_path / "made"
    corrected(pages)
    made.make(tmp_path, into, lambda _: None)
    assert (into / "001-one/pin.txt").read_text("utf-8").startswith("We were wrong")
    pages.sheet.write_text(pages.sheet.read_text("utf-8").split("corrections:")[0] + "---\n# A\n", "utf-8")
    made.make(tmp_path, into, lambda _: None)
    assert not (into / "001-one/pin.txt").exists()


def test_cards_and_pages_say_corrected_and_asked_before(pages, monkeypatch):
    episode = corrected(pages)
    first, second, third = episode.segments
    assert made.on_top(episode, first, [episode]) == "What do the numbers mean?"
    assert made.on_top(episode, second, [episode]) == "And again? (corrected 2026-10-20, asked before in episode 1)"
    short = replace(second, chapter="Again")
    assert made.on_top(episode, short, [episode]) == "Again (corrected 2026-10-20, asked before in episode 1)"
    assert made.on_top(episode, short, [episode], whole=True).startswith("And again?")
    assert made.on_top(episode, third, [episode]) == "And once more? (asked before in episode 1)"
    shown = html(pages, monkeypatch, "episodes/001-one.md")
    assert re.search(r'Asked before in <a href="[^"]*001-one\.html#segment-1">episode 1, question 1</a>', shown)
    assert "<strong>Corrected 2026-10-20.</strong>" in shown


def test_what_is_dangerous_stands_on_top_of_every_page_concerned(pages, monkeypatch):
    corrected(pages, "    dangerous: true\n")
    for name in ("episodes/001-one.md", "answers/memory/numbers.md"):
        shown = html(pages, monkeypatch, name)
        danger = shown.index('class="wa-danger"')
        assert "Do not do what we said" in shown
        assert "Right is: Never above 70. A slip." in shown
        for later in ("wa-segments", "wa-short-answer", "wa-calculator"):
            assert later not in shown or danger < shown.index(later), (name, later)


def test_no_page_has_it_where_nothing_is_dangerous(pages, monkeypatch):
    corrected(pages)
    for name in ("episodes/001-one.md", "answers/memory/numbers.md"):
        assert "wa-danger" not in html(pages, monkeypatch, name)


def test_danger_comes_first_everywhere(pages):
    more = "    dangerous: true\n  - {date: 2026-10-21, segment: 1, now: Small., why: Small.}\n"
    episode = corrected(pages, more)
    assert description.first_line(episode).startswith("Do not do what we said at 1:10")
    assert "(2 corrections, all below)" in description.first_line(episode)
    assert description.pinned(episode).startswith("We were wrong, and it can hurt")
    reply = description.replies(episode, PROGRAMME).split("\n\n")[1]
    assert reply.startswith("We were wrong")
    assert "please do not do it" in reply
    assert "What we said can hurt" in feed.atom([episode], PROGRAMME)


def test_the_feed_names_the_episode_and_leads_to_the_page(pages):
    root = etree.fromstring(feed.atom([corrected(pages)], PROGRAMME))
    assert root.findtext("a:entry/a:title", namespaces=SPACE) == "Episode 1, The first one: And again?"
    links = {each.get("rel"): each.get("href") for each in root.findall("a:link", SPACE)}
    assert links == {
        "self": "https://answers.example/made/episodes/corrections.atom",
        "alternate": "https://answers.example/episodes/index.html",
    }
    entry = root.find("a:entry/a:link", SPACE)
    assert entry.get("href") == "https://answers.example/episodes/001-one.html#segment-2"


ONE = '  - start: "{n}:00"\n    question: {words}?\n    answer: memory/numbers\n'
LONG = "".join(ONE.format(n=n, words="Word " * 30 + str(n)) for n in range(3, 43))


@pytest.mark.parametrize("limit", [20_000, 5000, 2500])
def test_the_description_stays_within_its_limit_with_short_chapters(pages, limit):
    pages.change("---\n# The", f"{LONG}---\n# The")
    episode, mistakes = sheet.read_sheet(pages.docs, pages.sheet)
    assert mistakes == []
    told = description.describe(episode, Programme("P", "https://answers.example", limit))
    assert len(told.text) <= limit
    chapters = re.findall(r"^\d+:\d\d (.*)$", told.text, re.M)
    assert len(chapters) == 43, "no chapter is left out"
    assert max(len(title) for title in chapters) <= 40
    assert set(chapters[3:]) == {"Word Word Word Word Word Word Word Word…"}, "cut behind a whole word"
    assert bool(told.warnings) == (limit < 20_000)


def test_a_chapter_has_the_title_that_the_sheet_gives_it(pages):
    pages.change("    question: And again?", "    question: And again?\n    chapter: Again")
    episode, _ = sheet.read_sheet(pages.docs, pages.sheet)
    assert description.chapters(episode)[0][1] == (70, "Again")


def test_times_lead_into_the_video_and_links_are_given(pages, monkeypatch):
    more = "video: https://video.example/w?v=7\nlinks:\n  - {title: The table, address: 'https://tables.example/1'}\n"
    pages.change("segments:", f"{more}segments:")
    assert '<a href="https://video.example/w?v=7#t=70">1:10</a>' in html(pages, monkeypatch, "episodes/001-one.md")
    episode, mistakes = sheet.read_sheet(pages.docs, pages.sheet)
    assert mistakes == []
    assert "The table\nhttps://tables.example/1" in description.describe(episode, PROGRAMME).text
    pages.change("w?v=7", "w?v=7&t={seconds}")
    assert sheet.read_sheet(pages.docs, pages.sheet)[0].at(70) == "https://video.example/w?v=7&t=70"
    pages.change("https://video.example", "javascript:alert")
    assert any("'video:' is the video's address" in m.message for m in sheet.read_sheet(pages.docs, pages.sheet)[1])


def test_a_handle_is_shown_only_with_consent(pages, monkeypatch):
    assert "otter-7" not in html(pages, monkeypatch, "episodes/001-one.md")
    pages.change("viewer: otter-7", "viewer: otter-7\n    consent: true")
    assert "otter-7" in html(pages, monkeypatch, "episodes/001-one.md")
    assert "wren" not in html(pages, monkeypatch, "episodes/001-one.md")


def test_all_that_was_said_can_be_searched_on_the_list_of_episodes(pages, monkeypatch):
    index = pages.docs / "episodes" / "index.md"
    index.write_text("---\ntitle: E\n---\n# E\n\n/// episodes\n///\n", "utf-8")
    corrected(pages)
    shown = html(pages, monkeypatch, "episodes/index.md")
    assert '<form class="wa-said-search" role="search" hidden>' in shown
    assert "Corrected 2026-10-20: Never above 70." in shown
    assert "Divide the clocks by the rate." in shown
