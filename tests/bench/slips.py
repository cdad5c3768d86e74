"""Take each key of every sample out, leave it empty, and put it at each end of what it may be; check each file.

python -m tests.bench.slips [build]. Prints what gives a traceback or loses a number; with build each file is built too.
"""

from __future__ import annotations

import sys
import tempfile
import traceback
from itertools import chain
from pathlib import Path

from packet.build.build import build_packet
from packet.reading.problem import BadProject
from tests.packet.hostile import SAMPLE_FILES
from tests.packet.reading.slips import list_extremes, list_slips, read_plain
from tests.packet.reading.test_slips import check_text


def main(build: bool) -> int:
    tried = failed = 0
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for sample in SAMPLE_FILES:
            data = read_plain(sample)
            for case, text in chain(list_slips(data), list_extremes(data)):
                tried += 1
                try:
                    check_text(text, folder)
                    if build:
                        build_packet(folder / "shop.yaml", folder / "out")
                except BadProject:
                    pass
                except Exception:
                    failed += 1
                    print(sample.stem, case, traceback.format_exc(limit=-2), sep="\n")
    print(f"{tried} files, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main("build" in sys.argv[1:]))
