"""Where verdicts, prices, counts and the goods that the steps ask for stand."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Callable

from tests.story.box import tell, tell_count
from tests.story.fact import Fact, Place, Telling, may, one
from tests.story.find import (
    all_steps,
    fill,
    find_amount,
    find_count,
    find_step,
    find_words,
    has_gate,
    list_gates,
    sum_up,
)
from tests.story.outputs import Outputs
from tests.story.said import Said, count, read_amount, read_number
from tests.story.weights import find_needed

VERDICTS = ("does not fit", "tight", "fits")


def count_verdicts(section: str) -> Callable[[Outputs], Telling]:
    def read(outputs: Outputs) -> Telling:
        told = re.search(r"(\d+) things? (?:was|were) checked: ([^.]*)\.", outputs.words(section))
        if not told:
            return {}
        counts = dict.fromkeys(VERDICTS, 0) | {
            name: int(found[1])
            for name, words in (
                ("does not fit", "do(?:es)? not fit"),
                ("tight", "(?:is |are )?tight"),
                ("fits", "fits?"),
            )
            if (found := re.search(rf"(\d+) {words}(?:,|$)", told[2]))
        }
        return {"all": count(told[1])} | {name: count(number) for name, number in counts.items()}

    return read


def from_findings(findings: list[dict[str, object]]) -> Telling:
    counts = Counter(str(finding["verdict"]) for finding in findings)
    return {"all": count(len(findings))} | {name: count(counts[name]) for name in VERDICTS}


def from_stamp(outputs: Outputs) -> Telling:
    found = re.search(r"IT FITS, BUT TIGHTLY|IT FITS|(?:IT )?DOES NOT FIT", outputs.words("cover"))
    names = {
        "IT FITS, BUT TIGHTLY": "tight",
        "IT FITS": "fits",
        "IT DOES NOT FIT": "does not fit",
        "DOES NOT FIT": "does not fit",
    }
    return one("packet", Said(names[found[0]]) if found else None)


def money(text: str) -> Said:
    value, half = read_number(text)
    return Said(value, half)


def from_lines(outputs: Outputs) -> Telling:
    costs = [float(r["cost"]) for r in outputs.bill if r["unit"] and r["cost"] and r["group"] != "A year of use"]
    return one("total", Said(sum(costs), 1e-4 * len(costs))) if sum(costs) else {}  # nothing priced: no total


def from_total_row(outputs: Outputs) -> Telling:
    row = next((r for r in outputs.bill if r["group"].startswith("total")), None)
    return one("total", money(f"{float(row['cost']):.2f}")) if row and row["cost"] and float(row["cost"]) else {}


def find_money(section: str, pattern: str) -> Callable[[Outputs], Telling]:
    return lambda o: one("total", money(found[1]) if (found := re.search(fill(pattern), o.words(section))) else None)


def count_lines(outputs: Outputs) -> Telling:
    return one(
        "lines",
        count(sum(1 for r in outputs.bill if r["unit"] and r["group"] != "A year of use" and float(r["buy"] or 0) > 0)),
    )


TOTALS = (
    Fact(
        "verdicts, how many",
        (
            Place("cover", count_verdicts("cover")),
            Place("report", count_verdicts("sizing report")),
            Place("check --json", lambda o: from_findings(o.check["findings"])),
        ),
    ),
    Fact(
        "verdict of all",
        (
            Place("cover", from_stamp),
            Place("check --json", lambda o: one("packet", Said(o.check["verdict"]))),
            Place("sizing.json", lambda o: one("packet", Said(o.sizing["verdict"]))),
        ),
    ),
    Fact(
        "verdict of a finding",
        (
            Place("check --json", lambda o: {f["key"]: Said(f["verdict"]) for f in o.check["findings"]}),
            Place("sizing.json", lambda o: {f["key"]: Said(f["verdict"]) for f in o.sizing["sizing"]["findings"]}, may),
        ),
    ),
    Fact(
        "price of all",
        (
            Place("bill.csv, total", from_total_row),
            Place("bill.csv, its lines", from_lines),
            Place("cover", find_money("cover", r"{N} [A-Z]{3} to buy")),
            Place("cover, what to buy", find_money("cover", r"places, {N} [A-Z]{3}")),
            Place("bill page", find_money("bill", r"Total of what has a price \d+ (?:\d+ )?{N}")),
        ),
    ),
    Fact(
        "lines to buy",
        (
            Place("cover", tell_count("lines", "cover", r"{N} lines? to buy")),
            Place("bill page", tell_count("lines", "bill", r"{N} lines? to buy")),
            Place("bill page's total", tell_count("lines", "bill", r"Total of what has a price {N}"), may),
        ),
    ),
    Fact(
        "filters",
        (
            Place("cover", tell_count("filters", "cover", r"with {N} cartridge filters?")),
            Place("step that gathers", tell_count("filters", "steps", r"filter cartridge: {N}")),
            Place(
                "step that clips the lids",
                lambda o: one("filters", find_count(all_steps(o), r"Parts filters: {N},")),
                may,
            ),
            Place("step that hangs them", tell_count("filters", "steps", r"filters with lids: {N}")),
            Place("its pails", tell_count("filters", "steps", r"catch pails with rings: {N}")),
            Place(
                "step that drives the rings",
                tell_count("filters", "steps", r"Catch pails get a ring too, and stay whole: {N}"),
            ),
            Place("bill.csv", lambda o: one("filters", find_needed(o, "filter cartridge.*"))),
            Place("as-built page", tell_count("filters", "as built", r"Filters hung {N}")),
            Place(
                "sizing.json",
                lambda o: one("filters", sum_up(count(s["count"]) for s in o.sizing["sizing"]["filters"]["shares"])),
            ),
        ),
    ),
    Fact(
        "machines and runs",
        (
            Place(
                "cover",
                lambda o: (
                    {k: count(n) for k, n in zip(("machines", "runs"), found.groups(), strict=True)}
                    if (found := re.search(r"serves (\d+) machines? by (\d+) duct runs?", o.words("cover")))
                    else {}
                ),
            ),
            Place(
                "sizing.json",
                lambda o: {
                    "machines": count(
                        len({m["machine"] for s in o.sizing["sizing"]["scenarios"] for m in s["machines"]})
                    )
                },
                lambda o, s: s == "machines",
            ),
        ),
    ),
    Fact(
        "sheets of panel stock",
        (
            Place("bill.csv", lambda o: find_stock(o)),
            Place(
                "layouts",
                lambda o: {
                    stock: count(len(found))
                    for stock in find_stock(o)
                    if (found := re.findall(rf"(?m)^Sheet \d+: {re.escape(stock)}, ", o.lines("cut list")))
                },
            ),
            Place(
                "layouts' DXF",
                lambda o: {
                    stock: count(
                        sum(1 for n in o.parts if re.match(rf"sheet-\d+-{re.escape(stock.replace(' ', '-'))}-", n))
                    )
                    for stock in find_stock(o)
                },
                may,
            ),
        ),
    ),
    Fact(
        "steps",
        (
            Place("steps' head", tell_count("steps", "steps", r"{N} steps\b")),
            Place("bookmarks", lambda o: one("steps", count(len(o.steps)))),
            Place("day plan", lambda o: one("steps", count_planned(o)), may),
        ),
    ),
    Fact(
        "time for two",
        (
            Place("steps' head", lambda o: read_time(o, r"two people about ((?:\d+ h)?(?: ?\d+ min)?)", 1 / 120)),
            Place(
                "cover",
                lambda o: (
                    one("time", Said(float(found[1]), 0.25))
                    if (found := re.search(r"([\d.]+) h of work for two", o.words("cover")))
                    else {}
                ),
                may,
            ),
        ),
    ),
    Fact(
        "gates",
        (
            Place(
                "labels",
                lambda o: {name: Said("labelled") for name in list_gates(o) if f"GATE {name} " in o.words("labels")},
                has_gate,
            ),
            Place(
                "commissioning's blanks",
                lambda o: {
                    t.partition(":")[0]: Said("labelled") for n, t in o.fields.items() if n.startswith("reading_")
                },
                lambda o, s: s in list_gates(o),
            ),
        ),
    ),
)


def find_stock(outputs: Outputs) -> dict[str, Said]:
    rows = [r for r in outputs.bill if r["unit"] == "sheet" and r["group"] == "Box and lining"]
    return {r["item"]: count(r["needed"]) for r in rows if r["item"] in {c["material"] for c in outputs.cuts}}


def count_planned(outputs: Outputs) -> Said | None:
    found = re.search(r"Day Builder Together Helper Ends after (.*?) Make ready", outputs.words("steps"))
    if not found:
        return None
    return count(
        len(
            {
                n
                for line in re.findall(r"\d+(?:, \d+)+|\d+", re.sub(r"\d+ h(?: \d+ min)?|\d+ min", "", found[1]))
                for n in line.split(", ")
            }
        )
    )


def read_time(outputs: Outputs, pattern: str, within: float) -> Telling:
    found = re.search(pattern, outputs.words("steps"))
    if not found:
        return {}
    hours, minutes = (re.search(rf"(\d+) {unit}", found[1]) for unit in ("h", "min"))
    return one("time", Said((int(hours[1]) if hours else 0) + (int(minutes[1]) if minutes else 0) / 60, within))


def list_asked(outputs: Outputs) -> dict[str, list[float]]:
    """Return what the steps after the gathering take of each thing that stands on the bill under the same name."""
    found: dict[str, list[float]] = {}
    names = sorted({row["item"] for row in outputs.bill if row["unit"]}, key=len, reverse=True)
    for text in outputs.steps.values():
        if "Gather everything on the bill" in text[:60]:
            continue
        parts = text.partition(" Parts ")[2].partition(" HOLD ")[0]
        for name in names:
            for amount, in_all in re.findall(
                rf"(?:^|· ){re.escape(name)}: (\d+)(?![\w./-]| (?:ft|in(?! all)|mm|m|ft²|m²|lb|kg)(?!\w))( in all)?",
                parts,
            ):
                if not in_all or name not in found:
                    found.setdefault(name, []).append(float(amount))
    return found


def read_tape(amount: str) -> Said:
    """Return a length that is told to the inch, or to the centimetre."""
    said = read_amount(amount)
    return Said(said.value, said.within + 13.0)


def find_tape(outputs: Outputs) -> Said | None:
    """Return the gasket tape of the bill, in metres, or in feet."""
    row = next((r for r in outputs.bill if r["item"] == "closed-cell gasket tape" and r["waste %"] != "0.0"), None)
    return read_amount(f"{row['needed']} {row['unit']}") if row else None


def from_gathering(outputs: Outputs) -> Telling:
    text = find_step(outputs, "Gather everything on the bill")
    return {
        row["item"]: said
        for row in outputs.bill
        if row["unit"] and (said := find_count(text, rf"(?:Parts |· ){re.escape(row['item'])}: {{N}}"))
    }


def need_whole(outputs: Outputs, name: str) -> Said | None:
    """Return how many whole ones are needed: of a cartridge, a part is."""
    needed = find_needed(outputs, re.escape(name))
    return count(math.ceil(float(needed.value) - 1e-9)) if needed else None


GOODS = (
    Fact(
        "goods that the steps take",
        (
            Place(
                "steps, all together", lambda o: {name: count(sum(amounts)) for name, amounts in list_asked(o).items()}
            ),
            Place(
                "bill.csv, needed", lambda o: {name: said for name in list_asked(o) if (said := need_whole(o, name))}
            ),
        ),
    ),
    Fact(
        "gasket tape",
        (
            Place(
                "steps, all together",
                lambda o: one(
                    "tape",
                    sum_up(read_tape(a) for a in re.findall(fill(r"closed-cell gasket tape: {A}"), all_steps(o))),
                ),
            ),
            Place("bill.csv, needed", lambda o: one("tape", find_tape(o))),
        ),
    ),
    Fact(
        "goods to gather",
        (
            Place("step that gathers", from_gathering),
            Place(
                "bill.csv, needed",
                lambda o: {name: said for name in from_gathering(o) if (said := need_whole(o, name))},
            ),
        ),
    ),
    Fact(
        "bill's page",
        (
            Place("bill.csv", lambda o: {r["item"]: Said("told") for r in o.bill if r["unit"]}),
            Place(
                "bill page",
                lambda o: {
                    r["item"]: Said("told")
                    for r in o.bill
                    if (r["unit"] and re.search(rf"(?:☐|not bought:.*?) {re.escape(r['item'])} ", o.words("bill")))
                    or r["group"] == "A year of use"
                },
            ),
        ),
    ),
    Fact(
        "deck of the work platform",
        (
            Place(
                "bill.csv",
                lambda o: one(
                    "deck",
                    next(
                        (
                            find_amount(r["detail"], "deck {A}", o.step_mm)
                            for r in o.bill
                            if r["item"] == "work platform"
                        ),
                        None,
                    ),
                ),
            ),
            Place("steps", tell("deck", "steps", "deck at {A}")),
        ),
    ),
    Fact(
        "liquid in the gauge",
        (
            Place(
                "bill.csv",
                lambda o: one(
                    "liquid",
                    next(
                        (
                            find_words(r["detail"], r"([\d.]+ (?:fl oz|mL|ml)) in all")
                            for r in o.bill
                            if r["group"] == "Water gauge" and " in all" in r["detail"]
                        ),
                        None,
                    ),
                ),
            ),
            Place(
                "step", lambda o: one("liquid", find_words(o.words("steps"), r"about ([\d.]+ (?:fl oz|mL|ml)) in all"))
            ),
            Place(
                "gauge section",
                lambda o: one("liquid", find_words(o.words("water gauge"), r"About ([\d.]+ (?:fl oz|mL|ml)) fills")),
            ),
        ),
    ),
)
