"""Reads drawn lines back out of a PDF with another library (pikepdf), following every change of coordinates."""

from __future__ import annotations

import io
from dataclasses import dataclass, field

import numpy as np
import pikepdf

MM = 25.4 / 72.0


@dataclass
class Inked:
    """One stroked path in millimetres on the page: sampled points, line weight, dash, and whether it was closed."""

    points: list[tuple[float, float]] = field(default_factory=list)
    width_mm: float = 0.0
    dash: tuple[float, ...] = ()
    closed: bool = False

    @property
    def width(self) -> float:
        xs = [x for x, _ in self.points]
        return max(xs) - min(xs)

    @property
    def height(self) -> float:
        ys = [y for _, y in self.points]
        return max(ys) - min(ys)


def read_lines(pdf: bytes, page: int = 0) -> list[Inked]:
    """Return every stroked path of a page, curves sampled at nine points each."""
    with pikepdf.open(io.BytesIO(pdf)) as document:
        steps = pikepdf.parse_content_stream(document.pages[page])
        return _follow([(list(map(_plain, operands)), str(operator)) for operands, operator in steps])


def _plain(operand: object) -> object:
    if isinstance(operand, pikepdf.Array):
        return [float(o) for o in operand]
    try:
        return float(operand)  # type: ignore[arg-type]
    except (TypeError, ValueError):
        return operand


def _follow(steps: list[tuple[list[object], str]]) -> list[Inked]:
    found: list[Inked] = []
    state = (np.eye(3), 1.0, ())
    stack = []
    path: list[Inked] = []
    here = np.zeros(2)
    for operands, name in steps:
        matrix, width, dash = state
        if name == "q":
            stack.append(state)
        elif name == "Q":
            state = stack.pop()
        elif name == "cm":
            a, b, c, d, e, f = operands
            state = (np.array([[a, b, 0], [c, d, 0], [e, f, 1]]) @ matrix, width, dash)
        elif name == "w":
            state = (matrix, operands[0], dash)
        elif name == "d":
            state = (matrix, width, tuple(operands[0]))
        elif name == "m":
            here = np.array(operands, dtype=float)
            path.append(Inked([_place(here, matrix)]))
        elif name == "l":
            here = np.array(operands, dtype=float)
            path[-1].points.append(_place(here, matrix))
        elif name == "c":
            one, two, end = np.array(operands, dtype=float).reshape(3, 2)
            for t in np.linspace(0, 1, 10)[1:]:
                point = (1 - t) ** 3 * here + 3 * (1 - t) ** 2 * t * one + 3 * (1 - t) * t**2 * two + t**3 * end
                path[-1].points.append(_place(point, matrix))
            here = end
        elif name == "re":
            x, y, w, h = operands
            corners = ((x, y), (x + w, y), (x + w, y + h), (x, y + h), (x, y))
            path.append(Inked([_place(np.array(corner), matrix) for corner in corners], closed=True))
        elif name == "h":
            path[-1].closed = True
        elif name in ("S", "s", "B"):
            for one in path:
                one.width_mm, one.dash = float(width) * MM, tuple(float(d) * MM for d in dash)
            found += path
            path = []
        elif name in ("n", "f", "f*"):
            path = []
    return found


def _place(point: np.ndarray, matrix: np.ndarray) -> tuple[float, float]:
    x, y, _ = np.array([point[0], point[1], 1.0]) @ matrix
    return float(x) * MM, float(y) * MM


def fit_circle(points: object) -> tuple[float, float, float]:
    """Return centre x, y and radius of the circle that fits points best (algebraic least squares)."""
    xy = np.asarray(points, dtype=float)
    middle = xy.mean(axis=0)
    x, y = (xy - middle).T
    rows = np.column_stack([x, y, np.ones_like(x)])
    a, b, c = np.linalg.lstsq(rows, x**2 + y**2, rcond=None)[0]
    return float(middle[0] + a / 2), float(middle[1] + b / 2), float(np.sqrt(c + a * a / 4 + b * b / 4))


def find_circles(lines: list[Inked], least_mm: float = 0.0) -> list[tuple[float, float, float, Inked]]:
    """Return (x, y, radius, line) of every stroked path that is a whole circle."""
    found = []
    for line in lines:
        if line.closed and len(line.points) >= 36 and abs(line.width - line.height) < 0.05 * line.width:
            x, y, radius = fit_circle(line.points)
            spread = np.hypot(*(np.asarray(line.points) - (x, y)).T) - radius
            if radius >= least_mm and np.abs(spread).max() < 0.01 * radius:
                found.append((x, y, radius, line))
    return found
