"""What stands between braces is looked at without being filled in: nothing right refused, nothing wrong let through."""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from jinja2 import Environment

from packet.words.reader import BadWords
from packet.work.check_tags import check_tags

NAMES = ("metric", "length", "ports", "clean_hours")


@dataclass(frozen=True)
class Hole:
    hole: str
    screws: int


RIGHT = [
    "plain words",
    "{{ length(75) }} or {{ ports[0].hole }}",
    "{% for p in ports if p.screws %}{{ loop.index }} {{ p.hole }}{% else %}none{% endfor %}",
    "{% if metric and not clean_hours %}a{% elif ports|length > 1 %}b{% else %}c{% endif %}",
    '{{ "about " ~ clean_hours ~ " h" if clean_hours else "~" }}',
    '{{ "each " ~ clean_hours if clean_hours }}',
    "{% for what, number in [(1, metric)] if number %}{{ what }}{% endfor %}",
    "{% set half = length(3) %}{{ half }}",
    "{% macro tell(each) %}{{ each }}{% endmacro %}{{ tell(metric) }}",
    "{{ ports|map(attribute='hole')|join(', ') }}",
    "{{ 3 if ports|length is divisibleby 3 else 0 }}",
    "{% if metric is defined %}{# {{ what a translator notes }} #}{% endif %}",
]
WRONG = [
    ("a\n{{ metrik }}", 2, "'metrik' is not known here; the name most like it is 'metric'"),
    ("{{ ports[0].hoel }}", 1, "the name most like it is 'hole'"),
    ("{% for p in ports %}\n{{ p.screw }}{% endfor %}", 2, "the name most like it is 'screws'"),
    ("{% if metric %}\n", 1, "is never ended"),
    ("{% if metric %}\n{% endfor %}", 2, "has no '{% for ... %}' before it"),
    ("{% else %}", 1, "has no '{% if ... %}' before it"),
    ("{{ length(75 }}", 1, "cannot be filled in"),
    ("a\n\n{{ length(75)", 3, "'{{' has no partner"),
    ("{% while metric %}", 1, "cannot be filled in"),
]


@pytest.mark.parametrize("text", RIGHT)
def test_what_is_right_passes(text: str) -> None:
    Environment().from_string(text)  # the language itself takes it
    check_tags("x.md", text, NAMES, {"ports": Hole})


@pytest.mark.parametrize(("text", "line", "fault"), WRONG)
def test_what_is_wrong_is_named_with_its_line(text: str, line: int, fault: str) -> None:
    with pytest.raises(BadWords) as caught:
        check_tags("x.md", text, NAMES, {"ports": Hole})
    assert caught.value.line == line
    assert fault in caught.value.fault
