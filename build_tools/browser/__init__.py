"""
The browser room: the page's one script, its style and its fonts.

Small TypeScript modules, each saying in its first line what it knows and what it does not; `page/page.ts` is the
first, `style/` the look. `make.py` writes them to docs/made/browser/. tests/build_tools/browser and tests/browser
guard it.

May import: environment, bundling, cards, engine, files.
"""
