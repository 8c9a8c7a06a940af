"""Links that carry a calculator's inputs: made and read here, and nowhere else in Python."""

from __future__ import annotations

from collections.abc import Mapping
from urllib.parse import parse_qsl, quote

from calculators.desk.as_json import digest
from calculators.desk.calculator import Result

MADE = "made"
DONE = "done"  # the steps of a plan that are ticked off; written and read by the page alone


def fragment(result: Result) -> str:
    """
    The part of a link after '#': the calculator, what was given, and a mark of the answer it was made for.

    Args:
        result: A run. Private inputs and assumed ones are left out. [object]

    Returns:
        Such as "memory.rate:rate=3200&made=1-0a1b2c3d". [text]

    Source:
        WHATWG URL standard, application/x-www-form-urlencoded; the mark is this project's own.

    Example:
        >>> read_fragment("memory.rate:rate=3200&made=1-0a1b2c3d").inputs
        {'rate': '3200'}
    """
    pairs = [(key, value) for key, value in result.values.given().items()]
    pairs.append((MADE, f"{result.calculator.version}-{digest(result)}"))
    return f"{result.calculator.name}:" + "&".join(f"{quote(k, safe='')}={quote(v, safe='')}" for k, v in pairs)


class Link:
    """What a link's fragment says: the calculator, the inputs as typed, version, mark and ticks; '' where absent."""

    def __init__(self, name: str, inputs: Mapping[str, str], version: str, mark: str, ticks: str = "") -> None:
        self.name = name
        self.inputs = dict(inputs)
        self.version = version
        self.mark = mark
        self.ticks = ticks


def read_fragment(text: str) -> Link:
    """Read a link's fragment, with or without its '#'. Never fails: what is not there is empty."""
    name, _, rest = text.removeprefix("#").partition(":")
    inputs = dict(parse_qsl(rest, keep_blank_values=True))
    version, _, mark = inputs.pop(MADE, "").partition("-")
    ticks = inputs.pop(DONE, "")
    return Link(name, inputs, version, mark, ticks)
