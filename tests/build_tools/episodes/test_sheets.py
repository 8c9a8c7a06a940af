"""Episode sheets: what is read, what is refused and where, what is recomputed, what is written for pasting."""

import re
import xml.etree.ElementTree as etree
from pathlib import Path

import markdown
import pytest

from build_tools.checks import on_the_record
from build_tools.episodes import clock, description, feed, made, pasted, record, sheet, short_addresses
from build_tools.episodes.programme import Programme, read
from build_tools.episodes.record import differences
from build_tools.markdown_blocks.blocks import calculator_html
from build_tools.markdown_blocks.mistakes import PageMistakes
from calculators.catalogue import find
from calculators.memory.rate import calculator as rate

HEADLINE = rate.run({"rate": 3200, "cas": 16}).answer.headline
OTHER = rate.run({"rate": 3600, "cas": 18}).answer.headline

SHEET = f"""---
title: The first one
recorded: 2026-10-02
summary: Numbers on kits < and > more.
invented: true
segments:
  - start: "0:04"
    question: What do the numbers mean?
    viewer: otter-7
    answer: memory/numbers
    inputs: {{rate: 3200, cas: 16}}
    said: {HEADLINE}
    figures: {{latency_ns: 10 ns}}
  - start: 1:10
    question: What is that ringing?
    viewer: anonymous
    referred: {{to: a hearing specialist, why: That is not ours to judge.}}
  - start: "2:00"
    question: And the other kit?
    viewer: wren
    follow_up: 1/1
    answer: memory/numbers
    inputs: {{rate: 3600, cas: 18}}
---
# The first one

/// episode
///
"""


@pytest.fixture
def docs(tmp_path):
    page = tmp_path / "docs" / "answers" / "memory" / "numbers.md"
    page.parent.mkdir(parents=True)
    page.write_text("# Q\n\n/// calculator | memory.rate\n///\n", "utf-8")
    (tmp_path / "docs" / "episodes").mkdir()
    return tmp_path / "docs"


def written(docs: Path, text: str = SHEET, name: str = "001-the-first-one.md") -> Path:
    path = docs / "episodes" / name
    path.write_text(text, "utf-8")
    return path


def one(docs: Path, text: str = SHEET):
    episode, mistakes = sheet.read_sheet(docs, written(docs, text))
    assert mistakes == []
    return episode


def test_a_sheet_is_read_whole(docs):
    episode = one(docs)
    assert (episode.number, episode.slug, episode.title) == (1, "001-the-first-one", "The first one")
    first, second, third = episode.segments
    assert (first.start, first.viewer, first.calculator, first.said) == (4, "otter-7", "memory.rate", HEADLINE)
    assert second.start == 70
    assert second.referred.to == "a hearing specialist"
    assert third.follow_up == (1, 1)
    assert on_the_record.check(docs) == []


@pytest.mark.parametrize(
    ("old", "new", "line", "said"),
    [
        ('start: "2:00"', 'start: "1:05"', 18, "segment 3 starts at 1:05, before the one above it (1:10)"),
        ('start: "2:00"', 'start: "2:99"', 18, "a time is written 4:05 or 1:02:03, got '2:99'"),
        ("answer: memory/numbers\n    inputs: {rate: 3200", "answer: memory/numbres\n    inputs: {rate: 3200", 10,
         "no answer page memory/numbres; did you mean memory/numbers?"),
        ("{rate: 3600, cas: 18}", "{rate: 3600, cas: 999}", 23, "memory.rate: cas: CAS latency must be a whole number"),
        ("{rate: 3600, cas: 18}", "{rat: 3600}", 23, "There is no input 'rat'; did you mean rate?"),
        ("    inputs: {rate: 3600, cas: 18}", "    calculator: memory.mix", 23,
         "the answer page memory/numbers shows no memory.mix, so no link can lead to it; it shows memory.rate"),
        ("viewer: wren", "viewr: wren", 20, "no such entry: viewr; did you mean viewer?"),
        ("recorded: 2026-10-02", "recorded: soon", 3, "'recorded:' must be a date such as 2026-11-24"),
        ("follow_up: 1/1", "follow_up: first", 21, "'follow_up:' reads episode/segment, such as 1/3; got 'first'"),
        ("follow_up: 1/1", "follow_up: 1/9", 18, "segment 3 follows up 1/9, which no earlier sheet has"),
        (", why: That is not ours to judge.", "", 17, "'referred:' needs 'to:'"),
        ("summary: Numbers on kits < and > more.\n", "", 2, "'summary:' needs a text"),
        ("title: The first one", "title: [", 4, "the front matter cannot be read"),
    ],
)  # fmt: skip
def test_a_mistake_is_told_with_its_line(docs, old, new, line, said):
    assert SHEET.count(old) == 1
    written(docs, SHEET.replace(old, new))
    told = on_the_record.check(docs)
    assert [t for t in told if t.startswith(f"docs/episodes/001-the-first-one.md:{line}: ") and said in t], told


