"""
The order of every plan, over every combination of inputs: what is tried first, what must stand before what.

Own rules of this project, from what practitioners found dangerous; held on keys and tags, never on words.
"""

from __future__ import annotations

import pytest

from calculators.desk.answer import DEPENDS, NO, YES
from calculators.drivers.plans.consoles import CONSOLE, SAFE_CONSOLE, TERMINAL
from calculators.drivers.plans.diagnosis import ABOUT_TO_TRY
from calculators.drivers.plans.plan_order import FIRST
from calculators.drivers.plans.situation import ANSWERS, CARDS, Situation
from tests.calculators.drivers.every_plan import Plan, judged, plans

pytestmark = pytest.mark.once

# What may stand before the preparation: looking, waiting, cables outside, other sockets, and a display setting that
# the system takes back by itself unless it is confirmed.
LOOKING = {"tries", "reads", "moves:cables", "needs:at_machine", "needs:console", "takes_picture", "sets:display"}
LOOKING_KINDS = ("checks:", "notes:")
PREPARATION = ("gives:key", "gives:photos", "gives:suspended", "gives:backup", "gives:driver_file", "gives:password")
# Firmware settings, secure boot, safe start, another start medium, the card, the disk.
DANGEROUS = (
    "sets:defaults", "touches:card", "touches:disk", "gives:safe_start", "starts:elsewhere", "gives:enrolment_asked",
)  # fmt: skip


def names(plan: Plan) -> list[str]:
    """The steps' own names, without their part's."""
    return [step.key.split("-", 1)[1].replace("-", "_") for step in plan.steps]


def at(plan: Plan, name: str) -> int:
    """Where a step stands first; behind the end where it is missing."""
    found = names(plan)
    return found.index(name) if name in found else len(found)


def told(plan: Plan) -> str:
    return f"{plan.situations[0]}: {' '.join(step.key for step in plan.steps)}"


def test_every_plan_begins_with_at_most_three_short_actions_that_have_a_way_back():
    tried = 0
    for plan in plans():
        if plan.situations[0].idle:
            assert not any(part.heading == FIRST for part in plan.parts), told(plan)
            continue
        assert plan.parts[0].heading == FIRST, told(plan)
        first = [step for step in plan.steps if step.group == FIRST]
        assert 1 <= len(first) <= 3, told(plan)
        assert any("tries" in step.tags for step in first), told(plan)
        for step in first:
            tried += 1
            assert "tries" in step.tags or {"gives:key", "reads"} <= set(step.tags), told(plan)
            assert step.back
            assert step.minutes
            assert step.minutes[1] <= 20
            assert not any(tag in step.tags for tag in DANGEROUS), told(plan)
    assert tried > 1000


def test_only_looking_waiting_cables_and_sockets_come_before_preparation():
    for plan in plans():
        if not any("gives:key" in step.tags for step in plan.steps):
            continue  # not encrypted: a restart asks for nothing; the rules below hold there too
        for step in plan.steps[: plan.first(*PREPARATION)]:
            other = {tag for tag in step.tags if tag not in LOOKING and not tag.startswith(LOOKING_KINDS)}
            assert not other, (told(plan), step.key, other)


def test_key_suspension_and_photographs_come_before_whatever_may_lock_or_lose_something():
    seen = 0
    for plan in plans():
        danger = plan.first(*DANGEROUS)
        if danger == len(plan.steps):
            continue
        for s in plan.situations:
            seen += 1
            if s.locked_disk:
                assert plan.first("gives:key") < danger, told(plan)
                if s.windows and s.sees and s.admin == "yes":
                    assert plan.first("gives:suspended") < danger, told(plan)
            if s.sees or s.logo != "no":  # a dark screen from power-on shows no firmware menu to photograph
                assert plan.first("gives:photos") < danger, told(plan)
    assert seen > 10_000


def test_photographs_are_taken_once_and_after_the_key():
    for plan in plans():
        assert len(plan.at("gives:photos")) <= 1, told(plan)
        if plan.at("gives:photos") and any(s.locked_disk for s in plan.situations):
            assert plan.first("gives:key") < plan.first("gives:photos"), told(plan)


def test_opening_the_case_is_a_step_of_its_own():
    for plan in plans():
        for step in plan.steps:
            if "gives:power_off" in step.tags or "ends:power_off" in step.tags:
                assert not any(tag.startswith("touches:") for tag in step.tags), told(plan)


