"""What to give up when a mode does not fit: each way tried, in the order in which it costs the eye least."""

from __future__ import annotations

from dataclasses import dataclass, replace

from calculators.desk.answer import DEPENDS, NO, YES
from calculators.desk.errors import InputErrors
from calculators.desk.numbers import listed, number
from calculators.trade.frame_rates import exact_rate, slowed_from
from calculators.trade.links.fitting import Fit, fit
from calculators.trade.links.link_rates import DISPLAYPORT, FIXED_RATE, Link
from calculators.trade.modes.cta_861 import find_format
from calculators.trade.modes.modes import USUAL, Mode, mode
from calculators.trade.modes.unknown_blanking import ClockRange, clock_range

SAMPLING_WORDS = {"rgb": "RGB", "444": "4:4:4", "422": "4:2:2", "420": "4:2:0"}

# Sizes and rates in common use. Common practice, no source.
_SIZES = (
    (15360, 8640), (7680, 4320), (5120, 2880), (3840, 2160), (3200, 1800), (2560, 1440), (1920, 1080), (1600, 900),
    (1280, 720), (10240, 4320), (5120, 2160), (3440, 1440), (2560, 1080), (7680, 2160), (5120, 1440), (3840, 1080),
    (3840, 2400), (2560, 1600), (1920, 1200), (1280, 800), (4096, 2160), (2048, 1080), (1600, 1200), (1280, 1024),
    (1024, 768), (800, 600), (640, 480),
)  # fmt: skip
_RATES = (480, 360, 240, 200, 180, 165, 144, 120, 100, 90, 75, 60)
_SLOW_RATES = (50, 48, 30, 25, 24)
# What displays offer that can be a whole multiple of a film's frames.
_FILM_RATES = (240, 200, 144, 120, 100, 72, 60, 50, 48, 30, 25, 24)


@dataclass(frozen=True, slots=True)
class Wish:
    """
    What a viewer wants to send, and over which link.

    blanking: as told, or `usual` where it was not. content: frames a second of what is watched, for films.
    """

    width: int
    height: int
    refresh: float
    depth: int
    sampling: str
    blanking: str
    compressed: bool
    link: Link
    lanes: int
    h_total: int | None = None
    v_total: int | None = None
    content: float = 24

    def mode(self) -> Mode:
        """The mode with its blanking, the usual one where none was told; InputErrors where there is none."""
        blanking = self.blanking
        if blanking == USUAL:
            listed_size = find_format(self.width, self.height, self.refresh)
            blanking = "cta" if self.link.family != DISPLAYPORT and listed_size else "cvt-rb"
        return mode(self.width, self.height, self.refresh, blanking, self.h_total, self.v_total)

    def untold(self, made: Mode) -> ClockRange | None:
        """The pixel clocks that the mode may have where nobody told its blanking; None where that does not matter."""
        given = self.blanking != USUAL or self.h_total is not None or self.v_total is not None
        if given or self.link.family == FIXED_RATE:
            return None
        return clock_range(self.width, self.height, self.refresh, made)

    def fit(self) -> Fit:
        """How it goes with the link; InputErrors where there is no such mode."""
        made = self.mode()
        return fit(made, self.link, self.lanes, self.sampling, self.depth, self.compressed, self.untold(made))


@dataclass(frozen=True, slots=True)
class Offer:
    """One thing given up. becomes: in words. costs: what the eye loses. wish, fit: how it goes then."""

    key: str
    name: str
    becomes: str
    costs: str
    wish: Wish
    fit: Fit


# In which order things are given up, by what the screen is for. Common practice, no source: text suffers first
# from coloured edges, film hardly at all; films have 24 to 30 frames a second, games want as many as there are.
# Compression is made not to be seen, so it comes before a lower refresh or size wherever both ends may offer it.
ORDERS = {
    "text": ("blanking", "depth", "both", "compression", "refresh", "422", "resolution", "420", "slow"),
    "film": ("blanking", "compression", "film", "422", "420", "depth", "both", "resolution"),
    "games": ("blanking", "depth", "both", "compression", "422", "refresh", "420", "resolution", "slow"),
}

