"""
An answer as HTML: the same markup at build time and in the browser, byte for byte.

The prefix keeps ids of several answers on one page apart. Knows the class names; the style sheet and the
page's script know them too (DEVELOPERS.md lists them).
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from calculators.desk.answer import Caution, Figure, File, Step, Table, Verdict, Working
from calculators.desk.as_json import digest
from calculators.desk.as_text import step_parts
from calculators.desk.calculator import Result
from calculators.desk.numbers import listed, span, unbroken
from calculators.desk.svg import escape


def as_html(result: Result, prefix: str) -> str:
    """
    The answer as two HTML elements: what one sees first, and the rest, between which a page may put its form.

    Args:
        result: A run. [object]
        prefix: Starts every id inside; letters, digits and hyphens. [text]

    Returns:
        HTML without any script or inline style. [text]

    Source:
        WHATWG HTML standard.

    Example:
        >>> from calculators.catalogue import find
        >>> as_html(find("memory.rate").run({}), "a").startswith('<div class="wa-answer wa-first"')
        True
    """
    return first_html(result, prefix) + rest_html(result, prefix)


def _safe(text: str) -> str:
    """Words as they stand in a page: safe, and no number parted from its unit at a line's end."""
    return escape(unbroken(text))


def first_html(result: Result, prefix: str) -> str:
    """What a phone's first screen holds: verdict, headline, the gravest caution, main figures, and for which parts."""
    answer = result.answer
    parts = [
        f'<div class="wa-answer wa-first" data-digest="{digest(result)}" data-version="{result.calculator.version}">',
        _verdict(answer.verdict),
        f'<p class="wa-headline">{_safe(answer.headline)}</p>',
        _gravest(answer.cautions, prefix),
        _figures([f for f in answer.shown_figures() if f.main], "wa-figures wa-main"),
        _worked_for(result),
        "</div>",
    ]
    return "".join(parts)


def rest_html(result: Result, prefix: str) -> str:
    """What comes below: what to do, drawings, working, tables, notes, all figures, cautions; each part once."""
    answer = result.answer
    urgent = [c for c in answer.cautions if c.first]
    later = [c for c in answer.cautions if not c.first]
    parts = [
        '<div class="wa-answer wa-rest">',
        _cautions(urgent, f"{prefix}-cautions"),
        # a sound or a picture is what the answer is about: it stands where one looks first, below the cautions
        *(_file(f) for f in answer.files if f.media.startswith(("audio/", "image/"))),
        _steps(answer.steps, answer.steps_title, prefix),
        *(_drawing(d.svg(f"{prefix}-drawing-{i}"), d.title) for i, d in enumerate(answer.drawings, 1)),
        _working(answer.working),
        *(_table(t) for t in answer.tables),
        *(fold("note", n.title, f"<p>{_safe(n.text)}</p>") for n in answer.notes),
        _more_figures([f for f in answer.shown_figures() if not f.main]),
        *(_file(f) for f in answer.files if not f.media.startswith(("audio/", "image/"))),
        _later_cautions(later, prefix, bool(urgent)),
        "</div>",
    ]
    return "".join(parts)


def fold(kind: str, title: str, inside: str) -> str:
    """A part that the page's script folds on a phone; open in the HTML, so that nothing is lost without scripts."""
    return (
        f'<details class="wa-fold wa-{kind}-fold" data-fold="{kind}" open>'
        f"<summary>{escape(title)}</summary>{inside}</details>"
    )


# Of several cautions of one rank, the one about people comes before the one about things.
_RISKS = ("person", "hearing", "data", "machine")
_RISK_WORDS = {
    "person": "Mind yourself: this can hurt you.",
    "hearing": "Mind your hearing.",
    "data": "Mind your data: back up first.",
    "machine": "Mind the machine: read the cautions first.",
}


def gravest(cautions: Iterable[Caution]) -> Caution | None:
    """The caution that is told first: one that stands before everything else, then by what it can hurt."""
    ranked = sorted(cautions, key=lambda c: (not c.first, _RISKS.index(c.risk)))
    return ranked[0] if ranked else None


def in_short(caution: Caution) -> str:
    """A caution in a few words, for where its sentences have no room."""
    return caution.short or _RISK_WORDS[caution.risk]


