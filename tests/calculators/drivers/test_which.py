"""
drivers.which: what it reads of pnputil, lspci and lsmod. Invented outputs ('Maker A', hexadecimal ids), own edge cases
and properties; that real programs print so is asked in tests/references/drivers.
"""

from __future__ import annotations

import re
from time import process_time

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from calculators.desk.as_html import as_html
from calculators.desk.as_json import as_json, dumps
from calculators.desk.as_text import as_text
from calculators.desk.errors import InputErrors
from calculators.desk.links import fragment
from calculators.drivers.listings.adapter_facts import LENT, STOPPED, UNTOLD, WORKS
from calculators.drivers.listings.examples import LINUX_PLAIN, LINUX_TWO, WINDOWS_LEFT_OVER, WINDOWS_OTHER_LANGUAGE
from calculators.drivers.which import calculator, read_list

# Reads texts; what every Python does with one is the same.
pytestmark = pytest.mark.once

EXAMPLES = (WINDOWS_LEFT_OVER, WINDOWS_OTHER_LANGUAGE, LINUX_TWO, LINUX_PLAIN)
DEVICE = r"""Instance ID:                PCI\VEN_A1A1&DEV_0001&SUBSYS_00010001&REV_A1\4&0&0008
Device Description:         Maker A Adapter 1
Class Name:                 Display
Class GUID:                 {4d36e968-e325-11ce-bfc1-08002be10318}
Manufacturer Name:          Maker A
Status:                     Started
Driver Name:                oem31.inf
"""


PROPERTIES = {"driverversion", "driverdate", "inffilename", "pnpdeviceid"}  # of Win32_VideoController, never translated


def answer(said: str):
    return calculator.run({"said": said}).answer


def figures(said: str) -> dict[str, float]:
    return {f.key: f.value for f in answer(said).figures if isinstance(f.value, int | float)}


@pytest.mark.parametrize(
    ("said", "expected", "word"),
    [
        (WINDOWS_LEFT_OVER, {"adapters": 2, "on_basic_driver": 0, "left_over": 1, "packages": 3}, "yes"),
        (WINDOWS_OTHER_LANGUAGE, {"adapters": 1, "on_basic_driver": 1, "left_over": 1, "packages": 1}, "no"),
        (LINUX_TWO, {"adapters": 2, "on_basic_driver": 0, "left_over": 1}, "yes"),
        (LINUX_PLAIN, {"adapters": 1, "on_basic_driver": 1}, "no"),
    ],
)
def test_the_examples(said, expected, word):
    assert figures(said) == expected
    assert answer(said).verdict.word == word


@pytest.mark.parametrize(
    ("said", "windows", "missing"),
    [
        (WINDOWS_LEFT_OVER, True, ""),
        (WINDOWS_OTHER_LANGUAGE, True, ""),
        (DEVICE, True, "pnputil /enum-drivers lists the packages"),
        (LINUX_TWO, False, ""),
        (LINUX_TWO.partition("Module ")[0], False, "lsmod lists the loaded modules"),
    ],
)
def test_notes_name_programs_and_things_of_the_system_that_was_pasted_from(said, windows, missing):
    ours = answer(said)
    notes = {note.title: note.text for note in ours.notes}
    text = " ".join([ours.headline, *notes.values()])
    assert not re.search(r"lspci|lsmod|modprobe" if windows else r"pnputil|Win32", text)
    assert ("What is left over" in notes) == (not missing)
    if missing:
        assert missing in notes["Whether something is left over"]
    else:
        left_over = notes["What is left over"]
        assert ("package" in left_over, "modules" in left_over) == (windows, not windows)


def test_which_driver_serves_which_card():
    first, second = read_list(WINDOWS_LEFT_OVER).adapters
    assert (first.vendor, first.device, first.driver, first.state) == ("a1a1", "0001", "oem31.inf", WORKS)
    assert (second.vendor, second.device, second.driver, second.state) == ("b2b2", "0002", "oem12.inf", WORKS)
    rows = answer(WINDOWS_LEFT_OVER).tables[0].rows
    assert rows[0] == ("1", "a1a1:0001", "oem31.inf", "21.3.0.5", "runs")


def test_a_hyphen_and_an_underscore_are_the_same_module():
    assert [r[0] for r in answer(LINUX_TWO).tables[-1].rows] == ["maker_a_free"]


