"""Words alone, large: a title, or a viewer's question."""

from __future__ import annotations

from calculators.desk.card_canvas import ABOVE, LEADING, SMALLEST, Canvas, balanced, cut
from calculators.desk.card_forms.plan import Plan, Setting, one_step

MARK_GAP = 44.0  # from the mark on a title card to the programme's name


def title_card(setting: Setting) -> Plan:
    """A title: the mark large, the programme's name beside it, the words below."""
    return large_card(setting, "title", 168)


def question_card(setting: Setting) -> Plan:
    """The question alone, large: the comment's own words, cut only at a word."""
    return large_card(setting, "question", 0)


def large_card(setting: Setting, name: str, mark: float) -> Plan:
    """The question in the largest type in which it fits, below the mark (its height; 0 for none) or a rule."""
    shape, canvas = setting.shape, Canvas()
    width = shape.right - shape.left
    room = shape.bottom - shape.top - mark - (60 if mark else 40)
    for size in (132.0, 112.0, 96.0, 84.0, 72.0, SMALLEST):
        lines = balanced(setting.question, width, size, int(room // (size * LEADING)), name == "title")
        if lines:
            break
    else:
        size = SMALLEST
        lines = cut(setting.question, width, size, int(room // (size * LEADING)))
    high = len(lines) * size * LEADING + (mark + 60 if mark else 40)
    y = shape.top + (shape.bottom - shape.top - high) / 2
    if mark and setting.theme.mark:
        at = f"translate({shape.left:.1f} {y:.1f}) scale({mark / 100:.3f})"
        path = f'<path d="{setting.theme.mark}" transform="{at}" fill="var(--wa-mark,#000)"/>'
        canvas.shape("question", path, "mark", (shape.left, y, shape.left + mark, y + mark))
        x = shape.left + mark + MARK_GAP
        if named := _in_lines_of(setting.theme.name, shape.right - x):
            size_of, words_of = named
            base = y + mark / 2 + size_of * (ABOVE / 2 - 0.55 * (len(words_of) - 1))
            for i, line in enumerate(words_of):
                canvas.text("question", line, x, base + i * size_of * 1.1, size_of, "mark", bold=True)
        y += mark + 60
    else:
        rule = f'<rect x="{shape.left:g}" y="{y:.1f}" width="{width:g}" height="3" fill="var(--wa-line,#000)"/>'
        canvas.shape("question", rule, "rule", (shape.left, y, shape.right, y + 3))
        y += 40
    for i, line in enumerate(lines):
        base = y + size * 0.8 + i * size * LEADING
        canvas.text("question", line, shape.left, base, size, "ink", bold=name == "title")
    return one_step(canvas, name, [["question"]])


def _in_lines_of(name: str, width: float) -> tuple[float, list[str]] | None:
    """A programme's name in one line, else in two smaller ones, with its size; None where there is none or no room."""
    for size, most in ((96.0, 1), (72.0, 1), (72.0, 2), (SMALLEST, 2)):
        if name and (lines := balanced(name, width, size, most, True)):
            return size, lines
    return None