_NAMES = {
    "blanking": "Blanking",
    "depth": "Bits a channel",
    "both": "Bits and blanking",
    "compression": "Compression",
    "refresh": "Refresh",
    "slow": "Refresh, below 60",
    "film": "Refresh, to the film's own",
    "422": "Colour resolution",
    "420": "Colour resolution",
    "resolution": "Resolution",
}

_COSTS = {
    "blanking": "Nothing, if the display accepts it.",
    "compression": "Hardly anything; both ends must offer it.",
    "422": "Coloured text smears sideways; film hardly shows it.",
    "420": "Coloured text smears both ways; only in listed modes.",
    "refresh": "Motion is less smooth; a still page is the same.",
    "slow": "Motion and the pointer stutter.",
    "film": "Nothing for film: each frame is held equally long.",
    "resolution": "Everything gets softer: the picture is blown up.",
}


def offers(wish: Wish, use: str) -> list[Offer]:
    """
    Every single thing that could be given up, in the order of the use, each in its mildest form that helps.

    Args:
        wish: What is wanted. [object]
        use: text, film or games. [text]

    Returns:
        The offers; one that would change nothing, or has no such mode, is left out. [list]

    Source:
        The order: common practice, no source. The arithmetic: fitting.py.

    Example:
        >>> from calculators.trade.links.link_rates import link
        >>> wish = Wish(3840, 2160, 60, 10, "rgb", "cta", False, link("hdmi-tmds-600"), 4)
        >>> [(o.key, o.becomes, o.fit.word) for o in offers(wish, "text")][1]
        ('depth', '8 bits', 'yes')
    """
    made: dict[str, Offer] = {}
    for key in ORDERS[use]:
        offer = _both(wish, made) if key == "both" else _mildest(key, wish)
        if offer:
            made[key] = offer
    return list(made.values())


def _both(wish: Wish, made: dict[str, Offer]) -> Offer | None:
    """Two small things at once, where neither of them alone is enough and both together may be."""
    bits, blanking = made.get("depth"), made.get("blanking")
    if bits is None or blanking is None or YES in (bits.fit.word, blanking.fit.word):
        return None
    offer = _mildest("both", wish)
    return offer if offer and offer.fit.word != NO else None


def together(wish: Wish, use: str) -> tuple[list[str], Offer] | None:
    """
    Several things given up at once, where no single one is enough: added in order until it fits.

    The list says what each became; the last offer holds the wish as it then is. None where nothing fits.
    """
    given_up: list[str] = []
    now = wish
    for key in ORDERS[use]:
        offer = _mildest(key, now) if key != "both" else None  # one thing is added at a time
        if offer is None:
            continue
        earlier = _replaced(key, given_up)
        given_up = [*(s for s in given_up if s not in earlier), offer.becomes]
        now = offer.wish
        if offer.fit.word != NO:
            return given_up, offer
    return None


def _replaced(key: str, given_up: list[str]) -> list[str]:
    """The compromises that a further one replaces: 4:2:0 replaces 4:2:2, a film's refresh any other refresh."""
    if key == "420":
        return [SAMPLING_WORDS["422"]]
    return [s for s in given_up if s.endswith(" Hz")] if key in ("slow", "refresh", "film") else []


def _mildest(key: str, wish: Wish) -> Offer | None:
    """The first step of one kind that fits, else the strongest step there is; None where there is no step."""
    best: Offer | None = None
    for step, becomes in _steps(key, wish):
        try:
            outcome = step.fit()
        except InputErrors:  # this size or rate is not listed by the blanking in use
            continue
        if not _less(outcome, wish):
            continue
        offer = Offer(key, _NAMES[key], becomes, _costs(key, step), step, outcome)
        if outcome.word == YES:
            return offer
        if best is None or best.fit.word == NO:  # the first that may fit, else the strongest step
            best = offer
    return best


def _less(fit: Fit, wish: Wish) -> bool:
    """Whether a step asks less of the link, or opens compression; one that does not is no offer."""
    before = wish.fit()
    if fit.compressed is not None and before.compressed is None:
        return True
    return not before.needed.fits(fit.needed)


def _costs(key: str, step: Wish) -> str:
    if key in ("depth", "both"):
        if step.depth == 8:
            return "Smooth skies may show bands, in HDR more than else."
        return "Next to nothing: HDR is made with 10 bits."
    return _COSTS[key]


