"""A folder for the editor: an episode's cards, chapters, cut list, captions, sources and texts, and a list of it."""

from __future__ import annotations

import contextlib
import csv
import io
import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path
from typing import Any

from ruamel.yaml.comments import CommentedMap

from build_tools import keeping
from build_tools.cards.command import CannotDraw, draw, save
from build_tools.cards.photographs import Photographer
from build_tools.episodes import clock, description, in_short, made, programme, record, sheet, sources_page
from build_tools.episodes.cut_list import Piece, merged, pieces
from build_tools.episodes.marks import Recording
from build_tools.episodes.marks_list import marks_csv
from build_tools.episodes.sheet import Episode, Segment
from build_tools.episodes.sheet_edit import edited, put, quoted
from build_tools.episodes.short_answers import short_answer
from build_tools.episodes.timecode import RATES, frame, rate_fault, timecode
from calculators.desk.card_canvas import SHAPES

LIST = "bundle.json"
# Which shapes of a card an editor wants, and what their files are called. One that cards do not come in is left out.
FACES = {
    "wide": "card", "panel": "side-panel", "lower": "lower-third", "question": "question", "corrected": "corrected",
    "title": "title", "thumbnail": "thumbnail", "upright": "upright",
}  # fmt: skip
ONCE = ("title", "thumbnail")  # of the whole episode, made from its first question with a card
ONLY_CORRECTED = ("corrected",)
WORDS_A_SECOND = 2.5  # common practice of broadcasters, no source: 150 words a minute
LINE = 37  # letters of a caption's line; common practice, no source
LAST_S = 60  # how long the last chapter is taken to be where no take says when the recording ended
SPOKEN_DIFFERS = (
    "What was to be said, timed at 150 words a minute. What was said differs: listen, and put it right before use."
)


class CannotBundle(ValueError):
    """The folder was not made; the text says why."""


@dataclass(slots=True)
class Bundle:
    """What was written: each file with what it is, and what the editor should know."""

    files: list[dict[str, Any]] = field(default_factory=list)
    warnings: list[str] = field(default_factory=list)


def bundle(
    project: Path,
    episode: Episode,
    output: Path,
    rate: str,
    drop: bool,
    browser: Path | None,
    recordings: Sequence[Recording] = (),
) -> Bundle:
    """
    Write the folder.

    Args:
        project: The project folder. [path]
        episode: The episode, from a sheet without mistakes. [object]
        output: The folder; one that an earlier bundle has made is made anew. [path]
        rate: Frames a second of the recording. [Hz]
        drop: Whether its time code is drop-frame.
        browser: A Chromium, for pictures as .png; without one they are .svg alone. [path]
        recordings: The takes that are no rehearsals, with their marks. [list]

    Returns:
        The files, and what to mind. [object]

    Raises:
        CannotBundle: The folder holds something else, the rate is none, or a card cannot be drawn.
        CannotKeep: A file could not be written.

    Source:
        WebVTT, W3C Candidate Recommendation, from memory; SMPTE ST 12-1 for time codes, from memory.

    Example:
        >>> FACES["lower"]
        'lower-third'
    """
    if fault := rate_fault(rate, drop):
        raise CannotBundle(fault)
    _make_room(output)
    settings = programme.read(project)
    docs = project / "docs"
    made_now = Bundle()
    if browser is None:
        made_now.warnings.append("pictures are .svg alone, since no Chromium is there or none is wanted")

    def write(name: str, text: str | bytes, what: str, segment: int | None = None) -> None:
        keeping.keep(output / name, text, before=False)
        made_now.files.append({"name": name, "what": what, **({"segment": segment} if segment else {})})

    described = description.describe(episode, settings)
    made_now.warnings += described.warnings
    rows, _ = description.chapters(episode, settings.chapter_limit)
    write("description.txt", described.text, "the text below the video")
    write("replies.txt", description.replies(episode, settings), "an answer to each viewer")
    if episode.put_right:
        write("pin.txt", description.pinned(episode), "a comment to pin below the video")
    if rows:
        write("chapters.txt", "".join(f"{clock.worded(s)} {title}\n" for s, title in rows), "chapters to paste")
        write("chapters.vtt", chapters_vtt(rows), "chapters as WebVTT")
        parts = pieces(episode.lead, episode.cuts, video_s(episode, rows, recordings))
        write("chapters.csv", _chapters(rows, rate, drop), "where each chapter begins, in frames and time code")
        write("cuts.csv", _cuts(parts, rate, drop), "which pieces of the recording are kept, in frames and time code")
        timeline = _timeline(episode, rows, parts, rate)
        if timeline:
            write("cuts.otio", timeline, "the pieces as a timeline, a marker for each chapter (OpenTimelineIO)")
        else:
            made_now.warnings.append("no cuts.otio: OpenTimelineIO is not installed here; cuts.csv says the same")
        if not episode.cuts and not episode.lead:
            made_now.warnings.append("cuts.csv holds one piece, since the sheet names no 'cuts:' and no 'lead:'")
        write("captions.vtt", captions_vtt(docs, episode), "captions of what was to be said; speech differs")
        made_now.warnings.append("captions.vtt holds what was to be said: speech differs, so read it against the video")
    if any(recording.marks_s for recording in recordings):
        write("marks.csv", marks_csv(episode, recordings, rate, drop), "each take's marks, counted from its sync frame")
        if any(recording.sync_s is None for recording in recordings):
            made_now.warnings.append("marks.csv: a take without a sync frame is counted from where R was pressed")
    write("sources.html", sources_page.page(project, episode), "sources and cautions of the episode on one page")
    with contextlib.ExitStack() as until:
        photographer = until.enter_context(Photographer(browser)) if browser else None
        for name, what, segment in _cards(project, episode, output, photographer):
            made_now.files.append({"name": name, "what": what, **({"segment": segment} if segment else {})})
    listed = {
        "episode": episode.number, "title": episode.title, "recorded": str(episode.recorded), "frame_rate": rate,
        "drop_frame": drop, "files": made_now.files, "warnings": made_now.warnings,
    }  # fmt: skip
    keeping.keep(output / LIST, json.dumps(listed, indent=1, ensure_ascii=False) + "\n", before=False)
    return made_now


