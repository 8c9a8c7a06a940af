"""Markdown in, HTML out: one case per block, option and inline figure, and one per mistake."""

import json
import re
from html import escape, unescape

import markdown
import pytest

from build_tools.markdown_blocks import structure
from build_tools.markdown_blocks.blocks import WORDS_A_MINUTE
from build_tools.markdown_blocks.mistakes import PageMistakes
from build_tools.markdown_blocks.places import front_matter_lines
from build_tools.markdown_blocks.scan import WORDS_ALOUD, scan
from calculators.catalogue import find, names
from calculators.desk.as_html import as_html, first_html, rest_html
from calculators.memory.rate import calculator as rate


def html(text: str) -> str:
    return markdown.Markdown(extensions=["build_tools.markdown_blocks", "fenced_code", "tables", "toc"]).convert(text)


def mistakes(text: str) -> list[str]:
    with pytest.raises(PageMistakes) as caught:
        html(text)
    return str(caught.value).split("\n")


def data_of(page: str) -> dict:
    found = re.search(r'<script type="application/json" class="wa-data"[^>]*>(.*?)</script>', page, re.S)
    assert found
    return json.loads(found[1].replace("<\\/", "</"))


def test_the_worked_example_is_the_calculators_own_rendering():
    page = html("/// calculator | memory.rate\n    inputs:\n        rate: 3600\n        cas: 18\n///")
    result = rate.run({"rate": 3600, "cas": 18})
    places = [page.index(part(result, "memory-rate-1")) for part in (first_html, rest_html)]
    assert places[0] < page.index('<form class="wa-form"') < places[1]
    assert 'data-calculator="memory.rate"' in page
    assert data_of(page)["inputs"] == {"rate": "3600", "cas": "18"}
    assert set(data_of(page)["presets"]) == {p.key for p in rate.presets}


def test_each_preset_is_computed_while_building():
    presets = data_of(html("/// calculator | memory.rate\n///"))["presets"]
    for preset in rate.presets:
        assert presets[preset.key]["html"] == as_html(rate.run(preset.inputs), "memory-rate-1")


def test_presets_can_be_chosen_or_left_out():
    assert set(data_of(html("/// calculator | memory.rate\n    presets: [old-ddr3]\n///"))["presets"]) == {"old-ddr3"}
    page = html("/// calculator | memory.rate\n    presets: []\n///")
    assert data_of(page)["presets"] == {}
    assert "wa-presets" not in page


def test_two_calculators_on_a_page_share_no_id():
    page = html("/// calculator | memory.rate\n///\n\n/// calculator | memory.rate\n///")
    shown = re.sub(r"<script.*?</script>", "", page, flags=re.S)
    ids = re.findall(r'\bid="([^"]+)"', shown)
    assert len(ids) > 10
    assert len(ids) == len(set(ids))


def test_a_caption_is_markdown():
    assert "<em>mine</em>" in html("/// calculator | memory.rate\n\nThese are *mine*.\n///")


def test_an_inline_figure_is_computed_in_prose_headings_lists_and_tables():
    figure = "{= memory.rate rate=3200 cas=16 -> latency_ns =}"
    page = html(f"# A {figure}\n\nB {figure}.\n\n- C {figure}\n\n| D |\n| --- |\n| {figure} |\n")
    assert page.count(">10 ns</span>") == 4
    assert "{=" not in page


def test_a_headline_in_prose():
    page = html("{= memory.rate rate=3200 cas=16 -> headline =}")
    assert "DDR4-3200 with CAS latency 16 waits 10\u00a0ns" in page


def test_code_shows_the_figure_as_written():
    page = html("`{= memory.rate -> nonsense =}`\n\n```\n{= memory.rate -> nonsense =}\n/// calculator | none\n```\n")
    assert page.count("{= memory.rate -&gt; nonsense =}") == 2


def test_the_short_answer_tells_its_speaking_time_to_presenters_alone():
    words = " ".join(["word"] * 25)
    page = html(f"/// short-answer\n{words}\n///")
    assert f'<div class="wa-short-answer" data-seconds="{25 * 60 // WORDS_A_MINUTE}">' in page
    assert "second" not in re.sub("<[^>]*>", "", page)


def test_sources_of_the_page_each_once():
    page = html(
        "/// calculator | memory.rate\n///\n\n/// calculator | memory.rate\n///\n\n## Sources\n\n/// sources\n///\n"
    )
    listed = page.split('class="wa-page-sources"')[1]
    for source in rate.run({}).answer.sources:
        assert listed.count(source.say()) == 1


def test_every_source_names_every_calculator_by_its_question():
    page = unescape(html("/// every-source\n///"))
    for name in names():
        assert f"{find(name).title}</h4>" in page
        assert f">{name}<" not in page


