"""Pictures for the steps, drawn from the design's own sizes, with the parts a step touches standing out.

A step file names its picture as ``kind: focus``, for example ``picture: box: seams``; two pictures are parted by ``;``.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from calc.design import Design, Made
from calc.gauges.gauge_design import GaugeDesign
from calc.project import Aired, Given
from calc.settled import Settled
from packet.draw.model import Drawing
from packet.draw.steps.bench import draw_bench
from packet.draw.steps.box import BoxPicture
from packet.draw.steps.ducts import DuctTree
from packet.draw.steps.rings import RingSection, draw_hole, draw_lid, draw_pail
from packet.draw.steps.scene import Scene
from packet.draw.steps.small import draw_joint, draw_room, draw_tube

WIDE_MM, TALL_MM = 46.0, 20.0
"""Room for a picture beside a step, in millimetres on paper; where the words beside it are taller, so may it be."""
MOST_KEPT = 6  # pictures drawn last: enough for the card that is being laid out
BARE = 1e6
"""At so large a scale the paper margins and the words vanish: what is left is the thing itself."""

RING_KINDS = ("pail", "hole", "collar", "lid on ring")
BOX_KINDS = ("box", "scene", "bench", "joint", "room")
KINDS = (*RING_KINDS, *BOX_KINDS, "lid", "ducts", "gauge", "other gauge")
"""What pictures there are, by the word before the colon."""

Make = Callable[[float], Drawing]


@dataclass(frozen=True)
class Picture:
    """A drawing and its scale [mm on paper per real mm]."""

    drawing: Drawing
    scale: float

    @property
    def wide_mm(self) -> float:
        """Return its width on paper."""
        return self.drawing.bounds.width * self.scale

    @property
    def tall_mm(self) -> float:
        """Return its height on paper."""
        return self.drawing.bounds.height * self.scale


class StepPictures:
    """Draws pictures by the key in the step files. Each is fitted into its room.

    language: of the names; read_at: the machine whose gate stands open
    """

    def __init__(
        self, project: Given, design: Made, language: str, gauge: GaugeDesign | None, read_at: str = ""
    ) -> None:
        self.project, self.design, self.language, self.gauge = project, design, language, gauge
        self.read_at = read_at or (gauge.read_at if gauge else "")
        self.margins: dict[str, Margins] = {}
        self.drawn: dict[tuple[str, float, float], Picture] = {}

    def has(self, key: str) -> bool:
        """Tell whether this project has what a picture shows. Raises KeyError for a key there is not."""
        return self._choose(*_part_key(key)) is not None

    def draw(self, key: str, wide_mm: float = WIDE_MM, tall_mm: float = TALL_MM) -> Picture:
        """Return the picture of that key. Raises KeyError for a key there is not, or a part the project has not got."""
        room = (key, wide_mm, round(tall_mm, 1))  # a card that is broken over pages is laid out many times
        if room not in self.drawn:
            make = self._choose(*_part_key(key))
            if make is None:
                raise KeyError(key)
            if key not in self.margins:
                self.margins[key] = _measure_margins(make)
            if len(self.drawn) >= MOST_KEPT:
                self.drawn.clear()
            self.drawn[room] = _fit(make, self.margins[key], wide_mm, room[2])
        return self.drawn[room]

    def _choose(self, kind: str, focus: str) -> Make | None:
        design, language = self.design, self.language
        if kind not in KINDS:
            raise KeyError(kind)
        if kind == "lid":
            part = next((each for each in design.flat_parts if each.kind == focus), None)
            return None if part is None else lambda scale: draw_lid(part, language, scale)
        if kind in RING_KINDS:
            return self._choose_ring(kind, focus)
        return self._choose_box(kind, focus) if kind in BOX_KINDS else self._choose_air(kind, focus)

    def _choose_ring(self, kind: str, focus: str) -> Make | None:
        """Return what draws a pail, its hole or its ring: of a filter's opening, else of the first."""
        project, design, language, panel = self.project, self.design, self.language, self.project.board
        if panel is None or not design.ports:
            return None
        port = next((port for port in design.ports if port.port.kind == "filter"), design.ports[0])
        parts = tuple(word.strip() for word in focus.split(","))
        makes: dict[str, Make] = {
            "pail": lambda scale: draw_pail(panel, port, language, focus, scale),
            "hole": lambda scale: draw_hole(port, language, focus, scale),
            "collar": lambda scale: RingSection(panel, design, port, language, parts, scale).draw(),
        }
        if project.filters and project.find_filter(port.port) is not None:
            cartridge = project.find_filter(port.port)
            makes["lid on ring"] = lambda scale: RingSection(panel, design, port, language, parts, scale).draw(
                cartridge
            )
        return makes.get(kind)

    def _choose_box(self, kind: str, focus: str) -> Make | None:
        project, design, language = self.project, self.design, self.language
        if not (isinstance(project, Settled) and isinstance(design, Design)):
            return None
        if kind == "joint" and project.box.joint == "butt":
            return None
        if kind == "box" and focus == "cart" and project.box.hung != "cart":
            return None
        makes: dict[str, Make] = {
            "box": lambda scale: BoxPicture(project, design, scale).draw(focus),
            "scene": lambda scale: Scene(project, design, language, scale).draw(focus),
            "bench": lambda scale: draw_bench(project, design, focus, scale),
            "joint": lambda scale: draw_joint(project, design, language, scale),
            "room": lambda scale: draw_room(project, design, language, focus, scale),
        }
        return makes[kind]

    def _choose_air(self, kind: str, focus: str) -> Make | None:
        project, language, gauge = self.project, self.language, self.gauge
        if kind == "other gauge":
            if gauge is None or len(gauge.boards) < 2:
                return None
            return lambda scale: draw_tube(gauge.other.instrument.kind, language, focus, scale)
        if kind == "gauge":
            if gauge is None:
                return None
            return lambda scale: draw_tube(gauge.finest.instrument.kind, language, focus, scale)
        if not isinstance(project, Aired) or not project.runs:
            return None
        return lambda scale: DuctTree(project, language, focus, self.read_at, scale).draw()


def _part_key(key: str) -> tuple[str, str]:
    kind, _, focus = (word.strip() for word in key.partition(":"))
    return kind, focus


@dataclass(frozen=True)
class Margins:
    """A picture's size [mm] without names and numbers, and the paper [mm] that those take at any scale."""

    wide_mm: float
    tall_mm: float
    across_mm: float
    down_mm: float


def _measure_margins(make: Make) -> Margins:
    bare, one = make(BARE).bounds, make(1.0).bounds
    return Margins(bare.width, bare.height, one.width - bare.width, one.height - bare.height)


def _fit(make: Make, margins: Margins, wide_mm: float, tall_mm: float) -> Picture:
    """Return a picture as large as its room lets it be: what it shows grows, its paper margins stay."""
    scale = min((wide_mm - margins.across_mm) / margins.wide_mm, (tall_mm - margins.down_mm) / margins.tall_mm)
    return Picture(make(scale), scale)
