"""What desk and run sheet ask: what there is, a form, a card, a run sheet, a change of a sheet. Knows no page."""

from __future__ import annotations

import datetime
import html
import json
import re
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from build_tools.cards import theme
from build_tools.cards.command import CannotDraw, qr
from build_tools.episodes import clock, in_short, marks, programme, sheet
from build_tools.episodes.cuts import cuts_of
from build_tools.episodes.description import page_link
from build_tools.episodes.record import differences, is_on_record, latest, standing
from build_tools.episodes.saying import mark_of
from build_tools.episodes.short_answers import short_answer
from build_tools.markdown_blocks.compute import CannotCompute
from build_tools.presenting import into_sheet
from calculators import catalogue, door
from calculators.desk.calculator import Result
from calculators.desk.card_canvas import BACKGROUNDS, SHAPES
from calculators.desk.errors import InputErrors, UnknownCalculator
from calculators.desk.form import form

# Common practice, no source: broadcasters plan with about 150 words a minute.
WORDS_A_MINUTE = 150
FIRST_STEPS = 3  # what to do first; a presenter says no more of a plan in one go
WIDE, CORRECTED = "wide", "corrected"


def reply(project: Path, request: dict[str, Any]) -> dict[str, Any]:
    """The reply to one request; or "errors" in words, each with the input that it is about."""
    answered = _REQUESTS.get(str(request.get("what")))
    if answered is None:
        return _errors("There is no such request.")
    try:
        return answered(project, request)
    except (into_sheet.CannotWrite, marks.CannotWrite, CannotDraw, ValueError) as problem:
        return {"errors": [{"input": "", "message": line} for line in str(problem).split("\n")]}


def _errors(sentence: str) -> dict[str, Any]:
    return {"errors": [{"input": "", "message": sentence}]}


def _catalogue(project: Path, request: dict[str, Any]) -> dict[str, Any]:
    docs = project / "docs"
    pages: dict[str, list[str]] = {}
    for path in sorted((docs / "answers").glob("*/*.md")):
        answer = path.relative_to(docs / "answers").as_posix().removesuffix(".md")
        for name in re.findall(r"(?m)^[ \t]*/// calculator \| *(\S+)", path.read_text("utf-8", "replace")):
            pages.setdefault(name, []).append(answer)
    shapes = sorted(SHAPES, key=lambda name: name != WIDE)
    return {
        "calculators": [{"name": n, "title": catalogue.find(n).title} for n in catalogue.names()],
        "pages": pages,
        "shapes": [{"name": n, "width": SHAPES[n].pixels[0], "height": SHAPES[n].pixels[1]} for n in shapes],
        "backgrounds": list(BACKGROUNDS),
        "episodes": _episodes(docs)[0],
    }


def _form(project: Path, request: dict[str, Any]) -> dict[str, Any]:
    try:
        calculator = catalogue.find(str(request.get("calculator")))
    except UnknownCalculator as problem:
        return {"errors": [{"input": "calculator", "message": f"{problem}."}]}
    presets = {p.key: {k: str(v) for k, v in p.inputs.items()} for p in calculator.presets}
    shared: dict[str, str] = {}
    if before := str(request.get("before") or ""):  # what stood there until now; what both ask for is not typed twice
        shared = into_sheet.shared_inputs(before, calculator.name, _texts(request.get("given")))
    return {
        "html": form(calculator, "desk", {}, tuple(presets)), "presets": presets, "title": calculator.title,
        "shared": shared,
    }  # fmt: skip


def _texts(mapping: Any) -> dict[str, str]:
    return {str(key): str(value) for key, value in mapping.items()} if isinstance(mapping, dict) else {}


def _code(project: Path, request: dict[str, Any]) -> dict[str, Any]:
    """The rows of an address's code, for a desk that draws a card itself: then it is the one of the picture."""
    address = str(request.get("address") or "")
    return {"code": _rows(address)}


def _rows(address: str) -> list[list[int]]:
    return [[int(dark) for dark in row] for row in qr(address)] if address else []


def _card(project: Path, request: dict[str, Any]) -> dict[str, Any]:
    before = _put_right(project, request) if request.get("shape") == CORRECTED else ("", "")
    return draw(request, theme.settings(project), before)


