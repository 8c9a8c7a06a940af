"""The sources, notes and cautions that more than one calculator of motion gives."""

from __future__ import annotations

from calculators.desk.answer import COMMON_PRACTICE, FROM_MEMORY, LIBRARY, STANDARD, Caution, Note, Source
from calculators.trade.frame_rates import exact_rates_note

ARITHMETIC = Source("Arithmetic: a period is the inverse of a frequency, a way is speed times time")
BLUR = Source(
    "ICDM Information Display Measurements Standard", "motion artefacts: blur is speed times hold time", FROM_MEMORY
)
PHOTOSENSITIVE = Source(
    "W3C Web Content Accessibility Guidelines 2", "success criterion 2.3.1, three flashes", STANDARD
)
EYE_FUSION = Source(
    "Scientific Reports 5, 7861 (2015), on flicker seen above 500 Hz",
    "abstract: steady light fuses at 50 to 90 Hz, edges show flicker above 500 Hz",
    STANDARD,
)
REPEATING = Source(
    "Linux kernel, one graphics driver's module for variable refresh",
    "descriptions of its changes on rates below the range, and its middle point",
    LIBRARY,
)
CAP = Source("Capping about 3 % below the top of the range", "", COMMON_PRACTICE)

FLASHING = Caution(
    "person",
    "Flashing and flickering pictures can bring on seizures in photosensitive people, and headaches in others. Look "
    "away as soon as you feel unwell, and go back to the setting that did no harm.",
    "Whoever knows of such a condition follows their doctor's advice, not this page.",
    short="Flashing can bring on seizures.",
    tag="Seizure risk",
)


def exact_notes(*typed_hz: float) -> tuple[Note, ...]:
    """The note that a rate such as 59.94 means n × 1000/1001; none where no rate does."""
    text = exact_rates_note(*typed_hz)
    if not text:
        return ()
    return (Note("Exact rates", f"{text} Television's old rates are whole ones slowed by a thousandth."),)


def times_in_words(count: int) -> str:
    """'once', 'twice', '3 times'."""
    return {1: "once", 2: "twice"}.get(count, f"{count} times")
