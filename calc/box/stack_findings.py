"""Findings on height and reach: ceiling, floor, unscrewing, motor, arm."""

from __future__ import annotations

import math

from calc.box.reach import Reach
from calc.box.stack import Stack, find_tilt
from calc.box.standing import find_top_gap
from calc.finding import Amount, Finding, Limit, Said, Subject, Verdict, hold, say, tell
from calc.settled import Settled
from calc.shapes.judge import say_with

MOTOR_GAP_MM = 50.0
"""Air above the blower's motor for its cooling (common practice, no source: its maker's sheet comes first)."""


ARM = "small woman's functional reach, human-factors tables, from memory"


def judge_height(project: Settled, stack: Stack) -> tuple[Finding, ...]:
    """Return the findings from ceiling to floor."""
    gap = find_top_gap(project)
    over = stack.box_top_mm + gap - stack.ceiling_mm
    found = [
        hold(
            "height.ceiling",
            say_with("stack_findings.ceiling_what",
                     ceiling=stack.ceiling_mm, gap=gap),
            stack.box_top_mm,
            Limit(stack.ceiling_mm - gap, "at most", source="project file"),
            Said("stack_findings.ceiling_why"),
            topic="reach",
            mends=(say_with("stack_findings.ceiling_mend", by=over),),
        )
    ]  # fmt: skip
    if stack.hanging_mm > 0:
        found += _judge_hanging(stack, stack.ceiling_gap_mm - gap)
    top = project.blower.motor_top_mm if project.blower else None
    if top is not None:
        over = top + MOTOR_GAP_MM - stack.ceiling_mm
        found.append(
            hold(
                "height.motor",
                Said("stack_findings.motor_what"),
                top,
                Limit(stack.ceiling_mm - MOTOR_GAP_MM, "at most"),
                Said("stack_findings.motor_why"),
                topic="reach",
                mends=(say_with("stack_findings.motor_mend", by=over),),
            )
        )
    return tuple(found)


def _judge_hanging(stack: Stack, can_rise: float) -> list[Finding]:
    short = stack.drop_mm - stack.floor_gap_mm
    raise_by = max(can_rise, 0.0)
    hang = Amount(stack.hanging_mm, "length_mm", base_mm=stack.box_bottom_mm - stack.hanging_mm)
    mends = [say_with("stack_findings.drop_raise", by=short)]
    if raise_by < 1.0 <= short:
        mends = [say_with("stack_findings.drop_stays", by=short)]
    elif short > raise_by:
        mends = [say_with("stack_findings.drop_shorter", None, ("room",),
                          by=short - raise_by, room=raise_by)]  # fmt: skip
    drop = hold(
        "height.unscrew",
        say("stack_findings.drop_cart" if stack.stand_mm else "stack_findings.drop_floor", hang=hang),
        stack.floor_gap_mm,
        Limit(stack.drop_mm, "at least", tight=50.0),
        Said("stack_findings.drop_why"),
        topic="reach",
        mends=tuple(mends),
    )
    room = stack.floor_gap_mm - stack.drop_mm
    # Standing the stack on the floor first, it is tipped over in the room that is left above it. Where that is short
    # the pail is taken off first: as far as that helps it is tight, beyond it the filter does not come out.
    pail = stack.parts[-1].height_mm
    wide = math.sqrt((stack.tilt_mm + stack.hanging_mm) ** 2 - stack.hanging_mm**2)
    alone = find_tilt(stack.hanging_mm - pail, wide)
    tilt = hold(
        "height.tilt",
        Said("stack_findings.tilt_what"),
        room + pail,
        Limit(alone, "at least", tight=stack.tilt_mm + pail - alone),
        Said("stack_findings.tilt_why"),
        topic="reach",
        eases=(say_with("stack_findings.tilt_mend", pail=pail),),
    )
    return [drop, tilt]


def judge_reach(reach: Reach) -> tuple[Finding, ...]:
    """Return the findings about the arm: the opening's size, and everything it must get to."""
    if reach.port is None:
        return (
            tell(
                "reach.none",
                Said("stack_findings.no_opening_what"),
                Said("stack_findings.no_opening_why"),
                Verdict.TIGHT,
                topic="reach",
                mends=(Said("stack_findings.no_opening_mend"),),
            ),
        )
    found = [
        hold(
            "reach.opening",
            Said("stack_findings.opening_what", names={"port": reach.port}),
            reach.opening_mm,
            Limit(reach.opening_least_mm, "at least", source="MIL-STD-1472, arm to the shoulder, from memory"),
            Said("stack_findings.opening_why"),
            topic="reach",
            subjects=(Subject("port", reach.port),),
            mends=(say_with("stack_findings.opening_mend", size=reach.opening_least_mm),),
        )
    ]
    for target in reach.targets:
        over = target.reach_mm - reach.limit_mm
        names = {"port": reach.port, "target": target.name}
        found.append(
            hold(
                f"reach.{target.name}",
                Said("stack_findings.reach_what", names=names),
                target.reach_mm,
                Limit(reach.limit_mm, "at most", tight=40.0, source=ARM),
                Said("stack_findings.reach_why"),
                topic="reach",
                subjects=(Subject("port", reach.port),),
                mends=(say_with("stack_findings.reach_mend", {"port": reach.port}, by=over),),
            )
        )
    return tuple(found)