def test_the_sources_are_folded_by_subject_and_say_a_standing_once_a_list():
    page = unescape(html("/// every-source\n///"))
    subjects = list(dict.fromkeys(name.partition(".")[0] for name in names()))
    assert page.count('<details class="wa-fold" data-fold="sources" open="">') == len(subjects)
    for name in names():
        part = page.partition(f"{find(name).title}</h4>")[2].partition("<h4")[0]
        for words in ("as we remember it; not looked up again", "common practice, no source"):
            assert part.lower().count(words) <= 1, name
        for source in find(name).run(dict(find(name).presets[0].inputs)).answer.sources:
            assert source.title in part.replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("\n/// calculator | memory.rat\n///", "this page:2: no calculator memory.rat; did you mean memory.rate?"),
        (
            "/// calculator | memory.rate\n    inputs:\n        cas: 16\n        rte: 4\n///",
            "this page:4: memory.rate: rte: There is no input 'rte'; did you mean rate?",
        ),
        (
            "/// calculator | memory.rate\n    inputs:\n        cas: 0\n///",
            "this page:3: memory.rate: cas: CAS latency must be a whole number from 1 to 200 clocks, such as 16",
        ),
        ("/// calculator | memory.rate\n    inpts: 3\n///",
         "this page:2: '/// calculator' has no option inpts; did you mean inputs?"),
        ("/// calculator | memory.rate\n    presets: [old]\n///",
         "this page:2: memory.rate has no preset old; did you mean old-ddr3?"),
        ("/// calculator | memory.rate\n    inputs: [\n///",
         "the options of '/// calculator' cannot be read: a bracket is not closed"),
        ("/// calculator | memory.rate\n    inputs: 5\n///", "'inputs' must be written as 'key: value', one a line"),
        ("/// calculator\n///", "'/// calculator' needs a name, such as '/// calculator | memory.rate'"),
        ("/// calculator | memory.rate\n", "'/// calculator' is not closed with a line '///'"),
        ("/// calclator | memory.rate\n///", "there is no block '/// calclator'; did you mean '/// calculator'?"),
        ("- a\n\n  /// calculator | memory.rate\n  ///", "must stand at the start of the line"),
        ("a\n\nb {= memory.rate -> latncy_ns =}",
         "this page:3: memory.rate gives no figure latncy_ns here; did you mean latency_ns?"),
        ("{= memory.rte -> latency_ns =}", "this page:1: no calculator memory.rte; did you mean memory.rate?"),
        ("{= memory.rate cas=x -> latency_ns =}", "this page:1: memory.rate: cas: CAS latency must be"),
        ("{= memory.rate cas -> latency_ns =}", "write inputs as key=value, such as rate=3200; got 'cas'"),
        ("{= memory.rate =}", "an inline figure reads"),
        ("/// short-answer\n///", "the short answer is empty"),
        (
            f"/// short-answer\n{'word ' * 61}\n///",
            f"this page:1: the short answer has 61 words; at most {WORDS_ALOUD} can be said",
        ),
    ],
)  # fmt: skip
def test_a_mistake_stops_the_build_and_names_line_and_mend(text, said):
    assert said in "\n".join(mistakes(text))


def test_every_mistake_of_a_page_is_told_at_once():
    told = mistakes("{= a.b -> c =}\n\n/// calculator | x.y\n///\n\n{= memory.rate -> z =}")
    assert [line.split(":")[1] for line in told] == ["1", "3", "6"]


def test_lines_count_from_the_files_first_line():
    text = "---\ntitle: T\n---\n{= a.b -> c =}"
    assert front_matter_lines(text) == 3
    assert scan(text.split("---\n", 2)[2], "docs/a.md", 4).mistakes[0].line == 4
    assert front_matter_lines("# no front matter") == 0


def test_a_slash_block_of_another_extension_is_left_alone():
    assert scan("/// details | More\nText\n///", "a.md").mistakes == []


def test_a_closing_line_that_closes_nothing_is_told() -> None:
    stray = scan("/// sources\n///\n\n///\n", "a.md").mistakes
    assert [(each.line, str(each)) for each in stray] == [(4, "a.md:4: '///' closes nothing: no block is open here")]
    assert scan("/// details | More\n/// details | Deeper\n///\n///", "a.md").mistakes == []
    assert scan("```\n///\n```", "a.md").mistakes == []


