"""The search over all that was said: in a page opened from a folder, with the real episodes."""

from __future__ import annotations

from pathlib import Path

import markdown
import pytest

from build_tools.bundling.bundle import bundled
from build_tools.episodes import blocks
from build_tools.markdown_blocks.places import Place

SOURCE = "build_tools/browser/episodes/said_search.ts"


def test_what_was_said_is_found_and_shown(browser, project: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    here = Place("docs/episodes/index.md", "episodes/index.md", project / "docs", 0)
    monkeypatch.setattr(blocks, "place_of", lambda md: here)
    listed = markdown.markdown("/// episodes\n///\n", extensions=["build_tools.episodes.blocks"])
    script = bundled(project, {"s": SOURCE}, "classic", {})["s.js"].decode("utf-8")
    page_file = tmp_path / "index.html"
    page_file.write_text(f'<meta charset="utf-8">{listed}<script>{script}</script>', "utf-8")
    page = browser.new_page()
    page.goto(page_file.as_uri())
    field, rows = page.get_by_label("Search all that was said"), page.locator("li[data-said]:visible")
    everything = rows.count()
    assert everything > 20
    field.fill("HEADPHONES reach")
    assert page.get_by_role("status").inner_text() == "1 question."
    assert "These headphones reach about" in rows.inner_text(), "what was said stands with its question"
    field.fill("corrected restarts")
    assert rows.count() >= 1
    field.fill("zzz")
    assert page.get_by_role("status").inner_text() == "Nothing that was asked or said holds these words."
    field.fill("")
    assert rows.count() == everything
    assert page.locator(".wa-said").count() == 0
    page.close()
