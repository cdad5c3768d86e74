"""Section through a ring, its collar, the panel and what screws into it: full or half size."""

from __future__ import annotations

from calc.box.ports import PortDesign
from calc.measures.marking import write_mark
from calc.measures.quantity import Reader, write_length
from calc.settled import Settled
from calc.shapes.shapes import Box, Point
from packet.draw.model import Dimension, Drawing, Entity, Pen, Stroke
from packet.draw.strokes import close_drawing, draw_line, draw_rectangle, fill_rectangle, join_points, write_at
from packet.words.phrases import take_words

MARGINS = (4.0, 10.0, 46.0, 8.0)
INSIDE_MM = 55.0  # how far toward the middle the section is drawn
BEAD_MM = 2.0  # sealant left between collar and wood
CLIP_MM = 1.6  # thickness of a clip's band and of its hook
CLIP_BELOW_MM = 12.0  # middle of the band below the end of the filter
PANEL_MM = 34.0  # panel drawn beyond the flange


def draw_section(project: Settled, port: PortDesign, reader: Reader, scale: float = 1.0) -> Drawing:
    """Return half of the section, the port's axis to the left: lining, panel, collar, ring, lid, gasket, filter.

    Drawn as it hangs: the panel above, the filter below. For a port without a filter the lid is whole.
    """
    closure, panel, pail = port.port.closure, project.box.panel, port.port.pail
    hole, flange = port.hole_mm / 2, port.flange_mm / 2
    left, right = hole - INSIDE_MM, flange + PANEL_MM
    t, f, ring = panel.thickness_mm, closure.flange_thick_mm, closure.ring_height_mm
    inner = hole - pail.wall_mm
    entities: list[Entity] = [
        # panel above 0, its outer face at 0
        fill_rectangle(hole + 0.4, 0.0, right, t, hatch=True),
        draw_rectangle(hole + 0.4, 0.0, right, t, Pen.CUT),
        # collar: pail wall through the hole, trimmed flush inside, rim in the ring below
        fill_rectangle(inner, -ring * 0.7, hole, t, tone=0.45),
        draw_rectangle(inner, -ring * 0.7, hole, t),
        # ring: flange on the outside, skirt over the rim
        fill_rectangle(hole, -f, flange, 0.0, tone=0.75),
        draw_rectangle(hole, -f, flange, 0.0),
        fill_rectangle(hole, -ring, hole + 5.0, -f, tone=0.75),
        draw_rectangle(hole, -ring, hole + 5.0, -f),
        # sealant in the corner between collar and panel, and under the flange
        fill_rectangle(hole, t - BEAD_MM, hole + BEAD_MM, t, tone=0.0),
        fill_rectangle(hole + 1.0, -0.6, flange - 1.0, 0.6, tone=0.0),
    ]
    entities += _draw_screw(port, t, f)
    if port.port.kind == "filter" and project.filters:
        entities += _draw_filter_lid(project, port, left) + _draw_hook_clip(project, port)
    else:
        entities += _draw_plain_lid(port, left)
    if project.lining and port.port.face in project.lining.faces:
        high = t + project.lining.thickness_mm
        entities.append(draw_rectangle(hole + 6.0, t, right, high, Pen.HATCH))
        told = take_words("drawings", reader.language)("lining")
        entities.append(write_at(right + 2 / scale, t + project.lining.thickness_mm / 2, told, 2.2, "start"))
    entities += _label(project, port, reader, right, scale)
    below = 34.0 if port.port.kind == "filter" and project.filters else 6.0
    low = -ring - closure.lid_thick_mm - below
    entities.append(draw_line(left, low, left, t + 12.0, Pen.CENTRE))
    return close_drawing(f"section of {port.name}", entities, Box(left, low, right, t + 12.0), MARGINS, scale)


def _draw_screw(port: PortDesign, t: float, flange_thick: float) -> list[Entity]:
    x, reach = port.screw_circle_mm / 2, min(14.0, t - 2.0)
    return [
        fill_rectangle(x - 3.8, -flange_thick - 2.4, x + 3.8, -flange_thick, tone=0.2),
        fill_rectangle(x - 1.4, -flange_thick, x + 1.4, reach, tone=0.2),
        draw_line(x, -flange_thick - 5.0, x, t + 4.0, Pen.CENTRE),
    ]