def test_names_and_numbers_of_sheets(docs):
    written(docs, name="first.md")
    assert "is named 001-a-few-words.md" in on_the_record.check(docs)[0]
    (docs / "episodes" / "first.md").unlink()
    written(docs)
    written(docs, name="001-again.md")
    assert any("episode 1 is there already" in t for t in on_the_record.check(docs))


def test_what_was_said_is_recomputed_and_fails_until_it_is_corrected(docs):
    stale = SHEET.replace(HEADLINE, "It waits 9 ns.\n    made: 1-00000000")
    stale = stale.replace("{latency_ns: 10 ns}", "{latency_ns: 9 ns}")
    written(docs, stale)
    (told,) = on_the_record.check(docs)
    assert told.startswith("docs/episodes/001-the-first-one.md:7: segment 1: what was said on air no longer holds.")
    assert f"the headline: then 'It waits 9 ns.', now {HEADLINE!r}" in told
    assert "the figure latency_ns: then '9 ns', now '10 ns'" in told
    assert "python3 -m build_tools correct 1 --segment 1" in told
    corrected = stale.replace(
        "---\n# The",
        f"corrections:\n  - date: 2026-10-20\n    segment: 1\n    now: {HEADLINE}\n"
        "    figures: {latency_ns: 10 ns}\n    why: We had divided by the clock.\n---\n# The",
    )
    written(docs, corrected)
    assert on_the_record.check(docs) == []
    episode = sheet.read_sheet(docs, docs / "episodes" / "001-the-first-one.md")[0]
    assert episode.corrections[0].was == "It waits 9 ns."


def test_a_deliberate_change_of_a_formula_is_found_and_put_right(docs, monkeypatch):
    """The whole path: the formula changes, the build complains, a correction ends it and shows everywhere."""
    from build_tools.markdown_blocks import compute
    from calculators.memory import rate as module

    written(docs)
    assert on_the_record.check(docs) == []
    record.note_holding(docs, sheet.read_all(docs)[0])  # as a build does, once the site is whole
    compute._run.cache_clear()
    monkeypatch.setattr(module, "clocks_ns", lambda clocks, rate_mt_s: clocks * 7000 / (3 * rate_mt_s))
    try:
        told = on_the_record.check(docs)
        assert [t for t in told if "no longer holds" in t]
        now = rate.run({"rate": 3200, "cas": 16}).answer
        latency = next(f.text for f in now.figures if f.key == "latency_ns")
        text = SHEET.replace(
            "---\n# The",
            f"corrections:\n  - date: 2026-10-20\n    segment: 1\n    now: {now.headline}\n"
            f"    figures: {{latency_ns: {latency}}}\n    why: The formula was wrong.\n---\n# The",
        )
        written(docs, text)
        assert on_the_record.check(docs) == []
        episode = sheet.read_sheet(docs, docs / "episodes" / "001-the-first-one.md")[0]
        assert now.headline in description.describe(episode, Programme()).text
        assert now.headline.replace("'", "&#39;") in feed.atom([episode], Programme())
    finally:
        compute._run.cache_clear()


