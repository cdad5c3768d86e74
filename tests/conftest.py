"""Ends a run with the table of outside checks: in full with ``-m outside`` or ``-v``, else only their count."""

from __future__ import annotations

import os

import pytest
from hypothesis import settings

from tests.outside.check import RECORD, write_table

# The suite tries the same examples everywhere and never judges by the clock.
# HYPOTHESIS_PROFILE=search looks for new ones.
settings.register_profile("suite", derandomize=True, deadline=None, database=None)
settings.register_profile("search", deadline=None)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "suite"))


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    if not RECORD:
        return
    lines = write_table()
    in_full = config.getoption("markexpr") == "outside" or config.get_verbosity() > 0
    terminalreporter.section("checks against the outside")
    for line in lines if in_full else lines[-1:]:
        terminalreporter.write_line(line)
