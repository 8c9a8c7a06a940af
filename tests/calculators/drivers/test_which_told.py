"""
drivers.which concludes nothing from what a text leaves out, and reads what people really paste: single commands, lost
blanks, one line, older forms. Invented outputs; the forms are those of the programs named beside each.
"""

from __future__ import annotations

import pytest

from calculators.drivers.listings.adapter_facts import UNTOLD, WORKS
from calculators.drivers.listings.examples import (
    LINUX_PLAIN,
    LINUX_TWO,
    WINDOWS_LEFT_OVER,
    WINDOWS_OTHER_LANGUAGE,
    WINDOWS_VERSIONS,
)
from calculators.drivers.plans.windows_steps import ADAPTERS
from calculators.drivers.which import LINUX_TELLS, WINDOWS_TELLS, calculator, read_list

# Reads texts; what every Python does with one is the same.
pytestmark = pytest.mark.once

DEVICES = WINDOWS_LEFT_OVER[: WINDOWS_LEFT_OVER.index("Published")]
# Get-CimInstance Win32_VideoController: the page's own command before and since it asks for the file's name.
ONLY_VERSION = r"""

Name          : Maker A Adapter 1
DriverVersion : 31.0.15.1
DriverDate    : 02.09.2026 02:00:00
PNPDeviceID   : PCI\VEN_A1A1&DEV_0001&SUBSYS_00010001&REV_A1\4&0&0008

"""


def answer(said: str):
    return calculator.run({"said": said}).answer


def figures(said: str) -> dict[str, object]:
    return {f.key: f.value for f in answer(said).figures}


@pytest.mark.parametrize(
    ("said", "command"),
    [
        ("01:00.0 VGA compatible controller [0300]: Maker A [a1a1:0001]", LINUX_TELLS),  # lspci -nn, without the k
        (
            "01:00.0 VGA compatible controller [0300]: Maker A [a1a1:0001]\n\tSubsystem: Maker A [a1a1:1001]",
            LINUX_TELLS,  # cut off below the subsystem
        ),
        ("\n".join(line for line in DEVICES.splitlines() if ".inf" not in line), WINDOWS_TELLS),
        (ONLY_VERSION, WINDOWS_TELLS),
    ],
)
def test_a_driver_that_the_text_does_not_tell_is_not_told_and_the_command_is_named(said, command):
    found = answer(said)
    assert found.verdict.word == "depends"
    assert figures(said)["on_basic_driver"] == 0
    assert figures(said)["not_told"] == figures(said)["adapters"]
    assert all(row[2] == "not told" for row in found.tables[0].rows)
    assert command in found.headline
    assert "own" not in found.headline
    assert "left_over" not in figures(said)


TWO_CARDS = (
    "00:02.0 VGA compatible controller [0300]: Maker B [b2b2:0002]\n\tDeviceName: On board\n"
    "\tSubsystem: Board [b0b0:9999]\n{}01:00.0 VGA compatible controller [0300]: Maker A [a1a1:0001]\n"
    "\tSubsystem: Board [b0b0:9998]\n\tKernel driver in use: maker_a\n"
)


def test_lines_picked_out_of_a_list_do_not_tell_that_there_is_no_driver():
    """grep -A2 VGA: grep(1) prints '--' between what it picked out, and cuts the first entry before its driver."""
    assert figures(TWO_CARDS.format("")) == {"adapters": 2, "on_basic_driver": 1}
    assert figures(TWO_CARDS.format("--\n")) == {"adapters": 2, "on_basic_driver": 0, "not_told": 1}


@pytest.mark.parametrize("detail", ["Kernel driver in use: {}", "Kernel modules: {}"])
def test_a_driver_of_a_device_that_was_filtered_out_is_not_given_to_the_card_above_it(detail):
    """grep -E 'VGA|in use': two drivers in use below one device belong to two devices, and which is whose is lost."""
    said = (
        "00:02.0 VGA compatible controller [0300]: Maker B [b2b2:0002]\n"
        f"\t{detail.format('maker_b')}\n\t{detail.format('usb_invented')}\n"
        f"01:00.0 VGA compatible controller [0300]: Maker A [a1a1:0001]\n\t{detail.format('snd_invented')}\n"
    )
    assert figures(said) == {"adapters": 2, "on_basic_driver": 0, "not_told": 2}
    assert "the drivers of the 2 display adapters" in answer(said).headline
    assert "snd_invented" not in str(answer(said).tables)


@pytest.mark.parametrize("order", [(0, 1), (1, 0)])
def test_two_lists_of_one_machine_are_one(order):
    """lspci -nn and lspci -nnk, one pasted after the other; the bus's domain stands in one of them alone."""
    lists = ("0000:01:00.0 VGA compatible controller [0300]: Maker A [a1a1:0001]\n", TWO_CARDS.format(""))
    assert figures("".join(lists[i] for i in order)) == {"adapters": 2, "on_basic_driver": 1}
    assert read_list(LINUX_TWO * 2) == read_list(LINUX_TWO)


