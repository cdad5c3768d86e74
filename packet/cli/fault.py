"""Internal errors: one line for the user, the whole report in a file."""

from __future__ import annotations

import os
import platform
import tempfile
import traceback
from collections.abc import Sequence

from packet.version import VERSION

WHOLE = "Every file is whole, the old one or the new one."


def report_fault(error: BaseException, arguments: Sequence[str]) -> str:
    """Save a report of an internal error and return the one line that says so."""
    what = type(error).__name__
    report = "\n".join([
        f"collector-packet {VERSION}, Python {platform.python_version()}, {platform.system()}",
        f"asked: {' '.join(arguments)}",
        "",
        "".join(traceback.format_exception(error)),
    ])  # fmt: skip
    try:
        handle, name = tempfile.mkstemp(prefix="collector-packet-fault-", suffix=".txt")
        with os.fdopen(handle, "w", encoding="utf-8", errors="backslashreplace") as stream:
            stream.write(report)
    except OSError:
        return f"collector-packet: internal error ({what}); no report could be saved. {WHOLE}"
    return f"collector-packet: internal error ({what}); report saved in {name}. {WHOLE}"
