"""Steps with tags get a box to tick and a place for the plan's tools; steps without get neither."""

from __future__ import annotations

from calculators.desk.answer import Answer, Step
from calculators.desk.as_html import as_html
from calculators.desk.calculator import Calculator


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
