"""
The presenter's commands: card, new, update, check, said, correct, pasted, bundle, forget.

Knows what each needs; does the work in the other rooms.

Read by the bare Python, so whatever needs an installed package is imported only inside a command.
"""

from __future__ import annotations

import argparse
import datetime
import shlex
import sys
from pathlib import Path
from typing import Any

from build_tools.installer.ready import first_start

WRONG = 1
NAMES = ("card", "new", "update", "check", "said", "correct", "pasted", "bundle", "forget")
WHAT_COMES_NEXT = {
    "answer": "Fill in each 'Write here' (the check command lists what is left; nothing is built until then), then\n"
    "python3 -m build_tools serve",
    "episode": "Fill in the summary and the questions; prepare the cards at the desk: python3 -m build_tools serve\n"
    "After the recording: said, then pasted (python3 -m build_tools --help)",
    "calculator": "Fill in each 'Write here', put your formula in place of the sum, and try it:\n"
    "python3 -m calculators {name} --help",
    "site": "Next:  cd {path}  and  python3 -m build_tools serve\n"
    "{first_start}\n"
    "The check command names what is still open: python3 -m build_tools check",
}


_ANSWERS = "copy the answers of this subject, or all of them; may be given more than once"


def add_to(commands: Any) -> None:
    """Adds the commands to the parser's own."""
    card = commands.add_parser("card", help="draw a result for the screen, as .svg or .png")
    card.add_argument("calculator", nargs="?", default="", help="such as memory.rate; none for a --sheet of all")
    card.add_argument("inputs", nargs="*", metavar="key=value", help="its inputs, as in the terminal")
    card.add_argument("-o", "--output", default="card.svg", help="the file to write, .svg or .png")
    card.add_argument("--shape", default="wide", help="wide, panel, lower, question, upright and others")
    card.add_argument("--background", default="light", help="light, dark or transparent")
    card.add_argument("--question", default="", help="what stands on top; the calculator's own title otherwise")
    card.add_argument("--address", default="", help="the short link to show with its code")
    card.add_argument("--before", default="", help="on a corrected card: what was wrong, in a few words")
    card.add_argument("--now", default="", help="and what holds now, where the card's number does not say it")
    card.add_argument("--motion", type=int, metavar="STEP", help="one step's fade as numbered pictures")
    card.add_argument("--rate", type=int, default=50, help="pictures a second of --motion")
    card.add_argument("--sheet", action="store_true", help="a page with every calculator's cards, to look at")

    new = commands.add_parser("new", help="write a skeleton: an answer, an episode, a calculator, a site")
    kinds = new.add_subparsers(dest="kind", required=True, metavar="kind")
    answer = kinds.add_parser("answer", help="a page for one question")
    answer.add_argument("title", help="the question, as a viewer asks it")
    answer.add_argument("--subject", required=True, help="such as memory")
    answer.add_argument("--calculator", default="", help="the calculator to show; the subject's first otherwise")
    kinds.add_parser("episode", help="a sheet for one episode").add_argument("title")
    calculator = kinds.add_parser("calculator", help="a calculator with its test and its page")
    calculator.add_argument("name", help="subject.name, such as memory.rate")
    calculator.add_argument("--title", default="", help="the question it answers")
    site = kinds.add_parser("site", help="a knowledge base of your own in another folder")
    site.add_argument("path")
    site.add_argument("--name", default="", help="what the programme is called")
    site.add_argument("--address", default="", help="where the site will stand, such as https://answers.example")
    site.add_argument("--invented", action="store_true", help="the programme and its viewers are made up")
    site.add_argument("--answers", action="append", default=[], metavar="all|SUBJECT", help=_ANSWERS)

    update = commands.add_parser("update", help="bring what another site took from here up to date")
    update.add_argument("path", help="a folder that 'new site' has made; what was changed there stays")
    update.add_argument("--answers", action="append", default=[], metavar="all|SUBJECT", help=_ANSWERS)
    commands.add_parser("check", help="tell what is wrong, overdue, missing or too long to say")
    taking = commands.add_parser("said", help="take down what viewers are shown and told, as what was said")
    taking.add_argument("episode", type=int)
    taking.add_argument("--segment", type=int, action="append", default=[], help="this one; else all with nothing said")
    taking.add_argument("--spoken", default=None, help="free words to note beside it")
    correct = commands.add_parser("correct", help="begin the corrections that are due, with date, old and new")
    correct.add_argument("episode", type=int)
    correct.add_argument("--segment", type=int, action="append", default=[], help="this one; else all that are due")
    bundle = commands.add_parser("bundle", help="make a folder for the editor: cards, chapters, captions, sources")
    bundle.add_argument("episode", type=int)
    bundle.add_argument("-o", "--output", default="", help="the folder to write; bundle-007 otherwise")
    bundle.add_argument("--rate", default="", help="frames a second of the recording, kept in the sheet from then on")
    bundle.add_argument("--drop", action="store_true", help="its time code drops numbers (29.97 and 59.94 only)")
    bundle.add_argument("--no-png", action="store_true", help="leave the pictures as SVG, without a browser")
    pasted = commands.add_parser("pasted", help="note that an episode's description now stands below its video")
    pasted.add_argument("episode", type=int)
    forget = commands.add_parser("forget", help="replace a viewer's handle by 'anonymous' in every episode sheet")
    forget.add_argument("handle", help="as the viewer goes by, with or without @")
    forget.add_argument("--yes", action="store_true", help="do not ask")


