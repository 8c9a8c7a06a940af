"""
An answer as HTML: the same markup at build time and in the browser, byte for byte.

The prefix keeps ids of several answers on one page apart. Knows the class names; the style sheet and the
page's script know them too (DEVELOPERS.md lists them).
"""

from __future__ import annotations

from collections.abc import Iterable

from calculators.desk.answer import Caution, Figure, File, Step, Table, Verdict, Working
from calculators.desk.as_json import digest
from calculators.desk.as_text import step_parts
from calculators.desk.calculator import Result
from calculators.desk.numbers import span
from calculators.desk.svg import escape


def as_html(result: Result, prefix: str) -> str:
    """
    The answer as one HTML element.

    Args:
        result: A run. [object]
        prefix: Starts every id inside; letters, digits and hyphens. [text]

    Returns:
        HTML without any script or inline style. [text]

    Raises:
        Nothing.

    Source:
        WHATWG HTML standard.

    Example:
        >>> from calculators.catalogue import find
        >>> as_html(find("memory.rate").run({}), "a").startswith('<div class="wa-answer"')
        True
    """
    answer = result.answer
    first = [c for c in answer.cautions if c.first]
    later = [c for c in answer.cautions if not c.first]
    parts = [
        f'<div class="wa-answer" data-digest="{digest(result)}" data-version="{result.calculator.version}">',
        _cautions(first),
        f'<p class="wa-headline">{escape(answer.headline)}</p>',
        _verdict(answer.verdict),
        _figures([f for f in answer.shown_figures() if f.main], "wa-figures wa-main"),
        # a sound is what the answer is about: it stands where one looks first, below the cautions
        *(_file(f) for f in answer.files if f.media.startswith("audio/")),
        *(_drawing(d.svg(f"{prefix}-drawing-{i}"), d.title) for i, d in enumerate(answer.drawings, 1)),
        *(_file(f) for f in answer.files if f.media.startswith("image/")),
        _working(answer.working),
        *(_table(t) for t in answer.tables),
        _steps(answer.steps, answer.steps_title),
        *(f'<div class="wa-explained"><h3>{escape(n.title)}</h3><p>{escape(n.text)}</p></div>' for n in answer.notes),
        _more_figures([f for f in answer.shown_figures() if not f.main]),
        *(_file(f) for f in answer.files if not f.media.startswith(("audio/", "image/"))),
        _cautions(later),
        _assumed(result),
        _sources(result),
        "</div>",
    ]
    return "".join(parts)


def _verdict(verdict: Verdict | None) -> str:
    if verdict is None:
        return ""
    return (
        f'<p class="wa-verdict" data-verdict="{verdict.word}"><strong>{escape(verdict.said())}</strong> '
        f"{escape(verdict.reason)}</p>"
    )


def _figures(figures: Iterable[Figure], classes: str) -> str:
    rows = "".join(
        f'<div class="wa-figure" data-figure="{escape(f.key)}">'
        f"<dt>{escape(f.label)}</dt><dd>{escape(f.text)}</dd></div>"
        for f in figures
    )
    return f'<dl class="{classes}">{rows}</dl>' if rows else ""


def _more_figures(figures: list[Figure]) -> str:
    if not figures:
        return ""
    return f'<details class="wa-more"><summary>Every figure</summary>{_figures(figures, "wa-figures")}</details>'


def _drawing(svg: str, title: str) -> str:
    return f'<figure class="wa-drawing"><figcaption>{escape(title)}</figcaption>{svg}</figure>'


def _working(working: tuple[Working, ...]) -> str:
    if not working:
        return ""
    lines = []
    for work in working:
        steps = [f'<span class="wa-formula">{escape(work.formula)}</span>'] if work.formula else []
        steps += [f'<span class="wa-put">= {escape(work.numbers)}</span>'] if work.numbers else []
        steps += [f'<span class="wa-comes">= {escape(work.result)}</span>'] if work.result else []
        lines.append(f'<li><p class="wa-what">{escape(work.what)}</p><p class="wa-math">{" ".join(steps)}</p></li>')
    return (
        f'<details class="wa-working-fold" open><summary>The working</summary>'
        f'<ol class="wa-working">{"".join(lines)}</ol></details>'
    )


def _table(table: Table) -> str:
    head = "".join(f'<th scope="col"{_numeric(c.numeric)}>{escape(c.label)}</th>' for c in table.columns)
    rows = []
    for i, row in enumerate(table.rows):
        cells = []
        for j, (cell, column) in enumerate(zip(row, table.columns, strict=True)):
            tag = "th" if j == 0 else "td"
            scope = ' scope="row"' if j == 0 else ""
            cells.append(f"<{tag}{scope}{_numeric(column.numeric)}>{escape(cell)}</{tag}>")
        mark = ' class="wa-own"' if i in table.marked else ""
        rows.append(f"<tr{mark}>{''.join(cells)}</tr>")
    note = f'<p class="wa-table-note">{escape(table.note)}</p>' if table.note else ""
    return (
        f'<div class="wa-table" role="group" aria-label="{escape(table.title)}" tabindex="0"><table class="wa-cells">'
        f"<caption>{escape(table.title)}</caption><thead><tr>{head}</tr></thead>"
        f"<tbody>{''.join(rows)}</tbody></table></div>{note}"
    )


