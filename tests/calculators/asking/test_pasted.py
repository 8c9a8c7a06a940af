"""
What systems print, pasted whole: what is filled in, and what never leaves.

The listings are made up in the form of the programs' own documentation: `dmidecode -t memory` (its manual page and
DMTF DSP0134's names of a memory device's fields), Windows' class of memory modules, and lists of modes as display
servers print them. Numbers that name a machine are invented.
"""

from __future__ import annotations

import json
from typing import Any

import pytest

from calculators.asking.door import MOST, answer
from calculators.asking.pasted import PLACES, fill_form, recognise, without_names
from calculators.catalogue import find
from calculators.desk.inputs import PrivateText
from tests.processor_time import allowed, least, only_here

# Reads texts; what every Python does with one is the same.
pytestmark = pytest.mark.once

SECRETS = (
    "7F3A9C21",
    "MYHOST",
    "annika",
    "4c4c4544-0042-3510-8052-b4c04f584d32",
    "a4:bb:6d:12:34:56",
    "XK8G32",
    "0x04CD",
)

DMIDECODE = """# dmidecode 3.4
Getting SMBIOS data from sysfs.
annika@MYHOST:~$ sudo dmidecode -t memory
\tUUID: 4c4c4544-0042-3510-8052-b4c04f584d32
Handle 0x000F, DMI type 16, 23 bytes
Physical Memory Array
\tLocation: System Board Or Motherboard
\tUse: System Memory
\tError Correction Type: None
\tMaximum Capacity: 128 GB
\tNumber Of Devices: 4

Handle 0x0010, DMI type 17, 92 bytes
Memory Device
\tTotal Width: 64 bits
\tData Width: 64 bits
\tSize: 8 GB
\tForm Factor: DIMM
\tLocator: DIMM_A2
\tType: DDR4
\tSpeed: 3200 MT/s
\tManufacturer: 0x04CD
\tSerial Number: 7F3A9C21
\tPart Number: XK8G32
\tRank: 1
\tConfigured Memory Speed: 2133 MT/s
\tConfigured Voltage: 1.2 V

Handle 0x0011, DMI type 17, 92 bytes
Memory Device
\tTotal Width: Unknown
\tData Width: Unknown
\tSize: No Module Installed
\tForm Factor: Unknown
\tLocator: DIMM_A1

Handle 0x0012, DMI type 17, 92 bytes
Memory Device
\tTotal Width: 64 bits
\tData Width: 64 bits
\tSize: 8192 MB
\tForm Factor: DIMM
\tType: DDR4
\tSpeed: 3200 MT/s
\tSerial Number: 7F3A9C21
\tRank: 1
\tConfigured Memory Speed: 2133 MT/s
\tConfigured Voltage: 1.2 V
"""
WINDOWS = """
PSComputerName       : MYHOST
Capacity             : 17179869184
ConfiguredClockSpeed : 4800
ConfiguredVoltage    : 1100
DataWidth            : 64
DeviceLocator        : DIMM 0
FormFactor           : 12
Manufacturer         : 0x04CD
PartNumber           : XK8G32
SerialNumber         : 7F3A9C21
SMBIOSMemoryType     : 34
Speed                : 5600
TotalWidth           : 64

Capacity             : 34359738368
FormFactor           : 12
SerialNumber         : 7F3A9C21
SMBIOSMemoryType     : 34
Speed                : 4800
"""
TABLE = """Capacity     ConfiguredClockSpeed Speed SerialNumber
--------     -------------------- ----- ------------
8589934592                   2400  2666 7F3A9C21
8589934592                   2400  2666 7F3A9C21
"""
LOST_LINE_ENDS = (
    "Capacity : 8589934592 ConfiguredClockSpeed : 2133 FormFactor : 8 SerialNumber : 7F3A9C21 SMBIOSMemoryType : 26 "
    "Speed : 3200 PSComputerName : MYHOST"
)
MODES = """Screen 0: minimum 320 x 200, current 3840 x 2160, maximum 16384 x 16384
HDMI-1 connected primary 3840x2160+0+0 (normal left inverted right) 600mm x 340mm
   3840x2160     60.00*+  50.00    30.00    24.00
   1920x1080    120.00    60.00
   1280x720      60.00    50.00
"""


def inputs_of(text: str, at: int = 0) -> dict[str, Any]:
    found = recognise(text)
    assert found is not None
    return dict(found.answers[at].inputs)


def mix(text: str) -> dict[str, Any]:
    found = recognise(text)
    assert found is not None
    return next(dict(one.inputs) for one in found.answers if one.calculator == "memory.mix")


def test_dmidecode_fills_the_kit_and_the_slots() -> None:
    assert mix(DMIDECODE) == {
        "have_generation": "ddr4", "have_count": 2, "have_size": 8, "have_rate": 3200, "have_volts": 1.2,
        "have_ranks": "1", "have_form": "dimm", "have_ecc": "no", "slots": "4",
    }  # fmt: skip
    found = recognise(DMIDECODE)
    assert found is not None
    assert found.title == "2 × 8 GB, DDR4, rated 3200 MT/s, runs at 2133 MT/s; 2 of 4 slots taken"
    assert found.answers[0].page == "memory/shows-slower-number"  # it runs slower than rated


def test_windows_lists_two_kinds() -> None:
    filled = mix(WINDOWS)
    assert (filled["have_count"], filled["have_size"], filled["have_rate"], filled["have_form"]) == (
        1,
        16,
        5600,
        "sodimm",
    )
    assert (filled["add_count"], filled["add_size"], filled["add_rate"]) == (1, 32, 4800)
    assert filled["have_generation"] == filled["add_generation"] == "ddr5"


