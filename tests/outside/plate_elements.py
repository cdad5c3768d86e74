"""A thin plate of wood by finite elements, for holding the plate theory of calc/ against: numpy and scipy, no calc.

The rectangular element of Adini, Clough and Melosh: twelve terms of a polynomial, w and its two slopes at each corner
(Zienkiewicz and Taylor, The Finite Element Method, from memory). A hole is left out element by element; what its cover
carries is shared among the nodes of its rim. A rib is a row of beam elements of Hermite on the nearest line of nodes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import scipy.sparse as sparse
from scipy.sparse.linalg import spsolve

TERMS = [(0, 0), (1, 0), (0, 1), (2, 0), (1, 1), (0, 2), (3, 0), (2, 1), (1, 2), (0, 3), (3, 1), (1, 3)]


@dataclass(frozen=True)
class Board:
    """Sides x and y [m]; bending stiffness [N m] along x, along y, between them and twisting."""

    x: float
    y: float
    stiff: tuple[float, float, float, float]


@dataclass(frozen=True)
class Opening:
    """Middle and radius [m], and the weight on the rim [N]."""

    x: float
    y: float
    radius: float
    weight: float = 0.0


@dataclass(frozen=True)
class Beam:
    """A rib along y at a place x, from start to end [m], of a bending stiffness E I [N m2]."""

    x: float
    start: float
    end: float
    stiff: float


def _differ(x: float, y: float, dx: int, dy: int) -> np.ndarray:
    """Return a derivative of each term at a point."""

    def power(value: float, exponent: int, times: int) -> float:
        factor = 1.0
        for step in range(times):
            factor *= exponent - step
        return factor * value ** (exponent - times) if exponent >= times else 0.0

    return np.array([power(x, i, dx) * power(y, j, dy) for i, j in TERMS])


def _make_element(dx: float, dy: float, board: Board) -> tuple[np.ndarray, np.ndarray]:
    """Return stiffness and the share of an even load of one element."""
    corners = [(0.0, 0.0), (dx, 0.0), (dx, dy), (0.0, dy)]
    shape = np.linalg.inv(np.array([_differ(x, y, *d) for x, y in corners for d in ((0, 0), (1, 0), (0, 1))]))
    along, across, between, twist = board.stiff
    law = np.array([[along, between, 0.0], [between, across, 0.0], [0.0, 0.0, twist]])
    spots, weights = np.polynomial.legendre.leggauss(4)
    stiffness, load = np.zeros((12, 12)), np.zeros(12)
    for gx, wx in zip(spots, weights, strict=True):
        for gy, wy in zip(spots, weights, strict=True):
            x, y, area = dx * (gx + 1) / 2, dy * (gy + 1) / 2, dx * dy / 4 * wx * wy
            bend = np.array([_differ(x, y, 2, 0), _differ(x, y, 0, 2), 2 * _differ(x, y, 1, 1)]) @ shape
            stiffness += area * bend.T @ law @ bend
            load += area * _differ(x, y, 0, 0) @ shape
    return stiffness, load


def _stiffen(beam: Beam, counts: tuple[int, int], steps: tuple[float, float], size: int) -> sparse.csr_matrix:
    """Return the stiffness of a rib: w and its slope along y at the nodes of a line."""
    (nx, ny), (dx, dy) = counts, steps
    line = round(beam.x / dx)
    one = np.array([[12, 6 * dy, -12, 6 * dy], [6 * dy, 4 * dy**2, -6 * dy, 2 * dy**2],
                    [-12, -6 * dy, 12, -6 * dy], [6 * dy, 2 * dy**2, -6 * dy, 4 * dy**2]])  # fmt: skip
    rows, columns, values = [], [], []
    for j in range(ny):
        if not beam.start <= (j + 0.5) * dy <= beam.end:
            continue
        nodes = [j * (nx + 1) + line, (j + 1) * (nx + 1) + line]
        freedoms = [3 * node + part for node in nodes for part in (0, 2)]
        for a in range(4):
            for b in range(4):
                rows.append(freedoms[a])
                columns.append(freedoms[b])
                values.append(beam.stiff / dy**3 * one[a, b])
    return sparse.csr_matrix((values, (rows, columns)), shape=(size, size))


def bow_by_elements(
    board: Board,
    pressure: float,
    openings: Sequence[Opening] = (),
    *,
    fine: int = 48,
    held: bool = False,
    beams: Sequence[Beam] = (),
) -> float:
    """Return the largest bow [m] of a board under a pressure [Pa] over all of it, covers of openings included.

    fine: elements along the mean side; held: edges cannot turn
    """
    nx, ny = round(fine * (board.x / board.y) ** 0.5), round(fine * (board.y / board.x) ** 0.5)
    dx, dy = board.x / nx, board.y / ny
    middle_x, middle_y = (np.arange(nx) + 0.5) * dx, (np.arange(ny) + 0.5) * dy
    there = np.ones((ny, nx), dtype=bool)
    for hole in openings:
        there &= np.hypot(middle_x[None, :] - hole.x, middle_y[:, None] - hole.y) >= hole.radius
    stiffness, load = _make_element(dx, dy, board)
    rows, columns = np.nonzero(there)
    lower = rows * (nx + 1) + columns
    nodes = np.stack([lower, lower + 1, lower + nx + 2, lower + nx + 1], axis=1)
    freedoms = (3 * nodes[:, :, None] + np.arange(3)).reshape(len(nodes), 12)
    size = 3 * (nx + 1) * (ny + 1)
    matrix = sparse.csr_matrix(
        (
            np.tile(stiffness.ravel(), len(nodes)),
            (np.repeat(freedoms, 12, axis=1).ravel(), np.tile(freedoms, 12).ravel()),
        ),
        shape=(size, size),
    )
    for beam in beams:
        matrix = matrix + _stiffen(beam, (nx, ny), (dx, dy), size)
    force = np.zeros(size)
    np.add.at(force, freedoms.ravel(), np.tile(pressure * load, len(nodes)))
    count = np.zeros((ny + 1, nx + 1), dtype=int)
    for up, over in ((0, 0), (0, 1), (1, 0), (1, 1)):
        count[up : ny + up, over : nx + over] += there
    at_x, at_y = np.meshgrid(np.arange(nx + 1) * dx, np.arange(ny + 1) * dy)
    inside = np.zeros_like(count, dtype=bool)
    inside[1:-1, 1:-1] = True
    for hole in openings:
        near = np.abs(np.hypot(at_x - hole.x, at_y - hole.y) - hole.radius) < 1.5 * max(dx, dy)
        rim = np.nonzero((inside & near & (count > 0) & (count < 4)).ravel())[0]
        gone = np.hypot(middle_x[None, :] - hole.x, middle_y[:, None] - hole.y) < hole.radius
        force[3 * rim] += (pressure * gone.sum() * dx * dy + hole.weight) / len(rim)
    index = np.arange((nx + 1) * (ny + 1)).reshape(ny + 1, nx + 1)
    fixed = set((3 * np.concatenate([index[0], index[-1], index[:, 0], index[:, -1]])).tolist())
    fixed |= set((3 * np.concatenate([index[0], index[-1]]) + 1).tolist())
    fixed |= set((3 * np.concatenate([index[:, 0], index[:, -1]]) + 2).tolist())
    if held:
        fixed |= set((3 * np.concatenate([index[0], index[-1]]) + 2).tolist())
        fixed |= set((3 * np.concatenate([index[:, 0], index[:, -1]]) + 1).tolist())
    unused = np.nonzero(count.ravel() == 0)[0]
    fixed |= set((3 * unused[:, None] + np.arange(3)).ravel().tolist())
    free = np.setdiff1d(np.arange(size), np.array(sorted(fixed)))
    found = np.zeros(size)
    found[free] = spsolve(matrix[free][:, free].tocsc(), force[free])
    return float(np.abs(found[::3]).max())
