"""The packer: whatever it packs, the library's zlib unpacks, and the packed bytes are always the same."""

from __future__ import annotations

from zlib import decompress

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.desk.deflate import deflate

PARTS = st.lists(
    st.one_of(st.binary(max_size=400), st.binary(min_size=1, max_size=6).map(lambda b: b * 150)), max_size=8
)
DISTANCES = st.lists(st.integers(1, 32_768), min_size=1, max_size=4, unique=True).map(tuple)


@settings(deadline=None)
@given(PARTS, DISTANCES)
def test_what_is_packed_comes_back(parts, distances):
    assert decompress(deflate(parts, distances)) == b"".join(parts)


def test_every_length_of_a_run():
    for length in range(1, 600):
        assert decompress(deflate([b"\x07" * length])) == b"\x07" * length


@pytest.mark.parametrize("distance", [1, 2, 3, 4, 5, 6, 7, 8, 9, 12, 13, 24, 25, 100, 1024, 5000, 24_577, 32_768])
def test_every_reach_of_a_repeat(distance):
    once = bytes(i * 89 % 251 for i in range(distance))
    data = once * 2 + once[:5]
    packed = deflate([data], (distance,))
    assert decompress(packed) == data
    if distance > 100:
        assert len(packed) < 1.1 * distance + distance / 40 + 20


def test_nothing_is_a_stream_too():
    assert decompress(deflate([])) == b""
    assert decompress(deflate([b"", b""])) == b""


def test_runs_pack_small():
    assert len(deflate([bytes(5761)] * 1080, (1, 3))) < 45_000


def test_a_stream_worked_out_by_hand():
    # RFC 1951, 3.2.6: 'a' (0x61) is 0x30 + 0x61 = 0x91, most significant bit first, after the block's head 1 1 0;
    # the end of the block is seven zeros. RFC 1950, 2.2: Adler-32 of 'a' is 0x00620062.
    bits = "110" + f"{0x91:08b}" + "0000000"
    body = bytes(int(bits[i : i + 8].ljust(8, "0")[::-1], 2) for i in range(0, len(bits), 8))
    assert deflate([b"a"]) == b"\x78\x01" + body + bytes.fromhex("00620062")
