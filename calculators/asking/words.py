"""Words as people type them: cut apart, brought to one form, with where they stood. Knows no subject."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from calculators.asking.everyday import ONE_THING, SPELLINGS

# What nearly every comment holds, and what says nothing about its subject. Common practice, no source.
SAYS_NOTHING = frozenset(
    """
    a about actually again ago all almost along already also although always am an and another any anybody anyone
    anything anyway are around as ask at away back be because been before being best better between big both bought
    but by came can cannot cant come comes could couldnt day days did didnt do does doesnt doing done dont down each
    easily either else end even ever every everyone everything exactly few fine first for found from get gets
    getting give gives go goes going gone good got guess guy guys had happen happens hardly has have havent having he
    hello help her here hey hi him his how however i idea if ill im in instead into is isnt it its itself ive just keep
    kind know last least less let like likely literally little long look lot lots made make makes many may maybe me mean
    means might mine more most much must my myself need needed needs never new next nice no nobody normal not nothing
    now of off often ok okay old on once one only onto or other others our out over own part people perfect perfectly
    please possible pretty problem properly put puts question quite rather really reason right said same say saying
    says see seem seems seen set several she should shouldnt show shows side simply since so solution some somebody
    somehow someone something sometimes somewhere soon sort still stuff such suddenly suggest sure take takes tell than
    thank thanks that thats the their them then there theres these they thing things think this those though through
    time times to today together told too took totally tried try trying two u under understand until up upon us use used
    uses using usually very via want wanted wants was wasnt way we well went were what whats whatever when where whether
    which while who whole why will wish with within without wont work worked
    working works world worse worth would wouldnt wrong yes
    yesterday yet you your youre yours
    """.split()
)

# Words that stand for one another, and the one that stands for all of them. Common practice, no source.
_SAME = {
    "dimms": "memory", "sodimm": "memory", "rams": "memory",
    "module": "stick", "modules": "stick",
    "gpu": "graphicscard", "gpus": "graphicscard", "vga card": "graphicscard",
    "graphics": "graphicscard", "graphic": "graphicscard",
    "cpus": "processor",
    "screens": "monitor", "displays": "monitor", "monitors": "monitor",
    "panel": "monitor",
    "telly": "television", "tvs": "television", "televisions": "television",
    "computer": "pc", "machine": "pc", "computers": "pc", "rig": "pc",
    "mics": "microphone", "mike": "microphone",
    "wi": "wifi", "wlan": "wifi",
    "hertz": "hz", "fps": "fps", "framerate": "fps",
    "delayed": "delay", "laggy": "delay", "lags": "delay",
    "film": "film", "movies": "film", "films": "film",
    "humming": "buzz", "hums": "buzz", "whining": "buzz", "hiss": "buzz",
    "hissing": "buzz", "buzzing": "buzz", "static": "buzz", "crackle": "buzz", "crackling": "buzz",
    "kids": "child", "son": "child", "daughter": "child",
    "color": "colour", "colors": "colour", "colours": "colour", "coloured": "colour",
    "dongles": "adapter", "adapters": "adapter",
    "cans": "headphones", "headphone": "headphones", "earphone": "earphones", "earbud": "earbuds",
    "notebook": "laptop", "notebooks": "laptop",
    "jack": "socket", "jacks": "socket", "hole": "socket", "holes": "socket", "jackplug": "plug",
    "movie theatre": "cinema", "vsync": "sync",
    "amp": "amplifier", "amps": "amplifier", "preamp": "amplifier",
    "bios": "firmware", "uefi": "firmware",
    "pics": "picture", "image": "picture", "images": "picture",
    "metre": "metre", "meters": "metre", "metres": "metre",
    "gig": "gb", "gigs": "gb", "gigabyte": "gb", "gigabytes": "gb",
    "uninstall": "remove", "uninstalled": "remove", "uninstalling": "remove", "wipe": "remove", "delete": "remove",
    "reinstall": "install", "reinstalled": "install", "reinstalling": "install", "installer": "install",
    "installs": "install",
    "crashes": "crash", "crashed": "crash", "crashing": "crash",
    "freezes": "freeze", "froze": "freeze", "frozen": "freeze", "freezing": "freeze", "hangs": "freeze",
    "boots": "boot", "booting": "boot", "booted": "boot", "post": "boot",
    "hdd": "disk", "drives": "disk", "nvme": "disk",
    "vram": "cardmemory", "ethernet": "lan", "mbit": "mbps", "mbits": "mbps", "megabit": "mbps", "megabits": "mbps",
    "timings": "timing", "smeared": "smear", "smeary": "smear", "smears": "smear",
    "jerky": "judder", "jerk": "judder", "stuttering": "stutter", "stutters": "stutter",
    "swapped": "swap", "replace": "swap", "replaced": "swap", "replacing": "swap", "swapping": "swap",
    "switching": "swap", "videos": "video", "games": "game", "gaming": "game", "gamer": "game",
    "loudspeaker": "speaker", "loudspeakers": "speaker", "speakers": "speaker",
    "mate": "friend", "buddy": "friend", "colleague": "friend", "acquaintance": "friend", "brother": "friend",
    "sister": "friend", "neighbour": "friend", "neighbor": "friend", "cousin": "friend", "uncle": "friend",
    "meeting": "call", "meetings": "call", "conference": "call", "calls": "call", "calling": "call",
    "upstairs": "otherroom", "downstairs": "otherroom", "attic": "otherroom", "cellar": "otherroom",
    "basement": "otherroom", "bedroom": "otherroom", "lounge": "otherroom",
    "disappear": "missing", "disappeared": "missing", "vanished": "missing", "vanish": "missing", "vanishes": "missing",
    "choppy": "stutter", "hitch": "stutter", "hitches": "stutter", "hitching": "stutter",
    "iem": "earbuds", "iems": "earbuds", "beamer": "projector",
    "polygons": "triangle", "polys": "triangle", "polygon": "triangle", "triangles": "triangle",
    "res": "resolution", "milky": "pale", "foggy": "pale", "fog": "pale", "haze": "pale", "hazy": "pale",
    "dull": "pale", "faded": "pale", "milk": "pale",
    "ghosting": "smear", "trail": "smear", "trails": "smear", "ghost": "smear",
    "bands": "banding", "stripes": "banding", "stairs": "banding", "band": "banding", "stripe": "banding",
    "fringe": "edge", "fringes": "edge", "halo": "edge", "blinks": "flicker", "flashing": "flicker",
    "flashes": "flicker",
    "cores": "core", "threads": "core", "pcie": "pcie", "edid": "edid", "wires": "wire",
}  # fmt: skip

_PIECES = re.compile(
    r"\d{1,2}:\d:\d(?::\d)?|\d+(?:[.,]\d+)?|[a-zäöüßàâçéèêëîïôûùñ]+(?:['’][a-z]+)?|[Ωωµ%°\"€$£]|[^\s\w]", re.I
)
_SENTENCE_END = re.compile(r"[.!?]+(?=\s|$)|\n+|;")


_KEYBOARD = str.maketrans("×’‘“”–—\u00a0\u202fωμ", "x''\"\"--  Ωµ")


@dataclass(frozen=True, slots=True)
class Word:
    """One piece of a text in small letters: a word, a number or a sign, with where it stood and in which sentence."""

    text: str
    start: int
    end: int
    sentence: int

    @property
    def is_number(self) -> bool:
        """Whether it begins with a digit."""
        return self.text[0].isdecimal()


def plain(text: str) -> str:
    """The text in small letters, its signs brought to the ones that keyboards have, every length kept."""
    small = text.lower() if text.isascii() else "".join(c.lower() if len(c.lower()) == 1 else c for c in text)
    return small.translate(_KEYBOARD)


def cut(text: str) -> list[Word]:
    """
    A text cut into words, numbers and signs.

    Args:
        text: In any case. [text]

    Returns:
        Its pieces in order; '144hz' is a number and a word. [list]

    Source:
        Common practice, no source.

    Example:
        >>> [word.text for word in cut("4K at 144Hz")]
        ['4', 'k', 'at', '144', 'hz']
    """
    small = plain(text)
    ends = [match.start() for match in _SENTENCE_END.finditer(small)]
    words: list[Word] = []
    sentence = 0
    for match in _PIECES.finditer(small):
        while sentence < len(ends) and match.start() > ends[sentence]:
            sentence += 1
        words.append(Word(match.group().replace("'", ""), match.start(), match.end(), sentence))
    return [word for word in words if word.text]


@lru_cache(maxsize=8192)
def root(word: str) -> str:
    """A word without its commonest endings, and its stand-in where several words mean the same."""
    short = stem(word)
    return _STANDS_FOR.get(word) or _STANDS_FOR.get(short) or short


_ENDS_IN_IE = frozenset("movies cookies selfies".split())


@lru_cache(maxsize=8192)
def stem(word: str) -> str:
    """A word without its commonest endings."""
    if word in ("n", "&"):
        return "and"
    short = word
    if word in _ENDS_IN_IE:
        short = short[:-1]
    elif len(short) > 4 and short.endswith("ies"):
        short = short[:-3] + "y"
    elif len(short) > 5 and short.endswith("ing"):
        short = _single(short[:-3])
    elif len(short) > 4 and short.endswith("ed"):
        short = _single(short[:-2])
    elif len(short) > 3 and short.endswith("s") and not short.endswith(("ss", "us", "is")):
        short = short[:-1]
    if len(short) > 4 and short.endswith("e"):
        short = short[:-1]
    return short


def _single(word: str) -> str:
    doubled = len(word) > 3 and word[-1] == word[-2] and word[-1] not in "lsz"
    return word[:-1] if doubled else word


_ROWS = {one: row[0] for row in ONE_THING for one in row[1:]} | {
    other: one for other, one in SPELLINGS if other != "disk"
}
_STANDS_FOR = {
    **{one: stem(first) for one, first in _ROWS.items()},
    **{one: stem(_ROWS.get(first, first)) for one, first in _SAME.items()},
    "disc": "disk", "adaptor": "adapter",
}  # fmt: skip


# What one asks for who wants to find something out: a page that tells how to see it is meant.
_HOW_TO_TELL = re.compile(
    r"\bhow (?:do|can|could|would|should|to|does)\b(?: (?:i|you|we|one|he|she|they))?(?: \w+){0,2}? "
    r"(?:tell|know|see|check|find out|verify|make sure|be sure|recognise|recognize)\b"
    r"|\b(?:where|how) (?:do|can) i (?:see|look|check|read)\b"
    r"|\bcan (?:i|one|you) (?:see|check|find out|tell|look up)\b|\b(?:find out|check|see|tell|know|sure) "
    r"(?:whether|which|if)\b|\bwhich \w+ am i on\b"
)
HOW_TO_TELL = "howtotell"
_STICK_COUNTS = frozenset("1 2 3 4 6 8".split())
_STICK_SIZES = frozenset("1 2 4 8 16 24 32 48 64".split())
# Rates of memory that hardly anything else goes by. JEDEC JESD79-4 and JESD79-5 and what kits are sold as: from memory.
_MEMORY_RATES = frozenset(
    "2133 2400 2666 2933 3200 3466 3600 3733 4266 4400 4800 5200 5600 6000 6200 6400 6800 7200 7600 8400".split()
)
_UNIT_OF_ELSE = re.compile(
    r"\s*(?:hz|px|x\s*\d|rpm|dpi|euro|eur|€|\$|kbps|kbit|mbps|mbit|mb|watt|w\b|mah|photos|files|k\b)"
)
_PICTURE_SAMPLES = {"444": "4:4:4", "422": "4:2:2", "420": "4:2:0"}


def roots(text: str) -> list[str]:
    """The roots of all words that say something, in order; numbers stay as they are."""
    text_roots: list[str] = [HOW_TO_TELL] if _HOW_TO_TELL.search(plain(text)) else []
    before, ends, stop = "", -1, -1
    kits, small = 0, plain(text)
    for word in cut(text):
        last, before, ends, stop = before, word.text, stop, word.end
        if word.text == "bit" and last in ("a", "little", "tiny"):
            continue
        if (
            last == "x"
            and ends == word.start
            and word.text in _STICK_SIZES
            and text_roots
            and text_roots[-1] in _STICK_COUNTS
        ):
            text_roots[-1] = "stick"  # 2x8: sticks, whatever they are called
            continue
        if word.is_number:
            glued = bool(text_roots) and last == "x" and ends == word.start
            if last in ("c", "cl") and word.start - ends <= 1:
                kits += 1
                text_roots += ["cas"] if kits > 1 else []  # two of them are compared
            text_roots.append(f"x{word.text}" if glued else _PICTURE_SAMPLES.get(word.text, word.text))
            if word.text in _MEMORY_RATES and not _UNIT_OF_ELSE.match(small, word.end):
                text_roots.append("memory")  # a number that little else has
        elif word.text in ("k", "p") and text_roots and ends == word.start and text_roots[-1].isdecimal():
            text_roots[-1] += word.text
        elif len(word.text) > 1 and word.text not in SAYS_NOTHING:
            text_roots.append(root(word.text))
    if "stick" in text_roots:  # timings of sticks that are to be had or added, and not held against each other
        text_roots = [word for word in text_roots if word != "cas"]
    return text_roots
