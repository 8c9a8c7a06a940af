"""Fast modes whose blanking nobody told: between which needs they lie, and what the verdict makes of it."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from calculators.catalogue import find
from calculators.display.links.compromises import Wish
from calculators.trade.links.link_rates import LINKS, link
from calculators.trade.modes.modes import mode
from calculators.trade.modes.unknown_blanking import clock_range

VALUES = Path(__file__).parents[2] / "check_values"
DECLARED = tomllib.loads((VALUES / "declared_fast_timings.toml").read_text("utf-8"))

QHD_144 = {"width": 2560, "height": 1440, "refresh": 144}
LEAST_MHZ = 1.02 * 2560 * 1440 * 144 / 1e6
MOST_MHZ = 604.25  # CVT's first reduced blanking: 2720 × 1543 at 144


def run(**given: object):
    return find("display.link").run(given).answer


def values(answer) -> dict[str, float | str]:
    return {f.key: f.value for f in answer.figures}


@pytest.mark.parametrize(("width", "height", "refresh", "clock_mhz", "h_total", "v_total"), DECLARED["rows"])
def test_declared_timings_lie_within_the_range(width, height, refresh, clock_mhz, h_total, v_total):
    assert clock_mhz * 1e6 / (h_total * v_total) == pytest.approx(refresh, abs=0.01)
    usual = mode(width, height, refresh, "cvt-rb")
    found = clock_range(width, height, refresh, usual)
    assert found is not None
    assert found.least.value / 1e6 <= clock_mhz <= found.most.value / 1e6


def test_1440_lines_at_144_over_600_mhz_depend_on_the_display():
    answer = run(**QHD_144, link="hdmi-tmds-600")
    found = values(answer)
    assert answer.verdict.word == "depends"
    assert found["needed_gb_s"] == pytest.approx(24 * MOST_MHZ / 1000)  # the usual timing, as before
    assert found["needed_least_gb_s"] == pytest.approx(24 * LEAST_MHZ / 1000)
    assert found["needed_most_gb_s"] == pytest.approx(24 * MOST_MHZ / 1000)
    assert "at most 600 MHz" in answer.headline
    assert any("pixel clock" in n.text and n.title == "The one number to look up" for n in answer.notes)


def test_the_clock_to_look_up_is_rounded_down():
    # 25.92 Gb/s ÷ 1.006 ÷ 24 bits is 1073.56 MHz
    assert "at most 1073 MHz" in run(refresh=120, link="dp-hbr3").headline


def test_blanking_that_is_told_decides_as_before():
    told = {**QHD_144, "link": "hdmi-tmds-600"}
    for more, word in (
        ({"blanking": "cvt-rb"}, "no"),
        ({"blanking": "cvt-rb2"}, "yes"),
        ({"h_total": 2720, "v_total": 1481}, "yes"),
    ):
        answer = run(**told, **more)
        assert answer.verdict.word == word
        assert "needed_least_gb_s" not in values(answer)


@pytest.mark.parametrize(
    ("given", "word"),
    [
        ({**QHD_144, "link": "dp-hbr2"}, "yes"),  # 1.006 × 14.50 within 17.28
        ({**QHD_144, "link": "usb-c-2"}, "no"),  # 13.00 above 12.96
        ({"refresh": 120, "link": "dp-hbr3"}, "depends"),  # 24.36 within 25.92, CTA's 28.51 not
        ({"refresh": 144, "link": "dp-hbr3"}, "no"),  # 29.24 above 25.92
        ({"width": 1920, "height": 1080, "refresh": 144, "link": "hdmi-tmds-340"}, "depends"),
        ({"width": 1920, "height": 1080, "refresh": 120, "link": "hdmi-tmds-340"}, "yes"),  # CTA: 297 MHz
    ],
)
def test_the_rule_at_its_edges(given, word):
    assert run(**given).verdict.word == word


def test_cta_s_totals_are_the_most_where_it_lists_the_mode():
    assert values(run(refresh=120, link="dp-hbr3"))["needed_most_gb_s"] == pytest.approx(1.188 * 24)
    assert values(run(refresh=144, link="dp-hbr3"))["needed_most_gb_s"] == pytest.approx(
        24 * mode(3840, 2160, 144, "cvt-rb").clock_mhz / 1000
    )


@pytest.mark.parametrize("given", [{"refresh": 99.9}, {"refresh": 60}, {"refresh": 120, "link": "hdmi-frl-40"}])
def test_slow_modes_and_fixed_rate_links_have_no_such_range(given):
    assert not {"needed_least_gb_s", "needed_most_gb_s"} & set(values(run(**given)))


def test_119_88_is_fast_too_and_exact():
    found = values(run(refresh=119.88))
    assert found["needed_least_gb_s"] == pytest.approx(1.02 * 3840 * 2160 * 120_000 / 1001 * 24 / 1e9, rel=1e-11)


@pytest.mark.parametrize("refresh", [100, 144, 165, 240, 360])
@pytest.mark.parametrize("size", [(1920, 1080), (2560, 1440), (3440, 1440), (3840, 2160), (5120, 1440)])
def test_the_usual_timing_never_lies_outside_the_range(size, refresh):
    for one in LINKS:
        wish = Wish(*size, refresh, 8, "rgb", "usual", False, link(one.key), 4)
        span = wish.untold(wish.mode())
        if span:
            assert span.least.fits(wish.mode().clock)
            assert wish.mode().clock.fits(span.most)


def test_the_figures_of_use_are_not_shown_above_all_of_the_link():
    shown = {f.key for f in run(**QHD_144, link="hdmi-tmds-600").shown_figures()}
    assert not {"used_percent", "headroom_percent"} & shown
