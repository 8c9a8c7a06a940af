"""Where uv takes packages from: where pip on the machine takes them."""

from __future__ import annotations

from pathlib import Path

import pytest

from build_tools.installer import uv


@pytest.mark.parametrize(
    ("listed", "variables"),
    [
        ("", {}),
        ("global.index-url='https://one.example/simple'\n", {"UV_DEFAULT_INDEX": "https://one.example/simple"}),
        (
            "global.extra-index-url='https://two.example/simple\\nfile:///a/b'\nglobal.find-links='/a /b'\n",
            {"UV_INDEX": "https://two.example/simple file:///a/b", "UV_FIND_LINKS": "/a,/b"},
        ),
        (
            "global.cert='/a.pem'\nglobal.proxy='http://proxy.example:1'\nglobal.timeout='180'\n",
            {"SSL_CERT_FILE": "/a.pem", "ALL_PROXY": "http://proxy.example:1", "UV_HTTP_TIMEOUT": "180"},
        ),
        ("global.trusted-host='a.example b.example'\n", {"UV_INSECURE_HOST": "a.example b.example"}),
        ("global.no-index='true'\n:env:.no-cache-dir='1'\n", {"UV_NO_INDEX": "1", "UV_NO_CACHE": "1"}),
        # What is said in variables counts more than what is said for `install`, and that more than for all commands.
        (":env:.index-url='c'\nglobal.index-url='a'\ninstall.index-url='b'\n", {"UV_DEFAULT_INDEX": "c"}),
        ("global.index-url='a'\ninstall.index-url='b'\n", {"UV_DEFAULT_INDEX": "b"}),
        ("global.no-index='true'\n:env:.no-index='0'\nglobal.find-links='/a'\n:env:.find-links=''\n", {}),
        ("download.index-url='a'\nglobal.constraint='/c.txt'\nsomething else\n", {}),
    ],
)
def test_pips_settings_in_uvs_words(listed: str, variables: dict[str, str]) -> None:
    assert uv.from_pip(listed) == variables


def test_a_home_that_cannot_be_written_does_not_stop_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(uv.os, "access", lambda path, mode: not str(path).startswith(str(tmp_path / "home")))
    (tmp_path / "home").mkdir()
    ours = {"UV_CACHE_DIR": str(tmp_path / "project" / ".cache" / "uv")}
    assert uv._cache(tmp_path / "project", {"XDG_CACHE_HOME": str(tmp_path / "home")}) == ours
    assert uv._cache(tmp_path / "project", {"XDG_CACHE_HOME": str(tmp_path / "other")}) == {}