def rate_of(project: Path, episode: Episode, rate: str, drop: bool) -> tuple[str, bool]:
    """
    The recording's frames a second, and whether its time code is drop-frame: by the command, the sheet, or mkdocs.yml.

    Args:
        project: The project folder. [path]
        episode: The episode. [object]
        rate: From the command; it is then written into the sheet. '' where none was given. [Hz]
        drop: Whether the command gave drop-frame time code.

    Raises:
        CannotBundle: The rate is none, or nobody has told it yet.
        CannotEdit: The sheet cannot be changed.
        CannotKeep: The sheet could not be written.
    """
    settings = programme.read(project)
    if not rate and not drop and episode.frame_rate:
        return episode.frame_rate, episode.drop_frame
    if not rate and not drop and settings.frame_rate:
        return settings.frame_rate, settings.drop_frame
    rate = rate or episode.frame_rate or settings.frame_rate
    if not rate:
        raise CannotBundle(
            f"how many frames a second the recording has is not told yet: say --rate 25 once ({', '.join(RATES)}), "
            "and the sheet keeps it; or write 'frame_rate:' into mkdocs.yml, for all"
        )
    if fault := rate_fault(rate, drop):
        raise CannotBundle(fault)

    def with_it(front: CommentedMap) -> None:
        behind = ("title", "recorded", "summary", "invented", "video")
        put(front, "frame_rate", quoted(rate), behind)
        if drop or "drop_frame" in front:
            put(front, "drop_frame", drop, (*behind, "frame_rate"))

    if (rate, drop) != (episode.frame_rate, episode.drop_frame):
        path = project / "docs" / episode.path
        keeping.change(path, lambda text: edited(text, path.name, with_it))
    return rate, drop


def _make_room(output: Path) -> None:
    """Takes away what an earlier bundle has written; refuses a folder that holds anything else."""
    if not output.exists():
        return
    if not output.is_dir():
        raise CannotBundle(f"{output} is a file; choose another folder")
    if not any(output.iterdir()):
        return
    try:
        listed = json.loads((output / LIST).read_bytes())["files"]
        names = [str(each["name"]) for each in listed]
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        raise CannotBundle(f"{output} is not empty, and no bundle; choose another folder") from None
    for name in names:
        path = output / name
        if output.resolve() in path.resolve().parents and path.is_file():
            path.unlink()


