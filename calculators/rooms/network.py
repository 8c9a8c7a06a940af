"""rooms.network: what is left of a wired link's rate for one's own data."""

from __future__ import annotations

from calculators.desk.answer import (
    COMMON_PRACTICE,
    DEPENDS,
    FROM_MEMORY,
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
from calculators.desk.charts import Part, strip
from calculators.desk.errors import refuse
from calculators.desk.inputs import HOW_TO_TELL, Choice, Number, Option, Values, YesNo
from calculators.desk.numbers import number, settled
from calculators.desk.svg import Drawing
from calculators.rooms.ethernet.frames import (
    ADDRESS_BYTES,
    FRAME_BYTES,
    GAP_BYTES,
    LEAST_IPV6_MTU,
    STAMP_BYTES,
    TAG_BYTES,
    TCP_BYTES,
    frames_per_s,
    goodput_mbps,
    payload_bytes,
    wire_bytes,
)
from calculators.rooms.ethernet.rate_inputs import UNITS, NetworkRate
from calculators.rooms.wording.cautions import EARTHS, WALLS

NAMES = {"ipv4": "IPv4", "ipv6": "IPv6"}
SLOWER_LINKS_MBPS = (10, 100, 1000, 2500, 5000, 10_000)  # IEEE 802.3's rates over network-type cable, from memory
# A measurement this near to what a link can carry is as good as it gets; below this share something is wrong.
# Common practice, no source.
FULL_SHARE, WRONG_SHARE = 0.93, 0.55
COPY_SHARE = 0.85  # what a file copy, shown in bytes, reaches at least on a sound link. Common practice, no source
AIR_SHARE = 0.35  # over the air about half arrives, a third at least. Common practice, no source
# Every rate that a wired link shows, over copper or glass. IEEE 802.3, from memory
WIRED_MBPS = (*SLOWER_LINKS_MBPS, 25_000, 40_000, 50_000, 100_000, 200_000, 400_000)

SOURCES = (
    Source("RFC 5180, IPv6 Benchmarking Methodology", "appendix A.1: preamble and gap are 20 bytes a frame"),
    Source("IEEE 802.3 and 802.1Q", "frame of 18 bytes around the packet, tag of 4; rates of links", FROM_MEMORY),
    Source("RFC 791, RFC 8200, RFC 9293, RFC 7323", "headers of IPv4, IPv6, TCP and its time stamps", FROM_MEMORY),
    Source("RFC 8200", "clause 5: IPv6 needs links that take 1280 bytes", FROM_MEMORY),
    Source("About half of the named rate arrives over the air; how near to full a measurement should come", "",
           COMMON_PRACTICE),
)  # fmt: skip


def compute(given: Values) -> Answer:
    """A full frame taken apart, and what that leaves of the link."""
    mtu, link, address = given["mtu"], given["link_mbps"], given["address"]
    if address == "ipv6" and mtu < LEAST_IPV6_MTU:
        raise refuse(
            "mtu",
            f"IPv6 needs packets of at least {LEAST_IPV6_MTU} bytes, got {mtu}: give {LEAST_IPV6_MTU} or more, or "
            "choose IPv4.",
        )
    payload = payload_bytes(mtu, address, given["stamps"] == "yes")
    wire = wire_bytes(mtu, given["tag"] == "yes")
    goodput = goodput_mbps(link, payload, wire)
    measured = given.get("measured_mbps")
    return Answer(
        headline=_headline(link, goodput, measured),
        verdict=None if measured is None else _verdict(given, goodput, measured, payload / wire),
        figures=_figures(link, payload, wire, goodput, measured),
        working=_working(given, payload, wire, goodput),
        tables=(_table(given, payload / wire),),
        drawings=(_drawing(given, payload, wire),),
        notes=_notes(link, goodput, payload / wire),
        cautions=(EARTHS, WALLS),
        sources=SOURCES,
    )


def _rate(mbps: float) -> str:
    return f"{number(mbps, 1)} Mb/s"


def _headline(link: float, goodput: float, measured: float | None) -> str:
    best = f"{_rate(goodput)} of {_rate(link)} is left for your own data, {number(goodput / 8, 1)} MB/s"
    if measured is None:
        return f"At best {best}."
    return f"At best {best}; you measured {_rate(measured)}."


def _runs_at(goodput: float, measured: float, share: float) -> int | None:
    """The slower rate of Ethernet that a measurement points to, if it does: [Mb/s]."""
    for slower in SLOWER_LINKS_MBPS:
        full = slower * share
        if full * FULL_SHARE <= measured <= full * 1.02 and goodput > full * 1.9:
            return slower
    return None


def _half_of_air(link: float, goodput: float, measured: float, share: float) -> bool:
    """Whether the link is no wired one and about half arrives, so that it may be the air; above every slower rate."""
    if link in WIRED_MBPS or settled(measured) < settled(goodput * AIR_SHARE):
        return False
    slower = [full for rate in SLOWER_LINKS_MBPS if goodput > (full := rate * share) * 1.9]
    return not slower or measured > max(slower) * 1.02


def _far_less(goodput: float, measured: float, share: float) -> Verdict:
    """What is so little that something is wrong: or it was read in bytes, as file copies are."""
    in_bits = measured * 8
    if settled(goodput * COPY_SHARE) <= settled(in_bits) <= settled(goodput * 1.02):
        reason = "Far too little in bits; in bytes, MB/s, it would be about all there is."
        return Verdict(NO, reason, "Bits or bytes?")
    slower = _runs_at(goodput, in_bits, share)
    if slower:
        reason = f"Far too little in bits; in bytes, MB/s, a link at {number(slower, 0)} gives that."
        return Verdict(NO, reason, "Bits or bytes?")
    return Verdict(NO, "Far less arrives than such a link carries: find the part at fault.", "Something is wrong.")


def _verdict(given: Values, goodput: float, measured: float, share: float) -> Verdict:
    link = given["link_mbps"]
    if settled(measured) > settled(link):
        return Verdict(DEPENDS, "More than the link's rate cannot arrive: check both numbers, and bits or bytes.",
                       "That cannot be.")  # fmt: skip
    if settled(measured) > settled(link * given["mtu"] / wire_bytes(given["mtu"], given["tag"] == "yes")):
        return Verdict(DEPENDS, "More than packets of this size can bring: check the number and the packet size.",
                       "That cannot be.")  # fmt: skip
    if settled(measured) >= settled(goodput * FULL_SHARE):
        return Verdict(YES, "What arrives is what such a link can carry; the rest is headers.", "All as it should be.")
    slower = _runs_at(goodput, measured, share)
    if slower:
        return Verdict(NO, f"That is what a link at {number(slower, 0)} Mb/s gives: some part runs at that.",
                       "The link runs slower.")  # fmt: skip
    if settled(measured) >= settled(goodput * WRONG_SHARE):
        return Verdict(DEPENDS, "The link is sound; a disk, a program or other traffic may hold it back.")
    if _half_of_air(link, goodput, measured, share):
        return Verdict(DEPENDS, "No wired link has that rate; over the air half of it is normal.", "Wire or air?")
    return _far_less(goodput, measured, share)


def _figures(
    link: float, payload: int, wire: int, goodput: float, measured: float | None
) -> tuple[Figure, ...]:  # fmt: skip
    rows = [
        figure("goodput_mbps", "Your own data at best", goodput, "Mb/s", 1, main=True),
        figure("goodput_mb_s", "The same in bytes", goodput / 8, "MB/s", 1, main=True),
        figure("efficiency_percent", "Share of the link", 100 * payload / wire, "%", 2, main=True),
        figure("payload_bytes", "Your own bytes in a full frame", payload, "bytes", 0),
        figure("wire_bytes", "What the frame takes on the wire", wire, "bytes", 0),
        figure("frames_per_s", "Full frames a second", frames_per_s(link, wire), "frames/s", 0),
    ]
    if measured is not None:
        share = 100 * measured / goodput
        rows.append(figure("measured_percent", "Measured, of what is possible", share, "%", 1, main=True))
    return tuple(rows)


def _working(given: Values, payload: int, wire: int, goodput: float) -> tuple[Working, ...]:
    mtu, address = given["mtu"], given["address"]
    stamps = f" − {STAMP_BYTES}" if given["stamps"] == "yes" else ""
    tag = f" + {TAG_BYTES}" if given["tag"] == "yes" else ""
    link = number(given["link_mbps"], 1)
    return (
        Working("Your own bytes", "packet − IP − TCP" + (" − time stamps" if stamps else ""),
                f"{mtu} − {ADDRESS_BYTES[address]} − {TCP_BYTES}{stamps}", f"{payload} bytes"),
        Working("On the wire", "packet + frame + preamble and gap" + (" + tag" if tag else ""),
                f"{mtu} + {FRAME_BYTES} + {GAP_BYTES}{tag}", f"{wire} bytes"),
        Working("Share", "own ÷ wire", f"{payload} ÷ {wire}", f"{number(100 * payload / wire, 2)} %"),
        Working("Your own data", "link × share", f"{link} × {payload} ÷ {wire}", _rate(goodput)),
        Working("In bytes", "÷ 8", f"{number(goodput, 1)} ÷ 8", f"{number(goodput / 8, 1)} MB/s"),
        Working("Frames a second", "link × 10⁶ ÷ (8 × wire)", f"{link} × 10⁶ ÷ (8 × {wire})",
                f"{number(frames_per_s(given['link_mbps'], wire), 0)} frames/s"),
    )  # fmt: skip


def _table(given: Values, share: float) -> Table:
    rows = []
    marked = []
    for i, rate in enumerate(SLOWER_LINKS_MBPS):
        rows.append(
            (f"{number(rate, 0)} Mb/s", f"{number(rate * share, 1)} Mb/s", f"{number(rate * share / 8, 1)} MB/s")
        )
        if rate == given["link_mbps"]:
            marked.append(i)
    return Table(
        title="What each rate of Ethernet gives with these packets",
        columns=(Column("The link says", True), Column("At best you see", True), Column("In bytes", True)),
        rows=tuple(rows),
        note="If you see the figure of a slower line, some part of the link runs at that rate.",
        marked=tuple(marked),
    )


def _drawing(given: Values, payload: int, wire: int) -> Drawing:
    headers = given["mtu"] - payload
    around = wire - given["mtu"]
    parts = (
        Part("Your own data", payload, f"{payload} bytes", "fill-1"),
        Part(f"Headers of {NAMES[given['address']]} and TCP", headers, f"{headers} bytes", "fill-3", hatched=True),
        Part("Frame, preamble and gap", around, f"{around} bytes", "fill-4"),
    )
    description = "; ".join(f"{part.label} {part.text}" for part in parts)
    return strip(f"One full frame of {wire} bytes on the wire", f"From left to right: {description}.", parts)


def _notes(link: float, goodput: float, share: float) -> tuple[Note, ...]:
    hundred = number(100 * share, 0)
    odd = Note(
        "No wired link has that rate",
        f"Wired links show 10, 100, 1000, 2500, 5000 or 10 000 Mb/s, and {number(link, 1)} is none of them. If it is a "
        "wireless link, about half of it arrives, and this sum is not for it. If it is what your internet line is sold "
        "at, put in what your own socket shows.",
    )
    return (
        *(() if link in WIRED_MBPS else (odd,)),
        Note(
            "Bits and bytes",
            f"Links are sold in bits a second, files are counted in bytes of 8 bits. So {_rate(goodput)} and "
            f"{number(goodput / 8, 1)} MB/s are the same speed.",
        ),
        Note(
            f"If you see about {hundred} of 1000",
            f"About {hundred} Mb/s on a link sold as 1000 means that it runs at 100. One end, or a box between, may be "
            "made for 100: many televisions and older boxes are. Otherwise it is the cable, the plug or the socket, "
            "since 1000 needs all four pairs and 100 makes do with two.",
        ),
        Note(
            "How to measure",
            "Between your two machines, wire to wire, for a minute. A test of the internet line measures that line. A "
            "file copy measures the slower disk.",
        ),
        Note(
            "Over the air",
            "Of the rate that a wireless link shows, about half arrives, and all who use the air share that. That is "
            "common practice, no law: measure where you will sit.",
        ),
        Note(
            "Larger packets",
            "Packets of 9000 bytes lift the share by some five points. Every part between the two machines must take "
            "them, or data gets lost; for a film or a game it is not worth it.",
        ),
    )


def _worked_for(given: Values) -> str:
    tag = ", tagged" if given["tag"] == "yes" else ""
    stamps = "with" if given["stamps"] == "yes" else "without"
    return (
        f"a wired link at {number(given['link_mbps'], 1)} Mb/s, packets of {given['mtu']} bytes, "
        f"{NAMES[given['address']]}, {stamps} time stamps{tag}"
    )


calculator = Calculator(
    name="rooms.network",
    version=2,
    title="What does my wired network really carry?",
    summary="Payload, efficiency and the best rate for your own data of a wired link, from its packet size.",
    inputs=(
        NetworkRate(
            key="link_mbps",
            label="Link",
            where="The system's network settings show the rate of the connection; else the slowest of both sockets.",
            low=1,
            high=400_000,
            unit="Mb/s",
            default=1000,
            also=UNITS,
            names=(
                "ethernet",
                "lan",
                "gigabit",
                "port",
                "network port",
                "network speed",
                "link speed",
                "link",
                "connected at",
                "negotiated",
                "wired network",
            ),
        ),
        NetworkRate(
            key="measured_mbps",
            label="What you measured",
            where="Between the two machines, wire to wire, for a minute; a test of the internet line does not count.",
            low=0.1,
            high=400_000,
            unit="Mb/s",
            optional=True,
            also=UNITS,
            names=(
                "speed test",
                "i get",
                "measure",
                "measured",
                "throughput",
                "measured speed",
                "copies at",
                "copy only",
                "copies only",
                "copying at",
                "transfers at",
                "speedtest",
            ),
        ),
        Number(
            key="mtu",
            label="Packet size (MTU)",
            where="1500 unless somebody changed it; the system's network settings show it.",
            low=576,
            high=9216,
            unit="bytes",
            default=1500,
            whole=True,
            extra=True,
            also={"byte": 1, "B": 1},
            names=("mtu", "jumbo frames", "jumbo", "packet size"),
        ),
        Choice(
            key="address",
            label="Addresses",
            where="The system's network settings: four numbers with points are IPv4, groups with colons are IPv6.",
            options=(Option("ipv4", "IPv4", ("ip4",)), Option("ipv6", "IPv6", ("ip6",))),
            default="ipv4",
            extra=True,
        ),
        YesNo(
            where_title=HOW_TO_TELL,
            key="stamps",
            label="TCP time stamps",
            where="On in most systems; it is a setting of the system's network stack.",
            default="yes",
            extra=True,
            names=("timestamps", "time stamps"),
        ),
        YesNo(
            where_title=HOW_TO_TELL,
            key="tag",
            label="VLAN tag",
            where="Yes only if your switch divides the network into tagged virtual ones.",
            options=(Option("no", "no"), Option("yes", "yes")),
            default="no",
            extra=True,
            names=("vlan", "tagged"),
        ),
    ),
    compute=compute,
    worked_for=_worked_for,
    presets=(
        Preset("gigabit", "A link at 1000", {"link_mbps": 1000}),
        Preset("ninety-five", "1000 sold, 95 measured", {"link_mbps": 1000, "measured_mbps": 94.1}),
        Preset("hundred", "A television's socket at 100", {"link_mbps": 100}),
        Preset("fast", "2500 with large packets", {"link_mbps": 2500, "mtu": 9000}),
        Preset("six", "1000 with IPv6", {"link_mbps": 1000, "address": "ipv6"}),
    ),
)
