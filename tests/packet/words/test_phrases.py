"""The words of pages, pictures and findings all stand in templates/, and each is asked for rightly."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from calc.finding import Amount, Said
from calc.measures.quantity import Reader
from packet.words.phrases import read_phrases, take_words
from packet.words.reader import BadWords
from packet.words.say import say
from packet.work.model import SIGNALS

TOP = Path(__file__).parents[3]
WORDS, FINDINGS = TOP / "templates" / "words", TOP / "templates" / "findings"
PACKET = sorted((TOP / "packet").rglob("*.py"))
CALC = sorted((TOP / "calc").rglob("*.py"))
SAYERS = ("Said", "say", "say_with")
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


def list_files_taken(tree: ast.AST) -> set[str]:
    """Return the files of templates/words whose phrases a module takes by their name."""
    return {
        str(call.args[0].value)
        for call in list_calls(tree, "take_words")
        if isinstance(call.args[0], ast.Constant) and not any(each.arg == "room" for each in call.keywords)
    }


def match_keys(key: ast.expr, known: set[str]) -> set[str]:
    """Return the known keys that an expression can mean: one for a literal, all of its shape for a composed one."""
    if isinstance(key, ast.Constant) and isinstance(key.value, str):
        return {key.value} & known
    if isinstance(key, ast.IfExp):
        left, right = match_keys(key.body, known), match_keys(key.orelse, known)
        return left | right if left and right else set()
    if isinstance(key, ast.JoinedStr):
        shape = "".join(re.escape(str(v.value)) if isinstance(v, ast.Constant) else ".*" for v in key.values)
        return {name for name in known if re.fullmatch(shape, name)}
    return known


def list_takers() -> dict[str, list[ast.Module]]:
    """Return for each file of words the modules that take it."""
    takers: dict[str, list[ast.Module]] = {}
    for path in PACKET:
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for file in list_files_taken(tree):
            takers.setdefault(file, []).append(tree)
    return takers


@pytest.mark.parametrize("path", PACKET, ids=lambda path: path.stem)
def test_each_phrase_asked_for_is_there_with_its_values(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    files = list_files_taken(tree)
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


def test_the_words_of_the_helpers_sheet_are_all_asked_for() -> None:
    known = set(read_file(TOP / "templates" / "phrases.md"))
    sources = [path.read_text(encoding="utf-8") for path in (*PACKET, TOP / "templates" / "pages" / "helper.html")]
    used = {key for source in sources for key in re.findall(r"\b(?:say|phrases)\([\"'](\w+)[\"']\)", source)}
    sheet = (TOP / "packet" / "pages" / "helper.py").read_text(encoding="utf-8")
    used |= set(re.findall(r"\bwords\([\"'](\w+)[\"']\)", sheet))
    assert used | {signal.lower() for signal in SIGNALS} == known


# --- sentences of calc ------------------------------------------------------------------------------------------------


def list_said(tree: ast.Module) -> list[ast.Call]:
    """Return the calls that make a sentence, but those in the functions that make it of their own argument."""
    inner = {
        id(node)
        for function in ast.walk(tree)
        if isinstance(function, ast.FunctionDef) and function.name in SAYERS
        for node in ast.walk(function)
    }
    return [call for name in SAYERS for call in list_calls(tree, name) if id(call) not in inner]


def list_given(call: ast.Call) -> set[str] | None:
    """Return the names a call gives its sentence; None where they are made elsewhere and cannot be seen."""
    given = {keyword.arg for keyword in call.keywords if keyword.arg not in ("amounts", "names", "down")}
    if isinstance(call.func, ast.Name) and call.func.id == "say_with":
        dicts = [*call.args[1:2], *(k.value for k in call.keywords if k.arg == "names")]
    else:
        dicts = [*call.args[1:3], *(k.value for k in call.keywords if k.arg in ("amounts", "names"))]
    for each in dicts:
        if isinstance(each, ast.Dict):
            given |= {key.value if isinstance(key, ast.Constant) else None for key in each.keys}
        elif not (isinstance(each, ast.Constant) and each.value is None):
            return None
    return None if None in given else {str(name) for name in given}


def read_sentences() -> dict[str, set[str]]:
    """Return every sentence of templates/findings by ``file.key``, with the names it asks for."""
    return {
        f"{path.stem}.{key}": asks for path in sorted(FINDINGS.glob("*.md")) for key, asks in read_file(path).items()
    }


def find_keys(call: ast.Call, known: set[str]) -> set[str]:
    """Return the sentences a call can mean. One that is a bare variable means none: it could not be checked."""
    return set() if isinstance(call.args[0], ast.Name) else match_keys(call.args[0], known)


@pytest.mark.parametrize("path", CALC, ids=lambda path: path.stem)
def test_each_sentence_of_calc_is_there_with_its_values(path: Path) -> None:
    known = read_sentences()
    for call in list_said(ast.parse(path.read_text(encoding="utf-8"))):
        keys = find_keys(call, set(known))
        assert keys, f"{path.name}:{call.lineno}: templates/findings/ lacks {ast.unparse(call.args[0])}"
        given = list_given(call)
        short = [key for key in sorted(keys) if given is not None and not known[key] <= given]
        # A composed key may fit more sentences than it can mean: one of them must have what it asks for.
        least = len(keys) if isinstance(call.args[0], ast.JoinedStr) else 1
        assert len(short) < least, f"{path.name}:{call.lineno}: {short} want more than {given}"


def test_no_sentence_is_left_over() -> None:
    known = set(read_sentences())
    used: set[str] = set()
    for path in CALC:
        for call in list_said(ast.parse(path.read_text(encoding="utf-8"))):
            used |= find_keys(call, known)
    assert known == used, f"nothing says {sorted(known - used)}"


def test_phrase_takes_its_values_and_a_missing_one_is_named() -> None:
    words = read_phrases("words/x.md", "# for the translator\nfits: {{ part }} fits\n\nplain: As it is\n")
    assert words("fits", part="Lid {{ 7 }}") == "Lid {{ 7 }} fits"
    assert words("plain") == "As it is"
    with pytest.raises(BadWords, match=r"words/x\.md:2: 'fits': 'part' is not known here"):
        words("fits")
    with pytest.raises(BadWords, match=r"there is no line 'fit: \.\.\.'"):
        words("fit")


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("Fits: yes\n", "cannot be read"),
        ("fits\n", "cannot be read"),
        ("fits: a\nfits: b\n", "stands twice"),
        ("fits:\n", "says nothing"),
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


def test_translated_phrases_are_whole() -> None:
    """A file that another language has must have every key of the English one, and ask for nothing else."""
    for path in sorted(path for room in ("words", "findings") for path in (TOP / "templates").glob(f"*/{room}/*.md")):
        english, other = read_file(TOP / "templates" / path.parent.name / path.name), read_file(path)
        assert set(other) == set(english), path
        assert all(other[key] <= english[key] for key in english), path


def test_said_without_its_sentence_is_named() -> None:
    with pytest.raises(BadWords, match=r"findings/no_such\.md"):
        say(Said("no_such.sentence", {"a": Amount(1.0, "length_mm")}), Reader("inch"))
