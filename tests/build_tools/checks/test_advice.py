"""The check command: one case per kind of finding, with its file and line."""

import datetime

import pytest

from build_tools.checks.advice import NAMES_LIST, check
from build_tools.new import skeletons

TODAY = datetime.date(2026, 2, 28)
PAGE = "docs/answers/memory/page.md"


@pytest.fixture
def told(tmp_path):
    def tell(change=lambda text: text, today=TODAY) -> list[str]:
        path = tmp_path / PAGE
        path.parent.mkdir(parents=True, exist_ok=True)
        text = skeletons.answer("Is it?", "memory", "memory.rate", "latency_ns", TODAY).replace("Write here", "Say")
        path.write_text(change(text), "utf-8")
        return [str(f) for f in check(tmp_path, today)]

    return tell


def test_a_finished_page_has_nothing_to_tell(told):
    assert told() == []


def test_what_is_overdue_is_an_error(told):
    assert told(today=datetime.date(2027, 3, 1)) == [
        f"{PAGE}:1: was to be reviewed by 2027-02-28; check it and its sources, then set a new date"
    ]


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("Say why it is so.", "See [that](nowhere.md).", ":29: the link to nowhere.md leads nowhere"),
        (
            "Say why it is so.",
            "It waits 10 ns.",
            ":29: advice: '10 ns' is typed by hand; write {= memory.rate … -> lat",
        ),
        (
            "Say why it is so.",
            f"It {'goes on ' * 20}.",
            ":29: advice: a sentence of 41 words is hard to say: 'It goes on",
        ),
        ("Say why it is so.", "Write here.", ":29: 'Write here …' is still to be written"),
        ("## Why", "## Reasons", "the part '## Why' is missing"),
    ],
)
def test_findings_stand_with_file_and_line(told, old, new, said):
    lines = told(lambda text: text.replace(old, new))
    assert any(line.startswith(PAGE) and said in line for line in lines), lines


def test_a_number_inside_another_one_or_computed_is_no_finding(told):
    assert told(lambda t: t.replace("Say why it is so.", "It is 110 ns, 10.5 ns or 10 nsec; `10 ns`.")) == []


def test_names_to_avoid_are_the_presenters_own_list(told, tmp_path):
    (tmp_path / NAMES_LIST).write_text("# ours\nAcme Corp\n\n", "utf-8")
    lines = told(lambda text: text.replace("Say why it is so.", "Buy from acme corp, not acmes."))
    assert lines == [f"{PAGE}:29: 'Acme Corp' is on the list of names to avoid (.names-to-avoid)"]
