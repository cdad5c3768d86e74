"""Findings on what no bought sheet can hold."""

from __future__ import annotations

from calc.cutting.sheets import SheetPlan
from calc.finding import Finding, Limit, Said, Subject, hold
from calc.project import Boxed, Sheet
from calc.shapes.judge import say_with


def judge_sheets(plans: tuple[SheetPlan, ...], project: Boxed) -> tuple[Finding, ...]:
    """Return one finding for every part that no sheet can hold, or one that all fit."""
    found = []
    for plan in plans:
        sheet = project.box.panel.sheet
        if project.lining and plan.material == project.lining.stock and project.lining.piece:
            sheet = project.lining.piece
        sheet = Sheet(sheet.length_mm - plan.trim_mm, sheet.width_mm - plan.trim_mm)
        for blank in plan.too_large:
            along, across = (
                (blank.height_mm, blank.width_mm) if blank.grain_across else (blank.width_mm, blank.height_mm)
            )
            over_along, over_across = along - sheet.length_mm, across - sheet.width_mm
            value, limit = (along, sheet.length_mm) if over_along >= over_across else (across, sheet.width_mm)
            names: dict[str, str | Said] = {"part": blank.whole, "stock": plan.material}
            mends = [say_with("fit.sheet_box_smaller", names, by=value - limit, size=value)]
            if not blank.may_turn and blank.width_mm <= sheet.width_mm and blank.height_mm <= sheet.length_mm:
                mends.insert(0, Said("fit.sheet_turn"))
            mends.append(say_with("fit.sheet_join", names, size=value + plan.trim_mm))
            what = Said("fit.sheet_what", names=names)
            why = Said("fit.sheet_why")
            found.append(
                hold(
                    f"sheet.{blank.name}", what, value, Limit(limit, "at most", source="project file"), why,
                    topic="other", subjects=(Subject("part", blank.name),), mends=tuple(mends),
                )
            )  # fmt: skip
    return tuple(found)
