"""The parts of a job, what each section, step, caution, file and form needs of them, and which lines bring a part.

The one table of needs: a job is put together from what can be made of the parts that its file brings.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, get_args

Part = Literal["pails", "box", "air", "gauge"]
"""pails: openings with their holes and lids; box: what they are in; air: blower, ducts, machines; gauge: its scales."""

PARTS: tuple[Part, ...] = get_args(Part)
WHOLE: frozenset[Part] = frozenset(PARTS)

BROUGHT_BY: Mapping[Part, tuple[str, ...]] = {
    "pails": ("ports",),
    "box": ("filter_box", "filters", "shop"),
    "air": ("blower", "ducts", "machines", "filters"),
    "gauge": ("gauge",),
}
"""The keys of the project file that a part takes, all of them."""


@dataclass(frozen=True)
class Need:
    """all_of: parts that must be there; any_of: one of these too, where there are any."""

    all_of: frozenset[Part] = frozenset()
    any_of: frozenset[Part] = frozenset()

    def is_met(self, has: frozenset[Part]) -> bool:
        """Tell whether a job with these parts has what is needed."""
        return self.all_of <= has and (not self.any_of or bool(self.any_of & has))


def need(*parts: Part) -> Need:
    """Return the need of all of these parts."""
    return Need(all_of=frozenset(parts))


def either(*parts: Part) -> Need:
    """Return the need of one of these parts."""
    return Need(any_of=frozenset(parts))


NOTHING, PAILS, BOX, AIR, GAUGE = Need(), need("pails"), need("box"), need("air"), need("gauge")
SHOP = need("air", "box")
"""What speaks of air and box together."""

SECTIONS: Mapping[str, Need] = {
    "cover": NOTHING,
    "contents": NOTHING,
    "print-check": NOTHING,
    "report": NOTHING,
    "bill": NOTHING,
    "cuts": BOX,
    "drawings": BOX,
    "circles": either("pails", "box"),
    "gauge": GAUGE,
    "steps": NOTHING,
    "cautions": NOTHING,
    "commissioning": SHOP,
    "as-built": SHOP,
    "maintenance": GAUGE,
    "worked": AIR,
    "labels": AIR,
    "templates": either("pails", "gauge"),
}
"""By the section's key."""

FILES: Mapping[str, Need] = {
    "packet.pdf": NOTHING,
    "helper.pdf": NOTHING,
    "helper.html": NOTHING,
    "bill.csv": NOTHING,
    "cuts.csv": BOX,
    "sizing.json": AIR,
    "parts": either("pails", "box", "gauge"),
    "large": either("pails", "box"),
}
"""By the file's or folder's name in the folder of a build."""

STEPS: Mapping[str, Need] = {
    "assemble_box": BOX, "baseline": GAUGE, "bond_ducts": AIR, "build_cart": BOX, "build_gauge": GAUGE,
    "check_gates": AIR, "clean_up": AIR, "clip_filters": BOX, "close_face": BOX, "connect_gauge": GAUGE,
    "connect_inlet": SHOP, "cut_collars": PAILS, "cut_gaskets": PAILS, "cut_holes_cnc": PAILS,
    "cut_holes_hole_saw": PAILS, "cut_holes_jigsaw": PAILS, "cut_holes_router": PAILS, "cut_holes_trammel": PAILS,
    "cut_joints": BOX, "cut_lids_cnc": PAILS, "cut_lids_hand": PAILS, "cut_lining": BOX, "cut_panels": BOX,
    "cut_templates": either("pails", "gauge"), "dress_lids": PAILS, "drill_gauge_lid": PAILS, "dry_fit": PAILS,
    "first_cleaning": SHOP,
    "first_minute": AIR, "fit_gates": AIR, "fit_hanger": BOX, "gather_parts": NOTHING, "hang_filters": BOX,
    "keep_record": SHOP, "leak_test": SHOP, "line_box": BOX, "lock_out": AIR, "mark_collars": PAILS,
    "mark_holes": PAILS, "measure_noise": AIR, "measure_pails": PAILS, "mount_cart": BOX, "mount_ceiling": BOX,
    "mount_parts": BOX, "mount_wall": BOX, "pilot_holes": PAILS, "prepare_ceiling": BOX, "prepare_wall": BOX,
    "read_cautions": NOTHING, "reinforce_holes": PAILS, "rings_on": PAILS, "run_ducts": AIR,
    "seal_collars_gasket": PAILS, "seal_collars_sealant": PAILS, "seal_seams": BOX, "start_up": AIR,
    "test_draught": AIR, "test_spillage": AIR, "trim_flush": PAILS,
}  # fmt: skip
"""By the name of the step's file."""

CAUTIONS: Mapping[str, Need] = {
    "altitude": AIR, "cart_tip": BOX, "dust_lungs": NOTHING, "eyes": NOTHING, "fire": either("air", "box"),
    "first_start": AIR, "flame_room": AIR, "flue_outdoors": AIR, "flue_unsure": AIR, "gauge_fluid": GAUGE,
    "hands_struck": PAILS, "hang_strength": BOX, "hearing": NOTHING, "ladders": either("air", "box"), "lift_box": BOX,
    "lift_filter": BOX, "lift_sheets": BOX, "lockout": AIR, "plastic_duct": AIR, "platform": BOX,
    "power_tools": NOTHING, "scope": NOTHING, "sealants": either("pails", "box"), "sharp_filter": BOX,
    "sharp_metal": AIR, "sharp_plastic": PAILS, "static": AIR, "wiring": either("air", "box"),
}  # fmt: skip
"""By the name of the caution's file."""

TERMS: Mapping[str, Need] = {
    "Air-to-media ratio": AIR, "Baseline": GAUGE, "Blast gate": AIR, "Catch pail": either("pails", "box"),
    "Clean me": GAUGE, "Collar": PAILS, "Cyclone": AIR, "Hold point": NOTHING, "Hook clip": BOX, "Index mark": PAILS,
    "Land": PAILS, "Media": either("air", "box"), "Plenum": BOX, "Ring": PAILS, "Sneak up": PAILS,
    "Static pressure": either("air", "gauge"), "Transport velocity": AIR, "Velocity pressure": AIR,
}  # fmt: skip
"""Terms of the glossary, by their place in the list of the top language; a language lists the same ones."""
