"""Template sheets made, printed on a printer that may be off, and taped together by their crosses, for tests."""

from __future__ import annotations

import io
from dataclasses import dataclass

import numpy as np
import pypdfium2

from calc.cutting.templates import RULES_MM, PaperLayout, TiledPart, plan_templates
from calc.cutting.tiles import Tile
from packet.draw.fonts import register_fonts
from packet.draw.views.part_words import draw_part
from packet.job import Job
from packet.pages.templates import paint_tile
from tests.packet.read_pdf import fit_circle

MM = 72 / 25.4


def make_pdf(job: Job, tiled: TiledPart, layout: PaperLayout) -> bytes:
    """Return the sheets of one part as a PDF, one page a sheet."""
    from reportlab.pdfgen.canvas import Canvas

    register_fonts()
    paper = job.project.display.paper
    stream = io.BytesIO()
    canvas = Canvas(stream, pagesize=(paper.width_mm * MM, paper.height_mm * MM), invariant=1)
    windows = [tile.window for tile in tiled.tiling.tiles]
    drawing = draw_part(tiled.part, job.reader, tiled.tiling.turned, windows)
    for tile in tiled.tiling.tiles:
        paint_tile(canvas, job, layout, tiled, tile, drawing)
        canvas.showPage()
    canvas.save()
    return stream.getvalue()


def pick_part(job: Job, name: str) -> tuple[TiledPart, PaperLayout]:
    """Return a tiled part by its name and the layout of its sheets."""
    plan = plan_templates(job.project.display, job.design.flat_parts)
    return next(t for t in plan.tiled if t.part.name == name), plan.layout


@dataclass(frozen=True)
class Print:
    """A sheet as it came out of a printer: darkness by pixel (row 0 at the foot), and millimetres a pixel."""

    ink: np.ndarray
    mm_x: float
    mm_y: float

    def sample(self, x: np.ndarray, y: np.ndarray) -> np.ndarray:
        """Return darkness between pixels at places [mm] of the sheet; pixel i covers i .. i + 1."""
        px, py = x / self.mm_x - 0.5, y / self.mm_y - 0.5
        i, j = np.floor(px).astype(int), np.floor(py).astype(int)
        u, v = px - i, py - j
        high, wide = self.ink.shape
        i, j = np.clip(i, 0, wide - 2), np.clip(j, 0, high - 2)
        ink = self.ink
        return (
            ink[j, i] * (1 - u) * (1 - v)
            + ink[j, i + 1] * u * (1 - v)
            + ink[j + 1, i] * (1 - u) * v
            + ink[j + 1, i + 1] * u * v
        )


def print_sheets(pdf: bytes, dpi: float = 300.0, makes_x: float = 1.0, makes_y: float = 1.0) -> list[Print]:
    """Return the sheets as a printer makes them that turns a length of 1 into makes_x across and makes_y down."""
    document = pypdfium2.PdfDocument(pdf)
    prints = []
    for page in document:
        grey = page.render(scale=dpi / 72, grayscale=True).to_numpy()
        ink = 1.0 - np.asarray(grey, dtype=float).reshape(grey.shape[0], grey.shape[1]) / 255.0
        wide, high = page.get_size()  # the renderer fits the page to whole pixels
        per_x, per_y = wide / MM / ink.shape[1], high / MM / ink.shape[0]
        prints.append(Print(ink[::-1], per_x * makes_x, per_y * makes_y))
    document.close()
    return prints


def find_cross(sheet: Print, x: float, y: float, sides: str) -> tuple[float, float]:
    """Return where a cross really stands, looked for near x, y [mm]; sides: arms that are on the sheet (lrud)."""
    offs = np.arange(-0.7, 0.7, 0.02)
    spans = np.arange(2.0, 5.5, 0.1)
    up = spans * (1 if "u" in sides else -1)
    across = spans * (1 if "r" in sides else -1)
    upright = sheet.sample(x + offs[:, None] + 0 * up, y + up + 0 * offs[:, None]).mean(axis=1)
    level = sheet.sample(x + across + 0 * offs[:, None], y + offs[:, None] + 0 * across).mean(axis=1)
    return x + _middle(offs, upright), y + _middle(offs, level)


def _middle(offs: np.ndarray, dark: np.ndarray) -> float:
    """Return the middle of the line that crosses: the weighted mean of what is darker than half the darkest."""
    kept = np.where(dark > dark.max() * 0.5, dark, 0.0)
    return float((offs * kept).sum() / kept.sum())


@dataclass(frozen=True)
class Printer:
    """What a printer makes of a length of 1, and what the packet was corrected for."""

    makes_x: float = 1.0
    makes_y: float = 1.0
    corrected_x: float = 1.0
    corrected_y: float = 1.0

    def place(self, layout: PaperLayout, tile: Tile, x: float, y: float) -> tuple[float, float]:
        """Return roughly where a point of the drawing lies on the printed sheet [mm]; only to know where to look."""
        right = layout.left_mm + (RULES_MM + x - tile.window.left) / self.corrected_x
        up = layout.bottom_mm + (RULES_MM + y - tile.window.bottom) / self.corrected_y
        return right * self.makes_x, up * self.makes_y


def ink_of_circle(
    sheet: Print, x: float, y: float, radius: float, inside: float = 0.45, outside: float = 0.9
) -> np.ndarray:
    """Return points [mm] in the middle of the inked circle near x, y, radius: looked for in a narrow band."""
    turns = np.radians(np.arange(0, 360, 0.25))
    reach = np.arange(radius - inside, radius + outside, 0.02)
    xs = x + np.cos(turns)[:, None] * reach
    ys = y + np.sin(turns)[:, None] * reach
    dark = sheet.sample(xs, ys)
    wide, high = sheet.ink.shape[1] * sheet.mm_x, sheet.ink.shape[0] * sheet.mm_y
    on_sheet = ((xs > 1) & (xs < wide - 1) & (ys > 1) & (ys < high - 1)).all(axis=1)
    clear = on_sheet & (dark.max(axis=1) > 0.6)
    weights = np.where(dark > 0.3, dark, 0.0)
    middle = (weights * reach).sum(axis=1) / np.maximum(weights.sum(axis=1), 1e-9)
    spread = weights.sum(axis=1) * 0.02
    clear &= (spread > 0.25) & (spread < 0.75)  # a line about 0.5 mm wide, not words or another line crossing
    return np.column_stack([x + np.cos(turns) * middle, y + np.sin(turns) * middle])[clear]


def fit_firmly(points: np.ndarray) -> tuple[float, float, float]:
    """Return the circle through points, leaving out what lies farther off than the rest."""
    for _ in range(4):
        x, y, radius = fit_circle(points)
        off = np.abs(np.hypot(*(points - (x, y)).T) - radius)
        points = points[off <= max(3 * np.median(off), 0.02)]
    return fit_circle(points)
