"""The as-built record: the log beside the project file, and the command that adds to it."""

from __future__ import annotations

from calc.record.entries import Answer, Entry, Record
from packet.record_ask import Recorded, record_asked, record_filled, run_record
from packet.record_log import BadRecord, append_entry, find_log, load_record

__all__ = [
    "Answer", "BadRecord", "Entry", "Record", "Recorded", "append_entry", "find_log", "load_record", "record_asked",
    "record_filled", "run_record",
]  # fmt: skip