def test_a_picture_lost_after_a_swap_tries_sockets_input_leads_seat_and_old_card_in_that_order():
    seen = 0
    for plan in plans():
        for s in plan.situations:
            if s.trouble == "no_picture" and s.change in CARDS and s.at_the_machine == s.admin == "yes":
                if s.machine == "laptop":
                    assert at(plan, "sockets_laptop") < at(plan, "display") < len(plan.steps)
                    continue
                seen += 1
                order = [at(plan, name) for name in ("sockets", "display", "power_off", "seat", "old_card", "power_on")]
                assert order[:5] == sorted(order[:5]), told(plan)
                assert order[4] < len(plan.steps), told(plan)
                first_removal = plan.first("installs:driver", "removes:driver", "gives:safe_start")
                assert order[4] < first_removal or first_removal == len(plan.steps), told(plan)
    assert seen > 1000


def test_a_crash_tries_heat_and_dust_then_leads_then_the_strain_then_the_driver_before():
    seen = 0
    for plan in plans():
        for s in plan.situations:
            if s.trouble == "crashes" and s.logo != "no" and s.at_the_machine == s.admin == "yes":
                seen += 1
                order = [at(plan, "cool")]
                if s.machine != "laptop":
                    order += [at(plan, "power_off"), at(plan, "seat")]
                order += [at(plan, "calm")]
                if s.change == "none":
                    order += [at(plan, "roll_back" if s.windows else "older_kernel")]
                assert order == sorted(order), told(plan)
                assert order[-1] < at(plan, "install"), told(plan)
    assert seen > 1000


def test_dark_after_an_update_on_linux_tries_the_older_kernel_first():
    seen = 0
    for plan in plans():
        for s in plan.situations:
            if (s.system, s.trouble, s.change, s.logo) == ("linux", "no_picture", "none", "yes"):
                if s.at_the_machine == "no":
                    continue
                seen += 1
                first = next(name for name in names(plan) if name not in ("key", "key_away"))
                assert first == "older_kernel", told(plan)
    assert seen > 100


def test_backup_and_download_stand_before_the_first_removal_not_before_the_first_look():
    for plan in plans():
        removal = plan.first("removes:driver", "removes:settings")
        if removal < len(plan.steps):
            assert plan.first("gives:backup") < removal, told(plan)
            assert plan.first("gives:driver_file") < removal, told(plan)
        if any(not s.idle for s in plan.situations):
            assert plan.first("tries") < plan.first("gives:backup", "gives:driver_file"), told(plan)


def test_a_wrong_picture_after_a_change_looks_which_driver_runs_before_anything_is_installed():
    seen = 0
    for plan in plans():
        for s in plan.situations:
            if s.trouble == "wrong_settings" and s.logo != "no" and s.change != "none":
                assert at(plan, "look") == 0, told(plan)
                if plan.at("installs:driver"):
                    seen += 1
                    assert at(plan, "only_if_basic") < plan.first("installs:driver"), told(plan)
    assert seen > 100


def test_the_headline_begins_with_the_first_action_and_does_not_contradict_the_verdict():
    first_of = {s: plan for plan in plans() for s in plan.situations}
    for s, found in judged().items():
        if not s.idle:
            tries = [step for step in first_of[s].steps if "tries" in step.tags]
            name = tries[0].key.removeprefix("first-").replace("-", "_")
            if name == "older_kernel" and s.family == "arch":
                name = "another_kernel"  # linux_commands.toml, the fact on what an upgrade replaces
            assert found.lead.startswith(ABOUT_TO_TRY[name]), (s, found.lead)
        if found.verdict == YES:
            assert found.depth, s
        if s.trouble == "wrong_settings":
            assert found.verdict != YES, s


def test_without_a_logo_a_trouble_that_proves_a_picture_is_asked_about_again():
    """One cannot see a crash or wrong colours without a picture: no case is opened for it, and no part blamed."""
    seen = 0
    for plan in plans():
        for s in plan.situations:
            if s.logo == "no" and s.trouble in ("crashes", "wrong_settings", "installer_fails"):
                seen += 1
                assert names(plan) == ["logo_again", "check", "report"], told(plan)
    for s, found in judged().items():
        if s.logo == "no" and s.trouble in ("crashes", "wrong_settings", "installer_fails"):
            assert (found.depth, found.verdict) == (0, DEPENDS)
    assert seen > 1000


def test_a_console_is_opened_where_one_is_needed_and_by_the_task_window_in_safe_start():
    """Neither the start menu nor Windows+X opens it in a safe start: windows_commands.toml, the fact on 11164."""
    opened = safe = 0
    for plan in plans():
        in_safe = is_open = False
        for step in plan.steps:
            if "needs:console" in step.tags:
                lines = {CONSOLE, SAFE_CONSOLE, TERMINAL} & set(step.do)
                on_windows = plan.situations[0].windows
                if not is_open:
                    wanted = TERMINAL if not on_windows else SAFE_CONSOLE if in_safe else CONSOLE
                    assert lines == {wanted}, (told(plan), step.key)
                    opened += 1
                    safe += in_safe and on_windows
                else:
                    assert not lines, (told(plan), step.key)
                is_open = True
            else:
                assert not {CONSOLE, SAFE_CONSOLE, TERMINAL} & set(step.do), step.key
            if "restarts" in step.tags:
                is_open = False
            in_safe = ("gives:safe_start" in step.tags or in_safe) and "ends:safe_start" not in step.tags
    assert opened > 500
    assert safe > 100


