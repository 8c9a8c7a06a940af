"""
What a room's code may use, read from the source itself: what calculators may, where the functions live whose last
bits differ between machines, and what runs before anything is installed. Who may import whom: test_room_table.py.

Each rule is a function that finds faults in a text, and is tried on a faulty text before it is trusted.
"""

from __future__ import annotations

import ast
import sys
from collections.abc import Callable, Iterator

import pytest

from tests.sources import imports, sources

# Of the standard library, what reads or writes outside, tells the time, rolls dice, or starts other work.
IMPURE = frozenset(
    "asyncio concurrent ctypes datetime fcntl ftplib glob http importlib io locale logging mmap multiprocessing "
    "os pathlib pickle platform random secrets select shelve shutil signal smtplib socket socketserver sqlite3 "
    "ssl subprocess tempfile threading time urllib uuid webbrowser xmlrpc".split()
)
PURE_PARTS = ("urllib.parse",)
IMPURE_NAMES = frozenset({"open", "input", "eval", "exec", "__import__", "globals", "breakpoint"})
# Of those, what one file is allowed, and why.
ALLOWED = {
    "calculators/__main__.py": {"os": "to end quietly when whoever reads its output has gone"},
    "calculators/catalogue.py": {"importlib": "finds the subjects' calculators by name"},
    "calculators/door.py": {"importlib": "fetches the reader of questions by name, with the first question"},
}
# The functions whose last bits differ between CPython and WebAssembly.
UNSTEADY = frozenset(
    "acos acosh asin asinh atan atan2 atanh cbrt cos cosh erf erfc exp exp2 expm1 gamma lgamma log10 log1p log2 "
    "pow sin sinh tan tanh hypot dist".split()
)
STEADY_MODULE = "calculators/desk/functions.py"


def library_faults(name: str, text: str) -> list[str]:
    """What a calculator must not use: packages to install, files, network, clock, chance."""
    faults = []
    for line, imported in imports(name, text):
        top = imported.partition(".")[0]
        if top not in sys.stdlib_module_names and top not in ("calculators", "__future__"):
            faults.append(f"{name}:{line}: imports {top}, which is not in the standard library")
        elif top in IMPURE and not imported.startswith(PURE_PARTS) and top not in ALLOWED.get(name, {}):
            faults.append(f"{name}:{line}: imports {top}: calculators use no files, network, clock or chance")
    for node in ast.walk(ast.parse(text)):
        called = node.func.id if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) else ""
        if called in IMPURE_NAMES:
            faults.append(f"{name}:{node.lineno}: calls {called}()")  # type: ignore[attr-defined]
        if isinstance(node, ast.Global):
            faults.append(f"{name}:{node.lineno}: changes global state")
    return faults


def maths_faults(name: str, text: str) -> list[str]:
    """Functions whose last bits differ between machines, used elsewhere than in the desk's one module of them."""
    if name == STEADY_MODULE:
        return []
    tree = ast.parse(text)
    modules = {
        alias.asname or alias.name
        for node in ast.walk(tree)
        if isinstance(node, ast.Import)
        for alias in node.names
        if alias.name in ("math", "cmath")
    }
    faults = []
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and node.module in ("math", "cmath"):
            bad = [a.name for a in node.names if a.name in UNSTEADY or a.name == "*" or node.module == "cmath"]
            faults += [f"{name}:{node.lineno}: {node.module}.{one}: use calculators/desk/functions.py" for one in bad]
        elif isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id in modules:
            if node.attr in UNSTEADY or node.value.id == "cmath":
                faults.append(f"{name}:{node.lineno}: math.{node.attr}: use calculators/desk/functions.py")
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "pow":
            faults.append(f"{name}:{node.lineno}: pow(): use ** with a whole exponent, or desk/functions.py")
        elif isinstance(node, ast.Call) and _is_log_with_base(node, modules):
            faults.append(f"{name}:{node.lineno}: log with a base: use calculators/desk/functions.py")
    return faults + [
        f"{name}:{line}: ** with an exponent that is not clearly whole: use calculators/desk/functions.py"
        for line in _unclear_powers(tree, frozenset())
    ]


