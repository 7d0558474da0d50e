"""Every formula on a page, read back from its MathML as the eye sees it, is the formula that was computed with."""

from __future__ import annotations

import math
import random
from collections.abc import Mapping
from itertools import pairwise
from typing import Any

import pytest

import calc
from calc.formula import Node, evaluate, parse, parse_equation, symbols
from calc.registry import CALCULATORS
from calc.rows import written_out
from calc.symbols import letter_and_index
from tests.calc.every_relation import all_relations
from tests.calc.line_reader import read
from tests.calc.mathml_reader import Glyph, glyphs, in_row, parts, value
from tests.calc.test_working import cases

POINTS = 4
ROWS = 3
VIEWS = ("ideal", "expected", "measured")


def printed_as(names: Mapping[str, Any]) -> dict[Glyph, Any]:
    """The values by the glyph that each symbol is printed as. Two symbols must never look alike."""
    by_glyph = {letter_and_index(name): found for name, found in names.items()}
    assert len(by_glyph) == len(names), f"two symbols look alike: {sorted(names)}"
    return by_glyph


def points(names: tuple[str, ...], seed: str, *trees: Node) -> list[dict[str, float]]:
    """Random values at which all trees can be worked out, for ``n`` a whole number."""
    dice, found = random.Random(seed), []
    for _ in range(400):
        at = {name: ROWS if name == "n" else dice.uniform(0.05, 0.9) for name in names}
        try:
            for tree in trees:
                evaluate(tree, at)
        except (ValueError, ZeroDivisionError, OverflowError):
            continue
        found.append(at)
        if len(found) == POINTS:
            return found
    raise AssertionError(f"no point at which {seed} can be worked out")


def assert_alike(there: Any, here: Any, what: str) -> None:
    assert there == pytest.approx(here, rel=1e-9, abs=1e-12), what


def declared() -> list[tuple[str, str, dict[str, str], str]]:
    """(calculator, relation, the choices and the view in which it holds), each relation's text once."""
    found = {}
    for key, calculator in CALCULATORS.items():
        for relation in calculator.relations:
            case = {name: only if isinstance(only, str) else only[0] for name, only in relation.when.items()}
            view = case.pop("view", "expected")
            found.setdefault((key, relation.text), (key, relation.text, case, view))
    return sorted(found.values())


@pytest.mark.parametrize(("key", "text", "choices", "view"), declared())
def test_a_printed_relation_reads_back_as_declared(key: str, text: str, choices: dict[str, str], view: str) -> None:
    """By value at random points; the sums over rows written out on one side and read from their sign on the other."""
    calculator = CALCULATORS[key]
    listed = [r for r in calculator.relations if r.text == text]
    printed = [r for r in calc.relations(key, choices, view) if r["text"] == text]
    assert printed, "it is not printed in the case in which it holds"
    counts = {**{rows.name: ROWS for rows in calculator.rows}, **dict.fromkeys(calculator.span_symbols, ROWS)}
    row = 2 if listed[0].each else None
    sides = [parse(side) for side in written_out(text, counts, row).split(" = ")]
    seen = parts(printed[0]["mathml"])
    assert len(seen) == 2
    names = tuple(dict.fromkeys(name for side in sides for name in symbols(side)))
    extra = ("n",) if "n" in calculator.span_symbols else ()
    for at in points((*names, *extra), key + text, *sides):
        by_glyph = printed_as(dict.fromkeys((*names, *extra), 0.0) | at)
        if row:  # the row itself and the one before
            by_glyph |= {**in_row(by_glyph, "i", row), **in_row(by_glyph, "before", row - 1)}
        for tree, elements in zip(sides, seen, strict=True):
            assert_alike(value(elements, by_glyph, ROWS), evaluate(tree, at), text)


def relations_of(key: str) -> dict[frozenset[str], list[str]]:
    """The equations of a calculator by the symbols in them."""
    found: dict[frozenset[str], list[str]] = {}
    for owner, text in ALL:
        if owner == key:
            names = frozenset(name for side in parse_equation(text) for name in symbols(side))
            found.setdefault(names, []).append(text)
    return found


ALL = all_relations()


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("key", calc.keys())
def test_every_part_of_a_line_of_working_reads_as_its_text(key: str, units: str) -> None:
    """Symbols by value at random points, numbers put in with pint's units; and the formula follows from a relation."""
    known = relations_of(key)
    seen: set[str] = set()
    for request in cases(key, units):
        for line in calc.answer(request)["working"]:
            if line["text"] not in seen:
                seen.add(line["text"])
                check(line["text"], line["mathml"], known)


