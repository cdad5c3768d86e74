"""An invented sizing with only what the gauge and the record look at, for tests that must not wait for the network."""

from __future__ import annotations

from types import SimpleNamespace as Box
from typing import Any

from calc.finding import Band, Said

INH2O = 249.08891


def make_sizing(clean: float = 0.4, clean_me: float = 1.8, side: str = "pressure", shut_off: float = 11.6) -> Any:
    """Return a stand-in for a Sizing; pressures in inches of water."""
    at = [
        ("planer", 600, 1.0),
        ("table saw", 450, 0.6),
        ("band saw", 450, 0.6),
        ("jointer", 440, 0.58),
        ("drum sander", 550, 0.85),
    ]

    def make(name: str, cfm: float, share: float) -> Any:
        reading = share * clean * INH2O
        flow = cfm * 0.00047194744
        alone = Box(machine=name, flow=Band(0.9 * flow, flow, 1.08 * flow), needs_m3s=0.95 * flow)
        return Box(
            get_machine=lambda machine: alone, name=name, kind="alone", open=(name,),
            flow=Band(0.9 * flow, flow, 1.08 * flow), reading=Band(0.8 * reading, reading, 1.2 * reading),
            reading_clean_me_pa=share * clean_me * INH2O, flow_clean_me_m3s=0.88 * flow, leak_m3s=0.0,
            machines=(alone,),
            ducts=(Box(place=name, kind="drop", speed=Band(18.0, 20.0, 22.0), limit_ms=20.0, diameter_m=0.1524),),
        )  # fmt: skip

    scenarios = tuple(make(*row) for row in at)
    clean_box = Box(
        criterion="flow drop", gate="planer", read_at="planer", areal_kgm2=0.2, reading_pa=clean_me * INH2O,
        flow_m3s=0.25, hours_first=120.0, hours_later=95.0, why=Said("loading.never"),
    )  # fmt: skip
    loading = tuple(
        Box(hours=40.0 * i, areal_kgm2=0.07 * i, flow_m3s=0.283 - 0.011 * i,
            reading_pa=(clean + (clean_me - clean) * i / 3) * INH2O)
        for i in range(4)
    )  # fmt: skip
    return Box(
        air=Box(density_kgm3=1.19), scenarios=scenarios, gauge_at="planer", at_gauge=scenarios[0],
        filters=Box(clean_me=clean_box, loading=loading, clean_loss=Band(80.0, 100.0, 120.0)),
        pressures=Box(box_running_pa=500.0, box_worst_pa=shut_off * INH2O, duct_suction_pa=2800.0, side=side),
        blower=Box(shut_off_pa=shut_off * INH2O), findings=(), judged=(), leakage=Box(share=0.02),
        get_alone=lambda machine: {s.open[0]: s for s in scenarios}[machine],
    )  # fmt: skip


def make_job(project: Any = None, sizing: Any = None, record: Any = None) -> Any:
    """Return a job that can print the gauge's pages and the forms, and no others."""
    from calc.gauges.gauge_design import design_gauge
    from calc.gauges.gauge_parts import make_gauge_parts
    from calc.record.entries import find_baseline
    from packet.job import Job
    from tests.sample import make_project

    project, sizing = project or make_project(), sizing or make_sizing()
    gauge = design_gauge(project, sizing, find_baseline(record))
    design = Box(findings=(), ports=(), flat_parts=make_gauge_parts(project, gauge))
    return Job(project, "sample", "0123456789ab", "0.1.0", {}, (), sizing, gauge, design, None, record)  # type: ignore[arg-type]


def print_pages(job: Any, *sections: str) -> bytes:
    """Return the PDF of some sections."""
    import io

    from packet.pages.kit.document import write_packet

    stream = io.BytesIO()
    write_packet(job, stream, tuple(sections))
    return stream.getvalue()