def test_the_description_has_chapters_links_and_no_sign_that_sites_refuse(docs):
    made_text = description.describe(one(docs), Programme("P", "https://answers.example/"))
    lines = made_text.text.split("\n")
    assert lines[0] == "Numbers on kits ‹ and › more."
    chapters = [line for line in lines if re.match(r"\d+:\d\d ", line)]
    assert chapters == ["0:00 What do the numbers mean?", "1:10 What is that ringing?", "2:00 And the other kit?"]
    links = [line for line in lines if line.startswith("https://")]
    assert len(links) == 2
    assert links[0] == "https://answers.example/go/e1-1/"
    assert "a hearing specialist" in made_text.text
    assert "invented" in lines[-2]
    assert not set("<>") & set(made_text.text)
    assert made_text.warnings == ()


def test_the_description_warns_in_words(docs):
    late = one(docs, SHEET.replace('start: "0:04"', 'start: "0:30"'))
    assert "0:00 Welcome" in description.describe(late, Programme()).text
    assert any("set extra: programme: address:" in w for w in description.describe(late, Programme()).warnings)
    assert any("the limit set is 50" in w for w in description.describe(late, Programme(description_limit=50)).warnings)
    close = one(docs, SHEET.replace('start: "2:00"', 'start: "1:15"'))
    assert any("is shorter than 10 s" in w for w in description.describe(close, Programme()).warnings)
    untimed = one(docs, SHEET.replace('  - start: "2:00"\n    question', "  - question"))
    assert any("no start time" in w for w in description.describe(untimed, Programme()).warnings)
    assert "0:00" not in description.describe(untimed, Programme()).text


def test_replies_name_the_viewer_and_todays_headline(docs):
    text = description.replies(
        one(docs, SHEET.replace("viewer: otter-7", "viewer: otter-7\n    consent: true")), Programme()
    )
    assert f"otter-7 (0:04): {HEADLINE}" in text.replace("\u202f", " ")
    assert "Question 3 (2:00)" in text
    assert "wren" not in text, "who has not agreed to be named is not"
    assert "We passed this one on to a hearing specialist" in text


def test_the_feed_is_sound_and_the_same_twice(docs):
    text = SHEET.replace(
        "---\n# The",
        "corrections:\n  - {date: 2026-10-20, segment: 2, was: 'a <b>', now: c & d, why: Because.}\n---\n# The",
    )
    episode = one(docs, text)
    root = etree.fromstring(feed.atom([episode], Programme("P & Q", "https://answers.example")))
    space = {"a": "http://www.w3.org/2005/Atom"}
    assert root.findtext("a:title", namespaces=space) == "P & Q: corrections"
    assert "c & d" in root.findtext("a:entry/a:content", namespaces=space)
    assert feed.atom([episode], Programme()) == feed.atom([episode], Programme())


def test_generated_files_follow_the_sheets(docs, tmp_path):
    written(docs)
    into = tmp_path / "made"
    made.make(tmp_path, into, lambda _: None)
    assert {p.relative_to(into).as_posix() for p in into.rglob("*") if p.is_file()} == {
        "corrections.atom", "001-the-first-one/description.txt", "001-the-first-one/replies.txt",
        "001-the-first-one/segment-1.svg", "001-the-first-one/segment-3.svg",
    }  # fmt: skip
    card = (into / "001-the-first-one/segment-1.svg").read_text("utf-8")
    assert etree.fromstring(card).get("aria-label") == rate.run({"rate": 3200, "cas": 16}).answer.headline
    (docs / "episodes" / "001-the-first-one.md").unlink()
    made.make(tmp_path, into, lambda _: None)
    assert {p.name for p in into.rglob("*")} == {"corrections.atom"}


def test_no_sheet_differs_from_nothing():
    assert differences([]) == []


@pytest.mark.parametrize(("text", "seconds"), [("0:00", 0), ("4:05", 245), ("1:02:03", 3723), (245, 245)])
def test_times_are_read_and_worded(text, seconds):
    assert clock.seconds(text) == seconds
    if isinstance(text, str):
        assert clock.worded(seconds) == text


@pytest.mark.parametrize("text", ["", "4", "4:5", "1:60:00", "4:60", "x", None, True, -1])
def test_what_is_no_time_is_refused(text):
    with pytest.raises(ValueError, match=r"a time is written 4:05"):
        clock.seconds(text)


