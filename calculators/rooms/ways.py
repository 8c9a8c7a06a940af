"""rooms.ways: every way to get the picture into another room, judged for one case, and the best of them."""

from __future__ import annotations

from calculators.desk.answer import (
    NO,
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
from calculators.desk.inputs import HOW_TO_CHOOSE, HOW_TO_TELL, Choice, Input, Number, Option, Text, Values, YesNo
from calculators.desk.numbers import number, significant, span
from calculators.desk.svg import Drawing
from calculators.rooms.ethernet.rate_inputs import UNITS, NetworkEstimate
from calculators.rooms.paths import control_ways, direct_ways, network_ways
from calculators.rooms.paths.room_drawing import draw
from calculators.rooms.paths.way import Case, Way, worth
from calculators.rooms.streams.stream_rates import wake_packet_bytes
from calculators.rooms.streams.typical_streams import LIMITS_SOURCE, SOURCE
from calculators.rooms.wording.cautions import (
    EARTHS_FIRST,
    EXTENDER,
    MAINS_ADAPTERS,
    OPEN_DOORS,
    PULLING,
    WAKING,
    WALLS,
)
from calculators.rooms.wording.units import METRES, PIXELS
from calculators.trade.frame_rates import rate_input, say_rate
from calculators.trade.money import AMOUNT_SIGNS, Amount, amount, read_currency

# Which way is tried first where several promise the same: what loses least, then what is laid most easily. A film
# bears delay, so the stream comes before boxes; the hand does not. Common practice, no source.
_ORDER = {
    "film": ("copper", "optical", "stream", "extender", "air", "mixed", "mains", "pair"),
    "desk": ("copper", "optical", "extender", "stream", "mixed", "air", "mains", "pair"),
    "action": ("copper", "optical", "extender", "stream", "mixed", "air", "mains", "pair"),
}
_PRICED = ("copper", "optical", "extender", "stream", "air", "mixed", "mains", "pair", "machine")
_HAND_PRICED = ("usb", "usb_network", "radio")
_PRICE_LABELS = {
    "copper": "Copper cable", "optical": "Glass or booster cable", "extender": "Extender pair",
    "stream": "Stream by wire", "air": "Stream over the air", "mixed": "Sender on a wire",
    "mains": "Mains or coax adapters", "pair": "Wireless pair", "machine": "Second machine",
    "usb": "Long USB", "usb_network": "USB over network-type cable", "radio": "Radio keyboard or pad",
}  # fmt: skip
_SHORT = {
    "copper": "a long copper cable", "optical": "a display cable with glass or booster",
    "extender": "an extender pair", "stream": "a stream by wire", "air": "a stream over the air",
    "mixed": "a stream over the air from a wired sender", "mains": "a stream over mains wiring or coax",
    "pair": "a wireless pair", "machine": "a second small machine there",
}  # fmt: skip
_USES = {"film": "films", "desk": "desktop work", "action": "fast action"}
_WIRES = {"none": "no cable to be laid", "network": "a network-type cable", "any": "any cable"}

SOURCES = (
    *direct_ways.SOURCES,
    *network_ways.SOURCES,
    *control_ways.SOURCES,
    SOURCE,
    LIMITS_SOURCE,
    Source("Wake packet: six bytes of ones and sixteen times the address (1995)", "", "from memory"),
)


def ranked(case: Case, measured: network_ways.Measured) -> list[Way]:
    """Every way that brings the machine's picture across, the best first. The machine stays where it is."""
    order = _ORDER[case.use]
    ways = [*direct_ways.direct_ways(case), *network_ways.network_ways(case, measured)]
    return sorted(ways, key=lambda one: (-worth(one.word), order.index(one.key)))


def case_of(given: Values) -> Case:
    """The case in the inputs."""
    return Case(
        given["distance_m"], given["width"], given["height"], given["refresh"], int(given["depth"]), given["use"],
        given["control"] == "yes", given["wire"],
    )  # fmt: skip


def compute(given: Values) -> Answer:
    """All ways side by side, and the best with its runner-up in words."""
    case = case_of(given)
    measured = network_ways.Measured(given["network_mbps"], given["measured_over"])
    ways = ranked(case, measured)
    fallback = network_ways.carried(case)
    best = ways[0] if ways[0].word != NO else fallback
    second = ways[1] if ways[1].word != NO else fallback
    works = ways[0].word != NO
    hands = control_ways.control_ways(case)
    return Answer(
        headline=_headline(case, best, second, works),
        verdict=_verdict(best, works),
        figures=_figures(given, case, best, second, works),
        working=_working(case, best),
        tables=(*_tables(given, [*ways, fallback], best), _hands(given, hands, case)),
        drawings=(_drawing(case, best),),
        notes=_notes(given, best, works, [*ways, fallback], measured),
        cautions=(EARTHS_FIRST, EXTENDER, MAINS_ADAPTERS, PULLING, WALLS, OPEN_DOORS, WAKING),
        sources=SOURCES,
    )


def _far(case: Case) -> str:
    return f"{number(case.distance_m, 1)} m"


def _late(way: Way) -> str:
    return span(*way.late_ms, "ms", 0)


def _headline(case: Case, best: Way, second: Way, works: bool) -> str:
    if not works:
        return f"Over {_far(case)} nothing will do: carry the machine, or put a second small one in the other room."
    if second.key == best.key or second.key == "machine":
        return f"For {_far(case)} take {_SHORT[best.key]}, {_late(best)} late; else a second small machine there."
    if (best.key, second.key) == ("air", "mixed"):  # the same way, better fed: no second thing to buy
        return (
            f"For {_far(case)} take {_SHORT[best.key]}, {_late(best)} late; with the sender wired to the router it is "
            "steadier."
        )
    return f"For {_far(case)} take {_SHORT[best.key]}, {_late(best)} late; failing that, {_SHORT[second.key]}."


def _verdict(best: Way, works: bool) -> Verdict:
    if not works:
        return Verdict(NO, "Each way fails on length, on rate, on delay, or on what may be laid.", "Not from there.")
    says = {"yes": "That works.", "depends": "Try it first."}[best.word]
    return Verdict(best.word, best.reason, says)


def _figures(given: Values, case: Case, best: Way, second: Way, works: bool) -> tuple[Figure, ...]:
    need = network_ways.needed(case)
    rows = [
        figure("best", "Best way", _SHORT[best.key]),
        figure("runner_up", "Next best", _SHORT[second.key]),
        figure("late", "Late by, without the display", _late(best), main=works),
        figure("delay_ms_low", "Late by, at least", best.late_ms[0], "ms", 0),
        figure("delay_ms_high", "Late by, at most", best.late_ms[1], "ms", 0),
        figure("stream_mbps_low", "A lean stream takes", need.mbps[0], "Mb/s", 1),
        figure("stream_mbps_high", "A rich stream takes", need.mbps[1], "Mb/s", 1),
    ]
    carrier = direct_ways.least_carrier(case, best.displayport)
    if carrier:
        rows.append(figure("cable_gb_s", "A cable must carry", carrier.needed.value / 1e9, "Gb/s", 2))
        rows.append(figure("least_link", "Least link for that", carrier.link.name))
    if case.control:
        hand = control_ways.best_control(case)
        own = hand.name if hand.word != NO else "none"
        rows.append(figure("control", "Keyboard or pad on their own", own))
    price = given.get(f"price_{best.key}")
    if price is not None:
        rows.append(Figure("price", "Price of the best way", price, given["currency"],
                           amount(price, given["currency"])))  # fmt: skip
    return tuple(rows)


def _working(case: Case, best: Way) -> tuple[Working, ...]:
    need = network_ways.needed(case)
    size = f"{case.width} × {case.height} × {number(case.refresh, 3)}"
    lines = [
        Working("A stream", "width × height × refresh × bits ÷ 10⁶",
                f"{size} × ({span(*need.bits, '', 3)}) ÷ 10⁶",
                f"{significant(need.mbps[0], 3)} to {significant(need.mbps[1], 3)} Mb/s"),
        Working("Room it wants", "stream ÷ 0.7", f"{significant(need.mbps[1], 3)} ÷ {network_ways.SHARE}",
                f"{significant(need.mbps[1] / network_ways.SHARE, 3)} Mb/s for the richest"),
    ]  # fmt: skip
    carrier = direct_ways.least_carrier(case, best.displayport)
    if carrier:
        lines.append(
            Working("A cable", "pixel clock × bits, as for any display cable",
                    f"{case.width}×{case.height} at {say_rate(case.refresh)}, {case.depth} bits",
                    f"{number(carrier.needed.value / 1e9, 2)} Gb/s: {carrier.link.name}")
        )  # fmt: skip
    return tuple(lines)


def _priced(given: Values, title: str, keys: list[str]) -> tuple[tuple[Column, ...], list[tuple[str, ...]]]:
    """A column of prices for these keys, or none at all where no price was typed."""
    prices = [given.get(f"price_{key}") for key in keys]
    if all(price is None for price in prices):
        return (), [() for _ in keys]
    words: list[tuple[str, ...]] = [("–" if price is None else amount(price, given["currency"]),) for price in prices]
    return (Column(title, True),), words


def _named(way: Way) -> str:
    name = _SHORT[way.key]
    return name[:1].upper() + name[1:]


def _tables(given: Values, ways: list[Way], best: Way) -> tuple[Table, ...]:
    marked = (next(i for i, one in enumerate(ways) if one.key == best.key),)
    column, prices = _priced(given, "Price", [one.key for one in ways])
    return (
        Table(
            title="Every way",
            columns=(Column("Way"), Column("Does it"), Column("Because"), *column),
            rows=tuple((_named(one), one.word, one.reason, *price) for one, price in zip(ways, prices, strict=True)),
            note="Prices are as you typed them." if column else "",
            marked=marked,
        ),
        Table(
            title="How far, how late, what is lost",
            columns=(Column("Way"), Column("Reaches"), Column("Late by", True), Column("Loses")),
            rows=tuple((_named(one), one.reach, _late(one), one.loses) for one in ways),
            note="Reaches: common practice where nothing else is said. Late: without the display's own time, which is "
            "the same for all.",
            marked=marked,
        ),
        Table(
            title="The hand, and what to lay",
            columns=(Column("Way"), Column("Control and sound"), Column("To lay")),
            rows=tuple((_named(one), one.control, one.lay) for one in ways),
            marked=marked,
        ),
    )


def _adds(hand: control_ways.Control) -> str:
    """What a way for the hand adds to its delay, in a cell beside its reach: a phone has room for four columns."""
    return span(*hand.late_ms, "ms", 0)


def _hands(given: Values, hands: tuple[control_ways.Control, ...], case: Case) -> Table:
    column, prices = _priced(given, "Price", [one.key for one in hands])
    return Table(
        title="Keyboard, mouse or pad alone",
        columns=(Column("Way"), Column("Does it"), Column("Reaches, and adds"), Column("To lay"), *column),
        rows=tuple(
            (one.name[:1].upper() + one.name[1:], one.word, f"{one.reach}; {_adds(one)}", one.lay, *price)
            for one, price in zip(hands, prices, strict=True)
        ),
        note=f"For {_far(case)}. Needed beside a way that carries the picture only; a stream carries the hand itself.",
    )


def _drawing(case: Case, best: Way) -> Drawing:
    back = f"The hand: {best.control.partition(';')[0]}" if case.control else ""
    label = best.name[:1].upper() + best.name[1:]
    shown = f"{label}, {_far(case)}" if best.key != "machine" else label
    return draw(
        "The way from room to room",
        f"Two rooms with a wall between. From the machine to the screen: {shown}."
        + (f" {back}, drawn as a dashed line back." if back else ""),
        best.key, f"{label}: {_late(best)} late", back, _far(case),
    )  # fmt: skip


def _notes(
    given: Values, best: Way, works: bool, ways: list[Way], measured: network_ways.Measured
) -> tuple[Note, ...]:  # fmt: skip
    notes = [Note("On one condition", best.condition), Note("Do this first", best.first)]
    priced = [(price, one) for one in ways if one.word != NO and (price := given.get(f"price_{one.key}")) is not None]
    if len(priced) > 1:
        price, cheapest = min(priced, key=lambda pair: pair[0])
        notes.append(
            Note(
                "The cheapest that may do",
                f"Of the prices that you typed, {_SHORT[cheapest.key]} is the lowest at "
                f"{amount(price, given['currency'])}: {'surely' if cheapest.word == 'yes' else 'perhaps'} enough.",
            )
        )
    if given["wire"] == "none" and measured.known and measured.where == "wire":
        notes.insert(
            0,
            Note(
                "There is a wire, then",
                "You measured over a wire, and yet say that no cable may be laid. If that wire stays, choose 'a "
                "network-type cable, or it is there', and the stream by wire is judged by what you measured.",
            ),
        )
    if given["wire"] == "network":
        notes.append(
            Note(
                "One cable, one job",
                "A network-type cable carries either the network or an extender pair, never both. As a network it "
                "serves everything else in that room, too.",
            )
        )
    notes.append(
        Note(
            "Waking the machine from afar",
            f"Most boards wake on a packet of {wake_packet_bytes()} bytes that holds their address sixteen times. It "
            "works by wire and on the local network; over the air few machines wake.",
        )
    )
    if not works:
        notes.append(
            Note(
                "What would change that",
                "A cable that may be laid, a shorter way round, a smaller picture or fewer frames. Change one of them "
                "above and look again.",
            )
        )
    return tuple(notes)


def _worked_for(given: Values) -> str:
    control = "with" if given["control"] == "yes" else "without"
    return (
        f"{_USES[given['use']]} of {given['width']}×{given['height']} at {say_rate(given['refresh'])} over "
        f"{number(given['distance_m'], 1)} m, {control} control, {_WIRES[given['wire']]}"
    )


def _price_input(key: str) -> Number:
    return Amount(
        key=f"price_{key}", label=_PRICE_LABELS[key], group="Prices", low=0, high=1_000_000, places=2, optional=True,
        extra=True, also=AMOUNT_SIGNS, where="On the offer, with everything that belongs to it and with delivery.",
    )  # fmt: skip


def _size(key: str, label: str, default: int, where: str, names: tuple[str, ...] = ()) -> Input:
    return Number(
        key=key, label=label, group="The picture", low=64, high=16_384, unit="px", default=default, whole=True,
        where=where, names=names, also=PIXELS,
    )  # fmt: skip


calculator = Calculator(
    name="rooms.ways",
    version=3,
    title="How do I get the picture into another room?",
    summary="Cable, boxes, stream or radio from room to room: what carries the mode, how late, and what it asks.",
    inputs=(
        Number(
            where_title=HOW_TO_TELL,
            key="distance_m", label="Length of the way", group="The way", low=1, high=300, unit="m", default=10,
            also=METRES,
            where="A string along the way that the cable would take, round corners and up walls, plus a metre.",
            names=("distance", "away", "length", "far"),
        ),
        Choice(
            where_title=HOW_TO_TELL,
            key="wire", label="What may be laid", group="The way", default="none",
            where="What is in the wall already, and what landlord, family and local code allow.",
            options=(Option("none", "no cable", ("no cable", "no wires", "no wire", "rented", "no drilling")),
                     Option("network", "a network-type cable, or it is there",
                            ("cat 6", "cat6", "cat 6a", "cat6a", "cat 7", "cat7", "cat 5", "cat5", "cat 5e", "cat5e",
                         "cat 8", "cat8", "ethernet", "lan", "lay network cable",
                         "network cable laid", "network cable in the wall", "network socket")),
                     Option("any", "any cable", ("any cable", "conduit"))),
            names=("wire", "cable"),
        ),
        _size("width", "Width", 3840, "The other screen's own resolution.", ("resolution", "4k", "1080p", "1440p")),
        _size("height", "Height", 2160, "The second number of the resolution, such as the 2160 in 3840×2160."),
        rate_input(
            key="refresh", label="Refresh", group="The picture", default=60,
            where="What the other screen shows; its menu or the system's display settings list it.",
            names=("hz", "hertz", "fps", "refresh rate"),
        ),
        Choice(
            key="depth", label="Bits a channel", group="The picture", default="8", extra=True,
            where="10 for HDR; the system's advanced display settings show it.",
            options=(Option("8", "8 bits"), Option("10", "10 bits", ("hdr", "10 bit"))), names=("bit depth",),
        ),
        Choice(
            where_title=HOW_TO_CHOOSE,
            key="use", label="What for", group="The picture", default="film",
            where="Fast action is a game that punishes delay; desktop work is mouse and text; a film only runs.",
            options=(Option("film", "films", ("movie", "series", "watching", "films only", "only films")),
                     Option("desk", "desktop work", ("office", "work", "typing")),
                     Option("action", "fast action",
                            ("game", "gaming", "shooter", "play", "racing game", "racing games"))),
        ),
        YesNo(
            where_title=HOW_TO_TELL,
            key="control", label="Keyboard, mouse or pad there", group="The way", default="yes",
            where="Yes if somebody sits in the other room and steers; no if the picture only runs.",
            names=("controller", "keyboard", "mouse", "gamepad", "pad"),
        ),
        NetworkEstimate(
            key="network_mbps", label="What arrives", group="The network", low=0.1, high=400_000, unit="Mb/s",
            start_with="unsure", also=UNITS, choices=network_ways.NETWORK_CHOICES,
            unsure_low=network_ways.UNSURE_MBPS[0], unsure_high=network_ways.UNSURE_MBPS[1],
            where="Measured between the two machines, steady for a minute; a test of the internet line does not count.",
            names=("network", "bandwidth", "throughput", "network speed"),
        ),
        Choice(
            where_title=HOW_TO_TELL,
            key="measured_over", label="Measured over", group="The network", default="unsure", extra=True,
            where="How the two machines were joined while you measured.",
            options=(Option("unsure", "not sure"), Option("wire", "a wire", ("wired", "ethernet", "lan")),
                     Option("air", "the air", ("wireless", "wifi", "wi-fi", "wlan", "mesh"))),
        ),
        *(_price_input(key) for key in (*_PRICED, *_HAND_PRICED)),
        Text(
            key="currency", label="Currency", group="Prices", default="€", example="€", longest=40, extra=True,
            shape="a currency sign or code of at most eight characters, without digits", parse=read_currency,
            where="Whatever stands on the offers. Nothing is converted, so use one currency for all.",
        ),
    ),
    compute=compute,
    worked_for=_worked_for,
    presets=(
        Preset("film-wire", "Films, 15 m, a network-type cable",
               {"distance_m": 15, "use": "film", "control": "no", "wire": "network", "network_mbps": "wire-1000"}),
        Preset("game-any", "A game, 10 m, any cable", {"distance_m": 10, "use": "action", "wire": "any"}),
        Preset("game-air", "A game, no cable",
               {"distance_m": 10, "use": "action", "wire": "none", "network_mbps": "air-wall"}),
        Preset("desk-far", "Desktop, 40 m, any cable",
               {"distance_m": 40, "use": "desk", "wire": "any", "width": 2560, "height": 1440}),
        Preset("fast", "2160 at 120 and 10 bits, 8 m",
               {"distance_m": 8, "refresh": 120, "depth": 10, "use": "action", "wire": "any"}),
        Preset("house", "Films at the far end, 60 m, no cable",
               {"distance_m": 60, "use": "film", "control": "no", "wire": "none", "width": 1920, "height": 1080}),
    ),
)  # fmt: skip