def _steps(key: str, wish: Wish) -> list[tuple[Wish, str]]:
    """The steps of one kind, mildest first."""
    if key == "blanking":
        if wish.h_total is not None or wish.blanking == "cvt-rb2":
            return []
        return [(replace(wish, blanking="cvt-rb2"), "second reduced blanking")]
    if key == "depth":
        return [(replace(wish, depth=d), f"{d} bits") for d in (10, 8) if d < wish.depth]
    if key == "both":
        return [
            (replace(less, blanking="cvt-rb2"), f"{bits} and second reduced blanking")
            for less, bits in _steps("depth", wish)
        ]
    if key == "compression":
        if wish.compressed or not wish.link.may_compress:
            return []
        return [(replace(wish, compressed=True), "compressed")]
    if key in ("422", "420"):
        if wish.sampling == key or wish.sampling == "420" or wish.link.dvi:  # DVI has RGB alone
            return []
        return [(replace(wish, sampling=key), SAMPLING_WORDS[key])]
    if key in ("refresh", "slow"):
        slower = [r for r in (_RATES if key == "refresh" else _SLOW_RATES) if r < wish.refresh - 1]
        return [(replace(wish, refresh=float(r)), f"{r} Hz") for r in slower]
    if key == "film":
        return [(replace(wish, refresh=r), f"{number(r, 3)} Hz") for r in film_rates(wish.content, wish.refresh)]
    return [(_sized(wish, w, h), f"{w}×{h}") for w, h in _smaller(wish)]


def film_rates(content: float, below: float) -> list[float]:
    """
    The refresh rates below one at which each frame of a film is held equally long, fastest first.

    Args:
        content: Frames a second, as typed. [frames/s]
        below: The refresh that is too fast. [Hz]

    Returns:
        Rates that displays offer and that are whole multiples of the film's frames; where those are slowed by
        1000/1001, so are these. [Hz]

    Source:
        Arithmetic; which rates displays offer: common practice, no source.

    Example:
        >>> film_rates(24, 144), film_rates(23.976, 60), film_rates(25, 120), film_rates(30, 75)
        ([120.0, 72.0, 48.0, 24.0], [47.952, 23.976], [100.0, 50.0, 25.0], [60.0, 30.0])
    """
    slowed = slowed_from(content)
    whole = slowed or content
    held = [r for r in _FILM_RATES if r / whole == r // whole]
    typed = [round(r * 1000 / 1001, 3) if slowed else float(r) for r in held]
    return [r for r in typed if exact_rate(r).value < below - 0.5]  # a display's 59.94 is no way down from 60


def _sized(wish: Wish, width: int, height: int) -> Wish:
    """A smaller picture; where typed totals or CTA-861 do not reach it, a reduced blanking takes their place."""
    listed_size = wish.blanking != "cta" or find_format(width, height, wish.refresh)
    if wish.h_total is None and listed_size:
        return replace(wish, width=width, height=height)
    return replace(wish, width=width, height=height, blanking="cvt-rb", h_total=None, v_total=None)


def _smaller(wish: Wish) -> list[tuple[int, int]]:
    """Common sizes below, of about the same shape; where there is none, three quarters and half of the size."""
    shape = wish.width / wish.height
    same = [
        (w, h)
        for w, h in _SIZES
        if w * h < wish.width * wish.height and abs(w / h / shape - 1) < 0.03
    ]  # fmt: skip
    if same:
        return sorted(same, key=lambda size: -size[0] * size[1])
    return [
        (max(wish.width * n // 4 // 8 * 8, 64), max(wish.height * n // 4 // 2 * 2, 64)) for n in (3, 2)
    ]  # fmt: skip


def best_offer(made: list[Offer]) -> Offer | None:
    """The first that fits outright, or with compression, which both ends may offer; else the first that may."""
    for offer in made:
        if offer.fit.word == YES or (offer.key == "compression" and offer.fit.squeezed):
            return offer
    return next((offer for offer in made if offer.fit.word == DEPENDS), None)


def say_together(given_up: list[str], offer: Offer) -> str:
    """Such as 'second reduced blanking, 8 bits and 4:2:2 together'."""
    outcome = offer.fit
    rate = outcome.compressed if outcome.squeezed and outcome.compressed else outcome.needed
    return f"{listed(given_up)} together, which needs {number(rate.value / 1e9, 2)} Gb/s"