def _unclear_powers(scope: ast.AST, whole: frozenset[str]) -> Iterator[int]:
    """Lines on which something is raised to what is not clearly a whole number, in a scope and those inside it."""
    whole = _whole_names(scope, whole)
    waiting = list(ast.iter_child_nodes(scope))
    while waiting:
        node = waiting.pop()
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda | ast.ClassDef):
            yield from _unclear_powers(node, whole)
            continue
        if isinstance(node, ast.BinOp | ast.AugAssign) and isinstance(node.op, ast.Pow):
            exponent = node.right if isinstance(node, ast.BinOp) else node.value
            if not _is_whole(exponent, whole):
                yield node.lineno
        waiting += ast.iter_child_nodes(node)


def _whole_names(scope: ast.AST, known: frozenset[str]) -> frozenset[str]:
    """Names of a scope that hold whole numbers: annotated so, counted by range, or made of such."""
    found = set(known)
    if isinstance(scope, ast.FunctionDef | ast.AsyncFunctionDef):
        arguments = [*scope.args.posonlyargs, *scope.args.args, *scope.args.kwonlyargs]
        found -= {argument.arg for argument in arguments}
        found |= {argument.arg for argument in arguments if _says_int(argument.annotation)}
    for node in ast.walk(scope):
        if isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name) and _says_int(node.annotation):
            found.add(node.target.id)
        elif isinstance(node, ast.Assign) and _is_whole(node.value, frozenset(found)):
            found |= {target.id for target in node.targets if isinstance(target, ast.Name)}
        elif isinstance(node, ast.For | ast.comprehension) and isinstance(node.target, ast.Name):
            counted = node.iter
            if isinstance(counted, ast.Call) and isinstance(counted.func, ast.Name) and counted.func.id == "range":
                found.add(node.target.id)
    return frozenset(found)


def _says_int(annotation: ast.expr | None) -> bool:
    return isinstance(annotation, ast.Name) and annotation.id == "int"


def _is_whole(value: ast.expr, names: frozenset[str]) -> bool:
    """Whether an expression is clearly a whole number, whatever its sign."""
    if isinstance(value, ast.Constant):
        return type(value.value) is int
    if isinstance(value, ast.Name):
        return value.id in names
    if isinstance(value, ast.UnaryOp):
        return isinstance(value.op, ast.USub) and _is_whole(value.operand, names)
    if isinstance(value, ast.BinOp):
        whole = isinstance(value.op, ast.Add | ast.Sub | ast.Mult | ast.FloorDiv | ast.Mod)
        return whole and _is_whole(value.left, names) and _is_whole(value.right, names)
    if isinstance(value, ast.Call) and isinstance(value.func, ast.Name):
        if value.func.id in ("int", "len"):
            return True
        return value.func.id in ("max", "min", "abs") and all(_is_whole(argument, names) for argument in value.args)
    return False


def _is_log_with_base(node: ast.Call, modules: set[str]) -> bool:
    called = node.func
    named = isinstance(called, ast.Attribute) and called.attr == "log" and isinstance(called.value, ast.Name)
    return named and called.value.id in modules and len(node.args) > 1  # type: ignore[attr-defined]


RULES: list[tuple[Callable[[str, str], list[str]], tuple[str, ...]]] = [
    (library_faults, ("calculators",)),
    (maths_faults, ("calculators",)),
]


@pytest.mark.parametrize(("rule", "rooms"), RULES, ids=[rule.__name__ for rule, _ in RULES])
def test_no_file_breaks_the_rule(rule: Callable[[str, str], list[str]], rooms: tuple[str, ...]) -> None:
    files = list(sources(*rooms))
    assert len(files) > 10, "the rule has hardly anything to look at"
    assert [fault for name, text in files for fault in rule(name, text)] == []


