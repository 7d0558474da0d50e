"""The solver on small relations with known roots: which step comes first, what a search finds, and why a step fails."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any

import pytest
import uncertainties

from calc.model import Relation
from calc.solve import (
    ASSUMED,
    DIRECT,
    GATHERED,
    SEARCHED,
    TURNED,
    Bounds,
    Solution,
    Step,
    plan,
    reach,
    relation_symbols,
    run,
    told,
)


def steps(known: str, *relations: str, defaults: tuple[tuple[str, str], ...] = ()) -> tuple[Step, ...]:
    return plan(tuple((text, f"Words of {text}.") for text in relations), frozenset(known.split()), defaults)


def order(found: tuple[Step, ...]) -> list[tuple[str, str]]:
    return [(step.symbol, step.how) for step in found]


def solved(
    relation: str,
    low: float,
    high: float,
    stops: Callable[[Mapping[str, Any]], bool] = lambda values: True,
    **given: Any,
) -> Solution:
    """The one unknown x of a relation."""
    return run(steps(" ".join(given), relation), given, {"x": Bounds(low, high)}, stops)


def test_the_cheapest_step_comes_first_and_like_ones_in_declared_order() -> None:
    found = steps("b c", "b = q*c", "p = x*x - b", "x = b + c", "y = b - c", "c = x*z + y*z")
    assert order(found) == [("x", DIRECT), ("p", DIRECT), ("y", DIRECT), ("q", TURNED), ("z", GATHERED)]
    assert found[0].relation == Relation("x = b + c", "Words of x = b + c.")
    assert order(steps("b", "b = q*b", "b = p*b")) == [("q", TURNED), ("p", TURNED)]
    assert order(steps("a", "a = x*x", "a = 2*y")) == [("y", TURNED), ("x", SEARCHED)]


def test_what_stands_in_a_floor_is_no_step_and_holds_no_other_up() -> None:
    assert order(steps("n", "n = floor(a)", "n = b*2")) == [("b", TURNED)]


def test_nothing_follows_from_too_little() -> None:
    assert steps("a", "a = b + c") == ()
    assert reach((("a = b + c", ""), ("d = 2*a", "")), {"a"}) == {"a", "d"}


def test_a_default_is_assumed_only_where_nothing_else_moves() -> None:
    defaults = (("c", "2*z"), ("b", "a/2"), ("c", "1"), ("a", "5"))
    found = steps("a", "d = a + b", "e = c*d", defaults=defaults)
    assert order(found) == [("b", ASSUMED), ("d", DIRECT), ("c", ASSUMED), ("e", DIRECT)]
    assert found[0].relation == Relation("b = a/2")
    assert run(found, {"a": 4.0}, {}).values == {"a": 4, "b": 2, "d": 6, "c": 1, "e": 6}


def test_a_failed_step_says_why_and_stops_only_what_needs_it() -> None:
    relations = ("p = sqrt(a)", "q = 1/b", "r = exp(c)", "s = c*1e308", "t = 2*p", "u = 2*c", "a = x*x", "c = 10*y*y")
    limits = dict.fromkeys("xy", Bounds(0, 31))
    solution = run(steps("a b c", *relations), {"a": -1.0, "b": 0.0, "c": 1000.0}, limits)
    assert solution.failed == {"p": "domain", "q": "domain", "r": "big", "s": "big", "x": "noroot"}
    assert solution.values == {"a": -1, "b": 0, "c": 1000, "u": 2000, "y": 10}
    assert [step.symbol for step in solution.steps] == ["u", "y"]


def test_a_relation_names_each_symbol_once_as_it_is_read() -> None:
    assert relation_symbols("c = b + a*c + pi") == ("c", "b", "a")


def test_what_is_given_stays_as_it_was() -> None:
    given = {"a": 1.0}
    run(steps("a", "b = 2*a"), given, {})
    assert given == {"a": 1.0}


@pytest.mark.parametrize(
    ("relation", "low", "high", "given", "root", "other"),
    [
        ("y = x*x", 0, 10, {"y": 2.0}, math.sqrt(2), None),
        ("y = x*x", 0, 3.1, {"y": 2.25}, 1.5, None),
        ("y = x*x", 0, 240, {"y": 3.25}, math.sqrt(3.25), None),
        ("y = x*(3 - x)", 0, 3.7, {"y": 2.0}, 1, 2),
        ("y = x*(3 - x)", 0, 4, {"y": 2.0}, 1, 2),
        ("y = x*(3 - x)", 1, 1.5, {"y": 2.0}, 1, None),
        ("y = x*(3 - x)", 0.3, 1, {"y": 2.0}, 1, None),
        ("y = x*(3 - x)", 1, 2, {"y": 2.0}, 1, 2),
        ("y = x*(3 - x)", 1.2, 3.7, {"y": 2.0}, 2, None),
        ("y = x**2/(x - 2)", 0, 3.1, {"y": -1.0}, 1, None),
        ("y = x*sqrt(x - 1)", 0, 3.1, {"y": 1.5 * math.sqrt(0.5)}, 1.5, None),
        ("x*x = y", -3, 0, {"y": 4.0}, -2, None),
        ("y = x*x*x + x", -1, 1, {"y": 0.0}, 0, None),
    ],
)
def test_a_search_finds_the_smallest_root_in_its_limits_and_tells_of_another(
    relation: str, low: float, high: float, given: dict[str, float], root: float, other: float | None
) -> None:
    """By school algebra: x(3 - x) = 2 at 1 and 2, x^2/(x - 2) = -1 at 1 in front of its pole at 2."""
    solution = solved(relation, low, high, **given)
    assert solution.values["x"] == pytest.approx(root, rel=1e-15, abs=1e-15)
    assert solution.other_roots == ({} if other is None else {"x": pytest.approx(other, rel=1e-15)})
    assert [step.how for step in solution.steps] == [SEARCHED]


@pytest.mark.parametrize(
    ("relation", "low", "high", "given"),
    [
        ("y = x*(3 - x)", 3, 4, {"y": 2.0}),
        ("y = x*(3 - x)", 1.2, 1.998, {"y": 2.0}),
        ("y = x**2/(x - 2)", 1.5, 3.1, {"y": -1.0}),
        ("y = x*sqrt(x - 1)", 0, 0.5, {"y": 1.0}),
    ],
)
def test_a_search_takes_no_pole_for_a_root_and_none_beyond_its_limits(
    relation: str, low: float, high: float, given: dict[str, float]
) -> None:
    assert solved(relation, low, high, **given).failed == {"x": "noroot"}


def test_a_root_must_hold_what_stops() -> None:
    solution = solved("y = x*(3 - x)", 0, 3.7, lambda values: values["x"] * values["y"] > 3, y=2.0)
    assert solution.values["x"] == pytest.approx(2)
    assert solution.other_roots == {}


@pytest.mark.parametrize(
    ("relation", "y", "root", "slope"),
    [("y = x*x", 2.0, math.sqrt(2), 2 * math.sqrt(2)), ("y = x*x*x + x", 0.0, 0.0, 1.0), ("y = exp(x) + x", 1.0, 0, 2)],
)
def test_a_doubt_is_carried_through_a_search(relation: str, y: float, root: float, slope: float) -> None:
    """dx = dy / f'(x), the derivative by hand."""
    found = solved(relation, -1 if root == 0 else 0, 3.1, y=uncertainties.ufloat(y, 0.01)).values["x"]
    assert uncertainties.nominal_value(found) == pytest.approx(root, abs=1e-12)
    assert uncertainties.std_dev(found) == pytest.approx(0.01 / slope, rel=1e-6)


