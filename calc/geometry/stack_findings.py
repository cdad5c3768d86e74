"""Findings on height and reach: ceiling, floor, unscrewing, motor, arm."""

from __future__ import annotations

from calc.finding import Finding, Said, Verdict
from calc.geometry.judge import PRACTICE, hold, say_with
from calc.geometry.reach import Reach
from calc.geometry.stack import Stack
from calc.geometry.standing import find_top_gap
from calc.project import Project

MOTOR_GAP_MM = 50.0
"""Air above the blower's motor for its cooling (common practice, no source: its maker's sheet comes first)."""


def judge_height(project: Project, stack: Stack) -> tuple[Finding, ...]:
    """Return the findings from ceiling to floor."""
    gap = find_top_gap(project)
    over = stack.box_top_mm + gap - stack.ceiling_mm
    found = [
        hold(
            "height.ceiling",
            say_with("Top of the box above the floor, ceiling at {ceiling} less a gap of {gap}",
                     ceiling=stack.ceiling_mm, gap=gap),
            stack.box_top_mm,
            stack.ceiling_mm - gap,
            "The box must go up under the ceiling with room to fix it.",
            (say_with("Hang the box {by} lower, or make it {by} lower in height.", by=over),),
            source="project file",
        )
    ]  # fmt: skip
    if stack.hanging_mm > 0:
        found += _judge_hanging(stack, stack.ceiling_gap_mm - gap)
    if project.blower.motor_top_mm is not None:
        over = project.blower.motor_top_mm + MOTOR_GAP_MM - stack.ceiling_mm
        found.append(
            hold(
                "height.motor",
                Said("Top of the blower's motor above the floor"),
                project.blower.motor_top_mm,
                stack.ceiling_mm - MOTOR_GAP_MM,
                "The motor needs air above it.",
                (say_with("Stand the blower {by} lower.", by=over),),
            )
        )
    return tuple(found)


def _judge_hanging(stack: Stack, can_rise: float) -> list[Finding]:
    short = stack.drop_mm - stack.floor_gap_mm
    raise_by = max(can_rise, 0.0)
    names: dict[str, str] = {}
    floor = "cart's base" if stack.stand_mm else "floor"
    mends = [say_with("Raise the box {by}, or use filters or pails that are {by} shorter.", names, by=short)]
    if short > raise_by:
        mends = [say_with("Use filters or pails that are {by} shorter: the box can rise only {room}.", names, ("room",),
                          by=short - raise_by, room=raise_by)]  # fmt: skip
    drop = hold(
        "height.unscrew",
        say_with(
            f"Room from the pail to the {floor}; filter and pail hang {{hang}} below the box", hang=stack.hanging_mm
        ),
        stack.floor_gap_mm,
        stack.drop_mm,
        "The filter must drop by the depth of its thread before it comes away.",
        tuple(mends),
        sense="at least",
        tight=50.0,
    )
    room = stack.floor_gap_mm - stack.drop_mm
    # standing the stack on the floor first, it is tipped over in the room that is left above it
    tilt = hold(
        "height.tilt",
        Said("Room to tip the filter with its pail out from under the box"),
        room,
        stack.tilt_mm,
        "A tall filter rises at its corner while it is tipped.",
        (say_with("Take the pail off first, which gives {pail} more, or slide the filter out upright.", names,
                  pail=stack.parts[-1].height_mm),),
        sense="at least",
        worst=Verdict.TIGHT,
    )  # fmt: skip
    return [drop, tilt]


def judge_reach(reach: Reach) -> tuple[Finding, ...]:
    """Return the findings about the arm: the opening's size, and everything it must get to."""
    if reach.port is None:
        return (
            Finding(
                "reach.none",
                Said("Inspection opening"),
                Verdict.TIGHT,
                Said("Without one nobody gets at the rings, the gauge fitting or the dust in the box."),
                mends=(Said("Add a port of kind inspection, or keep the removable face easy to take off."),),
                source=PRACTICE,
            ),
        )
    found = [
        hold(
            "reach.opening",
            Said("Clear opening of {port} for an arm", names={"port": reach.port}),
            reach.opening_mm,
            reach.opening_least_mm,
            "An arm must go in to the shoulder.",
            (say_with("Use a pail at least {size} across.", size=reach.opening_least_mm),),
            sense="at least",
            source="MIL-STD-1472, arm to the shoulder, from memory",
            part=reach.port,
        )
    ]
    for target in reach.targets:
        over = target.reach_mm - reach.limit_mm
        names = {"port": reach.port, "target": target.name}
        found.append(
            hold(
                f"reach.{target.name}",
                Said("Reach from {port} to the far edge of {target}", names=names),
                target.reach_mm,
                reach.limit_mm,
                "A short arm must get to it without taking the face off.",
                (
                    say_with("Move {port} {by} nearer, add a second inspection opening, or take the face off for "
                             "this.", {"port": reach.port}, by=over),
                ),
                tight=40.0,
                source="small woman's functional reach, human-factors tables, from memory",
                worst=Verdict.TIGHT,
            )
        )  # fmt: skip
    return tuple(found)
