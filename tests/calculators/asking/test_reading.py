"""What is read from a text, and what is left out: rules tried on single sentences, and properties on many."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.asking.ask import LONGEST, ask
from calculators.asking.facts import gather
from calculators.asking.finding import prepare
from calculators.asking.reading import read_inputs
from calculators.catalogue import find, names
from calculators.desk.inputs import Choice, Estimate, Number
from tests.processor_time import allowed, least, only_here

# Reads texts; what every Python does with one is the same.
pytestmark = pytest.mark.once

PAGES = {
    "pages": [
        {
            "page": "memory/kit-numbers", "title": "What do the numbers on a memory kit mean?",
            "question": "What do the numbers on a memory kit mean?", "subject": "memory",
            "words": ["ram", "cl", "timings", "mhz"], "asked": ["which kit is faster"],
            "short": "The large number says how much data flows.", "calculators": ["memory.rate"],
        },
        {
            "page": "audio/how-long", "title": "How long may I listen this loud?",
            "question": "How long may I listen this loud?", "subject": "audio", "words": ["db", "ears", "hours"],
            "asked": [], "short": "At 80 decibels, forty hours a week.", "calculators": ["audio.exposure"],
        },
    ],
    "decisive": {"memory.rate": ["rate", "generation", "cas"]},
}  # fmt: skip
INDEX = prepare(PAGES)


def read(text: str, calculator: str) -> dict[str, object]:
    return {reading.key: reading.value for reading in read_inputs(gather(text), calculator)}


@pytest.mark.parametrize(
    ("calculator", "text", "expected"),
    [
        ("memory.rate", "is 3600c18 faster than what i have", {"rate": 3600, "cas": 18}),
        ("memory.rate", "DDR5-6000 CL30-38-38-96", {"generation": "ddr5", "rate": 6000, "cas": 30}),
        ("memory.rate", "sold as 3200 mhz, the screen shows 1600 mhz", {"rate": 3200}),
        ("memory.rate", "PC4-25600 dual channel", {"generation": "ddr4", "rate": 3200, "channels": 2}),
        ("memory.check", "2x8 gig, how long do I test", {"total_gb": 16}),
        ("memory.check", "errors in pass 3", {}),
        ("display.link", "4k120 over hdmi 2.0", {"width": 3840, "height": 2160, "refresh": 120,
            "link": "hdmi-tmds-600"}),
        ("display.link", "4k120 over hdmi 2.1", {"width": 3840, "height": 2160, "refresh": 120,
            "link": "hdmi-no-speed"}),
        ("display.link", "4k120 over hdmi 2.1 at 48 gb/s", {"width": 3840, "height": 2160, "refresh": 120,
            "link": "hdmi-frl-48"}),
        ("display.link", "dp 2.1 uhbr20, 4k120", {"width": 3840, "height": 2160, "refresh": 120,
            "link": "dp-uhbr20"}),
        ("display.link", "the tv has hdmi 2.1, my card only dp 1.4", {"link": "dp-hbr3"}),
        ("memory.ways", "have 2x8 3000, same kit for 38 euros or sell mine for 25 euros and get 2x16 for 72 euros",
            {"have_count": 2, "have_size": 8, "have_rate": 3000, "same_price": 38, "resale": 25, "replace_count": 2,
             "replace_size": 16, "replace_price": 72, "currency": "€"}),
        ("memory.ways", "2x8, the same again costs €1,299", {"have_count": 2, "have_size": 8, "add_count": 2,
            "add_size": 8}),
        ("memory.ways", "2x8, sell mine for -5 €", {"have_count": 2, "have_size": 8}),
        ("memory.mix", "2x8 in there and 2 slots free", {"have_count": 2, "have_size": 8, "slots": "4"}),
        ("memory.mix", "the other 2 slots are empty", {}),
        ("memory.need", "2 virtual machines with 4 gb each", {"virtual_machines_gb": 8}),
        ("motion.film", "24 fps, my display offers 50, 60, 100 and 120 hz", {"content": "24",
            "rates": "50, 60, 100, 120"}),
        ("motion.adaptive", "38-45 fps in the city, the range in the menu says 48-144", {"low": 48, "high": 144,
            "frames": 38}),
        ("drivers.reset", "about to throw it out of the window, no picture", {"trouble": "no_picture"}),
        ("display.link", "1440p at 165hz", {"width": 2560, "height": 1440, "refresh": 165}),
        ("display.link", "is a 2k 144 screen fine", {"refresh": 144}),
        ("display.link", "10 bit or 8 bit, which", {}),
        ("display.link", "stuck at 60 hz, want 144 hz", {"refresh": 144}),
        ("display.reach", "a 15 ft cable", {"length": 4.572}),
        ("display.adapter", "usb-c to displayport", {"from": "usb-c", "to": "displayport"}),
        ("display.adapter", "hdmi cable", {}),
        ("audio.level", "250 ohm, 750 watt supply in the pc", {"impedance": 250}),
        ("audio.plugs", "1/4 inch plug into a 3.5 mm socket", {"plug": "6.35-3", "socket": "3.5-3"}),
        ("audio.exposure", "95 dB for 2,5 hours a day", {"level": 95, "hours_day": 2.5}),
        ("audio.blind", "9 out of 12 right", {"right": 9, "trials": 12}),
        ("motion.hertz", "240 vs 360hz at 300fps", {"rate_a": 240, "rate_b": 360, "frames": 300}),
        ("motion.adaptive", "range 48-144 hz, game makes 40 fps", {"low": 48, "high": 144, "frames": 40}),
        ("motion.delay", "vsync on or off", {}),
        ("motion.adaptive", "35 fps on vrr 48 to 144", {"low": 48, "high": 144, "frames": 35}),
        ("motion.adaptive", "45 fps on a range of 48 to 75 hz", {"low": 48, "high": 75, "frames": 45}),
        ("motion.film", "24 fps film, adaptive 48 to 144 hz",
         {"content": "24", "adaptive": "yes", "low": 48, "high": 144}),
        ("motion.film", "48 fps film on 120 hz", {"content": "48", "rate": 120}),
        ("motion.hertz", "is 144 hz worth it if my pc makes 90 fps", {"rate_b": 144, "frames": 90}),
        ("motion.hertz", "is 240 worth it over 144 with 200 fps", {"rate_a": 144, "rate_b": 240, "frames": 200}),
        ("motion.hertz", "240 worth it over 144", {"rate_a": 144, "rate_b": 240}),
        ("motion.film", "50 fps on 144", {"content": "50", "rate": 144}),
        ("motion.film", "tv in film mode 60 hz", {"rate": 60}),
        ("rooms.lips", "tv in film mode, sound is late", {"picture_ms": "film"}),
        ("work.gain", "60 min for gpu renders and 20 min for one core", {"card_min": 60, "one_core_min": 20}),
        ("rooms.network", "link speed 866 Mbps, measured 430", {"link_mbps": 866, "measured_mbps": 430}),
        ("rooms.network", "2.5 gig card, only see 940", {"link_mbps": 2500, "measured_mbps": 940}),
        ("work.footage", "two streams of 400 Mb/s footage, which disk", {"streams": 2, "mbps": 400}),
        ("motion.hertz", "is 60 hz enough or do i need more", {"rate_a": 60}),
        ("rooms.network", "gigabit lan with mtu 9000", {"link_mbps": 1000, "mtu": 9000}),
        ("rooms.network", "a 2.5 gbit port, but it measures 2.35", {"link_mbps": 2500}),
        ("rooms.network", "a 1 gbit port, but it measures 94", {"link_mbps": 1000, "measured_mbps": 94}),
        ("rooms.stream", "ping of 12 ms", {"round_trip_ms": 12}),
        ("drivers.reset", "win 11, not even the logo", {"system": "windows", "logo": "no"}),
        ("drivers.reset", "ubuntu black screen after the update",
         {"system": "linux", "family": "debian", "change": "none", "trouble": "no_picture"}),
        ("colour.levels", "the tv is set to full but black is grey", {"source": "limited", "display": "full"}),
        ("colour.levels", "black is grey", {}),
    ],
)  # fmt: skip
def test_what_is_read_and_what_is_left_out(calculator: str, text: str, expected: dict[str, object]) -> None:
    assert read(text, calculator) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("got 2x8 gb ddr4, want to add 2x16", (2, 8, 2, 16)),
        ("can I put a 16 GB stick next to my 8 GB stick", (1, 8, 1, 16)),
        ("I have 2x16gb and want the same again", (2, 16, 2, 16)),
        ("bought 2x32 GB for my old 2x8 gb", (2, 8, 2, 32)),
        ("one 8gb stick in the laptop, adding another 8gb stick", (1, 8, 1, 8)),
    ],
)
def test_which_kit_is_there_and_which_is_to_come(text: str, expected: tuple[int, ...]) -> None:
    found = read(text, "memory.mix")
    assert tuple(found.get(key) for key in ("have_count", "have_size", "add_count", "add_size")) == expected


def test_every_reading_tells_words_of_the_text() -> None:
    text = "got 2x8 GB DDR4-3200, want to add 2 x 16 gig at 3600 MHz, four slots"
    for reading in read_inputs(gather(text), "memory.mix"):
        assert reading.words
        assert reading.words in text


@pytest.mark.parametrize("name", names())
def test_a_value_with_its_label_and_unit_is_read_back_or_left_out(name: str) -> None:
    """Property: 'Impedance 250 Ω' gives that input 250, or nothing; never another value or another input's."""
    checked = 0
    for entry in find(name).inputs:
        if not isinstance(entry, Number) or isinstance(entry, Estimate) or entry.default is None or not entry.unit:
            continue
        value = entry.default
        found = read(f"{entry.label} {entry.write(value)} {entry.unit}", name)
        if entry.key in found:
            checked += 1
            assert found[entry.key] == value
    assert (
        checked
        or not any(isinstance(e, Number) and e.unit and e.default is not None for e in find(name).inputs)
        or (
            name
            in (
                "memory.mix",
                "memory.ways",
                "work.gain",
                "work.balance",
                "motion.hertz",
                "motion.delay",
                "motion.adaptive",
            )
        )
    )


