"""Steps with tags get a box to tick and a place for the plan's tools; steps without get neither."""

from __future__ import annotations

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