@pytest.mark.parametrize(
    ("change", "state", "problem", "word"),
    [
        (("Started", "Problem\nProblem Code:  43 (0x2B) [CM_PROB_FAILED_POST_START]"), STOPPED, 43, "depends"),
        (("Started", "Stopped"), STOPPED, None, "depends"),
        (("Started", "Disabled"), STOPPED, None, "depends"),
        (("Started", "Gestartet"), UNTOLD, None, "yes"),
    ],
)  # fmt: skip
def test_the_state_of_a_device(change, state, problem, word):
    said = DEVICE.replace(*change)
    (adapter,) = read_list(said).adapters
    assert (adapter.state, adapter.problem) == (state, problem)
    assert answer(said).verdict.word == word


def test_a_device_without_a_driver_counts_as_on_none():
    said = DEVICE.replace("Driver Name:                oem31.inf\n", "").replace(
        "Started", "Problem\nProblem Code:               28 (0x1C) [CM_PROB_FAILED_INSTALL]"
    )
    assert figures(said)["on_basic_driver"] == 1
    assert answer(said).tables[0].rows[0][2] == "none"


def test_the_drivers_that_would_match_and_those_that_extend_are_not_taken_for_the_driver():
    said = DEVICE + (
        "Extension Driver Names:     oem33.inf\n                            oem34.inf\nMatching Drivers:\n"
        "    Driver Name:            oem99.inf\n    Original Name:          maker_a.inf\n"
    )
    assert [a.driver for a in read_list(said).adapters] == ["oem31.inf"]
    assert read_list(said).packages is None


def test_what_is_no_longer_connected_is_told_apart():
    said = DEVICE + "\n" + DEVICE.replace("DEV_0001", "DEV_0009").replace("Started", "Disconnected")
    assert figures(said)["adapters"] == 1
    assert read_list(said).gone == 1
    assert "1 adapter that is no longer connected" in as_text(calculator.run({"said": said}))


def test_the_same_list_pasted_twice_counts_once():
    assert figures(WINDOWS_LEFT_OVER * 2) == figures(WINDOWS_LEFT_OVER)


def test_devices_of_other_classes_are_left_out():
    other = DEVICE.replace("DEV_0001", "DEV_0002").replace("4d36e968", "4d36e96c")
    assert figures(DEVICE + "\n" + other)["adapters"] == 1


def test_a_list_moved_to_the_right_reads_the_same():
    for example in EXAMPLES:
        moved = "\n".join(f"    {line}" for line in example.splitlines())
        assert figures(moved) == figures(example)


def test_lost_empty_lines_do_no_harm():
    for example in EXAMPLES:
        assert read_list("\n".join(line for line in example.splitlines() if line.strip())) == read_list(example)


def test_line_ends_and_a_byte_order_mark_do_no_harm():
    for example in EXAMPLES:
        assert figures("\ufeff" + example.replace("\n", "\r\n")) == figures(example)


def test_only_one_of_the_two_lists():
    packages = WINDOWS_LEFT_OVER[WINDOWS_LEFT_OVER.index("Published") :]
    assert figures(packages) == {"packages": 3}
    assert answer(packages).verdict.word == "depends"
    devices = WINDOWS_LEFT_OVER[: WINDOWS_LEFT_OVER.index("Published")]
    assert figures(devices) == {"adapters": 2, "on_basic_driver": 0}
    assert "/enum-drivers" in " ".join(n.text for n in answer(devices).notes)
    modules = LINUX_TWO[LINUX_TWO.index("Module  ") :]
    assert figures(modules) == {}


def test_a_card_kept_for_a_virtual_machine():
    said = LINUX_TWO.replace("in use: maker-a", "in use: vfio-pci")
    assert read_list(said).adapters[1].state == LENT
    assert answer(said).verdict.word == "depends"


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ("hello", "no display adapter and no driver package can be told apart"),
        ("01:00.0 VGA compatible controller: Maker A Adapter 1", "lspci -nnk"),
        (WINDOWS_LEFT_OVER + LINUX_TWO, "two systems at once"),
        ("00:1f.3 Audio device [0403]: Maker A [a1a1:2001]", "none of them is a display adapter"),
        ("", "is empty"),
        ("x" * 300_000, "at most 262144 characters"),
        ("secret" * 20, "such as 01:00.0"),
    ],
)
def test_what_cannot_be_read_is_said_without_repeating_it(said, words):
    with pytest.raises(InputErrors) as caught:
        calculator.run({"said": said})
    message = str(caught.value)
    assert words in message
    assert "secret" not in message
    assert "hello" not in message


