"""The texts that a knowledge base of one's own begins with: its settings, its README, the test of its pages."""

from __future__ import annotations

import io
import re
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError

# For its owner to look at first.
OWN = ("README.md", "mkdocs.yml")
NAMELESS = "Our answers"  # what stands over a site whose programme has no name yet
DESCRIPTION = "Answers about desktop computers, worked out, checked and shown."
_SETTINGS = ("site_name", "site_description")
_EXAMPLE = re.compile(r"\n## The programme shown here\n.*\Z", re.S)

README = """# {name}

Open the desk, where a viewer's question becomes a card, a picture and a line to say:

```
python3 -m build_tools serve     # sets everything up, builds the site, shows it; prints the desk's address
```

*Prepare* a card at the desk, *take* it to the picture that your mixing program shows, read the short answers from the
run sheet. It all works with the network unplugged. `docs/presenting.md` goes through an episode from the first question
to the last correction.

## From an empty folder to an episode

1. Fill in `mkdocs.yml`, under `extra:` and `programme:`. `python3 -m build_tools check` names what is open, one by one.
2. `python3 -m build_tools new answer "Is it the cable?" --subject display` begins an answer. The check lists what is
   still to be written, and nothing is built until it is.
3. `python3 -m build_tools new episode "Cables, mostly"` begins a sheet: the viewers' questions, their numbers.
4. After the recording: `python3 -m build_tools said 1` takes down what was said, `python3 -m build_tools pasted 1`
   notes that the description stands below the video, `python3 -m build_tools bundle 1` makes a folder for the editor.
5. When something no longer holds, the build says so: `python3 -m build_tools correct 1` begins the correction.

```
python3 -m build_tools build     # writes site/, for any file server; in it site.zip, to be read without one
python3 -m build_tools test      # tries calculators and pages
```

What is yours is under `docs/`, in `.presenter/` and in `mkdocs.yml`: keep them in git or in your backup.

## New calculators and pages

In the project from which this folder was made: `python3 -m build_tools update PATH`, with this folder's path. It brings
up to date what you have left as it was, adds what is new, and writes over nothing that you have changed: the newer
edition of such a file is put into `.to-look-at/`. `--answers audio` takes another subject's answers as well, and
`--answers all` every one.
"""

TEST = '''"""The pages of this site: no mistake, and nothing said on air that does not hold any more."""

from pathlib import Path

from build_tools.checks import on_the_record, pages, placeholders
from build_tools.episodes import programme

PROJECT = Path(__file__).resolve().parents[1]


def test_no_page_has_a_mistake():
    assert programme.mistakes(PROJECT) + pages.check(PROJECT / "docs") == []


def test_all_that_was_said_holds():
    assert on_the_record.check(PROJECT / "docs") == []


def test_nothing_is_left_to_be_written():
    assert placeholders.check(PROJECT) == []
'''


def readme(name: str) -> str:
    """The README, which begins with the desk."""
    return README.replace("{name}", name or NAMELESS)


def settings(template: str, name: str, address: str, invented: bool) -> str:
    """This project's mkdocs.yml with the other programme's own settings; what is not given is left open."""
    whole = _load(template)
    whole["site_name"] = name or NAMELESS
    whole["site_description"] = DESCRIPTION
    programme = whole["extra"]["programme"]
    programme["name"] = name
    programme["address"] = address
    programme["invented"] = invented
    programme["corrections"] = ""
    programme["questions"] = ""
    return _dump(whole)


def with_settings_of(theirs: str, template: str) -> str:
    """This project's mkdocs.yml with the settings that stand in another; the other's text where it cannot be read."""
    try:
        old, whole = _load(theirs), _load(template)
        for key in _SETTINGS:
            if key in old:
                whole[key] = old[key]
        whole["extra"]["programme"] = old["extra"]["programme"]
    except (ValueError, KeyError, TypeError):
        return theirs
    return _dump(whole)


def without_settings(text: str) -> str:
    """A mkdocs.yml without what each programme sets for itself; ValueError where it cannot be read."""
    whole = _load(text)
    for key in _SETTINGS:
        whole.pop(key, None)
    extra = whole.get("extra")
    if isinstance(extra, dict):
        extra.pop("programme", None)
    return _dump(whole)


def without_the_example(text: str) -> str:
    """The presenter's page without what it says of the invented programme shown here."""
    return _EXAMPLE.sub("\n", text)


def _yaml() -> YAML:
    yaml = YAML(typ="rt")
    yaml.preserve_quotes = True
    yaml.width = 1_000_000
    yaml.indent(mapping=2, sequence=4, offset=2)
    return yaml


def _load(text: str) -> Any:
    try:
        whole = _yaml().load(text)
    except YAMLError as problem:
        raise ValueError(f"mkdocs.yml cannot be read: {getattr(problem, 'problem', problem)}") from None
    if not isinstance(whole, dict):
        raise ValueError("mkdocs.yml must be written as 'key: value'")
    return whole


def _dump(whole: Any) -> str:
    made = io.StringIO()
    _yaml().dump(whole, made)
    return made.getvalue()
