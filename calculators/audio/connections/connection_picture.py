"""A plug, what joins it and what it goes into, side by side for the screen. Knows connectors; words no answer."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.audio.connections.connectors import CONNECTORS
from calculators.desk.card_declared import SMALLEST_DRAWN, ScreenDrawing
from calculators.desk.svg import Drawing, Sketch, text_width

_LINE = 7.0
_LEAST_HIGH = 56.0  # of one end; lower no ring is seen
_MOST_HIGH = 210.0
# Of the width: one end, what stands between, the air; the first way gives what is longest the most room.
_ZONES = ((0.25, 0.42, 0.04), (0.29, 0.29, 0.065))
# A shaft's length in its own thicknesses, drawn alike for plug and hole, so that what goes in fits; not measured.
_LONG = {"phone": 3.4}
_SHORT = 1.7  # of the other kinds
_GRIP, _BODY, _WALL = 0.36, 0.12, 0.08  # of the width: a plug's grip, an adapter's body, what is behind a hole
_WIDE = 2.6  # width over height from which the three stand side by side
# How thick the other kinds are drawn, as RCA's shell and XLR's inside beside phone plugs. [mm]
_OTHERS = {"rca": 8.3, "xlr": 9.5, "usb": 9.5}


@dataclass(frozen=True, slots=True)
class End:
    """One end of a connection: its kind, how thick, how many contacts, how many of it; two short lines of words."""

    kind: str
    millimetres: float
    poles: int
    count: int
    words: tuple[str, str]


def end_of(key: str) -> End:
    """
    How a connector is drawn.

    Args:
        key: One of CONNECTORS. [text]

    Returns:
        The end. [object]

    Raises:
        KeyError: No such connector.

    Source:
        None: a drawing.

    Example:
        >>> end_of("3.5-4").words
        ('3.5 mm', '4 poles')
    """
    connector = CONNECTORS[key]
    if connector.phone:
        size, _, poles = key.partition("-")
        return End("phone", connector.size_mm, int(poles), 1, (f"{size} mm", f"{poles} poles"))
    if key == "3.5-pair":
        return End("phone", 3.5, 3, 2, ("2 × 3.5 mm", "sound, voice"))
    kind = key.partition("-")[0]
    words = ("RCA pair", "") if kind == "rca" else ("XLR", f"{connector.poles} pins") if kind == "xlr" else ("USB", "")
    return End(kind, _OTHERS[kind], connector.poles, 2 if kind == "rca" else 1, words)


def connection(plug: End, socket: End, between: str, adapters: int, safe: bool, named: str = "") -> ScreenDrawing:
    """
    The plug, what joins the two, and the socket, cut open, phone plugs to one scale.

    between: what stands between them in words, '' for nothing; it comes with the answer. named: the same in full, for
    a column that has room for it. adapters: how many pieces it is made of. safe: where not, the way is cut.
    """

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        ways = (down, across) if width < _WIDE * height else (across, down)
        return ways[0](width, height, size) or ways[1](width, height, size)

    def across(width: float, height: float, size: float) -> Drawing | None:
        made = (in_zones(width, height, size, shares) for shares in _ZONES[0 if between and safe else 1 :])
        return next((each for each in made if each), None)

    def in_zones(width: float, height: float, size: float, shares: tuple[float, float, float]) -> Drawing | None:
        zone, inner, gap = (width * share for share in shares)
        rooms = (zone, inner, zone)
        words = [("yours", *plug.words), (between, "", ""), ("goes into", *socket.words)]
        rows = 2 if plug.words[1] or socket.words[1] else 1
        # the words between may reach into the air at both sides
        if any(
            text_width(line, size, True) > rooms[i] + (gap if i == 1 else 0)
            for i, part in enumerate(words)
            for line in part
        ):
            return None
        head, foot = size * 1.35, size * (0.35 + 1.15 * rows)
        high = min(height - head - foot, _MOST_HIGH)
        if high < _LEAST_HIGH * 1.4:
            return None
        sketch = Sketch("connection", _told(plug, socket, between), head + high + foot, width)
        starts = (0.0, (width - inner) / 2, width - zone)
        for i, (x, part) in enumerate(zip(starts, words, strict=True)):
            with sketch.later(int(i == 1)):
                middle = x + rooms[i] / 2
                sketch.text(middle, size * 0.86, part[0], size=size, bold=True, anchor="middle")
                for j, line in enumerate(part[1:]):
                    if line:
                        base = head + high + size * (1.05 + 1.15 * j)
                        sketch.text(middle, base, line, size=size, anchor="middle", ink="soft")
        joined = bool(between and safe)
        scale = min(_scale(plug, socket, zone, high, False), _scale(plug, socket, inner, high, joined))
        holes = [end.millimetres * scale * _ratio(end) for end in (plug, socket)]
        spare = zone * (1 - _GRIP) - holes[0], zone * (1 - _WALL) - holes[1]  # each stands under its words
        _ends(sketch, plug, (starts[0] + spare[0] / 2, head, zone, high), scale, socket=False)
        _ends(sketch, socket, (starts[2] + spare[1] / 2, head, zone, high), scale, socket=True)
        with sketch.later():
            if between and safe:
                left = starts[1] + (inner * (1 - _BODY - _WALL) - sum(holes)) / 2
                _between(sketch, plug, socket, (left, head, inner, high), scale, adapters)
            elif not safe:
                _cut(sketch, (starts[1] + inner / 2, head + high / 2), min(inner, high) * 0.34)
            else:
                _way(sketch, starts[1], starts[1] + inner, head + high / 2)
        return sketch.done()

    def down(width: float, height: float, size: float) -> Drawing | None:
        rows = 3 if between and safe else 2
        pitch = min(height / rows, 320.0)
        high = min(pitch - size * 1.55, _MOST_HIGH)
        whole = [text_width(named, each, True) <= width for each in (size, SMALLEST_DRAWN)]
        if whole == [False, True]:  # rather smaller words than half of what is needed
            return None
        middle = named if named and whole[0] else between
        titles = [f"yours: {' '.join(plug.words)}", middle, f"into: {' '.join(socket.words)}"]
        if any(text_width(words, size, True) > width for words in titles):
            titles = [f"yours: {plug.words[0]}", middle, f"into: {socket.words[0]}"]
        if high < _LEAST_HIGH or any(text_width(words, size, True) > width for words in titles):
            return None
        sketch = Sketch("connection", _told(plug, socket, between), pitch * rows, width)
        wide = min(width, 620.0)
        scale = _scale(plug, socket, wide, high, rows == 3)
        for i, words in enumerate(titles if rows == 3 else (titles[0], titles[2])):
            y = pitch * i
            with sketch.later(int(rows == 3 and i == 1)):
                sketch.text(0, y + size * 0.86, words, size=size, bold=True)
                room = (0.0, y + size * 1.3, wide, high)
                if rows == 3 and i == 1:
                    _between(sketch, plug, socket, room, scale, adapters)
                else:
                    _ends(sketch, plug if i == 0 else socket, room, scale, socket=i > 0)
        if not safe:
            with sketch.later():
                _cut(sketch, (wide * 0.2, pitch + size * 1.3 + high / 2), high * 0.36)
        return sketch.done()

    return drawn


def _told(plug: End, socket: End, between: str) -> str:
    return f"yours: {' '.join(plug.words)}; {between or 'nothing between'}; goes into: {' '.join(socket.words)}"


Room = tuple[float, float, float, float]  # left, top, width, height


def _ratio(end: End) -> float:
    return _LONG.get(end.kind, _SHORT)


def _scale(plug: End, socket: End, wide: float, high: float, joined: bool) -> float:
    """Units for a millimetre, one for all: each end has room, and so have hole, body and shaft between them."""
    ends = (plug, socket)
    most = high * 0.62 / max(end.millimetres * end.count for end in ends)  # two of them share the height
    alone = min(wide * (1 - _GRIP) / (_ratio(end) * end.millimetres) for end in ends)
    row = wide * (1 - _BODY - _WALL) / sum(_ratio(end) * end.millimetres for end in ends)
    return min(most, alone, row) if joined else min(most, alone)


def _lanes(end: End, room: Room) -> list[Room]:
    """One lane for each of an end's pieces, one below the other."""
    x, y, wide, high = room
    each = high / end.count
    return [(x, y + each * i, wide, each) for i in range(end.count)]


