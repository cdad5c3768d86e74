"""One project file in, one packet out: the job, its steps, then every output of the folder."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path

from packet.build.kept_forms import Kept, make_keeper
from packet.build.outputs import OUTPUTS, PARTS, Output, write_only, write_parts_only
from packet.build.side_by_side import run_side_by_side
from packet.disk.write import check_target, name_folder, refuse_mount, stage_outputs, write_whole
from packet.job import AnyJob, Progress, make_job, say_nothing
from packet.reading.display_asked import AS_THE_FILE, Asked


@dataclass(frozen=True)
class Built:
    """files: what was written, relative to out, sorted; job: what they were written from.

    kept: old forms beside the new ones that hold what the log does not
    """

    out: Path
    files: tuple[str, ...]
    job: AnyJob
    kept: tuple[Kept, ...] = ()


def build_packet(
    path: Path,
    out: Path | None = None,
    only: tuple[str, ...] | None = None,
    progress: Progress = say_nothing,
    asked: Asked = AS_THE_FILE,
) -> Built:
    """Build all outputs of a project file into a folder, whole or not at all.

    With `only`, one PDF of some sections, or the parts for machines alone.

    Raises BadProject for faults of the file, BadWords for those of templates/, BadTarget for a folder that must not be
    used, CannotWrite.
    """
    os.environ.pop("SOURCE_DATE_EPOCH", None)  # the PDF library would date files by it, not by the project
    target = check_target(out if out is not None else Path("out") / name_folder(path.stem), path)
    if only is None:
        refuse_mount(target)
    job = make_job(path, progress, asked)
    job.check_words()
    kept: list[Kept] = []
    known = (job.filed or job.project, job.record, kept)
    if only == (PARTS,):
        progress("drawing parts for machines")
        place = target / f"only-{PARTS}"
        with stage_outputs(place) as folder:
            write_parts_only(job, folder)
            files = list_files(folder)
        return Built(place, files, job)
    if only is not None:
        progress("drawing pages")
        name = f"only-{'-'.join(only)}.pdf"
        write_whole(target / name, lambda stream: write_only(job, stream, only), make_keeper(*known, name))
        return Built(target, (name,), job, tuple(kept))
    with stage_outputs(target, make_keeper(*known)) as folder:
        write_outputs(job, folder, progress)
        files = list_files(folder)
    return Built(target, files, job, tuple(kept))


def write_outputs(job: AnyJob, folder: Path, progress: Progress = say_nothing) -> None:
    """Write every output into a folder: the packet here, the others beside it on a second core."""

    def write_all(outputs: tuple[Output, ...], tell: Progress) -> None:
        for output in outputs:
            tell(output.says)
            output.write(job, folder)

    wanted = tuple(output for output in OUTPUTS if output.is_wanted(job))
    progress("planning the work")
    _ = job.plan, job.findings, job.review  # both sides need them: worked out once, before the process is copied
    run_side_by_side(
        here=lambda: write_all(wanted[:1], progress),
        beside=lambda: write_all(wanted[1:], say_nothing),
    )


def list_files(folder: Path) -> tuple[str, ...]:
    """Return all files below a folder as relative names, sorted, main files first."""
    found = [Path(root, name).relative_to(folder).as_posix() for root, _, names in os.walk(folder) for name in names]
    return tuple(sorted(found, key=lambda name: (name.count("/"), name)))
