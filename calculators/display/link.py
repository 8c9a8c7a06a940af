"""display.link: will this cable and port carry a mode, and if not, what should one give up first?"""

from __future__ import annotations

from dataclasses import replace

from calculators.desk.answer import (
    COMMON_PRACTICE,
    DEPENDS,
    FROM_MEMORY,
    NO,
    YES,
    Answer,
    Caution,
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
from calculators.desk.inputs import HOW_TO_CHOOSE, HOW_TO_TELL, Choice, Input, Option, Values, YesNo
from calculators.desk.numbers import listed, number
from calculators.desk.svg import SMALL, WIDTH, Drawing, Sketch, wrap
from calculators.display.links.any_link import any_link
from calculators.display.links.compromises import (
    Offer,
    Wish,
    best_offer,
    offers,
    say_together,
    together,
)
from calculators.display.links.every_link import (
    FAMILIES,
    VERDICT_WORDS,
    Every,
    all_links,
    asked,
    every_link,
    refuse_too_slow,
)
from calculators.trade.frame_rates import SOURCE as RATE_SOURCE
from calculators.trade.frame_rates import RateChoice, say_rate
from calculators.trade.links.fitting import CLOCK_MARGIN, Fit, gigabits
from calculators.trade.links.link_input import OPEN, OPEN_WORDS, link_input
from calculators.trade.links.link_rates import (
    DISPLAYPORT,
    FIXED_RATE,
    LINKS,
    TMDS,
    Link,
    bits_a_pixel,
    link,
    payload_bits,
    raw_bits,
)
from calculators.trade.modes.modes import BLANKING_WORDS, USUAL, Mode, blanking_inputs, mode_inputs
from calculators.trade.modes.modes import SOURCES as MODE_SOURCES
from calculators.trade.modes.picture_inputs import DEPTH_NAMES, DEPTHS, FORMAT_NAMES, SAMPLING_NAMES
from calculators.trade.modes.unknown_blanking import SOURCE as UNTOLD_SOURCE

_MOST_BARS = 7  # on a screen card
_USES = (
    Option("text", "text and desktop work", ("work", "office", "desktop", "text", "productivity")),
    Option("film", "films and television", ("film", "films", "movies", "movie", "tv shows")),
    Option("games", "fast games", ("gaming", "games", "shooter")),
)

SOURCES = (
    Source("VESA DisplayPort 1.4 and 2.1", "link rates, channel coding, pixel packing", FROM_MEMORY),
    Source("HDMI 1.4b, 2.0 and 2.1", "TMDS limits, pixel encodings, fixed-rate link", FROM_MEMORY),
    Source("DVI 1.0", "165 MHz a link, two links, RGB", FROM_MEMORY),
    UNTOLD_SOURCE,
    Source("HDMI 2.2", "64, 80 and 96 Gb/s, taken to be coded as the rates before them", FROM_MEMORY),
    Source("VESA DSC 1.2a", "least bits a pixel", FROM_MEMORY),
    Source("HDMI Forum, published statements on 3840×2160 at 120", "10 bits at 40 Gb/s, 12 at 48", FROM_MEMORY),
    MODE_SOURCES["cvt"],
    MODE_SOURCES["cta"],
    RATE_SOURCE,
    Source("Order of what to give up", "", COMMON_PRACTICE),
)


def compute(given: Values) -> Answer:
    """One mode against one link, and against all the others."""
    if given["link"] in OPEN:
        return any_link(_wish(given, link("dp-hbr3")), given["link"], SOURCES, CAUTION)
    wish = _wish(given, link(given["link"]))
    made = wish.mode()
    refuse_too_slow(made)
    outcome = wish.fit()
    tried = [] if outcome.word == YES else offers(wish, given["use"])
    best = best_offer(tried)
    every = every_link(wish)
    tables = (_give_up_table(tried, best, outcome),) if tried else ()
    return Answer(
        headline=_headline(wish, outcome),
        verdict=Verdict(outcome.word, outcome.reason, _says(outcome)),
        figures=_figures(wish, made, outcome, best),
        working=_working(wish, made, outcome),
        tables=(*tables, all_links(wish, every, wish.link.key)),
        drawings=(_drawing(wish, every),),
        notes=_notes(wish, made, outcome, tried, best, given["use"]),
        cautions=(CAUTION,),
        sources=SOURCES,
    )


CAUTION = Caution(
    "machine",
    "Do not bend a cable tighter than its maker allows, and push no plug in by force.",
    "A cable inside a wall has to meet the fire rules for it: ask your local code or an electrician.",
    short="Bend no cable too tightly.",
    tag="No kinks",
)


def _wish(given: Values, one: Link) -> Wish:
    return Wish(
        width=given["width"],
        height=given["height"],
        refresh=given["refresh"],
        depth=int(given["depth"]),
        sampling=given["sampling"],
        blanking=given["blanking"],
        compressed=given["compressed"] == "yes",
        link=one,
        lanes=int(given["lanes"]),
        h_total=given.get("h_total"),
        v_total=given.get("v_total"),
        content=float(given["content"]),
    )


def _headline(wish: Wish, fit: Fit) -> str:
    room = f"the {gigabits(fit.payload)} that {wish.link.say(wish.lanes)} carries"
    mode, needs = asked(wish), f"{asked(wish)} needs {gigabits(fit.needed)}"
    if fit.kind == "format":
        return f"{mode} does not go over {wish.link.name}, which carries RGB at 8 bits."
    if fit.kind == "second link":
        return f"{mode} goes over {wish.link.name} only where both ends use its second link for the further bits."
    if fit.kind == "untold":
        limit = _clock_limit(fit)
        return f"{mode} fits {wish.link.say(wish.lanes)} if your display's pixel clock for it is at most {limit}."
    if fit.kind == "published":
        return f"{mode} is published as carried by {wish.link.say(wish.lanes)}, where blanking is sent compressed."
    if fit.kind == "bracket":
        least = number(fit.active.value / 1e9, 2)
        return f"{mode} needs {least} to {gigabits(fit.needed)} of {room}: only trying tells."
    if fit.kind == "edge":
        return f"{needs} of {room}: card and display decide."
    if fit.squeezed:
        return f"{needs} over {wish.link.say(wish.lanes)}, and fits only if card and display both compress."
    if fit.word == NO:
        return f"{needs}, more than {room}."
    used = fit.needed.over * fit.payload.under * 100 / (fit.needed.under * fit.payload.over)
    return f"{needs} and fits: {number(used, 0)} % of {room}."


def _clock_limit(fit: Fit) -> str:
    """The highest pixel clock that is sure to fit, rounded down."""
    return f"{number((fit.clock_limit or fit.payload).floor() // 1_000_000, 0)} MHz"


def _says(fit: Fit) -> str:
    """The verdict as one would answer somebody who asks whether it fits."""
    if fit.word != DEPENDS:
        return "It fits." if fit.word == YES else "It does not fit."
    return {
        "edge": "Only just, if at all.",
        "compressed": "Only compressed.",
        "bracket": "It may fit: try it.",
        "untold": "It may fit: look up one number.",
        "second link": "Hardly ever.",
    }[fit.kind]


def _figures(wish: Wish, made: Mode, fit: Fit, best: Offer | None) -> tuple[Figure, ...]:
    needed, payload = fit.needed.value / 1e9, fit.payload.value / 1e9
    bits = bits_a_pixel(wish.link, wish.sampling, wish.depth)
    used = fit.needed.over * fit.payload.under * 100 / (fit.needed.under * fit.payload.over)
    # where blanking travels compressed, or the display's own is shorter, more than everything may fit: no reader sees
    # 101 % there
    odd = used > 100 and fit.word != NO
    rows = [
        figure("needed_gb_s", "Needed", needed, "Gb/s", main=True),
        figure("payload_gb_s", "The link carries", payload, "Gb/s", main=True),
        figure("used_percent", "Used", used, "%", 1, main=not odd, only_json=odd),
        figure("headroom_percent", "Left over", 100 - used, "%", 1, only_json=odd),
        figure("pixel_clock_mhz", "Pixel clock", made.clock_mhz, "MHz", 3),
        figure("bits_per_pixel", "Bits a pixel on this link", bits, "bit"),
        figure("active_gb_s", "The visible picture alone", fit.active.value / 1e9, "Gb/s"),
        figure("raw_gb_s", "Raw rate of the link", raw_bits(wish.link, wish.lanes).value / 1e9, "Gb/s"),
    ]
    if fit.needed_least and fit.needed_most:
        least, most = fit.needed_least.value / 1e9, fit.needed_most.value / 1e9
        rows.append(figure("needed_least_gb_s", "Needed with the least blanking displays use", least, "Gb/s"))
        rows.append(figure("needed_most_gb_s", "Needed with the most", most, "Gb/s"))
    if fit.line_coded:
        rows.append(figure("line_coded_gb_s", "After line coding alone", fit.line_coded.value / 1e9, "Gb/s"))
    if fit.usable:
        rows.append(figure("usable_gb_s", "With all margins of the standard", fit.usable.value / 1e9, "Gb/s"))
    if fit.character:
        rows.append(figure("character_clock_mhz", "Character clock", fit.character.value / 1e6, "MHz", 3))
    if fit.compressed:
        rows.append(figure("compressed_gb_s", "At the strongest compression", fit.compressed.value / 1e9, "Gb/s"))
    if best and fit.word == NO:
        rows.append(figure("give_up_first", "Give up first", best.becomes))
    return tuple(rows)


def _working(wish: Wish, made: Mode, fit: Fit) -> tuple[Working, ...]:
    clock = f"{number(made.clock_mhz, 3)} MHz"
    lines = [
        Working(
            "Pixel clock",
            BLANKING_WORDS[made.by],
            f"{made.h_total} × {made.v_total} with blanking at {say_rate(wish.refresh)}",
            clock,
        ),
        _needed_line(wish, fit, clock),
        _payload_line(wish, fit),
    ]
    if fit.needed_least and fit.needed_most:
        lines.append(
            Working(
                "Least, with a display's own timing",
                "1.02 × width × height × refresh × bits",
                f"1.02 × {wish.width} × {wish.height} × {say_rate(wish.refresh)}",
                gigabits(fit.needed_least),
            )
        )
        most = "the larger of the usual timing and CTA-861's, where that lists the mode"
        lines.append(Working("Most", most, "", gigabits(fit.needed_most)))
    if fit.usable:
        lines.append(
            Working("With all margins", "super blocks, error correction, mapping, 0.3 %", "", gigabits(fit.usable))
        )
    if wish.link.family == DISPLAYPORT:
        margin = gigabits(fit.needed.times(*CLOCK_MARGIN))
        lines.append(Working("With a 0.6 % clock margin", "needed × 1.006", f"{gigabits(fit.needed)} × 1.006", margin))
    return tuple(lines)


def _needed_line(wish: Wish, fit: Fit, clock: str) -> Working:
    if fit.character:
        rule = {"422": "pixel clock", "420": "pixel clock × depth ÷ 16"}.get(wish.sampling, "pixel clock × depth ÷ 8")
        character = f"{number(fit.character.value / 1e6, 3)} MHz"
        return Working("Needed", f"24 × character clock ({rule})", f"24 × {character}", gigabits(fit.needed))
    bits = bits_a_pixel(wish.link, wish.sampling, wish.depth)
    return Working("Needed", "pixel clock × bits a pixel", f"{clock} × {bits}", gigabits(fit.needed))


def _payload_line(wish: Wish, fit: Fit) -> Working:
    one, raw = wish.link, gigabits(raw_bits(wish.link, wish.lanes))
    if one.family == TMDS:
        return Working("Carried", "24 bits a clock", f"24 × {one.lane_mbps} MHz", gigabits(fit.payload))
    if one.family == FIXED_RATE:
        coded = gigabits(fit.line_coded) if fit.line_coded else ""
        numbers = f"{raw} × 16 ÷ 18 = {coded}, × 251 ÷ 255"
        return Working("Carried", "raw rate × 16b/18b, then its error correction", numbers, gigabits(fit.payload))
    if one.long_code:
        return Working("Carried", "raw rate × 96.71 % (128b/132b with its overhead)", f"{raw} × 0.9671",
                       gigabits(fit.payload))  # fmt: skip
    if wish.compressed:
        return Working("Carried", "raw rate × 8b/10b, less 2.4 % error correction", f"{raw} × 0.8 × 0.976",
                       gigabits(fit.payload))  # fmt: skip
    return Working("Carried", "raw rate × 8b/10b", f"{raw} × 0.8", gigabits(fit.payload))


def _give_up_table(tried: list[Offer], best: Offer | None, fit: Fit) -> Table:
    rows = []
    for rank, offer in enumerate(tried, 1):
        rate = offer.fit.compressed if offer.fit.squeezed or offer.key == "compression" else None
        needs = gigabits(rate or offer.fit.needed)
        rows.append((f"{rank}. {offer.name}: {offer.becomes}", needs, VERDICT_WORDS[offer.fit.word], offer.costs))
    return Table(
        title="What to give up, least painful first" if fit.word == NO else "What would make it certain",
        columns=(Column("Give up"), Column("Then needs", True), Column("Fits"), Column("What the eye loses")),
        rows=tuple(rows),
        note="Each line stands for itself and leaves the rest as you wanted it.",
        marked=(tried.index(best),) if best else (),
    )


def _drawing(wish: Wish, every: Every) -> Drawing:
    """A bar for what each link carries, with a line across each family at what the mode needs there."""
    own = next(outcome for entry, outcome in every if entry.key == wish.link.key)
    most = max(outcome.needed.value for _, outcome in every)
    full = max(most * 1.5, own.payload.value * 1.05)
    row, head = 36.0, 44.0
    notes = wrap("Bar: what a link carries. Dashed line: what the mode needs there. A bar that reaches past the line "
                 "is enough; one that fills the width goes on.", WIDTH - 4, SMALL)  # fmt: skip
    height = len(LINKS) * row + len(FAMILIES) * head + 16 * len(notes) + 8
    sketch = Sketch("Needed against carried, link by link", f"For {asked(wish)}. {_described(every)}", height)
    y = 0.0
    for family, title in FAMILIES:
        members = [(entry, outcome) for entry, outcome in every if entry.family == family]
        needed = members[0][1].needed
        end = 2 + (WIDTH - 4) * min(needed.value / full, 1)
        sketch.text(2, y + 16, title, bold=True)
        sketch.text(WIDTH - 2, y + 16, f"needs {gigabits(needed)}", anchor="end", size=SMALL, ink="mark")
        y += head - 12
        for entry, outcome in members:
            _row(sketch, entry, outcome, y, full, own=entry.key == wish.link.key)
            sketch.line(
                end, y + 14, end, y + 31, ink="mark", width=1.5, dash="4 3"
            )  # at the bar, not through its words
            y += row
        y += 12
    for note in notes:
        y += 16
        sketch.text(2, y - 4, note, size=SMALL, ink="soft")

    def for_card(width: float, height: float, size: float) -> Drawing | None:
        """The family of the link in question alone: a picture has no room for all."""
        rows = [
            Bar(_short(entry), min(outcome.payload.value, full),
                f"{gigabits(outcome.payload)}: {VERDICT_WORDS[outcome.word]}", entry.key == wish.link.key)
            for entry, outcome in every if entry.family == wish.link.family
        ]  # fmt: skip
        place = next(i for i, row in enumerate(rows) if row.mark)
        begin = max(min(place - 3, len(rows) - _MOST_BARS), 0)
        rows = rows[begin : begin + _MOST_BARS]
        needed = Limit(own.needed.value, f"needs {gigabits(own.needed)}")
        made = bars(sketch.title, sketch.description, rows, limits=[needed], full=full)
        return made.for_card(width, height, size) if made.for_card else made

    return sketch.done(for_card)


def _short(entry: Link) -> str:
    name = entry.name.replace("DisplayPort ", "").replace("HDMI ", "")
    return name.replace("fixed rate, ", "").replace("TMDS at ", "")


def _described(every: Every) -> str:
    """The drawing in words: which links are enough, which may be, which are not."""
    parts = []
    for word, title in ((YES, "Enough"), (DEPENDS, "It depends"), (NO, "Not enough")):
        members = [entry.name.replace(",", " of") for entry, outcome in every if outcome.word == word]
        if members:
            parts.append(f"{title}: {listed(members)}.")
    return " ".join(parts)


_INKS = {YES: "yes", DEPENDS: "depends", NO: "no"}


def _row(sketch: Sketch, entry: Link, fit: Fit, y: float, full: float, own: bool) -> None:
    name = _short(entry)
    sketch.text(2, y + 12, f"{name}{' (yours)' if own else ''}", size=SMALL, bold=own)
    sketch.text(WIDTH - 2, y + 12, f"{gigabits(fit.payload)}: {VERDICT_WORDS[fit.word]}", size=SMALL, anchor="end",
                ink=_INKS[fit.word], bold=own)  # fmt: skip
    wide = (WIDTH - 4) * min(fit.payload.value / full, 1)
    sketch.rect(2, y + 17, wide, 11, fill="mark" if own else "fill-2")
    if fit.payload.value > full:  # an arrow head: the bar goes on
        right = WIDTH - 2.0
        sketch.path([(right - 8, y + 17), (right, y + 22.5), (right - 8, y + 28)], ink="paper", width=1.5)


def _notes(wish: Wish, made: Mode, fit: Fit, tried: list[Offer], best: Offer | None, use: str) -> tuple[Note, ...]:
    notes = []
    if fit.kind == "untold":
        notes.append(_read_off(wish, fit))
    if fit.word != YES:
        notes.append(_advice(wish, fit, best, use))
    if fit.more:
        notes.append(Note("What decides", fit.more))
    if wish.link.key.startswith("usb-c"):
        notes.append(
            Note(
                "USB-C is a shape",
                "A USB-C socket may put out no picture at all, and an older one stops at HBR2. The computer's data "
                "sheet says so. A dock with fast USB data keeps two of the four lanes for it.",
            )
        )
    if made.width != wish.width:
        notes.append(
            Note(
                "The width was rounded",
                f"This blanking counts in cells of eight pixels, so {wish.width} became {made.width}.",
            )
        )
    if wish.link.family == FIXED_RATE:
        notes.append(
            Note(
                "Why clock times bits misleads here",
                "HDMI's fixed-rate link sends the blanking compressed. So it can carry a mode whose clock times bits "
                "is above its payload: the picture has to fit in full, the blanking does not.",
            )
        )
    if wish.link.family != DISPLAYPORT and not wish.link.dvi and wish.sampling == "422":
        notes.append(
            Note(
                "4:2:2 costs the same at 8, 10 and 12 bits",
                "HDMI packs 4:2:2 into 24 bits a pixel whatever the depth, so take 12 bits if they are offered. "
                "DisplayPort spends 16, 20 or 24.",
            )
        )
    if wish.sampling == "420" or any(o.key == "420" for o in tried):
        notes.append(
            Note(
                "4:2:0 only where the display lists it",
                "A display declares 4:2:0 mode by mode, mostly for 3840×2160 at 50 and 60 and above. In any other "
                "mode it is not offered, whatever the link could carry.",
            )
        )
    if wish.compressed and wish.link.family == DISPLAYPORT and not wish.link.long_code:
        plain, left = (gigabits(payload_bits(wish.link, wish.lanes, on)) for on in (False, True))
        notes.append(
            Note(
                f"Why {left} here and {plain} elsewhere",
                "With compression this kind of link turns on its error correction, which takes 2.4 % of what it "
                f"carries: of {plain} it leaves {left}.",
            )
        )
    if wish.compressed and wish.link.family == TMDS:
        notes.append(Note("No compression here", "HDMI's older transmission has none; the answer is the same without."))
    notes.append(
        Note(
            "A version number is not a rate",
            "A box or a data sheet that names a version of a standard promises no rate: a port of the newest version "
            "may run at the oldest one's. Look for the rate itself: Gb/s, MHz, HBR or UHBR, or a cable's mark.",
        )
    )
    notes.append(
        Note(
            "The slowest part decides",
            "Card, dock or adapter, cable and display agree on the highest rate that all of them manage. "
            + (
                "Over USB-C, two of the four lanes may be busy with USB data."
                if wish.link.family == DISPLAYPORT
                else "A television may offer its full rate on some sockets only, and only after a setting in its menu."
            ),
        )
    )
    return tuple(notes)


def _read_off(wish: Wish, fit: Fit) -> Note:
    """The note on the one number to look up, the pixel clock, where the blanking is not known."""
    limit = _clock_limit(fit)
    return Note(
        "The one number to look up",
        f"Displays of {number(wish.refresh, 3)} Hz have timings of their own. Look for this mode's pixel clock in what "
        f"the display declares, or in the driver's page for custom modes: up to {limit} it fits. The page "
        "'How do I save what my display declares?' shows how. Or give the totals above, under 'More, if you know it'.",
    )


def _advice_words(best: Offer) -> str:
    """What to do, as one says it: 'go down to 8 bits a channel', 'switch compression on'."""
    ways = {
        "compression": "switch compression on",
        "blanking": "take the second reduced blanking",
        "both": f"take {best.becomes} together",
        "depth": f"go down to {best.becomes} a channel",
        "422": f"take {best.becomes}",
        "420": f"take {best.becomes}",
    }
    return ways.get(best.key, f"go down to {best.becomes}")


def _advice(wish: Wish, fit: Fit, best: Offer | None, use: str) -> Note:
    label = next(o.label for o in _USES if o.value == use)
    if fit.kind == "format":
        return Note("Set it back", "Choose RGB with 8 bits: DVI has nothing else. Or use another socket.")
    if best:
        may = "" if best.fit.word == YES else " That may do: see its line."
        costs = best.costs
        if costs.startswith(("Nothing", "Next to nothing", "Hardly")):
            costs = f"That costs {costs[:1].lower()}{costs[1:]}"
        first = f"{_advice_words(best)}. {costs}{may}"
        several = together(wish, use) if best.key in ("slow", "film", "resolution", "420") else None
        if several and len(several[0]) > 1 and best.becomes not in several[0]:  # else that one alone is milder
            first += f" Or several milder things: {say_together(*several)}."
        if fit.word == DEPENDS:
            begin = {
                "compressed": "If both ends offer compression, nothing need be given up.",
                "untold": "If the clock is low enough, nothing need be given up.",
            }.get(fit.kind, "Try the mode: if it is offered and holds, nothing need be given up.")
            return Note("Try it first", f"{begin} If not, for {label}: {first}")
        return Note("Give up first", f"For {label}: {first}")
    several = together(wish, use)
    if several:
        return Note("No single thing is enough", f"For {label}, {say_together(*several)}, would do.")
    faster = next(
        (e.name for e in LINKS if e.family == wish.link.family
         and replace(wish, link=e).fit().word == YES), "")  # fmt: skip
    if faster:
        return Note("A faster link", f"Nothing sensible to give up brings it in. {faster} would carry it.")
    return Note("Out of reach", "Nothing sensible to give up brings it in, nor does any faster rate of this kind.")


def _worked_for(given: Values) -> str:
    wish = _wish(given, link("dp-hbr3" if given["link"] in OPEN else given["link"]))
    over = OPEN_WORDS[given["link"]] if given["link"] in OPEN else wish.link.say(wish.lanes)
    blanking = "" if wish.blanking == USUAL and wish.h_total is None else ", its blanking told"
    return f"{asked(wish)} over {over}{blanking}"


def _inputs() -> tuple[Input, ...]:
    return (
        *mode_inputs("The mode"),
        *(replace(one, extra=True) for one in blanking_inputs("blanking", USUAL, "The mode")),
        Choice(
            key="depth",
            group="The picture",
            label="Bits a channel",
            names=DEPTH_NAMES,
            where="The driver's display page as colour depth, or the system's advanced display settings.",
            options=DEPTHS,
            default="8",
        ),
        Choice(
            key="sampling",
            group="The picture",
            label="Colour format",
            names=FORMAT_NAMES,
            where="The driver's display page, as colour or pixel format; a television's status page.",
            options=(
                Option("rgb", "RGB"),
                Option("444", "YCbCr 4:4:4", SAMPLING_NAMES["444"]),
                Option("422", "YCbCr 4:2:2", SAMPLING_NAMES["422"]),
                Option("420", "YCbCr 4:2:0", SAMPLING_NAMES["420"]),
            ),
            default="rgb",
        ),
        link_input("The link", unsure=True),
        Choice(
            key="lanes",
            group="The link",
            label="Lanes",
            where=(
                "DisplayPort only: four on a full-size socket; two where a USB-C dock carries fast USB data too. "
                "The dock's data sheet says so. The choices called USB-C have their lanes in the name."
            ),
            options=(
                Option("1", "one lane", ("1 lane",)),
                Option("2", "two lanes", ("2 lanes", "x2")),
                Option("4", "four lanes", ("4 lanes", "x4")),
            ),
            default="4",
            extra=True,
        ),
        YesNo(
            key="compressed",
            group="The link",
            label="Compression offered at both ends",
            names=("dsc", "display stream compression", "compression"),
            where="The data sheets of card and display, as DSC or display stream compression.",
            default="no",
            extra=True,
        ),
        Choice(
            where_title=HOW_TO_CHOOSE,
            key="use",
            group="What it is for",
            label="What the screen is for",
            where="Your own choice: it decides what should be given up first.",
            options=_USES,
            default="text",
        ),
        RateChoice(
            where_title=HOW_TO_TELL,
            key="content",
            group="What it is for",
            label="Frames a second of your films",
            names=("film rate", "video frame rate"),
            where="24 for cinema, 25 or 50 for European television, 30 or 60 for the rest; a player's information "
            "page shows it. It counts for films only.",
            options=tuple(
                Option(rate, f"{rate} frames a second")
                for rate in ("23.976", "24", "25", "29.97", "30", "50", "59.94", "60")
            ),
            default="24",
            extra=True,
        ),
    )


calculator = Calculator(
    name="display.link",
    title="Will this cable and port carry my resolution at my refresh rate?",
    summary="A mode against a link's real payload, what to give up first, and which links would be enough.",
    inputs=_inputs(),
    compute=compute,
    version=3,
    worked_for=_worked_for,
    presets=(
        Preset(
            "uhd-120-edge",
            "3840×2160 at 120 over four 8.1 Gb/s lanes",
            {"refresh": 120, "blanking": "cvt-rb2", "link": "dp-hbr3", "lanes": "4"},
        ),
        Preset(
            "qhd-144-hdmi",
            "HDMI 2.0: 2560×1440 at 144",
            {"width": 2560, "height": 1440, "refresh": 144, "link": "hdmi-tmds-600", "use": "games"},
        ),
        Preset(
            "tv-60-10bit", "Television: 60 Hz, 10-bit, 600 MHz", {"refresh": 60, "depth": "10", "link": "hdmi-tmds-600"}
        ),
        Preset("tv-120", "Television: 120 Hz, 10-bit, 40 Gb/s", {"refresh": 120, "depth": "10", "link": "hdmi-frl-40"}),
        Preset(
            "dock",
            "USB-C dock: 2560×1440 at 144 on two lanes",
            {"width": 2560, "height": 1440, "refresh": 144, "link": "dp-hbr2", "lanes": "2"},
        ),
        Preset(
            "uhd-240",
            "3840×2160 at 240, 10-bit, compressed",
            {
                "refresh": 240,
                "depth": "10",
                "blanking": "cvt-rb2",
                "link": "dp-hbr3",
                "compressed": "yes",
                "use": "games",
            },
        ),
        Preset("old-tv", "Older television: 340 MHz", {"refresh": 60, "link": "hdmi-tmds-340", "use": "film"}),
    ),
)