@pytest.mark.parametrize("name", names())
def test_an_option_by_its_own_name_is_never_read_as_another(name: str) -> None:
    for entry in find(name).inputs:
        if isinstance(entry, Choice) and not entry.key.startswith(("have_", "add_")):
            for option in entry.options:
                for said in option.names:
                    found = read(said, name).get(entry.key)
                    same = {o.value for o in entry.options if said in o.names or said == o.label.casefold()}
                    assert found is None or found in same | _wider(entry, said), (entry.key, said)


def _wider(entry: Choice, said: str) -> set[str]:
    """Options with a name inside this one."""
    return {
        o.value
        for o in entry.options
        if any(set(n.split()) <= set(said.split()) for n in (*o.names, o.label.casefold()))
    }


OFF_TOPIC = st.lists(
    st.sampled_from(
        "well honestly dear presenter hello greetings yesterday lovely sister garden weather soup cheers".split()
    ),
    max_size=6,
).map(" ".join)
NUMBERED = (
    ("memory.rate", "DDR4-3200 CL16"), ("display.link", "3840x2160 at 120 Hz over hdmi 2.0"),
    ("audio.level", "250 ohm headphones"), ("rooms.lips", "soundbar adds 150 ms"),
    ("memory.mix", "got 2x8 gb ddr4-3200, want to add 2x16 gb"), ("work.footage", "4k 10 bit 4:2:2 at 24 fps"),
    ("motion.film", "23.976 fps film on a 60 hz display"),
)  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(st.sampled_from([n for n in NUMBERED if n[0] in names()]), OFF_TOPIC, OFF_TOPIC)
def test_off_topic_words_never_change_a_number_read(case: tuple[str, str], before: str, after: str) -> None:
    name, text = case
    assert read(f"{before}. {text}. {after}.", name) == read(f"{text}.", name)


