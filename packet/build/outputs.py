"""The outputs of a build as a table: what each is, who writes it and where. Writers are loaded when they are needed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from typing import Any, BinaryIO

from packet.job import AnyJob
from packet.parts import FILES

Take = Callable[[AnyJob], tuple[Any, ...]]


@dataclass(frozen=True)
class Output:
    """says: for the progress line; write: writes into the folder; name: of the file or folder in it."""

    says: str
    write: Callable[[AnyJob, Path], None]
    name: str

    def is_wanted(self, job: AnyJob) -> bool:
        """Tell whether the job has the parts that this is made of."""
        return FILES[self.name].is_met(job.has)


def load_writer(name: str) -> Callable[..., Any]:
    """Return the function of that name, written ``module:function``."""
    module, function = name.split(":")
    found: Callable[..., Any] = getattr(import_module(module), function)
    return found


def take_job(job: AnyJob) -> tuple[Any, ...]:
    """What most writers want: the job."""
    return (job,)


def fill_folder(writer: str) -> Callable[[AnyJob, Path], None]:
    """Return what lets a writer name its own files in the folder."""
    return lambda job, folder: load_writer(writer)(job, folder)


def fill_pdf(writer: str, file: str) -> Callable[[AnyJob, Path], None]:
    """Return what opens a file and lets a writer fill it with pages."""

    def write(job: AnyJob, folder: Path) -> None:
        with (folder / file).open("wb") as stream:
            load_writer(writer)(job, stream)

    return write


def fill_text(writer: str, file: str, take: Take = take_job) -> Callable[[AnyJob, Path], None]:
    """Return what puts a writer's text into a file, as UTF-8 with the line ends it has; take: what the writer wants."""

    def write(job: AnyJob, folder: Path) -> None:
        (folder / file).write_bytes(load_writer(writer)(*take(job)).encode("utf-8"))

    return write


def write_only(job: AnyJob, stream: BinaryIO, only: tuple[str, ...]) -> None:
    """Write one PDF of some sections."""
    load_writer(PAGES)(job, stream, only)


PAGES = "packet.pages.packet_pages:write_packet"


PARTS = "parts"
"""The name by which the files for machines are asked for alone."""


def write_parts_only(job: AnyJob, folder: Path) -> None:
    """Write the parts for machines into a folder, and nothing else."""
    next(output for output in OUTPUTS if output.name == PARTS).write(job, folder)


def make_pdf(says: str, writer: str, name: str) -> Output:
    """Return an output that is one PDF."""
    return Output(says, fill_pdf(writer, name), name)


def make_text(says: str, writer: str, name: str, take: Take = take_job) -> Output:
    """Return an output that is one file of text."""
    return Output(says, fill_text(writer, name, take), name)


OUTPUTS: tuple[Output, ...] = (
    make_pdf("drawing pages", PAGES, "packet.pdf"),
    make_pdf("writing the helper's sheet", "packet.pages.helper:write_helper_pdf", "helper.pdf"),
    make_text("writing the helper's page", "packet.files.helper_html:write_helper_html", "helper.html"),
    make_text("writing the bill", "packet.files.bill_csv:write_bill_csv", "bill.csv", lambda job: (job.bill_as_sold,)),
    make_text(
        "writing the cut list",
        "packet.files.cuts_csv:write_cuts_csv",
        "cuts.csv",
        lambda job: (job.design, job.reader),
    ),
    make_text("writing the sizing", "packet.files.sizing_json:write_sizing_json", "sizing.json"),
    Output("drawing parts for machines", fill_folder("packet.files.export:write_parts"), "parts"),
    Output("drawing large sheets", fill_folder("packet.files.large:write_large"), "large"),
)
