"""
The presenter's commands: card, new, check, pasted, forget. Knows what each needs; does the work in the other rooms.

Read by the bare Python, so whatever needs an installed package is imported only inside a command.
"""

from __future__ import annotations

import argparse
import datetime
import sys
from pathlib import Path
from typing import Any

WRONG = 1
NAMES = ("card", "new", "check", "pasted", "forget")


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
    kinds.add_parser("site", help="an empty knowledge base in another folder").add_argument("path")

    commands.add_parser("check", help="tell what is wrong, overdue, missing or too long to say")
    pasted = commands.add_parser("pasted", help="note that an episode's description now stands below its video")
    pasted.add_argument("episode", type=int)
    forget = commands.add_parser("forget", help="replace a viewer's handle by 'anonymous' in every episode sheet")
    forget.add_argument("handle")


def run(project: Path, options: argparse.Namespace) -> int:
    """Runs one of the commands and returns its exit status: 0 done, 1 something to mend."""
    if options.command == "card":
        return _card(project, options)
    if options.command == "new":
        return _new(project, options)
    if options.command == "check":
        return _check(project)
    if options.command == "pasted":
        return _pasted(project, options.episode)
    return _forget(project, options.handle)


def _card(project: Path, options: argparse.Namespace) -> int:
    from build_tools.cards.command import CannotDraw, draw, draw_motion, save
    from build_tools.environment import browsers
    from calculators.desk.card import BACKGROUNDS, SHAPES

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
            made = draw(project, options.calculator, inputs, **how)
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
    from build_tools.new import make
    from build_tools.new.writing import CannotMake

    try:
        if options.kind == "answer":
            written = make.new_answer(project, options.title, options.subject, options.calculator)
        elif options.kind == "episode":
            written = make.new_episode(project, options.title)
        elif options.kind == "calculator":
            written = make.new_calculator(project, options.name, options.title)
        else:
            written = make.new_site(project, Path(options.path))
    except (CannotMake, CannotKeep) as problem:
        return _sorry(f"{problem}.")
    for path in written:
        print(f"Written: {path}")
    print("Fill in what says 'Write here'; the check command lists what is left.")
    return 0


def _check(project: Path) -> int:
    from build_tools.checks.advice import check

    found = check(project, datetime.date.today())
    for finding in found:
        print(finding)
    errors = sum(f.error for f in found)
    print(f"{errors} to mend, {len(found) - errors} pieces of advice.")
    return WRONG if errors else 0


def _pasted(project: Path, number: int) -> int:
    from build_tools.episodes import pasted, programme, sheet
    from build_tools.keeping import CannotKeep

    episode = next((e for e in sheet.read_all(project / "docs")[0] if e.number == number), None)
    if episode is None:
        return _sorry(f"there is no sheet for episode {number}.")
    try:
        print(f"Kept: {pasted.keep(project / 'docs', episode, programme.read(project))}")
    except CannotKeep as problem:
        return _sorry(f"{problem}.")
    return 0


def _forget(project: Path, handle: str) -> int:
    from build_tools.episodes.forget import forget
    from build_tools.keeping import CannotKeep

    try:
        changed = forget(project / "docs", handle)
    except CannotKeep as problem:
        return _sorry(f"{problem}.")
    for path in changed:
        print(f"Changed: {path}")
    if not changed:
        return _sorry(f"no episode sheet names '{handle}'.")
    print("Descriptions and replies pasted elsewhere, and earlier commits, keep it until you change them there.")
    return 0


def _sorry(sentence: str) -> int:
    print(sentence, file=sys.stderr)
    return WRONG