def test_tables_and_lost_line_ends_are_read_as_far_as_possible() -> None:
    assert {k: v for k, v in mix(TABLE).items() if k != "slots"} == {"have_count": 2, "have_size": 8, "have_rate": 2666}
    filled = mix(LOST_LINE_ENDS)
    assert (filled["have_size"], filled["have_rate"], filled["have_generation"]) == (8, 3200, "ddr4")


def test_a_list_of_modes_gives_the_marked_size_and_its_rates() -> None:
    assert inputs_of(MODES) == {"width": 3840, "height": 2160, "refresh": 60}
    found = recognise(MODES)
    assert found is not None
    assert found.title == "3 sizes; of 3840 × 2160 these rates: 24, 30, 50, 60 Hz"


@pytest.mark.parametrize("text", ["got 2x8 gb, want 2x16", "", "Size: large", "1920x1080 60 or 2560x1440 144?"])
def test_a_question_is_no_listing(text: str) -> None:
    assert recognise(text) is None


@pytest.mark.parametrize(
    "text", [DMIDECODE, WINDOWS, TABLE, LOST_LINE_ENDS, MODES], ids="dmi win table lost modes".split()
)
def test_nothing_that_names_a_machine_or_a_person_leaves(text: str) -> None:
    index = {"pages": [], "decisive": {}}
    reply = answer(json.dumps({"text": text, "mark": "m", "index": index}))
    assert "fault" not in json.loads(reply)
    assert json.loads(reply)["answers"]
    for secret in SECRETS:
        assert secret.casefold() not in reply.casefold(), secret


def test_names_go_before_a_text_is_read_at_all() -> None:
    text = (
        f"my pc\nHost Name: MYHOST\nmac a4:bb:6d:12:34:56 and {SECRETS[3]} in /home/annika/x and C:\\Users\\annika\\y"
    )
    left = without_names(text)
    assert left.startswith("my pc")
    for secret in SECRETS[:5]:
        assert secret not in left


LARGE = ("Size: 8 GB\n", "Capacity: ", "1920x1080 60 ", "a:b ", "00", "x", "Size: 8 GB\nType: DDR4\n")


@pytest.mark.parametrize(
    "text", ["on my mac mini at work: got 2x8 gb", "the user says: 3200 or 3600?", "my serial port = com1"]
)
def test_what_only_sounds_like_a_name_stays(text: str) -> None:
    assert without_names(text) == text


@only_here
@pytest.mark.parametrize("text", LARGE)
def test_the_largest_paste_takes_no_quarter_of_a_second(text: str) -> None:
    whole = (text * MOST)[:MOST]
    recognise(whole[:300])
    assert least(lambda: recognise(whole)) < allowed(0.25)


def test_a_megabyte_is_refused_politely() -> None:
    reply = json.loads(answer(json.dumps({"text": "Size: 8 GB\n" * 100_000, "mark": "n", "index": {"pages": []}})))
    assert reply["answers"] == []
    assert "longer than anything" in reply["refused"]


def of_form(name: str, text: str) -> dict[str, Any]:
    return json.loads(answer(json.dumps({"form": name, "text": text})))


MODES_LISTED = "HDMI-1 connected\n  3840x2160 60.00*+ 30.00\n  2560x1440 120.00 60.00\n  1920x1080 60.00\n"


@pytest.mark.parametrize("name", sorted(PLACES))
def test_each_form_with_a_place_is_filled_by_what_the_place_asks_for(name: str) -> None:
    listing = MODES_LISTED if name in ("display.link", "motion.film") else DMIDECODE
    reply = of_form(name, listing)
    assert reply["pasted"]
    assert reply["read"], name
    told = json.dumps(reply)
    assert not [secret for secret in SECRETS if secret in told]
    inputs = {field["key"]: field["value"] for field in reply["read"]}
    find(name).run(inputs)  # what is put into the form is taken there


def test_every_calculator_that_a_listing_fills_has_a_place_or_a_field_of_its_own() -> None:
    for text in (DMIDECODE, MODES_LISTED):
        listing = recognise(text)
        assert listing is not None
        for name in {*(one.calculator for one in listing.answers), *listing.forms}:
            private = any(isinstance(entry, PrivateText) for entry in find(name).inputs)
            assert name in PLACES or private, name


def test_a_label_s_line_fills_a_form_too_and_other_words_fill_nothing() -> None:
    read = {field["key"]: field["value"] for field in of_form("memory.rate", "DDR5-6000 CL30 2x16GB")["read"]}
    assert read == {"generation": "ddr5", "rate": "6000", "cas": "30"}
    assert of_form("memory.rate", "hello there") == {"read": []}
    assert "refused" in of_form("memory.rate", "x" * (MOST + 1))


def test_each_place_tells_for_more_than_one_system_how_to_get_the_text() -> None:
    for place in PLACES.values():
        assert len({system for system, _ in place.systems}) >= 2
        assert all("\n" not in how and len(how) < 110 for _, how in place.systems)


def test_a_pasted_line_tells_of_one_kit_and_of_none_to_come() -> None:
    _, inputs = fill_form("DDR4-3200 CL16-18-18-38 1.35V 2x8GB", "memory.mix")
    assert inputs["have_generation"] == "ddr4"
    assert [key for key in inputs if key.startswith("add_")] == []
