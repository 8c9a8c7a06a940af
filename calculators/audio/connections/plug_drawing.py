"""The plugs of a chain, drawn to scale, each contact numbered and named. Knows the connectors; words no answer."""

from __future__ import annotations

from collections.abc import Sequence

from calculators.audio.connections.connectors import CONNECTORS, LENGTH_MM, Connector
from calculators.audio.connections.contact_wiring import WIRE_NAMES
from calculators.desk.svg import SMALL, WIDTH, Drawing, Sketch, wrap

_SMALL_SCALE, _LARGE_SCALE = 8.0, 11.0  # drawing units a millimetre; the large one where only slim plugs are drawn
_INSULATOR_MM = 0.7
# Where a plug is cut into contacts, as parts of its length from the tip: the usual proportion, common practice.
_CUTS = {2: (0.3,), 3: (0.29, 0.51), 4: (0.29, 0.51, 0.73), 5: (0.2, 0.36, 0.52, 0.68)}
_FILLS = {"L": "fill-1", "R": "fill-3", "G": "fill-4", "M": "fill-2", "H": "fill-1", "C": "fill-2", "D": "fill-2"}
# RCA, XLR and USB type A, from memory: IEC 60603-14, IEC 61076-2-103, USB 2.0. [mm]
_RCA_PIN, _RCA_PIN_LENGTH, _RCA_SHELL, _RCA_SHELL_LENGTH = 3.2, 14.0, 8.3, 7.0
_XLR_INSIDE, _XLR_PIN, _XLR_RING = 15.8, 2.4, 4.0
_USB_WIDTH, _USB_LENGTH = 4.5, 12.0


def _fill(wires: frozenset[str]) -> str:
    names = sorted(wires)
    return _FILLS.get(names[0][0], "paper") if len(names) == 1 else "paper" if not names else "line"


def wire_words(wires: frozenset[str]) -> str:
    """A contact's wires in words."""
    order = list(WIRE_NAMES)
    return " and ".join(WIRE_NAMES[w] for w in sorted(wires, key=order.index)) or WIRE_NAMES[""]


def draw(plugs: Sequence[tuple[str, str, tuple[frozenset[str], ...]]]) -> Drawing:
    """
    Plugs under one another, to one scale.

    Args:
        plugs: For each, a title, the connector's key and the wires on its contacts. [list]

    Returns:
        The drawing. [svg]

    Raises:
        KeyError: No such connector.

    Source:
        Sizes as named beside LENGTH_MM and at the top of this file.

    Example:
        >>> draw([("Your plug", "3.5-2", (frozenset({"L"}), frozenset({"G"})))]).width
        340
    """
    slim = all(0 < CONNECTORS[key].size_mm < 6 for _, key, _ in plugs)
    scale = _LARGE_SCALE if slim else _SMALL_SCALE
    height = sum(_block_height(CONNECTORS[key], title, scale) for title, key, _ in plugs) + 26
    description = "; ".join(
        f"{title}: " + ", ".join(f"{n} {wire_words(w)}" for n, w in zip(CONNECTORS[key].contacts, wires, strict=True))
        for title, key, wires in plugs
    )
    sketch = Sketch("The plugs, contact by contact, to scale", f"{description}.", height)
    y = 0.0
    for title, key, wires in plugs:
        _block(sketch, y, title, CONNECTORS[key], wires, scale)
        y += _block_height(CONNECTORS[key], title, scale)
    length = 10 * scale
    sketch.line(2, y + 14, 2 + length, y + 14, ink="soft", width=1.5)
    for x in (2.0, 2 + length):
        sketch.line(x, y + 10, x, y + 18, ink="soft", width=1.5)
    sketch.text(10 + length, y + 18, "10 mm; cuts between contacts as usual", size=SMALL, ink="soft")
    return sketch.done()


def _title_lines(title: str) -> list[str]:
    return wrap(title, WIDTH - 4)


def _tall(connector: Connector, scale: float) -> float:
    if connector.phone:
        return connector.size_mm * scale
    if connector.key == "3.5-pair":
        return 2 * 3.5 * scale + 12
    if connector.key == "rca-pair":
        return 2 * _RCA_SHELL * scale + 12
    return (_USB_WIDTH if connector.key == "usb" else _XLR_INSIDE) * scale


def _block_height(connector: Connector, title: str, scale: float) -> float:
    return 17.0 * len(_title_lines(title)) + _tall(connector, scale) + 17.0 * connector.poles + 26


