"""
The rules that no plan breaks: property tests over every combination of inputs, held against the steps' tags.

Own rules of this project (issue: drivers), not published figures. That the tags tell the truth about the
commands is the business of test_tags_and_commands.py.
"""

from __future__ import annotations

import re

import pytest

from calculators.desk.answer import NO
from calculators.drivers.plans.situation import Situation
from tests.calculators.drivers.every_plan import Plan, judged, plans, situations

pytestmark = pytest.mark.once

COMBINATIONS = 518_400  # 2·4·5·5·3·2·3·3·2·2·2·2·3


def test_every_combination_is_looked_at_once():
    assert len(situations()) == COMBINATIONS
    assert sum(len(plan.situations) for plan in plans()) == COMBINATIONS
    assert len({s for plan in plans() for s in plan.situations}) == COMBINATIONS


def test_nothing_is_removed_before_the_new_driver_is_on_the_disk_and_the_old_one_is_saved():
    removals = 0
    for plan in plans():
        for i in plan.at("removes:driver"):
            removals += 1
            assert plan.first("gives:driver_file") < i, names(plan)
            assert plan.first("gives:restore_point") < i, names(plan)
            if any(s.windows for s in plan.situations):
                assert plan.first("gives:old_package") < i, names(plan)
    assert removals > 1000


def test_what_a_step_needs_has_been_given_before_it():
    for plan in plans():
        held: set[str] = set()
        for step in plan.steps:
            needs = {tag[6:] for tag in step.tags if tag.startswith("needs:")} - {"admin", "at_machine", "console"}
            assert needs <= held, (names(plan), step.key, needs - held)
            held |= {tag[6:] for tag in step.tags if tag.startswith("gives:")}
            held -= {tag[5:] for tag in step.tags if tag.startswith("ends:")}


def test_with_an_encrypted_disk_the_key_is_matched_before_any_restart_or_firmware_change():
    seen = 0
    for plan in plans():
        if not any(s.encrypted != "no" for s in plan.situations):
            continue
        first = plan.first("restarts", "sets:defaults", "asks_for_key", "gives:power_off")
        if first < len(plan.steps):
            seen += 1
            assert plan.first("gives:key") < first, names(plan)
            assert plan.first("matches:key") < first, names(plan)
    assert seen > 100


def test_not_sure_counts_as_encrypted():
    by_situation = {s: i for i, plan in enumerate(plans()) for s in plan.situations}
    for s, i in by_situation.items():
        if s.encrypted == "unsure":
            assert by_situation[s._replace(encrypted="yes")] == i


def test_protection_is_suspended_for_just_the_restarts_that_come():
    """Where the system offers it: the one that does, with a picture to type by and an administrator's rights."""
    covered = 0
    for plan in plans():
        locked = [s for s in plan.situations if s.windows and s.encrypted != "no"]
        if not locked:
            assert not plan.at("gives:suspended"), names(plan)
            continue
        left = 0
        for i, step in enumerate(plan.steps):
            if "gives:suspended" in step.tags:
                assert left == 0, names(plan)
                (left,) = (int(n) for n in re.findall(r"-RebootCount (\d+)", " ".join(step.commands)))
                assert 1 <= left <= 15, "manage-bde takes 0 to 15, and 0 would be for ever"
                assert str(left) in step.title
            if "restarts" in step.tags:
                if left:
                    covered += 1
                    left -= 1
                else:
                    assert all(cannot_suspend(plan, i, s) for s in locked), (names(plan), step.key)
            if "ends:suspended" in step.tags:
                assert left == 0, ("suspended for more restarts than there are", names(plan))
    assert covered > 300


def cannot_suspend(plan: Plan, i: int, s: Situation) -> bool:
    """A restart before which nothing could be typed: no picture seen yet, out of a safe start, or no rights."""
    if s.logo == "no" and s.admin == "no":
        return True
    if s.sees:
        return False
    seen_before = any(key.endswith(("-stick-safe", "-once")) for key in (step.key for step in plan.steps[:i]))
    return not seen_before or "ends:safe_start" in plan.steps[i].tags


def test_protection_is_checked_as_on_after_the_last_restart_of_every_stage():
    checked = 0
    for plan in plans():
        if not any(s.encrypted != "no" for s in plan.situations):
            continue
        for stage in plan.stages():
            checked += 1
            assert stage.at("checks:protection"), names(plan)
            assert stage.at("checks:protection")[-1] > stage.at("restarts")[-1], names(plan)
            if any(s.windows for s in plan.situations):
                assert stage.at("ends:suspended") == stage.at("checks:protection"), names(plan)
        if plan.at("gives:suspended"):
            assert plan.at("ends:suspended")[-1] > plan.at("restarts")[-1], names(plan)
    assert checked > 1000


