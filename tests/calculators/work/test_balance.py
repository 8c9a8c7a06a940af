"""work.balance: levels of a week, where the two sides part, what is thrown away, and that hours scale freely."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from calculators.catalogue import find
from calculators.desk.as_text import as_text
from calculators.desk.errors import InputErrors
from calculators.desk.numbers import number
from calculators.work.tables.task_weights import CAPACITIES, LEVELS, PARTS, TASKS

BALANCE = find("work.balance")
NONE = dict.fromkeys((task.key for task in TASKS), 0)
HOURS = st.floats(0, 80).map(lambda h: round(h, 1))


def run(**inputs):
    answer = BALANCE.run({**NONE, **inputs}).answer
    return answer, {f.key: f.value for f in answer.figures}


def test_an_empty_request_is_answered():
    answer = BALANCE.run({}).answer
    assert {f.key for f in answer.figures} == {*(key for key, _, _ in PARTS), "hours"}
    assert answer.verdict.word in ("yes", "depends", "no")


@pytest.mark.parametrize("task", TASKS, ids=lambda task: task.key)
def test_one_kind_of_work_alone_asks_what_its_row_says(task):
    answer, figures = run(**{task.key: 10})
    assert [figures[key] for key, _, _ in PARTS] == [LEVELS[weight] for weight in task.weights]
    assert answer.verdict is None  # one side alone has nothing to part from


# The questions of the pages docs/answers/work/which-part-first, out-of-card-memory and how-fast-a-disk.
FIRST_PART, CARD_MEMORY, DISK = (
    "Which part do I buy first?", "Out of card memory: will it fit?", "How fast a disk for my footage?",
)  # fmt: skip


@pytest.mark.parametrize("task", TASKS, ids=lambda task: task.key)
def test_what_to_work_out_next_is_what_this_kind_of_work_can_run_out_of(task):
    notes = {note.title: note.text for note in run(**{task.key: 10})[0].notes}
    next_pages = notes["What to work out next"]
    assert FIRST_PART in next_pages
    assert (CARD_MEMORY in next_pages) == (task.key == "render_card_h")
    assert (DISK in next_pages) == (task.key in ("cutting_h", "grading_h"))  # either alone is enough
    assert not {"Where both want the same", "Where they part"} & set(notes)  # there is one side only


@given(st.dictionaries(st.sampled_from(sorted(NONE)), HOURS, min_size=1))
def test_property_the_notes_and_the_marked_rows_say_what_the_table_of_sides_holds(hours):
    assume(any(hours.values()))
    answer, _ = run(**hours)
    table = answer.tables[0]
    assert set(table.marked) == {i for i, row in enumerate(table.rows) if row[3] == LEVELS[-1]}
    notes = {note.title: note.text for note in answer.notes}
    assert ("Where both want the same" in notes) == (answer.verdict is not None)
    if answer.verdict is None:
        return
    sides = [(name, row[1], row[2]) for (_, name, _), row in zip(PARTS, table.rows, strict=True)]
    alike = [name for name, three_d, editing in sides if three_d == editing]
    unlike = [f"{name} (3D {three_d}, editing {editing})" for name, three_d, editing in sides if three_d != editing]
    assert all(name in notes["Where both want the same"] for name in alike)
    assert all(each in notes["Where they part"] for each in unlike)
    assert ("Where they part" in notes) == bool(unlike)


def test_the_longest_work_is_named_first_and_what_is_left_out_is_said():
    labels = {task.key: task.label.lower() for task in TASKS}
    keys = list(labels)[:5]
    week = {key: 2.0 * place for place, key in enumerate(keys, 1)}  # the last is the longest
    phrases = [f"{number(week[key], 0)} h of {labels[key]}" for key in reversed(keys)]

    def worked_for(count):
        return (
            BALANCE.run({**NONE, **{key: week[key] for key in keys[5 - count :]}}).worked_for().replace("\u00a0", " ")
        )

    assert worked_for(1) == f"a week with {phrases[0]}"
    assert worked_for(2) == f"a week with {phrases[0]} and {phrases[1]}"
    assert worked_for(5).endswith(" and more")
    assert worked_for(5).startswith(f"a week with {phrases[0]}, {phrases[1]}")
    assert worked_for(5).count(" and ") == 1 + sum(
        label.count(" and ") for label in labels.values() if label in worked_for(5)
    )


def test_every_row_has_its_reason_and_the_table_its_standing():
    table = BALANCE.run({}).answer.tables[2]
    assert len(table.rows) == len(TASKS)
    assert "Common practice" in table.note
    for task, row in zip(TASKS, table.rows, strict=True):
        assert task.because in row[1]


def test_where_both_part_is_said():
    answer, _ = run(modelling_h=20, cutting_h=20)
    assert answer.verdict.word == "no"
    assert answer.verdict.reason == "They part at the disk: 3D work asks little, editing much."
    assert run(render_card_h=20, grading_h=20)[0].verdict.word == "depends"


def test_what_is_money_thrown_away():
    notes = {n.title: n.text for n in run(modelling_h=20)[0].notes}
    assert notes["Money thrown away for this week"] == "Do not pay for very many cores and the fastest disk."
    assert "What neither needs" in notes


def test_each_part_has_its_reason():
    sides = {
        row[0]: row[2] for row in run(modelling_h=10, render_card_h=5, cutting_h=10, grading_h=3)[0].tables[1].rows
    }
    assert sides["The disk"] == "cutting, grading and effects"
    assert sides["The card's memory"] == "rendering on the card, grading and effects"
    assert sides["One core"] == "modelling, cutting"
    alone = {row[0]: row[2] for row in run(modelling_h=40, cutting_h=2)[0].tables[1].rows}
    assert alone["The disk"] == "cutting, in few of the hours"
    assert {row[2] for row in run(encoding_h=5)[0].tables[1].rows} == {"encoding", "nothing that you do"}


def test_more_hours_than_a_week_has_are_told():
    titles = [n.title for n in run(modelling_h=100, cutting_h=69)[0].notes]
    assert titles[0] == "More than a week has"
    assert "More than a week has" not in [n.title for n in run(modelling_h=100, cutting_h=68)[0].notes]


def test_what_must_hold_it_all_is_not_divided_by_hours():
    _, figures = run(encoding_h=80, render_card_h=1)
    assert figures["card_memory"] == "much"
    assert figures["card"] == "some"


def test_it_leads_to_the_other_answers():
    text = as_text(BALANCE.run({}))
    for question in ("Which part do I buy first?", "will it fit?", "How fast a disk for my footage?"):
        assert question in text
    assert "How fast a disk" not in as_text(BALANCE.run({**NONE, "modelling_h": 5}))


def test_no_percentages():
    assert "%" not in as_text(BALANCE.run({}))


def test_no_hours_at_all_and_wrong_hours_are_told():
    with pytest.raises(InputErrors) as caught:
        BALANCE.run(NONE)
    (problem,) = caught.value.problems
    assert problem.input == "modelling_h"
    assert problem.message.startswith("All hours are 0")
    with pytest.raises(InputErrors) as caught:
        BALANCE.run({"modelling_h": 169, "cutting_h": "many"})
    assert [p.input for p in caught.value.problems] == ["modelling_h", "cutting_h"]


@given(st.lists(HOURS, min_size=7, max_size=7), st.integers(2, 2))
def test_the_same_mix_asks_the_same_whatever_its_hours(hours, by):
    assume(any(hours))
    week = dict(zip((task.key for task in TASKS), hours, strict=True))
    one, twice = run(**week)[1], run(**{key: h * by for key, h in week.items()})[1]
    assert {k: v for k, v in one.items() if k != "hours"} == {k: v for k, v in twice.items() if k != "hours"}


@given(st.lists(HOURS, min_size=7, max_size=7), st.integers(0, 6), st.integers(0, 5))
def test_more_hours_of_work_that_asks_much_never_lower_a_part(hours, place, part):
    assume(any(hours))
    task = TASKS[place]
    assume(task.weights[part] == 2)
    week = dict(zip((t.key for t in TASKS), hours, strict=True))
    more = {**week, task.key: week[task.key] + 20}
    key = PARTS[part][0]
    assert LEVELS.index(run(**more)[1][key]) >= LEVELS.index(run(**week)[1][key])
    if part in CAPACITIES:
        assert run(**more)[1][key] == "much"