def _put_right(project: Path, wanted: Mapping[str, Any]) -> tuple[str, str]:
    """
    What the newest correction of this card's question changed, before and now; nothing where no sheet tells, or where
    other numbers are on the card than the sheet has.
    """
    settings = programme.read(project)
    for episode, _ in _episodes(project / "docs")[1]:
        for segment in episode.segments:
            entry = latest(episode, segment.number)
            if entry is None or segment.calculator != wanted.get("calculator"):
                continue
            named = (segment.chapter or segment.question, page_link(episode, segment, settings))
            asked = any(
                name and name == wanted.get(key) for name, key in zip(named, ("question", "address"), strict=True)
            )
            if asked and _says_the_same(segment, _texts(wanted.get("inputs"))):
                return in_short.of_correction(segment, entry) or ("", "")
    return "", ""


def _says_the_same(segment: sheet.Segment, inputs: Mapping[str, str]) -> bool:
    """Whether a question comes to the same answer with these inputs as with those of its sheet."""
    try:
        of_sheet = segment.result()
        return (
            of_sheet is not None and of_sheet.calculator.run(dict(inputs)).answer.headline == of_sheet.answer.headline
        )
    except (CannotCompute, InputErrors):
        return False


def draw(
    wanted: Mapping[str, Any], look: Mapping[str, Any] | None = None, before: tuple[str, str] = ("", "")
) -> dict[str, Any]:
    """
    A card's steps, as they come to the picture; the face is put in where they are shown.

    Args:
        wanted: calculator, inputs, question, address, shape and background. [mapping]
        look: What the programme's own file says of how its cards look. [mapping]
        before: Of a corrected card, what was wrong and what holds now. [text]

    Returns:
        "frames", each with name, svg and words; or "errors". [mapping]

    Raises:
        CannotDraw: The address is too long for a code.

    Example:
        >>> draw({"calculator": "memory.rate"})["frames"][0]["name"]
        'drawing'
    """
    name = str(wanted.get("calculator") or "")
    options = {key: str(wanted.get(key) or "") for key in ("question", "address", "shape", "background")}
    options["shape"] = options["shape"] or WIDE
    options["background"] = options["background"] or next(iter(BACKGROUNDS))
    try:
        catalogue.find(name)
    except UnknownCalculator as problem:
        return {"errors": [{"input": "calculator", "message": f"{problem}."}]}
    for key, known in (("shape", SHAPES), ("background", BACKGROUNDS)):
        if options[key] not in known:
            return {"errors": [{"input": key, "message": f"The {key} is one of {', '.join(known)}."}]}
    inputs = {str(key): str(value) for key, value in (wanted.get("inputs") or {}).items()}
    code = {"code": rows} if (rows := _rows(options["address"])) else {}
    drawn = json.loads(
        door.card(name, json.dumps(inputs), json.dumps({**options, **code, "theme": look, "before": before}))
    )
    if "frames" not in drawn:
        return {"errors": drawn.get("errors") or [{"input": "", "message": str(drawn.get("fault"))}]}
    return {"frames": [{"name": f["name"], "svg": f["svg"], "words": _words(f["svg"])} for f in drawn["frames"]]}


def _words(svg: str) -> str:
    """A card's text for screen readers."""
    label = re.search(r'aria-label="([^"]*)"', svg)
    return html.unescape(label[1]) if label else ""


def _episodes(docs: Path) -> tuple[list[dict[str, Any]], list[tuple[sheet.Episode, list[str]]]]:
    """Every sheet that can be read, and what is wrong in it; one that cannot is named with its mistakes."""
    listed: list[dict[str, Any]] = []
    read: list[tuple[sheet.Episode, list[str]]] = []
    for path in sorted((docs / "episodes").glob("*.md")):
        if path.name == "index.md":
            continue
        try:
            episode, mistakes = sheet.read_sheet(docs, path)
            wrong = [str(mistake) for mistake in mistakes]
        except (OSError, UnicodeDecodeError, ValueError, TypeError, AttributeError, KeyError) as fault:
            episode, wrong = None, [f"docs/episodes/{path.name}: this sheet cannot be read ({fault})"]
        if episode:
            read.append((episode, wrong))
            listed.append(
                {"number": episode.number, "title": episode.title or path.stem, "recorded": str(episode.recorded),
                 "mistakes": wrong}
            )  # fmt: skip
        else:
            listed.append({"number": 0, "title": path.name, "recorded": "", "mistakes": wrong})
    return listed, read


