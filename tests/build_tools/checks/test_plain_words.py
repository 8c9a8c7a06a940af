"""No page, no form and no answer holds words that only we know: on made-up texts, and on all that stands."""

import ast
import sys
from pathlib import Path

import pytest

from build_tools.checks.plain_words import REFERENCE_PROGRAMS, faults, of_answer, of_form, of_page
from calculators.catalogue import find, names
from calculators.desk.answer import FROM_MEMORY, Answer, Note, Source
from calculators.desk.calculator import Calculator

PROJECT = Path(__file__).parents[3]
PAGES = sorted(p for p in (PROJECT / "docs").rglob("*.md") if "made" not in p.relative_to(PROJECT / "docs").parts[:1])
# What a reference test imports or starts, and how prose would name it. Empty: viewers meet it for its own sake, since
# the plans have them type it, or since the program bears the standard's own name (CVT).
IN_PROSE = {
    "scipy": "SciPy", "numpy": "NumPy", "PIL": "Pillow", "colour": "colour-science", "edid-decode": "edid-decode",
    "cvt": "", "man": "", "pytest": "", "hypothesis": "",
}  # fmt: skip


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("Play it from audio.tones.", "'audio.tones'"),
        ("audio.level tells", "'audio.level'"),
        ("SciPy gives the same", "'SciPy'"),
        ("by way of edid-decode.", "'edid-decode'"),
    ],
)
def test_our_own_words_are_found(text, word):
    (fault,) = faults(text)
    assert fault.startswith(word)


def test_everyday_words_are_left_alone():
    assert faults("The display. Link it. memory.rates and docs/audio.level.md and drivers.html stay.") == []


def test_a_page_is_read_with_its_front_matter_and_without_what_the_build_replaces():
    page = (
        "---\ntitle: About memory.mix\nsegments:\n  - calculator: memory.mix\n---\n# T\n\n"
        "/// calculator | memory.rate\n    inputs:\n        cas: 16\n///\n\n"
        "So {= memory.rate -> latency_ns =}. `memory.need` too.\n\n"
        "It comes from memory.\n\n## Sources\n\n- A standard: from memory.\n"
    )
    answers = list(of_page(page, "docs/answers/memory/a.md"))
    assert [line for line, _ in answers] == [2, 13, 19]
    assert answers[2][1] == "write 'as we remember it; not looked up again' instead of 'from memory'"
    assert [line for line, _ in of_page(page, "docs/presenting.md")] == [2, 19], "a presenter's command is code"


def test_a_viewer_reads_in_words_what_from_memory_means():
    remembered = Source("ISO 1", "clause 2", FROM_MEMORY)
    assert remembered.say() == "ISO 1, clause 2, as we remember it; not looked up again"
    assert remembered.standing == "from memory", "programs read the short word as before"


def test_an_answers_own_words_are_read_too():
    answer = Answer(headline="Memory plays from memory.", notes=(Note("A table", "From memory; look there."),))
    made = Calculator(name="a.b", title="T", summary="See audio.level.", inputs=(), compute=lambda _: answer)
    assert of_answer(made.run({})) == ["write 'as we remember it; not looked up again' instead of 'from memory'"]
    assert len(of_form(made)) == 1


def test_every_program_that_reference_tests_use_is_known_here():
    used = set()
    for path in sorted((PROJECT / "tests" / "references").rglob("*.py")):
        tree = ast.parse(path.read_text("utf-8"))
        if path.parent.name == "drivers":
            continue  # what runs there are the commands that a plan has its viewer type
        for node in ast.walk(tree):
            if isinstance(node, ast.Import):
                used |= {alias.name.partition(".")[0] for alias in node.names}
            elif isinstance(node, ast.ImportFrom) and node.module:
                used.add(node.module.partition(".")[0])
            elif isinstance(node, ast.Call) and ast.unparse(node.func) in ("shutil.which", "pytest.importorskip"):
                used.add(ast.literal_eval(node.args[0]).partition(".")[0])
    used -= set(sys.stdlib_module_names) | {"calculators", "tests", "build_tools", "__future__"}
    assert used - set(IN_PROSE) == set(), "say in IN_PROSE how prose would name it"
    assert {word for word in IN_PROSE.values() if word} == set(REFERENCE_PROGRAMS)


@pytest.mark.parametrize("path", PAGES, ids=[str(p.relative_to(PROJECT / "docs")) for p in PAGES])
def test_no_page_holds_words_that_only_we_know(path):
    text = path.read_text("utf-8")
    assert [f"{line}: {fault}" for line, fault in of_page(text, path.relative_to(PROJECT).as_posix())] == []


@pytest.mark.parametrize("name", names())
def test_no_form_and_no_common_case_holds_words_that_only_we_know(name):
    calculator = find(name)
    assert of_form(calculator) == []
    for preset in calculator.presets or ():
        assert of_answer(calculator.run(preset.inputs)) == [], preset.key
