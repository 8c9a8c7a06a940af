"""The editor's folder: everything in it is listed, opens, and says what it says it is."""

import csv
import json
import re
import struct
import sys
import xml.etree.ElementTree as etree
from fractions import Fraction
from itertools import accumulate, pairwise
from pathlib import Path

import pytest

from build_tools.cards import photographs
from build_tools.environment import browsers, places
from build_tools.episodes import bundle, programme, sheet
from build_tools.episodes.cut_list import pieces
from build_tools.episodes.marks import Recording
from build_tools.episodes.timecode import RATES, frame, timecode
from build_tools.presenting.takes import Takes


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
    assert {
        "description.txt",
        "replies.txt",
        "chapters.vtt",
        "chapters.txt",
        "captions.vtt",
        "chapters.csv",
        "cuts.csv",
    } <= there
    assert (listed["frame_rate"], listed["drop_frame"]) == ("29.97", True)
    cards = sorted(name for name in there if name.startswith("cards/01-card"))
    assert cards
    for name in (each for each in there if each.endswith(".svg")):
        assert etree.parse(folder / name).getroot().tag.endswith("svg")
    assert any("speech differs" in warning for warning in done.warnings)
    html = (folder / "sources.html").read_text("utf-8")
    assert "<h2>Cautions</h2>" in html
    assert ">question 1</span>" in html
    tokens = (places.PROJECT / "build_tools/browser/style/tokens.css").read_text("utf-8")
    for name in ("--wa-paper", "--wa-ink"):  # by day and by night, as the site's own pages have them
        for colour in re.findall(rf"{name}: (#[0-9a-f]+)", tokens):
            assert f"{name}: {colour}" in html
    assert "@media screen and (prefers-color-scheme: dark)" in html
    assert set(re.findall(r"url\((.{10})", html)) == {"data:font/"}, "it needs no other file"
    assert "marks.csv" not in there


def test_marks_are_counted_from_the_sync_frame(pages, project):
    """Own arithmetic: 70.5 s after the frame, at 29.97 frames a second, is frame 2112 (70.5 * 30000 / 1001)."""
    takes = Takes(project)
    takes.begin(1, 1000.0, sync_s=1000.4)
    takes.note(1, 1, 1070.9)
    takes.end(1, 1, 1100.0)
    takes.begin(1, 2000.0, rehearsal=True, sync_s=2000.4)
    takes.note(1, 1, 2001.0)
    takes.end(1, 2, 2002.0)
    takes.begin(1, 3000.0)
    takes.note(1, 2, 3010.0)
    done, folder = made(pages, project, recordings=takes.recordings(1))
    rows = list(csv.DictReader((folder / "marks.csv").read_text("utf-8").splitlines()))
    assert [(row["take"], row["question"], row["counted from"], row["seconds"], row["frames"]) for row in rows] == [
        ("1", "1", "sync frame", "70.50", "2112"),
        ("3", "2", "beginning of the take", "10.00", "299"),
    ]
    assert rows[0]["time code"] == "00:01:10;14"  # numbers 0 and 1 of minute one are dropped: 2112 counts as 2114
    assert any("without a sync frame" in warning for warning in done.warnings)


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
    rows = list(csv.DictReader((folder / "chapters.csv").read_text("utf-8").splitlines()))
    assert [row["seconds"] for row in rows] == ["0", "70", "140"]
    assert rows[1]["frame"] == "2097"


def test_open_timeline_is_read_back(pages, project):
    otio = pytest.importorskip("opentimelineio")
    _, folder = made(pages, project)
    timeline = otio.adapters.read_from_file(str(folder / "cuts.otio"))
    assert [marker.marked_range.start_time.value for marker in timeline.tracks[0].markers] == [0, 2097, 4195]
    assert [clip.source_range.start_time.value for clip in timeline.tracks[0]] == [0]


def test_the_cut_list_is_what_the_sheet_says_was_cut(pages, project):
    pages.change("summary:", 'frame_rate: 25\nlead: "0:05"\ncuts: ["1:00-1:10", 1:05 to 1:30]\nsummary:')
    _, folder = made(pages, project, rate="25", drop=False)
    rows = list(csv.DictReader((folder / "cuts.csv").read_text("utf-8").splitlines()))
    # Own arithmetic: 5 s to 60 s, then from 90 s on; the video is 140 s and a last minute long, so 145 s are left.
    assert [(row["in"], row["out"], row["lands"]) for row in rows] == [
        ("00:00:05:00", "00:01:00:00", "00:00:00:00"),
        ("00:01:30:00", "00:03:55:00", "00:00:55:00"),
    ]
    assert rows[1]["frame in"] == "2250"


