"""The names of the facts that word files may put in, by the part of a job that brings them.

A test holds them against the facts of a whole shop: a word file that needs no part names only what every job has.
"""

from __future__ import annotations

from collections.abc import Mapping

from packet.parts import Part

FACT_NAMES: Mapping[Part | None, tuple[str, ...]] = {
    None: (
        "options", "check_rule", "check_within", "blow", "respirator", "title", "drawn_by", "revision", "metric",
        "length", "near", "exact", "slack", "empty_at", "ports", "paper", "gauge_boards",
    ),
    "pails": (
        "bead", "bit", "fitting_hole", "gasket_thick", "hook_edge", "hook_hole", "hooks", "lid_land", "lid_opening",
        "panel_mm", "panel_stock", "panel_thick", "rib_relief", "ring_gasket", "ring_screw_length", "ring_screws",
    ),
    "box": (
        "blower_on_cart", "blower_weight", "box_inside", "box_outside", "box_weight", "cart_screws", "caster_load",
        "caster_screw_length", "caster_screws", "cleat_screws", "face_apart", "face_gasket", "face_screws",
        "filter_full", "filter_height", "filter_weight", "fixed_cleat_screws", "floor_gap", "hang_fasteners",
        "hanging", "holed", "inlet_face", "inlet_hole", "inlet_place", "joint_screws", "jointed", "lift",
        "lift_limit", "lift_people", "lining_holes", "lining_pieces", "lining_stock", "lining_thick", "pail_full",
        "panels", "rail_apart", "rail_over", "rail_screw_sizes", "rail_screws", "removable", "rib_screws",
        "screw_apart", "screw_length", "seams", "sheet_size", "sheet_trim", "sheets_bought", "tip", "tip_pull",
        "tip_third", "total_weight", "underside", "unscrew_drop", "washers_apart", "wheelbase", "wheels",
    ),
    "air": (
        "air_share", "altitude", "clean_first", "delivery", "draught_fine", "draught_most", "flexible",
        "flue_limit", "gauge_clean", "gauge_clean_me", "gauge_gate", "gauge_halfway", "gauge_high", "gauge_logged",
        "gauge_low", "gauge_marked", "gauge_rise", "gauge_rises", "high", "link", "machines", "make_up_opening",
        "most_flow", "most_open", "noise_alone", "noise_hours", "noise_known", "noise_least", "noise_level",
        "noise_most", "noise_niosh", "noise_osha", "noise_others", "runs", "worst", "wyes",
    ),
    "gauge": (
        "fluid_is_water", "gauge_fill", "gauge_fine", "gauge_fluid", "gauge_mark_clean", "gauge_mark_clean_me",
        "gauge_other", "gauge_slope", "gauge_tells", "gauge_too_high", "too_high_mark", "too_high_shown",
    ),
}  # fmt: skip


def list_fact_names() -> tuple[str, ...]:
    """Return the names of all facts there are."""
    return tuple(name for names in FACT_NAMES.values() for name in names)
