"""Finished outputs to read: of the samples and of made-up projects, each built once in a run of the tests."""

from __future__ import annotations

import random
import tempfile
from functools import cache
from pathlib import Path

from packet.build.check import describe_check
from packet.build.outputs import OUTPUTS
from packet.job import Job, make_job, work_out_job
from packet.reading.load import read_project
from tests.packet.hostile import PROJECTS
from tests.shop import load_job, write_whole
from tests.story.make_project import make_project
from tests.story.outputs import Outputs, read_outputs


@cache
def build_sample(name: str) -> Outputs:
    """Return a sample's outputs, its as-built log taken in where it has one."""
    if (PROJECTS / f"{name}.as-built.yaml").exists():
        return build(make_job(PROJECTS / f"{name}.yaml"), name)
    return build(load_job(name), name, write_whole(name)[0])


@cache
def build_made(seed: int) -> Outputs:
    """Return the outputs of a made-up project. Raises BadProject when it cannot be read."""
    text = make_project(random.Random(seed))
    name = f"made-{seed}"
    return build(work_out_job(read_project(text.encode("utf-8"), f"{name}.yaml"), Path(f"{name}.yaml")), name)


def build(job: Job, name: str, packet: bytes | None = None) -> Outputs:
    """Write all outputs of a job but the large sheets, and read them back.

    packet: the PDF where it is written already
    """
    with tempfile.TemporaryDirectory() as top:
        folder = Path(top) / name
        folder.mkdir()
        for output in OUTPUTS:
            if output.says == "drawing large sheets" or (packet is not None and output.says == "drawing pages"):
                continue
            output.write(job, folder)
        if packet is not None:
            (folder / "packet.pdf").write_bytes(packet)
        return read_outputs(folder, describe_check(job))
