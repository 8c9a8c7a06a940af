"""work.footage: how fast a disk footage needs, how much a take fills, and which decoder profile it asks for."""

from __future__ import annotations

from dataclasses import dataclass

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
from calculators.desk.charts import Bar, bars
from calculators.desk.errors import refuse
from calculators.desk.inputs import HOW_TO_TELL, Choice, Number, Option, Values
from calculators.desk.numbers import number, plural, settled, significant
from calculators.desk.svg import Drawing
from calculators.trade.frame_rates import SOURCE as RATE_SOURCE
from calculators.trade.frame_rates import exact_rate, rate_input, say_rate
from calculators.trade.ratio import Ratio, exact_ratio
from calculators.work.formulas.footage_rates import (
    CALM_SHARE,
    SAMPLES,
    bits_to_bytes,
    frame_bytes,
    sample_bytes,
    streams_fit,
)
from calculators.work.tables.decoder_profiles import CODECS, least_profile
from calculators.work.tables.decoder_profiles import SOURCES as PROFILE_SOURCES
from calculators.work.tables.disk_rates import FOUR_LANES_MB_S, SATA_MB_S, SPINNING_MB_S
from calculators.work.tables.disk_rates import SOURCES as DISK_SOURCES
from calculators.work.wording.cautions import BACK_UP
from calculators.work.wording.rate_inputs import MEGABITS, MEGABYTES, BitRate, ByteRate
from calculators.work.wording.typed_inputs import Counted

WORDS32_BITS = 10
TERABYTE_GB = 1000  # from which on a size is said in terabytes
_CHROMA = {"4444": "4:4:4 with a key", "444": "4:4:4", "422": "4:2:2", "420": "4:2:0", "raw": "raw"}
_CODECS = {"h264": "H.264", "h265": "H.265", "av1": "AV1"}
_PROFILE_KEYS = {"H.264": "profile_h264", "H.265": "profile_h265", "AV1": "profile_av1"}
_KEYED = {"4444": "444"}  # a key is a picture of its own to a codec

SOURCES = (
    Source("Sizes and rates of frames", "arithmetic"),
    Source("ITU-R BT.601 and BT.2020", "samples a pixel of 4:4:4, 4:2:2 and 4:2:0", FROM_MEMORY),
    Source("SMPTE ST 268", "three samples of ten bits in a word of 32", FROM_MEMORY),
    Source("Which profiles most decoders take, and where many stop", "", COMMON_PRACTICE),
    Source("Not above 70 % of a disk; some disks slow down when full or after their quick part", "", COMMON_PRACTICE),
    *DISK_SOURCES,
    *PROFILE_SOURCES,
    RATE_SOURCE,
)


@dataclass(frozen=True, slots=True)
class Footage:
    """Footage worked out, exact: sizes in bytes and MB, rates in MB/s; disk is None where none was given."""

    rate: Ratio
    frame: Ratio
    raw: Ratio
    stream: Ratio
    all: Ratio
    disk: Ratio | None

    @property
    def total_gb(self) -> Ratio:
        """What one hour of all streams fills. [GB]"""
        return self.all.times(3600, 1000)


def work_out(given: Values) -> Footage:
    """Everything that the answer words."""
    bits = int(given["bits"])
    if given["packing"] == "words32" and bits != WORDS32_BITS:
        raise refuse(
            "packing",
            f"Words of 32 bits hold three samples of {WORDS32_BITS} bits, and the depth is {bits} bits: choose "
            f"{WORDS32_BITS} bits, or another packing.",
        )
    rate = exact_rate(given["rate"])
    frame = frame_bytes(given["width"], given["height"], given["chroma"], bits, given["packing"])
    raw = frame.times(rate.over, rate.under).times(1, 1_000_000)
    named = given.get("mbps")
    if named is None:
        ratio = exact_ratio(given["ratio"])
        stream = raw.times(ratio.under, ratio.over)
    else:
        stream = bits_to_bytes(exact_ratio(named))
    disk = given.get("disk_mb_s")
    return Footage(
        rate, frame, raw, stream, stream.times(given["streams"]), None if disk is None else exact_ratio(disk)
    )


