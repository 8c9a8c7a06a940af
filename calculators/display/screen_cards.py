"""What the calculators of displays show on the screen. Knows their figures' keys; computes no result."""

from __future__ import annotations

from calculators.desk.answer import DEPENDS, YES, Answer
from calculators.desk.card_declared import LONGEST_HERO, MOST_LINE, Card, Figures, first_drawn, own_drawing, words
from calculators.desk.inputs import Values
from calculators.desk.numbers import number
from calculators.desk.screen_drawings.bars import screen_bars
from calculators.desk.screen_drawings.chain import screen_chain
from calculators.desk.screen_drawings.marks import Pin, Row, Zone
from calculators.desk.screen_drawings.scale import round_end, screen_scale
from calculators.display.links.sent_on_screen import screen_sent
from calculators.trade.links.link_rates import LINKS
from calculators.trade.links.link_rates import link as fast_link

# What each is about, in a line of a side panel.
TOPICS = {
    "timing": "What is sent?",
    "link": "Can the link do it?",
    "reach": "How long a cable?",
    "adapter": "Which adapter?",
    "declared": "Your display prefers",
}


def timing(given: Values, answer: Answer) -> Card:
    """The picture inside all that is sent, to scale."""
    figures = Figures(answer)
    values = figures.numbers("h_total", "v_total", "pixel_clock_mhz", "blanking_percent")
    refresh = figures.text("refresh_hz")
    if not values:
        return Card()
    across, down, _, share = values
    drawing = screen_sent(
        (float(given["width"]), float(given["height"])), (across, down), f"sent unseen: {number(share, 1)} %"
    )
    product = f"{number(across, 0)} × {number(down, 0)} × {refresh}"
    return Card(
        hero=f"{number(share, 1)} % is never seen", line=f"of all that is sent at {number(given['refresh'], 3)} Hz",
        drawing=drawing, working=(product, "=", f"{figures.text('pixel_clock_mhz')} pixel clock"),
    )  # fmt: skip


_NEAR = 5.0  # percent left over, below which two bars look alike


def link(given: Values, answer: Answer) -> Card:
    """What the picture needs against what the link carries, to one scale."""
    figures = Figures(answer)
    values = figures.numbers("needed_gb_s", "payload_gb_s")
    if not values:
        return Card()
    needed, carried = values
    squeezed = figures.number("compressed_gb_s")
    only = squeezed is not None and answer.verdict is not None and answer.verdict.word == DEPENDS
    own, carrier = _named(given)
    rows = [Row(own, needed, f"{number(needed, 2)} Gb/s", not only)]
    if squeezed is not None and only:
        rows.append(Row("compressed, it needs", squeezed, f"{number(squeezed, 2)} Gb/s", True))
    rows.append(Row(carrier, carried, f"{number(carried, 2)} Gb/s"))
    line = f"needed; the link carries {number(carried, 2)}"
    verdict, hero = "", f"{number(needed, 2)} Gb/s"
    drawing, near = screen_bars(rows), False
    spare = figures.number("headroom_percent")
    if spare is not None and 0 <= spare < _NEAR and needed <= carried:
        # two bars of one length say nothing of how near it is, so the number does, and a sliver in its true width
        hero, line = f"{number(100 - spare, 1)} % full", f"{number(needed, 2)} of {number(carried, 2)} Gb/s"
        left = Row("left over", carried, f"{number(carried - needed, 2)} Gb/s", low=needed, fill="fill-3", step=1)
        drawing, near = first_drawn(screen_bars([*rows, left]), drawing), True
    visible = figures.number("active_gb_s")
    if answer.verdict and answer.verdict.word == "yes" and needed > carried and visible is not None:
        # published as carried although more is needed: what is not seen travels compressed on such a link, so that
        # neither the whole of it nor what it is compressed to is a length that is sent
        hero, line = f"{number(visible, 2)} Gb/s", "seen; the unseen rest travels compressed"
        drawing = screen_bars([Row("what you see of it", visible, hero, True), rows[-1]])
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "if card and display agree on it"
        if figures.text("needed_least_gb_s"):
            line, verdict = "if your display's clock stays low enough", "It may fit"
        elif squeezed is not None:
            hero, line = f"{number(squeezed, 2)} Gb/s", "if card and display can both compress"
    question = "Can this cable and port carry my picture?"
    return Card(hero=hero, line=line, verdict=verdict, drawing=drawing, question=question, drawn_hero=near)


_LONGEST_NAMED = 28  # characters before a number, so that both stand in one line


def _named(given: Values) -> tuple[str, str]:
    """The picture and the link by their own names, or by what they are where that would be too long."""
    own = f"{given['width']}×{given['height']} at {number(given['refresh'], 3)} Hz needs"
    carrier = f"{fast_link(given['link']).name} carries"
    return (
        own if len(own) <= _LONGEST_NAMED else "your picture needs",
        carrier if len(carrier) <= _LONGEST_NAMED else "this link carries",
    )


