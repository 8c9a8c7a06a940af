"""
Runs inside the browser's runtime while the site is built: writes a bundle of byte code for each calculator.

A reader's page has a snapshot with the interpreter and calculators/desk in it, and loads the bundles of its own
calculators alone: so a page does not grow heavier with each new calculator. A bundle holds every module that the
calculator imports, directly or not, and the snapshot lacks, found by following imports in the byte code; and its
subject's screen cards, which the catalogue fetches by name. The reader of whole questions has a bundle too, with all
calculators in it, for those who type a question. `/bundles/<calculator>` are the bundles; `/scouted.json` names the
modules that belong into the snapshot: those that the door imports, and of the standard library all that answers turned
out to need. `/calculators.whl` has the calculators' byte code; their source alone where a release cannot compile it.
"""

import collections
import dataclasses
import json
import marshal
import os
import sys
import types
import zipfile
from collections.abc import Iterator
from importlib import import_module
from modulefinder import ModuleFinder
from opcode import opmap

sys.path.insert(0, "/")

from lean_code import lean  # type: ignore[import-not-found]

ARCHIVE = "/calculators.whl"
OURS = "calculators"
READER = "asking.reader"  # the name of its bundle
PYC_HEAD = 16  # bytes before the code in a .pyc (PEP 552)
IMPORT = opmap["IMPORT_NAME"]

# Making a dataclass or a named tuple compiles text. So that a page's runtime needs no compiler, the bundles bring the
# compiled code: here it is noted by the name of the module that made the class, then by the text.
generated: dict[str, dict[str, types.CodeType]] = {}


def compiled(text: str, kind: str) -> types.CodeType:
    """The code of a text, noted with the module of ours that is being loaded."""
    code: types.CodeType = lean(compile(text, OURS, kind, dont_inherit=True, optimize=2))
    frame = sys._getframe()
    while frame.f_back and not str(frame.f_globals.get("__name__")).startswith(OURS + "."):
        frame = frame.f_back
    generated.setdefault(str(frame.f_globals.get("__name__")), {})[text] = code
    return code


def run_text(text: str, *spaces: dict[str, object]) -> None:
    """`exec`, noting what was compiled."""
    exec(compiled(text, "exec"), *spaces)


def value_of_text(text: str, *spaces: dict[str, object]) -> object:
    """`eval`, noting what was compiled."""
    return eval(compiled(text, "eval"), *spaces)


class Modules:
    """The calculators' byte code, and which modules each of its modules imports."""

    def __init__(self) -> None:
        with zipfile.ZipFile(ARCHIVE) as archive:
            files = {_module(name): name for name in archive.namelist() if name.endswith((".py", ".pyc"))}
            self._codes = {name: _lean_code(archive, file) for name, file in files.items()}
        self.packages = {name for name, file in files.items() if "/__init__." in file}
        self._imports: dict[str, list[str]] = {}  # the names that each module imports

    def leads_to(self, *roots: str) -> list[str]:
        """The roots and the modules of ours that they import, directly or not, also inside functions; with packages."""
        found: dict[str, None] = {}
        due = [root for root in roots if root in self._codes]
        while due:
            name = due.pop()
            if name in found:
                continue
            found[name] = None
            due += [each for each in (name.rpartition(".")[0], *self._imported(name)) if each in self._codes]
        return sorted(found)

    def library_of(self, name: str) -> list[str]:
        """Modules of the standard library that one of ours imports, also inside functions."""
        return [each for each in self._imported(name) if each.partition(".")[0] != OURS and is_module(each)]

    def code(self, name: str) -> types.CodeType:
        """A module's byte code, each time an object of its own: what is marshalled hangs on who else holds it."""
        made: types.CodeType = marshal.loads(self._codes[name])
        return made

    def _imported(self, name: str) -> list[str]:
        if name not in self._imports:
            self._imports[name] = list(imports_of(self.code(name)))
        return self._imports[name]