def compute(given: Values) -> Answer:
    """Footage against a disk and against a decoder."""
    footage = work_out(given)
    return Answer(
        headline=_headline(given, footage),
        verdict=_verdict(given, footage),
        figures=_figures(given, footage),
        working=_working(given, footage),
        tables=(_profiles(given),),
        drawings=(_drawing(given, footage),),
        notes=_notes(given, footage),
        cautions=(BACK_UP,),
        sources=SOURCES,
    )


def _mb_s(value: Ratio) -> str:
    return f"{significant(value.value, 3)} MB/s"


def _size(gigabytes: float) -> str:
    return f"{significant(gigabytes / 1000, 3)} TB" if gigabytes >= TERABYTE_GB else f"{significant(gigabytes, 3)} GB"


def _total(given: Values, footage: Footage) -> float:
    hours: float = given["hours"]
    return footage.total_gb.value * hours


def _headline(given: Values, footage: Footage) -> str:
    needs = "needs" if given["streams"] == 1 else "need"
    what = plural(given["streams"], "stream")
    if _uncompressed(given):
        what = f"uncompressed, {what}"
    begins = f"{what[0].upper()}{what[1:]} of your footage"
    fills = (
        f"{number(given['hours'], 2)} h {'fills' if given['hours'] == 1 else 'fill'} {_size(_total(given, footage))}"
    )
    if footage.disk is None and given["codec"] in _CODECS:
        codec = _CODECS[given["codec"]]
        profile, about = _profile(given, codec), _about(given)
        # A codec compresses, so a size without compression would say nothing of its files.
        size = f"{what} {needs} {_mb_s(footage.all)}, and {fills}"
        if _uncompressed(given):
            size = "give the bit rate, and the disk is worked out too"
        if given["chroma"] == "raw":
            return f"Raw is in no profile of {codec}; {size}."
        if _untold(given):
            return f"Whether a decoder takes {codec} hangs on sampling and depth; {size}."
        if not profile:
            return f"No profile of {codec} holds {about}; {size}."
        return f"{codec} with {about} is the profile {profile}; {size}."
    if footage.disk is None:
        return f"{begins} {needs} {_mb_s(footage.all)} without pause, and {fills}."
    if not footage.all.fits(footage.disk):
        return f"{begins} {needs} {_mb_s(footage.all)}, the disk gives {_mb_s(footage.disk)}, and {fills}."
    return f"{begins} {needs} {_mb_s(footage.all)} of the disk's {_mb_s(footage.disk)}, and {fills}."


def _verdict(given: Values, footage: Footage) -> Verdict | None:
    disk = footage.disk
    if disk is None:
        return _decoder_verdict(given)
    if not footage.all.fits(disk):
        return Verdict(NO, "The footage asks more than the disk gives.", "Too slow.")
    if not footage.all.fits(disk.times(CALM_SHARE.over, CALM_SHARE.under)):
        return Verdict(DEPENDS, "Above 70 % of a disk, every seek and every other program is felt.", "Tight.")
    if given["disk_kind"] == "spinning" and given["streams"] > 1:
        return Verdict(DEPENDS, "A spinning disk loses time between streams: measure it with all of them.", "Measure.")
    if given["disk_kind"] == "unsure" and given["streams"] > 1:
        return Verdict(YES, "The disk has room; if it spins, measure it with all streams.", "Fast enough.")
    return Verdict(YES, "The disk has room; if it stutters still, look at the decoder.", "Fast enough.")


