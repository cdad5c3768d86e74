"""The outputs of a build: what each is, and the room that writes it. Rooms are loaded when they are needed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from packet.job import Job


@dataclass(frozen=True)
class Output:
    """says: for the progress line; write: writes into the folder."""

    says: str
    write: Callable[[Job, Path], None]


def write_pages(job: Job, folder: Path) -> None:
    from packet.pages.kit.document import write_packet

    with (folder / "packet.pdf").open("wb") as stream:
        write_packet(job, stream)


def write_only(job: Job, stream: BinaryIO, only: tuple[str, ...]) -> None:
    from packet.pages.kit.document import write_packet

    write_packet(job, stream, only)


def write_bill(job: Job, folder: Path) -> None:
    from packet.files.bill_csv import write_bill_csv

    write_text(folder / "bill.csv", write_bill_csv(job.bill))


def write_cuts(job: Job, folder: Path) -> None:
    from packet.files.cuts_csv import write_cuts_csv

    write_text(folder / "cuts.csv", write_cuts_csv(job.design, job.reader))


def write_sizing(job: Job, folder: Path) -> None:
    from packet.files.sizing_json import write_sizing_json

    write_text(folder / "sizing.json", write_sizing_json(job))


def write_parts(job: Job, folder: Path) -> None:
    from packet.files.export import write_parts as write

    write(job, folder)


def write_large(job: Job, folder: Path) -> None:
    from packet.files.large import write_large as write

    write(job, folder)


def write_helper_page(job: Job, folder: Path) -> None:
    from packet.files.helper_html import write_helper_html

    write_text(folder / "helper.html", write_helper_html(job))


def write_helper_sheet(job: Job, folder: Path) -> None:
    from packet.pages.helper import write_helper_pdf

    with (folder / "helper.pdf").open("wb") as stream:
        write_helper_pdf(job, stream)


def write_text(file: Path, text: str) -> None:
    """Write text as UTF-8 with the line ends it has."""
    file.write_bytes(text.encode("utf-8"))


OUTPUTS: tuple[Output, ...] = (
    Output("drawing pages", write_pages),
    Output("writing the helper's sheet", write_helper_sheet),
    Output("writing the helper's page", write_helper_page),
    Output("writing the bill", write_bill),
    Output("writing the cut list", write_cuts),
    Output("writing the sizing", write_sizing),
    Output("drawing parts for machines", write_parts),
    Output("drawing large sheets", write_large),
)
ONLY_PACKET = write_only
