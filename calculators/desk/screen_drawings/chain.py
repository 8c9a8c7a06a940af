"""A way from one thing to the next, across or down."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from calculators.desk.card_declared import SMALLEST_DRAWN, ScreenDrawing
from calculators.desk.screen_drawings.marks import HAIR, THICK
from calculators.desk.screen_drawings.names import NAMES_APART, Named, placed_names, set_names
from calculators.desk.screen_icons import draw_icon
from calculators.desk.svg import Drawing, Sketch, text_width, wrap

LEAST_ICON = 80.0
LOW = 420.0  # a room in which a chain stands closer
Stages = tuple[Sequence[int], Sequence[int]]  # the card's steps of the nodes, and of the ways from each to the next


def screen_chain(
    nodes: Sequence[tuple[str, str, str]], *, broken: int = -1, mark: int = -1, linked: bool = True,
    later: Sequence[int] | None = None,
) -> ScreenDrawing:  # fmt: skip
    """
    Things one after the other, from top to bottom: (icon, name, what is said of it).

    icon: computer, display, box, cable, wall, plug and the connectors of desk/screen_icons.py. broken: the node whose
    way on is cut. mark: the one meant. linked: whether something goes from each to the next; a mere list has no arrows.
    later: the nodes that come with the card's answer; where not told the one meant, else the last. What goes from one
    to the next comes with the later of the two, and where it is cut with the answer.
    """
    if later is None:
        later = () if broken >= 0 else (mark,) if mark >= 0 else (len(nodes) - 1,) if len(nodes) > 1 else ()
    steps = [int(i in later) for i in range(len(nodes))]
    ways = [1 if i == broken else max(pair) for i, pair in enumerate(pairwise(steps))]

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        if not nodes:
            return None
        if made := down(width, height, size):
            return made
        room = (width, height, size)
        if not linked:
            return None
        if made := _chain_across(nodes, broken, mark, room, (steps, ways)):
            return made
        # names at their own things, if smaller, before names one below the other, which run into one text
        least = (width, height, SMALLEST_DRAWN)
        if size > SMALLEST_DRAWN and (down(*least) or _chain_across(nodes, broken, mark, least, (steps, ways))):
            return None
        return _chain_named(nodes, broken, mark, room, (steps, ways))

    def down(width: float, height: float, size: float) -> Drawing | None:
        count = len(nodes)
        gap = 62.0 if height > LOW else 48.0
        high = min((height - gap * (count - 1)) / count, 200.0)
        if high < size * 1.6:
            return None
        icon, step = min(high, 150.0), size * 1.2
        left = icon + size * 0.8
        words = [(wrap(n[1], width - left, size, True), wrap(n[2], width - left, size) if n[2] else []) for n in nodes]
        whole = all(len(own) < 3 and (len(own) + len(more)) * step <= high + size * 0.1 for own, more in words)
        if not whole and not linked:  # in a list it is what is said of them that tells things apart
            return None
        sketch = Sketch(
            "chain", ", then ".join(f"{n[1]} {n[2]}".strip() for n in nodes), high * count + gap * (count - 1), width
        )
        for i, (kind, _, _) in enumerate(nodes):
            y = i * (high + gap)
            ink = "mark" if i == mark else "ink"
            with sketch.later(steps[i]):
                draw_icon(sketch, kind, 0, y + (high - icon) / 2, icon, ink)
            lines, more = words[i] if whole else (words[i][0], [])
            inner = size * (0.5 if linked and 0 < i < count - 1 else 0.1)  # only between two others words may reach out
            if len(lines) * step > high + inner:
                return None
            base = y + high / 2 - (len(lines) + len(more)) * step / 2 + size * 0.92
            for j, line in enumerate(lines + more):
                own = j < len(lines)
                with sketch.later(steps[i]):
                    sketch.text(left, base + j * step, line, size=size, bold=own, ink=ink if own else "soft")
            if linked and i + 1 < count:
                with sketch.later(ways[i]):
                    _way_down(sketch, icon / 2, y + high + 6, y + high + gap - 4, i == broken)
        return sketch.done()

    return drawn


def _way_down(sketch: Sketch, x: float, a: float, b: float, cut: bool) -> None:
    """From one thing to the one below it: an arrow, or a way that is cut."""
    sketch.line(x, a, x, b - 16, ink="no" if cut else "ink", width=THICK * 1.5)
    if cut:
        middle = (a + b) / 2
        for one in (-1, 1):
            sketch.line(x - 26, middle - 20 * one, x + 26, middle + 20 * one, ink="no", width=THICK * 1.5)
    else:
        sketch.path([(x - 20, b - 24), (x, b), (x + 20, b - 24)], ink="ink", width=THICK * 1.5)


def _chain_across(
    nodes: Sequence[tuple[str, str, str]], broken: int, mark: int, room: tuple[float, float, float], stages: Stages
) -> Drawing | None:
    """The chain with its nodes side by side, for room that is wider than high: each name below its icon."""
    width, height, size = room
    each = width / len(nodes)
    names = [wrap(name, each - size * 0.3, size, True) for _, name, _ in nodes]
    if max(map(len, names)) > 2 or any(text_width(line, size, True) > each for lines in names for line in lines):
        return None
    deep = max(map(len, names))
    icon = min(height - size * (0.5 + 1.15 * deep), 190.0, each * 0.6)
    if icon < 80:
        return None
    sketch = Sketch("chain", ", then ".join(node[1] for node in nodes), icon + size * (0.4 + 1.15 * deep), width)
    middles = [each * (i + 0.5) for i in range(len(nodes))]
    _icons_in_a_row(sketch, nodes, middles, (0, icon), broken, mark, stages)
    for i, lines in enumerate(names):
        for j, line in enumerate(lines):
            base, ink = icon + size * (1.2 + 1.15 * j), "mark" if i == mark else "ink"
            with sketch.later(stages[0][i]):
                sketch.text(middles[i], base, line, size=size, bold=True, ink=ink, anchor="middle")
    return sketch.done()


def _chain_named(
    nodes: Sequence[tuple[str, str, str]], broken: int, mark: int, room: tuple[float, float, float], stages: Stages
) -> Drawing | None:
    """The same where the room is low and the names are long: names one below the other, a leader down to each icon."""
    width, height, size = room
    icon = min(width / (len(nodes) * 1.6), 150.0)
    ends = icon / 2 + HAIR, width - icon / 2 - HAIR
    middles = [ends[0] + (ends[1] - ends[0]) * i / max(len(nodes) - 1, 1) for i in range(len(nodes))]
    named = [Named(middles[i], name, i == mark, False, stages[0][i]) for i, (_, name, _) in enumerate(nodes)]
    placed = placed_names(named, width, size)
    if placed is None:
        return None
    count, row = float(sum(len(name.lines) for name in placed)), size * 1.12
    air = NAMES_APART * (len(placed) - 1)
    if height - row * (count + air) - size * 0.5 >= LEAST_ICON:
        rank = {id(name): i for i, name in enumerate(sorted(placed, key=lambda name: name.row))}
        placed = [replace(name, row=name.row + NAMES_APART * rank[id(name)]) for name in placed]
        count += air
    elif size > SMALLEST_DRAWN:  # rather smaller, and apart
        return None
    icon = min(icon, height - row * count - size * 0.5)
    if icon < LEAST_ICON:
        return None
    top = row * count + size * 0.5
    sketch = Sketch("chain", ", then ".join(node[1] for node in nodes), top + icon + HAIR, width)
    for name in placed:
        ink = "mark" if name.of.mark else "line"
        start = row * (name.row + len(name.lines) - 1) + size * 1.12
        with sketch.later(name.of.step):
            sketch.line(name.of.x, start, name.of.x, top - 4, ink=ink, width=HAIR)
    set_names(sketch, placed, row, size)
    _icons_in_a_row(sketch, nodes, middles, (top, icon), broken, mark, stages)
    return sketch.done()


def _icons_in_a_row(
    sketch: Sketch, nodes: Sequence[tuple[str, str, str]], middles: Sequence[float], at: tuple[float, float],
    broken: int, mark: int, stages: Stages,
) -> None:  # fmt: skip
    """Icons about their middles, an arrow from each to the next, or a way that is cut. at: their top and their size."""
    y, icon = at
    for i, (kind, _, _) in enumerate(nodes):
        with sketch.later(stages[0][i]):
            draw_icon(sketch, kind, middles[i] - icon / 2, y, icon, "mark" if i == mark else "ink")
        if i + 1 < len(nodes):
            ends = middles[i] + icon * 0.62, middles[i + 1] - icon * 0.62
            with sketch.later(stages[1][i]):
                _way_on(sketch, *ends, y + icon / 2, i == broken)


def _way_on(sketch: Sketch, a: float, b: float, middle: float, cut: bool) -> None:
    """From one thing to the one beside it: an arrow, or a way that is cut."""
    head = min(22.0, (b - a) / 2)
    sketch.line(a, middle, b, middle, ink="no" if cut else "ink", width=THICK * 1.5)
    if cut:
        x = (a + b) / 2
        for one in (-1, 1):
            sketch.line(x - 24, middle - 24 * one, x + 24, middle + 24 * one, ink="no", width=THICK * 1.5)
    else:
        points = [(b - head, middle - head * 0.9), (b, middle), (b - head, middle + head * 0.9)]
        sketch.path(points, ink="ink", width=THICK * 1.5)