def _decoder_verdict(given: Values) -> Verdict | None:
    """What a decoder is likely to do, where one asks about a codec and no disk: its maker's own list decides."""
    if given["codec"] not in _CODECS or given["chroma"] == "raw":
        return None
    codec = _CODECS[given["codec"]]
    if _untold(given):
        return Verdict(
            DEPENDS,
            "Sampling and depth decide, not the codec's name: the file's properties name both.",
            "That depends.",
        )
    if not _profile(given, codec):
        return Verdict(NO, "No list can name it: the cores do the work, or a proxy.", "Not by a decoder.")
    plain, bits = given["chroma"] == "420", int(given["bits"])
    if plain and bits == 8:
        return Verdict(
            DEPENDS, f"Nearly every decoder for {codec} takes this; its level must hold size and rate.", "Very likely."
        )
    if plain and bits == 10 and given["codec"] != "h264":  # whose decoders seldom go beyond 8 bits
        return Verdict(DEPENDS, f"Most newer decoders for {codec} take this; look for the profile.", "Likely.")
    return Verdict(
        DEPENDS, "Many decoders stop before this profile: look for it in your decoder's list.", "Look it up."
    )


def _untold(given: Values) -> bool:
    """Whether sampling or depth is assumed: a profile of what nobody told would mislead."""
    return "chroma" in given.assumed or "bits" in given.assumed


def _figures(given: Values, footage: Footage) -> tuple[Figure, ...]:
    sized = footage.disk is not None or given["codec"] not in _CODECS or not _uncompressed(given)
    rows = [
        figure("all_mb_s", "All streams need", footage.all.value, "MB/s", 2, main=sized),
        _total_figure(_total(given, footage), sized),
    ]
    if footage.disk is not None:
        percent = footage.all.times(100).times(footage.disk.under, footage.disk.over)
        rows.append(figure("disk_percent", "Share of the disk", percent.value, "%", 1, main=True))
        rows.append(
            figure("streams_fit", "Streams that fit, at most", streams_fit(footage.disk, footage.stream), "", 0)
        )
    rows += [
        figure("stream_mb_s", "One stream", footage.stream.value, "MB/s", 2),
        figure("stream_mbps", "One stream, in bits", footage.stream.value * 8, "Mb/s", 2),
        figure("raw_mb_s", "Without compression", footage.raw.value, "MB/s", 2),
        figure("frame_mb", "One frame without compression", footage.frame.value / 1_000_000, "MB", 3),
    ]
    if given.get("mbps") is not None:
        rows.append(figure("ratio_named", "The camera compresses by", footage.raw.value / footage.stream.value, "", 2))
    named = _CODECS.get(given["codec"])
    for codec in CODECS:
        profile = _profile(given, codec)
        if profile:
            asked = codec == named and not _untold(given)
            rows.append(figure(_PROFILE_KEYS[codec], f"{codec}: the decoder's profile", profile, main=asked))
    return tuple(rows)


def _total_figure(gigabytes: float, main: bool) -> Figure:
    """The take's size in gigabytes, read in the unit in which the headline says it."""
    value = settled(gigabytes)
    text = f"{number(value / 1000, 2)} TB" if value >= TERABYTE_GB else f"{number(value, 2)} GB"
    return Figure("total_gb", "The take fills", value, "GB", text, main=main)


def _about(given: Values) -> str:
    """Sampling and depth as a profile holds them: without a key."""
    return f"{_CHROMA[_KEYED.get(given['chroma'], given['chroma'])]} at {given['bits']} bits"


def _profile(given: Values, codec: str) -> str:
    return least_profile(codec, _KEYED.get(given["chroma"], given["chroma"]), int(given["bits"]))


