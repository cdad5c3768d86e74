"""The outputs of a build: what each is, and the room that writes it. Rooms are loaded when they are needed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from packet.job import Job


@dataclass(frozen=True)
class Output:
    """says: for the progress line; write: writes into the folder."""

    says: str
    write: Callable[[Job, Path], None]


def write_pages(job: Job, folder: Path) -> None:
    from packet.pages.document import write_packet

    with (folder / "packet.pdf").open("wb") as stream:
        write_packet(job, stream)


def write_only(job: Job, file: Path, only: tuple[str, ...]) -> None:
    from packet.pages.document import write_packet

    with file.open("wb") as stream:
        write_packet(job, stream, only)


OUTPUTS: tuple[Output, ...] = (Output("drawing pages", write_pages),)
ONLY_PACKET = write_only
