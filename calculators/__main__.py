"""
The calculators in a terminal, and for machines: standard library only, no environment needed.

    python3 -m calculators                                  lists them
    python3 -m calculators memory.rate                      tells its inputs and answers with the defaults
    python3 -m calculators memory.rate rate=3200 cas=16     the answer as text
    python3 -m calculators memory.rate rate=3200 --json     the answer as JSON
    python3 -m calculators --lines                          one JSON request a line in, one JSON answer a line out
"""

from __future__ import annotations

import json
import os
import sys
from typing import Any, TextIO

from calculators.catalogue import find, names
from calculators.desk.as_json import as_json, dumps
from calculators.desk.as_text import as_text
from calculators.desk.calculator import Calculator
from calculators.desk.errors import InputErrors, Problem, UnknownCalculator

WRONG_INPUT = 2


def main(arguments: list[str]) -> int:
    """Run one command; the exit status is 0, or 2 where an input is wrong."""
    if arguments == ["--lines"]:
        return lines(sys.stdin, sys.stdout)
    if arguments and arguments[0] in ("-h", "--help"):
        print(__doc__.strip() if __doc__ else "")
        return 0
    wants_json = "--json" in arguments
    rest = [a for a in arguments if a != "--json"]
    if not rest:
        print(listing(), end="")
        return 0
    raw: dict[str, object] = {}
    problems: list[Problem] = []
    for pair in rest[1:]:
        key, equals, value = pair.partition("=")
        if not equals:
            problems.append(Problem(key, f"write it as key=value, such as rate=3200; got '{pair[:40]}'."))
        elif key in raw:
            problems.append(Problem(key, "is given twice."))
        raw[key] = value
    try:
        calculator = find(rest[0])
        if problems:
            raise InputErrors(problems)
        result = calculator.run(raw)
    except UnknownCalculator as problem:
        return complain([Problem("calculator", str(problem))], wants_json)
    except InputErrors as wrong:
        return complain(wrong.problems, wants_json)
    if wants_json:
        print(dumps(as_json(result)))
    else:
        print(as_text(result) + ("" if raw else "\n" + describe(calculator)), end="")
    return 0


def complain(problems: list[Problem] | tuple[Problem, ...], wants_json: bool) -> int:
    """Every wrong input at once: JSON on standard output for machines, sentences on standard error for people."""
    if wants_json:
        print(dumps({"errors": [{"input": p.input, "message": p.message} for p in problems]}))
    else:
        for problem in problems:
            print(f"{problem.input}: {problem.message}", file=sys.stderr)
    return WRONG_INPUT


def listing() -> str:
    """All calculators, one a line."""
    known = names()
    width = max((len(n) for n in known), default=0)
    return "".join(f"{name.ljust(width)}  {find(name).title}\n" for name in known)


def describe(calculator: Calculator) -> str:
    """A calculator's inputs, and where one finds them."""
    parts = [f"Inputs of {calculator.name} (key=value):\n"]
    for entry in calculator.inputs:
        start = "may be left out" if entry.optional else ""
        if entry.start is not None:
            start = f"default {entry.write(entry.start)}"
        parts.append(f"  {entry.key}: {entry.label}; {entry.expected()}{'; ' + start if start else ''}\n")
        parts.append(f"      {entry.where}\n")
    return "".join(parts)


def lines(requests: TextIO, answers: TextIO) -> int:
    """One JSON request a line in, one JSON answer a line out, in order, each sent as soon as it is known.

    Every line has its answer, an empty one its error, so that whoever counts them never loses the thread.
    """
    for line in requests:
        answers.write(dumps(_line(line)) + "\n")
        answers.flush()
    return 0


def _line(line: str) -> dict[str, Any]:
    try:
        request = json.loads(line)
    except (ValueError, RecursionError):
        return _errors([Problem("request", "the line is not JSON.")])
    if not isinstance(request, dict) or not isinstance(request.get("calculator"), str):
        return _errors([Problem("calculator", 'the request must be {"calculator": name, "inputs": {…}}.')])
    inputs = request.get("inputs", {})
    if not isinstance(inputs, dict):
        return _errors([Problem("inputs", "the inputs must be an object of key and value.")])
    try:
        return as_json(find(request["calculator"]).run(inputs))
    except UnknownCalculator as problem:
        return _errors([Problem("calculator", str(problem))])
    except InputErrors as wrong:
        return _errors(wrong.problems)


def _errors(problems: list[Problem] | tuple[Problem, ...]) -> dict[str, Any]:
    return {"errors": [{"input": p.input, "message": p.message} for p in problems]}


if __name__ == "__main__":
    for stream in (sys.stdin, sys.stdout, sys.stderr):  # a console's old code page cannot hold every sign
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
    try:
        status = main(sys.argv[1:])
        sys.stdout.flush()
    except BrokenPipeError:  # the reader of our output left, as `| head` does
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        status = 1
    except KeyboardInterrupt:
        status = 130
    sys.exit(status)