def test_before_a_safe_start_an_administrators_password_has_been_tried():
    entered = 0
    for plan in plans():
        for i in plan.at("gives:safe_start"):
            entered += 1
            assert plan.first("gives:password") < i, names(plan)
            if any(s.password == "no" for s in plan.situations):
                assert plan.first("gives:extra_account") < i, names(plan)
                assert all(s.password == "no" for s in plan.situations)
            else:
                assert not plan.at("gives:extra_account"), names(plan)
    assert entered > 500


def test_an_account_made_for_the_repair_is_removed_again():
    made = 0
    for plan in plans():
        for given in plan.at("gives:extra_account"):
            made += 1
            assert any(i > given for i in plan.at("ends:extra_account")), names(plan)
        assert len(plan.at("gives:extra_account")) == len(plan.at("ends:extra_account")), names(plan)
    assert made > 100


def test_a_safe_start_is_asked_for_once_and_ends():
    for plan in plans():
        for stage in plan.stages():
            assert len(stage.at("gives:safe_start")) == len(stage.at("ends:safe_start")), names(plan)
            for into, out in zip(stage.at("gives:safe_start"), stage.at("ends:safe_start"), strict=True):
                assert into < out < stage.at("checks:driver")[-1], names(plan)
            assert not stage.at("gives:safe_start_repeats"), names(plan)


def test_where_a_safe_start_should_not_repeat_but_does_the_way_out_is_given_for_the_recovery_prompt_too():
    given = 0
    for plan in plans():
        if any(s.windows for s in plan.situations):
            for i in plan.at("ends:safe_start"):
                given += 1
                assert 'bcdedit /deletevalue "{current}" safeboot' in plan.steps[i].otherwise
                assert "{default}" in plan.steps[i].otherwise
    assert given > 100


def test_power_is_off_before_a_hand_goes_in():
    touched = 0
    for plan in plans():
        off = False
        for step in plan.steps:
            if "gives:power_off" in step.tags:
                words = " ".join(step.do)
                assert "switch" in words
                assert "pull the mains lead" in words
                assert "press the power button" in words
                off = True
            if "ends:power_off" in step.tags:
                assert off, "power comes back only where it was gone"
                off = False
            if any(tag.startswith("touches:") for tag in step.tags):
                touched += 1
                assert off, (names(plan), step.key)
            if off and "needs:power_off" not in step.tags:
                assert "gives:power_off" in step.tags, ("nothing but hands while the power is off", step.key)
        assert not off, names(plan)
    assert touched > 100


def test_from_afar_nothing_takes_picture_or_network_and_the_answer_is_no():
    forbidden = {"takes_picture", "takes_network", "restarts", "needs:at_machine", "asks_for_key", "needs:power_off"}
    for plan in plans():
        if any(s.at_the_machine == "no" for s in plan.situations):
            for step in plan.steps:
                assert not forbidden & set(step.tags), (names(plan), step.key)
    for s, found in judged().items():
        if s.at_the_machine == "no" and not s.shows_after_all:
            assert found.verdict == NO
            assert s.logo == "no" or s.idle or s.refuses_a_card or "network" in found.reason


def test_without_an_administrator_the_answer_is_no_with_the_reason():
    for plan in plans():
        if any(s.admin == "no" for s in plan.situations):
            assert not plan.at("needs:admin"), names(plan)
    for s, found in judged().items():
        if s.admin == "no" and not s.shows_after_all:
            assert found.verdict == NO
            assert s.logo == "no" or s.idle or s.refuses_a_card or "administrator" in found.reason


def test_automatic_installation_is_held_off_only_as_long_as_needed():
    held = 0
    for plan in plans():
        for stage in plan.stages():
            for hold, release in zip(stage.at("gives:held_off"), stage.at("ends:held_off"), strict=True):
                held += 1
                inside = stage.steps[hold + 1 : release]
                assert any("installs:driver" in step.tags for step in inside), names(plan)
                assert "restarts" in inside[-1].tags, "let back right after the restart that follows the installation"
                assert "installs:driver" in inside[-2].tags
        if any(s.windows for s in plan.situations):
            off = False
            for step in plan.steps:
                off = ("gives:held_off" in step.tags or off) and "ends:held_off" not in step.tags
                assert off or "removes:driver" not in step.tags, (names(plan), step.key)
    assert held > 200


def test_a_restore_point_or_what_stands_in_comes_first_and_is_confirmed():
    changed = 0
    for plan in plans():
        first = plan.first("installs:driver", "removes:driver", "removes:settings")
        if first < len(plan.steps):
            changed += 1
            assert plan.first("gives:restore_point") < first, names(plan)
            assert plan.first("checks:restore_point") < first, names(plan)
            if not any(s.windows for s in plan.situations):
                assert "stands in" in plan.steps[plan.first("gives:restore_point")].title
    assert changed > 500


def test_data_comes_before_any_change():
    for plan in plans():
        first = plan.first("installs:driver", "removes:driver", "removes:settings")
        if first < len(plan.steps):
            assert plan.first("gives:backup") < first, names(plan)


