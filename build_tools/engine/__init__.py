"""
The engine room: packs the calculators and the Python runtime so that a page can run them.

`pack.py` writes docs/made/engine/. `snapshot.ts`, run by Node, has a bundle made of each calculator (`scout.py`),
starts Python with all that they share (`inside.py`), clears what nobody uses (`zero_freed.ts`) and keeps what differs
from a runtime just set up (`snapshot_format.ts`); `cut_runtime.ts` leaves out the machine code that no answer reaches
(`unreached.ts`); `worker.ts` puts that back in a reader's browser, compares it, and answers in JSON text, or starts
plainly (`plain.ts`) where it does not fit. tests/build_tools/engine guards it, tests/browser proves it in Chromium.

May import: calculators, environment, bundling, files.
"""
