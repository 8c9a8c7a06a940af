"""
Docstrings as STYLE C4 wants them, read from the source itself, and their examples run.

Every public function says what it does. A formula, which is a public function of a subject's room (or of the
desk's numbers and functions) that takes arguments and gives numbers, has its sections in order: every argument
described, the unit of each quantity in square brackets, one Source, one Example. What raises, says so; what does
not, does not say so.
"""

from __future__ import annotations

import ast
import doctest
import importlib
import linecache
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

CALCULATORS = Path(__file__).parents[2] / "calculators"
SECTIONS = ("Args", "Returns", "Raises", "Source", "Example")
QUANTITY = re.compile(r"\b(?:int|float)\b")
UNIT = re.compile(r"\[[^\]]+\]")
FORMULA_DESKS = ("desk/numbers.py", "desk/functions.py")


def files() -> list[str]:
    """Every module of the calculators, as a path below calculators/."""
    return sorted(str(p.relative_to(CALCULATORS)).replace("\\", "/") for p in CALCULATORS.rglob("*.py"))


FILES = files()


def public_functions(module: ast.Module) -> Iterator[ast.FunctionDef]:
    """Functions at the top of a module whose names do not start with an underscore."""
    for node in module.body:
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
            yield node


def is_formula(node: ast.FunctionDef) -> bool:
    """Numbers in, numbers out: the return type is made of numbers and some argument is annotated with one."""
    gives = ast.unparse(node.returns) if node.returns else ""
    takes = [ast.unparse(a.annotation) for a in node.args.args + node.args.kwonlyargs if a.annotation]
    plain = re.fullmatch(r"(?:int|float|tuple|list|None|\s|[\[\],|.])+", gives) is not None
    return plain and bool(QUANTITY.search(gives)) and any(QUANTITY.search(t) for t in takes)


def sections(docstring: str) -> list[tuple[str, str]]:
    """The sections of a docstring, in their order: (name, text)."""
    parts = re.split(rf"^({'|'.join(SECTIONS)}):[ ]*$", docstring, flags=re.M)
    return list(zip(parts[1::2], parts[2::2], strict=True))


def _is_number(argument: ast.arg) -> bool:
    return argument.annotation is not None and QUANTITY.search(ast.unparse(argument.annotation)) is not None


def docstring_faults(node: ast.FunctionDef, formula: bool) -> list[str]:
    """What a function's docstring lacks."""
    docstring = ast.get_docstring(node)
    if not docstring:
        return [f"{node.name} has no docstring"]
    found = sections(docstring)
    if not found:
        return [f"{node.name} has no sections"] if formula else []
    faults = []
    names = tuple(name for name, _ in found)
    texts = dict(found)
    if names not in (SECTIONS, tuple(name for name in SECTIONS if name != "Raises")):
        faults.append(f"{node.name} has the sections {', '.join(names)}")
    if re.fullmatch(r"nothing\.?", texts.get("Raises", "").strip(), re.IGNORECASE):
        faults.append(f"{node.name} says that it raises nothing, which a missing section says as well")
    if "Raises" not in texts and any(isinstance(inner, ast.Raise) for inner in ast.walk(node)):
        faults.append(f"{node.name} does not say what it raises")
    for argument in [a for a in node.args.args + node.args.kwonlyargs if a.arg not in ("self", "cls")]:
        described = re.search(rf"^ *{argument.arg}: *(.+(?:\n {{8}}.+)*)", texts.get("Args", ""), flags=re.M)
        if not described:
            faults.append(f"{node.name} does not describe {argument.arg}")
        elif formula and _is_number(argument) and not UNIT.search(described[1]):
            faults.append(f"{node.name} gives {argument.arg} no unit")
    if formula and not UNIT.search(texts.get("Returns", "")):
        faults.append(f"{node.name} gives what it returns no unit")
    if not texts.get("Source", "").strip():
        faults.append(f"{node.name} names no source")
    if ">>>" not in texts.get("Example", ""):
        faults.append(f"{node.name} has no example")
    return faults


GOOD = '''
def cycle_ns(rate_mt_s: int) -> float:
    """
    Length of one clock.

    Args:
        rate_mt_s: The rate. [MT/s]

    Returns:
        The period. [ns]

    Raises:
        InputError: The rate is nought.

    Source:
        A document.

    Example:
        >>> 1 + 1
        2
    """
    if not rate_mt_s:
        raise InputError
    return 2000 / rate_mt_s
'''
RAISES = "    Raises:\n        InputError: The rate is nought.\n\n"
SOURCE = "    Source:\n        A document.\n\n"


@pytest.mark.parametrize(
    ("broken", "fault"),
    [
        (GOOD, None),
        (GOOD.replace(" [MT/s]", ""), "cycle_ns gives rate_mt_s no unit"),
        (GOOD.replace(" [ns]", ""), "cycle_ns gives what it returns no unit"),
        (GOOD.replace("        rate_mt_s: The rate", "        rate: The rate"), "cycle_ns does not describe rate_mt_s"),
        (GOOD.replace("        A document.\n", ""), "cycle_ns names no source"),
        (GOOD.replace(">>> 1 + 1", "1 + 1"), "cycle_ns has no example"),
        (
            GOOD.replace(SOURCE, "").replace("        2\n", f"        2\n\n{SOURCE}"),
            "cycle_ns has the sections Args, Returns, Raises, Example, Source",
        ),
        (GOOD.replace(RAISES, ""), "cycle_ns does not say what it raises"),
        (GOOD.replace(RAISES, "").replace("        raise InputError\n", "        return 0.0\n"), None),
        (
            GOOD.replace("InputError: The rate is nought.", "Nothing."),
            "cycle_ns says that it raises nothing, which a missing section says as well",
        ),
        ("def f(a: int) -> int:\n    pass\n", "f has no docstring"),
        ('def f(a: int) -> int:\n    """It is."""\n', "f has no sections"),
    ],
)
def test_the_check_finds_what_is_wrong(broken, fault):
    (node,) = public_functions(ast.parse(broken))
    assert is_formula(node)
    assert docstring_faults(node, formula=True) == ([fault] if fault else [])


@pytest.mark.once
def test_public_functions_are_described():
    faults = []
    for name in FILES:
        module = ast.parse((CALCULATORS / name).read_text("utf-8"))
        assert ast.get_docstring(module), f"{name} does not say what it holds"
        for node in public_functions(module):
            formula = is_formula(node) and (not name.startswith("desk/") or name in FORMULA_DESKS)
            faults += [(name, fault) for fault in docstring_faults(node, formula)]
    assert faults == []


def module_name(name: str) -> str:
    """The dotted name of a module given by its path below calculators/."""
    return "calculators." + name.removesuffix(".py").replace("/", ".").removesuffix(".__init__")


EXAMPLES = [name for name in FILES if ">>>" in (CALCULATORS / name).read_text("utf-8")]


def test_the_examples_are_true(monkeypatch):
    # Before each docstring the examples' debugger asks of every source file known whether it has changed: a million
    # times in all, which in the page's runtime took longer than anything else. None changes meanwhile.
    monkeypatch.setattr(linecache, "checkcache", lambda filename=None: None)
    results = {
        name: doctest.testmod(importlib.import_module(module_name(name)), exclude_empty=True) for name in EXAMPLES
    }
    assert len(results) > 50
    assert [name for name, result in results.items() if result.failed or not result.attempted] == []
