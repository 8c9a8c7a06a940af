"""Test sounds as whole samples, the same on every machine, and the WAV file around them. Knows no page."""

from __future__ import annotations

from array import array
from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from sys import byteorder

from calculators.audio.signals.fixed_point import BITS, exponential, logarithm, quarter_sine

FULL_SCALE = 32767  # largest sample of 16 bits
SWEEP_FROM_HZ = 20.0
STAIR_STEPS, STAIR_DB = 6, 3  # six steps of 3 dB: each doubles the energy

_QUARTER = 1024  # entries of the table; a straight line between two of them is off by 3 in ten million at most
_TURN_BITS = 40  # the phase counts 2^-40 of a turn
_TURN = (1 << _TURN_BITS) - 1
_RATES = ((3360, 8000), (6720, 16000), (13440, 32000), (20000, 48000))  # up to this frequency, this rate is enough
_FADE_S = 0.05
_STEP_FADE_S = 0.02
_HALF = 1 << 45  # half a sample, in units of 2^-46
_UNSETTLED = -32768  # no sample: they end at 32767 on either side
_LONG = 40_000  # frames of one height for which a table of samples is worth making


def sample_rate(frequency_hz: float) -> int:
    """
    The lowest usual sampling rate that carries a frequency well, so that files stay small.

    Args:
        frequency_hz: Highest frequency in the sound. [Hz], up to 20000.

    Returns:
        8000, 16000, 32000 or 48000: the frequency is at most 0.42 of it. [Hz]

    Raises:
        StopIteration: The frequency is above 20000 Hz.

    Source:
        The sampling theorem, with room for the player's filter; common practice.

    Example:
        >>> sample_rate(500), sample_rate(12000)
        (8000, 32000)
    """
    return next(rate for up_to, rate in _RATES if frequency_hz <= up_to)


def amplitude(level_dbfs: float) -> int:
    """
    The peak sample of a sine, times 65536.

    Args:
        level_dbfs: Level of the sine. [dBFS], -150 to 0; 0 is a sine whose peak is the largest sample.

    Returns:
        32767 · 10^(level / 20), times 65536, rounded down. [1 / 65536]

    Source:
        AES17: a full-scale sine is 0 dBFS; from memory.

    Example:
        >>> amplitude(-60) >> 16
        32
    """
    millionths = round(level_dbfs * 1_000_000)
    exponent = logarithm(10, 1) * millionths // 20_000_000
    return exponential(exponent) * FULL_SCALE >> (BITS - 16)


@lru_cache(maxsize=1)  # half of what a short sound takes
def _whole_turn() -> tuple[int, ...]:
    """The sine of a whole turn in 4096 steps, as 2^-30, with the first value once more at the end."""
    quarter = quarter_sine(_QUARTER)
    half = quarter + quarter[-2:0:-1]
    return (*half, *(-v for v in half), 0)


def _sine(table: Sequence[int], phase: int) -> int:
    """The sine of a phase in 2^-40 turns, as 2^-30: a straight line between two entries of the table."""
    index, rest = phase >> 28 & 4095, phase & 0xFFFFFFF
    return table[index] + ((table[index + 1] - table[index]) * rest >> 28)


