"""Findings as text for a terminal and as JSON for programs."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from typing import Any

from calc.finding import Amount, Finding, Said, Verdict
from calc.measures.quantity import Reader
from packet.words.visible import make_visible

HEADS = ("verdict", "what", "value", "limit", "margin")
NARROWEST_WHAT = 18


def count_verdicts(findings: Sequence[Finding]) -> str:
    """Return '3 fit, 1 tight, 2 do not fit'."""
    counts = {verdict: sum(f.verdict is verdict for f in findings) for verdict in Verdict}
    said = [f"{counts[Verdict.FITS]} fit"]
    if counts[Verdict.TIGHT]:
        said.append(f"{counts[Verdict.TIGHT]} tight")
    said.append(f"{counts[Verdict.DOES_NOT_FIT]} do{'es' * (counts[Verdict.DOES_NOT_FIT] == 1)} not fit")
    return ", ".join(said)


def write_value(amount: Amount | None, reader: Reader) -> str:
    from packet.words.say import write

    return "" if amount is None else write(amount, reader)


def write_limit(finding: Finding, reader: Reader) -> str:
    limit = write_value(finding.limit, reader)
    return f"{finding.sense} {limit}" if limit else ""


def write_table(findings: Sequence[Finding], reader: Reader, width: int, *, whole: bool = False) -> str:
    """Return the findings as a table fitted to the terminal, worst last, where the eye is when it has run through.

    Alike findings are one row, the nearest to its limit, with a list. Below a bad one why, and what mends it.
    whole: with what fits
    """
    order = [Verdict.FITS, Verdict.TIGHT, Verdict.DOES_NOT_FIT]
    shown = [finding for finding in findings if whole or finding.verdict is not Verdict.FITS]
    groups = sorted(group_alike(shown), key=lambda group: order.index(group[0].verdict))
    if not groups:
        return "Everything that was looked at fits."
    cells = [write_row(group[0], reader) for group in groups]
    widths = [max(len(row[i]) for row in [HEADS, *cells]) for i in range(5)]
    widths[1] = max(NARROWEST_WHAT, min(widths[1], width - sum(widths[:1] + widths[2:]) - 8))
    lines = [lay_row(HEADS, widths), lay_row(tuple("-" * w for w in widths), widths)]
    for group, row in zip(groups, cells, strict=True):
        lines.append(lay_row(row, widths))
        for text in map(make_visible, write_below(group, reader)):
            lines += textwrap.wrap(text, max(30, width - 1), initial_indent="    ", subsequent_indent="    ")
    return "\n".join(lines)


def group_alike(findings: Sequence[Finding]) -> list[tuple[Finding, ...]]:
    """Return findings that say the same of several things together, the one nearest to its limit first."""
    groups: dict[tuple[object, ...], list[Finding]] = {}
    for finding in findings:
        groups.setdefault((finding.verdict, finding.topic, finding.what.phrase, finding.why.phrase), []).append(finding)
    nearest = [sorted(group, key=lambda f: 0.0 if f.margin is None else f.margin) for group in groups.values()]
    return [tuple(group) for group in nearest]


def write_below(group: Sequence[Finding], reader: Reader) -> list[str]:
    """Return what stands below a row: the things that are alike; of a bad one its band, why and what mends it."""
    from packet.words.say import say

    worst, *others = group
    said = []
    if others:
        said.append("also " + "; ".join(write_other(finding, worst, reader) for finding in others))
    if worst.verdict is not Verdict.FITS:
        mends = [say(mend, reader) for mend in worst.mends[:3]]
        mends += [text for finding in others for text in [say(mend, reader) for mend in finding.mends[:1]]]
        said += [*write_band(worst, reader), say(worst.why, reader), *say_leans(group, reader)]
        said += [f"mend: {text}" for text in dict.fromkeys(mends)]
    return said


def write_other(finding: Finding, worst: Finding, reader: Reader) -> str:
    """Return what a finding names otherwise than the one it is listed with, and its value and limit."""
    named, there = list_names(finding.what, reader), list_names(worst.what, reader)
    names = [text for key, text in named.items() if text != there.get(key)]
    value, limit = write_value(finding.value, reader), write_limit(finding, reader)
    if limit == write_limit(worst, reader):
        limit = ""
    from packet.words.say import say

    return " ".join(filter(None, (", ".join(names) or say(finding.what, reader), value, limit and f"({limit})")))


def list_names(said: Said, reader: Reader) -> dict[str, str]:
    """Return the names and parts of a sentence as text, by the place they stand in."""
    from packet.words.say import say

    return {key: part if isinstance(part, str) else say(part, reader) for key, part in said.names.items()}


def say_leans(findings: Sequence[Finding], reader: Reader) -> list[str]:
    """Return the sentence that names what alike findings lean on and nobody measured, if anything."""
    from packet.words.guesses import list_things
    from packet.words.phrases import take_words

    things = ", ".join(list_things(list(dict.fromkeys(path for finding in findings for path in finding.leans))))
    words = take_words("assumed", reader.language)
    return [words("leans", things=things)] if things else []


def write_band(finding: Finding, reader: Reader) -> list[str]:
    """Return between what the value may lie, where that is not one number: a verdict looks at both ends."""
    low, high = write_value(finding.low, reader), write_value(finding.high, reader)
    if not low or not high or low == high:
        return []
    return [f"It may lie between {low} and {high}; the verdict looks at both ends."]


def write_row(finding: Finding, reader: Reader) -> tuple[str, ...]:
    """Return verdict, what, value, limit and margin as text; what does not fit is in capitals."""
    from packet.words.say import say

    verdict = finding.verdict.value
    return (
        verdict.upper() if finding.verdict is Verdict.DOES_NOT_FIT else verdict,
        make_visible(say(finding.what, reader)),
        write_value(finding.value, reader),
        write_limit(finding, reader),
        write_margin(finding),
    )


def write_margin(finding: Finding) -> str:
    """Return the margin in percent, in tenths below 1 %; what a limit is missed by never reads as nothing."""
    if finding.margin is None:
        return ""
    percent = finding.margin * 100
    if abs(percent) >= 0.95:
        return f"{percent:+.0f}%"
    if abs(percent) >= 0.05 or finding.verdict is Verdict.DOES_NOT_FIT:
        return f"{percent:+.1g}%"
    return "+0%"


def lay_row(cells: Sequence[str], widths: Sequence[int]) -> str:
    """Return one row; a long middle cell goes on in further lines."""
    whats = textwrap.wrap(cells[1], widths[1]) or [""]
    first = (cells[0].ljust(widths[0]), whats[0].ljust(widths[1]), cells[2].rjust(widths[2]), cells[3].ljust(widths[3]),
             cells[4].rjust(widths[4]))  # fmt: skip
    indent = " " * (widths[0] + 2)
    return "\n".join(["  ".join(first).rstrip(), *[indent + more for more in whats[1:]]])


def list_findings(findings: Sequence[Finding], reader: Reader) -> list[dict[str, Any]]:
    """Return the findings as plain data: values in base units beside the reader's words."""
    from packet.words.say import say

    return [
        {
            "key": f.key,
            "verdict": f.verdict.value,
            "what": say(f.what, reader),
            "value": write_amount_plain(f.value),
            "low": write_amount_plain(f.low),
            "high": write_amount_plain(f.high),
            "limit": write_amount_plain(f.limit),
            "sense": f.sense,
            "margin": f.margin,
            "shown": {"value": write_value(f.value, reader), "limit": write_value(f.limit, reader)},
            "why": say(f.why, reader),
            "leans_on": list(f.leans),
            "mends": [say(mend, reader) for mend in f.mends],
            "source": f.source,
            "topic": f.topic,
            "subjects": [{"kind": subject.kind, "name": subject.name} for subject in f.subjects],
        }
        for f in findings
    ]


def write_amount_plain(amount: Amount | None) -> dict[str, Any] | None:
    return None if amount is None else {"value": amount.value, "kind": amount.kind}
