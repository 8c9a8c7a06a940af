"""The editor's folder: everything in it is listed, opens, and says what it says it is."""

import csv
import json
import re
import xml.etree.ElementTree as etree
from fractions import Fraction

import pytest

from build_tools.environment import places
from build_tools.episodes import bundle, sheet
from build_tools.episodes.timecode import RATES, frame, timecode


@pytest.fixture
def project(pages):
    """A project with one sheet, and the face that cards are drawn in."""
    folder = pages.docs.parent
    (folder / "node_modules").symlink_to(places.PROJECT / "node_modules")
    return folder


def made(pages, project, **more):
    episode, mistakes = sheet.read_sheet(pages.docs, pages.sheet)
    assert mistakes == []
    given = {"rate": "29.97", "drop": True, "browser": None} | more
    return bundle.bundle(project, episode, project / "out", **given), project / "out"


def test_all_is_there_and_listed(pages, project):
    done, folder = made(pages, project)
    there = {p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file()}
    listed = json.loads((folder / bundle.LIST).read_text("utf-8"))
    assert {each["name"] for each in listed["files"]} | {bundle.LIST} == there
    assert {"description.txt", "replies.txt", "chapters.vtt", "chapters.txt", "captions.vtt", "cuts.csv"} <= there
    assert (listed["frame_rate"], listed["drop_frame"]) == ("29.97", True)
    cards = sorted(name for name in there if name.startswith("cards/01-card"))
    assert cards
    for name in (each for each in there if each.endswith(".svg")):
        assert etree.parse(folder / name).getroot().tag.endswith("svg")
    assert any("speech differs" in warning for warning in done.warnings)
    html = (folder / "sources.html").read_text("utf-8")
    assert "<h2>Cautions</h2>" in html
    assert "(question 1)" in html


def test_made_again_it_holds_nothing_old_and_nobody_elses(pages, project):
    _, folder = made(pages, project)
    (folder / "mine.txt").write_text("mine", "utf-8")
    (folder / "cards" / "01-card-99.svg").write_text("mine too", "utf-8")
    pages.change("    inputs: {rate: 3200, cas: 16}\n", "    go: kit\n    inputs: {rate: 3200, cas: 16}\n")
    made(pages, project)
    assert (folder / "mine.txt").read_text("utf-8") == "mine"
    assert (folder / "cards" / "01-card-99.svg").exists()
    other = project / "other"
    other.mkdir()
    (other / "x").write_text("x", "utf-8")
    episode, _ = sheet.read_sheet(pages.docs, pages.sheet)
    with pytest.raises(bundle.CannotBundle, match="is not empty, and no bundle"):
        bundle.bundle(project, episode, other, "25", False, None)
    (project / "mine.txt").write_text("mine", "utf-8")
    for listed in ("{", "[]", "5"):
        (other / bundle.LIST).write_text(listed, "utf-8")
        with pytest.raises(bundle.CannotBundle, match="no bundle"):
            bundle.bundle(project, episode, other, "25", False, None)
    (other / bundle.LIST).write_text('{"files": [{"name": "../mine.txt"}]}', "utf-8")
    bundle.bundle(project, episode, other, "25", False, None)
    assert (project / "mine.txt").exists(), "nothing outside the folder is taken away"
    assert (other / "x").exists(), "nor what is not listed"


@pytest.mark.parametrize(("rate", "drop"), [("31", False), ("25", True), ("", False)])
def test_a_rate_that_is_none_is_refused(pages, project, rate, drop):
    with pytest.raises(bundle.CannotBundle, match=r"is one of 23.976|dropped at 29.97 and 59.94 only"):
        made(pages, project, rate=rate, drop=drop)
    assert not (project / "out").exists()


def test_chapters_captions_and_cuts_agree(pages, project):
    _, folder = made(pages, project)
    chapters = (folder / "chapters.vtt").read_text("utf-8")
    assert chapters.startswith("WEBVTT\n\n00:00:00.000 --> 00:01:10.000\nWhat do the numbers mean?\n")
    captions = (folder / "captions.vtt").read_text("utf-8")
    assert captions.split("\n")[2].startswith("NOTE What was to be said")
    times = [float(m) + 60 * int(n) for n, m in re.findall(r"(\d\d):(\d\d\.\d{3})", captions)]
    assert times == sorted(times), "no caption begins before the last has ended"
    words = " ".join(line for line in captions.split("\n")[4:] if "-->" not in line).split()
    assert "Divide the clocks by the rate." in " ".join(words)
    rows = list(csv.DictReader((folder / "cuts.csv").read_text("utf-8").splitlines()))
    assert [row["seconds"] for row in rows] == ["0", "70", "140"]
    assert rows[1]["frame"] == "2097"


def test_open_timeline_is_read_back(pages, project):
    otio = pytest.importorskip("opentimelineio")
    _, folder = made(pages, project)
    timeline = otio.adapters.read_from_file(str(folder / "cuts.otio"))
    assert [clip.source_range.start_time.value for clip in timeline.tracks[0]] == [0, 2097, 4195]


# SMPTE ST 12-1's rule, counted one by one: numbers 0 and 1 (0 to 3 at 59.94) of each minute but every tenth are none.
@pytest.mark.parametrize(("rate", "whole", "left_out"), [("29.97", 30, 2), ("59.94", 60, 4)])
def test_dropped_numbers_are_those_of_the_standard(rate, whole, left_out):
    number = 0
    for minute in range(21):
        for second in range(60):
            for at in range(whole):
                if minute % 10 and second == 0 and at < left_out:
                    continue
                wanted = f"{minute // 60:02}:{minute % 60:02}:{second:02};{at:02}"
                if second in (0, 59):
                    assert timecode(number, rate, drop=True) == wanted
                number += 1


@pytest.mark.parametrize("rate", RATES)
def test_a_code_without_dropping_counts_frames(rate):
    exact, whole = RATES[rate]
    assert timecode(whole * 3661, rate) == "01:01:01:00"
    assert frame(1001, rate) == int(Fraction(1001) * exact)
