"""
The engine room: packs the calculators and the Python runtime so that a page can run them.

`pack.py` writes docs/made/engine/. `snapshot.ts`, run by Node, starts Python with every calculator loaded
(`inside.py`), clears what nobody uses (`zero_freed.ts`) and keeps what differs from a runtime just set up
(`snapshot_format.ts`); `worker.ts` puts that back in a reader's browser, compares it, and answers in JSON text, or
starts plainly (`plain.ts`) where it does not fit. tests/build_tools/engine guards it,
tests/browser proves it in Chromium.

May import: calculators, environment, bundling, files.
"""