@settings(deadline=None)  # a busy machine is no fault of these
@given(st.sampled_from((WINDOWS_LEFT_OVER, WINDOWS_OTHER_LANGUAGE)), st.data())
def test_labels_may_be_in_any_language(example, data):
    """Every label replaced by another text: the values alone decide. 'Started' is a value, and stays."""
    letters = st.text(
        st.characters(categories=("L", "Nd", "Zs"), exclude_characters="\u2028\u2029"), min_size=1, max_size=30
    )
    lines = []
    for line in example.splitlines():
        _, colon, value = line.partition(":")
        label = data.draw(letters).strip() or "x"
        assume(label.casefold() not in PROPERTIES)  # these names are no labels of pnputil, in any language
        lines.append(f"{label}{colon}{value}" if colon else line)
    assert read_list("\n".join(lines)) == read_list(example)


@settings(deadline=None)  # a busy machine is no fault of these
@given(st.sampled_from(EXAMPLES), st.integers(0, 4000), st.integers(0, 4000))
def test_cut_off_anywhere_it_answers_or_says_what_is_wrong(example, start, stop):
    said = example[min(start, len(example)) : min(stop, len(example))]
    assert one_answer_or_one_problem(said)


def one_answer_or_one_problem(said: str) -> bool:
    try:
        return bool(as_html(calculator.run({"said": said}), "p"))
    except InputErrors as problem:
        return len(problem.problems) == 1


HOSTILE = st.lists(
    st.one_of(
        st.text(max_size=60),
        st.sampled_from([line for example in EXAMPLES for line in example.splitlines()]),
        st.sampled_from(
            [
                r"<script>alert(1)</script>: PCI\VEN_1234&DEV_5678\<b>x</b>",
                "a: oem1.inf", "b: oem2.inf", ": : :", "\x00: \x1b[31m", "{4d36e968-e325-11ce-bfc1-08002be10318}:",
                "x: {4d36e968-e325-11ce-bfc1-08002be10318}", "Module Size Used by", "m 1 -1", "x: 43 (0x2B)",
                "01:00.0 X [0300]: \u202e[1234:5678]", "\tKernel driver in use: " + "a" * 64, "\tKernel modules: ,,,",
            ]
        ),
    ),
    max_size=30,
)  # fmt: skip


@settings(deadline=None)  # a busy machine is no fault of these
@given(HOSTILE)
def test_no_text_whatever_raises_anything_but_the_input_error(lines):
    try:
        result = calculator.run({"said": "\n".join(lines)})
    except InputErrors:
        return
    html = as_html(result, "p")
    assert "<script" not in html
    assert "<b>" not in html
    assert dumps(as_json(result))
    found = {f.key: f.value for f in result.answer.figures}
    if "adapters" in found:
        assert 0 <= found["on_basic_driver"] <= found["adapters"]
    if "left_over" in found and "packages" in found:
        assert 0 <= found["left_over"] <= found["packages"]


@settings(deadline=None)  # a busy machine is no fault of these
@given(st.sampled_from(EXAMPLES))
def test_nothing_private_leaves(example):
    result = calculator.run({"said": example})
    for text in (as_html(result, "p"), as_text(result), dumps(as_json(result)), fragment(result)):
        for private in ("Maker A Adapter", "Maker B", "SUBSYS", "Grundlegender", "4&0&0008", "Invented Signer"):
            assert private not in text
    assert as_json(result)["inputs"] == {}


def test_a_quarter_megabyte_is_read_in_good_time():
    for line in (
        "a:" * 200,
        "[" * 400,
        "x: " + "." * 400,
        "01:00.0 " + "[0300" * 60,
        "\tKernel modules: " + "a," * 190,
    ):
        said = "\n".join([line] * (262_000 // (len(line) + 1)))
        began = process_time()
        with pytest.raises(InputErrors):
            calculator.run({"said": said})
        assert process_time() - began < 5, line[:20]


def test_more_lines_than_a_machine_says_are_refused_and_not_read_in_part():
    adapter = "01:00.0 VGA compatible controller [0300]: Maker A [1234:5678]\n"
    one_answer_or_one_problem(adapter + "x\n" * 19_999)
    with pytest.raises(InputErrors, match="more than 20,000 lines"):
        calculator.run({"said": adapter + "x\n" * 20_000})


def test_a_quarter_megabyte_without_a_line_end_is_read_in_good_time():
    for piece in ("a:", "[0300 ", "x: 1.2.3.4 ", "oem1.inf.", " " * 50 + "a", "PCI\\VEN_", "m 12 3 ", "1/1/2026 "):
        said = piece * (262_000 // len(piece))
        began = process_time()
        one_answer_or_one_problem(said)
        assert process_time() - began < 5, piece


@pytest.mark.parametrize("preset", calculator.presets, ids=lambda p: p.key)
def test_presets_say_that_they_are_invented(preset):
    assert preset.label.startswith("Invented")
    assert re.search(r"a1a1", as_text(calculator.run(preset.inputs)))
