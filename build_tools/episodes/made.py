"""What the build writes of the episodes under docs/made/episodes: descriptions, replies, the corrections' feed."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path

from build_tools.cards import command, theme
from build_tools.episodes import description, feed, programme, record, repeats, sheet
from build_tools.episodes.description import page_link
from build_tools.episodes.programme import Programme
from build_tools.episodes.sheet import Episode, Segment
from calculators.desk.calculator import Result
from calculators.desk.card import frames
from calculators.desk.card_theme import Theme


def on_top(episode: Episode, segment: Segment, episodes: Iterable[Episode], *, whole: bool = False) -> str:
    """The line on top of a card: the question in short or `whole`, and whether it was corrected or asked before."""
    entry = record.latest(episode, segment.number)
    earlier = repeats.earlier(episode, segment, episodes)
    remarks = [f"corrected {entry.date}"] if entry else []
    remarks += [f"asked before in episode {earlier[0].number}"] if earlier else []
    asked = segment.question if whole else segment.chapter or segment.question
    return asked + (f" ({', '.join(remarks)})" if remarks else "")


def _card(
    episode: Episode,
    segment: Segment,
    result: Result,
    settings: Programme,
    face: str,
    look: Theme,
    episodes: Iterable[Episode],
) -> str:
    """A segment's card with all its steps, the viewer's words on top."""
    made = frames(
        result,
        question=on_top(episode, segment, episodes),
        background="dark",
        address=page_link(episode, segment, settings) if segment.go else "",
        qr=command.qr,
        font_css=face,
        theme=look,
    )
    # without a size of its own the picture fits the window in which it is opened
    return made[-1].svg.replace(' width="1920" height="1080"', "", 1) + "\n"


def make(project: Path, into: Path, say: Callable[[str], None]) -> None:
    """
    Writes every generated text of every episode.

    Args:
        project: The project folder. [path]
        into: The folder to fill. [path]
        say: Told what is being done. [function]

    Raises:
        WrongTheme: The programme's own look of its cards cannot be used.
    """
    settings = programme.read(project)
    episodes, _ = sheet.read_all(project / "docs")
    face = command.face_css(project) if (project / "node_modules" / command.FACE).is_file() else ""
    look = theme.read(project)
    wanted = {"corrections.atom": feed.atom(episodes, settings)}
    for episode in episodes:
        say(episode.slug)
        wanted[f"{episode.slug}/description.txt"] = description.describe(episode, settings).text
        wanted[f"{episode.slug}/replies.txt"] = description.replies(episode, settings)
        if episode.put_right:
            wanted[f"{episode.slug}/pin.txt"] = description.pinned(episode)
        for segment in episode.segments:
            result = segment.result()
            if result:
                card = _card(episode, segment, result, settings, face, look, episodes)
                wanted[f"{episode.slug}/segment-{segment.number}.svg"] = card
    for old in sorted(into.rglob("*"), reverse=True):
        if old.is_file() and old.relative_to(into).as_posix() not in wanted:
            old.unlink()
        elif old.is_dir() and not any(old.iterdir()):
            old.rmdir()
    for name, text in wanted.items():
        path = into / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8", newline="\n")