def test_settings_come_from_mkdocs_yml_whatever_else_stands_there(tmp_path):
    assert read(tmp_path) == Programme()
    (tmp_path / "mkdocs.yml").write_text(
        "site_name: x\nx: !!python/name:os.system\ny: !ENV HOME\n"
        "extra:\n  programme: {name: N, address: 'https://a.example', description_limit: 9, invented: true}\n",
        "utf-8",
    )
    assert read(tmp_path) == Programme("N", "https://a.example", 9, True, site="x")


def test_short_addresses_lead_on_with_a_segments_numbers(docs, tmp_path):
    text = SHEET.replace("    said: ", "    go: kit\n    said: ")
    episode = one(docs, text)
    found, mistakes = short_addresses.collect(docs, [episode])
    assert mistakes == []
    assert found["numbers"].answer == found["kit"].answer == "memory/numbers"
    result = find("memory.rate").run({"rate": 2133, "cas": 15})
    head, tail = calculator_html(result, "memory-rate-1", ())
    built = tmp_path / "site/answers/memory/numbers.html"
    built.parent.mkdir(parents=True)
    own = '<a href="other.html#why">Other</a> <a href="../colour/x.html">Colour</a> <a href="#here">Here</a>'
    built.write_text(f"<html><head></head><body>{own}{head}<p>Between.</p>{tail}</body></html>", "utf-8")
    short_addresses.write(found, tmp_path / "site")
    lead = (tmp_path / "site/go/numbers/index.html").read_text("utf-8")
    assert 'content="0; url=../../answers/memory/numbers.html"' in lead
    assert "<script" not in lead
    page = (tmp_path / "site/go/kit/index.html").read_text("utf-8")
    assert "10 ns for its first data" in page, "the numbers of the question, in the HTML"
    assert "14.06 ns for its first data" not in re.sub(r"<script.*?</script>", "", page, flags=re.S)
    assert "<p>Between.</p>" in page
    assert "As asked in" in page
    assert 'href="../../episodes/' in page
    for address in ("../../answers/memory/other.html#why", "../../answers/colour/x.html", "#here"):
        assert f'href="{address}"' in page
    assert (
        "https://answers.example/go/kit/"
        in description.describe(episode, Programme("P", "https://answers.example")).text
    )


def test_short_addresses_that_clash_or_cannot_be_said_are_told(docs):
    written(docs, SHEET.replace("    said: ", "    go: Kit!\n    said: "))
    assert any("takes small letters, digits and hyphens, got 'Kit!'" in t for t in on_the_record.check(docs))
    written(docs, SHEET.replace("    said: ", "    go: numbers\n    said: "))
    assert any("/go/numbers is taken by docs/answers/memory/numbers.md" in t for t in on_the_record.check(docs))


def test_a_description_that_changed_since_it_was_pasted_is_told(docs):
    settings = Programme("P", "https://answers.example")
    episode = one(docs)
    assert pasted.changed(docs, episode, settings) == []
    pasted.keep(docs, episode, settings)
    assert pasted.changed(docs, episode, settings) == []
    later = one(docs, SHEET.replace("summary: Numbers on kits < and > more.", "summary: Something else."))
    assert pasted.changed(docs, later, settings) == ["- Numbers on kits ‹ and › more.", "+ Something else."]


def test_the_newest_episodes_are_few_and_come_newest_first(docs, monkeypatch):
    for number in range(1, 6):
        text = SHEET.replace("The first one", f"Number {number}").replace("1/1", f"{number}/1")
        written(docs, text, f"00{number}-x.md")
    monkeypatch.chdir(docs.parent)
    page = markdown.markdown("/// episodes | newest\n///", extensions=["build_tools.episodes.blocks"])
    assert re.findall(r">(\d)\. Number \d</a>", page) == ["5", "4", "3"]
    assert 'href="episodes/005-x.md"' in page  # the generator makes the page's address of it
    with pytest.raises(PageMistakes, match=r"'/// episodes \| newist' is unknown; write '/// episodes \| newest'"):
        markdown.markdown("/// episodes | newist\n///", extensions=["build_tools.episodes.blocks"])
