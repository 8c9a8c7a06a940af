"""What is done to finished pages: the policy, the search index, the list for offline reading, and the archive."""

from __future__ import annotations

import base64
import hashlib
import json
import zipfile
import zlib
from pathlib import Path

import pytest

from build_tools.environment.trouble import Trouble
from build_tools.site import archive, finish, offline, policy

PROJECT = Path(__file__).resolve().parents[3]


def hashed(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


def rules(page: str, *known: str) -> dict[str, str]:
    return dict(rule.split(" ", 1) for rule in policy.policy(page, known).split("; "))


def test_only_scripts_known_beforehand_are_named_by_hash() -> None:
    page = '<script>a()</script><script type="application/json">{}</script><script src="x.js"></script>'
    page += '<script type="module">b()</script><style>p{}</style>'
    assert rules(page, "a()", "not in this page")["script-src"].split()[2:] == [hashed("a()")]
    assert rules(page)["script-src"] == "'self' 'wasm-unsafe-eval'"
    assert rules(page)["style-src"] == f"'self' {hashed('p{}')}"
    assert "style-src-attr" not in rules(page)


@pytest.mark.parametrize(
    ("page", "strange"),
    [
        ("<script>a()</script>", []),
        ('<script type="application/json">{}</script><script src="x.js" defer></script>', []),
        ("<script>a() </script>", ["<script>a() </script>"]),
        ("<SCRIPT\nx>b()</SCRIPT>", ["<SCRIPT x>b()</SCRIPT>"]),
        ('<script type="module">a(2)</script>', ['<script type="module">a(2)</script>']),
        ("<script type='application/ecmascript'>c</script>", ["<script type='application/ecmascript'>c</script>"]),
    ],
)
def test_any_other_script_that_stands_in_a_page_is_told(page: str, strange: list[str]) -> None:
    assert policy.strangers(page, ["a()"]) == strange


def test_a_page_with_a_script_of_its_own_stops_the_build_with_its_source(small_site: Path) -> None:
    page = small_site / "deep" / "page.html"
    page.parent.mkdir()
    page.write_text("<html><head></head><script>mine()</script></html>", "utf-8")
    told = r"^docs/deep/page\.md:1: a page may hold no script of its own; take out '<script>mine\(\)</script>'$"
    with pytest.raises(Trouble, match=told):
        finish.finish(small_site, PROJECT)


def test_line_ends_are_hashed_as_a_browser_reads_them() -> None:
    known = "a()\r\nb()"
    assert hashed("a()\nb()") in rules(f"<script>{known}</script>", known)["script-src"]


def test_the_policy_stands_before_everything_else_in_the_head() -> None:
    page = policy.with_policy('<html><head><meta charset="utf-8"><link href="x"></head></html>')
    assert page.startswith('<html><head><meta charset="utf-8"><meta http-equiv="Content-Security-Policy"')
    assert policy.with_policy("<p>no head") == "<p>no head"


@pytest.fixture
def small_site(tmp_path: Path) -> Path:
    site = tmp_path / "site"
    files = {
        "index.html": "<html><head></head><p>hello</p></html>",
        "made/browser/service_worker.js": "keep()",
        "made/engine/memory.bin": "memory",
        "made/engine/packed/memory.bin.js": "packed",
        "assets/x.js.map": "{}",
    }
    for name, text in files.items():
        path = site / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    return site


def test_what_is_kept_for_offline_is_listed_with_the_hash_of_the_finished_file(small_site: Path) -> None:
    finish.finish(small_site, PROJECT)
    written = (small_site / offline.NAME).read_text("utf-8")
    edition = json.loads(written.partition("=")[2].partition(";\n")[0])
    listed = (small_site / offline.LIST).read_bytes()
    assert edition["list"] == f"sha256-{base64.b64encode(hashlib.sha256(listed).digest()).decode()}"
    files = json.loads(listed)
    assert set(files) == {"index.html", "made/engine/memory.bin"}
    size, integrity = files["index.html"]
    data = (small_site / "index.html").read_bytes()
    assert size == len(data)
    assert f"'{integrity}'" == f"'sha256-{base64.b64encode(hashlib.sha256(data).digest()).decode()}'"
    assert edition["bytes"] == sum(size for size, _ in files.values())
    assert written.endswith("keep()")


def test_another_page_makes_another_edition(small_site: Path) -> None:
    finish.finish(small_site, PROJECT)
    first = (small_site / offline.NAME).read_text("utf-8")
    (small_site / "index.html").write_text("<html><head></head><p>other</p></html>", "utf-8")
    finish.finish(small_site, PROJECT)
    assert (small_site / offline.NAME).read_text("utf-8") != first


def test_the_archive_is_the_same_bytes_and_holds_the_engine_once(small_site: Path) -> None:
    finish.finish(small_site, PROJECT)
    first = (small_site / archive.NAME).read_bytes()
    for path in small_site.rglob("*"):
        path.touch()
    archive.write(small_site, PROJECT)
    assert (small_site / archive.NAME).read_bytes() == first
    with zipfile.ZipFile(small_site / archive.NAME) as packed:
        names = set(packed.namelist())
    assert "worked-answers/made/engine/packed/memory.bin.js" in names
    assert "worked-answers/made/engine/memory.bin" not in names
    assert "worked-answers/site.zip" not in names
    assert {name.split("/")[0] for name in names} == {"worked-answers"}


def test_what_was_deflated_before_is_taken_only_for_the_same_bytes_and_while_it_is_whole(
    small_site: Path, tmp_path: Path
) -> None:
    large = small_site / "large.js"

    def written(text: str, project: Path) -> bytes:
        large.write_text(text, "utf-8")
        archive.write(small_site, project)
        with zipfile.ZipFile(small_site / archive.NAME) as packed:
            assert packed.testzip() is None
            assert packed.read(f"{archive.FOLDER}/large.js") == text.encode()
        return (small_site / archive.NAME).read_bytes()

    project, one, other = tmp_path / "project", "let a = 1;\n" * 9000, "let b = 2;\n" * 9000
    first = written(one, project)
    kept = {path: path.read_bytes() for path in archive.deflated(project).iterdir()}
    assert kept, "what is large is kept as it was packed"
    assert written(one, project) == first, "taken from there"
    assert written(other, project) == written(other, tmp_path / "elsewhere"), "other bytes are packed themselves"
    for harm in (lambda data: data[:-1], lambda data: data[:-9] + b"x" + data[-8:], lambda data: b""):
        for path, data in kept.items():
            path.write_bytes(harm(data))
        assert written(one, project) == first, "what is damaged is packed anew"
        assert {path: path.read_bytes() for path in kept} == kept


def test_no_byte_hangs_on_the_zlib_of_the_python_that_builds(small_site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*arguments: object, **more: object) -> None:
        raise AssertionError("packed with the zlib of the Python that builds")

    (small_site / "sitemap.xml.gz").write_bytes(b"packed by the generator")
    for name in ("compress", "compressobj"):
        monkeypatch.setattr(zlib, name, refuse)
    finish.finish(small_site, PROJECT)
    monkeypatch.undo()
    assert not (small_site / "sitemap.xml.gz").exists()
    with zipfile.ZipFile(small_site / archive.NAME) as packed:
        assert packed.testzip() is None
        for path in small_site.rglob("*.html"):
            assert packed.read(f"{archive.FOLDER}/{path.relative_to(small_site).as_posix()}") == path.read_bytes()
        entries = packed.infolist()
    assert {entry.date_time for entry in entries} == {(1980, 1, 1, 0, 0, 0)}
    assert {entry.external_attr >> 16 for entry in entries} == {0o100644}
    assert {entry.create_system for entry in entries} == {3}
    assert [entry.filename for entry in entries] == sorted(entry.filename for entry in entries)
