"""The words of pages, pictures and findings all stand in templates/, and each is asked for rightly."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from calc.finding import Amount, Said
from calc.measures.quantity import Reader
from packet.phrases import read_phrases, take_words
from packet.say import say
from packet.words import BadWords

TOP = Path(__file__).parents[2]
WORDS, FINDINGS = TOP / "templates" / "words", TOP / "templates" / "findings"
PACKET = sorted((TOP / "packet").rglob("*.py"))
PLACE = re.compile(r"\{\{ ([a-z0-9_]+) \}\}")


def read_file(path: Path) -> dict[str, set[str]]:
    """Return the names that each phrase of a file asks for."""
    lines = read_phrases(path.name, path.read_text(encoding="utf-8")).lines
    return {key: set(PLACE.findall(line)) for key, line in lines.items()}


def list_calls(tree: ast.AST, name: str) -> list[ast.Call]:
    """Return the calls of a function, or of an attribute, by that name."""
    return [
        node
        for node in ast.walk(tree)
        if isinstance(node, ast.Call)
        and (
            (isinstance(node.func, ast.Name) and node.func.id == name)
            or (isinstance(node.func, ast.Attribute) and node.func.attr == name)
        )
        and node.args
    ]


def match_keys(key: ast.expr, known: set[str]) -> set[str]:
    """Return the known keys that an expression can mean: one for a literal, all of its shape for a composed one."""
    if isinstance(key, ast.Constant) and isinstance(key.value, str):
        return {key.value} & known
    if isinstance(key, ast.IfExp):
        left, right = match_keys(key.body, known), match_keys(key.orelse, known)
        return left | right if left and right else set()
    if isinstance(key, ast.JoinedStr):
        shape = "".join(re.escape(str(v.value)) if isinstance(v, ast.Constant) else ".+" for v in key.values)
        return {name for name in known if re.fullmatch(shape, name)}
    return known


def list_takers() -> dict[str, list[ast.Module]]:
    """Return for each file of words the modules that take it."""
    takers: dict[str, list[ast.Module]] = {}
    for path in PACKET:
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for call in list_calls(tree, "take_words"):
            if isinstance(call.args[0], ast.Constant):
                takers.setdefault(str(call.args[0].value), []).append(tree)
    return takers


@pytest.mark.parametrize("path", PACKET, ids=lambda path: path.stem)
def test_each_phrase_asked_for_is_there_with_its_values(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    files = {
        str(call.args[0].value) for call in list_calls(tree, "take_words") if isinstance(call.args[0], ast.Constant)
    }
    known = {key: asks for file in sorted(files) for key, asks in read_file(WORDS / f"{file}.md").items()}
    for call in list_calls(tree, "words") if files else []:
        keys = match_keys(call.args[0], set(known))
        assert keys, f"{path.name}:{call.lineno}: no such phrase: {ast.unparse(call.args[0])}"
        given = {keyword.arg for keyword in call.keywords}
        for key in keys if None not in given and not isinstance(call.args[0], ast.Name) else ():
            assert known[key] <= given, f"{path.name}:{call.lineno}: {key} wants {known[key]}, given {given}"


@pytest.mark.parametrize("path", sorted(WORDS.glob("*.md")), ids=lambda path: path.stem)
def test_no_phrase_of_a_page_is_left_over(path: Path) -> None:
    known = set(read_file(path))
    used: set[str] = set()
    for tree in list_takers().get(path.stem, []):
        for call in list_calls(tree, "words"):
            used |= match_keys(call.args[0], known)
    assert known == used, f"nothing asks for {sorted(known - used)}"


def test_phrase_takes_its_values_and_a_missing_one_is_named() -> None:
    words = read_phrases("words/x.md", "# for the translator\nfits: {{ part }} fits\n\nplain: As it is\n")
    assert words("fits", part="Lid {{ 7 }}") == "Lid {{ 7 }} fits"
    assert words("plain") == "As it is"
    with pytest.raises(BadWords, match=r"words/x\.md: 'fits' asks for \{\{ part \}\}"):
        words("fits")
    with pytest.raises(BadWords, match=r"there is no line 'fit: \.\.\.'"):
        words("fit")


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("Fits: yes\n", "is no phrase"),
        ("fits\n", "is no phrase"),
        ("fits: a\nfits: b\n", "stands twice"),
        ("fits: {part}\n", "a brace that holds no name"),
        ("fits: {{ part.name }}\n", "a brace that holds no name"),
    ],
)
def test_broken_file_of_phrases_is_refused(text: str, fault: str) -> None:
    with pytest.raises(BadWords, match=fault):
        read_phrases("words/x.md", text)


def test_missing_file_is_named() -> None:
    with pytest.raises(BadWords, match=r"words/no_such\.md: the file is missing"):
        take_words("no_such")


def test_language_without_the_file_reads_the_english_one() -> None:
    assert take_words("report_room", "spanish")("density") == take_words("report_room")("density")


def test_said_without_its_sentence_is_named() -> None:
    with pytest.raises(BadWords, match=r"findings/no_such\.md"):
        say(Said("no_such.sentence", {"a": Amount(1.0, "length_mm")}), Reader("inch"))