def _gravest(cautions: Iterable[Caution], prefix: str) -> str:
    caution = gravest(cautions)
    if caution is None:
        return ""
    words = escape(in_short(caution))
    return f'<p class="wa-gravest" data-risk="{caution.risk}"><a href="#{prefix}-cautions">{words}</a></p>'


def _worked_for(result: Result) -> str:
    """For which parts it was worked out, and what was assumed, in one line and its fold."""
    phrase = result.worked_for()
    line = f'<p class="wa-worked"><span>Worked for</span> {_safe(phrase)}</p>' if phrase else ""
    return line + _assumed(result)


def _verdict(verdict: Verdict | None) -> str:
    if verdict is None:
        return ""
    return (
        f'<p class="wa-verdict" data-verdict="{verdict.word}"><strong>{_safe(verdict.said())}</strong> '
        f"{_safe(verdict.reason)}</p>"
    )


def _figures(figures: Iterable[Figure], classes: str) -> str:
    rows = "".join(
        f'<div class="wa-figure" data-figure="{escape(f.key)}"><dt>{escape(f.label)}</dt><dd>{_safe(f.text)}</dd></div>'
        for f in figures
    )
    return f'<dl class="{classes}">{rows}</dl>' if rows else ""


def _more_figures(figures: list[Figure]) -> str:
    if not figures:
        return ""
    return fold("more", "Every figure", _figures(figures, "wa-figures"))


def _drawing(svg: str, title: str) -> str:
    return f'<figure class="wa-drawing"><figcaption>{escape(title)}</figcaption>{svg}</figure>'


def _working(working: tuple[Working, ...]) -> str:
    if not working:
        return ""
    lines = []
    for work in working:
        steps = [f'<span class="wa-formula">{_safe(work.formula)}</span>'] if work.formula else []
        steps += [f'<span class="wa-put">= {_safe(work.numbers)}</span>'] if work.numbers else []
        steps += [f'<span class="wa-comes">= {_safe(work.result)}</span>'] if work.result else []
        lines.append(f'<li><p class="wa-what">{_safe(work.what)}</p><p class="wa-math">{" ".join(steps)}</p></li>')
    return fold("working", "The working", f'<ol class="wa-working">{"".join(lines)}</ol>')


def _table(table: Table) -> str:
    head = "".join(f'<th scope="col"{_numeric(c.numeric)}>{escape(c.label)}</th>' for c in table.columns)
    rows = []
    for i, row in enumerate(table.rows):
        cells = []
        for j, (cell, column) in enumerate(zip(row, table.columns, strict=True)):
            tag = "th" if j == 0 else "td"
            scope = ' scope="row"' if j == 0 else ""
            cells.append(f"<{tag}{scope}{_numeric(column.numeric)}>{_safe(cell)}</{tag}>")
        mark = ' class="wa-own"' if i in table.marked else ""
        rows.append(f"<tr{mark}>{''.join(cells)}</tr>")
    note = f'<p class="wa-table-note">{_safe(table.note)}</p>' if table.note else ""
    return fold(
        "table",
        table.title,
        f'<div class="wa-table" role="group" aria-label="{escape(table.title)}" tabindex="0"><table class="wa-cells">'
        f"<thead><tr>{head}</tr></thead><tbody>{''.join(rows)}</tbody></table></div>{note}",
    )


def _numeric(numeric: bool) -> str:
    return ' class="wa-number"' if numeric else ""


def _steps(steps: tuple[Step, ...], title: str, prefix: str) -> str:
    if not steps:
        return ""
    parts = [f'<div class="wa-plan" id="{prefix}-do"><h2 class="wa-plan-title">{escape(title or "What to do")}</h2>']
    # steps with tags can be ticked off: the page's script fills the place for the tools, and shows the boxes
    parts.append('<div class="wa-plan-tools"></div>' if any(step.tags for step in steps) else "")
    group: str | None = None
    end = ""
    checked: set[tuple[str, str]] = set()
    for i, step in enumerate(steps, 1):
        if step.group != group:
            deeper = " data-deeper" if step.deeper else ""
            parts += [end, f'<p class="wa-steps-group"{deeper}>{escape(step.group)}</p>' if step.group else ""]
            parts.append(f'<ol class="wa-steps" start="{i}"{deeper}>')
            end = "</ol>"
            group = step.group
        # the same step once more, in a plan that starts over: its check stands open above
        parts.append(_step(step, i, (step.title, step.see) in checked))
        checked.add((step.title, step.see))
    parts.append(f"{end}</div>")
    return "".join(parts)