@settings(max_examples=150, deadline=None)
@given(st.text(max_size=400))
def test_no_text_raises_and_each_value_is_accepted(text: str) -> None:
    for found in ask(text, INDEX).answers:
        if found.calculator:
            inputs = {entry.key: entry for entry in find(found.calculator).inputs}
            for reading in found.inputs:
                inputs[reading.key].read(reading.value)


HOSTILE = {
    "one word": "a" * 1_000_000,
    "digits": "9" * 1_000_000,
    "kits": "2x8 gb " * 140_000,
    "ranges": "48-144-" * 140_000,
    "blanks": " " * 1_000_000,
    "dots": "." * 1_000_000,
    "deleted": "deleted " * 120_000,
}


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE)
def test_a_megabyte_is_refused_politely(text: str) -> None:
    found = ask(text, INDEX)
    assert "longer than a question" in found.refused
    assert found.answers == ()


@only_here
@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE)
def test_a_megabyte_is_refused_at_once(text: str) -> None:
    assert least(lambda: ask(text, INDEX)) < allowed(0.25)


@only_here
@pytest.mark.parametrize("text", [text[:LONGEST] for text in HOSTILE.values()], ids=HOSTILE)
def test_the_longest_text_that_is_read_takes_no_quarter_of_a_second(text: str) -> None:
    ask(text[:200], INDEX)
    assert least(lambda: ask(text, INDEX)) < allowed(0.25)


@pytest.mark.parametrize(
    ("text", "calculator", "inputs"),
    [
        ("my mate has 600 ohm ones, mine are 38 ohms", "audio.level", {"impedance": 38}),
        ("my mate has 600 ohm ones, what does he need", "audio.level", {"impedance": 600}),
        ("not 4k but 1440p", "display.timing", {"width": 2560, "height": 1440}),
        ("stuck at 30hz in uhd, want 60", "display.timing", {"width": 3840, "height": 2160, "refresh": 60}),
        ("one forty four hz in quad hd", "display.timing", {"width": 2560, "height": 1440, "refresh": 144}),
    ],
)
def test_what_is_of_somebody_else_denied_or_only_seen_is_not_read(
    text: str, calculator: str, inputs: dict[str, object]
) -> None:
    assert {one.key: one.value for one in read_inputs(gather(text), calculator)} == inputs
