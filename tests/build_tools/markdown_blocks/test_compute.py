"""Figures inside prose: which an author may write, and what is said of the others."""

import pytest

from build_tools.markdown_blocks import compute
from calculators.desk.answer import Answer, figure
from calculators.desk.calculator import Calculator


def test_a_figure_for_programs_alone_cannot_be_written_into_prose(monkeypatch):
    answer = Answer(headline="A.", figures=(figure("a", "A", 1), figure("b", "B", 2, only_json=True)))
    made = Calculator(name="test.only_json", title="T", summary="S", inputs=(), compute=lambda _: answer)
    monkeypatch.setattr(compute, "find", lambda _: made)
    assert compute.figure_text("test.only_json", {}, "a") == "1"
    with pytest.raises(compute.CannotCompute, match="gives b to programs alone here, since it would mislead a reader"):
        compute.figure_text("test.only_json", {}, "b")
    with pytest.raises(compute.CannotCompute, match="it has a, headline"):
        compute.figure_text("test.only_json", {}, "zzz")
