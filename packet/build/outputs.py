"""The outputs of a build as a table: what each is, who writes it and where. Writers are loaded when they are needed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from typing import Any, BinaryIO

from packet.job import Job

Take = Callable[[Job], tuple[Any, ...]]


@dataclass(frozen=True)
class Output:
    """says: for the progress line; write: writes into the folder."""

    says: str
    write: Callable[[Job, Path], None]


def load_writer(name: str) -> Callable[..., Any]:
    """Return the function of that name, written ``module:function``."""
    module, function = name.split(":")
    found: Callable[..., Any] = getattr(import_module(module), function)
    return found


def take_job(job: Job) -> tuple[Any, ...]:
    """What most writers want: the job."""
    return (job,)


def fill_folder(writer: str) -> Callable[[Job, Path], None]:
    """Return what lets a writer name its own files in the folder."""
    return lambda job, folder: load_writer(writer)(job, folder)


def fill_pdf(writer: str, file: str) -> Callable[[Job, Path], None]:
    """Return what opens a file and lets a writer fill it with pages."""

    def write(job: Job, folder: Path) -> None:
        with (folder / file).open("wb") as stream:
            load_writer(writer)(job, stream)

    return write


def fill_text(writer: str, file: str, take: Take = take_job) -> Callable[[Job, Path], None]:
    """Return what puts a writer's text into a file, as UTF-8 with the line ends it has; take: what the writer wants."""

    def write(job: Job, folder: Path) -> None:
        (folder / file).write_bytes(load_writer(writer)(*take(job)).encode("utf-8"))

    return write


def write_only(job: Job, stream: BinaryIO, only: tuple[str, ...]) -> None:
    """Write one PDF of some sections."""
    load_writer(PAGES)(job, stream, only)


PAGES = "packet.pages.packet_pages:write_packet"
OUTPUTS: tuple[Output, ...] = (
    Output("drawing pages", fill_pdf(PAGES, "packet.pdf")),
    Output("writing the helper's sheet", fill_pdf("packet.pages.helper:write_helper_pdf", "helper.pdf")),
    Output("writing the helper's page", fill_text("packet.files.helper_html:write_helper_html", "helper.html")),
    Output(
        "writing the bill",
        fill_text("packet.files.bill_csv:write_bill_csv", "bill.csv", lambda job: (job.bill_as_sold,)),
    ),
    Output(
        "writing the cut list",
        fill_text("packet.files.cuts_csv:write_cuts_csv", "cuts.csv", lambda job: (job.design, job.reader)),
    ),
    Output("writing the sizing", fill_text("packet.files.sizing_json:write_sizing_json", "sizing.json")),
    Output("drawing parts for machines", fill_folder("packet.files.export:write_parts")),
    Output("drawing large sheets", fill_folder("packet.files.large:write_large")),
)