@pytest.mark.parametrize(
    ("rule", "name", "text"),
    [
        (library_faults, "calculators/audio/level.py", "import numpy as np"),
        (library_faults, "calculators/audio/level.py", "from pathlib import Path"),
        (library_faults, "calculators/audio/level.py", "import urllib.request"),
        (library_faults, "calculators/audio/level.py", "import datetime"),
        (library_faults, "calculators/audio/level.py", "import random"),
        (library_faults, "calculators/audio/level.py", "text = open('a').read()"),
        (library_faults, "calculators/audio/level.py", "def f():\n    global seen"),
        (maths_faults, "calculators/audio/level.py", "import math\nx = math.log10(2)"),
        (maths_faults, "calculators/audio/level.py", "import math as m\nx = m.sin(2)"),
        (maths_faults, "calculators/audio/level.py", "from math import cbrt"),
        (maths_faults, "calculators/audio/level.py", "from math import *"),
        (maths_faults, "calculators/audio/level.py", "from cmath import sqrt"),
        (maths_faults, "calculators/audio/level.py", "import math\nx = math.log(8, 2)"),
        (maths_faults, "calculators/audio/level.py", "x = 2 ** 0.5"),
        (maths_faults, "calculators/audio/level.py", "def f(n: int, y: float):\n    return 2 ** y"),
        (maths_faults, "calculators/audio/level.py", "def f(n: int):\n    return 2 ** (n / 3)"),
        (maths_faults, "calculators/audio/level.py", "n = 3\ndef f(n: float): return 2 ** n"),
        (maths_faults, "calculators/audio/level.py", "x = 3.0\nx **= 2.4"),
        (maths_faults, "calculators/audio/level.py", "x = pow(2, 0.5)"),
    ],
)
def test_each_rule_sees_the_fault(rule: Callable[[str, str], list[str]], name: str, text: str) -> None:
    faults = rule(name, text)
    assert len(faults) == 1
    assert faults[0].startswith(f"{name}:{text.count(chr(10)) + 1}: ")


@pytest.mark.parametrize(
    ("rule", "name", "text"),
    [
        (library_faults, "calculators/audio/level.py", "from fractions import Fraction\nimport math"),
        (maths_faults, "calculators/audio/level.py", "import math\nx = math.sqrt(2) + math.log(2) + 2 ** 3 + y ** -2"),
        (maths_faults, "calculators/audio/level.py", "def f(n: int):\n    return [2 ** (n - k) for k in range(n)]"),
        (maths_faults, "calculators/audio/level.py", "def f(n: int):\n    k = max(n - 2, 0)\n    return 10 ** k"),
        (maths_faults, STEADY_MODULE, "import math\nx = math.sin(2)"),
    ],
)
def test_no_rule_sees_what_is_not_there(rule: Callable[[str, str], list[str]], name: str, text: str) -> None:
    assert rule(name, text) == []


EARLY = ("build_tools.installer", "build_tools.commands", "build_tools.presenter_commands")


def early_faults(name: str, text: str) -> list[str]:
    """What runs before anything is installed imports the standard library and itself alone, at its top level."""
    faults = []
    for node in ast.parse(text).body:
        for _, imported in imports(name, ast.unparse(node)) if isinstance(node, ast.Import | ast.ImportFrom) else ():
            own = imported.startswith(() if name.startswith("build_tools/environment/") else EARLY)
            own = own or imported.startswith("build_tools.environment")
            if not own and imported.partition(".")[0] not in sys.stdlib_module_names:
                faults.append(f"{name}:{node.lineno}: imports {imported}, which a bare Python may not have")
    return faults


def is_early(name: str) -> bool:
    """Whether a file is read by the bare Python that starts a command."""
    return name.startswith(("build_tools/environment/", "build_tools/installer/")) or name in {
        "build_tools/__init__.py",
        "build_tools/__main__.py",
        "build_tools/commands.py",
        "build_tools/presenter_commands.py",
        "build_tools/serving/__init__.py",
        "build_tools/serving/ports.py",
    }


def test_the_commands_start_on_a_bare_python() -> None:
    files = [(name, text) for name, text in sources("build_tools") if is_early(name)]
    assert len(files) > 10
    assert [fault for name, text in files for fault in early_faults(name, text)] == []
    assert early_faults("build_tools/installer/uv.py", "from build_tools.environment import places") == []
    assert len(early_faults("build_tools/environment/places.py", "from build_tools.installer import uv")) == 1
    assert early_faults("build_tools/commands.py", "import sys\nimport yaml") == [
        "build_tools/commands.py:2: imports yaml, which a bare Python may not have"
    ]
