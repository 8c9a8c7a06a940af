"""
What people read is spelt as British English is: pages, comments, docstrings, and the sentences of calculators and
script. The dictionary is Hunspell's of British English; spelling_words.txt holds what it does not know and we use.
"""

from __future__ import annotations

import ast
import io
import re
import subprocess
import tokenize
from collections import defaultdict
from collections.abc import Iterator

import pytest

from build_tools.environment import places
from tests.sources import PROJECT, sources

OURS = PROJECT / "tests" / "spelling_words.txt"
# What is not prose: code between backquotes, addresses, markup, figures worked out, options of a block, names of files.
NO_PROSE = re.compile(
    r"```.*?```|`[^`]*`|\{=.*?=\}|https?://\S+|<[^>]*>|&\w+;|\]\([^)]*\)|\{[^{}]*\}|^\s*>>>.*$|"
    r"\S*[/\\_@=#]\S*|\S+\.\w+\b|--\w[\w-]*|%\w",
    re.S | re.M,
)
# A word as one writes it: not a name of code with capitals within, not a unit, not a key.
WORD = re.compile(r"(?<![\w’'-])[A-Za-zÀ-ÿ][a-zà-ÿ]+(?:['’][a-z]+)?(?![\w])")
BLOCK_OPTIONS = re.compile(r"(?m)^ {4,}\w+:.*$")
COMMENT_OF_SCRIPT = re.compile(r"(?m)(?:^|\s)//\s([^\n]*)$|/\*(.*?)\*/", re.S)
# Words as viewers type them, and what programs of other languages print: both wrongly spelt on purpose.
AS_TYPED = ("calculators/asking/", "calculators/drivers/listings/examples.py")
PHRASE = re.compile(r"[^A-Z.,;:!?]*")  # in which a viewer asks, and by which a value is known
SENTENCE = re.compile(r"\w+ \w+ \w+")


def of_python(text: str, with_sentences: bool) -> Iterator[str]:
    """Comments and docstrings; of calculators the sentences as well, which readers see."""
    for token in tokenize.generate_tokens(io.StringIO(text).readline):
        if token.type == tokenize.COMMENT and not re.match(r"# (fmt|type|noqa|ruff)\b", token.string):
            yield token.string.lstrip("# ")
    tree = ast.parse(text)
    docstrings = set()
    for node in ast.walk(tree):
        documented = isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef)
        if documented and (said := ast.get_docstring(node)):
            docstrings.add(id(node.body[0].value))
            yield re.sub(r"(?m)^( {4})?\w+:", "", said)  # the arguments' names
    for node in ast.walk(tree) if with_sentences else ():
        if not isinstance(node, ast.Constant) or not isinstance(node.value, str) or id(node) in docstrings:
            continue
        if SENTENCE.search(node.value) and not PHRASE.fullmatch(node.value):
            yield node.value


def of_script(text: str, with_sentences: bool) -> Iterator[str]:
    """Comments; of the modules that hold what is said, the sentences as well."""
    for found in COMMENT_OF_SCRIPT.finditer(text):
        yield found[1] or found[2]
    if with_sentences:
        for found in re.finditer(r'"([^"\n]*)"|`([^`]*)`', COMMENT_OF_SCRIPT.sub("", text)):
            said = re.sub(r"\$\{.*?\}", " ", found[1] or found[2] or "")
            if SENTENCE.search(said):
                yield said


def of_page(text: str) -> Iterator[str]:
    """A page's prose and what its front matter says in sentences."""
    matter, body = re.match(r"(?s)(?:---\n(.*?)\n---\n)?(.*)", text).groups()  # type: ignore[union-attr]
    for line in (matter or "").split("\n"):
        said = re.match(r"\s*(?:- )?(?:title|question|summary|said|why|what): *(.*)", line)
        if said:
            yield said[1]
    yield BLOCK_OPTIONS.sub("", re.sub(r"(?m)^///.*$", "", body))


def words(prose: str) -> Iterator[str]:
    """The words of a text, without what is no prose."""
    for found in WORD.finditer(NO_PROSE.sub(" ", prose)):
        yield found[0].replace("’", "'").removesuffix("'s")


def every_text() -> Iterator[tuple[str, str]]:
    """(file, prose) of the whole project."""
    for name, text in sources("build_tools", "calculators", "tests"):
        for prose in of_python(text, name.startswith("calculators/") and not name.startswith(AS_TYPED)):
            yield name, prose
    for name, text in sources("build_tools", "tests", endings=(".ts", ".js", ".mjs")):
        for prose in of_script(text, name.endswith("words.ts")):
            yield name, prose
    pages = [
        *sources("docs", endings=(".md",)),
        *((each.name, each.read_text("utf-8")) for each in PROJECT.glob("*.md")),
    ]
    for name, text in pages:
        for prose in of_page(text):
            yield name, prose


def unknown(asked: set[str]) -> set[str]:
    """Those of the words that the dictionary of British English does not know."""
    command = [str(places.node(PROJECT)), str(PROJECT / "tests" / "spelling.mjs")]
    done = subprocess.run(
        command,
        cwd=PROJECT,
        input="\n".join(sorted(asked)),
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=True,
    )
    return set(done.stdout.split("\n")) - {""}


def ours() -> set[str]:
    """The words that we use and the dictionary does not know."""
    return {line for line in OURS.read_text("utf-8").split("\n") if line and not line.startswith("#")}


def test_every_word_is_british_english_or_one_of_ours() -> None:
    where: dict[str, set[str]] = defaultdict(set)
    for name, prose in every_text():
        for word in words(prose):
            where[word].add(name)
    assert len(where) > 3000, "hardly anything to look at"
    known = ours()
    wrong = sorted(word for word in unknown(set(where)) if word not in known and word.lower() not in known)
    told = "spell these as British English does, or add them to tests/spelling_words.txt:\n"
    assert not wrong, told + "\n".join(f"{word}: {', '.join(sorted(where[word])[:3])}" for word in wrong)


def test_our_words_stand_in_order_and_none_is_the_dictionarys() -> None:
    listed = [line for line in OURS.read_text("utf-8").split("\n") if line and not line.startswith("#")]
    assert listed == sorted(set(listed), key=lambda word: (word.lower(), word))
    assert set(listed) == unknown(set(listed)), "the dictionary knows these anyway"


@pytest.mark.parametrize(
    ("prose", "wrong"),
    [
        ("The colour of the centre is grey.", set()),
        ("The color of the center is gray.", {"color", "center", "gray"}),
        ("Teh reader’s organised list, in `teh code`, doesn't matter.", {"Teh"}),
        ("See https://example.org/teh and build_tools/teh.py.", set()),
    ],
)
def test_a_wrong_spelling_is_seen(prose: str, wrong: set[str]) -> None:
    assert unknown(set(words(prose))) == wrong