def reach(given: Values, answer: Answer) -> Card:
    """How far each kind of cable is counted on, beside the length wanted."""
    figures = Figures(answer)
    kinds = [("passive copper", "passive"), ("active copper", "active"), ("optical", "optical")]
    wanted, cable = given.get("length"), figures.text("cable")
    word = answer.verdict.word if answer.verdict else ""
    rows = [Row("you want", float(wanted), f"{number(float(wanted), 1)} m", True)] if wanted is not None else []
    hero = ""
    for label, key in kinds:
        ends = figures.numbers(f"{key}_low_m", f"{key}_high_m")
        if not ends:
            continue
        least, most = (number(end, 1) for end in ends)
        if label == cable and word == DEPENDS:  # not to be counted on, so it is drawn to where hope ends
            hero = f"at best {most} m"
            rows.append(Row(label, ends[1], f"{least} to {most} m", fill="fill-3"))
        elif label == cable and word == YES:
            hero = f"up to {least} m"
            rows.append(Row(label, ends[0], f"{least} m", fill="yes"))
        else:
            rows.append(Row(label, ends[0], f"{least} m"))
    # in a low room: what is wanted, what falls short of it, and what does it
    names = [row.label for row in rows]
    asked = rows[: names.index(cable) + 1] if cable in names else rows
    line = "a length that you can count on"
    for one in LINKS:  # none of them, where only the kind of link is told
        if one.key == given["link"] and words(named := f"counted on at {one.say(4)}") <= MOST_LINE:
            line = named
    verdict = ""
    if word == YES and hero and wanted is not None:
        verdict = f"{cable.capitalize()}: {number(float(wanted), 1)} m fits"
    if word == DEPENDS:
        line = f"in {cable}, if its maker promises it" if hero else "the rate decides how far a cable reaches"
    drawings = [screen_bars(some) for some in (rows, asked, [row for row in asked if row.mark or row.label == cable])]
    return Card(hero=hero, line=line, verdict=verdict, drawing=first_drawn(*drawings) if len(rows) > 1 else None)


def adapter(given: Values, answer: Answer) -> Card:
    """From the computer's socket to the display's."""
    figures = Figures(answer)
    kind = figures.text("adapter")
    labels = {key: given.say(key) for key in ("from", "to")}
    says = {"passive": "passive adapter", "active": "active adapter", "cable": "a plain cable"}.get(kind, "")
    works = answer.verdict is None or answer.verdict.word != "no"
    nodes = [("computer", labels["from"], "the computer's socket")]
    if kind in ("passive", "active"):
        nodes.append(("box", says, "only fits the plug" if kind == "passive" else "makes a new signal"))
    elif kind == "cable":
        nodes.append(("cable", says, ""))
    nodes.append(("display", labels["to"], "the display's socket"))
    sure = answer.verdict is not None and answer.verdict.word == "yes"
    line = "it works in this direction only" if kind != "cable" else "no adapter is needed"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "if socket and adapter both say so" if says else "look at the shape of both sockets"
    return Card(
        hero=says if works else "", line=line if works else "", verdict="It works" if sure else "",
        question="Which adapter between computer and display?",
        drawing=screen_chain(nodes, mark=1 if len(nodes) == 3 else -1, broken=-1 if works else len(nodes) - 2),
    )  # fmt: skip


def declared(given: Values, answer: Answer) -> Card:
    """What a display says it prefers, and the refresh it takes."""
    figures = Figures(answer)
    size = figures.numbers("preferred_width", "preferred_height")
    rate = figures.number("preferred_refresh")
    if not size:
        return Card(drawing=own_drawing(answer))
    top = figures.number("refresh_high") or figures.number("fastest_refresh")
    low = figures.number("refresh_low")
    zones = [] if low is None or top is None else [Zone(low, top, f"takes {number(low, 0)} to {number(top, 0)} Hz")]
    hero = f"{number(size[0], 0)}×{number(size[1], 0)}".replace("\u202f", "").replace("\u00a0", "")
    whole = hero if rate is None else f"{hero} at {number(rate, 0)} Hz"
    pins = [] if rate is None else [Pin(rate, whole, True)]
    if not zones and top is not None and top != rate:
        pins.append(Pin(top, f"at most {number(top, 0)} Hz"))
    ends = [value for value in (rate, top) if value]
    scale = screen_scale(0, round_end(max(ends)), zones=zones, pins=pins, unit="Hz") if ends else None
    # size and rate in one, so that none is shown without the other
    hero, line = (whole, "your display's preferred mode") if len(whole) <= LONGEST_HERO else (hero, "preferred size")
    return Card(hero=hero, line=line, drawing=first_drawn(scale, own_drawing(answer)))