def _numeric(numeric: bool) -> str:
    return ' class="wa-number"' if numeric else ""


def _steps(steps: tuple[Step, ...], title: str) -> str:
    if not steps:
        return ""
    parts = [f'<div class="wa-plan"><h3>{escape(title or "Steps")}</h3>']
    # steps with tags can be ticked off: the page's script fills the place for the tools, and shows the boxes
    parts.append('<div class="wa-plan-tools"></div>' if any(step.tags for step in steps) else "")
    group: str | None = None
    end = ""
    for i, step in enumerate(steps, 1):
        if step.group != group:
            # a deeper group is folded; its heading is the fold's own, in the same place before the list
            fold = step.deeper and step.group
            tag = "summary" if fold else "p"
            parts += [end, '<details class="wa-deeper">' if fold else ""]
            parts.append(f'<{tag} class="wa-steps-group">{escape(step.group)}</{tag}>' if step.group else "")
            parts.append(f'<ol class="wa-steps" start="{i}">')
            end = "</ol></details>" if fold else "</ol>"
            group = step.group
        parts.append(_step(step))
    parts.append(f"{end}</div>")
    return "".join(parts)


def _step(step: Step) -> str:
    time = f' <span class="wa-minutes">{escape(span(*step.minutes, "min", 0))}</span>' if step.minutes else ""
    tags = f' data-tags="{escape(" ".join(step.tags))}"' if step.tags else ""
    body = [f"<p>{escape(line)}</p>" for line in step.do]
    # no <code> inside: the theme would give each an id of its own, and the markup would no longer be what Python made
    copy = '<button type="button" class="wa-copy">Copy</button>' if step.tags else ""  # out of sight without a script
    body += [f'<pre class="wa-command">{escape(c)}</pre>{copy}' for c in step.commands]
    pairs = "".join(f"<div><dt>{label}</dt><dd>{escape(text)}</dd></div>" for label, text in step_parts(step))
    body += [f'<dl class="wa-step-parts">{pairs}</dl>'] if pairs else []
    body += [_tick(step)] if step.tags else []
    return (
        f'<li class="wa-step" data-step="{escape(step.key)}"{tags}><p class="wa-step-title">{escape(step.title)}'
        f"{time}</p>{''.join(body)}</li>"
    )


def _tick(step: Step) -> str:
    """The box to tick; out of sight until the page's script keeps what is ticked."""
    title = escape(step.title)
    return (
        f'<label class="wa-tick"><input type="checkbox" value="{escape(step.key)}" aria-label="Done: {title}" '
        f'autocomplete="off"><span>Done</span></label>'
    )


def _file(file: File) -> str:
    from base64 import b64encode

    name = escape(file.name)
    address = f"data:{escape(file.media)};base64,{b64encode(file.data).decode('ascii')}"
    size = f"{(len(file.data) + 999) // 1000} kB"
    if file.media.startswith("image/"):
        wide = f' width="{file.size[0]}" height="{file.size[1]}"' if file.size else ""
        ground = f' data-ground="{escape(file.ground)}"' if file.ground else ""
        # A picture is never squeezed to fit, so its box scrolls, by keyboard too. It stands here once: the script saves
        # it from there, and shows its two buttons only where they work.
        return (
            f'<div class="wa-file wa-picture"{ground}><div class="wa-picture-box" role="region" tabindex="0" '
            f'aria-label="{name}"><img src="{address}" alt="{escape(file.words or file.name)}"{wide}></div>'
            '<button type="button" class="wa-action wa-alone">Alone on the screen</button>'
            f'<button type="button" class="wa-action wa-keep" data-name="{name}">Save {name} ({size})</button></div>'
        )
    if file.media.startswith("audio/"):
        # As with a picture, the sound stands here once, and the script saves it from its player.
        return (
            f'<div class="wa-file wa-sound"><audio controls preload="none" src="{address}" aria-label="{name}"></audio>'
            f'<button type="button" class="wa-action wa-save-sound" data-name="{name}">Save {name} ({size})</button>'
            "</div>"
        )
    return f'<div class="wa-file"><a class="wa-save" download="{name}" href="{address}">Save {name} ({size})</a></div>'


def _cautions(cautions: list[Caution]) -> str:
    if not cautions:
        return ""
    rows = "".join(
        f'<li data-risk="{c.risk}">{escape(c.text)}{" " + escape(c.defer) if c.defer else ""}</li>' for c in cautions
    )
    return f'<div class="wa-cautions"><p class="wa-cautions-title">Caution</p><ul>{rows}</ul></div>'


def _assumed(result: Result) -> str:
    values = result.values
    if not values.assumed:
        return ""
    rows = "".join(f"<li>{escape(values.label(key))}: {escape(values.say(key))}</li>" for key in values.assumed)
    return (
        f'<details class="wa-assumed-fold"><summary>Assumed, because not given: {len(values.assumed)}</summary>'
        f'<ul class="wa-assumed">{rows}</ul></details>'
    )


def _sources(result: Result) -> str:
    if not result.answer.sources:
        return ""
    rows = "".join(f'<li data-standing="{s.standing}">{escape(s.say())}</li>' for s in result.answer.sources)
    return f'<details class="wa-sources-fold"><summary>Sources</summary><ul class="wa-sources">{rows}</ul></details>'
