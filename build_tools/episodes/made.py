"""What the build writes of the episodes under docs/made/episodes: descriptions, replies, the corrections' feed."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from build_tools.episodes import description, feed, programme, sheet


def make(project: Path, into: Path, say: Callable[[str], None]) -> None:
    """
    Writes every generated text of every episode.

    Args:
        project: The project folder. [path]
        into: The folder to fill. [path]
        say: Told what is being done. [function]

    Raises:
        Nothing: mistakes in sheets are told by the checks before this.
    """
    settings = programme.read(project)
    episodes, _ = sheet.read_all(project / "docs")
    wanted = {"corrections.atom": feed.atom(episodes, settings)}
    for episode in episodes:
        say(episode.slug)
        wanted[f"{episode.slug}/description.txt"] = description.describe(episode, settings).text
        wanted[f"{episode.slug}/replies.txt"] = description.replies(episode, settings)
    for old in sorted(into.rglob("*"), reverse=True):
        if old.is_file() and old.relative_to(into).as_posix() not in wanted:
            old.unlink()
        elif old.is_dir() and not any(old.iterdir()):
            old.rmdir()
    for name, text in wanted.items():
        path = into / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8", newline="\n")
