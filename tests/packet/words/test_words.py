"""The files of words: read whole, filled whole, refused by name when they are broken."""

from __future__ import annotations

import re
from importlib import resources
from pathlib import Path

import pytest

from packet.words.reader import BadWords
from packet.words.word_files import clean_text, fill_words, load_folder, read_words, work_out
from packet.work.model import SIGNALS

ENGLISH = ("cautions", "helper")
TEMPLATES = Path(__file__).parents[3] / "templates"


def test_body_lines_are_told_apart_by_their_mark() -> None:
    words = read_words("x.md", "title: Cut\n---\n- Saw on {{ size }}.\nhold: across | {{ size }} | ± 1\nLook out.\n")
    filled = fill_words(words, {"size": "12 in"}, ("title",))
    assert filled.heads == ("Cut",)
    assert [(line.mark, line.fields) for line in filled.lines] == [
        ("-", ("Saw on 12 in.",)),
        ("hold", ("across", "12 in", "± 1")),
        ("", ("Look out.",)),
    ]


def test_word_that_nothing_fills_is_our_fault_and_named() -> None:
    words = read_words("steps/x.md", "title: Cut\n---\n- Saw on {{ line_that_is_not }}.\n")
    with pytest.raises(BadWords, match=r"templates/steps/x\.md:3: 'line_that_is_not' is not known here"):
        fill_words(words, {})


def test_condition_that_names_nothing_is_refused() -> None:
    words = read_words("steps/x.md", "when: optoins\n---\n- Saw.\n")
    with pytest.raises(BadWords, match="'optoins' is not known here"):
        work_out(words, "when", {}, True)


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("title: Cut\n- Saw.\n", "must end the header"),
        ("title: Cut\ntitle: Saw\n---\n", "stands twice"),
        ("Title Cut\n---\n", "cannot be read"),
        ("title: a\n---\n{% for x in %}\n", "cannot be filled in"),
    ],
)
def test_broken_file_is_refused(text: str, fault: str) -> None:
    with pytest.raises(BadWords, match=fault):
        fill_words(read_words("x.md", text), {})


def test_users_words_cannot_become_lines_fields_or_templates() -> None:
    user = clean_text("A\n- hold: x | y\x1fz\x1e{{ 7*7 }}\u2028{% raw %}\u202eB")
    assert "\n" not in user
    assert "\u202e" not in user
    words = read_words("x.md", "title: {{ name }}\n---\n- Port {{ name }} | {{ name }}\n")
    filled = fill_words(words, {"name": user}, ("title",))
    assert filled.heads == (user,)
    assert len(filled.lines) == 1
    assert filled.lines[0].fields == (f"Port {user}", user)
    assert "{{ 7*7 }}" in user


def test_sandbox_keeps_templates_from_reaching_into_python() -> None:
    words = read_words("x.md", "title: a\n---\n- {{ ''.__class__.__mro__ }}\n")
    with pytest.raises(BadWords):
        fill_words(words, {})


@pytest.mark.parametrize("folder", ENGLISH)
def test_spanish_has_every_file_with_the_same_numbers_and_lines(folder: str) -> None:
    """A missing file, number, condition or kind of line would leave a reader without it."""
    ours, theirs = load_folder(folder), load_folder(f"spanish/{folder}")
    lacking = sorted(set(ours) - set(theirs))
    assert set(ours) == set(theirs), f"templates/spanish/{folder}/ is whole, and lacks {lacking}: copy and translate"
    for key, words in ours.items():
        other = theirs[key]
        assert set(words.head) == set(other.head), other.file
        for line in ("signal", "when"):
            assert words.head.get(line) == other.head.get(line), other.file
        assert _list_marks(words.body) == _list_marks(other.body), other.file
        if folder == "cautions":
            assert _list_tags(words.body) == _list_tags(other.body), other.file
        for line in ("title", "short"):
            if line in words.head:
                assert words.head[line] != other.head[line], f"{other.file}: '{line}' is not translated"
        assert words.body != other.body, f"{other.file} is not translated"


@pytest.mark.parametrize("file", ["phrases.md", "sheet.md"])
def test_spanish_has_every_phrase(file: str) -> None:
    room = resources.files("templates")
    ours, theirs = (room.joinpath(path).read_text("utf-8") for path in (file, f"spanish/{file}"))
    assert _list_marks(ours) == _list_marks(theirs)
    same = set(ours.splitlines()) & set(theirs.splitlines()) - {"---", "minutes: min"}
    assert not same, f"not translated: {sorted(same)}"


def test_signal_words_are_those_of_the_standard() -> None:
    """ANSI Z535.6 knows DANGER, WARNING, CAUTION and NOTICE (from memory); each caution has one of them."""
    for words in load_folder("cautions").values():
        assert words.head["signal"] in SIGNALS, words.file


def _list_marks(text: str) -> list[str]:
    return [found[1] for line in text.splitlines() if (found := re.match(r"(-|[a-z_]+:) ", line + " "))]


def _list_tags(text: str) -> list[str]:
    """Return what is filled in or decided. Words in quotes that are printed are translated like all others; those that
    something is compared with are not."""
    tags = []
    for kind, tag in re.findall(r"{([{%])(.*?)[}%]}", text):
        tags.append(re.sub(r'(?<!== )"[^"]*"(?! in )', '""', tag.strip()) if kind == "{" else tag.strip())
    return tags


def test_tight_is_a_verdict_and_nothing_else() -> None:
    """A box without leaks is sealed, a screw is driven home, a hose stretched straight."""
    allowed = re.compile(r"^\w*tight\w*: ")  # the verdict's own words stand under keys that name it
    found = [
        f"{file.name}:{number}: {line}"
        for file in sorted(TEMPLATES.rglob("*.md"))
        if file.name != "README.md"
        for number, line in enumerate(file.read_text(encoding="utf-8").splitlines(), 1)
        if re.search(r"\b(air|over-)?tight\b", line, re.IGNORECASE) and not allowed.match(line)
    ]
    assert not found
