"""
The engine room: packs the calculators and the Python runtime so that a page can run them.

`pack.py` writes docs/made/engine/: the runtime's own files, one wheel of calculators/, the lock file that names it, and
the worker's script. `worker.ts` is that script: it starts the runtime away from the page's thread and answers in JSON
text. May import the standard library, pyodide-lock and the other rooms of build_tools; never calculators (it packs
them as files). tests/build_tools/engine guards it, tests/browser proves it in Chromium.
"""