def test_a_list_of_questions_carries_the_words_by_which_viewers_look_for_them(tmp_path, monkeypatch):
    folder = tmp_path / "docs" / "answers" / "memory"
    folder.mkdir(parents=True)
    (folder / "a.md").write_text('---\nquestion: Is 16 enough?\nwords: [ram, 16, "mt/s"]\n---\n', "utf-8")
    (folder / "b.md").write_text("---\nquestion: Does it start?\n---\n", "utf-8")
    monkeypatch.chdir(tmp_path)
    page = html("/// questions\n///").replace(".md", ".html")
    assert '<li data-words="ram 16 mt/s"><a href="answers/memory/a.html">Is 16 enough?</a></li>' in page
    assert '<li><a href="answers/memory/b.html">' in page


def test_a_list_of_several_subjects_leads_to_each_in_the_order_in_which_people_ask(tmp_path, monkeypatch):
    for subject in ("rooms", "audio", "memory"):
        (tmp_path / "docs" / "answers" / subject).mkdir(parents=True)
        (tmp_path / "docs" / "answers" / subject / "a.md").write_text("---\nquestion: Q?\n---\n", "utf-8")
    monkeypatch.chdir(tmp_path)
    page = html("/// questions\n///")
    assert re.findall(r'<a href="#(\w+)">', page) == ["memory", "audio", "rooms"]
    assert re.findall(r'<h2 id="(\w+)">', page) == ["memory", "audio", "rooms"]
    assert "wa-subject-row" not in html("/// questions | audio\n///")


PARTS_OF_A_PAGE = """## Your numbers

/// calculator | memory.mix
///

## If it does not work

- Wait.

## Why

Because.

## Sources

/// sources
///
"""


def answer_page(text, tmp_path, monkeypatch):
    """The HTML of a text as an answer page's."""
    page = tmp_path / "docs" / "answers" / "memory" / "a.md"
    page.parent.mkdir(parents=True)
    page.write_text(text, "utf-8")
    monkeypatch.setattr(structure, "is_answer", lambda md: True)
    return html(text)


def test_the_parts_of_an_answer_page_are_folds_that_are_open_and_the_row_of_jumps_names_those_that_are_there(
    tmp_path, monkeypatch
):
    page = answer_page(PARTS_OF_A_PAGE, tmp_path, monkeypatch)
    jumps = re.search(r'<nav class="wa-jumps".*?</nav>', page)[0]
    assert re.findall(r">([^<>]+)</a>", jumps) == ["What to do", "If it does not work", "Why", "Sources"]
    for target in re.findall(r'href="#([^"]+)"', jumps):
        assert f'id="{target}"' in page, target
    for key in ("why", "sources"):
        assert re.search(rf'<details class="wa-fold wa-part" data-fold="{key}" open="open">\s*<summary>', page), key
    assert '<section class="wa-part wa-part-if-not">' in page
    places = [page.index(mark) for mark in ("wa-headline", "wa-open-form", "wa-jumps", "wa-plan", "Because.")]
    assert places == sorted(places)


def test_a_second_calculator_is_a_fold_and_has_no_row_of_jumps_of_its_own(tmp_path, monkeypatch):
    twice = PARTS_OF_A_PAGE.replace("## If", "/// calculator | memory.ways\n///\n\n## If")
    page = answer_page(twice, tmp_path, monkeypatch)
    assert page.count('class="wa-jumps"') == 1
    assert page.count('data-fold="further" open>') == 1
    assert "wa-jumps-->" not in page


def test_a_page_lists_the_sources_of_all_common_cases_so_that_no_answer_of_its_calculator_lacks_one():
    page = html("/// calculator | memory.mix\n    inputs:\n        have_size: 4\n///\n\n/// sources\n///")
    for preset in find("memory.mix").presets:
        for source in find("memory.mix").run(preset.inputs).answer.sources:
            assert escape(source.title) in page


def test_an_authors_numbers_keep_their_units_and_code_stays_as_typed():
    page = html("Carries 40 Mb/s, **2 m** long.\n\n- at 60 Hz\n\n`wait 5 s` for 3 models\n\n    sleep 5 s\n")
    assert "40\u00a0Mb/s" in page
    assert "2\u00a0m</strong> long" in page
    assert "60\u00a0Hz" in page
    assert page.count("5 s") == 2
    assert "3 models" in page


def test_a_tab_in_what_was_pasted_is_part_of_it_and_one_that_indents_is_told():
    pasted = (
        "/// calculator | drivers.which\n    inputs:\n        said: |\n"
        "            01:00.0 VGA compatible controller [0300]: Maker A [1234:5678]\n"
        "            \tKernel driver in use: nothing\n///"
    )
    assert "wa-calculator" in html(pasted)
    with pytest.raises(PageMistakes, match="a tab stands here"):
        html("/// calculator | memory.rate\n    inputs:\n    \tcas: 16\n///")
