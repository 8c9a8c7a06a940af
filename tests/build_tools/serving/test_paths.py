"""No spelling of an address reaches a file outside the site, a hidden one, or one behind a link."""

from __future__ import annotations

import pytest

from build_tools.serving import paths
from tests.build_tools.serving.conftest import SECRET, Served

# What is no path of ours, whatever the folder holds.
SPELLINGS = [
    # up and out
    "/..", "/../", "/../secret.txt", "/deep/../../secret.txt", "/deep/../index.html", "/./index.html", "/deep/.",
    "/.../secret.txt", "/..../secret.txt", "/deep/..", "/deep/../",
    # the same, encoded, half encoded, encoded twice and thrice
    "/%2e%2e/secret.txt", "/%2E%2E/secret.txt", "/.%2e/secret.txt", "/%2e./secret.txt", "/%2e%2e%2fsecret.txt",
    "/..%2fsecret.txt", "/deep/..%2f..%2fsecret.txt", "/deep%2f..%2f..%2fsecret.txt", "/%252e%252e/secret.txt",
    "/%252e%252e%252fsecret.txt", "/%25252e%25252e/secret.txt", "/..%252fsecret.txt",
    # absolute: one slash taken away, an absolute path is left
    "/%2Fetc/hostname", "/%2fetc/passwd", "/%2F%2Fetc/passwd", "//etc/hostname", "///etc/hostname", "/deep//etc/passwd",
    "//deep/index.html", "/deep//index.html", "/%2F", "//", "/%2Fproc/self/environ", "/deep/%2Fetc/hostname",
    "/%252Fetc/hostname",
    # backslashes, drives, streams, devices, short names
    "/..\\secret.txt", "/..%5csecret.txt", "/%5c..%5csecret.txt", "/deep\\index.html", "/%5C%5Chost%5Cshare",
    "/C:/secret.txt", "/c%3A/secret.txt", "/C:%5Csecret.txt", "/index.html::$DATA", "/index.html%3A%3A$DATA",
    "/nul", "/CON", "/aux.html", "/deep/com1", "/lpt9.txt", "/HIDDEN~1", "/GIT~1/config",
    # NUL and other signs that are not to be seen
    "/index.html%00", "/index.html%00.js", "/%00", "/..%00/secret.txt", "/a%0ab", "/a%0d%0aX: 1", "/%7f", "/a%1b",
    "/index.html%e2%80%8b", "/%e2%80%aeindex.html", "/%ef%bb%bfindex.html",
    # bytes that are no UTF-8: overlong dots and slashes, halves of pairs, broken escapes
    "/%c0%ae%c0%ae/secret.txt", "/%c0%af..%c0%afsecret.txt", "/%e0%80%ae%e0%80%ae/secret.txt",
    "/%f0%80%80%ae/secret.txt", "/%c1%9c..", "/%ff", "/%ed%a0%80", "/%", "/%2", "/%zz", "/index.html%",
    "/%u002e%u002e/secret.txt",
    # signs that some systems fold to a dot, a slash or a colon
    "/%ef%bc%8e%ef%bc%8e/secret.txt", "/%ef%bc%8fetc%ef%bc%8fhostname", "/%e2%80%a5/secret.txt", "/%ef%b9%a8secret",
    "/C%ef%bc%9a",
    # names that a system reads otherwise
    "/index.html.", "/index.html%20", "/deep./index.html", "/deep%20/index.html", "/index.htm%3F", "/ind*x.html",
    "/%3Cindex.html", "/a%7Cb", "/%22index.html%22",
    # hidden
    "/.hidden", "/.git/config", "/.git/", "/.git", "/deep/.secret.txt", "/deep/.kept/", "/%2ehidden", "/%2Egit/config",
    # too long
    "/" + "a" * 3000, "/" + "a" * 300, "/" + "deep/" * 500, "/" + "%61" * 300,
    # no path at all
    "*", "index.html", "http://elsewhere.example/index.html", "http://127.0.0.1/index.html", "file:///etc/hostname",
]  # fmt: skip
LINKED = ["/link.html", "/linked/secret.txt", "/linked/site/index.html", "/alias.html", "/around/index.html",
          "/around/", "/pipe.html"]  # fmt: skip
PLAIN = ["/", "/index.html", "/deep/", "/deep/index.html", "/a%20page.html", "/gr%C3%B6%C3%9Fer.html",
         "/%69ndex.html", "/index.html?../../secret.txt", "/index.html?a=%00"]  # fmt: skip


def test_the_table_is_long_enough() -> None:
    assert len(set(SPELLINGS)) == len(SPELLINGS) >= 60


@pytest.mark.parametrize("path", SPELLINGS)
def test_no_other_spelling_means_a_file(path: str) -> None:
    assert paths.names_of(path) is None


def test_no_other_spelling_is_answered_with_a_file(served: Served) -> None:
    told = {path: served.ask(path) for path in SPELLINGS}
    assert {path: answer.status for path, answer in told.items() if answer.status not in (400, 404)} == {}
    assert [path for path, answer in told.items() if answer.headers.get("connection") != "close"] == []
    hostname = b"127.0.0.1\tlocalhost"
    assert [p for p, a in told.items() if SECRET.encode() in a.raw or b"root:" in a.raw or hostname in a.raw] == []
    assert [path for path, answer in told.items() if b"<body>" in answer.body] == []


@pytest.mark.parametrize("path", LINKED)
def test_what_lies_behind_a_link_is_not_there(served: Served, path: str) -> None:
    answer = served.ask(path)
    assert (answer.status, SECRET.encode() in answer.raw) == (404, False)


@pytest.mark.parametrize("path", PLAIN)
def test_pages_are_there_all_the_same(served: Served, path: str) -> None:
    assert served.ask(path).status == 200


def test_a_folder_that_is_itself_behind_a_link_is_served(served: Served) -> None:
    served.server.site = served.home / "site" / "around"
    assert served.ask("/deep/").status == 200


def test_only_plain_names_are_looked_up(served: Served) -> None:
    for name in ("..", ".hidden", "a/b", "", "/etc"):
        with pytest.raises(ValueError, match="not a plain name"):
            paths.inside(served.server.site, [name])
