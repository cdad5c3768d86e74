"""Make the pictures of real pages that README shows: python -m tests.bench.gallery [folder].

The pages are those of projects/boatshed.yaml as it builds today; run it again whenever a page's looks have changed.
"""

from __future__ import annotations

import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path

import pypdfium2

from packet.disk.write import write_whole
from packet.job import make_job
from packet.pages.helper import write_helper_pdf
from packet.pages.packet_pages import write_packet

TOP = Path(__file__).parents[2]
PROJECT = TOP / "projects" / "boatshed.yaml"
GALLERY = TOP / "projects" / "gallery"
WIDTH_PX = 620
GREYS = 16  # pages are black on white with few greys


@dataclass(frozen=True)
class Picture:
    """name: of the file; section: whose page it is (``helper.pdf``: of that file); holds: words on the page wanted."""

    name: str
    section: str
    holds: str = ""


PICTURES = (
    Picture("cover", "cover"),
    Picture("findings", "report"),
    Picture("cut-list", "cuts", "Cut list"),
    Picture("drawings", "drawings", "Exploded view"),
    Picture("steps", "steps", "Drive the rings"),
    Picture("template", "templates", "hole for filter A"),
    Picture("gauge-card", "gauge", "by this tab only"),
    Picture("helper", "helper.pdf"),
)


def find_page(document: pypdfium2.PdfDocument, first: int, last: int, holds: str) -> int:
    """Return the first page of a range that holds the words, or else its first; numbers from 0. Raises LookupError."""
    for number in range(first, last + 1):
        if holds in " ".join(document[number].get_textpage().get_text_bounded().split()):
            return number
    raise LookupError(f"no page from {first + 1} to {last + 1} holds {holds!r}")


def draw_picture(page: pypdfium2.PdfPage, path: Path) -> None:
    """Write a page as a small grey PNG."""
    image = page.render(scale=2 * WIDTH_PX / page.get_width(), grayscale=True).to_pil()
    image = image.resize((WIDTH_PX, round(image.height * WIDTH_PX / image.width)))
    small = image.quantize(GREYS)
    write_whole(path, lambda stream: small.save(stream, format="PNG", optimize=True))


def make_gallery(folder: Path) -> list[Path]:
    """Write every picture and return their files."""
    folder.mkdir(parents=True, exist_ok=True)
    job = make_job(PROJECT)
    made = []
    with tempfile.TemporaryDirectory() as place:
        packet, helper = Path(place) / "packet.pdf", Path(place) / "helper.pdf"
        with packet.open("wb") as stream:
            sections = write_packet(job, stream).sections
        with helper.open("wb") as stream:
            write_helper_pdf(job, stream)
        whole, sheet = pypdfium2.PdfDocument(packet), pypdfium2.PdfDocument(helper)
        for picture in PICTURES:
            first, last = (1, 1) if picture.section == "helper.pdf" else sections[picture.section]
            document = sheet if picture.section == "helper.pdf" else whole
            made.append(folder / f"{picture.name}.png")
            draw_picture(document[find_page(document, first - 1, last - 1, picture.holds)], made[-1])
        whole.close()
        sheet.close()
    return made


if __name__ == "__main__":
    for file in make_gallery(Path(sys.argv[1]) if len(sys.argv) > 1 else GALLERY):
        print(f"{file.stat().st_size / 1000:6.0f} kB  {file}")