def video_s(episode: Episode, rows: Sequence[tuple[int, str]], recordings: Sequence[Recording]) -> float:
    """
    How long the video is: to the end of the newest take, less what is cut; where none has ended behind the last
    chapter, a minute beyond that chapter.
    """
    last = next((take for take in reversed(recordings) if take.ended_s is not None), None)
    if last is not None and last.ended_s is not None:
        end = last.ended_s - last.began_s
        cut = sum(max(0.0, min(to, end) - max(begin, episode.lead)) for begin, to in merged(episode.cuts))
        if end - episode.lead - cut > rows[-1][0]:
            return end - episode.lead - cut
    return float(rows[-1][0] + LAST_S)


def chapters_vtt(rows: list[tuple[int, str]]) -> str:
    """Chapters as WebVTT; the last is taken to last a minute, since no sheet says where the video ends."""
    ends = [start for start, _ in rows[1:]] + [rows[-1][0] + LAST_S]
    cues = [f"{_vtt(start)} --> {_vtt(end)}\n{_cue(title)}" for (start, title), end in zip(rows, ends, strict=True)]
    return "WEBVTT\n\n" + "\n\n".join(cues) + "\n"


def captions_vtt(docs: Path, episode: Episode) -> str:
    """
    Captions of what was to be said: each question, and the short answer or what was said of it.

    Args:
        docs: The folder of pages. [path]
        episode: The episode. [object]

    Returns:
        WebVTT with a note that speech differs. [text]

    Source:
        WebVTT, from memory; 150 words a minute: common practice, no source.
    """
    timed = [s for s in episode.segments if s.start is not None]
    cues = []
    for segment, following in pairwise([*timed, None]):
        if segment is None or segment.start is None:
            continue
        at = float(segment.start)
        last = float(following.start) if following and following.start is not None else at + LAST_S
        for words in _spoken(docs, segment):
            for two_lines in _captions(words):
                end = min(at + max(1.0, len(two_lines.split()) / WORDS_A_SECOND), last)
                if end - at < 0.5:
                    break  # no time is left before the next question
                cues.append(f"{_vtt(at)} --> {_vtt(end)}\n{_cue(two_lines)}")
                at = end
    return f"WEBVTT\n\nNOTE {SPOKEN_DIFFERS}\n\n" + "\n\n".join(cues) + "\n"


def _spoken(docs: Path, segment: Segment) -> Iterator[str]:
    yield segment.question
    yield from (each for each in (segment.said, segment.short_answer or _page(docs, segment), segment.spoken) if each)
    if segment.referred:
        yield f"We pass this one on to {segment.referred.to}: {segment.referred.why}"


def _page(docs: Path, segment: Segment) -> str:
    return short_answer(docs, segment.answer) if segment.answer else ""


def _captions(text: str) -> Iterator[str]:
    """A text in captions of at most two lines."""
    lines: list[str] = []
    for word in text.split():
        if lines and len(lines[-1]) + 1 + len(word) <= LINE:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    for i in range(0, len(lines), 2):
        yield "\n".join(lines[i : i + 2])


def _cue(text: str) -> str:
    """A text as WebVTT takes it."""
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def _vtt(time_s: float) -> str:
    milliseconds = round(time_s * 1000)
    seconds, rest = divmod(milliseconds, 1000)
    minutes, seconds = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02}:{minutes:02}:{seconds:02}.{rest:03}"


def _chapters(rows: list[tuple[int, str]], rate: str, drop: bool) -> str:
    made = io.StringIO()
    table = csv.writer(made, lineterminator="\n")
    table.writerow(["place", "seconds", "frame", "time code", "title"])
    for place, (start, title) in enumerate(rows, 1):
        number = frame(start, rate)
        table.writerow([f"{place:02}", start, number, timecode(number, rate, drop), title])
    return made.getvalue()


