"""An answer as plain text, for the terminal and for pasting."""

from __future__ import annotations

from calculators.desk.answer import Step, Table
from calculators.desk.calculator import Result
from calculators.desk.numbers import span


def as_text(result: Result) -> str:
    """
    The answer as text, one fact a line, ending in a newline.

    Args:
        result: A run. [object]

    Returns:
        The text. [text]

    Source:
        None: a rendering.

    Example:
        >>> from calculators.catalogue import find
        >>> as_text(find("memory.rate").run({})).splitlines()[0] == find("memory.rate").title
        True
    """
    answer = result.answer
    lines = [result.calculator.title, ""]
    for caution in answer.cautions:
        if caution.first:
            lines += [f"Caution ({caution.risk}): {caution.text} {caution.defer}".rstrip(), ""]
    lines.append(answer.headline)
    if answer.verdict:
        lines.append(f"{answer.verdict.said()} {answer.verdict.reason}")
    if shown := answer.shown_figures():
        lines += ["", *(f"  {f.label}: {f.text}" for f in shown)]
    if answer.working:
        lines += ["", "Working"]
        for work in answer.working:
            equation = " = ".join(part for part in (work.formula, work.numbers, work.result) if part)
            lines.append(f"  {work.what}: {equation}")
    for table in answer.tables:
        lines += ["", table.title, *_table(table)]
    if answer.steps:
        lines += ["", answer.steps_title or "Steps", *_steps(answer.steps)]
    for note in answer.notes:
        lines += ["", note.title, f"  {note.text}"]
    for drawing in answer.drawings:
        lines += ["", f"Drawing: {drawing.title}", f"  {drawing.description}"]
    for file in answer.files:
        lines += ["", f"File: {file.name} ({file.media}, {len(file.data)} bytes)"]
    later = [c for c in answer.cautions if not c.first]
    if later:
        lines += ["", "Cautions", *(f"  {c.text} {c.defer}".rstrip() for c in later)]
    if result.values.assumed:
        lines += ["", "Assumed, because not given"]
        lines += [f"  {result.values.label(k)}: {result.values.say(k)}" for k in result.values.assumed]
    if answer.sources:
        lines += ["", "Sources", *(f"  {s.say()}" for s in answer.sources)]
    return "\n".join(lines) + "\n"


def _table(table: Table) -> list[str]:
    """Rows in columns of even width."""
    cells = [[c.label for c in table.columns], *([*row] for row in table.rows)]
    widths = [max(len(row[i]) for row in cells) for i in range(len(table.columns))]
    lines = []
    for number, row in enumerate(cells):
        parts = [
            cell.rjust(width) if column.numeric else cell.ljust(width)
            for cell, width, column in zip(row, widths, table.columns, strict=True)
        ]
        mark = "*" if number - 1 in table.marked and number else " "
        lines.append(f" {mark}{'  '.join(parts)}".rstrip())
    return [*lines, *([f"  {table.note}"] if table.note else [])]


def _steps(steps: tuple[Step, ...]) -> list[str]:
    """Numbered steps, a heading where the group changes."""
    lines: list[str] = []
    group = ""
    for i, step in enumerate(steps, 1):
        if step.group != group:
            group = step.group
            lines.append(f"  {group}")
        time = f" ({span(*step.minutes, 'min', 0)})" if step.minutes else ""
        lines.append(f"  {i}. {step.title}{time}")
        lines += [f"     {line}" for line in step.do]
        lines += [f"       {command}" for command in step.commands]
        for label, text in step_parts(step):
            lines.append(f"     {label}: {text}")
    return lines


def step_parts(step: Step) -> list[tuple[str, str]]:
    """The labelled parts of a step that are there, in the order in which one needs them."""
    parts = [
        ("Careful", step.caution),
        ("Why", step.why),
        ("You should see", step.see),
        ("If not", step.otherwise),
        ("Way back", step.back),
    ]
    return [(label, text) for label, text in parts if text]
