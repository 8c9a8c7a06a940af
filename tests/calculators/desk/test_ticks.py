"""Steps with tags get a box to tick and a place for the plan's tools; steps without get neither."""

from __future__ import annotations

import re

from calculators.catalogue import find, names
from calculators.desk.answer import Answer, Step
from calculators.desk.as_html import as_html
from calculators.desk.calculator import Calculator
from calculators.desk.links import DONE, MADE, read_fragment


def html(*steps: Step) -> str:
    calculator = Calculator(
        name="a.b", title="A?", summary="A.", inputs=(), compute=lambda _: Answer(headline="A.", steps=steps)
    )
    return as_html(calculator.run({}), "p")


def test_a_step_with_tags_can_be_ticked():
    made = html(Step(key="over-restart", title='Restart & "wait"', do=("Now.",), tags=("restarts",)))
    assert made.count('<div class="wa-plan-tools"></div>') == 1
    assert 'value="over-restart" aria-label="Done: Restart &amp; &quot;wait&quot;"' in made


def test_deeper_steps_show_their_titles_and_the_numbers_go_on():
    made = html(
        Step(key="a", title="Gentle", do=("Now.",), group="The plan"),
        Step(key="b", title="Deep", do=("Now.",), group="If it does not work", deeper=True),
        Step(key="c", title="Deeper", do=("Now.",), group="If even that fails", deeper=True),
        Step(key="d", title="Report", do=("Now.",), group="Last"),
    )
    assert made.count('data-fold="deeper" open><summary><span class="wa-step-title">Deep') == 2
    heading = '<p class="wa-steps-group" data-deeper>If it does not work</p>'
    assert f'{heading}<ol class="wa-steps" start="2" data-deeper>' in made
    assert '</ol><p class="wa-steps-group">Last</p><ol class="wa-steps" start="4">' in made


def test_of_a_long_plan_the_first_three_steps_say_at_once_what_to_do_and_what_can_be_lost_is_never_folded():
    plan = [Step(key=f"k{i}", title=f"Step {i}", do=("Now.",), see=f"Sight {i}.") for i in range(1, 5)]
    plan.append(Step(key="k5", title="Step 5", do=("Now.",), tags=("removes:driver",), see="Gone.", back="Undo it."))
    made = html(*plan)
    folds = re.findall(r'<details class="wa-fold wa-step-fold".*?</summary>', made)
    assert [re.search("Step .", fold)[0] for fold in folds] == ["Step 4", "Step 5"]
    last = made[made.index('data-step="k5"') :]
    assert last.index("Undo it.") < last.index("<p>Now.</p>"), "the way back stands before what it undoes"
    assert "Gone." in last.rpartition("</details>")[2], "its check is outside its fold"
    fourth = made[made.index('data-step="k4"') : made.index('data-step="k5"')]
    assert "Sight 4." not in fourth.rpartition("</details>")[2]


def test_steps_without_tags_are_as_they_were():
    made = html(Step(key="a", title="Restart", do=("Now.",)))
    assert "wa-plan-tools" not in made
    assert "checkbox" not in made


def test_a_link_carries_ticks_beside_its_inputs():
    link = read_fragment("#a.b:rate=3&made=1-0a1b2c3d&done=abc123")
    assert (link.inputs, link.mark, link.ticks) == ({"rate": "3"}, "0a1b2c3d", "abc123")
    assert read_fragment("#a.b:rate=3").ticks == ""


def test_no_calculator_has_an_input_of_a_name_that_links_use():
    for name in names():
        assert not {MADE, DONE} & {entry.key for entry in find(name).inputs}, name
