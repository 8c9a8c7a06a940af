"""
Runs inside the browser's runtime while the site is built: loads what every answer needs, and drops the rest.

The memory as it is at the end of this script becomes the snapshot that a reader's browser gets; snapshot.ts runs the
script in a namespace that it throws away. `/lean_code.py` lies beside it; `/calculators.whl` holds the calculators;
`/scouted.json` says which of its modules, and which of the standard library, belong into the snapshot (scout.py). The
calculators' own modules do not: a page hands them in later, as bundles of byte code. The addresses in memory of the
two functions that a page calls, one for answers and one for bundles, are written to `/door`. Nothing else can be
imported in a page: there is no standard library to import from.
"""

from __future__ import annotations

import collections
import dataclasses
import gc
import json
import marshal
import sys
import types
import zipimport
from importlib import import_module
from importlib.machinery import ModuleSpec

sys.path.insert(0, "/")

from lean_code import lean  # type: ignore[import-not-found]

ARCHIVE = "/calculators.whl"
# Modules needed only to open archives, to read source or to make classes: by the time of the first answer that is over.
SET_UP_ONLY = (
    "_ast _bz2 _lzma _opcode _opcode_metadata _struct _tokenize _zstd ast bz2 compression compression._common "
    "compression._common._streams compression.zstd compression.zstd._zstdfile copy dis fcntl fnmatch glob "
    "importlib.machinery importlib.util inspect linecache lzma opcode pathlib pathlib._os pkgutil shutil struct "
    "textwrap threading token tokenize zipfile zipfile._path zipfile._path.glob"
).split()
# Modules that others refer to, and whose functions only find, open and read what is imported, or read source.
EMPTIED = "_sitebuiltins ast importlib.machinery importlib.util pkgutil runpy site zipimport".split()

CREATED = "__create_fn__"  # what a dataclass calls the function that makes its methods
STAYS = {"__builtins__", "__name__", "CREATED", "marshal", "sys"}  # the names that methods of BundleImporter use


class BundleImporter:
    """The finder and loader, on sys.meta_path, of modules whose byte code the page has handed in."""

    def __init__(self) -> None:
        self.codes: dict[str, tuple[bool, types.CodeType]] = {}
        self.texts: dict[str, types.CodeType] = {}
        self.spec, self.function = ModuleSpec, types.FunctionType
        self.builtins = vars(sys.modules["builtins"])
        self.reference = sys.modules["annotationlib"].ForwardRef

    def take(self, bundle: bytes) -> str:
        """Take a calculator's bundle, so that its modules can be imported. A module imported before stays as it is."""
        codes, texts = marshal.loads(bundle)
        for name, code in codes.items():
            if name not in sys.modules:
                self.codes[name] = code
        self.texts.update(texts)
        return ""

    def find_spec(self, name: str, path: object = None, target: object = None) -> ModuleSpec | None:
        """The finder's part of an import: None for a module that was not handed in."""
        if name not in self.codes:
            return None
        return self.spec(name, self, is_package=self.codes[name][0])  # type: ignore[arg-type]

    def create_module(self, spec: object) -> None:
        """The loader's first part: by None, Python makes an ordinary module."""

    # Code objects are called as functions, never handed to `exec` or `eval`: those lead to the compiler, and without
    # them its machine code need not be in what a page loads.

    def exec_module(self, module: types.ModuleType) -> None:
        """Run the module's code, once."""
        inside = vars(module)
        inside["__builtins__"] = self.builtins  # as `exec` would; C code that imports looks there
        self.function(self.codes.pop(module.__name__)[1], inside)()

    def run_text(self, text: str, inside: dict[str, object], into: dict[str, object]) -> None:
        """In place of `exec` where dataclasses are made: the text defines one function."""
        self.function(self.texts[text], inside)()
        into[CREATED] = inside.pop(CREATED)

    def value_of_text(self, text: str, inside: dict[str, object]) -> object:
        """In place of `eval` where named tuples are made."""
        return self.function(self.texts[text], inside)()

    def forward_reference(self, text: str, *, parent_fwdref: object = None, **details: object) -> object:
        """In place of typing's own, which compiles the names of types at once; nothing here looks at these types."""
        return self.reference(text, **details)


class Inspect:
    """The little of `inspect` that making a dataclass asks for."""

    @staticmethod
    def unwrap(function: object) -> object:
        """The function that decorators have wrapped."""
        while hasattr(function, "__wrapped__"):
            function = function.__wrapped__
        return function

    @staticmethod
    def signature(*_: object, **__: object) -> object:
        """Dataclasses ask for this to write a docstring; where it raises ValueError they do without."""
        raise ValueError


def load(modules: list[str]) -> None:
    """Import the modules that scout.py has found to belong into the snapshot, and let each do its work once."""
    sys.path.insert(0, ARCHIVE)
    for name in modules:
        import_module(name)
    from calculators.catalogue import names
    from calculators.door import answer

    names()  # so that the list of calculators is in the snapshot
    answer("no.such", "{}")
    answer("", "{")


def drop() -> None:
    """Forget what a page has no use for: archives, import paths, docstrings, line numbers and annotations."""
    sys.path.clear()
    sys.path_importer_cache.clear()
    zipimport._zip_directory_cache.clear()  # type: ignore[attr-defined]
    for module in list(sys.modules.values()):
        for name in ("__file__", "__cached__", "__doc__"):
            if isinstance(vars(module).get(name), str):
                setattr(module, name, None)
        if isinstance(vars(module).get("__loader__"), zipimport.zipimporter):
            module.__loader__ = None
            spec = module.__spec__
            if spec is not None:
                spec.loader = None
                spec.origin = spec.cached = None
    for function in [each for each in gc.get_objects() if isinstance(each, types.FunctionType)]:
        function.__code__ = lean(function.__code__)
        function.__annotations__ = {}


def main() -> None:
    """All of it, in order."""
    with open("/scouted.json") as file:
        scouted = json.load(file)
    load(scouted["library"] + scouted["base"])
    importer = BundleImporter()
    drop()
    sys.meta_path[:] = [importer]
    dataclasses.exec = importer.run_text  # type: ignore[attr-defined]
    collections.eval = importer.value_of_text  # type: ignore[attr-defined]
    dataclasses.inspect = Inspect  # type: ignore[attr-defined]
    if "typing" in sys.modules:
        sys.modules["typing"]._make_forward_ref = importer.forward_reference  # type: ignore[attr-defined]
    import calculators.door

    importer.door = importer.take  # type: ignore[attr-defined]  # a bound method is freed when nothing refers to it
    with open("/door", "w") as place:
        json.dump([id(calculators.door.answer), id(importer.door)], place)  # type: ignore[attr-defined]
    del sys.modules["lean_code"]
    loaded = dict(sys.modules)
    for name in SET_UP_ONLY:
        if name not in scouted["library"]:
            sys.modules.pop(name, None)
    for name, module in loaded.items():
        for each in [each for each in vars(module) if not each.startswith("__")] if name in EMPTIED else ():
            delattr(module, each)
    gc.collect()
    for name in globals().keys() - STAYS:  # a function keeps its module alive, and that all the rest
        del globals()[name]


main()