def _rise(table: Sequence[int], frames: int) -> list[int]:
    """A smooth rise from 0 towards 2^30: the square of a quarter sine."""
    return [_sine(table, (i << (_TURN_BITS - 2)) // frames) ** 2 >> 30 for i in range(frames)]


def _phases(kind: str, frequency_hz: float, frames: int, rate: int) -> range | array[int]:
    """The phase of every frame, in 2^-40 turns."""
    # decimal places of what was typed, kept whole: a millionth of a hertz
    step = (round(frequency_hz * 1_000_000) << _TURN_BITS) // (1_000_000 * rate)
    if kind != "sweep":
        return range(0, step * frames, step)
    first = (round(SWEEP_FROM_HZ * 1_000_000) << _TURN_BITS) // (1_000_000 * rate)
    growth = exponential(logarithm(step, first) // max(frames - 1, 1))
    return _sums(_sweep_steps(first, growth, frames))[:frames]


def _sweep_steps(first: int, growth: int, frames: int) -> array[int]:
    """
    By how much the phase goes on at every frame of a sweep, in 2^-40 turns; some more than are asked for.

    The step carries 64 bits more than the phase, so that rounding does not add up over a long sweep. Many are taken on
    at a time, as one large number with 256 bits for each: 128 of the growth below, and room for the product above.
    """
    doublings = 10
    now, steps = first << BITS, []
    for _ in range(1 << doublings):
        steps.append(now)
        now = now * growth >> BITS
    power = growth << 128
    for _ in range(doublings):
        power = power * power >> (BITS + 128)
    power >>= BITS
    row = int.from_bytes(b"".join(step.to_bytes(32, byteorder) for step in steps), byteorder)
    mask = int.from_bytes((0xFFFFFFFFFFFFFFFF_FFFFFFFFFFFFFFFF).to_bytes(32, byteorder) * len(steps), byteorder)
    made = array("Q")
    while len(made) < frames:
        made.extend(array("Q", row.to_bytes(32 * len(steps), byteorder))[1 if byteorder == "little" else 2 :: 4])
        row = row * power >> 128 & mask
    return made


def _sums(steps: array[int]) -> array[int]:
    """The sums of all steps before each, added many at a time; the steps' count is a multiple of 1024."""
    many, made, total = 1024, array("Q"), 0
    ones = int.from_bytes(array("Q", [1] * many).tobytes(), byteorder)
    within = (1 << 64 * many) - 1
    for first in range(0, len(steps), many):
        block = int.from_bytes(steps[first : first + many].tobytes(), byteorder)
        sums, reach = block, 64
        while reach < 64 * many:  # each holds the sum of 1, 2, 4 … steps up to its own
            sums += (sums << reach & within) if byteorder == "little" else sums >> reach
            reach *= 2
        made.frombytes((sums - block + total * ones).to_bytes(8 * many, byteorder))
        total = made[-1] + steps[first + many - 1]
    return made


def _cells(phases: range | array[int]) -> Sequence[int]:
    """
    In which of the 2^20 cells of a turn each phase lies.

    Many at a time, as one large number with 64 bits for each phase: after a shift the upper 32 of them hold the cell,
    once the turns before are masked out. Even steps are added in the same way.
    """
    many = min(len(phases), 4096)
    ones = int.from_bytes(array("Q", [1] * many).tobytes(), byteorder)
    mask = (0xFFFFF << 32) * ones
    cells = array("I")
    steps = [i * phases.step & _TURN for i in range(many)] if isinstance(phases, range) else []
    row = int.from_bytes(array("Q", steps).tobytes(), byteorder)
    for first in range(0, len(phases), many):
        if steps:
            sums = row + (phases[first] & _TURN) * ones << 12
        else:
            part = array("Q", phases[first : first + many])
            sums = int.from_bytes((part + array("Q", [0] * (many - len(part)))).tobytes(), byteorder) << 12
        cells.extend(array("I", (sums & mask).to_bytes(8 * many, byteorder))[1 if byteorder == "little" else 0 :: 2])
    return cells[: len(phases)]


def _heights(kind: str, level_dbfs: float, frames: int, rate: int, table: Sequence[int]) -> list[tuple[list[int], int]]:
    """
    The peak of every frame, times 65536, with a fade at each end and between steps.

    In stretches: the peaks while it changes, one for each frame, or the one that lasts; and for how many frames.
    """
    steps = STAIR_STEPS if kind == "staircase" else 1
    stretches: list[tuple[list[int], int]] = []
    last = min(round(_FADE_S * rate), frames // (2 * steps))
    before = done = 0
    for i in range(steps):
        height = amplitude(level_dbfs - STAIR_DB * (steps - 1 - i))
        length = (i + 1) * frames // steps - done
        fade = min(round((_STEP_FADE_S if i else _FADE_S) * rate), length // 2)
        stretches.append(([before + ((height - before) * share >> 30) for share in _rise(table, fade)], fade))
        stretches.append(([height], length - fade - (last if i == steps - 1 else 0)))
        done += length
        before = height
    stretches.append(([before * share >> 30 for share in _rise(table, last)][::-1], last))
    return stretches


def _rounded(product: int, top: int) -> int:
    """A product in units of 2^-46 as the nearest sample, halves away from 0."""
    return min(product + _HALF >> 46, top) if product >= 0 else -min(_HALF - product >> 46, top)


def _samples_of_cells(table: Sequence[int], height: int, top: int) -> array[int]:
    """
    The sample of one height for every cell of a turn, or _UNSETTLED where it changes within the cell or beside it.

    Between two entries of the table the sine is a straight line, so the samples change where they pass a half.
    """
    made = array("h")
    starts = [_rounded(height * sine, top) for sine in table]
    for (near, far), (one, other) in zip(pairwise(table), pairwise(starts), strict=True):
        part = array("h", [one]) * 256
        way = 1 if other > one else -1
        for sample in range(one, other, way):
            at = int(((sample + way / 2) * (1 << 46) / height - near) / (far - near) * 256)
            part[at + 2 :] = array("h", [sample + way]) * (254 - at)
            part[max(at - 1, 0) : at + 2] = array("h", [_UNSETTLED]) * len(part[max(at - 1, 0) : at + 2])
        made += part
    return made


def _steady(table: Sequence[int], height: int, phases: range | array[int], top: int) -> array[int]:
    """Samples of one height: the same as one by one, in a third of the time, since few must be worked out."""
    cells = _samples_of_cells(table, height, top)
    made = array("h", map(cells.__getitem__, _cells(phases)))
    at = -1
    try:
        while True:
            at = made.index(_UNSETTLED, at + 1)
            made[at] = _rounded(height * _sine(table, phases[at]), top)
    except ValueError:
        return made


def samples(kind: str, frequency_hz: float, seconds: float, level_dbfs: float) -> tuple[array[int], int]:
    """
    A test sound in two channels, left before right.

    Args:
        kind: left, right, both, reversed, sweep or staircase. [text]
        frequency_hz: Of the tone; of a sweep, where it ends. [Hz], 20 to 20000.
        seconds: Length. [s], above 0.
        level_dbfs: Level, of a staircase that of its last step. [dBFS]

    Returns:
        The samples and the sampling rate. [1 of 32767], [Hz]

    Raises:
        StopIteration: The frequency is above 20000 Hz.

    Source:
        None: arithmetic in whole numbers.

    Example:
        >>> data, rate = samples("left", 500, 0.5, -20)
        >>> max(data[0::2]), max(data[1::2]), rate
        (3276, 0, 8000)
    """
    rate = sample_rate(frequency_hz)
    frames = int(seconds * rate + 0.5)
    table = _whole_turn()
    top = amplitude(level_dbfs) >> 16  # never a hair above the level asked for
    phases = _phases(kind, frequency_hz, frames, rate)
    one, at = array("h"), 0
    for heights, length in _heights(kind, level_dbfs, frames, rate, table):
        part = phases[at : at + length]
        if length >= _LONG:
            one.extend(_steady(table, heights[0], part, top))
        else:
            each = heights if len(heights) == length else heights * length
            one.extend([_rounded(height * _sine(table, phase), top) for height, phase in zip(each, part, strict=True)])
        at += length
    data = array("h", bytes(4 * frames))
    if kind != "right":
        data[0::2] = one
    if kind != "left":
        data[1::2] = array("h", [-v for v in one]) if kind == "reversed" else one
    return data, rate


def wav(data: array[int], rate: int) -> bytes:
    """
    The samples as a WAV file: two channels, 16 bits.

    Args:
        data: The samples, left before right. [1 of 32767]
        rate: Sampling rate. [Hz]

    Returns:
        The file. [bytes]

    Source:
        Multimedia Programming Interface and Data Specifications 1.0, 1991, chapter on WAVE files, from memory.

    Example:
        >>> wav(array("h", [0, 0]), 8000)[:4]
        b'RIFF'
    """
    little = data
    if byteorder == "big":
        little = array("h", data)
        little.byteswap()
    body = little.tobytes()

    def number(value: int, size: int) -> bytes:
        return value.to_bytes(size, "little")

    shape = number(1, 2) + number(2, 2) + number(rate, 4) + number(4 * rate, 4) + number(4, 2) + number(16, 2)
    chunks = b"WAVEfmt " + number(len(shape), 4) + shape + b"data" + number(len(body), 4) + body
    return b"RIFF" + number(len(chunks), 4) + chunks
