"""Calculators run for a page, each once for the same inputs, with every problem as one plain sentence."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from calculators.catalogue import find
from calculators.desk.calculator import Result
from calculators.desk.errors import InputErrors, UnknownCalculator, nearest_names


class CannotCompute(ValueError):
    """The calculator, an input or a figure is not there or not usable; the text says which and what is."""


def run(name: str, inputs: Mapping[str, object]) -> Result:
    """One run of a calculator with inputs as an author wrote them; CannotCompute with what is wrong."""
    return _run(name, tuple((str(key), _as_text(value)) for key, value in inputs.items()))


@lru_cache(maxsize=2048)  # an answer takes some 25 kB and a third of a millisecond
def _run(name: str, inputs: tuple[tuple[str, str], ...]) -> Result:
    try:
        return find(name).run(dict(inputs))
    except UnknownCalculator as problem:
        raise CannotCompute(str(problem)) from None
    except InputErrors as problems:
        raise CannotCompute("; ".join(f"{name}: {p.input}: {p.message}" for p in problems.problems)) from None


def _as_text(value: object) -> str:
    """A value from a page's options as it would be typed; yes and no are true and false in YAML."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "" if value is None else str(value)


def figure_text(name: str, inputs: Mapping[str, object], wanted: str) -> str:
    """The words of one figure, of the headline, or of the verdict's reason; CannotCompute where it is not there."""
    answer = run(name, inputs).answer
    if wanted == "headline":
        return answer.headline
    if wanted == "verdict" and answer.verdict:
        return answer.verdict.reason
    for figure in answer.figures:
        if figure.key == wanted and figure.only_json:
            raise CannotCompute(f"{name} gives {wanted} to programs alone here, since it would mislead a reader")
        if figure.key == wanted:
            return figure.text
    known = [f.key for f in answer.shown_figures()] + ["headline"] + (["verdict"] if answer.verdict else [])
    near = nearest_names(wanted, known)
    hint = f"did you mean {near[0]}?" if near else f"it has {', '.join(known)}"
    raise CannotCompute(f"{name} gives no figure {wanted} here; {hint}")
