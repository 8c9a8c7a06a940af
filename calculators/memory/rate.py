"""memory.rate: what the numbers on a memory kit mean, as nanoseconds and gigabytes a second."""

from __future__ import annotations

from calculators.desk.answer import COMMON_PRACTICE, FROM_MEMORY, Answer, Note, Source, Working, figure
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.charts import Bar, bars
from calculators.desk.inputs import Choice, Follows, Number, Values
from calculators.desk.numbers import number, plural
from calculators.desk.svg import Drawing
from calculators.memory.kits.kit_inputs import GENERATIONS, RATE_UNITS, USUAL_RATE
from calculators.memory.kits.printed_labels import cas_on_label, rate_on_label, wrong_generation
from calculators.memory.timings.data_rates import bandwidth_name, channel_gb_s, clocks_ns, cycle_ns, rate_label, thirds
from calculators.memory.wording.mix_notes import HALF_CHANNELS

# Kits to compare with: two standard speed bins of JEDEC and two rated kits. Common practice, no source.
COMMON_KITS = (("ddr4", 2133, 15), ("ddr4", 3200, 16), ("ddr5", 4800, 40), ("ddr5", 6000, 30))

SOURCES = (
    Source("JEDEC JESD79-3, JESD79-4, JESD79-5: DDR3, DDR4, DDR5 SDRAM", "speed bins and clock", FROM_MEMORY),
    Source("JEDEC JESD21-C", "module chapters: 64 data bits, names by bandwidth", FROM_MEMORY),
    Source("JEDEC JESD79-5", "two halves of 32 data bits on a DDR5 stick", FROM_MEMORY),
    Source("Kits drawn for comparison", "", COMMON_PRACTICE),
)


def compute(given: Values) -> Answer:
    """The numbers of one kit, worked out."""
    generation, rate, cas, channels = given["generation"], given["rate"], given["cas"], given["channels"]
    clock_mhz = thirds(rate) / 6
    latency = clocks_ns(cas, rate)
    channel = channel_gb_s(rate)
    label, name = rate_label(generation, rate), bandwidth_name(generation, rate)
    exact = number(thirds(rate) / 3, 2)
    figures = (
        figure("latency_ns", "CAS latency", latency, "ns", main=True),
        figure("channel_gb_s", "One channel carries", channel, "GB/s", 1, main=True),
        figure("total_gb_s", f"{plural(channels, 'channel')} together", channel * channels, "GB/s", 1, main=True),
        figure("clock_mhz", "Clock", clock_mhz, "MHz", 1),
        figure("cycle_ns", "One clock takes", cycle_ns(rate), "ns", 4),
        figure("rate_label", "Label by rate", label),
        figure("bandwidth_name", "Label by bandwidth", name),
    )
    working = (
        Working("Length of one clock", "2000 ÷ rate", f"2000 ÷ {exact} MT/s", f"{number(cycle_ns(rate), 4)} ns"),
        Working("CAS latency as time", "clocks × length", f"{cas} × {number(cycle_ns(rate), 4)} ns", figures[0].text),
        Working("One channel", "rate × 8 bytes", f"{exact} MT/s × 8 bytes", figures[1].text),
        Working("All channels", "channel × channels", f"{figures[1].text} × {channels}", figures[2].text),
        Working("Label by bandwidth", "MB/s, rounded down to hundreds", f"{number(channel * 1000, 1)} MB/s", name),
    )
    return Answer(
        headline=(
            f"{label} with CAS latency {cas} waits {figures[0].text} for its first data and carries up to "
            f"{figures[2].text} over {plural(channels, 'channel')}."
        ),
        figures=figures,
        working=working,
        drawings=(_latencies(label, cas, latency), _bandwidths(label, channel)),
        notes=(*_notes(label, name, rate, clock_mhz), *((HALF_CHANNELS,) if generation == "ddr5" else ())),
        sources=SOURCES,
    )


def _latencies(label: str, cas: int, latency: float) -> Drawing:
    rows = [
        Bar(f"{rate_label(g, r)}, CAS {c}", clocks_ns(c, r), f"{number(clocks_ns(c, r))} ns") for g, r, c in COMMON_KITS
    ]
    rows.append(Bar(f"Yours: {label}, CAS {cas}", latency, f"{number(latency)} ns", mark=True))
    description = "; ".join(f"{row.label} {row.text}" for row in rows)
    return bars("CAS latency as time", f"Bars: {description}.", rows, caption="A shorter bar is a shorter wait.")


