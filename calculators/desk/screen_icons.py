"""Things as signs in a square, in thick strokes, for the chains of a screen card. Knows no calculator."""

from __future__ import annotations

from calculators.desk.svg import Sketch


def draw_icon(sketch: Sketch, kind: str, x: float, y: float, side: float, ink: str) -> None:
    """A thing in a square, in thick strokes."""
    u = side / 100

    def box(left: float, top: float, wide: float, high: float, fill: str = "none") -> None:
        sketch.rect(x + left * u, y + top * u, wide * u, high * u, fill=fill, line=ink, line_width=7)

    def line(*points: tuple[float, float]) -> None:
        sketch.path([(x + a * u, y + b * u) for a, b in points], ink=ink, width=7)

    if kind == "computer":
        box(28, 4, 44, 92)
        line((38, 24), (62, 24))
        line((38, 40), (62, 40))
        sketch.circle(x + 50 * u, y + 76 * u, 7 * u, fill=ink)
    elif kind == "display":
        box(4, 12, 92, 60)
        line((50, 72), (50, 90))
        line((28, 92), (72, 92))
    elif kind == "wall":
        box(30, 2, 40, 96, "fill-4")
        for row in range(1, 5):
            line((30, row * 19 + 2), (70, row * 19 + 2))
    elif kind == "plug":
        box(4, 34, 44, 32)
        line((48, 50), (96, 50))
        line((64, 40), (64, 60))
        line((80, 40), (80, 60))
    elif kind == "cable":
        line((4, 70), (28, 70), (44, 30), (60, 70), (76, 30), (96, 30))
    else:
        box(12, 26, 76, 48, "fill-4")
        sketch.circle(x + 30 * u, y + 50 * u, 8 * u, fill=ink)
        line((48, 50), (76, 50))