def test_every_command_of_a_plan_needs_a_console_or_brings_its_own():
    """Its own: a stick's prompt, the line in the start menu, the text sign-in behind Ctrl, Alt and F3."""
    for plan in plans():
        for step in plan.steps:
            own = "starts:elsewhere" in step.tags or step.key.endswith(("-text-start", "-wake"))
            if step.commands and not own:
                assert "needs:console" in step.tags, step.key


def test_after_the_test_with_the_old_card_the_new_one_goes_in_again_before_its_driver_does():
    seen = 0
    for plan in plans():
        if at(plan, "old_card") < plan.first("installs:driver") < len(plan.steps):
            seen += 1
            back = at(plan, "new_card")
            assert at(plan, "old_card") < back < plan.first("gives:driver_file", "installs:driver"), told(plan)
            assert names(plan)[back - 1 : back + 2] == ["power_off", "new_card", "power_on"], told(plan)
        else:
            assert at(plan, "new_card") == len(plan.steps), told(plan)
    assert seen > 100


def test_a_terminal_is_opened_in_the_plans_of_every_family():
    opened = dict.fromkeys(ANSWERS["family"], 0)
    for plan in plans():
        s = plan.situations[0]
        if not s.windows:
            opened[s.family] += sum(TERMINAL in step.do for step in plan.steps)
    assert all(count > 200 for count in opened.values()), opened


def test_before_a_disk_moves_both_machines_are_off_and_a_laptops_battery_is_thought_of():
    moved = 0
    for plan in plans():
        for i in plan.at("touches:disk"):
            moved += 1
            words = " ".join(plan.steps[i - 1].do)
            assert "Both machines" in words
            assert "press only once its battery is off" in words
    assert moved > 100


def test_no_plan_sets_a_safe_start_that_repeats():
    for plan in plans():
        assert not plan.at("gives:safe_start_repeats"), told(plan)
        for step in plan.steps:
            assert not any("safeboot minimal" in command for command in step.commands)


def test_the_password_is_tried_before_a_disk_moves_and_before_a_safe_start():
    moved = 0
    for plan in plans():
        for i in plan.at("touches:disk") + plan.at("gives:safe_start"):
            moved += 1
            assert plan.first("gives:password") < i, told(plan)
    assert moved > 100


def test_without_password_and_second_device_one_is_got_first_where_that_is_possible():
    seen = 0
    for plan in plans():
        for s in plan.situations:
            if s.password == s.network == "no" and plan.at("gives:safe_start"):
                seen += 1
                first = plan.first("gives:safe_start", "last_resort")
                assert plan.first("gives:extra_account") < plan.first("gives:safe_start"), told(plan)
                if not s.sees:
                    assert plan.first("asks:second_device") < first, told(plan)
    assert seen > 100


def test_a_laptop_is_not_opened_for_its_graphics_and_its_maker_is_asked_first():
    fetched = 0
    for plan in plans():
        for s in plan.situations:
            if s.machine != "laptop":
                assert not plan.at("checks:makers_page"), told(plan)
                continue
            assert not plan.at("touches:card"), told(plan)
            if plan.at("gives:driver_file"):
                fetched += 1
                assert plan.first("checks:makers_page") < plan.first("gives:driver_file", "installs:driver"), told(plan)
    for s, found in judged().items():
        if s.machine == "laptop" and s.change in CARDS and s.trouble == "none":
            assert (found.depth, found.verdict) == (0, NO), s
    assert fetched > 100


def test_with_two_graphics_chips_the_sockets_are_sorted_out_first():
    seen = 0
    for plan in plans():
        for s in plan.situations:
            if (
                s.machine == "two_chips"
                and s.trouble in ("no_picture", "wrong_settings")
                and s.at_the_machine == "yes"
                and not proves_a_picture(s)
            ):
                seen += 1
                assert [step.key for step in plan.steps if step.key == "first-sockets"], told(plan)
    assert seen > 1000


def proves_a_picture(s: Situation) -> bool:
    return s.logo == "no" and s.trouble != "no_picture"


def test_a_module_is_built_and_may_be_loaded_before_the_restart_that_needs_it():
    built = 0
    for plan in plans():
        if plan.situations[0].windows:
            continue
        for i in plan.at("installs:driver"):
            built += 1
            check = next(j for j in plan.at("checks:module") if j > i)
            assert not any(i < j < check for j in plan.at("restarts")), told(plan)
            assert any(j > check for j in plan.at("restarts"))
    assert built > 100
