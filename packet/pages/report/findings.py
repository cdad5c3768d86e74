"""Every finding with its value, limit and margin: what does not fit first, then what is tight, then the rest."""

from __future__ import annotations

import math
from typing import Any, get_args

from calc.finding import Finding, Topic, Verdict
from calc.measures.quantity import Reader
from calc.sizing.remedies import MOST_TREATED
from packet.job import AnyJob
from packet.pages.kit.kit import Kit
from packet.words.amounts import Sources, limit_of, margin_of, value_of
from packet.words.findings import say_leans
from packet.words.guesses import list_things
from packet.words.phrases import Phrases, take_words
from packet.words.say import say, write

FITTING = ("subject", "nearest", "value", "limit", "margin", "source")
ORDER = (Verdict.DOES_NOT_FIT, Verdict.TIGHT, Verdict.FITS)


def count_verdicts(findings: tuple[Finding, ...]) -> dict[Verdict, int]:
    """Return how many findings there are of each verdict."""
    return {verdict: sum(1 for f in findings if f.verdict is verdict) for verdict in ORDER}


def say_counts(findings: tuple[Finding, ...], reader: Reader) -> str:
    """Return one sentence on how many things were looked at and how they came out."""
    words, counts = take_words("report_findings", reader.language), count_verdicts(findings)
    if not findings:
        return words("counts_none")
    parts = []
    for verdict, count in counts.items():
        number = "one" if count == 1 else "many"
        if count:
            parts.append(words(f"count_{name_verdict(verdict)}_{number}", count=count))
    return words("counts", count=len(findings), parts=", ".join(parts))


def make_blocks(job: AnyJob, kit: Kit) -> list[Any]:
    """Return the findings as two tables: those that need attention in full, those that fit in short."""
    words, sources = take_words("report_findings", kit.reader.language), Sources()
    open_ = [f for verdict in ORDER[:2] for f in job.findings if f.verdict is verdict]
    closed = [f for f in job.findings if f.verdict is Verdict.FITS]
    blocks: list[Any] = [
        kit.heading(words("title"), 2),
        kit.text(words(f"verdict_{name_verdict(job.verdict)}"), "strong"),
        kit.text(say_counts(job.findings, kit.reader)),
    ]
    if open_:
        rows: list[list[Any]] = [[words(f"open_{name}") for name in ("verdict", "what", "numbers", "mends")]]
        rows += [_tell_in_full(f, job, kit, words, sources) for f in open_]
        mark = 26 if open_[0].verdict is Verdict.DOES_NOT_FIT else 15
        blocks.append(kit.table(rows, (mark, 91 - mark, 34, 57), size=8.6))
    if closed:
        blocks += _list_fitting(closed, kit, words, sources)
    if sources.listed():
        blocks.append(kit.text(words("sources", sources=sources.listed()), "fine"))
    blocks += _list_warnings(job, kit, words)
    return blocks


def _list_fitting(closed: list[Finding], kit: Kit, words: Phrases, sources: Sources) -> list[Any]:
    """Return what fits by subject, of like findings the nearest to its limit, with the sources by number below."""
    rows: list[list[Any]] = [[words(f"fits_{name}") for name in FITTING]]
    alike: dict[tuple[Topic, str], list[Finding]] = {}
    for finding in closed:
        alike.setdefault((finding.topic, finding.what.phrase), []).append(finding)
    last = ""
    for subject in get_args(Topic):
        for (about, _), group in alike.items():
            if about != subject:
                continue
            nearest = min(group, key=lambda f: f.margin if f.margin is not None else math.inf)
            what = begin_large(say(nearest.what, kit.reader))
            rows.append(
                [
                    "" if subject == last else words(f"subject_{subject}"),
                    words("nearest_of", finding=what, count=len(group)) if len(group) > 1 else what,
                    value_of(nearest, kit.reader),
                    limit_of(nearest, kit.reader),
                    margin_of(nearest, kit.reader),
                    sources.number(nearest.source),
                ]
            )
            last = subject
    table = kit.table(rows, (19, 87, 32, 19, 14, 11), align="lllrrr", size=8.0)
    return [kit.text(words("fitting"), "small"), table]


def begin_large(text: str) -> str:
    """Return a text with its first letter large."""
    return text[:1].upper() + text[1:]


def _tell_in_full(finding: Finding, job: AnyJob, kit: Kit, words: Phrases, sources: Sources) -> list[Any]:
    reader = kit.reader
    why = say(finding.why, reader)
    why = " ".join([why, *say_leans([finding], reader)])
    mends = "\n".join(list_mends(finding, job, words))
    what = kit.rich(f"<b>{kit.escape(begin_large(say(finding.what, reader)))}</b><br/>{kit.escape(why)}", "cell")
    numbers = [value_of(finding, reader)]
    if finding.limit is not None:
        source = f" [{sources.number(finding.source)}]" if finding.source else ""
        numbers.append(f"{limit_of(finding, reader)}{source}, {margin_of(finding, reader)}")
    return [kit.mark(finding.verdict), what, "\n".join(numbers), mends]


def list_mends(finding: Finding, job: AnyJob, words: Phrases) -> list[str]:
    """Return what mends a finding, with what was worked out for it; else why nothing stands there."""
    reader = job.reader
    tried = job.sizing.remedies if job.sizing else ()
    remedies = [remedy for remedy in tried if remedy.finding == finding.key]
    told = []
    for mend in finding.mends:
        change, remedy = begin_large(say(mend, reader)), next((r for r in remedies if r.what == mend), None)
        if remedy is None:
            told.append(change)
        else:
            then = words("mend_then" if remedy.verdict is Verdict.FITS else "mend_then_tight", change=change,
                         value=write(remedy.after, reader))  # fmt: skip
            told.append(then)
    if told:
        return list(dict.fromkeys(told))  # two changes may read alike
    if job.sizing and finding.key in job.sizing.untried:
        return [words("mend_untried", count=MOST_TREATED)]
    return [words("mend_none" if finding.tried else "mend_little_room")]


def name_verdict(verdict: Verdict) -> str:
    """Return a verdict as a part of a key."""
    return verdict.value.replace(" ", "_")


def _list_warnings(job: AnyJob, kit: Kit, words: Phrases) -> list[Any]:
    """Return what the project file holds that is legal but unusual, or assumed instead of measured."""
    blocks: list[Any] = []
    if job.warnings:
        blocks += [kit.heading(words("unusual"), 3), *kit.bullets(list(job.warnings))]
    if job.project.assumed:
        things = ", ".join(list_things(job.project.assumed))
        blocks.append(kit.text(words("assumed", things=things), "strong"))
    return blocks
