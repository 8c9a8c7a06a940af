"""A page made alone is the page that the whole build makes, byte for byte."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from tests.build_tools.site.conftest import Copy


def one_page(copy: Copy, into: Path, *pages: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "build_tools.site.one_page", str(into), *pages]
    return subprocess.run(
        command, cwd=copy.folder, env=copy.environment(), capture_output=True, text=True, encoding="utf-8", timeout=120
    )


def test_it_is_the_same_as_in_the_whole_site(copy: Copy, tmp_path: Path) -> None:
    deep = copy.folder / "docs" / "deep" / "er.md"
    deep.parent.mkdir()
    text = "---\ntitle: Further down\n---\n# Down\n\n[up](../page.md#page), {= memory.rate -> latency_ns =}\n"
    deep.write_text(text, "utf-8")
    assert copy.build().returncode == 0
    for source in ("page.md", "deep/er.md", "index.md"):
        into = tmp_path / source
        done = one_page(copy, into, source)
        assert done.returncode == 0, done.stderr
        made = [path for path in into.rglob("*") if path.is_file()]
        name = source.replace(".md", ".html")
        assert made == [into / name]
        assert made[0].read_bytes() == (copy.folder / "site" / name).read_bytes()


def test_a_page_with_a_mistake_is_not_made(copy: Copy, tmp_path: Path) -> None:
    (copy.folder / "docs" / "page.md").write_text("# Page\n\n/// calculator | memory.rat\n///\n", "utf-8")
    assert one_page(copy, tmp_path / "into", "page.md").returncode != 0
    assert one_page(copy, tmp_path / "into", "nowhere.md").returncode != 0
    (copy.folder / "docs" / "page.md").write_text("# Page\n\n[x](nowhere-at-all.md)\n", "utf-8")
    assert one_page(copy, tmp_path / "into", "page.md").returncode != 0
    assert not (tmp_path / "into" / "page.html").exists()
