"""Kits as files: read, written, and named line by line where a line cannot be used."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.plan.kit import ITEM_KINDS, read_kit, usual
from calc.plan.kit_file import opened, written
from calc.units import factor

GARDEN = (Path(__file__).parents[3] / "shared/kits/garden.toml").read_text("utf-8")
TEXTS = st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=20).map(str.strip).filter(bool)
THINGS = st.dictionaries(st.sampled_from(["name", "length", "rated", "a colour"]), TEXTS, min_size=1)
ROWS = st.dictionaries(st.sampled_from([*ITEM_KINDS]), st.lists(THINGS, min_size=1, max_size=3), max_size=4)


def test_the_gardens_kit_is_read_without_a_complaint() -> None:
    found = opened(GARDEN)
    assert (found.name, found.units, found.problems) == ("School garden", "us", [])
    kit, problems = read_kit(found.rows)
    assert not problems
    assert {item.kind for item in kit.items} == set(ITEM_KINDS)
    assert kit.of("plank")[1]["length"] == pytest.approx(12 * factor("ft"))
    assert kit.of("cart")[0].spans["rolling"] == (0.02, 0.05)


@given(ROWS, TEXTS, st.sampled_from(["us", "si"]))
def test_what_is_written_is_read_again(rows: dict[str, list[dict[str, str]]], name: str, units: str) -> None:
    text = written(rows, name, units)
    tomllib.loads(text)
    found = opened(text)
    assert (found.rows, found.name, found.units) == (rows, name, units)


def line_of(part: str, text: str) -> int:
    return text[: text.index(part)].count("\n") + 1


@pytest.mark.parametrize(
    ("right", "wrong", "says"),
    [
        ('length = "12 ft"', 'length = "12 cubits"', "cubits"),
        ('length = "12 ft"', "length 12 ft", "not TOML"),
        ('capacity = "10 lbf"', 'capacity = "10 in"', "length"),
        ('crank = "15 in"', 'crank = "0"', "zero"),
        ('keeps = "90 % to 94 %"', 'keeps = "90 % to 194 %"', "100 %"),
        ('thread = "3/4-6-Acme"', 'thread = "thick"', "thick"),
        ('sheaves = "1"', 'sheaves = "1.5"', "whole"),
    ],
)
def test_a_bad_line_is_named_and_the_rest_is_used(right: str, wrong: str, says: str) -> None:
    text = GARDEN.replace(right, wrong, 1)
    found = opened(text)
    named = [problem for problem in found.problems if problem["line"] == line_of(wrong, text)]
    assert any(says in problem["words"] for problem in named), found.problems
    assert len(read_kit(found.rows)[0].items) >= 15


def test_what_is_unknown_is_passed_over_with_a_note() -> None:
    text = GARDEN.replace('crank = "15 in"', 'crank = "15 in"\ncolour = "red"') + '\n[[piano]]\nname = "old"\n'
    found = opened(text)
    assert {problem["line"] for problem in found.problems} == {line_of("colour", text), line_of("[[piano]]", text)}
    assert len(read_kit(found.rows)[0].items) == len(read_kit(opened(GARDEN).rows)[0].items)


@given(st.text(max_size=300))
def test_no_text_whatever_raises(text: str) -> None:
    opened(text)
    opened(GARDEN[:200] + text + GARDEN[200:])


@given(st.recursive(st.none() | st.booleans() | st.floats() | TEXTS, lambda x: st.lists(x) | st.dictionaries(TEXTS, x)))
def test_no_kit_whatever_raises(rows: object) -> None:
    read_kit(rows)
    read_kit(dict.fromkeys(ITEM_KINDS, rows))


def test_a_number_alone_has_the_kits_units() -> None:
    for system, size in (("us", factor("in")), ("si", factor("mm"))):
        kit, _ = read_kit({"packing": [{"height": "6"}]}, system)
        assert kit.items[0]["height"] == pytest.approx(6 * size)


def test_a_kind_that_the_kit_lacks_has_a_usual_thing_without_a_rating() -> None:
    assert all(usual(kind).rated == 0 for kind in ITEM_KINDS)
