"""A list of display modes, as a system prints it."""

from __future__ import annotations

import re

from calculators.asking.listings.listing import LEAST_LINES, Listing, Shown, accepted_inputs, tidy

_MODE_LINE = re.compile(r"(?<!\w)(\d{3,5})\s?[x×]\s?(\d{3,5})(i?)(?![\w+])(.*)")
_RATE = re.compile(r"(?<![\w.+-])(\d{2,3}(?:[.,]\d{1,3})?)(?![\d.,x×]|\s?mm)\s*(?:hz)?\s*([*+]*)", re.I)


def read_modes(text: str) -> Listing | None:
    """A list of display modes: the largest size (or the marked one) with its highest refresh."""
    rates_by_size: dict[tuple[int, int], list[float]] = {}
    marked: tuple[int, int] | None = None
    lines = 0
    for line in text.split("\n"):
        match = _MODE_LINE.search(line)
        if not match or match[3]:
            continue
        size = (int(match[1]), int(match[2]))
        offered = [(float(rate.replace(",", ".")), sign) for rate, sign in _RATE.findall(match[4])]
        offered = [(rate, sign) for rate, sign in offered if 20 <= rate <= 1000]
        if not offered or not 300 <= size[0] <= 16384 or not 200 <= size[1] <= 16384:
            continue
        lines += 1
        rates_by_size.setdefault(size, []).extend(rate for rate, _ in offered)
        if any("+" in sign for _, sign in offered):
            marked = marked or size
    if lines < LEAST_LINES:
        return None
    size = marked or max(rates_by_size, key=lambda s: s[0] * s[1])
    rates = sorted(dict.fromkeys(rates_by_size[size]))
    best = tidy(max(rates))
    inputs = {"width": size[0], "height": size[1], "refresh": best}
    listed = ", ".join(str(tidy(rate)) for rate in rates)
    title = f"{len(rates_by_size)} sizes; of {size[0]} × {size[1]} these rates: {listed} Hz"
    film = {"rate": best, "rates": listed}
    return Listing(
        title,
        (
            Shown("display/carry-my-mode", "display.link", accepted_inputs("display.link", inputs)),
            Shown("motion/films-stutter", "motion.film", accepted_inputs("motion.film", film)),
        ),
    )