def _draw_filter_lid(project: Settled, port: PortDesign, left: float) -> list[Entity]:
    """The lid screwed into the ring from below, cut out for air; gasket on its land; the filter's wall on that."""
    closure, cartridge = port.port.closure, project.get_filter(port.port)
    under = -closure.ring_height_mm
    lid, open_at = closure.lid_mm / 2, closure.land_outside_mm / 2 - closure.land_mm
    skirt = port.hole_mm / 2 - port.wall_mm - 1.5
    gasket = cartridge.gasket_thick_mm * 0.65
    inner, outer = cartridge.bore_mm / 2, cartridge.outside_mm / 2
    top = under - closure.lid_thick_mm
    return [
        fill_rectangle(open_at, top, lid, under, tone=0.6),
        draw_rectangle(open_at, top, lid, under),
        fill_rectangle(skirt - 3.0, under, skirt, under + closure.lid_height_mm, tone=0.6),
        draw_rectangle(skirt - 3.0, under, skirt, under + closure.lid_height_mm),
        fill_rectangle(open_at, top - gasket, open_at + closure.land_mm, top, tone=0.1),
        draw_rectangle(max(left, inner), top - gasket - 26.0, outer, top - gasket),
        *(
            draw_line(x, top - gasket - 26.0, x, top - gasket, Pen.HATCH)
            for x in (inner + (outer - inner) * i / 6 for i in range(1, 6))
            if x > left
        ),
    ]


def _draw_hook_clip(project: Settled, port: PortDesign) -> list[Entity]:
    """The clip: its band round the end of the filter, its hook up through the lid's hole."""
    closure, cartridge = port.port.closure, project.get_filter(port.port)
    under, x = -closure.ring_height_mm, closure.hook_edge_mm / 2 - closure.hook_hole_mm / 2
    top = under - closure.lid_thick_mm
    outer = cartridge.outside_mm / 2
    band = top - cartridge.gasket_thick_mm * 0.65 - CLIP_BELOW_MM
    hole = closure.hook_hole_mm / 2
    between = top - cartridge.gasket_thick_mm * 0.65 / 2  # it leaves by the gap that the gasket keeps open
    corners = [(x - 6.0, under + CLIP_MM), (x, under + CLIP_MM), (x, between), (outer + CLIP_MM, between)]
    wire = join_points([*corners, (outer + CLIP_MM, band)], closed=False)
    return [
        fill_rectangle(x - hole, top, x + hole, under, tone=1.0),
        draw_rectangle(x - hole, top, x + hole, under, Pen.HIDDEN),
        fill_rectangle(outer, band - 6.0, outer + CLIP_MM, band + 6.0, tone=0.3),
        draw_rectangle(outer, band - 6.0, outer + CLIP_MM, band + 6.0),
        Stroke(wire, Pen.CUT),
    ]


def _draw_plain_lid(port: PortDesign, left: float) -> list[Entity]:
    closure, under = port.port.closure, -port.port.closure.ring_height_mm
    skirt = port.hole_mm / 2 - port.wall_mm - 1.5
    top = under - closure.lid_thick_mm
    return [
        fill_rectangle(left, top, closure.lid_mm / 2, under, tone=0.6),
        draw_rectangle(left, top, closure.lid_mm / 2, under),
        fill_rectangle(skirt - 3.0, under, skirt, under + closure.lid_height_mm, tone=0.6),
        draw_rectangle(skirt - 3.0, under, skirt, under + closure.lid_height_mm),
    ]


def _label(project: Settled, port: PortDesign, reader: Reader, right: float, scale: float) -> list[Entity]:
    closure, t, words = port.port.closure, project.box.panel.thickness_mm, take_words("drawings", reader.language)
    hole, flange, ring = port.hole_mm / 2, port.flange_mm / 2, closure.ring_height_mm
    lines = [
        (hole + 20.0, t - 4.0, words("panel", stock=project.box.panel.stock, thick=write_length(t, reader))),
        (hole + BEAD_MM, t - 1.0, words("collar")),
        (flange - 6.0, 0.0, words("bead", bead=write_mark(project.methods.bead_mm, reader))),
        (port.screw_circle_mm / 2 + 2.0, -closure.flange_thick_mm - 1.5, words("screws", count=closure.screws)),
        (hole + 4.0, -ring * 0.55, words("ring")),
        (hole - 1.0, -ring * 0.62, words("rim")),
        (closure.lid_mm / 2 - 4.0, -ring - closure.lid_thick_mm / 2, words("lid")),
    ]
    if port.port.kind == "filter" and project.filters:
        low = -ring - closure.lid_thick_mm
        inner = closure.land_outside_mm / 2 - closure.land_mm
        lines.append(
            (inner + closure.land_mm / 2, low - 2.0, words("gasket", land=write_mark(closure.land_mm, reader)))
        )
        cartridge = project.get_filter(port.port)
        outer, band = cartridge.outside_mm / 2, low - cartridge.gasket_thick_mm * 0.65
        lines.append((outer + CLIP_MM, band - CLIP_BELOW_MM, words("clip", count=closure.hooks)))
        lines.append((outer - 8.0, band - CLIP_BELOW_MM - 9.0, words("cartridge")))
    entities: list[Entity] = []
    step, at = 5.2 / scale, t + 6.0
    for x, y, told in lines:
        at = min(at - step, max(y, at - 2 * step))
        entities.append(draw_line(x, y, right + 1 / scale, at, Pen.DIMENSION))
        entities.append(write_at(right + 2 / scale, at - 0.8 / scale, told, 2.2, "start"))
    entities.append(Dimension(Point(hole, t + 6.0), Point(flange, t + 6.0), write_mark(flange - hole, reader), 0.0))
    return entities
