"""README says what is so: its pictures, commands, sections, samples, files and counts."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
from PIL import Image

from packet.cli.usage import make_parser
from packet.disk.carry import OUTPUT_FILES, OUTPUT_FOLDERS
from packet.fields.questions import ASKED, STARTS
from packet.fields.shop import PAPERS
from packet.pages.kit.sections import SECTION_NAMES
from tests.bench.gallery import PICTURES, make_gallery

TOP = Path(__file__).parents[1]
README = (TOP / "README.md").read_text(encoding="utf-8")
FLAT = " ".join(README.split())


def test_every_picture_named_is_there_and_together_they_are_small() -> None:
    named = set(re.findall(r"\((projects/gallery/[a-z-]+\.png)\)", README))
    assert named == {f"projects/gallery/{picture.name}.png" for picture in PICTURES}
    assert named == {path.relative_to(TOP).as_posix() for path in (TOP / "projects" / "gallery").iterdir()}
    assert sum((TOP / name).stat().st_size for name in named) < 1_500_000
    for name in named:
        with Image.open(TOP / name) as image:
            image.load()
            assert image.width >= 600


def test_the_gallery_can_be_made_and_no_picture_is_blank(tmp_path: Path) -> None:
    for path in make_gallery(tmp_path):
        with Image.open(path) as image:
            inked = sum(image.convert("L").histogram()[:128]) / (image.width * image.height)
        assert 0.005 < inked < 0.5, path.name


def test_every_link_to_a_file_leads_to_one() -> None:
    for link in re.findall(r"\]\(([^)]+)\)", README):
        assert (TOP / link).exists(), link


def test_every_command_shown_can_be_asked_for() -> None:
    shown = re.findall(r"`\.venv/bin/collector-packet ([^`>]+)", FLAT)
    assert len(shown) >= 5
    for command in shown:
        asked = make_parser().parse_args(shlex.split(command))
        assert asked.command


@pytest.mark.parametrize("option", re.findall(r"`(--[a-z]+)", README))
def test_every_option_named_is_one(option: str) -> None:
    helps = "".join(parser.format_help() for parser in find_commands().values())
    assert option in helps


def find_commands() -> dict[str, object]:
    (commands,) = (action for action in make_parser()._actions if action.dest == "command")
    assert isinstance(commands.choices, dict)
    return dict(commands.choices)


def test_counts_and_names_are_those_of_the_program() -> None:
    assert f"asks {len(ASKED)} short questions" in FLAT
    listed = re.search(r"The sections are ([^.]+)\.", FLAT)
    assert listed is not None
    assert tuple(re.split(r", | and ", listed[1])) == SECTION_NAMES
    assert f"({', '.join(PAPERS)})" in FLAT
    assert all(f"`{name}`" in README or f"--from {name}`" in README for name in STARTS)
    assert all(f"`{name}`" in README for name in OUTPUT_FILES)
    assert all(f"`{name}/`" in README for name in OUTPUT_FOLDERS)


def test_every_sample_is_named() -> None:
    for path in (TOP / "projects").glob("*.yaml"):
        assert path.name in README or path.stem.endswith(".as-built"), path.name
