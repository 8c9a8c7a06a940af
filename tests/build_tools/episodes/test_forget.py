"""A viewer's handle is taken out of every text, and of nothing but texts; a word that is no handle is refused."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from build_tools import keeping
from build_tools.environment import places
from build_tools.episodes import forget, sheet

SHEET = """---
title: Thanks, @otter-7!
recorded: 2026-10-02
summary: What otter-7 asked. And otter-77, and not-otter-7.
segments:
  - start: "0:08"      # otter-7 again
    question: "Is 8 enough? asks Otter-7"
    viewer: otter-7
    answer: memory/answer
    inputs: {have_size: 8, note: otter-7, answer: 8}
    figures: {answer: 8 GB}
  - start: "0:20"
    question: >-
      Asked by @otter-7
      and others.
    viewer: "@8"
    note: 'It''s otter-7''s.'
    referred: {to: otter-7, why: "\\"otter-7\\" knows"}
  - viewer: answer
    question: What is the answer?
    note: Ask @answer.
---
# Thanks, @otter-7!

- otter-7 wrote this.
"""


@pytest.fixture
def docs(tmp_path):
    path = tmp_path / "docs" / "episodes" / "001-a.md"
    path.parent.mkdir(parents=True)
    path.write_text(SHEET, "utf-8")
    return tmp_path / "docs"


@pytest.mark.parametrize("handle", ["otter-7", "@otter-7", " Otter-7 "])
def test_a_handle_is_forgotten_in_every_text(docs, handle):
    plan = forget.plan(docs, handle)
    assert {c.line for c in plan.changes} == {2, 4, 6, 7, 8, 14, 17, 18, 23, 25}
    assert (docs / "episodes/001-a.md").read_text("utf-8") == SHEET, "a plan changes nothing"
    assert [p.name for p in forget.carry_out(plan)] == ["001-a.md"]
    new = (docs / "episodes/001-a.md").read_text("utf-8")
    left = new.replace("otter-77", "").replace("not-otter-7", "").replace("note: otter-7", "")
    assert "otter-7" not in left.lower()
    assert "otter-77, and not-otter-7." in new, "nobody else"
    assert "inputs: {have_size: 8, note: otter-7, answer: 8}" in new, "no input"
    before, after = sheet.load(SHEET.split("---")[1])[0], sheet.load(new.split("---")[1])[0]
    assert after["segments"][1]["note"] == "It's anonymous's."
    assert after["segments"][1]["question"] == "Asked by anonymous and others."
    assert [list(row) for row in before["segments"]] == [list(row) for row in after["segments"]]


@pytest.mark.parametrize(
    ("handle", "changed"),
    [("8", {16}), ("@8", {16}), ("answer", {19, 20, 21})],
)
def test_numbers_and_keys_stay(docs, handle, changed):
    plan = forget.plan(docs, handle)
    assert {c.line for c in plan.changes} == changed
    forget.carry_out(plan)
    new = (docs / "episodes/001-a.md").read_text("utf-8")
    for kept in ('start: "0:08"', "Is 8 enough?", "have_size: 8", "answer: memory/answer", "answer: 8 GB"):
        assert kept in new


@pytest.mark.parametrize("handle", ["", " ", "@", "anonymous", "otter", "memory", "start", "otter-8", "10"])
def test_what_is_nobodys_handle_is_refused(docs, handle):
    with pytest.raises(forget.CannotForget, match="no viewer goes by"):
        forget.plan(docs, handle)
    assert (docs / "episodes/001-a.md").read_text("utf-8") == SHEET


def test_no_consent_is_left_behind(docs):
    path = docs / "episodes/001-a.md"
    text = SHEET.replace("    viewer: otter-7\n", "    viewer: otter-7\n    consent: true  # told on the phone\n")
    text = text.replace('    viewer: "@8"\n', '    viewer: "@8"\n    consent: true\n')
    row = "  - {viewer: otter-7, consent: yes, question: Why}\n"
    text = text.replace("  - viewer: answer\n", f"{row}  - viewer: answer\n")
    path.write_text(text, "utf-8")
    plan = forget.plan(docs, "otter-7")
    assert "consent: true" in "".join(change.before for change in plan.changes), "the plan shows it"
    forget.carry_out(plan)
    new = path.read_text("utf-8")
    assert "viewer: anonymous\n    consent: false  # told on the phone" in new
    assert "{viewer: anonymous, consent: false, question: Why}" in new
    assert 'viewer: "@8"\n    consent: true' in new, "another viewer's stays"


def test_a_near_handle_is_told_and_a_faulty_sheet_stops_all(docs):
    with pytest.raises(forget.CannotForget, match="did you mean otter-7"):
        forget.plan(docs, "oter-7")
    (docs / "episodes/002-b.md").write_text("---\na: 1\na: 2\n---\n", "utf-8")
    with pytest.raises(forget.CannotForget, match="stands twice"):
        forget.plan(docs, "otter-7")


def test_what_is_out_of_reach_is_told(docs):
    pasted = docs / "episodes" / ".pasted" / "001.txt"
    keeping.keep(pasted, "Thanks, @otter-7!\n")
    (docs / "about.md").write_text("# A\n\nThanks, @otter-7.\n", "utf-8")
    told = "\n".join(forget.plan(docs, "otter-7").out_of_reach)
    assert "The description of episode 1 names the handle: paste it again, then: pasted 1" in told
    assert "Also in docs/about.md:3" in told
    assert "git's history" in told


def test_one_command_takes_it_out_of_the_presenters_own_folder_too(docs):
    own = docs.parent / ".presenter"
    keeping.keep(own / "line.json", '[{"id": 1, "card": {"question": "otter-7 asks, not otter-77"}}]')
    comments = "handle: Otter-7\nconsent: yes\nHow? asks @otter-7\n\nhandle: wren\nconsent: yes\nWhy?\n"
    keeping.keep(own / "post" / "comments.txt", comments)
    keeping.keep(own / "post" / "comments.txt", comments + "\nhandle: 8\nconsent: yes\nAre 8 enough?\n")
    plan = forget.plan(docs, "otter-7")
    assert {c.shown for c in plan.changes} >= {".presenter/line.json", ".presenter/post/comments.txt"}
    forget.carry_out(plan)
    assert json.loads((own / "line.json").read_text("utf-8"))[0]["card"]["question"] == "anonymous asks, not otter-77"
    left = (own / "post" / "comments.txt").read_text("utf-8")
    assert left.startswith("handle: anonymous\nconsent: no\nHow? asks anonymous\n\nhandle: wren\nconsent: yes\n")
    assert not any("Otter-7" in path.read_text("utf-8") for path in own.rglob("*") if path.is_file()), "nor before"
    forget.carry_out(forget.plan(docs, "8"))
    left = (own / "post" / "comments.txt").read_text("utf-8")
    assert left.endswith("handle: anonymous\nconsent: no\nAre 8 enough?\n"), "the number stays"
    forget.carry_out(forget.plan(docs, "wren"))  # whom no sheet names


def test_it_is_taken_out_of_the_editors_folder_and_built_pages_are_told(docs):
    project = docs.parent
    made = project / "bundle-001"
    (made / "cards").mkdir(parents=True)
    for name in ("bundle.json", "replies.txt", "cards/01-card-01.svg"):
        (made / name).write_text("otter-7 (0:08): It is enough. Not otter-77.\n", "utf-8")
    (project / "notes").mkdir()
    (project / "notes" / "mine.txt").write_text("otter-7\n", "utf-8")
    (project / "site" / "episodes").mkdir(parents=True)
    (project / "site" / "episodes" / "001-a.html").write_text("<p>asked by otter-7</p>", "utf-8")
    plan = forget.plan(docs, "otter-7")
    told = "\n".join(plan.out_of_reach)
    assert "Pictures in bundle-001 show the handle until that bundle is made again" in told
    assert "The built pages in site/ name the handle until the next build" in told
    assert "bundle-001/replies.txt" in {change.shown for change in plan.changes}
    forget.carry_out(plan)
    for name in ("bundle.json", "replies.txt", "cards/01-card-01.svg"):
        assert (made / name).read_text("utf-8") == "anonymous (0:08): It is enough. Not otter-77.\n"
    assert (project / "notes" / "mine.txt").read_text("utf-8") == "otter-7\n", "what no bundle holds is left alone"
    assert not list(made.rglob("*before*")), "what it was is kept nowhere"


def test_the_command_shows_and_asks(docs):
    code = (
        "import sys; from pathlib import Path; from build_tools import presenter_commands as c; import argparse; "
        "p = argparse.ArgumentParser(); c.add_to(p.add_subparsers(dest='command')); "
        "sys.exit(c.run(Path(sys.argv[1]), p.parse_args(sys.argv[2:])))"
    )
    command = [sys.executable, "-c", code, str(docs.parent), "forget", "@8"]
    path = docs / "episodes/001-a.md"
    for answer, status in (("no\n", 1), ("", 1), ("yes\n", 0)):
        done = subprocess.run(command, cwd=places.PROJECT, input=answer, capture_output=True, text=True)
        assert done.returncode == status, done.stderr
        assert '- viewer: "@8"\n  + viewer: anonymous' in done.stdout
        assert (path.read_text("utf-8") == SHEET) == (status != 0)
    assert (
        "--yes"
        in subprocess.run(
            [*command[:-1], "answer"], cwd=places.PROJECT, input="", capture_output=True, text=True
        ).stderr
    )


def test_git_ignores_what_was_pasted():
    assert "/docs/episodes/.pasted/" in (places.PROJECT / Path(".gitignore")).read_text("utf-8").split("\n")
