"""The joint of two panels in section, to scale, as the design cuts it."""

from __future__ import annotations

from calc.box.joints import CLEAT_WIDE_MM
from calc.design import Design
from calc.project import Project
from calc.shapes.shapes import Box
from packet.draw.model import Drawing, Entity, Pen
from packet.draw.steps.rings import FOCUS, PLAIN, RIGHT_WORDS, name_at
from packet.draw.strokes import close_drawing, draw_rectangle, fill_rectangle
from packet.words.phrases import take_words

REACH_TIMES = 4.0


def draw_joint(project: Project, design: Design, language: str, scale: float) -> Drawing:
    """Return a corner: the panel that is cut lies below, the panel that enters it stands; a cleat in their corner."""
    words = take_words("step_pictures", language)
    thick, joint = project.box.panel.thickness_mm, design.box.joint
    depth, lip = joint.depth_mm, joint.lip_mm
    reach = max(REACH_TIMES * thick, CLEAT_WIDE_MM + 2 * thick)
    cleated = project.box.joint == "cleat"
    high = max(2.6 * thick, CLEAT_WIDE_MM + 2 * thick if cleated else 0.0)
    standing = (lip, thick - depth, lip + thick, high)
    entities: list[Entity] = [
        fill_rectangle(0.0, 0.0, reach, thick, FOCUS if depth else PLAIN),
        draw_rectangle(0.0, 0.0, reach, thick),
        fill_rectangle(*standing, PLAIN),
        draw_rectangle(*standing),
    ]
    right = reach + 1.5 / scale
    names = [(high - 1.9 / scale, words("joint_enters")), (thick / 2, words("joint_cut" if depth else "panel"))]
    if cleated:
        cleat = (lip + thick, thick, lip + thick + CLEAT_WIDE_MM, 2 * thick)
        entities += [fill_rectangle(*cleat, FOCUS), draw_rectangle(*cleat, Pen.OUTLINE)]
        names = [
            (high - 1.9 / scale, words("panel")),
            (1.5 * thick, words("joint_cleat")),
            (0.3 * thick, words("panel")),
        ]
    entities += [name_at(right, y - 0.7 / scale, text) for y, text in names]
    return close_drawing("joint", entities, Box(0.0, 0.0, reach, high), RIGHT_WORDS, scale)
