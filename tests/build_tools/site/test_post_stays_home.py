"""Viewers' comments lie in the project while its site is built, and nothing of them is in the built site."""

from __future__ import annotations

import io
import zipfile
from pathlib import Path

from build_tools.post.routes import PostRoutes
from tests.build_tools.site.conftest import Copy

HANDLE, SAID = "wren-4711", "my grandmother's harpsichord hums at 4711 hertz"
POST = f"handle: {HANDLE}\n{SAID}\n\nhandle: otter-7\nconsent: yes\nis 16 gb of ram enough for {SAID}"


def test_no_comment_of_the_post_is_built_into_the_site(copy: Copy) -> None:
    PostRoutes(copy.folder)._read({"text": POST})  # as the post's page keeps them
    kept = [path for path in (copy.folder / ".presenter").rglob("*") if path.is_file()]
    assert any(SAID.encode() in path.read_bytes() for path in kept)
    Path(copy.folder / "comments.csv").write_text(
        f"comment,handle\n{SAID},{HANDLE}\n", "utf-8"
    )  # beside, as one saves it
    done = copy.build()
    assert done.returncode == 0, done.stderr
    site = copy.site()
    assert "index.html" in site
    packed = zipfile.ZipFile(io.BytesIO(site["site.zip"]))
    contents = {**site, **{f"site.zip/{name}": packed.read(name) for name in packed.namelist()}}
    needles = (HANDLE.encode(), b"harpsichord", b"otter-7")
    assert not [name for name, data in contents.items() if any(needle in data for needle in needles)]
    assert not [name for name in contents if "comments" in name or ".presenter" in name]