def _bandwidths(label: str, channel: float) -> Drawing:
    rows = [Bar(rate_label(g, r), channel_gb_s(r), f"{number(channel_gb_s(r), 1)} GB/s") for g, r, _ in COMMON_KITS]
    rows.append(Bar(f"Yours: {label}", channel, f"{number(channel, 1)} GB/s", mark=True))
    description = "; ".join(f"{row.label} {row.text}" for row in rows)
    return bars("Bandwidth of one channel", f"Bars: {description}.", rows, caption="A longer bar carries more.")


def _notes(label: str, name: str, rate: int, clock_mhz: float) -> tuple[Note, ...]:
    return (
        Note(
            "Why one readout says half the number",
            f"The clock runs at {number(clock_mhz, 1)} MHz and each clock carries two transfers, so the rate is "
            f"{rate} MT/s, millions of transfers a second. A readout of the clock shows the smaller number, one of "
            "the rate the larger; both are right. Many people say MHz where they mean MT/s.",
        ),
        Note(
            "Two labels, one kit",
            f"{label} and {name} are the same thing: the first names the rate, the second the bandwidth of one "
            "module in MB/s, rounded down to hundreds.",
        ),
        Note(
            "What your system shows",
            "A system reports the rate it runs at now. With the rated profile off, that is the slower standard "
            "rate, and nothing is broken.",
        ),
        Note(
            "What the number leaves out",
            "CAS latency is one part of the wait, not the whole: opening a row, the controller and the caches add "
            "their own. Two kits with the same CAS latency in nanoseconds can still differ a little.",
        ),
    )


def worked_for(given: Values) -> str:
    """The kit and the channels, in one phrase."""
    label = rate_label(given["generation"], given["rate"])
    return f"{label} with CAS latency {given['cas']}, {plural(given['channels'], 'channel')}"


calculator = Calculator(
    name="memory.rate",
    title="What do the numbers on a memory kit mean?",
    summary="Rate and CAS latency as clock, nanoseconds and bandwidth, with both labels in use.",
    inputs=(
        Choice(
            key="generation",
            label="Generation",
            where="On the stick's sticker, as DDR3, DDR4 or DDR5; else in the system's hardware overview.",
            options=GENERATIONS,
            default="ddr4",
            names=("memory type", "type of memory", "kind of memory"),
        ),
        Number(
            key="rate",
            label="Rate",
            where="On the sticker after DDR4- or DDR5-, or in the kit's name. It is often called MHz there.",
            low=200,
            high=20000,
            unit="MT/s",
            default=3200,
            whole=True,
            also=RATE_UNITS,
            follows=Follows("generation", USUAL_RATE),
            printed=rate_on_label,
            against=wrong_generation("generation", "Rate"),
            names=("speed", "rated speed", "mhz", "mt/s", "megahertz", "clock speed"),
        ),
        Number(
            key="cas",
            label="CAS latency",
            where="On the sticker: the first of the timings, such as the 16 in 16-18-18-38, or after CL.",
            low=1,
            high=200,
            unit="clocks",
            default=16,
            whole=True,
            also={"clock": 1, "CL": 1},
            follows=Follows("generation", {"ddr3": "11", "ddr5": "36"}),
            printed=cas_on_label,
            names=("cl", "cas", "latency", "timings"),
        ),
        Number(
            key="channels",
            label="Channels in use",
            where="The board's manual. Most desktop boards have two, used when sticks sit in the paired slots.",
            low=1,
            high=12,
            default=2,
            whole=True,
            names=("channel", "dual channel", "single channel"),
        ),
    ),
    compute=compute,
    version=2,
    worked_for=worked_for,
    presets=(
        Preset("common-ddr4", "DDR4-3200, CAS 16", {"generation": "ddr4", "rate": 3200, "cas": 16}),
        Preset("standard-ddr4", "DDR4-2133, profile off", {"generation": "ddr4", "rate": 2133, "cas": 15}),
        Preset("standard-ddr5", "DDR5-4800, profile off", {"generation": "ddr5", "rate": 4800, "cas": 40}),
        Preset("common-ddr5", "DDR5-6000, CAS 30", {"generation": "ddr5", "rate": 6000, "cas": 30}),
        Preset("old-ddr3", "DDR3-1600, CAS 9", {"generation": "ddr3", "rate": 1600, "cas": 9}),
    ),
)
