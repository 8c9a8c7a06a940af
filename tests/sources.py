"""The project's own source, as git knows it, and what each file of it imports."""

from __future__ import annotations

import ast
import posixpath
import re
import subprocess
from collections.abc import Iterator
from pathlib import Path

PROJECT = Path(__file__).resolve().parents[1]
# `import … from "…"`, `export … from "…"`, `import "…"` and `import("…")`, at the beginning of a line or in a call.
OF_TYPESCRIPT = re.compile(
    r"""^\s*(?:import|export)\b[^;"'`]*?\bfrom\s*["']([^"']+)["']|^\s*import\s*["']([^"']+)["']|"""
    r"""\bimport\(\s*["']([^"']+)["']""",
    re.M,
)


def sources(*rooms: str, endings: tuple[str, ...] = (".py",)) -> Iterator[tuple[str, str]]:
    """Every file with such an ending that git knows or would add, below these rooms: (path in the project, text)."""
    command = ["git", "ls-files", "--cached", "--others", "--exclude-standard", "--", *(f"{room}/" for room in rooms)]
    listed = subprocess.run(command, cwd=PROJECT, capture_output=True, text=True, encoding="utf-8", check=True)
    for name in sorted(set(listed.stdout.split("\n"))):
        path = PROJECT / name
        if name.endswith(endings) and path.is_file():
            yield name, path.read_text("utf-8")


def imports(name: str, text: str) -> Iterator[tuple[int, str]]:
    """(line, dotted name) of all that a file imports, relative imports spelled out, names of `from` included."""
    package = name.removesuffix(".py").removesuffix("/__init__").split("/")
    if not name.endswith("__init__.py"):
        package = package[:-1]
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            module = ".".join([*base, *([node.module] if node.module else [])])
            yield from ((node.lineno, f"{module}.{alias.name}") for alias in node.names)


def module_imports(name: str, text: str) -> Iterator[tuple[int, str]]:
    """(line, path in the project) of each file of ours that TypeScript or JavaScript names; its ending may lack."""
    for found in OF_TYPESCRIPT.finditer(text):
        named = next(filter(None, found.groups()))
        if named.startswith("."):
            line = text.count("\n", 0, found.end()) + 1
            yield line, posixpath.normpath(posixpath.join(posixpath.dirname(name), named))
