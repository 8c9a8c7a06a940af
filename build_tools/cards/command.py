"""
The card command: a result as a picture for the screen, as SVG, or as PNG where a browser is at hand.

Also one step's motion as numbered pictures, for an editor's program.
"""

from __future__ import annotations

import base64
from collections.abc import Mapping
from pathlib import Path

from build_tools import keeping
from build_tools.cards import theme
from build_tools.cards.photographs import NoPicture, Photographer
from calculators.catalogue import find
from calculators.desk.calculator import Result
from calculators.desk.card import composed, frames, motion
from calculators.desk.card_canvas import SHAPES, Frame
from calculators.desk.card_theme import Theme
from calculators.desk.errors import InputErrors, UnknownCalculator

FACE = "@fontsource-variable/instrument-sans/files/instrument-sans-latin-wght-normal.woff2"
FADE_MS = 300  # how long a step takes to appear, in the live picture too (pages/picture.js)


class CannotDraw(ValueError):
    """No picture was made; the text says why and what to do."""


def qr(text: str) -> list[list[bool]]:
    """
    The modules of a text's QR code, true for dark.

    Args:
        text: What the code says. [text]

    Returns:
        The rows. [list]

    Raises:
        CannotDraw: The text is too long for any code.

    Source:
        ISO/IEC 18004, by the segno library; error correction M: about 15 % may be lost to a lossy picture.

    Example:
        >>> len(qr("https://answers.example/go/sticks"))
        25
    """
    import segno

    try:
        return [[bool(cell) for cell in row] for row in segno.make(text, error="m", boost_error=False).matrix]
    except segno.DataOverflowError:
        raise CannotDraw("the link is too long for a QR code; use a short address") from None


def face_css(project: Path) -> str:
    """A style rule that carries the label face inside a picture."""
    data = base64.b64encode((project / "node_modules" / FACE).read_bytes()).decode("ascii")
    return f"@font-face{{font-family:'WA Label';font-weight:400 700;src:url(data:font/woff2;base64,{data})}}"


def draw(
    project: Path,
    name: str,
    inputs: Mapping[str, str],
    *,
    question: str = "",
    shape: str = "wide",
    background: str = "light",
    address: str = "",
    before: tuple[str, str] = ("", ""),
) -> list[Frame]:
    """
    The frames of one card, complete in themselves.

    Args:
        project: The project folder, for the face. [path]
        name: The calculator. [text]
        inputs: As typed. [mapping]
        question: Stands on top. [text]
        shape: One of SHAPES. [text]
        background: light, dark or transparent. [text]
        address: The short link. [text]
        before: Of a corrected card, what was wrong and what holds now. [text]

    Returns:
        The frames. [list]

    Raises:
        CannotDraw: The calculator or an input is wrong; one line a problem.

    Source:
        DESIGN section 7 of this project.

    Example:
        >>> SHAPES["wide"].width
        1920
    """
    return frames(
        _result(name, inputs), question=question, shape=shape, background=background, address=address, qr=qr,
        font_css=face_css(project), theme=_theme(project), before=before,
    )  # fmt: skip


def _result(name: str, inputs: Mapping[str, str]) -> Result:
    try:
        return find(name).run(dict(inputs))
    except UnknownCalculator as problem:
        raise CannotDraw(f"{problem}") from None
    except InputErrors as problems:
        raise CannotDraw("\n".join(f"{p.input}: {p.message}" for p in problems.problems)) from None


def _theme(project: Path) -> Theme:
    try:
        return theme.read(project)
    except theme.WrongTheme as problem:
        raise CannotDraw(f"{problem}") from None


def draw_motion(
    project: Path,
    name: str,
    inputs: Mapping[str, str],
    step: int,
    rate: int,
    *,
    question: str = "",
    shape: str = "wide",
    background: str = "light",
    address: str = "",
) -> list[Frame]:
    """
    The pictures of one step's fade, to be saved as a numbered sequence.

    Args:
        project: The project folder, for the face. [path]
        name: The calculator. [text]
        inputs: As typed. [mapping]
        step: Which step comes, from 1. [1]
        rate: Pictures a second of the programme. [1/s]
        question: Stands on top. [text]
        shape: As for draw(). [text]
        background: As for draw(). [text]
        address: As for draw(). [text]

    Returns:
        The pictures, FADE_MS long at that rate. [list]

    Raises:
        CannotDraw: As for draw(); or there is no such step, or no such rate.

    Source:
        None.

    Example:
        >>> FADE_MS
        300
    """
    result, look = _result(name, inputs), _theme(project)
    plan = composed(result, question=question, shape=shape, background=background, address=address, qr=qr, theme=look)
    if not 1 <= step <= len(plan.steps):
        raise CannotDraw(f"this card has steps 1 to {len(plan.steps)}, got {step}")
    if not 10 <= rate <= 120:
        raise CannotDraw(f"pictures a second must be from 10 to 120, got {rate}")
    pictures = motion(
        plan, step, max(round(FADE_MS * rate / 1000), 2), shape=shape, background=background, theme=look,
        font_css=face_css(project), label=result.answer.headline,
    )  # fmt: skip
    return [Frame(f"{plan.steps[step - 1][0]} {i}", svg) for i, svg in enumerate(pictures, 1)]


def save(
    made: list[Frame],
    output: Path,
    shape: str,
    browser: Path | Photographer | None,
    transparent: bool = False,
    *,
    numbered: bool = False,
) -> list[Path]:
    """
    Write a card's frames: the first under the name given, the others with -2, -3 … behind it.

    Args:
        made: The frames. [list]
        output: Ends in .svg or .png. [path]
        shape: One of SHAPES. [text]
        browser: A Chromium, for .png; or a photographer, where the same one is to make other cards too. [path]
        transparent: Leave the background of a .png open. Its alpha is straight: colours are not multiplied by it.
        numbered: Name every file with four digits behind it, as editors read a sequence.

    Returns:
        The files written. [list]

    Raises:
        CannotDraw: The ending is another, there is no browser for a .png, or the file cannot be written.

    Source:
        None.

    Example:
        >>> save([], Path("a.svg"), "wide", None)
        []
    """
    ending = output.suffix.lower()
    if ending not in (".svg", ".png"):
        raise CannotDraw(f"a card is written as .svg or .png, got '{output.name}'")
    if ending == ".png" and browser is None:
        raise CannotDraw("a .png needs a Chromium on this machine; write an .svg, which needs none")
    if isinstance(browser, Path):
        with Photographer(browser) as photographer:
            return save(made, output, shape, photographer, transparent, numbered=numbered)
    written = []
    for number, frame in enumerate(made, 1):
        last = f"-{number:04d}" if numbered else "" if number == 1 else f"-{number}"
        path = output.with_name(f"{output.stem}{last}{output.suffix}")
        if ending == ".svg" or browser is None:
            _keep(path, frame.svg)
        else:
            try:
                _keep(path, browser.picture(frame.svg, SHAPES[shape].pixels, transparent))
            except NoPicture as problem:
                raise CannotDraw(str(problem)) from None
        written.append(path)
    return written


def _keep(path: Path, picture: str | bytes) -> None:
    try:
        keeping.keep(path, picture, before=False)
    except keeping.CannotKeep as problem:
        raise CannotDraw(str(problem)) from None
