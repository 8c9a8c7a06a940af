"""Bundling: what comes out, how heavy it is, and what is said when a module is wrong."""

from __future__ import annotations

import gzip
import json
import re
from pathlib import Path

import pytest

from build_tools.browser import make as browser
from build_tools.bundling.bundle import bundled
from build_tools.engine import pack
from build_tools.environment.trouble import Trouble

# What a reader fetches before touching anything, beside the generator's style. Owner's budget: 300 kB for all.
# The page's script measures 13,850 bytes: it also holds every engine file against its hash, has the engine prove itself
# on the built answer, goes through three ways of starting, and counts what really comes. The generator's style (23,000)
# has gone from every page meanwhile, its script (35,000) and search worker (12,300) before that.
SCRIPT_LIMIT = 14_600  # gzip; puts what is out of sight into a frame of its own, and rehearses for who types
FIRST_LIMIT = 1_400  # gzip; stands in every page, and has its faces fetched before its style says so
STYLE_LIMIT = 9_100  # gzip
PLAN_LIMIT = 9_000  # gzip; fetched only by pages that have a plan
FINDER_LIMIT = 5_500  # the box grows with a whole question, and hands it to the reader
FONTS_LIMIT = 100_000


@pytest.fixture(scope="module")
def made(project: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    into = tmp_path_factory.mktemp("browser")
    (into / "left-over.css").write_text("old", "utf-8")
    browser.make(project, into, lambda _: None)
    return into


SCRIPTS = {
    "page.js",
    "plan.js",
    "pictures.js",
    "screen.js",
    "first.js",
    "service_worker.js",
    "keep_offline.js",
    "finder.js",
    "asking.js",
    "paste.js",
    "said_search.js",
}
STYLES = {"page.css", "plan.css", "asking.css"}


MOVING = {"moving_text.js", "moving_text.css"}  # for pages with lines that move


def test_the_scripts_the_styles_and_the_fonts_with_their_licences(made: Path) -> None:
    names = {path.relative_to(made).as_posix() for path in made.rglob("*") if path.is_file()}
    fonts = {name for name in names if name.endswith(".woff2")}
    licences = {name for name in names if name.endswith("-licence.txt")}
    assert names == SCRIPTS | STYLES | MOVING | fonts | licences
    assert len(fonts) == 3
    for font in fonts:
        assert any(font.startswith(licence.removesuffix("-licence.txt")) for licence in licences), font
    for licence in licences:
        assert "OFL" in (made / licence).read_text("utf-8"), licence


def test_the_faces_that_are_fetched_ahead_are_those_of_the_style(made: Path) -> None:
    ahead = re.findall(r'\["(WA [^"]+)","([^"]+)"\]', (made / "first.js").read_text("utf-8"))
    style = (made / "page.css").read_text("utf-8")
    kind = "font-style:normal;font-weight:400 700;font-display:swap;"
    upright = re.findall(rf'font-family:(WA [^;]+);{kind}src:url\("\./fonts/([^"]+)\.woff2"', style)
    assert len(ahead) == 2
    assert ahead == upright


def test_they_are_light(made: Path) -> None:
    assert len(gzip.compress((made / "page.js").read_bytes())) < SCRIPT_LIMIT
    assert len(gzip.compress((made / "first.js").read_bytes())) < FIRST_LIMIT
    assert len(gzip.compress((made / "page.css").read_bytes())) < STYLE_LIMIT
    assert len(gzip.compress((made / "plan.js").read_bytes())) < PLAN_LIMIT
    assert len(gzip.compress((made / "finder.js").read_bytes())) < FINDER_LIMIT
    assert sum(path.stat().st_size for path in made.rglob("*.woff2")) < FONTS_LIMIT


def test_they_name_no_other_host(made: Path) -> None:
    for name in sorted(SCRIPTS | STYLES):
        text = re.sub(r"base64,[A-Za-z0-9+/=]+", "", (made / name).read_text("utf-8"))  # a face, put in as text
        assert "//" not in text.replace("http://www.w3.org/2000/svg", ""), name


def test_the_scripts_run_as_classic_ones(made: Path) -> None:
    for name in sorted(SCRIPTS):
        text = (made / name).read_text("utf-8")
        assert text.startswith(('"use strict";(()=>{', "(()=>{")), name
        assert "import.meta" not in text, name


def test_a_broken_module_is_told_with_file_and_line(project: Path, tmp_path: Path) -> None:
    broken = tmp_path / "broken.ts"
    broken.write_text("const a = 1;\nconst b = ;\n", "utf-8")
    with pytest.raises(Trouble, match=r"broken\.ts:2:10: (ERROR|error)"):
        bundled(project, {"broken": str(broken)}, "classic")


def test_the_pages_script_knows_the_list_of_bundles_and_no_single_one(tmp_path: Path) -> None:
    for name in ("lean.wasm", "a.b.bin", "memory.bin"):
        (tmp_path / name).write_bytes(name.encode())
    few = pack.list_of(tmp_path, ["a.b.bin"])
    (tmp_path / pack.LIST_NAME).write_bytes(few)
    listed = browser.engine_files(tmp_path)
    assert set(listed) == {"lean.wasm", "memory.bin", pack.LIST_NAME}
    assert json.loads(few) == {"a.b.bin": pack.told_of(tmp_path / "a.b.bin")}
    (tmp_path / "a.b.bin").write_bytes(b"another edition")
    assert pack.list_of(tmp_path, ["a.b.bin"]) != few
