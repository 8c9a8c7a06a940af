"""What memory.mix says beside its numbers: the verdict with its reason, and the notes."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.answer import DEPENDS, YES, Caution, Note, Verdict
from calculators.desk.numbers import listed, number
from calculators.memory.kits.kit_inputs import Kit
from calculators.memory.kits.not_made import NotMade, not_made
from calculators.memory.kits.slot_placement import Placement
from calculators.memory.timings import jedec_bins
from calculators.memory.timings.data_rates import thirds
from calculators.memory.timings.first_setting import First, standard_volts
from calculators.memory.timings.start_settings import DDR3_VOLTS, SAME_VOLTS, STANDARD, Start
from calculators.memory.timings.timing_strings import Timings

MOST_WORDS = 15  # of a verdict's reason: it is read out

LOW_VOLTS_ONLY = (
    "First look in the board's or the computer's manual: does it say DDR3L only? Then no 1.5 V stick goes in."
)


@dataclass(frozen=True, slots=True)
class Board:
    """What was told of the board. Limits in MT/s and GB; None where nobody knows. ddr3l_only: yes, no, unsure."""

    limit_two: int | None
    limit_four: int | None
    slot_most_gb: int | None
    most_gb: int | None
    ddr3l_only: str


def agree(one: Timings, other: Timings) -> bool:
    """Whether two kits' timings agree as far as both are told: CL16 alone does not differ from 16-18-18-38."""
    return all(a == b or a is None or b is None for a, b in zip(one, other, strict=True))


def all_given(have: Kit, add: Kit) -> bool:
    """Whether both kits come with all four timings."""
    return None not in (*have.timings, *add.timings)


def differences(have: Kit, add: Kit) -> list[str]:
    """The inputs in which two kits differ, in words."""
    pairs_of = (
        ("number of sticks", have.count, add.count),
        ("size", have.size, add.size),
        ("rated speed", thirds(have.rate), thirds(add.rate)),
        ("timings", True, agree(have.timings, add.timings)),
        ("rated voltage", have.volts, add.volts),
        ("ranks", have.ranks, add.ranks),
        ("error correction", have.ecc, add.ecc),
        ("speed with the profile off", have.standard_rate, add.standard_rate),
    )
    return [name for name, one, other in pairs_of if one != other]


def odd_values(have: Kit, add: Kit) -> list[NotMade]:
    """The values given for either kit that its generation does not have, each once."""
    return list(dict.fromkeys((*not_made(have), *not_made(add))))


def asks_for_ddr3l(have: Kit, add: Kit, board: Board) -> bool:
    """Whether it is open that the board takes 1.35 V sticks only, and a stick of more is to go in."""
    high = max(have.volts, add.volts) > jedec_bins.DDR3_LOW_VOLTS
    return have.generation == "ddr3" and high and board.ddr3l_only == "unsure"


def asks_for_sizes(have: Kit, add: Kit, board: Board) -> bool:
    """Whether bigger sticks are to go in, and it is open what a slot or the board takes."""
    return add.size > have.size and (board.slot_most_gb is None or board.most_gb is None)


def open_limit(have: Kit, doubled: bool, board: Board) -> bool:
    """Whether two DDR5 sticks share a channel, and nobody told the makers' limit for that."""
    return have.generation == "ddr5" and doubled and board.limit_four is None


def verdict_on(have: Kit, add: Kit, begin: Start, doubled: bool, board: Board) -> Verdict:
    """Yes for kits told in full and alike, and a rate that no limit lowers; else depends, with the gravest reason."""
    odd = odd_values(have, add)
    differ = differences(have, add)
    limit = f"the limit of {begin.limit_mt_s} MT/s lowers the rate" if begin.limit_mt_s else ""
    no_limit = open_limit(have, doubled, board)
    if odd:
        return Verdict(DEPENDS, odd[0].short)
    if asks_for_ddr3l(have, add, board):
        return Verdict(DEPENDS, "If the board's manual says DDR3L only, no 1.5 V stick goes in: look first.")
    if not differ and limit:
        return Verdict(DEPENDS, f"Both kits are alike, but {limit} from {begin.uncapped_mt_s}.")
    if not differ and no_limit:
        return Verdict(DEPENDS, "Two DDR5 sticks a channel seldom hold their rating: look up the makers' limit.")
    if not differ and not all_given(have, add):
        return Verdict(DEPENDS, "Alike as far as told: read on both data sheets whether the other timings agree.")
    if not differ:
        return Verdict(YES, "The kits are alike; makers promise it only for sticks sold together as one kit.")
    if have.volts != add.volts and begin.way == STANDARD:
        named = "rated voltage" if len(differ) == 1 else "rated voltage and more"
        return Verdict(DEPENDS, f"The kits differ in {named}: both begin with their profiles off.")
    tails = [limit] if limit else []
    tails += ["look up the limit for two sticks a channel"] if no_limit else []
    tails += ["look up the largest stick a slot takes"] if asks_for_sizes(have, add, board) else []
    tails += ["nobody has tested them together"]
    return Verdict(DEPENDS, _reason(differ, tails))


