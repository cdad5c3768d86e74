"""Ends a run with the table of outside checks: in full with ``-m outside`` or ``-v``, else only their count by kind.

A whole run, of all tests or of all that are ``outside``, fails where README tells other counts.
"""

from __future__ import annotations

import os
from dataclasses import asdict
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings

from tests.outside.check import RECORD, Held, count_kinds, write_table

# The suite tries the same examples everywhere and never judges by the clock.
# HYPOTHESIS_PROFILE=search looks for new ones.
settings.register_profile("suite", derandomize=True, deadline=None, database=None)
settings.register_profile("search", deadline=None)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "suite"))


README = Path(__file__).parents[1] / "README.md"


def is_whole(config: pytest.Config) -> bool:
    """Tell whether a run asks for every outside check there is."""
    paths = config.args_source != pytest.Config.ArgsSource.TESTPATHS
    picked = config.option.keyword or config.option.deselect or config.option.collectonly
    return not paths and not picked and config.option.markexpr in ("", "outside")


def is_told() -> bool:
    """Tell whether README tells how many checks of each kind ran."""
    return count_kinds() in " ".join(README.read_text(encoding="utf-8").split())


@pytest.hookimpl(optionalhook=True)
def pytest_testnodedown(node: Any) -> None:
    """Take over what one of several processes held against the outside."""
    RECORD.extend(Held(**row) for row in getattr(node, "workeroutput", {}).get("held", ()))


def pytest_sessionfinish(session: pytest.Session, exitstatus: int) -> None:
    output = getattr(session.config, "workeroutput", None)
    if output is not None:  # one of several processes: the first of them tells
        output["held"] = [asdict(held) for held in RECORD]
        return
    if exitstatus == pytest.ExitCode.OK and is_whole(session.config) and not is_told():
        session.exitstatus = pytest.ExitCode.TESTS_FAILED


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    if not RECORD:
        return
    lines = write_table()
    in_full = config.getoption("markexpr") == "outside" or config.get_verbosity() > 0
    terminalreporter.section("checks against the outside")
    for line in lines if in_full else lines[-1:]:
        terminalreporter.write_line(line)
    if is_whole(config) and not is_told():
        terminalreporter.write_line(f"README.md does not tell what ran: {count_kinds()}", red=True)
