"""
Runs inside the browser's runtime while the site is built: loads all that an answer may need, and drops the rest.

What is in memory when this has ended is what a reader's browser gets; snapshot.ts runs it in a namespace that it throws
away. `/calculators.whl` holds the calculators; the place of the door is written to `/door`. Nothing can be imported
after that: there is no library to import from.
"""

import ast
import gc
import sys
import types
import zipfile
import zipimport
from importlib import import_module

ARCHIVE = "/calculators.whl"


def load_everything() -> None:
    """Import every module of the archive and every module that any of their functions imports later."""
    sys.path.insert(0, ARCHIVE)
    with zipfile.ZipFile(ARCHIVE) as archive:
        for name in sorted(archive.namelist()):
            if not name.endswith(".py") or name.endswith("__main__.py"):
                continue
            import_module(name.removesuffix(".py").removesuffix("/__init__").replace("/", "."))
            for node in ast.walk(ast.parse(archive.read(name))):
                if isinstance(node, ast.Import):
                    for alias in node.names:
                        import_module(alias.name)
                elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
                    import_module(node.module)


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
    """Forget the archives, the way to them, and line numbers."""
    sys.path.clear()
    sys.path_importer_cache.clear()
    zipimport._zip_directory_cache.clear()  # type: ignore[attr-defined]
    for module in list(sys.modules.values()):
        for name in ("__file__", "__cached__", "__doc__"):
            if isinstance(getattr(module, name, None), str):
                setattr(module, name, None)
        if isinstance(getattr(module, "__loader__", None), zipimport.zipimporter):
            module.__loader__ = None
            spec = module.__spec__
            if spec is not None:
                spec.loader = None
                spec.origin = spec.cached = None
    for function in [each for each in gc.get_objects() if isinstance(each, types.FunctionType)]:
        function.__code__ = lean(function.__code__)


def main() -> None:
    """All of it, in order."""
    load_everything()
    drop()
    use_once()
    import calculators.door

    with open("/door", "w") as place:
        place.write(str(id(calculators.door.answer)))
    for name in ("zipfile", "zipfile._path", "zipfile._path.glob", "shutil", "struct", "_struct"):
        sys.modules.pop(name, None)
    gc.collect()


main()
