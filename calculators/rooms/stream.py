"""rooms.stream: what a stream of pictures needs of a network, how late it is, and which codec level holds it."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.answer import (
    DEPENDS,
    NO,
    YES,
    Answer,
    Column,
    Figure,
    Note,
    Source,
    Table,
    Verdict,
    Working,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.charts import Bar, Limit, bars
from calculators.desk.inputs import HOW_TO_CHOOSE, Choice, Estimate, Number, Option, Span, Values
from calculators.desk.numbers import number, settled, significant
from calculators.desk.svg import Drawing
from calculators.rooms.ethernet.rate_inputs import UNITS, NetworkRate
from calculators.rooms.streams.codec_levels import AV1, H264, H265, least_level
from calculators.rooms.streams.codec_levels import SOURCES as LEVEL_SOURCES
from calculators.rooms.streams.stream_rates import (
    GB_PER_HOUR_OF_A_MBPS,
    bits_per_pixel_at,
    delay_ms,
    frame_wait_ms,
    hand_ms,
    send_ms,
    stream_mbps,
)
from calculators.rooms.streams.typical_streams import (
    BITS_CHOICES,
    BUFFER_CHOICES,
    CODEC_NAMES,
    DECODE_CHOICES,
    DISPLAY_CHOICES,
    ENCODE_CHOICES,
    LEAST_RAW_BITS,
    LIMITS_MS,
    LIMITS_SOURCE,
    SOURCE,
    bits_span,
    table,
    usual_bits,
)
from calculators.rooms.wording.cautions import OPEN_DOORS
from calculators.rooms.wording.ranges import ranged, say_range
from calculators.rooms.wording.units import MILLISECONDS, PIXELS
from calculators.trade.frame_rates import SOURCE as RATE_SOURCE
from calculators.trade.frame_rates import exact_rate, rate_input, say_rate
from calculators.trade.ratio import Ratio

_CODED = (H264, H265, AV1)
_PROFILES = {
    H264: ("High", "High 10", "High 4:4:4 Predictive"),
    H265: ("Main", "Main 10", "a 4:4:4 profile of the range extensions"),
    AV1: ("Main", "Main", "High"),
}
_USES = {"film": "a film", "desk": "desktop work", "action": "fast action"}
_GIGABITS_FROM_MBPS, _SECONDS_FROM_MS = 1000, 10_000
_PARTS = (
    ("encode_ms", "Encoding"),
    ("buffer_ms", "Buffer"),
    ("decode_ms", "Decoding"),
    ("display_ms", "Display"),
)

SOURCES = (
    Source("Rates, shares and sums of delays", "arithmetic"),
    SOURCE,
    LIMITS_SOURCE,
    *LEVEL_SOURCES.values(),
    RATE_SOURCE,
)


@dataclass(frozen=True, slots=True)
class Stream:
    """A stream worked out: each pair is the least and the most; the same where every number was given."""

    rate: Ratio
    bits: Span
    mbps: tuple[float, float]
    room_mbps: float
    send: tuple[float, float]
    wait: float
    delay: tuple[float, float]
    hand: tuple[float, float]
    exact_delay: bool
    level: tuple[str, str] | None


def work_out(given: Values) -> Stream:
    """All numbers of one stream that figures, drawing and sentences are made of."""
    width, height, network, trip = given["width"], given["height"], given["network_mbps"], given["round_trip_ms"]
    rate = exact_rate(given["rate"])
    bits = bits_span(given["bits_per_pixel"], given["use"], given["codec"])
    mbps = tuple(stream_mbps(width, height, rate, end) for end in (bits.low, bits.high))
    send = tuple(send_ms(width, height, end, network) for end in (bits.low, bits.high))
    wait = frame_wait_ms(rate)
    spans: list[Span] = [given[key] for key, _ in _PARTS]
    ends = []
    for i, name in enumerate(("low", "high")):
        encode, buffer, decode, display = (getattr(one, name) for one in spans)
        ends.append(delay_ms(wait, encode, send[i], trip, buffer, decode, display))
    codec = given["codec"]
    return Stream(
        rate, bits, (mbps[0], mbps[1]), network * given["share_limit"] / 100, (send[0], send[1]), wait,
        (ends[0], ends[1]), (hand_ms(ends[0], trip), hand_ms(ends[1], trip)),
        bits.exact and all(one.exact for one in spans),
        least_level(codec, width, height, rate, mbps[1]) if codec in _CODED else None,
    )  # fmt: skip


def compute(given: Values) -> Answer:
    """One stream against one network and one use."""
    stream = work_out(given)
    return Answer(
        headline=_headline(given, stream),
        verdict=_verdict(given, stream),
        figures=_figures(given, stream),
        working=_working(given, stream),
        tables=(table(given["use"], given["codec"]), *(() if given["codec"] == "raw" else (_levels(given, stream),))),
        drawings=(_drawing(given, stream),),
        notes=_notes(given, stream),
        cautions=(OPEN_DOORS,),
        sources=SOURCES,
    )


def _mode(given: Values) -> str:
    return f"{given['width']}×{given['height']} at {say_rate(given['rate'], 'frames/s')}"


def _figures_of(low: float, high: float) -> str:
    first, last = significant(low, 3), significant(high, 3)
    return first if first == last else f"{first} to {last}"


def _mbps(low: float, high: float) -> str:
    return f"{_figures_of(low, high)} Mb/s"


def _headline(given: Values, stream: Stream) -> str:
    low, high = stream.mbps
    network = given["network_mbps"]
    if low >= _GIGABITS_FROM_MBPS:
        needs = f"{_figures_of(low / 1000, high / 1000)} of {significant(network / 1000, 3)} Gb/s"
    else:
        needs = f"{_figures_of(low, high)} of {significant(network, 3)} Mb/s"
    soonest, latest = stream.delay
    seconds = latest >= _SECONDS_FROM_MS
    late = say_range(soonest / 1000, latest / 1000, "s", 0) if seconds else say_range(soonest, latest, "ms", 0)
    return f"{_mode(given)} takes {needs} and comes {late} late."


def _verdict(given: Values, stream: Stream) -> Verdict:
    limit, use = LIMITS_MS[given["use"]], _USES[given["use"]]
    network, room = settled(given["network_mbps"]), settled(stream.room_mbps)
    least, most = (settled(end) for end in stream.mbps)
    soonest, latest = (settled(end) for end in stream.delay)
    if least > network:
        return Verdict(NO, "The stream is more than the whole network carries.", "It does not fit.")
    if soonest > limit:
        return Verdict(NO, f"It comes later than the {limit} ms that {use} bears.", "Too late.")
    if least > room:
        return Verdict(DEPENDS, f"It fits only while little else needs the network: above {_share(given)}.", "Tight.")
    if most > room:
        return Verdict(DEPENDS, f"Its richer end is above {_share(given)} of the network.", "Perhaps.")
    if latest > limit:
        return Verdict(DEPENDS, f"At its slowest it is later than the {limit} ms that {use} bears.", "Perhaps.")
    if given["use"] != "film" and settled(stream.hand[1]) > limit:
        return Verdict(DEPENDS, f"From hand to picture it is more than the {limit} ms that {use} bears.", "Nearly.")
    if not _held(given, stream):
        name = CODEC_NAMES[given["codec"]] if given["codec"] in _CODED else "the usual codecs"
        return Verdict(DEPENDS, f"No level of {name} holds this: few decoders will.", "Perhaps.")
    return Verdict(YES, f"It fits below {_share(given)} and is within the {limit} ms that {use} bears.", "That works.")


def _held(given: Values, stream: Stream) -> bool:
    """Whether a level of the codec holds the stream; of any of the three, where the codec is not known."""
    if given["codec"] == "raw":
        return True
    codecs = (given["codec"],) if given["codec"] in _CODED else _CODED
    size = given["width"], given["height"]
    return any(least_level(codec, *size, stream.rate, stream.mbps[1]) for codec in codecs)


def _share(given: Values) -> str:
    return f"{number(given['share_limit'], 1)} %"


def _figures(given: Values, stream: Stream) -> tuple[Figure, ...]:
    network, bits = given["network_mbps"], stream.bits.exact
    low, high = stream.mbps
    rows = [
        *ranged("stream_mbps", "The stream needs", low, high, bits, "Mb/s", 2, main=True),
        *ranged("delay_ms", "Late by", *stream.delay, stream.exact_delay, "ms", 1, main=True),
        *ranged("share_percent", "Share of the network", 100 * low / network, 100 * high / network, bits, "%", 1),
        *ranged("hand_ms", "From hand to picture", *stream.hand, stream.exact_delay, "ms", 1),
        figure("room_mbps", "Room for one stream", stream.room_mbps, "Mb/s", 2),
        figure("bits_per_pixel_fit", "Bits a pixel that fit",
               bits_per_pixel_at(stream.room_mbps, given["width"], given["height"], stream.rate), "bit", 4),
        *ranged("gb_per_hour", "In an hour", low * GB_PER_HOUR_OF_A_MBPS, high * GB_PER_HOUR_OF_A_MBPS, bits, "GB", 2),
        figure("frame_wait_ms", "Waiting for the next frame", stream.wait, "ms", 2),
        *ranged("send_ms", "Sending one frame", *stream.send, bits, "ms", 2),
    ]  # fmt: skip
    if stream.level:
        level, tier = stream.level
        rows.append(figure("level", f"Least level of {CODEC_NAMES[given['codec']]}", _say_level(level, tier)))
    return tuple(rows)


def _say_level(level: str, tier: str) -> str:
    return f"{level}, high tier" if tier == "high" else level


def _working(given: Values, stream: Stream) -> tuple[Working, ...]:
    size = f"{given['width']} × {given['height']}"
    rate = number(stream.rate.value, 3)
    bits = say_range(stream.bits.low, stream.bits.high, "", 4)
    network, trip = number(given["network_mbps"], 1), given["round_trip_ms"]
    times = [say_range(given[key].low, given[key].high, "") for key, _ in _PARTS]
    parts = [number(stream.wait, 2), times[0], say_range(*stream.send, "", 2), number(trip / 2, 2), *times[1:]]
    lines = [
        Working("The stream", "width × height × rate × bits ÷ 10⁶", f"{size} × {rate} × ({bits}) ÷ 10⁶"
                if not stream.bits.exact else f"{size} × {rate} × {bits} ÷ 10⁶", _mbps(*stream.mbps)),
        Working(
            "Room for it", "network × limit", f"{network} × {_share(given)}", f"{number(stream.room_mbps, 2)} Mb/s"
        ),
        Working("Bits that fit", "room × 10⁶ ÷ (width × height × rate)",
                f"{number(stream.room_mbps, 2)} × 10⁶ ÷ ({size} × {rate})",
                f"{number(bits_per_pixel_at(stream.room_mbps, given['width'], given['height'], stream.rate), 4)} bit"),
        Working("Waiting for a frame", "500 ÷ rate", f"500 ÷ {rate}", f"{number(stream.wait, 2)} ms"),
        Working("Sending a frame", "1000 × width × height × bits ÷ (network × 10⁶)",
                f"1000 × {size} × {bits} ÷ ({network} × 10⁶)", say_range(*stream.send, "ms", 2)),
        Working("Late by", "wait + encode + send + half the round trip + buffer + decode + display",
                " + ".join(parts), say_range(*stream.delay, "ms")),
        Working("From the hand", "that + half the round trip",
                f"{say_range(*stream.delay, '')} + {number(trip / 2, 2)}", say_range(*stream.hand, "ms")),
    ]  # fmt: skip
    return tuple(lines)


def _levels(given: Values, stream: Stream) -> Table:
    rows = []
    for codec in _CODED:
        level = least_level(codec, given["width"], given["height"], stream.rate, stream.mbps[1])
        plain, deep, full = _PROFILES[codec]
        profiles = plain if plain == deep else f"{plain}; {deep} for 10 bits"
        rows.append((CODEC_NAMES[codec], _say_level(*level) if level else "none", profiles, full))
    return Table(
        title="What the decoder's list must name, at least",
        columns=(Column("Codec"), Column("Level"), Column("Profile for 4:2:0"), Column("For full colour")),
        rows=tuple(rows),
        note=f"For {_mode(given)} at {_mbps(stream.mbps[1], stream.mbps[1])}. A data sheet that names a codec without "
        "level and chroma promises little. Many decoders do 4:2:0 only, which softens small coloured text.",
        marked=(_CODED.index(given["codec"]),) if given["codec"] in _CODED else (),
    )


def _drawing(given: Values, stream: Stream) -> Drawing:
    limit = LIMITS_MS[given["use"]]
    half = given["round_trip_ms"] / 2
    parts = [("Next frame", stream.wait, stream.wait)]
    for key, name in _PARTS:
        if key == "buffer_ms":
            parts.append(("Network", stream.send[0] + half, stream.send[1] + half))
        parts.append((name, given[key].low, given[key].high))
    rows = [
        Bar(name, high, say_range(low, high, "ms"), low=low if low != high else None)
        for name, low, high in parts
        if high > 0
    ]
    rows.append(Bar("Together", stream.delay[1], say_range(*stream.delay, "ms"), mark=True,
                    low=stream.delay[0] if not stream.exact_delay else None))  # fmt: skip
    description = "; ".join(f"{row.label} {row.text}" for row in rows)
    return bars(
        "Where the time goes",
        f"Bars: {description}. A line at {limit} ms, the most that {_USES[given['use']]} bears.",
        rows,
        limits=(Limit(limit, f"{_USES[given['use']]}: {limit} ms"),),
        caption="A bar with a gap before it runs from the least to the most.",
    )


def _notes(given: Values, stream: Stream) -> tuple[Note, ...]:
    notes = [
        Note(
            "Steady beats fast",
            "A stream stutters at the worst second, not at the average. A wire that always gives 90 is better than air "
            "that gives 400 and drops to 5 now and then. Measure for a minute where you will sit, and look at the "
            "lowest figure.",
        ),
        Note(
            "How late is too late",
            f"Film {LIMITS_MS['film']} ms, if the sound comes as late as the picture; desktop work "
            f"{LIMITS_MS['desk']} ms; fast action {LIMITS_MS['action']} ms. Common practice: people differ, and what "
            "you are used to counts. Keyboard, pad and program add their own time.",
        ),
    ]
    if given["use"] == "film":
        notes.append(
            Note(
                "A player that stores ahead",
                "A film player that holds some seconds in store is late at the start and after a pause only, and its "
                "sound waits with it. Count its buffer as 0 here.",
            )
        )
    if given["codec"] != "raw" and stream.bits.exact:
        lean, rich = usual_bits(given["use"], given["codec"])
        if settled(stream.bits.low) < lean:
            notes.insert(
                0,
                Note(
                    "Leaner than usual",
                    f"{number(lean, 3)} to {number(rich, 3)} bits a pixel are usual for {_USES[given['use']]}. With "
                    "fewer it fits more easily, but the picture blocks and smears when much moves.",
                ),
            )
    if given["codec"] == "raw" and settled(stream.bits.low) < LEAST_RAW_BITS:
        notes.insert(
            0,
            Note(
                "That is not uncompressed",
                f"A picture without compression takes {LEAST_RAW_BITS} bits a pixel or more. With fewer, something "
                "compresses, and compressing takes time.",
            ),
        )
    if given["codec"] in _CODED and stream.level:
        level = _say_level(*stream.level)
        plain, deep, _ = _PROFILES[given["codec"]]
        profile = f"{plain} profile" if plain == deep else f"{plain} profile, or {deep} for 10 bits"
        notes.append(
            Note(
                "What the other end must be able to do",
                f"{CODEC_NAMES[given['codec']]} holds this from level {level} on. Look for that level or a higher one, "
                f"the {profile}, and 4:2:0; for sharp coloured text ask for 4:4:4.",
            )
        )
    return tuple(notes)


def _worked_for(given: Values) -> str:
    codec = "" if given["codec"] == "unknown" else f" with {CODEC_NAMES[given['codec']]}"
    return (
        f"{_USES[given['use']]} of {given['width']}×{given['height']} at {say_rate(given['rate'], 'frames/s')}"
        f"{codec}, over {number(given['network_mbps'], 1)} Mb/s"
    )


def _size(key: str, label: str, default: int, where: str, names: tuple[str, ...]) -> Number:
    return Number(
        key=key, label=label, low=16, high=32_768, unit="px", default=default, whole=True, where=where, names=names,
        group="The picture", also=PIXELS,
    )  # fmt: skip


calculator = Calculator(
    name="rooms.stream",
    version=2,
    title="What does a stream need, and how late is it?",
    summary="Rate, share of the network, delay and codec level of a picture that is streamed to another room.",
    inputs=(
        _size("width", "Width", 1920, "What the stream is set to; often the other screen's own resolution.",
              ("resolution", "4k", "1080p", "1440p")),
        _size("height", "Height", 1080, "The second number of the resolution, such as the 1080 in 1920×1080.", ()),
        rate_input(
            key="rate", label="Frames a second", group="The picture", low=1, high=1000, default=60, unit="frames/s",
            where="What the stream is set to; for a film, its own rate, such as 23.976 or 25.",
            names=("fps", "hz", "frame rate", "refresh"),
        ),
        Choice(
            where_title=HOW_TO_CHOOSE,
            key="use", label="What for", group="The picture", default="action",
            where="Fast action is a game that punishes delay; desktop work is mouse and text; a film only runs.",
            options=(Option("film", "films", ("movie", "series", "watching", "films only", "only films")),
                     Option("desk", "desktop work", ("office", "work", "typing")),
                     Option("action", "fast action", ("game", "gaming", "shooter", "play"))),
            names=("for",),
        ),
        Choice(
            key="codec", label="Codec", group="The picture", default="unknown",
            where="The sending program's settings, often under video or quality.",
            options=(Option("unknown", "not sure"), Option("h264", "H.264", ("avc",)),
                     Option("h265", "H.265", ("hevc",)), Option("av1", "AV1"),
                     Option("raw", "not compressed", ("uncompressed",))),
        ),
        Estimate(
            key="bits_per_pixel", label="Bits a pixel", group="The picture", low=0.005, high=48, unit="bit",
            default=0.1, choices=BITS_CHOICES, unsure_low=0.02, unsure_high=0.25, also={"bits": 1, "bpp": 1},
            where="The table below the result; or the stream's rate in bits a second ÷ (width × height × frames).",
            names=("bitrate", "bpp", "quality"),
        ),
        NetworkRate(
            key="network_mbps", label="What arrives", group="The network", low=0.1, high=400_000, unit="Mb/s",
            default=100, also=UNITS,
            where="Measured between the two machines for a minute; a test of the internet line does not count.",
            names=("network", "bandwidth", "wifi", "wi-fi", "wireless", "lan", "ethernet"),
        ),
        Number(
            where_title=HOW_TO_CHOOSE,
            key="share_limit", label="Most for one stream", group="The network", low=1, high=100, unit="%", default=70,
            where="70 leaves room for bursts and for others; more only on a wire that nothing else uses.", extra=True,
            names=("headroom",),
        ),
        Number(
            key="round_trip_ms", label="Round trip", group="The network", low=0, high=5000, unit="ms", default=2,
            also=MILLISECONDS,
            where="The system's ping command to the other machine: about 1 by wire, 2 to 20 over the air.",
            names=("ping", "latency", "round trip"),
        ),
        Estimate(
            key="encode_ms", label="Encoding", group="Delays", low=0, high=5000, unit="ms", default=8,
            also=MILLISECONDS, choices=ENCODE_CHOICES, unsure_low=3, unsure_high=40,
            where="Some sending programs show it in their statistics.", names=("encoder", "encoding latency"),
        ),
        Estimate(
            key="buffer_ms", label="Buffer", group="Delays", low=0, high=5000, unit="ms", default=5,
            also=MILLISECONDS, choices=BUFFER_CHOICES, unsure_low=0, unsure_high=100,
            where="The receiving program's settings, under buffering or smoothing.", names=("buffering", "jitter"),
        ),
        Estimate(
            key="decode_ms", label="Decoding", group="Delays", low=0, high=5000, unit="ms", default=8,
            also=MILLISECONDS, choices=DECODE_CHOICES, unsure_low=4, unsure_high=100,
            where="Some receiving programs show it in their statistics.", names=("decoder", "decoding latency"),
        ),
        Estimate(
            key="display_ms", label="Display", group="Delays", low=0, high=5000, unit="ms", default=15,
            also=MILLISECONDS, choices=DISPLAY_CHOICES, unsure_low=3, unsure_high=150,
            where="Independent measurements of your model; the makers seldom say.", names=("input lag", "display lag"),
        ),
    ),
    compute=compute,
    worked_for=_worked_for,
    presets=(
        Preset("game-wire", "A game by wire, 1080 at 60",
               {"width": 1920, "height": 1080, "rate": 60, "codec": "h265", "bits_per_pixel": "action",
                "network_mbps": 900, "round_trip_ms": 1, "encode_ms": "card", "buffer_ms": "quick",
                "decode_ms": "chip", "display_ms": "game", "use": "action"}),
        Preset("game-air", "A game over the air, 2160 at 60",
               {"width": 3840, "height": 2160, "rate": 60, "codec": "h265", "bits_per_pixel": "action",
                "network_mbps": 200, "round_trip_ms": 8, "encode_ms": "card", "buffer_ms": "air",
                "decode_ms": "television", "display_ms": "game", "use": "action"}),
        Preset("film", "A film, 2160 at 23.976",
               {"width": 3840, "height": 2160, "rate": 23.976, "codec": "h265", "bits_per_pixel": "film",
                "network_mbps": 94, "encode_ms": "recorded", "buffer_ms": 200, "decode_ms": "television",
                "display_ms": "picture", "use": "film"}),
        Preset("desk", "Desktop by wire, 1440 at 60",
               {"width": 2560, "height": 1440, "rate": 60, "bits_per_pixel": "desk", "network_mbps": 900,
                "round_trip_ms": 1, "encode_ms": "card", "buffer_ms": "quick", "decode_ms": "program",
                "display_ms": "monitor", "use": "desk"}),
        Preset("raw", "Not compressed, 1080 at 60",
               {"width": 1920, "height": 1080, "rate": 60, "codec": "raw", "bits_per_pixel": 20,
                "network_mbps": 9400, "round_trip_ms": 0.2, "encode_ms": 0, "buffer_ms": 0, "decode_ms": 0,
                "display_ms": 10, "use": "action"}),
    ),
)  # fmt: skip