@pytest.mark.parametrize("relation", ["sin(a) = x*x", "x*x = sin(a)", "0*sin(a) = x*x - sin(a)"])
def test_a_doubt_is_carried_through_a_function_in_a_search(relation: str) -> None:
    """x = sqrt(sin a), so dx = cos(a) da / (2 x)."""
    found = solved(relation, 0, 3.1, a=uncertainties.ufloat(0.5, 0.01)).values["x"]
    assert uncertainties.std_dev(found) == pytest.approx(0.01 * math.cos(0.5) / (2 * math.sqrt(math.sin(0.5))))


def test_a_doubt_from_a_search_still_belongs_to_what_it_came_from() -> None:
    """What is squared again is as sure of its source as before: x * x / y is 1."""
    y = uncertainties.ufloat(2.0, 0.1)
    found = run(steps("y", "y = x*x", "q = x*x/y"), {"y": y}, {"x": Bounds(0, 3.1)}).values
    assert uncertainties.std_dev(found["x"]) > 0.01
    assert uncertainties.std_dev(found["q"]) < 1e-6


def test_a_doubt_that_cancels_is_taken_away_and_another_is_kept() -> None:
    a = uncertainties.ufloat(3.0, 0.1)
    found = run(steps("a", "b = a/a", "c = a + 1", "d = a*0", "e = sin(a)"), {"a": a}, {}).values
    assert [(type(found[name]), found[name]) for name in "bd"] == [(float, 1), (float, 0)]
    assert uncertainties.std_dev(found["c"]) == pytest.approx(0.1)
    assert uncertainties.std_dev(found["e"]) == pytest.approx(0.1 * abs(math.cos(3)))


def test_a_doubt_elsewhere_brings_no_noise_to_light() -> None:
    """Square to the way a pull does no work, however large it is; and a - a is nothing."""
    for F in (3.0, uncertainties.ufloat(3.0, 0.1)):
        found = run(steps("F g", "W = F*cos(g)", "S = F*sin(g)"), {"F": F, "g": math.pi / 2}, {}).values
        assert (found["W"], uncertainties.std_dev(found["S"])) == (0, uncertainties.std_dev(F))
        assert run(steps("F", "D = 0.3*F - F*0.1*3"), {"F": F}, {}).values["D"] == 0


def test_the_working_tells_each_step_just_before_it_is_needed() -> None:
    found = steps("a", "b = 2*a", "c = 3*a", "d = c + 1", "e = b + d", "f = a + 9")
    assert [step.symbol for step in told(found, ["d", "e", "d"])] == ["c", "d", "b", "e"]
    assert told(found, ["a", "no-such"]) == []