# So many steps of a plan show at once what to do; of the later ones the script folds all but the title on a phone.
_OPEN_STEPS = 3


def _step(step: Step, number: int, again: bool) -> str:
    """
    One step: what to do, and by a further tap why, and what one should see.

    What is dangerous and, where something is removed, reset or swapped, the way back stand open before the command.
    Where data, settings or the picture can be lost, the check is never folded, not even with its step.
    """
    time = f' <span class="wa-minutes">{_safe(span(*step.minutes, "min", 0))}</span>' if step.minutes else ""
    tags = f' data-tags="{escape(" ".join(step.tags))}"' if step.tags else ""
    known = dict(step_parts(step))
    first = ("Careful", "Way back") if step.risky() else ("Careful",)
    before = [(label, known.pop(label)) for label in first if label in known]
    open_check = step.risky() and "You should see" in known and not again
    check = [("You should see", known.pop("You should see"))] if open_check else []
    body = [_parts(before), *(f"<p>{_safe(line)}</p>" for line in step.do)]
    # no <code> inside: the theme would give each an id of its own, and the markup would no longer be what Python made
    copy = '<button type="button" class="wa-copy">Copy</button>' if step.tags else ""  # out of sight without a script
    body += [f'<pre class="wa-command">{_typed(c)}</pre>{copy}' for c in step.commands]
    if known:
        title = listed([name for label, name in _FOLDED_PARTS if label in known])
        body.append(fold("check", title[:1].upper() + title[1:], _parts(list(known.items()))))
    whole = f'<p class="wa-step-title">{_safe(step.title)}{time}</p>{"".join(body)}'
    if step.deeper or number > _OPEN_STEPS:
        kind = "deeper" if step.deeper else "step"
        whole = (
            f'<details class="wa-fold wa-step-fold" data-fold="{kind}" open><summary><span class="wa-step-title">'
            f"{_safe(step.title)}</span>{time}</summary>{''.join(body)}</details>"
        )
    tick = _tick(step) if step.tags else ""
    return f'<li class="wa-step" data-step="{escape(step.key)}"{tags}>{whole}{_parts(check)}{tick}</li>'


# The parts of a step that open by a tap, and what their fold is called.
_FOLDED_PARTS = (("You should see", "check"), ("Why", "reason"), ("If not", "what if not"), ("Way back", "way back"))


def _parts(parts: list[tuple[str, str]]) -> str:
    rows = "".join(f"<div><dt>{label}</dt><dd>{_safe(text)}</dd></div>" for label, text in parts)
    return f'<dl class="wa-step-parts">{rows}</dl>' if rows else ""


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


def _cautions(cautions: list[Caution], place: str) -> str:
    if not cautions:
        return ""
    rows = "".join(
        f'<li data-risk="{c.risk}">{_safe(c.text)}{" " + _safe(c.defer) if c.defer else ""}</li>' for c in cautions
    )
    return f'<div class="wa-cautions" id="{place}"><p class="wa-cautions-title">Caution</p><ul>{rows}</ul></div>'


def _typed(command: str) -> str:
    """A command as it is typed. No line ends behind a hyphen: whoever types it would put a space there."""
    return re.sub(r"\S*-\S*", r'<span class="wa-word">\g<0></span>', escape(command))


def _later_cautions(cautions: list[Caution], prefix: str, more: bool) -> str:
    """The cautions below the steps; in a fold if there are `more` and the gravest already stands open above."""
    if not more or not cautions:
        return _cautions(cautions, f"{prefix}-cautions")
    return fold("cautions", f"More cautions: {len(cautions)}", _cautions(cautions, f"{prefix}-more-cautions"))


def _assumed(result: Result) -> str:
    values = result.values
    if not values.assumed:
        return ""
    rows = "".join(f"<li>{escape(values.label(key))}: {_safe(values.say(key))}</li>" for key in values.assumed)
    count = len(values.assumed)
    return fold(
        "assumed", f"{count} {'value' if count == 1 else 'values'} assumed", f'<ul class="wa-assumed">{rows}</ul>'
    )
