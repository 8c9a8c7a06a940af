"""What a link with fewer colour samples leaves of a picture, computed pixel by pixel."""

from __future__ import annotations

from collections.abc import Sequence

# Luma weights of ITU-R BT.709-6, item 3.2.
_RED, _GREEN, _BLUE = 0.2126, 0.7152, 0.0722
_BLOCKS = {"444": (1, 1), "422": (2, 1), "420": (2, 2)}  # pixels across and down that share their colour


def subsample(rows: Sequence[bytes], sampling: str) -> list[bytes]:
    """
    A picture as it comes out of 4:2:2 or 4:2:0: every pixel keeps its luma, neighbours share their colour.

    Args:
        rows: Red, green and blue for each pixel. [code], even counts across and down.
        sampling: 444, 422 or 420. [text]

    Returns:
        The rows, rounded to whole codes and clipped to 0 to 255. [code]

    Raises:
        KeyError: There is no such sampling.

    Source:
        ITU-R BT.709-6, items 3.2 and 3.3 (luma and colour difference). That neighbours share the mean of their
        colour difference, and that it is put back unfiltered, is common practice; links filter in various ways.

    Example:
        >>> subsample([bytes((255, 0, 0, 0, 0, 255))], "422")[0].hex(" ")
        '91 12 91 6e 00 6e'
    """
    across, down = _BLOCKS[sampling]
    if (across, down) == (1, 1):
        return list(rows)
    made: list[bytes] = []
    known: dict[tuple[bytes, ...], list[bytes]] = {}
    blocks: dict[bytes, bytes] = {}  # pictures of few colours hold few different blocks
    for y in range(0, len(rows), down):
        group = tuple(rows[y : y + down])
        if group not in known:
            known[group] = _shared(group, 3 * across, blocks)
        made += known[group]
    return made


def _shared(group: tuple[bytes, ...], size: int, blocks: dict[bytes, bytes]) -> list[bytes]:
    """Rows whose colour is shared, `size` bytes of each at a time; blocks met before are not worked out again."""
    made: list[list[bytes]] = [[] for _ in group]
    for left in range(0, len(group[0]), size):
        block = b"".join([row[left : left + size] for row in group])
        shared = blocks.get(block)
        if shared is None:
            shared = blocks[block] = _of_one_colour(block)
        each = len(shared) // len(group)
        for i, row in enumerate(made):
            row.append(shared[i * each : (i + 1) * each])
    return [b"".join(row) for row in made]


def _of_one_colour(block: bytes) -> bytes:
    """Pixels that keep their luma and share the mean of their colour differences."""
    spots = range(0, len(block), 3)
    lumas = [_luma(block, at) for at in spots]
    blue = sum(block[at + 2] - y for at, y in zip(spots, lumas, strict=True)) / len(spots)
    red = sum(block[at] - y for at, y in zip(spots, lumas, strict=True)) / len(spots)
    green = -(_RED * red + _BLUE * blue) / _GREEN
    return bytes(_code(y + part) for y in lumas for part in (red, green, blue))


def _luma(row: bytes, at: int) -> float:
    return _RED * row[at] + _GREEN * row[at + 1] + _BLUE * row[at + 2]


def _code(value: float) -> int:
    """The nearest code; settled first, so that nothing hangs on a last bit."""
    return min(max(int(round(value, 6) + 0.5), 0), 255) if value > 0 else 0
