"""Published worked examples, answered by the calculators.

Each example in shared/checks/worked_examples.toml carries its source, its place and its grade of evidence. The
tolerance is the printed answer's own rounding, never looser.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

import calc
from calc.formula import evaluate, parse
from calc.units import KINDS, factor, unit_named

CHECKS = Path(__file__).parents[2] / "shared" / "checks"
EXAMPLES = {e["id"]: e for e in tomllib.loads((CHECKS / "worked_examples.toml").read_text("utf-8"))["example"]}
COVERED = tomllib.loads((CHECKS / "covered_examples.toml").read_text("utf-8"))


def request_for(covered: dict[str, Any], example: dict[str, Any]) -> dict[str, Any]:
    """The calculator request that the example's givens amount to."""
    givens = {g["symbol"]: float(g["value"]) for g in example["givens"]}
    given = {}
    for symbol, rule in covered["given"].items():
        formula, _, unit = (part.strip() for part in rule.partition("|"))
        given[symbol] = f"{evaluate(parse(formula), givens)!r} {unit}".strip()
    return {"calculator": covered["calculator"], "given": given, "choices": covered.get("choices", {}), "units": "si"}


def in_printed_unit(si: float, unit: str) -> float:
    if not unit:
        return si
    unit = {"lb": "lbf", "deg": "°"}.get(unit, unit)
    return si / factor(unit_named(unit) or unit)


@pytest.mark.parametrize("name", sorted(COVERED))
def test_the_printed_answer_of(name: str) -> None:
    example, covered = EXAMPLES[name], COVERED[name]
    answer = calc.answer(request_for(covered, example))
    assert answer["errors"] == [], example["source"]
    asks = {ask["symbol"]: ask for ask in example["asks"]}
    for asked, symbol in covered["asks"].items():
        ask = asks[asked]
        got = in_printed_unit(answer["values"][symbol]["si"], ask["unit"])
        off, slack = got - ask["value"], 1e-9 * max(1.0, abs(got))
        allowed = {"half": ask["ulp"] / 2, "ulp": ask["ulp"]}
        if ask["rounding"] == "trunc":
            assert -slack <= off < ask["ulp"] + slack, example["source"]
        else:
            assert abs(off) <= allowed[ask["rounding"]] + slack, (symbol, got, ask["printed"], example["source"])


def test_at_least_twelve_examples_on_lever_and_inclined_plane_are_covered() -> None:
    used = [name for name, covered in COVERED.items() if covered["calculator"] in ("lever", "ramp")]
    assert len(used) >= 12
    assert sum(EXAMPLES[name]["evidence"] == "source-text" for name in used) >= 12


def test_every_kind_has_units_that_it_accepts() -> None:
    for kind in KINDS.values():
        assert (kind.us in kind.units and kind.si in kind.units) or not kind.us or kind.name == "mass"
