"""motion.film: whether a film's frames fall evenly on a display's refreshes, and which rate to choose."""

from __future__ import annotations

from collections.abc import Sequence

from calculators.desk.answer import (
    COMMON_PRACTICE,
    FROM_MEMORY,
    LIBRARY,
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
from calculators.desk.errors import InputErrors, Problem
from calculators.desk.inputs import HOW_TO_TELL, Option, Text, Values, YesNo
from calculators.desk.numbers import listed as say_list
from calculators.desk.numbers import number, plural
from calculators.desk.svg import Drawing
from calculators.motion.drawings.refreshes import MOST_FRAMES, frames_over_refreshes
from calculators.motion.formulas.cadence import Cadence, cadence, holds, repeats
from calculators.motion.formulas.listed_rates import (
    LEAST_HZ,
    MOST_HZ,
    Listed,
    declared,
    listed,
    read_rates,
    say_rates,
    slowed_form,
)
from calculators.motion.wording.film_words import (
    how_often,
    left_out,
    pattern,
    rank,
    seconds,
    slip,
    verdict,
    verdict_cut_short,
    word,
)
from calculators.motion.wording.shared import FLASHING, REPEATING, exact_notes, times_in_words
from calculators.trade.edid.declaration_input import declaration_input
from calculators.trade.frame_rates import SOURCE, RateChoice, cut_short, exact_rate, rate_input, say_rate
from calculators.trade.ratio import Ratio

# Rates that displays commonly list. Common practice, no source.
_COMMON = (23.976, 24.0, 25.0, 30.0, 48.0, 50.0, 59.94, 60.0, 72.0, 75.0, 100.0, 119.88, 120.0, 144.0, 165.0, 240.0)
_MOST_ROWS = 24
# No film is made so, but a recording of a screen may be: every slowed rate that is read is a film's, too.
_RECORDED = ("71.928", "95.904", "143.856", "191.808", "239.76", "287.712")
_MOST_NAMED = 6
_FEW = Ratio(30)  # frames a second; more of them make pans smooth enough
_MOST_DRAWN = 30  # refreshes: more would be strokes too fine to see

SOURCES = (
    Source("Frames held for whole refreshes: arithmetic"),
    Source(
        "Encyclopaedia article 'Television standards conversion', section on telecine judder",
        "3:2 on 60 Hz; on 50 Hz eleven frames of 40 ms and one of 60 ms",
        COMMON_PRACTICE,
    ),
    SOURCE,
    Source("A display's declaration, read by this project's reader", "", LIBRARY),
    Source("VESA E-EDID and CTA-861-I", "how a display lists its rates", FROM_MEMORY),
    REPEATING,
    Source("Rates that displays list, decimals that lists cut off, and what a pan looks like", "", COMMON_PRACTICE),
)


def compute(given: Values) -> Answer:
    """One film on one display, worked out."""
    content, rate = exact_rate(float(given["content"])), exact_rate(given["rate"])
    times = _repeats(given, content)
    frame_cadence = cadence(content, rate)
    rates, where_listed = _listed(given)
    judged = sorted(
        ((each, cadence(content, each.exact)) for each in rates),
        key=lambda pair: rank(pair[0], pair[1], own=_is_set(given, pair[0])),
    )
    return Answer(
        headline=_headline(given, frame_cadence, times),
        verdict=_verdict(given, content, frame_cadence, times),
        figures=_figures(given, content, frame_cadence, times, judged, where_listed),
        working=_working(given, content, frame_cadence, times),
        tables=(_table(given, judged, where_listed),),
        drawings=(_drawing(content, frame_cadence, times, judged[0]),),
        notes=(
            *exact_notes(float(given["content"]), given["rate"], *_range_ends(given)),
            *_notes(given, content, frame_cadence, times, judged, where_listed),
        ),
        cautions=(FLASHING,) if given["adaptive"] == "yes" else (),
        sources=SOURCES,
    )


def _verdict(given: Values, content: Ratio, frame_cadence: Cadence, times: int | None) -> Verdict:
    if times is not None:
        return Verdict(YES, f"Adaptive refresh shows each frame {times_in_words(times)}, all alike.", "Evenly.")
    typed = listed(given["rate"])
    if typed.cut_from is not None:
        return verdict_cut_short(frame_cadence, cadence(content, typed.exact), typed)
    return verdict(frame_cadence)


def _is_set(given: Values, each: Listed) -> bool:
    """Whether a listed rate is the one that is set, for sure."""
    return each.cut_from is None and each.exact.same(exact_rate(given["rate"]))


def _repeats(given: Values, content: Ratio) -> int | None:
    """How often an adaptive display shows each frame; None where it is not adaptive or no multiple fits."""
    if given["adaptive"] != "yes":
        return None
    low, high = given.get("low"), given.get("high")
    problems = [
        Problem(key, f"{label} is needed with adaptive refresh: give the range from the display's data sheet, such as "
                f"{example} Hz.")
        for key, label, value, example in (
            ("low", "Bottom of the range", low, 48), ("high", "Top of the range", high, 144)
        )
        if value is None
    ]  # fmt: skip
    if problems or low is None or high is None:
        raise InputErrors(problems)
    if exact_rate(high).below(exact_rate(low)):
        raise InputErrors([
            Problem("low", f"Bottom of the range is {number(low, 3)} Hz, above its top of {number(high, 3)} Hz: swap "
                    "them, or correct one.")
        ])  # fmt: skip
    return repeats(content, exact_rate(low), exact_rate(high))


def _range_ends(given: Values) -> tuple[float, ...]:
    """The ends of the adaptive range, where they count."""
    return (given["low"], given["high"]) if given["adaptive"] == "yes" else ()


def _listed(given: Values) -> tuple[list[Listed], str]:
    """The rates to judge, each once, and where they come from."""
    typed = list(given.get("rates") or ())
    where = "Of the rates you gave" if typed else ""
    if given.get("declaration") is not None:
        size, declared_rates = _declared(given["declaration"].data)
        typed += [each for each in declared_rates if each not in typed]
        if declared_rates:
            where = f"Of the rates declared for {size}" + (", and those you gave" if where else "")
    if not typed:
        common = [listed(each) for each in _COMMON]
        own = listed(given["rate"])
        if own.cut_from is None and not any(_is_set(given, each) for each in common):
            common.append(own)
        return common, ""
    return [listed(each) for each in typed], where


def _declared(data: bytes) -> tuple[str, list[float]]:
    """The rates that a declaration lists at its preferred size, or at its largest where it prefers none."""
    from calculators.trade.edid.parser import read_declaration  # only who pastes one pays for its reader

    edid = read_declaration(data)
    modes = [m for m in edid.modes if not m.interlaced and LEAST_HZ <= m.refresh_hz <= MOST_HZ]
    if not modes:
        return "", []
    largest = max(modes, key=lambda m: (m.width * m.height, m.width))
    size = edid.preferred if edid.preferred and not edid.preferred.interlaced else largest
    rates: list[float] = []
    for mode in modes:
        if (mode.width, mode.height) != (size.width, size.height):
            continue
        one = declared(mode.refresh_hz, mode.clock_khz)
        sister = slowed_form(one) if mode.vic else None  # a television format stands for both
        rates += [each for each in (one, sister) if each is not None and each not in rates]
    return f"{size.width} × {size.height}", rates


def _headline(given: Values, cadence: Cadence, times: int | None) -> str:
    film = f"{given['content']} frames a second"
    if times is not None:
        refresh = exact_rate(float(given["content"])).times(times)
        return (
            f"{film} play evenly by adaptive refresh: each is shown {times_in_words(times)}, at "
            f"{number(refresh.value)} Hz."
        )
    rate = f"{'exactly ' if cut_short(given['rate']) is not None else ''}{number(given['rate'], 3)} Hz"
    if cadence.whole:
        hold = f"{plural(cadence.fewest(), 'refresh', 'refreshes')}, {number(cadence.shortest_ms().value)} ms"
        if cadence.slip_s is None:
            return f"{film} play evenly at {rate}: every frame stands for {hold}."
        return f"{film} play evenly at {rate} but for a slip about every {seconds(cadence)}; frames stand for {hold}."
    if cadence.dropped.over:
        return f"{film} do not fit into {rate}: {left_out(cadence)}."
    stand = f"{number(cadence.shortest_ms().value, 1)} and {number(cadence.longest_ms().value, 1)} ms"
    if cadence.halves is not None:
        return (
            f"{film} alternate between {cadence.fewest()} and {cadence.most()} refreshes at {rate}, {stand}: not even."
        )
    refreshes = f"{cadence.fewest()} or {cadence.most()} refreshes"
    return f"{film} do not play evenly at {rate}: they stand for {refreshes}, {stand}."


def _figures(
    given: Values, content: Ratio, cadence: Cadence, times: int | None, judged: Sequence[tuple[Listed, Cadence]],
    where: str,
) -> tuple[Figure, ...]:  # fmt: skip
    best, its = judged[0]
    label = "Rate to choose" if where or _is_set(given, best) else "Best of common rates"
    chosen = () if word(its) == NO else (figure("best_rate_hz", label, best.exact.value, "Hz", 3, main=True),)
    if times is not None:
        stands = Ratio(1000).per(content).value
        return (
            figure("repeats", "Each frame is shown", times, "times" if times != 1 else "time", main=True),
            figure("refresh_hz", "The display refreshes at", content.times(times).value, "Hz", 3, main=True),
            figure("shortest_ms", "Shortest frame", stands, "ms", 2, main=True),
            figure("longest_ms", "Longest frame", stands, "ms"),
            *chosen,
        )
    figures = [
        figure("shortest_ms", "Shortest frame", cadence.shortest_ms().value, "ms", 2, main=True),
        figure("longest_ms", "Longest frame", cadence.longest_ms().value, "ms", 2, main=True),
        Figure("pattern", "Refreshes, frame by frame", pattern(cadence), "", pattern(cadence), main=True),
        figure("ratio", "Refreshes for each frame", cadence.ratio.value, "", 4),
        figure("dropped_per_s", "Frames left out", cadence.dropped.value, "a second", 3),
    ]
    if cadence.halves is not None:
        figures.append(figure("cadence", "Nearest even or half cadence", cadence.halves / 2, "", 1))
    if cadence.slip_s is not None:
        figures.append(figure("slip_s", "One slip about every", cadence.slip_s.value, "s", 1))
    return (*figures, *chosen)


def _working(given: Values, content: Ratio, cadence: Cadence, times: int | None) -> tuple[Working, ...]:
    film = number(content.value, 6)
    if times is not None:
        return (
            Working("Times each frame is shown", "the fewest with bottom ≤ times × frames ≤ top",
                    f"{given.say('low')} ≤ {times} × {film} ≤ {given.say('high')}", str(times)),
            Working("Refresh", "times × frames", f"{times} × {film}", f"{number(content.value * times, 3)} Hz"),
            Working("Each frame stands", "1000 ÷ frames", f"1000 ÷ {film}",
                    f"{number(1000 / content.value)} ms"),
        )  # fmt: skip
    rate = number(cadence.refresh.value, 6)
    near = (
        number(cadence.halves / 2, 1) if cadence.halves is not None else "none within half a percent and a twentieth"
    )  # fmt: skip
    period = f"1000 ÷ {rate}"
    lines = [
        Working("Refreshes for each frame", "rate ÷ frames", f"{rate} ÷ {film}", number(cadence.ratio.value, 4)),
        Working("Nearest whole or half number", "", "", near),
        Working("Shortest frame", "rounded down × one refresh", f"{cadence.fewest()} × {period}",
                f"{number(cadence.shortest_ms().value)} ms"),
        Working("Longest frame", "rounded up × one refresh", f"{cadence.most()} × {period}",
                f"{number(cadence.longest_ms().value)} ms"),
    ]  # fmt: skip
    if cadence.slip_s is not None:
        lines.append(Working("One slip every", "1 ÷ |rate − cadence × frames|", f"1 ÷ |{rate} − {near} × {film}|",
                             f"about {seconds(cadence)}"))  # fmt: skip
    return tuple(lines)


def _table(given: Values, judged: Sequence[tuple[Listed, Cadence]], where: str) -> Table:
    words = {"yes": "even", "depends": "even, with slips", "no": "uneven"}
    rows: list[tuple[str, ...]] = []
    marked: list[int] = []
    for each, each_cadence in judged[:_MOST_ROWS]:
        if each.typed == given["rate"] or _is_set(given, each):
            marked.append(len(rows))
        stands = number(each_cadence.shortest_ms().value, 1)
        if each_cadence.fewest() != each_cadence.most():
            stands = f"{stands} to {number(each_cadence.longest_ms().value, 1)}"
        slips = seconds(each_cadence) if each_cadence.slip_s is not None else "–"
        rows.append((each.say(), words[word(each_cadence)], pattern(each_cadence), stands, slips))
    return Table(
        title=f"{where or 'Of common rates'}, best first",
        columns=(Column("Rate"), Column("Plays"), Column("Refreshes"), Column("Frames stand, ms", True),
                 Column("Slip about every", True)),
        rows=tuple(rows),
        note="0 refreshes: the frame is left out. Real clocks differ a little, so slips come about as often as told.",
        marked=tuple(marked),
    )  # fmt: skip


def _drawing(content: Ratio, cadence: Cadence, times: int | None, best: tuple[Listed, Cadence]) -> Drawing:
    steady = cadence.steady if times is None else Ratio(times)
    period = 1000 / (cadence.refresh if times is None else content.times(times)).value
    limit = min(max(int(_MOST_DRAWN / max(steady.value, 1)), 2), MOST_FRAMES)
    count = limit // steady.under * steady.under or limit  # whole rounds of the pattern, where they fit
    start = _drawn_from(steady, count)
    stood = holds(steady, start + count)[start:]
    counts = ", ".join("left out" if not n else f"{n}" for n in stood)
    description = (
        f"Above, {count} frames of the film, each as long as the others. Below, for how many refreshes of "
        f"{number(period)} ms each of them stands: {counts}."
    )
    uneven = times is None and not cadence.whole and word(best[1]) != NO
    even_at = f"{number(best[0].exact.value, 3)} Hz" if uneven else ""
    return frames_over_refreshes(stood, steady.value, period, description, even_at)


def _drawn_from(steady: Ratio, count: int) -> int:
    """The first frame to draw: the film's first, but where few stand longer, so that one of those is in the middle."""
    part = steady.minus(Ratio(steady.floor()))
    if not part.over:
        return 0
    longer = Ratio(1).per(part).ceiling() - 1  # the first frame that stands longer
    return 0 if longer < count else longer - count // 2


def _notes(
    given: Values, content: Ratio, cadence: Cadence, times: int | None, judged: Sequence[tuple[Listed, Cadence]],
    where: str,
) -> tuple[Note, ...]:  # fmt: skip
    notes = [_choice(given, judged, where)]
    if times is None:
        notes.append(_what_is_seen(content, cadence))
        notes.append(
            Note(
                "Only a whole number is even",
                "A frame can stand for whole refreshes only. If the rate is a whole multiple of the film's, all frames "
                "stand alike. At a half they alternate: long, short, long, short.",
            )
        )
    asked = [each for each, _ in judged if each.cut_from is not None]
    if cut_short(given["rate"]) is not None and not any(a.typed == given["rate"] for a in asked):
        asked.append(listed(given["rate"]))
    if asked:
        likely = say_list([f"{number(e.typed, 3)} is most likely {number(e.exact.value, 3)}" for e in asked])
        notes.append(
            Note(
                "Which exact rate is it?",
                f"Many systems cut the decimals off: {likely}. Look in the advanced display settings or the card "
                "driver's own page for the exact rate, and put that in.",
            )
        )
    if given["adaptive"] == "yes" and times is None:
        notes.append(
            Note(
                "Adaptive refresh does not reach it",
                f"No whole multiple of {given['content']} lies between {given.say('low')} and {given.say('high')}, so "
                "the display plays it as with a fixed rate.",
            )
        )
    if times is not None and times > 1 and not Ratio(2).fits(exact_rate(given["high"]).per(exact_rate(given["low"]))):
        notes.append(
            Note(
                "A narrow range",
                "The top of the range is less than twice its bottom. Some drivers do not repeat frames on such a "
                "range, even where it would be possible; then the film plays as at a fixed rate.",
            )
        )
    if given["adaptive"] == "no" and (given.get("low") is not None or given.get("high") is not None):
        notes.append(
            Note(
                "The range is not used",
                "Adaptive refresh is set to no, so all of this holds for the fixed rate. If display, driver and player "
                "use it, set it to yes.",
            )
        )
    if given.get("declaration") is not None and "declared" not in where:
        notes.append(Note("No rates in the declaration", "What was pasted lists no refresh rate that can be used."))
    notes += [
        Note(
            "Adaptive refresh helps only where it is used",
            "The player must ask for it and the system must pass it on, mostly in full screen only. Many players play "
            "films at the fixed rate that is set.",
        ),
    ]
    if content.fits(_FEW):
        notes.append(
            Note(
                "Pans stutter all the same",
                "Twenty-four pictures a second are few, and thirty not many more. In a fast pan each jumps far from "
                "the one before, at any rate and on any display. Cinemas know it, too, and camera people pan slowly "
                "because of it.",
            )
        )
    return tuple(notes)


def _choice(given: Values, judged: Sequence[tuple[Listed, Cadence]], where: str) -> Note:
    best, its = judged[0]
    from_list = where or "Of the rates that displays commonly list"
    if word(its) == NO:
        return Note(
            "Which rate to choose",
            f"{from_list}, none is a whole multiple of {given['content']}. {best.say()} comes first in the table; "
            "look for a rate that is 2, 3, 4 or 5 times the film's.",
        )
    if its.slip_s is None and _is_set(given, best):
        hold = plural(its.fewest(), "refresh", "refreshes")
        return Note("Which rate to choose", f"The {best.say()} that is set shows every frame for {hold}. Keep it.")
    even = f"shows every frame for {plural(its.fewest(), 'refresh', 'refreshes')}"
    slips = f", with a slip about every {seconds(its)}" if its.slip_s is not None else ""
    also = "" if where else " Paste your display's declaration, or type the rates it lists, to hear of your own."
    return Note("Which rate to choose", f"{from_list}, {best.say()} {even}{slips}.{_others(judged)}{also}")


def _others(judged: Sequence[tuple[Listed, Cadence]]) -> str:
    """A sentence that names further rates that are even for sure, if there are any."""
    even = [each for each, its in judged[1:] if word(its) == YES and each.cut_from is None][:_MOST_NAMED]
    return f" Even, too: {say_list([number(e.typed, 3) for e in even])} Hz." if even else ""


def _what_is_seen(content: Ratio, cadence: Cadence) -> Note:
    sentence = f"Frames stand for {pattern(cadence)} refreshes"
    every = Ratio(1).per(cadence.ratio).reduced()
    if cadence.dropped.over and not cadence.whole:
        text = (
            f"The display has fewer refreshes than the film has frames: {left_out(cadence)}. Moving things jump there."
        )
        if every.under == 1:
            text = (
                f"The display shows one of every {every.over} frames and leaves the others out. It looks like a film "
                f"of {number(cadence.refresh.value, 3)} frames a second."
            )
    elif cadence.whole and cadence.slip_s is None:
        text = f"{sentence}: all alike."
    elif cadence.whole:
        text = (
            f"{sentence}: all alike, but film and display drift apart, and about every {seconds(cadence)} one frame is "
            f"{slip(cadence)}. In a slow pan that is one small jerk."
        )
    else:
        text = f"{sentence}. In a slow pan that shows as a stutter, {how_often(cadence, content)}."
        if cadence.slip_s is not None:
            text += f" About every {seconds(cadence)} the pattern slips, and one frame is {slip(cadence)}."
    return Note("What you see", text)


def worked_for(given: Values) -> str:
    """The film and the display."""
    film = say_rate(float(given["content"]), "frames a second")
    if given["adaptive"] == "yes" and given.get("low") is not None and given.get("high") is not None:
        span = f"{number(given['low'], 3)} to {number(given['high'], 3)} Hz"
        return f"{film} on a display set to {say_rate(given['rate'])}, adaptive from {span}"
    return f"{film} on a display set to {say_rate(given['rate'])}"


_RANGE_WHERE = "The display's data sheet or its menu, as the range of adaptive sync or variable refresh."

calculator = Calculator(
    name="motion.film",
    version=2,
    title="Does film play evenly on this display?",
    summary="A film's frames on a display's refreshes: which stand how long, where they slip, which rate is even.",
    inputs=(
        RateChoice(
            key="content",
            label="Frames a second of the film",
            where="The player's information page, as frame rate. Most films have 23.976 or 24, European television 25.",
            options=(
                Option("23.976", "23.976: most films as files and on discs", ("film", "movie")),
                Option("24", "24: films in the cinema", ("cinema",)),
                Option("25", "25: European television"),
                Option("29.97", "29.97: American television"),
                Option("30", "30: many videos on the web"),
                Option("47.952", "47.952: fast films, slowed"),
                Option("48", "48: fast films"),
                Option("50", "50: European sport"),
                Option("59.94", "59.94: American sport"),
                Option("60", "60: fast videos on the web"),
                Option("119.88", "119.88: very fast, slowed"),
                Option("120", "120: very fast"),
                *(Option(rate, f"{rate}: a recorded screen, slowed") for rate in _RECORDED),
            ),
            default="23.976",
            names=("fps", "frames", "frame rate", "content", "film", "video"),
        ),
        rate_input(
            key="rate",
            label="Refresh of the display",
            where="The system's advanced display settings; take the number with its decimals, 59.94 or 60.",
            default=60,
            names=("hz", "hertz", "refresh rate"),
        ),
        YesNo(
            where_title=HOW_TO_TELL,
            key="adaptive",
            label="Adaptive refresh in use",
            where="On only if display, driver and player all use it; most players do not.",
            options=(Option("no", "no"), Option("yes", "yes")),
            default="no",
            names=("vrr", "variable refresh", "adaptive sync", "adaptive"),
        ),
        rate_input(
            key="low", label="Bottom of the range", where=_RANGE_WHERE, default=None, low=1, optional=True, such_as=48,
            note="with adaptive refresh",
        ),
        rate_input(
            key="high", label="Top of the range", where=_RANGE_WHERE, default=None, low=1, optional=True, such_as=144,
            note="with adaptive refresh",
        ),
        Text(
            key="rates",
            label="Rates the display lists",
            where="The list of refresh rates in the system's advanced display settings, as it stands there.",
            group="To find the best rate of your own display",
            note="to be told which to choose",
            optional=True,
            extra=True,
            example="60, 59.94, 120, 144",
            shape="a list of rates with commas or spaces between",
            parse=read_rates,
            canonical=say_rates,
            names=("modes", "listed rates"),
        ),
        declaration_input(
            group="To find the best rate of your own display", optional=True, extra=True,
            note="Instead of the list. It stays in this page, on this device",
        ),
    ),
    compute=compute,
    presets=(
        Preset("film-60", "Film on a 60 Hz display", {"content": "23.976", "rate": 60}),
        Preset("film-59", "Film on 59.94 Hz", {"content": "23.976", "rate": 59.94}),
        Preset("film-144", "Film on a 144 Hz display", {"content": "23.976", "rate": 144}),
        Preset("film-120", "Film on 119.88 Hz", {"content": "23.976", "rate": 119.88}),
        Preset("pal-60", "European television on 60 Hz", {"content": "25", "rate": 60}),
        Preset("adaptive", "Film, adaptive from 48 to 144 Hz", {"content": "24", "rate": 144, "adaptive": "yes",
                                                                "low": 48, "high": 144}),
    ),
    worked_for=worked_for,
)  # fmt: skip