def _working(given: Values, footage: Footage) -> tuple[Working, ...]:
    samples = number(SAMPLES[given["chroma"]].value, 2)
    each = sample_bytes(int(given["bits"]), given["packing"])
    raw, stream, named = number(footage.raw.value, 2), number(footage.stream.value, 2), given.get("mbps")
    frame = number(footage.frame.value / 1_000_000, 3)
    size = f"{given['width']} × {given['height']} × {samples} × {number(each.value, 4)}"
    lines = [
        Working("One frame", "width × height × samples × bytes a sample ÷ 10⁶", f"{size} ÷ 10⁶", f"{frame} MB"),
        Working(
            "Without compression", "frame × rate", f"{frame} × {say_rate(given['rate'], 'frames/s')}", f"{raw} MB/s"
        ),
    ]
    if named is None:
        lines.append(Working("One stream", "without compression ÷ ratio", f"{raw} ÷ {number(given['ratio'], 2)}",
                             f"{stream} MB/s"))  # fmt: skip
    else:
        lines.append(Working("One stream", "named bit rate ÷ 8", f"{number(named, 2)} Mb/s ÷ 8", f"{stream} MB/s"))
    together = number(footage.all.value, 2)
    lines += [
        Working("All streams", "stream × streams", f"{stream} × {given['streams']}", f"{together} MB/s"),
        Working("The take", "all × 3600 × hours ÷ 1000", f"{together} × 3600 × {number(given['hours'], 2)} ÷ 1000",
                f"{number(_total(given, footage), 2)} GB"),
    ]  # fmt: skip
    if footage.disk is not None:
        disk = number(footage.disk.value, 2)
        lines.append(Working("Share of the disk", "100 × all ÷ disk", f"100 × {together} ÷ {disk}",
                             f"{number(100 * footage.all.value / footage.disk.value, 1)} %"))  # fmt: skip
    return tuple(lines)


def _profiles(given: Values) -> Table:
    rows = tuple((codec, _profile(given, codec) or "none") for codec in CODECS)
    about = _about(given)
    if given["chroma"] == "raw":
        note = "Raw is in no profile of these: the program develops it, mostly on the card."
    else:
        note = (
            f"The least profile that holds {about}. A list that names the codec alone promises 4:2:0 at 8 bits. The "
            "level stands beside the profile and must hold size, rate and bit rate."
        )
        if given["chroma"] in _KEYED:
            note += " The key is a picture of its own, and few decoders take it along."
    return Table(
        title="What the decoder's list must name",
        columns=(Column("Codec"), Column("Profile")),
        rows=rows,
        note=note,
        marked=(CODECS.index(_CODECS[given["codec"]]),) if given["codec"] in _CODECS else (),
    )


def _drawing(given: Values, footage: Footage) -> Drawing:
    one = Bar("One stream", footage.stream.value, _mb_s(footage.stream), mark=given["streams"] == 1)
    rows = [one]
    if footage.disk is None and (given["ratio"] > 1 or given.get("mbps") is not None):
        rows.insert(0, Bar("Without compression", footage.raw.value, _mb_s(footage.raw)))
    if given["streams"] > 1:
        rows.append(Bar(f"All {given['streams']} streams", footage.all.value, _mb_s(footage.all), mark=True))
    if footage.disk is not None:
        calm = footage.disk.times(CALM_SHARE.over, CALM_SHARE.under)
        rows.append(Bar("70 % of the disk", calm.value, _mb_s(calm), fill="fill-1"))
        rows.append(Bar("The disk", footage.disk.value, _mb_s(footage.disk), fill="fill-1"))
    description = "; ".join(f"{row.label} {row.text}" for row in rows)
    return bars("What footage asks of a disk", f"Bars: {description}.", rows, caption="Longer is more.")


