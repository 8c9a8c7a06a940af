"""
Runs inside the browser's runtime while the site is built: loads all that an answer may need, and drops the rest.

What is in memory when this has ended is what a reader's browser gets; snapshot.ts runs it in a namespace that it throws
away. `/calculators.whl` holds the calculators; the place of the door is written to `/door`. Nothing can be imported
after that: there is no library to import from.
"""

import ast
import dataclasses
import gc
import sys
import types
import zipfile
import zipimport
from importlib import import_module

ARCHIVE = "/calculators.whl"
# What only opening archives, reading source and making classes needs: all that is over when an answer is asked for.
SET_UP_ONLY = (
    "_ast _bz2 _lzma _opcode _opcode_metadata _struct _tokenize _zstd ast bz2 compression compression._common "
    "compression._common._streams compression.zstd compression.zstd._zstdfile copy dis fcntl fnmatch glob "
    "importlib.machinery importlib.util inspect linecache lzma opcode pathlib pathlib._os pkgutil shutil struct "
    "textwrap threading token tokenize zipfile zipfile._path zipfile._path.glob"
).split()


def load_everything() -> None:
    """
    Import the door, every calculator, and every module that any of their functions imports later.

    Found by following imports, not by listing the archive: what no answer leads to does not travel to a reader.
    """
    sys.path.insert(0, ARCHIVE)
    from calculators.catalogue import find, names

    import_module("calculators.door")
    for name in names():
        find(name)
    read: set[str] = set()
    with zipfile.ZipFile(ARCHIVE) as archive:
        files = {_module(name): name for name in archive.namelist() if name.endswith(".py")}
        while unread := sorted(files.keys() & sys.modules.keys() - read):
            for module in unread:
                read.add(module)
                for node in ast.walk(ast.parse(archive.read(files[module]))):
                    if isinstance(node, ast.Import):
                        for alias in node.names:
                            import_module(alias.name)
                    elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
                        import_module(node.module)


def _module(name: str) -> str:
    return name.removesuffix(".py").removesuffix("/__init__").replace("/", ".")


def use_once() -> None:
    """Answer every common case in every form, and a wrong one, so that nothing is left to be prepared later."""
    from calculators.catalogue import find, names
    from calculators.door import answer

    for name in names():
        calculator = find(name)
        for case in [{}, *(preset.inputs for preset in calculator.presets)]:
            answer(name, dumps(case), "html,text,json,link", "first")
        answer(name, dumps({item.key: "?" for item in calculator.inputs}), "html", "first")
    answer("no.such", "{}")
    answer(names()[0], "{")


def dumps(value: object) -> str:
    """JSON, as the page would send it."""
    from json import dumps as json_dumps

    return json_dumps({key: str(each) for key, each in dict(value).items()})  # type: ignore[call-overload]


def lean(code: types.CodeType) -> types.CodeType:
    """The same code without line numbers, which only a traceback would show, and nobody sees one."""
    constants = tuple(lean(each) if isinstance(each, types.CodeType) else each for each in code.co_consts)
    return code.replace(co_consts=constants, co_linetable=b"", co_filename="calculators")


def drop() -> None:
    """Forget the archives, the way to them, line numbers and the types of arguments."""
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
    load_everything()
    drop()
    use_once()
    import calculators.door

    with open("/door", "w") as place:
        place.write(str(id(calculators.door.answer)))
    dataclasses.inspect = None  # type: ignore[attr-defined]  # it looks at a class being made, and none will be
    for name in SET_UP_ONLY:
        sys.modules.pop(name, None)
    gc.collect()


main()
