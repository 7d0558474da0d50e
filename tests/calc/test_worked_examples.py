"""Published worked examples, answered by the calculators.

Each example in shared/checks/worked_examples.toml carries its source, its place and its grade of evidence. The
tolerance is the printed answer's own rounding, never looser. The rows are those that the page of checks shows.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest

import calc
from build_tools.calculator_block import box_symbols
from build_tools.checks import examples as checks
from build_tools.checks.examples import CheckFailedError
from calc.registry import CALCULATORS

EXAMPLES, COVERED = checks.examples(), checks.coverage()


@pytest.mark.parametrize("name", COVERED)
def test_the_printed_answer_of(name: str) -> None:
    checks.hold(checks.answered(EXAMPLES[name], COVERED[name]).rows)


def test_every_printed_number_is_covered_or_said_to_be_left() -> None:
    """149 examples, 252 numbers: the counts of the collection as it was handed over."""
    assert (len(EXAMPLES), sum(len(e.asks) for e in EXAMPLES.values())) == (149, 252)
    shown = Counter((row.example.id, row.ask.symbol) for found in checks.all_answered() for row in found.rows)
    left = Counter((entry.example.id, ask.symbol) for entry in checks.left() for ask in entry.asks)
    assert shown + left == Counter((e.id, ask.symbol) for e in EXAMPLES.values() for ask in e.asks)
    assert all(len(entry.reason) > 40 for entry in checks.left())


def test_what_is_left_is_left_for_a_reason_that_holds() -> None:
    """Taken with the divisor of the standard horsepower, the one number left is not the one printed."""
    (left,) = checks.left()
    torque, speed = (left.example.givens[symbol][0] for symbol in ("Tm", "N"))
    ask = left.asks[0]
    assert ask.allows(torque * speed / 63000)
    assert not ask.allows(torque * speed / 63025.357464390552)


def test_a_falsified_answer_is_refused() -> None:
    """One unit of the last printed digit off, and the row no longer holds."""
    for found in checks.all_answered():
        for row in found.rows:
            assert row.within
            off = replace(row.ask, value=row.ask.value + 2.001 * row.ask.ulp, rounding="ulp")
            wrong = replace(row, ask=off, within=off.allows(row.got))
            with pytest.raises(CheckFailedError, match=row.example.id):
                checks.hold([wrong])


def test_the_tolerance_is_the_printed_rounding() -> None:
    ask = checks.Ask("x", "x", "2.50", "N", 2.50, 0.01, "half")
    assert [ask.allows(x) for x in (2.494, 2.495, 2.505, 2.506)] == [False, True, True, False]
    cut = replace(ask, rounding="trunc")
    assert [cut.allows(x) for x in (2.499, 2.5, 2.5099, 2.511)] == [False, True, True, False]


def test_a_calculator_that_refuses_is_no_answer() -> None:
    example = EXAMPLES["nv-barrow"]
    broken = {**COVERED["nv-barrow"], "choices": {"class": "3"}}
    with pytest.raises(CheckFailedError, match="nv-barrow"):
        checks.answered(example, broken)


def test_what_is_put_in_has_a_box_on_the_sheet() -> None:
    """So that the link of a row fills in what the row was worked out from."""
    for name, covered in COVERED.items():
        for part in [covered] if isinstance(covered, dict) else covered:
            assert set(part["given"]) <= set(box_symbols(calc.describe(part["calculator"]))), name


def test_the_strength_of_the_evidence_is_counted() -> None:
    """Every calculator that answers an example is one that a reader can open, and most sources were read."""
    keys = {key for found in checks.all_answered() for key, _ in found.sheets}
    assert keys <= set(CALCULATORS)
    grades = Counter(example.grade for example in EXAMPLES.values())
    assert set(grades) <= set(checks.GRADES)
    assert grades["source-text"] + grades["option-only"] == 51


def test_every_link_of_a_row_opens_the_same_answer() -> None:
    from calc.link import read

    for found in checks.all_answered():
        for key, link in found.sheets:
            names = [choice.symbol for choice in CALCULATORS[key].choices]
            request = read(link, names)
            assert request["calculator"] == key
            again = calc.answer({**request, "only": "numbers"})
            assert again["errors"] == []
            assert again["link"] == link