def _lean_code(archive: zipfile.ZipFile, file: str) -> bytes:
    """A module's byte code without line numbers; compiled here where pyodide-build could not do it in this release."""
    data = archive.read(file)
    compiled = file.endswith(".pyc")
    code = marshal.loads(data[PYC_HEAD:]) if compiled else compile(data, OURS, "exec", dont_inherit=True, optimize=2)
    return marshal.dumps(lean(code))


def imports_of(code: types.CodeType) -> Iterator[str]:
    """The names that code imports, also inside functions: each module and, as if it were one, what is taken from it."""
    due = code.co_code[::2].count(IMPORT)  # an instruction and its argument have a byte each
    for kind, details in ModuleFinder().scan_opcodes(code) if due else ():
        if kind == "absolute_import":
            taken, name = details
            yield from (name, *(f"{name}.{each}" for each in taken or ()))
        due -= kind != "store"
    if due:
        raise ValueError("this Python imports in a way that we do not know")
    for each in code.co_consts:
        if isinstance(each, types.CodeType):
            yield from imports_of(each)


def is_module(name: str) -> bool:
    """Whether this is a module, and not something in one. Imports it."""
    try:
        import_module(name)
    except ModuleNotFoundError:
        return False
    return True


def _module(name: str) -> str:
    return name.removesuffix("c").removesuffix(".py").removesuffix("/__init__").replace("/", ".")


def use(name: str) -> None:
    """Answer every common case in every form, and a wrong one: what is imported only then is imported now."""
    from calculators.catalogue import find
    from calculators.door import answer

    calculator = find(name)
    for case in [{}, *(preset.inputs for preset in calculator.presets)]:
        inputs = json.dumps({key: str(each) for key, each in dict(case).items()})
        answer(name, inputs, "html,text,json,link", "first")
        answer(name, inputs, "card")
    answer(name, json.dumps({item.key: "?" for item in calculator.inputs}), "html", "first")


def main() -> None:
    """All of it, in order."""
    before = set(sys.modules)
    dataclasses.exec = run_text  # type: ignore[attr-defined]
    collections.eval = value_of_text  # type: ignore[attr-defined]
    sys.path.insert(0, ARCHIVE)
    import calculators.door
    from calculators.catalogue import names

    calculators.door.answer("no.such", "{}")
    ours = Modules()
    subjects = {name.rpartition(".")[0] for name in names()}
    base = ours.leads_to("calculators.door", *(f"{OURS}.{subject}" for subject in subjects))
    for name in base:
        import_module(name)
    os.mkdir("/bundles")
    roots = {name: (f"{OURS}.{name}", f"{OURS}.{name.partition('.')[0]}.screen_cards") for name in names()}
    needed = {name: [each for each in ours.leads_to(*both) if each not in base] for name, both in roots.items()}
    needed = {name: modules for name, modules in needed.items() if modules}
    every = (root for both in roots.values() for root in both)
    needed[READER] = [each for each in ours.leads_to(calculators.door.READER, *every) if each not in base]
    for name, modules in needed.items():
        for each in modules:
            import_module(each)
        if name != READER:
            use(name)
    for name, modules in needed.items():
        codes: dict[str, tuple[bool, types.CodeType]] = {}
        texts: dict[str, types.CodeType] = {}
        for each in modules:
            codes[each] = (each in ours.packages, ours.code(each))
            texts |= generated.get(each, {})
        with open(f"/bundles/{name}", "wb") as file:
            file.write(marshal.dumps((codes, texts)))
    reached = {each for modules in (base, *needed.values()) for each in modules}
    library = set(sys.modules) - before | {each for name in sorted(reached) for each in ours.library_of(name)}
    library = {name for name in library if name.partition(".")[0] not in (OURS, "__main__")}
    with open("/scouted.json", "w") as file:
        json.dump({"base": base, "library": sorted(library), "bundles": list(needed)}, file)


main()