def _reason(differ: list[str], tails: list[str]) -> str:
    """The verdict's reason: as many differences as its words allow, then the gravest further point if it fits."""
    for count in range(len(differ), 0, -1):
        named = listed(differ) if count == len(differ) else f"{', '.join(differ[:count])} and more"
        for tail in (*(f"; {tail}" for tail in tails), ""):
            reason = f"The kits differ in {named}{tail}."
            if len(reason.split()) <= MOST_WORDS:
                return reason
    return "The kits differ in many points."


def notes_on(
    have: Kit, add: Kit, place: Placement, worst: int, begin: Start, first: First, board: Board
) -> tuple[Note, ...]:
    """What the result means for these kits, and the mistakes that are commonly made with it."""
    limit_two, limit_four = board.limit_two, board.limit_four
    total = place.channel_gb(0) + place.channel_gb(1)
    notes = [Note("Is that what the sticker says?", each.text) for each in odd_values(have, add)]
    if asks_for_ddr3l(have, add, board):
        notes.append(
            Note(
                "First: does the manual say DDR3L only?",
                "Many laptops and small computers are made for 1.35 V sticks alone. Their manuals say DDR3L, or "
                "1.35 V. If yours does, no 1.5 V stick may go in, not even for a try.",
            )
        )
    if asks_for_sizes(have, add, board):
        notes.append(
            Note(
                "Two numbers to look up before you buy",
                f"The largest stick that a slot takes, to be at least {add.size} GB, and the most memory in all, to "
                f"be at least {total} GB. Both stand in the manual of the board or computer. Give them above.",
            )
        )
    notes.append(_about_profiles(first))
    differ = differences(have, add)
    if len(differ) > 1:
        notes.append(Note("In what the kits differ", f"In {listed(differ)}."))
    notes.append(
        Note(
            "What nobody promises",
            "Only a kit sold and tested as one is rated as one. Two kits together may hold less than either, and four "
            "sticks may be rated lower than two.",
        )
    )
    if begin.timings.trcd is None:
        notes.append(
            Note(
                "CAS latency alone",
                "Of one kit at least, you gave the CAS latency only. The other timings are not told: leave them to the "
                "profile or to automatic. The data sheet of the kit has them.",
            )
        )
    if begin.way == DDR3_VOLTS:
        notes.append(
            Note(
                "DDR3 at 1.35 V beside DDR3 at 1.5 V",
                "A 1.35 V DDR3 stick is also specified for 1.5 V, so both run at 1.5 V. The other way round there is "
                "no promise: a 1.5 V stick must not be asked to run at 1.35 V, and a computer made for 1.35 V only, "
                "as many laptops are, must not get it. Its manual decides.",
            )
        )
    elif begin.way != SAME_VOLTS and first != First.NOTHING:
        high, low = max(have.volts, add.volts), min(have.volts, add.volts)
        assumed = "" if have.standard_rate and add.standard_rate else (
            " Where you gave no speed with the profile off, the usual standard one stands in; what your board shows "
            "then is the better number."
        )  # fmt: skip
        notes.append(
            Note(
                "Why the standard settings",
                f"One kit's rating holds at {number(high, 4)} V, the other's at {number(low, 4)} V, and both get one "
                f"voltage. Timings promised at {number(high, 4)} V do not hold at {number(low, 4)} V, and the "
                "other kit must not get more than its maker allows. So both start with their profiles off, at the "
                f"generation's standard voltage of {number(begin.volts, 4)} V.{assumed}",
            )
        )
        if low > max(standard_volts(have.generation)):
            notes.append(
                Note(
                    "A way up, only with the maker's word",
                    f"Down is the way to begin. Both kits at {number(high, 4)} V is no step here, and comes into "
                    f"question only where the maker of the {number(low, 4)} V kit allows {number(high, 4)} V in "
                    "writing.",
                )
            )
    if place.channels == 2 and worst < place.paired_gb():
        notes.append(
            Note(
                "What the wrong slots cost",
                f"The same sticks in the worst slots leave {worst} GB in pairs instead of {place.paired_gb()} GB. "
                f"Memory runs in pairs as far as both channels hold it; the rest runs at half the bandwidth.",
            )
        )
    if place.doubled() and limit_four is None:
        notes.append(
            Note(
                "Two sticks on one channel",
                "The makers of processor and board list a lower rate for two sticks a channel than for one, and it "
                "can lie below what the sticks are rated for. Look it up and give it above. Without it nobody can "
                "say at which rate this board keeps them.",
            )
        )
    if place.doubled() and limit_four is not None and limit_two is not None and thirds(limit_four) > thirds(limit_two):
        notes.append(
            Note(
                "Are the two limits swapped?",
                f"You gave {limit_four} MT/s for two sticks a channel and {limit_two} MT/s for one. Makers list it the "
                "other way round.",
            )
        )
    if place.channels == 1:
        notes.append(
            Note(
                "One channel only",
                "Nothing can be spread over two channels here, so no slot is better than another "
                "for speed. The manual still names an order to fill them.",
            )
        )
    notes += _stick_notes(have, add, begin)
    if have.generation == "ddr5":
        notes.append(HALF_CHANNELS)
    notes.append(
        Note(
            "Leave on automatic",
            "The refresh time, because it grows with the density of the chips and the board reads it from the "
            "sticks. The controller's ratio to the memory clock, because the board picks one that the processor "
            "can hold. The command rate, because two sticks a channel often need the slower one.",
        )
    )
    notes.append(
        Note(
            "Two kinds of gigabyte",
            "A stick's gigabyte is 2³⁰ bytes, as printed on every stick; a channel's gigabyte a second is a round "
            "10⁹ bytes.",
        )
    )
    return tuple(notes)