def _cuts(parts: list[Piece], rate: str, drop: bool) -> str:
    """Each piece with its in and out in the recording, and where it lands in the video; the out is no longer shown."""
    made = io.StringIO()
    table = csv.writer(made, lineterminator="\n")
    table.writerow(["place", "in", "out", "lands", "frame in", "frame out", "frame lands"])
    for place, piece in enumerate(parts, 1):
        frames = [frame(at, rate) for at in (piece.begins, piece.ends, piece.lands)]
        table.writerow([f"{place:02}", *(timecode(number, rate, drop) for number in frames), *frames])
    return made.getvalue()


def _timeline(episode: Episode, rows: list[tuple[int, str]], parts: list[Piece], rate: str) -> str:
    """
    The pieces as clips of the recording, with a marker for each chapter; '' where the library is not installed.
    """
    try:
        import opentimelineio as otio  # type: ignore[import-not-found, unused-ignore]
    except ImportError:
        return ""
    per_second = float(RATES[rate][0])

    def span(start: float, end: float) -> Any:
        begins, ends = frame(start, rate), frame(end, rate)
        return otio.opentime.TimeRange(
            otio.opentime.RationalTime(begins, per_second), otio.opentime.RationalTime(ends - begins, per_second)
        )

    timeline = otio.schema.Timeline(f"{episode.number:03} {episode.title}")
    track = otio.schema.Track("Episode", kind=otio.schema.TrackKind.Video)
    timeline.tracks.append(track)
    for place, piece in enumerate(parts, 1):
        track.append(otio.schema.Clip(f"{place:02} recording", source_range=span(piece.begins, piece.ends)))
    for start, title in rows:
        track.markers.append(otio.schema.Marker(title, marked_range=span(start, start)))
    return str(otio.adapters.write_to_string(timeline, "otio_json"))


def _each(segments: Sequence[Segment], *, further: bool) -> Iterator[tuple[Segment, str]]:
    """Each question with '', which stands for its own calculator, and, if wanted, with the name of each further one."""
    for segment in segments:
        yield segment, ""
        if further:
            yield from ((segment, name) for name in segment.further())


def _put_right(episode: Episode, segment: Segment, further: str) -> tuple[str, str]:
    """What a correction of the question changed, in a few words; nothing for its further calculators."""
    entry = record.latest(episode, segment.number)
    return (entry and not further and in_short.of_correction(segment, entry)) or ("", "")


def _cards(
    project: Path, episode: Episode, output: Path, browser: Photographer | None
) -> Iterator[tuple[str, str, int | None]]:
    """Draws every card, as .svg and, with a browser, as .png with alpha; yields what was written."""
    episodes, _ = sheet.read_all(project / "docs")
    settings = programme.read(project)
    with_cards = [s for s in episode.segments if s.calculator]
    corrected = {entry.segment for entry in episode.put_right}
    for shape, called in FACES.items():
        if shape not in SHAPES:
            continue
        for segment, further in _each(with_cards[:1] if shape in ONCE else with_cards, further=shape not in ONCE):
            if shape in ONLY_CORRECTED and segment.number not in corrected:
                continue
            question = (
                episode.title if shape in ONCE else made.on_top(episode, segment, episodes, whole=shape == "question")
            )
            address = description.page_link(episode, segment, settings) if segment.go else ""
            result = segment.further()[further] if further else segment.result()
            inputs = result.values.given() if result else {}
            calculator = result.calculator.name if result else segment.calculator
            try:
                frames = draw(
                    project, calculator, {k: str(v) for k, v in inputs.items()}, question=question,
                    shape=shape, background="transparent", address=address,
                    before=_put_right(episode, segment, further),
                )  # fmt: skip
            except CannotDraw as problem:
                raise CannotBundle(f"question {segment.number}: {problem}") from None
            place = f"{segment.number:02}" + (f"-{further.replace('.', '-')}" if further else "")
            stem = f"cards/{called}" if shape in ONCE else f"cards/{place}-{called}"
            for step, picture in enumerate(frames, 1):
                name = stem + (f"-{step:02}" if len(frames) > 1 else "")
                endings = [".svg", *([".png"] if browser else [])]
                for ending in endings:
                    try:
                        save([picture], output / f"{name}{ending}", shape, browser, transparent=True)
                    except CannotDraw as problem:
                        raise CannotBundle(str(problem)) from None
                    what = f"{called.replace('-', ' ')}, step {step} of {len(frames)}"
                    yield f"{name}{ending}", what, None if shape in ONCE else segment.number
