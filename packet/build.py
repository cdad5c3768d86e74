"""One project file in, one packet out: load, settle, size, design, bill, steps, then every output of the folder."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from packet.display_asked import AS_THE_FILE, Asked, apply_asked, tell_asked
from packet.job import Job
from packet.kept_forms import Kept, make_keeper
from packet.load import Loaded, load_project
from packet.outputs import ONLY_PACKET, OUTPUTS, Output
from packet.side_by_side import run_side_by_side
from packet.version import VERSION
from packet.write import check_target, name_folder, refuse_mount, stage_outputs, write_whole

Progress = Callable[[str], None]


@dataclass(frozen=True)
class Built:
    """files: what was written, relative to out, sorted; job: what they were written from; loaded: the file as read.

    kept: old forms beside the new ones that hold what the log does not
    """

    out: Path
    files: tuple[str, ...]
    job: Job
    loaded: Loaded
    kept: tuple[Kept, ...] = ()


def say_nothing(_: str) -> None:
    """Progress for who does not want it."""


def make_job(path: Path, progress: Progress = say_nothing, asked: Asked = AS_THE_FILE) -> tuple[Job, Loaded]:
    """Return everything computed from a project file. Raises BadProject. Nothing is written."""
    from calc.geometry.box import settle_box
    from calc.geometry.design import add_parts, design_project
    from calc.geometry.gauge_parts import make_gauge_parts
    from calc.sizing import size_project
    from packet.bill import make_bill
    from packet.bill_names import add_doubts
    from packet.reading.no_balance import refuse_no_balance
    from packet.record_log import load_record

    progress("reading the project")
    loaded = load_project(path)
    progress("sizing")
    project = settle_box(apply_asked(loaded.project, asked))
    with refuse_no_balance(loaded, str(path)):
        sizing = size_project(project)
    progress("designing the box and its parts")
    design = add_parts(design_project(project, sizing), make_gauge_parts(project, sizing))
    bill = make_bill(project, sizing, design)
    loaded = add_doubts(loaded, bill, str(path))
    job = Job(
        project=project,
        stem=path.stem,
        digest=loaded.digest,
        version=VERSION,
        echo=loaded.echo,
        warnings=loaded.warnings,
        sizing=sizing,
        design=design,
        bill=bill,
        record=load_record(path),
        asked=tell_asked(loaded.project, asked),
    )
    return job, loaded


def build_packet(
    path: Path,
    out: Path | None = None,
    only: tuple[str, ...] | None = None,
    progress: Progress = say_nothing,
    asked: Asked = AS_THE_FILE,
) -> Built:
    """Build all outputs of a project file into a folder, whole or not at all; with `only`, one PDF of some sections.

    Raises BadProject for faults of the file, BadTarget for a folder that must not be used, CannotWrite.
    """
    os.environ.pop("SOURCE_DATE_EPOCH", None)  # the PDF library would date files by it, not by the project
    target = check_target(out if out is not None else Path("out") / name_folder(path.stem), path)
    if only is None:
        refuse_mount(target)
    job, loaded = make_job(path, progress, asked)
    kept: list[Kept] = []
    known = (loaded.project, job.record, kept)
    if only is not None:
        progress("drawing pages")
        name = f"only-{'-'.join(only)}.pdf"
        write_whole(target / name, lambda stream: ONLY_PACKET(job, stream, only), make_keeper(*known, name))
        return Built(target, (name,), job, loaded, tuple(kept))
    with stage_outputs(target, make_keeper(*known)) as staging:
        write_outputs(job, staging.folder, progress)
        files = list_files(staging.folder)
    return Built(target, files, job, loaded, tuple(kept))


def write_outputs(job: Job, folder: Path, progress: Progress = say_nothing) -> None:
    """Write every output into a folder: the packet here, the others beside it on a second core."""

    def write_all(outputs: tuple[Output, ...], tell: Progress) -> None:
        for output in outputs:
            tell(output.says)
            output.write(job, folder)

    progress("planning the work")
    _ = job.plan, job.findings, job.review  # both sides need them: worked out once, before the process is copied
    run_side_by_side(
        here=lambda: write_all(OUTPUTS[:1], progress),
        beside=lambda: write_all(OUTPUTS[1:], say_nothing),
    )


def list_files(folder: Path) -> tuple[str, ...]:
    """Return all files below a folder as relative names, sorted, main files first."""
    found = [Path(root, name).relative_to(folder).as_posix() for root, _, names in os.walk(folder) for name in names]
    return tuple(sorted(found, key=lambda name: (name.count("/"), name)))