def run(project: Path, options: argparse.Namespace) -> int:
    """Runs one of the commands and returns its exit status: 0 done, 1 something to mend."""
    if options.command == "card":
        return _card(project, options)
    if options.command == "new":
        return _new(project, options)
    if options.command == "check":
        return _check(project)
    if options.command == "update":
        return _update(project, options)
    if options.command in ("said", "correct"):
        return _write_said_or_correct(project, options)
    if options.command == "bundle":
        return _bundle(project, options)
    if options.command == "pasted":
        return _pasted(project, options.episode)
    return _forget(project, options.handle, options.yes)


def _card(project: Path, options: argparse.Namespace) -> int:
    from build_tools.cards.command import CannotDraw, draw, draw_motion, save
    from build_tools.environment import browsers
    from calculators.desk.card_canvas import BACKGROUNDS, SHAPES

    for name, given, known in (
        ("shape", options.shape, SHAPES),
        ("background", options.background, BACKGROUNDS),
    ):
        if given not in known:
            return _sorry(f"--{name} is one of {', '.join(known)}; got '{given}'.")
    if options.sheet:
        return _sheet(project, options)
    if not options.calculator:
        return _sorry("name a calculator, such as memory.rate, or ask for a --sheet of all")
    inputs = {}
    for pair in options.inputs:
        key, equals, value = pair.partition("=")
        if not equals:
            return _sorry(f"write inputs as key=value, such as rate=3200; got '{pair}'")
        inputs[key] = value
    output = Path(options.output)
    browser = browsers.find() if output.suffix.lower() == ".png" else None
    try:
        how = {key: getattr(options, key) for key in ("question", "shape", "background", "address")}
        if options.motion is None:
            made = draw(project, options.calculator, inputs, before=(options.before, options.now), **how)
        else:
            made = draw_motion(project, options.calculator, inputs, options.motion, options.rate, **how)
        is_open = options.background == "transparent" or options.shape in ("panel", "lower")
        written = save(made, output, options.shape, browser, is_open, numbered=options.motion is not None)
    except CannotDraw as problem:
        return _sorry(str(problem))
    for path, frame in zip(written, made, strict=True):
        print(f"{path}  {frame.name}")
    return 0


def _sheet(project: Path, options: argparse.Namespace) -> int:
    from build_tools.cards.command import CannotDraw
    from build_tools.cards.sheet import write

    output = Path(options.output if options.output != "card.svg" else "cards.html")
    try:
        count = write(project, output, options.calculator, options.background)
    except CannotDraw as problem:
        return _sorry(str(problem))
    print(f"{output}  {count} cards")
    return 0


def _new(project: Path, options: argparse.Namespace) -> int:
    from build_tools.keeping import CannotKeep
    from build_tools.new import make, site
    from build_tools.new.writing import CannotMake

    try:
        if options.kind == "answer":
            written = make.new_answer(project, options.title, options.subject, options.calculator)
        elif options.kind == "episode":
            written = make.new_episode(project, options.title)
        elif options.kind == "calculator":
            written = make.new_calculator(project, options.name, options.title)
        else:
            problem = _address_fault(options.address)
            if problem:
                return _sorry(problem)
            own = site.Own(options.name.strip(), options.address.strip().rstrip("/"), options.invented)
            written = site.new_site(project, Path(options.path).absolute(), own, options.answers)
    except (CannotMake, CannotKeep) as problem:
        return _sorry(f"{problem}.")
    for path in written:
        print(f"Written: {path}")
    quoted = {key: shlex.quote(value) for key, value in vars(options).items() if isinstance(value, str)}
    print(WHAT_COMES_NEXT[options.kind].format(**quoted, first_start=first_start(project, "site")))
    return 0


def _address_fault(address: str) -> str:
    """What is wrong with a site's address; '' where nothing is, or none was given."""
    given = address.strip()
    fine = not given or (given.startswith(("https://", "http://")) and not set(given) & set(" <>\"'"))
    return "" if fine else f"--address reads https://answers.example; got '{given}'."


