"""`ask FILE`: the post in the terminal, and an episode's sheet of the picked questions."""

from __future__ import annotations

import datetime
import sys
from pathlib import Path

from build_tools.environment.trouble import Trouble
from build_tools.keeping import CannotKeep
from build_tools.new.writing import CannotMake
from build_tools.post import comments, episode
from build_tools.post.output import as_text
from build_tools.post.sorting import sort


def run(project: Path, file: str, title: str, picks: str) -> int:
    """
    Print the sorted post; where a title and picks are given, write the sheet as well.

    Args:
        project: The project folder.
        file: The file of comments, or "-" for what comes in.
        title: The new episode's title, or "".
        picks: Numbers of the printed list, such as "1,3,4".

    Returns:
        The exit status: 0.

    Raises:
        Trouble: The file cannot be read, or the sheet not be made.
    """
    try:
        text = sys.stdin.read() if file == "-" else Path(file).read_text("utf-8")
        post = sort(project / "docs", comments.read(text))
    except (comments.NotComments, UnicodeDecodeError) as problem:
        raise Trouble(f"{file}: {problem}") from None
    except OSError as problem:
        raise Trouble(f"{file} cannot be read: {problem.strerror}") from None
    print(as_text(post), end="")
    if title or picks:
        try:
            picked = [post[number - 1] for number in _numbers(picks, len(post))]
            path = episode.make(project / "docs", title, picked, datetime.date.today())
        except (CannotMake, CannotKeep) as problem:
            raise Trouble(f"No sheet was made: {problem}.") from None
        seconds = sum(one.seconds for one in picked)
        print(f"\n{path.relative_to(project)}: {len(picked)} questions, {seconds} s of short answers")
    return 0


def _numbers(picks: str, most: int) -> list[int]:
    numbers = []
    for part in picks.replace(" ", "").split(","):
        if not part.isascii() or not part.isdecimal() or not 1 <= int(part) <= most:
            raise CannotMake(f"picks are numbers from 1 to {most}, such as 1,3,4; got '{part}'")
        if int(part) not in numbers:
            numbers.append(int(part))
    return numbers