@pytest.mark.parametrize(("lasted", "out"), [(200, "00:03:20:00"), (100, "00:03:55:00"), (None, "00:03:55:00")])
def test_the_last_piece_ends_where_the_take_ended(pages, project, lasted, out):
    """As above; a take that ended before the last chapter, at 2:20 of the video, is not the one of the sheet."""
    pages.change("summary:", 'frame_rate: 25\nlead: "0:05"\ncuts: ["1:00-1:10", 1:05 to 1:30]\nsummary:')
    take = Recording(1, 1000.0, None, {}, None if lasted is None else 1000.0 + lasted)
    _, folder = made(pages, project, rate="25", drop=False, recordings=[take])
    rows = list(csv.DictReader((folder / "cuts.csv").read_text("utf-8").splitlines()))
    assert rows[-1]["out"] == out


def test_pieces_are_as_long_as_the_video_and_never_overlap():
    for lead, cuts in ((0, []), (7, [(0, 3)]), (7, [(0, 9), (20, 30)]), (0, [(100, 200)]), (3, [(50, 60), (50, 55)])):
        found = pieces(lead, cuts, 90)
        assert sum(p.ends - p.begins for p in found) == 90
        assert all(one.ends < next_one.begins for one, next_one in pairwise(found))
        assert found[0].begins >= lead
        assert [p.lands for p in found] == [*accumulate([0, *(p.ends - p.begins for p in found)])][:-1]


def test_the_frame_rate_is_told_once_and_kept_in_the_sheet(pages, project):
    def read():
        episode, mistakes = sheet.read_sheet(pages.docs, pages.sheet)
        assert mistakes == []
        return episode

    with pytest.raises(bundle.CannotBundle, match=r"is not told yet: say --rate 25 once"):
        bundle.rate_of(project, read(), "", False)
    with pytest.raises(bundle.CannotBundle, match=r"dropped at 29.97 and 59.94 only"):
        bundle.rate_of(project, read(), "25", True)
    assert bundle.rate_of(project, read(), "29.97", True) == ("29.97", True)
    assert 'frame_rate: "29.97"\ndrop_frame: true\n' in pages.sheet.read_text("utf-8")
    assert bundle.rate_of(project, read(), "", False) == ("29.97", True), "nothing is asked twice"
    assert bundle.rate_of(project, read(), "50", False) == ("50", False)
    assert bundle.rate_of(project, read(), "", False) == ("50", False)


def test_the_programme_may_tell_the_rate_of_all_its_recordings(pages, project):
    (project / "mkdocs.yml").write_text("extra:\n  programme:\n    frame_rate: 25\n", "utf-8")
    episode, _ = sheet.read_sheet(pages.docs, pages.sheet)
    assert bundle.rate_of(project, episode, "", False) == ("25", False)
    (project / "mkdocs.yml").write_text("extra:\n  programme:\n    frame_rate: 26\n", "utf-8")
    assert any("mkdocs.yml:3: a recording's rate is one of 23.976" in each for each in programme.mistakes(project))


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("frame_rate: 26", "a recording's rate is one of 23.976"),
        ("frame_rate: 25\ndrop_frame: true", "dropped at 29.97 and 59.94 only"),
        ("lead: soon", "a time is written 4:05"),
        ("cuts: [5:10]", "a piece cut out is written 5:10-5:40"),
        ("cuts: 5:10-5:40", "'cuts:' needs a list"),
    ],
)
def test_what_a_sheet_says_wrongly_of_its_recording_is_told(pages, line, told):
    pages.change("summary:", f"{line}\nsummary:")
    _, mistakes = sheet.read_sheet(pages.docs, pages.sheet)
    assert len(mistakes) == 1
    assert told.lower() in str(mistakes[0]).lower()


def test_pictures_of_all_cards_come_from_one_browser(pages, project, monkeypatch):
    browser = browsers.find()
    if browser is None:
        pytest.skip("no Chromium is here")
    started = []
    first = photographs._Pipes

    def counted(*given):
        started.append(given)
        return first(*given)

    monkeypatch.setattr(photographs, "_Pipes", counted)
    monkeypatch.setattr(bundle, "FACES", {"wide": "card", "thumbnail": "thumbnail"})
    done, folder = made(pages, project, browser=browser)
    pictures = [each["name"] for each in done.files if each["name"].endswith(".png")]
    assert len(pictures) > 3
    assert len(started) == 1
    for name in pictures:
        head = (folder / name).read_bytes()[:26]
        wide, high = struct.unpack(">II", head[16:24])
        # PNG (W3C), 11.2.2: the ninth byte of IHDR after width and height is the colour type, 6 for colour with alpha.
        assert (head[:8], wide / high, head[25]) == (b"\x89PNG\r\n\x1a\n", 16 / 9, 6), name


def test_a_browser_that_breaks_off_is_told(pages, project):
    with pytest.raises(bundle.CannotBundle, match="the browser broke off"):
        made(pages, project, browser=Path(sys.executable))


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