def test_under_secure_boot_the_enrolment_at_the_screen_is_planned_for():
    planned = 0
    for plan in plans():
        if not any(not s.windows and s.secure_boot != "no" for s in plan.situations):
            assert not plan.at("gives:enrolment_asked"), names(plan)
            continue
        for stage in plan.stages():
            planned += 1
            (asked,), (given,) = stage.at("gives:enrolment_asked"), stage.at("gives:enrolment")
            assert stage.at("installs:driver")[-1] < asked < given, names(plan)
            assert {"restarts", "needs:at_machine"} <= set(stage.steps[given].tags)
            assert not any(asked < i < given for i in stage.at("restarts")), "the very next start asks"
    assert planned > 500


def test_cutting_off_a_start_is_the_last_resort_and_its_risk_is_told():
    used = 0
    for plan in plans():
        for i in plan.at("last_resort"):
            used += 1
            assert plan.steps[i].caution, names(plan)
            assert "files" in plan.steps[i].caution
            for s in plan.situations:
                assert (s.sees, s.network) == (False, "no"), "with a picture or a stick there is another way"
    assert used > 0


def test_every_plan_ends_by_checking_that_it_worked_and_with_what_to_report():
    for plan in plans():
        assert "reports" in plan.steps[-1].tags, names(plan)
        check = plan.steps[-2]
        # no driver was to blame where no logo was seen, so there the logo is what must be back
        no_logo = plan.situations[0].dark_from_the_start
        wanted = {"checks:logo"} if no_logo else {"checks:card", "checks:driver", "checks:version"}
        assert wanted <= set(check.tags), names(plan)
        for stage in plan.stages():
            assert {"checks:card", "checks:driver", "checks:version"} <= set(stage.steps[-1].tags), names(plan)


def test_without_the_firmwares_logo_it_is_never_the_driver():
    for s, found in judged().items():
        if s.dark_from_the_start:
            assert (found.depth, found.verdict) == (0, NO)
            assert "not the driver" in found.lead
    for plan in plans():
        if any(s.dark_from_the_start for s in plan.situations):
            for step in plan.steps:
                assert not {"installs:driver", "removes:driver", "gives:driver_file"} & set(step.tags), step.key
            words = " ".join(" ".join((step.title, *step.do)) for step in plan.steps)
            for part in ("input", "socket", "cable"):
                assert part in words
            if any(s.at_the_machine == "yes" and not s.laptop for s in plan.situations):
                assert "board" in words
                assert "power lead" in words
                assert "Seat the card" in words


def test_the_gentlest_plan_comes_first_and_the_deeper_ones_follow():
    deep = 0
    for plan in plans():
        depths = [part.depth for part in plan.parts if part.depth]
        first = judged()[plan.situations[0]].depth
        assert depths == (list(range(first, 4)) if first else [])
        for part in plan.parts:
            if part.depth:
                deep += 1
                assert part.deeper == (part.depth > first)
                assert part.heading.startswith("If it does not work" if part.deeper else "The plan")
    assert deep > 1000


def test_after_the_swap_one_looks_whether_that_was_all():
    looked = 0
    for plan in plans():
        s = plan.situations[0]
        keys = [step.key for step in plan.steps]
        wanted = bool(plan.stages()) and opens(s) and s.change != "other_maker"
        assert keys.count("over-runs") == wanted, names(plan)
        if wanted:
            looked += 1
            assert keys[keys.index("over-runs") - 1] == "over-power-on"
            assert keys[keys.index("over-runs") + 1] == "over-install"
    assert looked > 50


def test_without_a_logo_the_check_is_of_the_picture_alone():
    for plan in plans():
        without = [s.dark_from_the_start for s in plan.situations]
        assert ("end-check-picture" in [step.key for step in plan.steps]) == without[0] == all(without), names(plan)
        if without[0]:
            assert not plan.at("checks:version") + plan.at("notes:version"), names(plan)


def test_what_comes_only_after_a_failure_is_marked_so():
    for plan in plans():
        for part in plan.parts:
            marks = {step.deeper for step in plan.steps if step.group == part.heading}
            assert marks == {part.deeper and part.depth > 0}, part.heading


def test_nothing_to_repair_is_left_alone():
    for s, found in judged().items():
        if s.idle:
            assert (found.depth, found.verdict) == (0, NO)
    for plan in plans():
        if any(s.idle for s in plan.situations):
            assert [step.key for step in plan.steps] == ["end-check", "last-report"]


def test_the_case_is_opened_once_and_only_where_the_change_lies_ahead():
    for plan in plans():
        ahead = [opens(s) for s in plan.situations]
        for stage in plan.stages():
            first = stage.steps[0].group.startswith("The plan")
            touched = stage.at("touches:card") + stage.at("touches:disk")
            assert len(touched) == (1 if first and ahead[0] else 0), names(plan)
        assert len(set(ahead)) == 1 or not plan.stages()


def opens(s: Situation) -> bool:
    return s.change != "none" and s.trouble == "none"


def names(plan: Plan) -> str:
    """For the message of a failed check: one situation, and the steps."""
    return f"{plan.situations[0]}: {' '.join(step.key for step in plan.steps)}"