def test_what_is_told_and_what_is_not_stand_in_one_headline():
    said = TWO_CARDS.format("--\n").replace("Kernel driver in use: maker_a", "Kernel modules: maker_a")
    found = answer(said)
    assert figures(said) == {"adapters": 2, "on_basic_driver": 1, "not_told": 1}
    assert found.verdict.word == "no"
    assert "1 has no driver of its own" in found.headline
    assert LINUX_TELLS in found.headline
    assert len(found.headline.split()) <= 25


def test_no_driver_is_said_only_where_the_list_says_so():
    """'Kernel driver in use' comes before 'Kernel modules' in lspci's output: without it none is in use."""
    plain = "01:00.0 VGA compatible controller [0300]: Maker A [a1a1:0001]\n\tKernel modules: maker_a\n"
    assert figures(plain)["on_basic_driver"] == 1
    followed = (
        "01:00.0 VGA compatible controller [0300]: Maker A [a1a1:0001]\n\tSubsystem: Maker A [a1a1:1001]\n"
        "01:00.1 Audio device [0403]: Maker A [a1a1:2001]\n\tKernel driver in use: snd\n"
    )
    assert figures(followed)["on_basic_driver"] == 1
    installed_none = DEVICES.replace("Driver Name:                oem31.inf\n", "").replace(
        "Started", "Problem\nProblem Code:               28 (0x1C) [CM_PROB_FAILED_INSTALL]", 1
    )
    assert read_list(installed_none).adapters[0].basic


def test_the_pages_own_commands_are_read_singly():
    (adapter,) = read_list(ONLY_VERSION).adapters
    assert (adapter.vendor, adapter.device, adapter.version, adapter.state) == ("a1a1", "0001", "31.0.15.1", UNTOLD)
    assert "InfFilename" in ADAPTERS
    first, second = read_list(WINDOWS_VERSIONS).adapters
    assert (first.driver, first.version, first.basic) == ("oem31.inf", "21.3.0.5", False)
    assert (second.driver, second.basic) == ("display.inf", True)
    assert answer(WINDOWS_VERSIONS).tables[0].rows[0][3] == "21.3.0.5"


@pytest.mark.parametrize(
    ("said", "drivers"),
    [
        ("Name          : Maker A Adapter 1\nDriverVersion : 31.0.15.1\n", [""]),
        ("Name=Maker A Adapter 1\nDriverVersion=31.0.15.1\n", [""]),
        # fewer than five properties come as a table, and so does the class's older list
        ("Name              DriverVersion\n----              -------------\nMaker A Adapter 1 31.0.15.1\n", [""]),
        ("DriverVersion  Name\n31.0.15.1      Maker A Adapter 1\n\n31.0.15.1      Maker A Adapter 2\n\n", ["", ""]),
        ("Name InfFilename DriverVersion\nA oem3.inf 31.0.15.1\nB b.inf 31.0.15.1", ["oem3.inf", "b.inf"]),
    ],
)  # fmt: skip
def test_a_version_alone_counts_an_adapter_and_leaves_the_rest_not_told(said, drivers):
    adapters = read_list(said).adapters
    assert [a.driver for a in adapters] == drivers
    assert all((a.version, a.vendor, a.basic) == ("31.0.15.1", "", False) for a in adapters)
    assert all(row[1] == "not told" for row in answer(said).tables[0].rows), "it may well sit on PCI"
    if not any(drivers):
        assert WINDOWS_TELLS in answer(said).headline
    assert figures(DEVICES + said)["adapters"] == 2, "beside the list of devices it tells of no further one"


def test_versions_and_devices_pasted_together_are_the_same_adapters():
    both = DEVICES + ONLY_VERSION
    assert figures(both)["adapters"] == 2
    assert figures(ONLY_VERSION + DEVICES)["adapters"] == 2
    first = read_list(both).adapters[0]
    assert (first.driver, first.version, first.state) == ("oem31.inf", "31.0.15.1", WORKS)


def test_a_gap_in_one_adapter_is_not_filled_from_the_next():
    first_one = "PNPDeviceID : PCI\\VEN_A1A1&DEV_0001&SUBSYS_0&REV_A1\\4&0\n\n"
    other = "InfFilename : oem2.inf\nPNPDeviceID : PCI\\VEN_B2B2&DEV_0002&SUBSYS_0&REV_A1\\4&1\n"
    first, second = read_list(f"{first_one}DriverVersion : 31.0.15.1\n{other}").adapters
    assert (first.driver, first.version, first.driver_known) == ("", "", False)
    assert (second.driver, second.version) == ("oem2.inf", "31.0.15.1")


@pytest.mark.parametrize(
    "example", [WINDOWS_LEFT_OVER, WINDOWS_OTHER_LANGUAGE, LINUX_TWO, LINUX_PLAIN, WINDOWS_VERSIONS, ONLY_VERSION]
)
def test_lost_leading_blanks_and_one_single_line_do_no_harm(example):
    bare = "\n".join(line.strip() for line in example.splitlines())
    assert read_list(bare) == read_list(example)
    assert read_list(" ".join(example.split())) == read_list(example)


