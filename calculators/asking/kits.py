"""
Which of two kits a text tells of: what one has, and what one wants to add.

Takes part wherever a calculator declares inputs in pairs, have_… and add_… . Knows how people write '2x8 GB', and by
which words one tells what is there from what is to come.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from calculators.asking.asides import is_aside
from calculators.asking.facts import Facts

HAVE, ADD = "have_", "add_"
_COUNTS = {
    "a": 1, "an": 1, "one": 1, "single": 1, "another": 1, "second": 1, "1": 1, "two": 2, "pair of": 2, "2": 2,
    "both": 2, "three": 3, "3": 3, "four": 4, "4": 4, "6": 6, "eight": 8, "8": 8,
}  # fmt: skip
_COUNT = r"(?<![\w.-])(a|an|one|single|another|second|two|pair of|both|three|four|eight|[1-468])"
_GB = r"(\d{1,4})\s*-?\s*(gb|gib|gigs?|g|gigabytes?|mb)(?![\w/])"
_STICK = r"(?:sticks?|modules?|dimms?|so-?dimms?|bars?)"
_FILLER = (
    r"(?:(?:of|my|the|old|new|more|extra|identical|matched|used|ddr[345]l?(?:-?\d{3,5})?|\d{4}|single|other|same"
    r"|big|bigger|small|equal)\s+)*"
)
_PATTERNS = (
    re.compile(
        rf"{_COUNT}\s*(?:[x*]|times)\s*(\d{{1,3}})(?:\s*-?\s*(gb|gib|gigs?|g|gigabytes?|mb))?"
        r"(?![\w.]|\s*(?:hz|mhz|ghz|speed))"
    ),
    re.compile(rf"{_COUNT}\s+{_FILLER}{_STICK},?\s+(?:(?:a|at|with)\s+)?{_FILLER}{_GB}"),
    # Two eights (in digits here), two sticks of 16.
    re.compile(rf"{_COUNT}\s+{_FILLER}(4|8|16|24|32|48|64)s(\b)"),
    re.compile(rf"{_COUNT}\s+{_FILLER}{_STICK}\s+(?:of|at|with)\s+(4|8|16|24|32|48|64)(\b)(?!\s*(?:\w|[./]\d))"),
    re.compile(rf"{_COUNT}\s+{_FILLER}{_STICK}\s+(?:(?:of|at|with)\s+)?(4|8|16|24|32|48|64)(\b)(?=\s+(?:each|in|put|and|now)\b)"),
    # Both full with 4 GB each.
    re.compile(rf"(?<!\w)(both)\s+(?:slots\s+)?(?:are\s+)?(?:full|filled|taken|used|occupied|populated)\s+(?:with|by)\s+{_GB}"),
    re.compile(rf"{_COUNT}\s+{_FILLER}{_GB}(?:\s*ddr[345]l?(?:-?\d{{3,5}})?)?(?:\s*(?:{_STICK}|ones?))?"),
)  # fmt: skip
# GB in one stick, as they are sold; another number in its place is no size. From memory.
_SIZES_MADE = frozenset({1, 2, 4, 8, 12, 16, 24, 32, 48, 64, 96, 128, 256, 512})
_OLD_AND_NEW = re.compile(
    r"\b(?P<old>[1-4]|one|two|three|four) old(?: ones?| sticks?)?(?:,? and|,| \+)? "
    r"(?P<new>[1-4]|one|two|three|four) new\b"
)
_EVERY_SIZE = re.compile(r"\b(\d{1,3}) ?(?:gb|gigs?|g)\b")
_COUNT_ONLY = re.compile(rf"{_COUNT}\s+(?:\w+\s+){{0,2}}?{_STICK}\b(?!\s+(?:slots?|sockets?|of\s+\d))")
_NOT_OWN = re.compile(r"\b(?:each|every|than|slower|with|tried|only|for|of|at|lists|to)\W+(?:all )?$")
_SIZE_ONLY = re.compile(rf"(?<![\w.]){_GB}\s+{_FILLER}{_STICK}")
_SOLDERED = re.compile(rf"(?<![\w.]){_GB}\s+(?:soldered|on ?board|built[- ]in|fixed)")
_SUM = re.compile(
    r"(?<![\w.+])(4|8|16|24|32|48|64)(?:\s*(?:gb|gig|g))?(?:\s*\+\s*\1){1,3}(?![\w.+]|\s*(?:ms|hz|cores))"
)
_ANOTHER = re.compile(r"\banother (4|8|16|24|32|48|64)(?=\s*(?:[,.!?]|$)|\s+(?:in|to|next|beside|on top|and|but)\b)")
_BIGGER_ONE = re.compile(rf"(?<![\w.]){_GB}\s+one\b")
_SECOND_ONE = re.compile(
    r"\b(?:a|the|another)\s+(?:second|2nd)(?:(?:,\s*\w+)?\s+(?:(?:identical|same|such|matching)\s+)?(?:one|stick|module)\b|(?=\s*[,.!?]|\s+(?:but|and|too)\b))"
)
_PLAIN_KIT = re.compile(
    r"(?:my|the|your)\s+(?:\w+\s+){0,2}(?:ram|memory|sticks|modules|dimms|kit)\b"
)  # fmt: skip
_SAME = re.compile(
    r"same (?:kit |sticks |one |ones )?again|(?:the |very |exactly the )?same (?:kit|kind)\b|identical|"
    r"another (?:kit|pair|set) of (?:the same|them|those)|"
    r"(?:one|two) more of (?:the same|them|those|these)(?! size| capacity)|"
    r"second (?:kit|pair|set) (?:of|like|just)|same (?:sticks|modules|memory) (?:again|on top)"
)
_LAPTOP, _DESKTOP = r"((?:laptop|notebook|so-?dimm)s?)", r"((?:desktop|tower|full[- ]size|normal pc|dimm slots?)s?)"
_INTO = r"[^.!?]{0,60}\b(?:in|into|inside|fit|for)\b[^.!?]{0,20}?\b"
_LAPTOPS_IN_DESKTOP = re.compile(rf"\b{_LAPTOP}\b{_INTO}{_DESKTOP}\b")
_DESKTOPS_IN_LAPTOP = re.compile(rf"\b{_DESKTOP}\b{_INTO}{_LAPTOP}\b")
_BOTH_IN_THERE = re.compile(
    r"\b1\s*x\s*(4|8|16|24|32|48|64)(?:\s*gb)? and (?:an)?other (?:1\s*x\s*)?\1(?:\s*gb)?"
    r"(?= (?:in (?:there|it|the|my)|installed|already|at the moment|now\b))"
)
_SAME_SIZE = re.compile(r"\bsame (?:size|capacity)\b")
_JOINED = re.compile(r"^[^.!?;]*\b(?:and|with|beside|next to|to|plus|together|alongside|by|for)\b[^.!?;]*$|^\s*\+")
# How far from a kit the words that tell of it may stand, in characters: wide enough for the few words that people put
# between, too narrow for words that tell of the next kit. Set by trying on questions of our own: common practice, no
# source.
_JOINED_WITHIN = 60  # between two kits that are put together
_ROLE_BEFORE, _ROLE_AFTER = 45, 50  # around a kit: whether it is there or to come
_HELD_BEFORE = 30  # before a kit: 'the board already holds'
_BESIDE_BEFORE = 22  # before 'my old memory': 'beside', 'together with'
_NOT_OWN_BEFORE = 20  # before a number of sticks: 'slower than'
_ALL_BEFORE = 12  # before the only kit: 'all of my'
_STICK_AFTER, _STICK_INSIDE = 26, 12  # 'stick' behind 'a 16 gb', or among its own last characters
_SWAP_INTO = 6  # of the second kit: 'swapped 2x8 for 2x16' may end inside it
_MOST_KITS = 4  # that are looked at: more is a shop's list
_MB_IN_A_GB = 1024  # of memory, as its sticks are sold
_HELD = re.compile(
    r"\b(?:already (?:has|holds|in it)|holds|in there (?:is|are)|installed (?:is|are)|sits?|runs on)\W+(?:\w+\W+){0,2}$"
)
_MORE = re.compile(
    r"\b(one|two|three|four) more(?= *(?:[,.!?]|$)| (?:of|like|from|with)\b)"
    r"(?! (?:them|those|these|the same)\b(?! size| capacity))"
)
_A_PAIR = re.compile(r"(?<!\w)(?:a|one|another|the second|second) (?:pair|kit|set)\b(?! of)")
_SWAPPED = re.compile(
    r"\b(?:swapped|replaced|exchanged|sold|upgraded from|removed|took out|taken out|pulled|threw out)\b[^.!?]*?"
    r"\b(?:for|with|by|to|(?:and|then) (?:put|installed|bought|fitted|got))\b"
)
_BESIDE = re.compile(
    r"\b(?:next to|beside|alongside|along with|together with|on top of|with) (?:my|the|an? old|what)\b"
)
_ADD_WORDS = re.compile(
    r"\b(?:add|adding|added|new|newer|buy|buying|bought|ordered|want|wanna|get|another|extra|plus|install"
    r"|installing|got (?:an? |two |some )?(?:free|used|spare|cheap)|put in|take|takes|accept|accepts|fit|"
    r"putting|put|stick|gave me|found|upgrade to|upgrading|second|by)\b"
)
_HAVE_WORDS = re.compile(
    r"\b(?:have|has|got|came with|comes with|ships with|my|mine|own|old|older|existing|current|currently|running"
    r"|run|runs|there (?:is|are)|already|"
    r"at the moment|installed|had)\b"
)
_IN_A_MACHINE = re.compile(r"\b(?:pc|machine|computer|laptop|notebook|board|desktop) (?:came |comes )?with\s*$")
_HAVE_AFTER = re.compile(
    r"^[^.!?]{0,28}?\b(?:in there|in it|installed|at the moment|already|right now|now|currently|in the (?:pc"
    r"|machine|laptop|board))\b"
)
_ADD_AFTER = re.compile(
    r"^[^.!?]{0,20}?\b(?:to add|on top|next to it|beside it|as well|to it"
    r"|on (?:the|its|their) way|arriving|is coming|are coming)\b"
)


@dataclass(slots=True)
class Kit:
    """A kit told of: how many sticks, how large one of them, where in the text, and whether it is there or to come."""

    count: int | None
    size_gb: float | None
    start: int
    end: int
    role: str = ""


def find_kits(facts: Facts) -> list[Kit]:
    """
    The kits in a text, at most two, each with its role.

    Args:
        facts: The text. [object]

    Returns:
        Kits in the order of the text; where they are told apart by nothing, the first is what one has. [list]

    Source:
        Common practice, no source: how people tell what they have from what they want.

    Example:
        >>> from calculators.asking.facts import gather
        >>> [(k.role, k.count, k.size_gb) for k in find_kits(gather("got 2x8 gb, want to add 2x16"))]
        [('have_', 2, 8.0), ('add_', 2, 16.0)]
    """
    small = facts.small
    kits: list[Kit] = []
    for pattern in _PATTERNS:
        for match in pattern.finditer(small):
            size, unit = float(match[2]), match[3]
            gb = size / _MB_IN_A_GB if unit == "mb" else size
            if is_aside(facts.asides, match.start()) or _inside(kits, match.start(), match.end()):
                continue
            if unit != "mb" and size not in _SIZES_MADE:
                continue
            if match[1] in ("a", "an") and not _stick_near(small, match.end()):
                continue
            kits.append(Kit(_COUNTS[match[1]], gb, match.start(), match.end()))
    for match in _SUM.finditer(small):
        if not is_aside(facts.asides, match.start()) and not _inside(kits, match.start(), match.end()):
            kits.append(Kit(1 + match[0].count("+"), float(match[1]), match.start(), match.end()))
    for pattern, count in ((_SIZE_ONLY, None), (_BIGGER_ONE, 1)):
        for match in pattern.finditer(small):
            if is_aside(facts.asides, match.start()) or _inside(kits, match.start(), match.end()):
                continue
            if float(match[1]) in _SIZES_MADE:
                one = count or (1 if small[match.end() - 1] != "s" else None)
                kits.append(Kit(one, float(match[1]), match.start(), match.end()))
    for match in _BOTH_IN_THERE.finditer(small):
        kits = [kit for kit in kits if not (match.start() <= kit.start < match.end())]
        kits.append(Kit(2, float(match[1]), match.start(), match.end(), HAVE))
    for match in _ANOTHER.finditer(small) if kits else ():
        if not _inside(kits, match.start(), match.end()):
            kits.append(Kit(1, float(match[1]), match.start(), match.end(), ADD))
    for match in _SOLDERED.finditer(small):
        if not _inside(kits, match.start(), match.end()):
            kits.append(Kit(None, float(match[1]), match.start(), match.end(), HAVE))
    for match in _COUNT_ONLY.finditer(small):
        is_count = match[1] not in ("a", "an", "both") and not _NOT_OWN.search(
            small[: match.start()][-_NOT_OWN_BEFORE:]
        )
        if is_count and not _inside(kits, match.start(), match.end()):
            kits.append(Kit(_COUNTS[match[1]], None, match.start(), match.end()))
    if len(kits) == 1:
        for match in _A_PAIR.finditer(small):
            if match.start() > kits[0].end:
                kits.append(Kit(2, None, match.start(), match.end(), ADD))
                break
    if len(kits) == 1:
        for match in _MORE.finditer(small):
            if match.start() > kits[0].end:
                kits.append(Kit(_COUNTS[match[1]], None, match.start(), match.end(), ADD))
                break
    if kits:
        for match in _SECOND_ONE.finditer(small):
            if not _inside(kits, match.start(), match.end()):
                kits.append(Kit(1, None, match.start(), match.end(), ADD))
        for match in _PLAIN_KIT.finditer(small):
            if len(kits) == 1 and not _inside(kits, match.start(), match.end()) and kits[0].size_gb:
                before = small[max(0, match.start() - _BESIDE_BEFORE) : match.start()]
                if _BESIDE.search(before + small[match.start() : match.end()]) or re.search(r" to .?$", before):
                    kits.append(Kit(None, None, match.start(), match.end(), HAVE))
    if (both := _OLD_AND_NEW.search(small)) and not is_aside(facts.asides, both.start()):
        return _of_one_size(small, both)
    kits.sort(key=lambda kit: kit.start)
    _give_roles(small, kits)
    return _two(kits, small)


def _of_one_size(small: str, match: re.Match[str]) -> list[Kit]:
    """'2 old 2 new, all 16 gb': so many of each, and their size where one alone is told."""
    sizes = {float(size[1]) for size in _EVERY_SIZE.finditer(small)} & set(_SIZES_MADE)
    size = next(iter(sizes)) if len(sizes) == 1 else None
    return [
        Kit(_COUNTS[match["old"]], size, match.start(), match.start("new"), HAVE),
        Kit(_COUNTS[match["new"]], size, match.start("new"), match.end(), ADD),
    ]


def same_again(facts: Facts) -> bool:
    """Whether the text says that what is added is the same again."""
    return bool(_SAME.search(facts.small))


def are_joined(small: str, first: int, second: int) -> bool:
    """Whether what stands between two places tells that both are put together: 'a 3200 and a 3600', 'with'."""
    return second - first <= _JOINED_WITHIN and bool(_JOINED.search(small[first:second]))


def stands_beside(small: str, first: int, second: int) -> bool:
    """Whether what stands between two places tells that the second is what is there: 'a 3200 beside a 2400 one'."""
    return bool(re.search(r"\b(?:beside|next to|alongside|along with|on top of)\b", small[first:second]))


def into_another_form(facts: Facts) -> dict[str, tuple[str, str, int]]:
    """
    What 'laptop memory in a desktop' tells of both kits' form: the machine's own, and that of what is to come.

    Args:
        facts: The text. [object]

    Returns:
        By role: the form, the words that tell it and where they stand; nothing where none is told. [mapping]

    Source:
        Common practice, no source: how people tell of memory that is made for another machine.

    Example:
        >>> from calculators.asking.facts import gather
        >>> into_another_form(gather("does laptop ram go into a desktop"))["have_"]
        ('dimm', 'desktop', 26)
    """
    for pattern, own, other in ((_LAPTOPS_IN_DESKTOP, "dimm", "sodimm"), (_DESKTOPS_IN_LAPTOP, "sodimm", "dimm")):
        if match := pattern.search(facts.small):
            words = {n: facts.text[match.start(n) : match.end(n)] for n in (1, 2)}
            return {HAVE: (own, words[2], match.start(2)), ADD: (other, words[1], match.start(1))}
    return {}


def _inside(kits: Sequence[Kit], start: int, end: int) -> bool:
    return any(kit.start < end and start < kit.end for kit in kits)


def _stick_near(small: str, end: int) -> bool:
    if re.match(r"\s*(?:ddr[345]l?\S*\s*)?(?:\d{4}\b|in\b|next\b|beside\b|to it\b|on top\b)", small[end:]):
        return True
    return bool(re.match(rf"[^.!?]{{0,{_STICK_AFTER}}}\b(?:{_STICK}|one)\b", small[max(0, end - _STICK_INSIDE) :]))


def _give_roles(small: str, kits: Sequence[Kit]) -> None:
    swapped = _SWAPPED.search(small)
    for n, kit in enumerate(kits):
        if kit.role:
            continue
        begin = kits[n - 1].end if n else 0
        ends = max(small.rfind(sign, begin, kit.start) for sign in ".!?;\n")
        before = small[max(begin, ends + 1, kit.start - _ROLE_BEFORE) : kit.start]
        until = kits[n + 1].start if n + 1 < len(kits) else len(small)
        after = small[kit.end : min(until, kit.end + _ROLE_AFTER)]
        last = {role: _last(words, before) for role, words in ((HAVE, _HAVE_WORDS), (ADD, _ADD_WORDS))}
        if n and _BESIDE.search(before):
            kit.role = HAVE
        elif small.startswith("another", kit.start) or _ADD_AFTER.search(after):
            kit.role = ADD
        elif _IN_A_MACHINE.search(before) or (_HAVE_AFTER.search(after) and last[ADD] <= last[HAVE]):
            kit.role = HAVE
        elif max(last.values()) >= 0:
            kit.role = max(last, key=lambda role: last[role])
    if (
        swapped
        and not _SAME.search(small)
        and len(kits) > 1
        and kits[0].start < swapped.end() <= kits[1].start + _SWAP_INTO
    ):
        kits[0].role, kits[1].role = "gone", HAVE
    if len(kits) == 1 and re.search(
        r"\ball(?: my| the)?(?: of)?\s*$", small[max(0, kits[0].start - _ALL_BEFORE) : kits[0].start]
    ):
        kits[0].role = HAVE
    if len(kits) > 1 and not kits[0].role and kits[1].role == HAVE:
        kits[0].role = ADD


def _last(words: re.Pattern[str], text: str) -> int:
    return max((match.end() for match in words.finditer(text)), default=-1)


def _two(kits: Sequence[Kit], small: str) -> list[Kit]:
    """The kit that is there and the one to come; where roles clash, by their order."""
    left = [kit for kit in kits if kit.role != "gone"]
    sized = [kit for kit in left if kit.size_gb is not None]
    if len(left) > 1 and not sized and not any(kit.role for kit in left):
        return []  # 'two run so, four run so': neither is told as what is there
    left = (sized[:2] if len(sized) > 1 else left)[:_MOST_KITS]
    held = [kit for kit in left if kit.role == HAVE]
    within = [kit for kit in held if _HELD.search(small[max(0, kit.start - _HELD_BEFORE) : kit.start])]
    if len(held) > 1 and len(within) == 1:
        for other in held:
            other.role = HAVE if other is within[0] else ADD  # 'I have 4x8, and the board already holds 2x16'
    have = next((kit for kit in left if kit.role == HAVE), None)
    add = next((kit for kit in left if kit.role == ADD), None)
    if have is None:
        have = next((kit for kit in left if kit is not add and not kit.role), None)
    if have is None and add is not None:
        others = [kit for kit in left if kit is not add]
        if others and others[0].size_gb is not None and add.size_gb is not None:
            have, add = add, others[0]
    if add is None and have is not None:
        add = next((k for k in left if k is not have and (k.size_gb is not None) == (have.size_gb is not None)), None)
    chosen = []
    for kit, role in ((have, HAVE), (add, ADD)):
        if kit is not None:
            kit.role = role
            chosen.append(kit)
    if len(chosen) == 2 and _SAME_SIZE.search(small):
        sizes = {kit.size_gb for kit in chosen} - {None}
        for kit in chosen if len(sizes) == 1 else ():
            kit.size_gb = kit.size_gb or next(iter(sizes))
    if len(chosen) == 2 and _SAME.search(small) and chosen[0].size_gb == chosen[1].size_gb:
        _less_what_is_there(chosen)
    return sorted(chosen, key=lambda kit: kit.start)


def _less_what_is_there(chosen: Sequence[Kit]) -> None:
    """'From 2x8 to 4x8 with the same kit again': the second number is all of them."""
    have, add = (next(kit for kit in chosen if kit.role == role) for role in (HAVE, ADD))
    if have.count and add.count and add.count > have.count:
        add.count -= have.count