def _ends(sketch: Sketch, end: End, room: Room, scale: float, *, socket: bool) -> None:
    """Plugs that point to the right, or sockets that are open to the left."""
    for i, lane in enumerate(_lanes(end, room)):
        thick = min(end.millimetres * scale, lane[3] * 0.62)
        (_socket if socket else _plug)(sketch, end, lane, thick, i)


def _plug(sketch: Sketch, end: End, room: Room, thick: float, i: int) -> None:
    """A plug, its tip to the right."""
    x, y, wide, high = room
    middle, grip = y + high / 2, x + wide * _GRIP
    tall = min(thick * 1.7, high * 0.96)
    sketch.rect(x, middle - tall / 2, grip - x, tall, fill="fill-1", what=f"plug {i}")
    _shaft(sketch, end, (grip, middle), thick, i)


def _shaft(sketch: Sketch, end: End, start: tuple[float, float], thick: float, i: int) -> None:
    """What of a plug goes into a hole, its tip to the right. start: where it leaves the grip, and its middle."""
    grip, middle = start
    tip = grip + thick * _ratio(end)
    sketch.rect(grip, middle - thick / 2, tip - grip, thick, fill="paper", what=f"shaft {i}")
    upper, lower = middle - thick / 2, middle + thick / 2
    if end.kind == "phone":
        end_x = tip - thick * 0.7
        sketch.rect(grip, upper, end_x - grip, thick, fill="fill-3")
        point = [
            (end_x, upper),
            (end_x + thick * 0.42, upper),
            (tip, middle),
            (end_x + thick * 0.42, lower),
            (end_x, lower),
        ]
        sketch.path(point, ink="fill-3", fill="fill-3", closed=True, width=2)
        for ring in range(max(end.poles - 1, 0)):
            at = end_x - 10 - ring * (end_x - grip) * 0.2
            sketch.rect(at, upper - 2, 10, thick + 4, fill="ink", what=f"ring {i} {ring}")
        return
    barrel = grip + (tip - grip) * 0.62
    sketch.rect(grip, upper, barrel - grip, thick, fill="paper", line="fill-1", line_width=_LINE)
    pins = end.poles if end.kind == "xlr" else 1
    for pin in range(pins):
        at = middle + thick * 0.6 * ((pin + 0.5) / pins - 0.5)
        sketch.line(grip + _LINE, at, tip if end.kind == "rca" else barrel - _LINE, at, ink="fill-3", width=_LINE * 1.6)