def _run_sheet(project: Path, request: dict[str, Any]) -> dict[str, Any]:
    docs = project / "docs"
    settings = programme.read(project)
    listed, read = _episodes(docs)
    wanted = request.get("episode")
    sheet_read = next(((e, wrong) for e, wrong in read if e.number == wanted), None)
    if sheet_read is None:
        return {"episodes": listed}
    episode, wrong = sheet_read
    try:
        differing = {each.segment.number for each in differences([episode], docs)}
    except CannotCompute:  # a mistake of the sheet, which is told with the others
        differing = set()
    segments = [
        {**_segment(docs, episode, segment, settings), **_taken_down(docs, segment, segment.number in differing)}
        for segment in episode.segments
    ]
    return {
        "episodes": listed, "number": episode.number, "title": episode.title, "segments": segments, "mistakes": wrong,
        "lead": clock.worded(episode.lead), "cuts": [_cut(begin, end) for begin, end in episode.cuts],
    }  # fmt: skip


def _segment(
    docs: Path, episode: sheet.Episode, segment: sheet.Segment, settings: programme.Programme
) -> dict[str, Any]:
    """One question as the run sheet shows it: this viewer's answer first, the page's short answer below."""
    wrong = ""
    result = None
    try:
        result = segment.result()
    except CannotCompute as fault:
        wrong = f"{fault}"
    short = short_answer(docs, segment.answer) if segment.answer else ""
    answer = result.answer if result else None
    headline = answer.headline if answer else ""
    more = [] if wrong else [_further(each) for each in segment.further().values()]
    caution = answer.cautions[0] if answer and answer.cautions else None
    read_aloud = sum(len(text.split()) for text in (short, headline, *(each["headline"] for each in more)))
    return {
        "number": segment.number,
        "question": segment.question,
        # on a card there is room for the short title only
        "on_top": segment.chapter or segment.question,
        # a sheet that notes consent shows a handle only where it is noted
        "viewer": segment.shown_viewer,
        "start": clock.worded(segment.start) if segment.start is not None else "",
        "short_answer": short,
        "headline": headline,
        "verdict": answer.verdict.word if answer and answer.verdict else "",
        "reason": answer.verdict.reason if answer and answer.verdict else "",
        "steps": [step.title for step in answer.steps[:FIRST_STEPS]] if answer else [],
        "caution": f"{caution.text} {caution.defer}".strip() if caution else "",
        "more": more,
        "referred": f"{segment.referred.to}: {segment.referred.why}" if segment.referred else "",
        "seconds": -(-read_aloud * 60 // WORDS_A_MINUTE),
        "calculator": segment.calculator,
        "inputs": result.values.given() if result else {},
        "address": page_link(episode, segment, settings),
        "wrong": wrong,
    }


def _further(result: Result) -> dict[str, Any]:
    """What a further calculator of a question says, and what its card is drawn from."""
    verdict = result.answer.verdict
    return {
        "calculator": result.calculator.name, "title": result.calculator.title, "headline": result.answer.headline,
        "verdict": verdict.word if verdict else "", "reason": verdict.reason if verdict else "",
        "inputs": result.values.given(),
    }  # fmt: skip


def _taken_down(docs: Path, segment: sheet.Segment, differs: bool) -> dict[str, Any]:
    """What the sheet records as said, and a digest of what its row shows now, which the button sends back."""
    try:
        shown = mark_of(standing(docs, segment))
    except CannotCompute:
        shown = ""
    return {"spoken": segment.spoken, "shown": shown, "taken_down": is_on_record(segment), "differs": differs}


def _cards(project: Path, request: dict[str, Any]) -> dict[str, Any]:
    """The cards of an episode's questions, in order."""
    sheet_rows = _run_sheet(project, request)
    rows = [row for row in sheet_rows.get("segments", []) if row["calculator"] and not row["wrong"]]
    return {
        "cards": [
            {"question": row["on_top"], "address": row["address"], **{key: of[key] for key in ("calculator", "inputs")}}
            for row in rows
            for of in (row, *row["more"])
        ]
    }


def _starts(project: Path, request: dict[str, Any]) -> dict[str, Any]:
    """Start times from a take's marks, and what keeps them from being the sheet's; written where that is asked for."""
    docs = project / "docs"
    number = int(request["episode"])
    seconds = {int(k): float(v) for k, v in request["marks"].items()}
    began = seconds.pop(0, min(seconds.values(), default=0.0))
    lead = clock.seconds(request.get("lead") or 0)
    cuts = cuts_of(str(request.get("cuts") or ""))
    # The cuts are told in the recording's own time; what comes before the video is one more of them.
    times = marks.starts(seconds, began, [*([(0.0, float(lead))] if lead else []), *cuts])
    reply: dict[str, Any] = {"starts": {key: clock.worded(time) for key, time in times.items()}, "problems": []}
    episode = next((e for e, _ in _episodes(docs)[1] if e.number == number), None)
    if episode is None:
        reply["problems"] = [f"There is no sheet for episode {number}."]
    else:
        reply["problems"] = into_sheet.problems_of_starts([(s.number, s.question) for s in episode.segments], times)
    if request.get("write") is True:
        if reply["problems"]:
            return {"errors": [{"input": "", "message": problem} for problem in reply["problems"]], **reply}
        # the sheet has the day on which it was made; the take has the day of the recording
        day = datetime.datetime.fromtimestamp(request["recorded"]).date() if request.get("recorded") else None
        cutting = marks.Cutting(clock.worded(lead), [_cut(begin, end) for begin, end in cuts], day)
        into_sheet.write_starts(docs, number, times, cutting)
        reply["written"] = True
    return reply


def _cut(begin_s: float, end_s: float) -> str:
    return f"{clock.worded(int(begin_s))}-{clock.worded(int(end_s))}"


def _said(project: Path, request: dict[str, Any]) -> dict[str, Any]:
    """Writes into the sheet, as what was said, what a question's row shows."""
    number, shown, spoken = int(request["segment"]), str(request.get("shown") or ""), str(request.get("spoken") or "")
    into_sheet.write_said(project / "docs", int(request["episode"]), number, spoken, shown)
    return {"segment": number}


def _last_change(project: Path, request: dict[str, Any]) -> dict[str, Any]:
    """What was changed last in a sheet; with the mark of that change, it is taken back."""
    docs, number = project / "docs", int(request["episode"])
    if mark := str(request.get("mark") or ""):
        into_sheet.take_back(docs, number, mark)
        return {"taken_back": True}
    lines, mark = into_sheet.last_change(docs, number)
    return {"lines": lines, "mark": mark}


def _questions(project: Path, request: dict[str, Any]) -> dict[str, Any]:
    """The questions of a sheet, for who is about to write into it: nothing is worked out."""
    read = next((e for e, _ in _episodes(project / "docs")[1] if e.number == request.get("episode")), None)
    if read is None:
        return {"questions": []}
    settings = programme.read(project)
    return {
        "questions": [
            {"number": s.number, "question": s.question, "on_top": s.chapter or s.question,
             "address": page_link(read, s, settings),
             "calculators": [s.calculator, *(each.calculator for each in s.also)] if s.calculator else []}
            for s in read.segments
        ]
    }  # fmt: skip


def _into(project: Path, request: dict[str, Any]) -> dict[str, Any]:
    """Writes a prepared question into an episode's sheet: as a new one, or its numbers into one that stands there."""
    docs, episode, segment = project / "docs", int(request["episode"]), int(request.get("segment") or 0)
    calculator, answer = str(request["calculator"]), str(request.get("answer") or "")
    inputs = _texts(request.get("inputs"))
    how = str(request.get("how") or "new")
    if how == "numbers":
        into_sheet.put_numbers(docs, episode, segment, answer=answer, calculator=calculator, inputs=inputs)
        return {"segment": segment, "how": how}
    if how == "beside":
        taken = into_sheet.put_beside(docs, episode, segment, calculator=calculator, inputs=inputs)
        return {"segment": segment, "how": how, "taken": taken}
    if how != "new":
        raise ValueError("Into a sheet goes a new question, new numbers, or a further calculator.")
    number = into_sheet.add_question(
        docs,
        episode,
        question=str(request.get("question") or ""),
        viewer=str(request.get("viewer") or ""),
        consent=request.get("consent") is True,
        answer=answer,
        calculator=calculator,
        inputs=inputs,
    )
    return {"segment": number, "how": how}


_REQUESTS: dict[str, Callable[[Path, dict[str, Any]], dict[str, Any]]] = {
    "catalogue": _catalogue,
    "form": _form,
    "code": _code,
    "card": _card,
    "run": _run_sheet,
    "cards": _cards,
    "starts": _starts,
    "questions": _questions,
    "into": _into,
    "said": _said,
    "last-change": _last_change,
}