def _block(
    sketch: Sketch, y: float, title: str, connector: Connector, wires: tuple[frozenset[str], ...], scale: float
) -> None:
    lines = _title_lines(title)
    for i, line in enumerate(lines):
        sketch.text(2, y + 14 + 17 * i, line, bold=True)
    top = y + 17.0 * len(lines) + 6
    tall = _tall(connector, scale)
    if connector.phone:
        _phone(sketch, 30, top, connector.size_mm, wires, 1, scale)
    elif connector.key == "3.5-pair":
        _phone(sketch, 30, top, 3.5, wires[:3], 1, scale)
        _phone(sketch, 30, top + 3.5 * scale + 12, 3.5, wires[3:], 4, scale)
    elif connector.key == "rca-pair":
        _rca(sketch, top, wires[:2], 1, scale)
        _rca(sketch, top + _RCA_SHELL * scale + 12, wires[2:], 3, scale)
    elif connector.key == "usb":
        sketch.rect(2, top, 40, tall, fill="soft", radius=3)
        sketch.rect(42, top, _USB_LENGTH * scale, tall, fill=_fill(wires[0]), line="ink")
        sketch.text(42 + _USB_LENGTH * scale / 2, top + tall / 2 + 4, "1", size=SMALL, anchor="middle", bold=True)
    else:
        _xlr(sketch, top, wires, scale)
    at = top + tall + 20
    for i, (name, carried) in enumerate(zip(connector.contacts, wires, strict=True)):
        sketch.rect(2, at - 11, 14, 14, fill=_fill(carried), line="ink")
        sketch.text(24, at, f"{i + 1}  {name}: {wire_words(carried)}", size=SMALL)
        at += 17


def _number(sketch: Sketch, x: float, y: float, text: str) -> None:
    sketch.circle(x, y, 7, fill="paper", line="ink")
    sketch.text(x, y + 4, text, size=SMALL, anchor="middle", bold=True)


def _phone(
    sketch: Sketch, x: float, top: float, size_mm: float, wires: tuple[frozenset[str], ...], first: int, scale: float
) -> None:
    """A concentric plug from its handle on the left to its tip on the right."""
    length, tall = LENGTH_MM[size_mm] * scale, size_mm * scale
    middle = top + tall / 2
    sketch.rect(2, middle - tall / 2 - 3, x - 2, tall + 6, fill="soft", radius=3)
    ends = [0.0, *(cut * length for cut in _CUTS[len(wires)]), length]
    gap = _INSULATOR_MM * scale / 2
    for i, carried in enumerate(wires):
        near, far = ends[i], ends[i + 1]
        left = x + length - far + (gap if i < len(wires) - 1 else 0)
        right = x + length - near - (gap if i else 0)
        if i == 0:
            neck = right - (right - left) * 0.45
            points = [
                (left, top),
                (neck - 4, top),
                (neck, middle - tall * 0.3),
                (neck + 5, top + 1),
                (right, middle),
                (neck + 5, top + tall - 1),
                (neck, middle + tall * 0.3),
                (neck - 4, top + tall),
                (left, top + tall),
            ]
            sketch.path(points, ink="ink", width=1, fill=_fill(carried), closed=True)
        else:
            sketch.rect(left, top, right - left, tall, fill=_fill(carried), line="ink")
        if i < len(wires) - 1:
            sketch.rect(left - 2 * gap, top + 1, 2 * gap, tall - 2, fill="ink")
        _number(sketch, (left + right) / 2 - (4 if i == 0 else 0), middle, str(first + i))


def _rca(sketch: Sketch, top: float, wires: tuple[frozenset[str], ...], first: int, scale: float) -> None:
    shell, pin = _RCA_SHELL * scale, _RCA_PIN * scale
    middle = top + shell / 2
    sketch.rect(2, top - 2, 40, shell + 4, fill="soft", radius=3)
    sketch.rect(42, top, _RCA_SHELL_LENGTH * scale, shell, fill=_fill(wires[1]), line="ink")
    sketch.rect(42, middle - pin / 2, _RCA_PIN_LENGTH * scale, pin, fill=_fill(wires[0]), line="ink")
    _number(sketch, 42 + _RCA_PIN_LENGTH * scale - 14, middle, str(first))
    _number(sketch, 42 + _RCA_SHELL_LENGTH * scale / 2, top + 8, str(first + 1))


def _xlr(sketch: Sketch, top: float, wires: tuple[frozenset[str], ...], scale: float) -> None:
    """The face of an XLR plug."""
    radius = _XLR_INSIDE / 2 * scale
    x, y = 2 + radius, top + radius
    sketch.circle(x, y, radius, fill="none", line="ink", line_width=2)
    # three pins as the corners of a triangle, four as those of a square, all as seen from the front of the plug
    places = {3: ((1, -0.6), (-1, -0.6), (0, 1)), 4: ((1, -1), (1, 1), (-1, 1), (-1, -1))}[len(wires)]
    reach = _XLR_RING * scale * (0.75 if len(wires) == 4 else 1)
    for i, ((across, down), carried) in enumerate(zip(places, wires, strict=True)):
        cx, cy = x + across * reach, y + down * reach
        sketch.circle(cx, cy, _XLR_PIN / 2 * scale, fill=_fill(carried), line="ink")
        sketch.text(cx + 11, cy + 4, str(i + 1), size=SMALL, bold=True)
    sketch.text(2 * radius + 18, y + 4, "seen from the front", size=SMALL, ink="soft")