HALF_CHANNELS = Note(
    "Why a tool may show four channels",
    "A DDR5 stick carries its 64 data bits as two halves of 32, each with commands of its own. Some tools count the "
    "halves, so two sticks show as four channels. Nothing is wrong; here a channel is both halves together.",
)


def _about_profiles(first: First) -> Note:
    if first == First.NOTHING:
        return Note(
            "Why there is nothing to set",
            "Laptops and most small computers have no menu for memory. They take the standard settings stored in the "
            "sticks, at the slower stick's rate.",
        )
    if first == First.STEP_UP:
        return Note(
            "Why automatic first",
            "With two DDR5 sticks on a channel, most boards hold far less than the sticks' rating. On automatic the "
            "board chooses what it can hold, often a rate below the sticks' standard one. Go up from there, a step "
            "and a test at a time.",
        )
    return Note(
        "Not simply one kit's profile for both",
        "A rated profile belongs to the kit that it was tested on. Switched on for both, it asks of the other "
        "kit what nobody tested. Set rate, timings and voltage by hand instead, and leave the rest alone.",
    )


def size_cautions(have: Kit, add: Kit) -> tuple[Caution, ...]:
    """A caution for sizes that older firmware does not know: three times a power of two."""
    sizes = sorted({kit.size for kit in (have, add) if kit.size % 3 == 0})
    if not sizes or have.generation != "ddr5":
        return ()
    return (
        Caution(
            "machine",
            f"Sticks of {listed([str(s) for s in sizes])} GB need firmware that knows this size. If the board's maker "
            "lists a newer one for it, update with the old sticks in and the recovery key at hand.",
            "The board's memory list and manual decide.",
        ),
    )


def _stick_notes(have: Kit, add: Kit, begin: Start) -> list[Note]:
    notes = []
    if "yes" in (have.ecc, add.ecc) and have.ecc != add.ecc:
        notes.append(
            Note(
                "Error correction in one kit only",
                "Mixed, the sticks usually run without error correction, if the board takes the mix at all; its "
                "manual says so. If you bought the correction to have it, do not mix.",
            )
        )
    elif have.ecc == add.ecc == "yes":
        notes.append(
            Note(
                "Error correction needs the whole chain",
                "It works only where processor, board and firmware support it. Check that the system reports it as "
                "working, not merely as present.",
            )
        )
    if have.module == "registered":
        notes.append(
            Note("Registered sticks", "They run only in boards made for them, mostly servers and workstations.")
        )
    if have.ranks != add.ranks and "unknown" not in (have.ranks, add.ranks):
        notes.append(
            Note(
                "One rank beside two",
                "Ranks may differ between sticks. The two-rank sticks load the channel more, so a mixed channel is "
                "rated like one with two ranks.",
            )
        )
    elif "unknown" in (have.ranks, add.ranks):
        notes.append(
            Note(
                "Ranks not given",
                "Sticks of two ranks load the channel more than sticks of one, and the makers' limits differ for "
                "them. Read the limit for two ranks if you are not sure.",
            )
        )
    if begin.timings.tras is None and begin.timings.trcd is not None:
        notes.append(
            Note(
                "Row active time not given",
                "One kit came with three timings only. Leave the fourth, tRAS, on automatic.",
            )
        )
    return notes