def _socket(sketch: Sketch, end: End, room: Room, thick: float, i: int) -> None:
    """A socket cut open, its mouth to the left, a spring or a hole at each contact."""
    x, y, wide, high = room
    middle = y + high / 2
    tall = min(thick * 1.7, high * 0.96)
    upper, deep = middle - thick / 2, thick * _ratio(end)
    sketch.rect(x, middle - tall / 2, deep + wide * _WALL, tall, fill="fill-2", what=f"socket {i}")
    sketch.rect(x, upper, deep, thick, fill="paper", what=f"hole {i}")
    if end.kind == "phone":
        half = min(16.0, deep * 0.1)
        for ring in range(end.poles):
            at = x + deep * (0.16 + 0.7 * ring / max(end.poles - 1, 1))
            sketch.path(
                [(at - half, upper - 3), (at, upper + thick * 0.22), (at + half, upper - 3)], ink="fill-3", width=9
            )
        return
    pins = end.poles if end.kind == "xlr" else 1
    for pin in range(pins):
        at = middle + thick * 0.6 * ((pin + 0.5) / pins - 0.5)
        sketch.line(x + deep * 0.35, at, x + deep, at, ink="ink", width=_LINE * 1.2)


def _between(sketch: Sketch, plug: End, socket: End, room: Room, scale: float, adapters: int) -> None:
    """What joins them: at its left the plug goes in, at its right stands a plug for the socket."""
    x, y, wide, high = room
    middle, body = y + high / 2, wide * _BODY
    left = x
    for i, lane in enumerate(_lanes(plug, room)):
        thick = min(plug.millimetres * scale, lane[3] * 0.62)
        _socket(sketch, plug, lane, thick, i + 10)
        left = x + thick * _ratio(plug) + wide * _WALL
    for i, lane in enumerate(_lanes(socket, room)):
        thick = min(socket.millimetres * scale, lane[3] * 0.62)
        _shaft(sketch, socket, (left + body, lane[1] + lane[3] / 2), thick, i + 10)
    tall = (
        high * 0.96
        if max(plug.count, socket.count) > 1
        else min(max(plug.millimetres, socket.millimetres) * scale * 1.9, high)
    )
    sketch.rect(left, middle - tall / 2, body, tall, fill="fill-1", what="adapter")
    for seam in range(1, adapters):
        at = left + body * seam / adapters
        sketch.line(at, middle - tall / 2, at, middle + tall / 2, ink="paper", width=_LINE)


def _cut(sketch: Sketch, at: tuple[float, float], half: float) -> None:
    for one in (-1, 1):
        sketch.line(at[0] - half, at[1] - half * one, at[0] + half, at[1] + half * one, ink="no", width=_LINE * 2)


def _way(sketch: Sketch, a: float, b: float, y: float) -> None:
    """An arrow from the one to the other."""
    sketch.line(a, y, b - _LINE, y, ink="ink", width=_LINE * 1.5)
    sketch.path([(b - 40, y - 34), (b, y), (b - 40, y + 34)], ink="ink", width=_LINE * 1.5)
