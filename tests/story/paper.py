"""Where the paper speaks of itself: its pages, templates, revision and how true it must be printed."""

from __future__ import annotations

import re
from collections import Counter

from tests.story.fact import Fact, Place, Telling, may, one
from tests.story.find import fill, find_words
from tests.story.outputs import Outputs
from tests.story.said import Said, count

IN_THIS_ORDER = (
    ("Print the check page", ("print check",)),
    ("Read the findings", ("sizing report",)),
    ("Read the cautions", ("cautions",)),
    ("Buy once", ("bill",)),
    ("Cut panels", ("cut list",)),
    ("Print templates", ("full-size",)),
    ("Print the steps", ("steps",)),
    ("Mount gauge card", ("water gauge", "labels")),
    ("Test; write down", ("commissioning",)),
    ("Fill in what was really built", ("as built",)),
)
"""Words of the cover's list to the sections they send to."""


def write_pages(first: int, last: int) -> str:
    return f"page {first}" if first == last else f"pages {first}–{last}"


def list_tops(outputs: Outputs) -> list[str]:
    return [mark.title.lower() for mark in outputs.marks if mark.level == 0]


def from_bookmarks(outputs: Outputs) -> Telling:
    """Return the pages of each section, as bookmarks and headings have them."""
    return {title: Said(write_pages(*outputs.last_page(title))) for title in list_tops(outputs) if title != "cover"}


def from_cover_list(outputs: Outputs) -> Telling:
    """Return the pages that the cover's list sends to: its lines and its numbers stand in the same order."""
    text = outputs.lines("cover")
    lines = re.findall(r"^(\d+) (.+)$", text.partition("in this order")[2].partition("NOTICE")[0], re.MULTILINE)
    sent = re.findall(r"^((?:pages? \d+(?:–\d+)?(?:, )?)+)$", text, re.MULTILINE)
    found: dict[str, Said] = {}
    for (_, words), pages in zip(lines, sent, strict=True):
        sections = next(sections for start, sections in IN_THIS_ORDER if start in words)
        for section, each in zip(sections, pages.split(", "), strict=True):
            found[next(title for title in list_tops(outputs) if title.startswith(section))] = Said(each)
    return found


def from_contents(outputs: Outputs) -> Telling:
    """Return the first page of each section by the contents: titles and numbers stand in the same order."""
    text = outputs.lines("cover").rpartition("Contents\n")[2]
    titles = re.findall(r"^\d+ (\D.*)$", text, re.MULTILINE)
    numbers = re.findall(r"^(\d+)$", text, re.MULTILINE)[-len(titles) :] if titles else []
    return {title.strip().lower(): count(number) for title, number in zip(titles, numbers, strict=True)}


def from_first_pages(outputs: Outputs) -> Telling:
    return {title: count(outputs.last_page(title)[0]) for title in list_tops(outputs) if title != "cover"}


def from_footers(outputs: Outputs) -> Telling:
    """Return what the footers count: each page its own number, all the same whole."""
    told = [re.search(r"page (\d+) of (\d+)", page.footer) for page in outputs.pages]
    wrong = next(
        (n for n, found in enumerate(told, 1) if not found or (found[1], found[2]) != (str(n), str(len(told)))), 0
    )
    return one("pages", Said(f"wrong on page {wrong}") if wrong else count(len(told)))


def count_sheets(outputs: Outputs) -> Telling:
    """Return each template's sheets as they lie in the packet."""
    first, last = outputs.last_page("full-size")
    heads = [find_words(page.words, r"(?m)^(.+?) - (?:sheet|one sheet)") for page in outputs.pages[first - 1 : last]]
    return {
        f"{name}": count(n)
        for name, n in Counter(
            str(head.value) for head in heads if head and not str(head.value).startswith("Small parts")
        ).items()
    }


def from_sheets(outputs: Outputs) -> Telling:
    found: dict[str, Said] = {}
    first, last = outputs.last_page("full-size")
    for page in outputs.pages[first - 1 : last]:
        if told := re.search(r"(?m)^(.+?) - (?:sheet \w+, \d+ of (\d+)|one sheet)", page.words):
            found.setdefault(told[1], count(told[2] or 1))
    return {name: said for name, said in found.items() if not name.startswith("Small parts")}


def read_tolerance(outputs: Outputs, section: str, pattern: str) -> Said | None:
    return find_words(outputs.words(section), fill(pattern))


PAPER = (
    Fact(
        "pages of a section",
        (
            Place("bookmarks", from_bookmarks),
            Place("cover's list", from_cover_list, may),
        ),
    ),
    Fact(
        "first page of a section",
        (Place("bookmarks", from_first_pages), Place("contents", from_contents, lambda o, s: s != "contents")),
    ),
    Fact(
        "pages in all", (Place("the file", lambda o: one("pages", count(len(o.pages)))), Place("footers", from_footers))
    ),
    Fact("sheets of a template", (Place("the pages", count_sheets), Place("its own words", from_sheets))),
    Fact(
        "how true the print must be",
        (
            Place("print check", lambda o: one("print", read_tolerance(o, "print check", "rules within {A}"))),
            Place("cover", lambda o: one("print", read_tolerance(o, "cover", "Wrong by more than {A}"))),
            Place(
                "step",
                lambda o: one("print", read_tolerance(o, "steps", r"the print check page, the worst {a} \(± {A}")),
            ),
            Place(
                "template sheets",
                lambda o: one("print", say_alike(re.findall(fill("Rules off by more than {A}"), o.words("full-size")))),
            ),
        ),
    ),
    Fact(
        "revision",
        (
            Place("sizing.json", lambda o: one("revision", Said(str(o.sizing["project"]["revision"])))),
            Place("cover", lambda o: one("revision", find_words(o.words("cover"), r"Revision (.+?) Date"))),
            Place(
                "footers",
                lambda o: one(
                    "revision",
                    say_alike([m[1] for page in o.pages if (m := re.search(r"· rev\. (.+?) · file", page.footer))]),
                ),
            ),
            Place("labels", lambda o: one("revision", say_alike(re.findall(r"(?m), rev\. (.+)$", o.lines("labels"))))),
            Place("check --json", lambda o: one("revision", Said(str(o.check["revision"])))),
        ),
    ),
    Fact(
        "digest of the project file",
        (
            Place("sizing.json", lambda o: one("digest", Said(o.sizing["project"]["digest"]))),
            Place("cover", lambda o: one("digest", find_words(o.words("cover"), r"Project file (\w+)"))),
            Place(
                "footers",
                lambda o: one(
                    "digest", say_alike([m[1] for page in o.pages if (m := re.search(r"· file (\w+)", page.footer))])
                ),
            ),
            Place("check --json", lambda o: one("digest", Said(o.check["digest"]))),
        ),
    ),
)


def say_alike(told: list[str]) -> Said | None:
    return Said(" or ".join(dict.fromkeys(" ".join(t.split()) for t in told))) if told else None