def check(text: str, mathml: list[str], known: Mapping[frozenset[str], list[str]]) -> None:
    words = [side for half in text.removesuffix(" (unrounded)").split(", so ") for side in half.split(" = ")]
    shown = parts(mathml)
    assert len(words) == len(shown), text
    for said, elements in zip(words, shown, strict=True):
        if not glyphs(elements):
            if all(e.tag in ("mn", "mtext") for e in elements):  # one number: nothing to work out
                assert "".join(e.text or "" for e in elements).replace(" ", "") == said.replace(" ", ""), text
            else:
                assert_same_size(value(elements, {}), read(said), text)
            continue
        tree = parse(said)
        for at in points(symbols(tree), text, tree):
            assert_alike(value(elements, printed_as(at)), evaluate(tree, at), text)
    formulas = [(a, b) for a, b in pairwise(shown) if len(glyphs(a)) == 1 and glyphs(b)]
    for left, right in formulas[-1:]:
        follows(words[shown.index(left)], words[shown.index(right)], left, right, known, text)


def assert_same_size(there: Any, here: Any, what: str) -> None:
    if hasattr(there, "to"):
        assert_alike(there.to(here.units).magnitude, here.magnitude, what)
    else:
        assert_alike(there, here.to("dimensionless").magnitude if hasattr(here, "to") else here, what)


def follows(
    symbol: str, formula: str, left: Any, right: Any, known: Mapping[frozenset[str], list[str]], text: str
) -> None:
    """The printed formula's value, taken for the symbol, makes a relation of the calculator true at every point."""
    tree = parse(formula)
    names = frozenset((symbol, *symbols(tree)))
    assert known.get(names), f"no relation ties these together: {text}"
    for relation in known[names]:
        sides = parse_equation(relation)
        fits = 0
        for at in points(symbols(tree), text, tree):
            at[symbol] = value(right, printed_as(at))
            try:
                a, b = (evaluate(side, at) for side in sides)
            except (ValueError, ZeroDivisionError, OverflowError):
                continue
            if not math.isclose(a, b, rel_tol=1e-9, abs_tol=1e-12):
                break
            fits += 1
        else:
            if fits:
                return
    raise AssertionError(f"it follows from none of {known[names]}: {text}")


@pytest.mark.parametrize(
    ("mathml", "expected"),
    [
        ("<mrow><mi>a</mi><mo>+</mo><mi>b</mi></mrow><mo>·</mo><mi>c</mi>", 2 + 3 * 5),  # the mrow cannot be seen
        ("<mo>(</mo><mi>a</mi><mo>+</mo><mi>b</mi><mo>)</mo><mo>·</mo><mi>c</mi>", (2 + 3) * 5),
        ("<mi>c</mi><mo>−</mo><mi>a</mi><mo>+</mo><mi>b</mi>", 5 - 2 + 3),
        ("<mfrac><mrow><mi>a</mi><mo>+</mo><mi>b</mi></mrow><mi>c</mi></mfrac>", (2 + 3) / 5),
        ("<mn>2</mn><mi>a</mi>", 4),
        ("<mo>−</mo><msup><mi>a</mi><mn>2</mn></msup>", -4),
        ("<mi>sin</mi><mi>a</mi><mo>·</mo><mi>b</mi>", math.sin(2) * 3),
        ("<msup><mi>tan</mi><mrow><mo>−</mo><mn>1</mn></mrow></msup><mi>a</mi>", math.atan(2)),
        ("<munder><mo>∑</mo><mi>i</mi></munder><msub><mi>F</mi><mi>i</mi></msub><mo>+</mo><mi>a</mi>", 7 + 11 + 2),
    ],
)
def test_the_reader_reads_as_the_eye_does(mathml: str, expected: float) -> None:
    at = {("a", ""): 2.0, ("b", ""): 3.0, ("c", ""): 5.0, ("F", "1"): 7.0, ("F", "2"): 11.0}
    (elements,) = parts([f"<math>{mathml}</math>"])
    assert value(elements, at, rows=2) == pytest.approx(expected, rel=1e-12)


def test_a_wrong_sign_in_print_is_seen() -> None:
    known = relations_of("lever")
    line = next(x for x in calc.answer(calc.example("lever"))["working"] if x["text"].startswith("N ="))
    check(line["text"], line["mathml"], known)
    with pytest.raises(AssertionError):
        check(line["text"], [piece.replace("<mo>+</mo>", "<mo>−</mo>") for piece in line["mathml"]], known)
