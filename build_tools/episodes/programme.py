"""The programme's own settings, from `extra: programme:` in mkdocs.yml."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

# What video sites took for a description when this was written; a setting, since they change it.
# Common practice, no source.
USUAL_LIMIT = 5000


@dataclass(frozen=True, slots=True)
class Programme:
    """
    Its name, the site's address ('' where there is none yet), and the longest description its site takes.

    site: the site's own name. corrections, questions: where viewers send them, an e-mail address or a page's address.
    """

    name: str = "This programme"
    address: str = ""
    description_limit: int = USUAL_LIMIT
    invented: bool = False
    site: str = "Worked Answers"
    corrections: str = ""
    questions: str = ""

    def url(self, path: str) -> str:
        """A page's address; '' without the site's."""
        return f"{self.address.rstrip('/')}/{path}" if self.address else ""


class _Lenient(yaml.SafeLoader):
    """Reads mkdocs.yml without running the tags that generators put into it."""


_Lenient.add_multi_constructor("", lambda loader, tag, node: None)


def read(project: Path) -> Programme:
    """The settings in a project's mkdocs.yml; the defaults for what is not there."""
    path = project / "mkdocs.yml"
    if not path.is_file():
        return Programme()
    whole: Any = yaml.load(path.read_text("utf-8"), Loader=_Lenient)
    extra = (whole or {}).get("extra") or {}
    found = extra.get("programme") or {}
    limit = found.get("description_limit", USUAL_LIMIT)
    return Programme(
        name=str(found.get("name") or "This programme"),
        site=str((whole or {}).get("site_name") or "Worked Answers"),
        corrections=str(found.get("corrections") or ""),
        questions=str(found.get("questions") or ""),
        address=str(found.get("address") or ""),
        description_limit=limit if isinstance(limit, int) and limit > 0 else USUAL_LIMIT,
        invented=found.get("invented") is True,
    )