def _update(project: Path, options: argparse.Namespace) -> int:
    from build_tools.keeping import CannotKeep
    from build_tools.new import site
    from build_tools.new.writing import CannotMake

    try:
        taken = site.take_over(project, Path(options.path).absolute(), options.answers)
    except (CannotMake, CannotKeep) as problem:
        return _sorry(f"{problem}.")
    for name in taken.written:
        print(f"New: {name}")
    for name in taken.renewed:
        print(f"Brought up to date: {name}")
    for name in taken.removed:
        print(f"Taken away, since it is no longer here: {name}")
    for name in taken.left:
        print(f"Left as you changed it: {name} (the newer one: {site.ASIDE}/{name})")
    if not any((taken.written, taken.renewed, taken.removed, taken.left)):
        print("Nothing is new here.")
    return 0


def _write_said_or_correct(project: Path, options: argparse.Namespace) -> int:
    from build_tools.episodes import saying
    from build_tools.episodes.sheet_edit import CannotEdit
    from build_tools.keeping import CannotKeep

    episode, fault = _whole_episode(project, options.episode)
    if episode is None:
        return _sorry(fault)
    docs = project / "docs"
    try:
        if options.command == "said":
            done = saying.take_down(docs, episode, options.segment, options.spoken)
            sentence = "Taken down as said" if done else "Nothing is left to take down"
        else:
            done = saying.begin_corrections(docs, episode, options.segment, datetime.date.today())
            sentence = (
                "A correction was begun; write why it was wrong" if done else "Nothing that was said needs correcting"
            )
    except (CannotEdit, CannotKeep) as problem:
        return _sorry(f"{problem}.")
    which = f" (question {', '.join(str(number) for number in done)})" if done else ""
    print(f"{sentence}{which}: docs/{episode.path}")
    return 0


def _whole_episode(project: Path, number: int) -> tuple[Any, str]:
    """An episode whose sheet has no mistake; or None, and what is wrong."""
    from build_tools.episodes import sheet

    episodes, mistakes = sheet.read_all(project / "docs")
    episode = next((e for e in episodes if e.number == number), None)
    wrong = [str(m) for m in mistakes if f"/{number:03}-" in m.path]
    if wrong:
        return None, "\n".join([*wrong, f"Nothing was done: the sheet of episode {number} has a mistake."])
    if episode is None:
        return None, f"there is no sheet for episode {number}."
    return episode, ""


def _bundle(project: Path, options: argparse.Namespace) -> int:
    from build_tools.environment import browsers
    from build_tools.episodes import bundle
    from build_tools.episodes.sheet_edit import CannotEdit
    from build_tools.keeping import CannotKeep
    from build_tools.presenting.takes import Takes

    episode, fault = _whole_episode(project, options.episode)
    if episode is None:
        return _sorry(fault)
    output = Path(options.output or f"bundle-{options.episode:03}")
    try:
        rate, drop = bundle.rate_of(project, episode, options.rate, options.drop)
        browser = None if options.no_png else browsers.find()
        recordings = Takes(project).recordings(episode.number)
        done = bundle.bundle(project, episode, output, rate, drop, browser, recordings)
    except (bundle.CannotBundle, CannotEdit, CannotKeep) as problem:
        return _sorry(f"{problem}.")
    print(f"Written: {output}, {len(done.files)} files, listed in {bundle.LIST}")
    for warning in done.warnings:
        print(f"Mind: {warning}")
    return 0


def _check(project: Path) -> int:
    from build_tools.checks.advice import check

    findings = check(project, datetime.date.today())
    for finding in findings:
        print(finding)
    errors = sum(f.error for f in findings)
    print(f"{errors} to mend, {len(findings) - errors} pieces of advice.")
    return WRONG if errors else 0


def _pasted(project: Path, number: int) -> int:
    from build_tools.episodes import pasted, programme
    from build_tools.keeping import CannotKeep

    wrong = programme.mistakes(project)
    episode, fault = _whole_episode(project, number)
    if episode is None or wrong:
        return _sorry("\n".join([*wrong, fault]).strip())
    try:
        print(f"Kept: {pasted.keep(project / 'docs', episode, programme.read(project))}")
    except CannotKeep as problem:
        return _sorry(f"{problem}.")
    return 0


def _forget(project: Path, handle: str, sure: bool) -> int:
    from build_tools.episodes import forget
    from build_tools.keeping import CannotKeep

    try:
        plan = forget.plan(project / "docs", handle)
    except forget.CannotForget as problem:
        return _sorry(f"{problem}.")
    for change in plan.changes:
        print(change)
    if not sure and not _agreed(f"Change {len(plan.changes)} {'line' if len(plan.changes) == 1 else 'lines'}?"):
        return _sorry("Nothing was changed.")
    try:
        for path in forget.carry_out(plan):
            print(f"Changed: {path}")
    except CannotKeep as problem:
        return _sorry(f"{problem}.")
    for sentence in plan.out_of_reach:
        print(sentence)
    return 0


def _agreed(question: str) -> bool:
    try:
        return input(f"{question} (yes or no) ").strip().lower() in ("y", "yes")
    except EOFError:
        print("\nNobody answers here; say --yes if it is to be done without asking.", file=sys.stderr)
        return False


def _sorry(sentence: str) -> int:
    print(sentence, file=sys.stderr)
    return WRONG