def _notes(given: Values, footage: Footage) -> tuple[Note, ...]:
    notes = [
        Note(
            "First: does it stutter while the disk idles?",
            "Play the footage and watch the disk's load. If the disk has little to do and the picture still stutters, "
            "the decoder is too slow, and no disk will help. A proxy does: a smaller copy that is light to decode, "
            "which the program swaps for the original at the end.",
        ),
        Note(
            "Mb is not MB",
            f"Cameras name megabits, disks megabytes; eight bits are one byte. "
            f"{number(footage.stream.value * 8, 1)} Mb/s are {number(footage.stream.value, 1)} MB/s.",
        ),
        Note(
            "Measure over the length of a take",
            "Some solid disks fall to a fraction of their rate when their quick part is used up, or when they are "
            "nearly full. A spinning disk slows towards its inner end and loses time at every jump. Common practice: "
            "copy as much as a take holds, and read the rate at the end.",
        ),
        Note(
            "Will the machine decode it?",
            "Ask for profile and level, not for the codec's name. Many decoders built into cards and processors take "
            "4:2:0 and no 4:2:2; then the processor's cores do the work, or a proxy.",
        ),
    ]
    if footage.disk is None:
        notes.append(
            Note(
                "What disks give",
                f"A spinning disk gives about {number(SPINNING_MB_S, 0)} MB/s where it is quickest, a SATA link at "
                f"most {number(SATA_MB_S, 0)}, an NVMe disk on four lanes of generation 3 at most "
                f"{number(FOUR_LANES_MB_S, 0)}.",
            )
        )
    else:
        notes.append(
            Note(
                "At most",
                f"{plural(streams_fit(footage.disk, footage.stream), 'stream')} would fit by arithmetic alone. "
                "Programs "
                "read ahead, write previews and jump, so count on fewer.",
            )
        )
    padding = "No padding at the ends of lines is counted; some formats fill each line to a round number of bytes."
    if given["packing"] == "words32":
        padding = "Three samples of ten bits fill a word of 32. " + padding
    notes.append(Note("What is not counted", padding + " Sound adds little: a few MB/s at most."))
    if given.get("mbps") is not None:
        notes.append(
            Note(
                "The named bit rate counts",
                "It replaces the compression. Cameras name the picture's average or its most; a busy scene may take "
                "more for a moment.",
            )
        )
    return tuple(notes)


def _uncompressed(given: Values) -> bool:
    """Whether neither a bit rate nor a compression is given: cameras' files are never so large."""
    return given.get("mbps") is None and given["ratio"] == 1


def _worked_for(given: Values) -> str:
    mode = f"{given['width']}×{given['height']} at {say_rate(given['rate'], 'frames/s')}"
    named = "" if given.get("mbps") is None else f", {number(given['mbps'], 1)} Mb/s"
    if _uncompressed(given):
        named = ", not compressed"
    return f"{plural(given['streams'], 'stream')} of {mode}, {_CHROMA[given['chroma']]}, {given['bits']} bits{named}"


def _pixels(key: str, label: str, default: int, where: str, names: tuple[str, ...] = ()) -> Number:
    return Number(
        key=key, label=label, group="The footage", low=16, high=32_768, unit="px", default=default, whole=True,
        where=where, names=names, also={"pixels": 1, "lines": 1, "p": 1},
    )  # fmt: skip