def test_a_driver_that_would_match_is_no_package_of_the_store_though_line_ends_are_lost():
    matching = (
        "Extension Driver Names: oem33.inf Matching Drivers: Driver Name: oem99.inf Original Name: maker_a.inf "
        "Class GUID: {4d36e968-e325-11ce-bfc1-08002be10318} Driver Version: 01/20/2024 20.1.4.1 Signer Name: X "
        r"Matching Device ID: PCI\VEN_A1A1&DEV_0001 Driver Name: display.inf Original Name: display.inf "
        r"Driver Version: 06/21/2006 10.0.2.7 Matching Device ID: PCI\CC_0300"
    )
    one_card = " ".join(DEVICES.split("Instance ID:")[1].split())
    said = read_list(f"Instance ID: {one_card} {matching}")
    assert [a.driver for a in said.adapters] == ["oem31.inf"]
    assert said.packages is None


@pytest.mark.parametrize("width", range(60, 120, 7))
@pytest.mark.parametrize("example", [WINDOWS_LEFT_OVER, WINDOWS_OTHER_LANGUAGE, LINUX_TWO, LINUX_PLAIN])
def test_a_narrow_window_that_broke_the_lines_loses_no_adapter(example, width):
    lines = [line[i : i + width] for line in example.splitlines() for i in range(0, max(len(line), 1), width)]
    assert read_list("\n".join(lines)) == read_list(example)


def test_an_adapter_whose_numbers_are_cut_off_is_not_passed_over():
    other = "00:02.0 VGA compatible controller [0300]: Maker B [b2b2:0002]\n\tKernel driver in use: maker_b\n"
    with pytest.raises(ValueError, match="lost its numbers"):
        read_list(f"{other}01:00.0 VGA compatible controller [0300]: Maker A Adapt\n\tSubsystem: Board [b0b0:9999]\n")


def test_packages_whose_class_is_cut_off_are_not_counted_as_none():
    packages = WINDOWS_LEFT_OVER[WINDOWS_LEFT_OVER.index("Published") :]
    cut = "\n".join(line for line in packages.splitlines() if "Class" not in line)
    assert read_list(DEVICES + cut).packages is None
    with pytest.raises(ValueError, match="can be told apart"):
        read_list(cut)


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        # pnputil -e, before version 10 of 2016: no class GUID
        (
            (
                "Published name :            oem2.inf\nDriver package provider :   Maker A\n"
                "Class :                     Display adapters\nDriver date and version :   04/21/2019 6.1.7600.1\n"
                "Signer name :               Invented Signer\n"
            ),
            {"packages": 1},
        ),
        # lspci -n and -nk: numbers alone
        ("01:00.0 0300: a1a1:0001 (rev a1)", {"adapters": 1, "on_basic_driver": 0, "not_told": 1}),
        (
            "01:00.0 0300: a1a1:0001 (rev a1)\n\tSubsystem: a1a1:1001\n\tKernel driver in use: maker_a\n",
            {"adapters": 1, "on_basic_driver": 0},
        ),
        # lspci -n of releases before 2.2, from memory
        ("01:00.0 Class 0300: a1a1:0001 (rev a1)", {"adapters": 1, "on_basic_driver": 0, "not_told": 1}),
        # the class's older list form, a property and an equals sign a line
        (
            "DriverVersion=31.0.15.1\nInfFilename=oem31.inf\nPNPDeviceID=PCI\\VEN_A1A1&DEV_0001&SUBSYS_0&REV_A1\\4&0\n",
            {"adapters": 1, "on_basic_driver": 0},
        ),
    ],
)
def test_older_forms_are_read(said, expected):
    assert figures(said) == expected


@pytest.mark.parametrize(
    "said",
    [
        (
            "01:00.0 VGA compatible controller [0300]: Maker A [a1a1:0001] (rev a1) Subsystem: Board [b0b0:9999] "
            "Kernel driver in use: maker_a"
        ),
        (
            "01:00.0 VGA compatible controller [0300]: Maker A [a1a1:0001]\nSubsystem: Board [b0b0:9999]\n"
            "Kernel driver in use: maker_a"
        ),
    ],
)
def test_a_subsystems_number_is_never_taken_for_the_cards(said):
    (adapter,) = read_list(said).adapters
    assert (adapter.vendor, adapter.device, adapter.driver) == ("a1a1", "0001", "maker_a")


def test_a_card_whose_number_is_cut_off_is_not_given_its_boards():
    with pytest.raises(ValueError, match=r"numbers|none of them"):
        read_list("01:00.0 VGA compatible controller [0300]: Maker A Subsystem: Board [b0b0:9999]")


def test_what_is_said_is_short_enough():
    for said in (WINDOWS_LEFT_OVER, LINUX_TWO, WINDOWS_VERSIONS, ONLY_VERSION, DEVICES, "Module Size Used by\nx 1 1"):
        found = answer(said)
        assert len(found.headline.split()) <= 25, found.headline
        assert len(found.verdict.reason.split()) <= 15, found.verdict.reason
