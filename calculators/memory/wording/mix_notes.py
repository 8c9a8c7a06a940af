"""What memory.mix says beside its numbers: the verdict with its reason, and the notes."""

from __future__ import annotations

from calculators.desk.answer import DEPENDS, YES, Note, Verdict
from calculators.desk.numbers import listed, number
from calculators.memory.kits.kit_inputs import Kit
from calculators.memory.kits.slot_placement import Placement
from calculators.memory.timings import jedec_bins
from calculators.memory.timings.data_rates import thirds
from calculators.memory.timings.start_settings import DDR3_VOLTS, SAME_VOLTS, Start


def differences(have: Kit, add: Kit) -> list[str]:
    """The inputs in which two kits differ, in words."""
    pairs_of = (
        ("number of sticks", have.count, add.count),
        ("size", have.size, add.size),
        ("rated speed", thirds(have.rate), thirds(add.rate)),
        ("timings", have.timings, add.timings),
        ("rated voltage", have.volts, add.volts),
        ("ranks", have.ranks, add.ranks),
        ("error correction", have.ecc, add.ecc),
        ("speed with the profile off", have.standard_rate, add.standard_rate),
    )
    return [name for name, one, other in pairs_of if one != other]


def verdict_on(have: Kit, add: Kit, begin: Start, doubled: bool) -> Verdict:
    """Yes for kits alike in every input and a rate that no limit lowers; else depends, with the reason."""
    differ = differences(have, add)
    rated = "only a kit sold and tested as one is rated as one"
    four = ", and two sticks on a channel may be rated lower than one" if doubled else ""
    limited = (
        f"the limit of {begin.limit_mt_s} MT/s that you gave lowers the rate from {begin.uncapped_mt_s} MT/s"
        if begin.limit_mt_s
        else ""
    )
    if not differ and not limited:
        return Verdict(YES, f"Both kits are alike in all that you gave; still, {rated}{four}.")
    if not differ:
        return Verdict(DEPENDS, f"Both kits are alike, but {limited}; {rated}{four}.")
    also = f"; {limited}" if limited else ""
    return Verdict(DEPENDS, f"The kits differ in {listed(differ)}{also}; {rated}{four}.")


def notes_on(
    have: Kit, add: Kit, place: Placement, worst: int, begin: Start, doubled: bool, limit_two: int | None,
    limit_four: int | None,
) -> tuple[Note, ...]:  # fmt: skip
    """What the result means for these kits, and the mistakes that are commonly made with it."""
    notes = [
        Note(
            "Not simply one kit's profile for both",
            "A rated profile belongs to the kit that it was tested on. Switched on for both, it asks of the other "
            "kit what nobody tested. Set rate, timings and voltage by hand instead, and leave the rest alone.",
        ),
    ]
    if begin.way == DDR3_VOLTS:
        notes.append(
            Note(
                "DDR3 at 1.35 V beside DDR3 at 1.5 V",
                "A 1.35 V DDR3 stick is also specified for 1.5 V, so both run at 1.5 V. The other way round there is "
                "no promise: a 1.5 V stick must not be asked to run at 1.35 V, and a computer made for 1.35 V only, "
                "as many laptops are, must not get it. Its manual decides.",
            )
        )
    elif begin.way != SAME_VOLTS:
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
    if place.channels == 2 and worst < place.paired_gb():
        notes.append(
            Note(
                "What the wrong slots cost",
                f"The same sticks in the worst slots leave {worst} GB in pairs instead of {place.paired_gb()} GB. "
                f"Memory runs in pairs as far as both channels hold it; the rest runs at half the bandwidth.",
            )
        )
    if doubled and limit_four is None:
        notes.append(
            Note(
                "Two sticks on one channel",
                "The makers of processor and board list a lower rate for two sticks a channel than for one, and it "
                "can lie below what the sticks are rated for. Look it up and give it above; without it the rate to "
                "start at is a guess that the board may not keep.",
            )
        )
    if doubled and limit_four is not None and limit_two is not None and thirds(limit_four) > thirds(limit_two):
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
    if begin.timings.tras is None:
        notes.append(
            Note(
                "Row active time not given",
                "One kit came with three timings only. Leave the fourth, tRAS, on automatic.",
            )
        )
    if begin.timings.cas < jedec_bins.LEAST_CAS[have.generation]:
        least = jedec_bins.LEAST_CAS[have.generation]
        notes.append(
            Note(
                "A CAS latency that cannot be set",
                f"{have.generation.upper()} knows none below {least}. The figure above is the arithmetic; the board "
                f"will offer {least}, which is slower and safe.",
            )
        )
    return notes
