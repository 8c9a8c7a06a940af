"""What to give up when a mode does not fit: each way tried, in the order in which it costs the eye least."""

from __future__ import annotations

from dataclasses import dataclass, replace

from calculators.desk.answer import DEPENDS, NO, YES
from calculators.desk.errors import InputErrors
from calculators.desk.numbers import listed, number
from calculators.trade.links.fitting import Fit, fit
from calculators.trade.links.link_rates import TMDS, Link
from calculators.trade.modes.cta_861 import find_format
from calculators.trade.modes.modes import Mode, mode

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


@dataclass(frozen=True, slots=True)
class Wish:
    """What a viewer wants to send, and over which link."""

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

    def mode(self) -> Mode:
        """The mode with its blanking; InputErrors where there is none."""
        return mode(self.width, self.height, self.refresh, self.blanking, self.h_total, self.v_total)

    def fit(self) -> Fit:
        """How it goes with the link; InputErrors where there is no such mode."""
        return fit(self.mode(), self.link, self.lanes, self.sampling, self.depth, self.compressed)


@dataclass(frozen=True, slots=True)
class Offer:
    """One thing given up. becomes: in words. costs: what the eye loses. wish, found: how it goes then."""

    key: str
    name: str
    becomes: str
    costs: str
    wish: Wish
    found: Fit


# In which order things are given up, by what the screen is for. Common practice, no source: text suffers first
# from coloured edges, film hardly at all; films have 24 to 30 frames a second, games want as many as there are.
ORDERS = {
    "text": ("blanking", "depth", "compression", "refresh", "422", "resolution", "420", "slow"),
    "film": ("blanking", "refresh", "slow", "422", "420", "compression", "depth", "resolution"),
    "games": ("blanking", "depth", "compression", "422", "refresh", "420", "resolution", "slow"),
}

_NAMES = {
    "blanking": "Blanking",
    "depth": "Bits a channel",
    "compression": "Compression",
    "refresh": "Refresh",
    "slow": "Refresh, to a film's",
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
    "slow": "Motion stutters: fine for films, poor for all else.",
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

    Raises:
        Nothing.

    Source:
        The order: common practice, no source. The arithmetic: fitting.py.

    Example:
        >>> from calculators.trade.links.link_rates import link
        >>> wish = Wish(3840, 2160, 60, 10, "rgb", "cta", False, link("hdmi-tmds-600"), 4)
        >>> [(o.key, o.becomes, o.found.word) for o in offers(wish, "text")][1]
        ('depth', '8 bits', 'yes')
    """
    made = []
    for key in ORDERS[use]:
        offer = _mildest(key, wish)
        if offer:
            made.append(offer)
    return made


def together(wish: Wish, use: str) -> tuple[list[str], Offer] | None:
    """
    Several things given up at once, where no single one is enough: added in order until it fits.

    The list says what each became; the last offer holds the wish as it then is. None where nothing fits.
    """
    said: list[str] = []
    now = wish
    for key in ORDERS[use]:
        offer = _mildest(key, now)
        if offer is None:
            continue
        earlier = _replaced(key, said)
        said = [*(s for s in said if s not in earlier), offer.becomes]
        now = offer.wish
        if offer.found.word != NO:
            return said, offer
    return None


def _replaced(key: str, said: list[str]) -> list[str]:
    """What a later thing takes the place of: 4:2:0 of 4:2:2, a film's refresh of a gentler one."""
    if key == "420":
        return [SAMPLING_WORDS["422"]]
    return [s for s in said if s.endswith(" Hz")] if key in ("slow", "refresh") else []


def _mildest(key: str, wish: Wish) -> Offer | None:
    """The first step of one kind that fits, else the strongest step there is; None where there is no step."""
    best: Offer | None = None
    for step, becomes in _steps(key, wish):
        try:
            found = step.fit()
        except InputErrors:  # this size or rate is not listed by the blanking in use
            continue
        if not _less(found, wish):
            continue
        offer = Offer(key, _NAMES[key], becomes, _costs(key, step), step, found)
        if found.word == YES:
            return offer
        if best is None or best.found.word == NO:  # the first that may fit, else the strongest step
            best = offer
    return best


def _less(found: Fit, wish: Wish) -> bool:
    """Whether a step asks less of the link, or opens compression; one that does not is no offer."""
    before = wish.fit()
    if found.compressed is not None and before.compressed is None:
        return True
    return not before.needed.fits(found.needed)


def _costs(key: str, step: Wish) -> str:
    if key == "depth":
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
    if key == "compression":
        if wish.compressed or wish.link.family == TMDS:
            return []
        return [(replace(wish, compressed=True), "compressed")]
    if key in ("422", "420"):
        if wish.sampling == key or wish.sampling == "420":
            return []
        return [(replace(wish, sampling=key), SAMPLING_WORDS[key])]
    if key in ("refresh", "slow"):
        slower = [r for r in (_RATES if key == "refresh" else _SLOW_RATES) if r < wish.refresh - 1]
        return [(replace(wish, refresh=float(r)), f"{r} Hz") for r in slower]
    return [(_sized(wish, w, h), f"{w}×{h}") for w, h in _smaller(wish)]


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
    """The first that fits outright, else the first that may."""
    for word in (YES, DEPENDS):
        for offer in made:
            if offer.found.word == word:
                return offer
    return None


def say_together(said: list[str], offer: Offer) -> str:
    """Such as 'second reduced blanking, 8 bits and 4:2:2 together'."""
    rate = number(offer.found.needed.value / 1e9, 2)
    return f"{listed(said)} together, which needs {rate} Gb/s"