calculator = Calculator(
    name="work.footage",
    version=4,
    title="How fast a disk does my footage need, and how much fits?",
    summary="Size and rate of footage, its share of a disk, how many streams fit, and which decoder profile it needs.",
    inputs=(
        _pixels("width", "Width", 3840, "The camera's menu or the file's properties.", ("resolution", "4k", "uhd")),
        _pixels("height", "Height", 2160, "The second number of the size, such as the 2160 in 3840×2160."),
        rate_input(
            key="rate", label="Frames a second", group="The footage", low=1, high=1000, default=25, unit="frames/s",
            where="The camera's menu or the file's properties, such as 23.976, 25 or 50.",
            names=("fps", "frame rate", "hz"),
        ),
        Choice(
            key="chroma", label="Colour sampling", group="The footage", default="4444",
            options=(Option("4444", "4:4:4 with a key", ("4:4:4:4", "alpha")), Option("444", "4:4:4", ("rgb",)),
                     Option("422", "4:2:2"), Option("420", "4:2:0"),
                     Option("raw", "raw, one sample a pixel", ("raw",))),
            where="The camera's menu, or the file's properties in an editing program.", names=("subsampling",),
        ),
        Counted(
            key="bits", label="Bits a sample", group="The footage", default="8",
            options=tuple(Option(n, n) for n in ("8", "10", "12", "16")),
            where="The camera's menu, such as '10 bit'.", names=("bit depth", "depth", "bit"),
        ),
        Choice(
            key="codec", label="Codec", group="The footage", default="unsure",
            options=(Option("unsure", "not sure, or another"), Option("h264", "H.264", ("avc",)),
                     Option("h265", "H.265", ("hevc",)), Option("av1", "AV1")),
            where="The file's properties in an editing program. It changes no size, only what the decoder must name.",
        ),
        Choice(
            key="packing", label="Packing", group="The footage", default="tight", extra=True,
            options=(Option("tight", "tight, no filling"), Option("words32", "three samples in 32 bits"),
                     Option("words16", "each sample in 16 bits")),
            where="Only for files without compression: the program's export page or the format's description.",
        ),
        Number(
            key="ratio", label="Compression", group="The footage", low=1, high=1000, default=1, unit="times",
            where="The codec's data sheet, such as 5 for 5:1; 1 without compression. Where you know the bit rate, give "
            "that below.",
            also={":1": 1, "to 1": 1, "x": 1}, names=("compressed",),
        ),
        BitRate(
            key="mbps", label="The camera's bit rate", group="The footage", low=0.01, high=1_000_000, unit="Mb/s",
            optional=True, also=MEGABITS,
            where="The camera's menu or manual, in megabits; it replaces the compression.",
            names=("bitrate", "bit rate"),
        ),
        Number(
            where_title=HOW_TO_TELL,
            key="streams", label="Streams at once", group="The work", low=1, high=16, default=1, whole=True,
            where="How many clips play at the same time: 1 for cutting, one for each camera of a multi-camera cut.",
            names=("cameras", "camera", "cams", "multicam", "layers", "tracks", "angles", "angle",
                   "streams", "stream", "clips at once"),
        ),
        Number(
            where_title=HOW_TO_TELL,
            key="hours", label="Length of the take", group="The work", low=0, high=10_000, unit="h", default=1,
            where="How long you film, all cards together.", names=("length", "duration"),
            also={"hours": 1, "hour": 1, "min": 1 / 60, "minutes": 1 / 60},
        ),
        ByteRate(
            where_title=HOW_TO_TELL,
            key="disk_mb_s", label="What the disk gives", group="The disk", low=0.1, high=1_000_000, unit="MB/s",
            optional=True, also=MEGABYTES,
            where="Measure it: copy a large file to or from the disk for some minutes and read the rate at the end.",
            names=("disk speed", "ssd", "read speed", "drive"),
        ),
        Choice(
            where_title=HOW_TO_TELL,
            key="disk_kind", label="Kind of disk", group="The disk", default="unsure",
            options=(Option("unsure", "not sure"), Option("solid", "solid, no moving parts"),
                     Option("spinning", "spinning",
                            ("hdd", "hard disk", "spinning disk", "spinning drive", "spinning rust"))),
            where="The sticker or the system's disk list; a spinning disk hums.", extra=True,
        ),
    ),
    compute=compute,
    worked_for=_worked_for,
    presets=(
        Preset("camera", "A camera at 400 Mb/s, 4:2:2, 10 bits",
               {"width": 3840, "height": 2160, "rate": 25, "chroma": "422", "bits": "10", "mbps": 400,
                "disk_mb_s": 500}),
        Preset("multicam", "Four such cameras at once",
               {"width": 3840, "height": 2160, "rate": 25, "chroma": "422", "bits": "10", "mbps": 400, "streams": 4,
                "disk_mb_s": 160, "disk_kind": "spinning", "hours": 2}),
        Preset("phone", "A telephone, 2160 at 59.94, 4:2:0",
               {"width": 3840, "height": 2160, "rate": 59.94, "chroma": "420", "bits": "10", "mbps": 100,
                "disk_mb_s": 500}),
        Preset("raw", "Raw, 12 bits, compressed 5:1",
               {"width": 6144, "height": 3456, "rate": 25, "chroma": "raw", "bits": "12", "ratio": 5,
                "disk_mb_s": 500}),
        Preset("frames", "Frames of a film, 4:4:4, 10 in 32-bit words",
               {"width": 4096, "height": 2160, "rate": 24, "chroma": "444", "bits": "10", "packing": "words32",
                "disk_mb_s": 1000}),
    ),
)  # fmt: skip
