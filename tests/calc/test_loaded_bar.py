"""The bar with several loads: balance checked about points that the formula never uses, and against the lever."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.calc.asking import LBF, ask, field, sizes, values

FORCE = st.floats(1, 500)
PLACE = sizes(-4, 4)
LOADS = st.lists(st.tuples(FORCE, PLACE), min_size=1, max_size=6)
DIRECTIONS = ("down", "up")


def boxes(
    loads: list[tuple[float, float]], w: float, x_c: float, x_f: float, x_E: float, shift: float = 0.0, sense: int = 1
) -> dict[str, str]:
    """What is typed for a bar; all places moved by ``shift``, mirrored for ``sense`` -1."""
    given_ = {"w": f"{w!r} N"}
    for symbol, place in (("x_c", x_c), ("x_f", x_f), ("x_E", x_E)):
        given_[symbol] = f"{sense * place + shift!r} m"
    for i, (force, place) in enumerate(loads, 1):
        given_ |= {f"F_{i}": f"{force!r} N", f"x_{i}": f"{sense * place + shift!r} m"}
    return given_


def balanced(**given_: str) -> tuple[str, dict[str, float]]:
    """The way of pushing that balances, and the values."""
    for direction in DIRECTIONS:
        answer = ask("loaded-bar", "si", {"direction": direction}, **given_)
        if not answer["errors"]:
            return direction, {symbol: entry["si"] for symbol, entry in answer["values"].items()}
    raise AssertionError("neither way balances")


def pivot_force(v: dict[str, float]) -> float:
    """What the pivot does, up above zero."""
    return v["N"] if "N" in v else -v["N_down"] if "N_down" in v else 0.0


@given(LOADS, sizes(0, 300), PLACE, PLACE, PLACE, sizes(-9, 9))
def test_forces_balance_and_moments_vanish_about_any_point(
    loads: list[tuple[float, float]], w: float, x_c: float, x_f: float, x_E: float, about: float
) -> None:
    """V18. Forces summed with their signs, moments about a point that has nothing to do with the pivot."""
    assume(abs(x_E - x_f) > 0.05)
    turning = sum(f * (x_f - x) for f, x in loads) + w * (x_f - x_c)
    assume(abs(turning / (x_E - x_f)) > 0.1 and abs(turning / (x_E - x_f)) < 80000)
    direction, v = balanced(**boxes(loads, w, x_c, x_f, x_E))
    effort = v["E"] if direction == "down" else -v["E"]
    acting = [*loads, (w, x_c), (effort, x_E), (-pivot_force(v), x_f)]
    size = sum(abs(force) for force, _ in acting)
    assert abs(sum(force for force, _ in acting)) < 1e-9 * size
    assert abs(sum(force * (x - about) for force, x in acting)) < 1e-8 * size * 13


@given(LOADS, sizes(0, 300), PLACE, PLACE, PLACE, sizes(-9, 9))
def test_counting_from_another_mark_changes_nothing(
    loads: list[tuple[float, float]], w: float, x_c: float, x_f: float, x_E: float, shift: float
) -> None:
    """V17, first half."""
    assume(abs(x_E - x_f) > 0.05)
    turning = sum(f * (x_f - x) for f, x in loads) + w * (x_f - x_c)
    assume(0.5 < abs(turning / (x_E - x_f)) < 50000)
    way, one = balanced(**boxes(loads, w, x_c, x_f, x_E))
    again, two = balanced(**boxes(loads, w, x_c, x_f, x_E, shift))
    assert way == again
    assert two["E"] == pytest.approx(one["E"], rel=1e-9)
    assert pivot_force(two) == pytest.approx(pivot_force(one), rel=1e-9, abs=1e-7)


@given(LOADS, sizes(0, 300), PLACE, PLACE, PLACE, FORCE)
def test_a_load_on_the_pivot_changes_the_pivot_force_only(
    loads: list[tuple[float, float]], w: float, x_c: float, x_f: float, x_E: float, more: float
) -> None:
    """V17, second half."""
    assume(abs(x_E - x_f) > 0.05 and len(loads) < 6)
    turning = sum(f * (x_f - x) for f, x in loads) + w * (x_f - x_c)
    assume(0.5 < abs(turning / (x_E - x_f)) < 50000)
    _, one = balanced(**boxes(loads, w, x_c, x_f, x_E))
    _, two = balanced(**boxes([*loads, (more, x_f)], w, x_c, x_f, x_E))
    assert two["E"] == pytest.approx(one["E"], rel=1e-12)
    assert pivot_force(two) - pivot_force(one) == pytest.approx(more, rel=1e-6, abs=1e-6)


@given(LOADS, sizes(0, 300), PLACE, PLACE, PLACE)
def test_a_mirrored_bar_needs_the_same(
    loads: list[tuple[float, float]], w: float, x_c: float, x_f: float, x_E: float
) -> None:
    """V20."""
    assume(abs(x_E - x_f) > 0.05)
    turning = sum(f * (x_f - x) for f, x in loads) + w * (x_f - x_c)
    assume(0.5 < abs(turning / (x_E - x_f)) < 50000)
    way, one = balanced(**boxes(loads, w, x_c, x_f, x_E))
    again, two = balanced(**boxes(loads, w, x_c, x_f, x_E, sense=-1))
    assert (way, pivot_force(two)) == (again, pytest.approx(pivot_force(one), rel=1e-12, abs=1e-9))
    assert two["E"] == pytest.approx(one["E"], rel=1e-12)


@given(FORCE, st.floats(0.05, 4), st.floats(0.05, 4))
def test_without_weight_and_with_one_load_it_is_the_lever(R: float, aR: float, aE: float) -> None:
    """V19, for the lever with its pivot between."""
    lever = values("lever", "si", R=f"{R!r} N", aR=f"{aR!r} m", aE=f"{aE!r} m")
    bar = values("loaded-bar", "si", **boxes([(R, 0.0)], 0.0, 1.0, aR, aR + aE))
    assert bar["E"] == pytest.approx(lever["E"], rel=1e-9)
    assert bar["N"] == pytest.approx(lever["N"], rel=1e-9)


@given(LOADS, st.floats(1, 300), PLACE, PLACE, PLACE, st.sampled_from(["x_f", "x_E", "F_1", "x_1"]))
def test_it_solves_back(
    loads: list[tuple[float, float]], w: float, x_c: float, x_f: float, x_E: float, asked: str
) -> None:
    """V3. A place is known no better than the numbers that it hangs on: to 1e-7 of the bar."""
    assume(abs(x_E - x_f) > 0.05)
    turning = sum(f * (x_f - x) for f, x in loads) + w * (x_f - x_c)
    assume(0.5 < abs(turning / (x_E - x_f)) < 50000)
    full = boxes(loads, w, x_c, x_f, x_E)
    direction, v = balanced(**full)
    down = sum(f for f, _ in loads) + w + (v["E"] if direction == "down" else -v["E"])
    assume(abs(down) > 0.5 and abs(loads[0][1] - x_f) > 0.05)
    rest = {symbol: text for symbol, text in full.items() if symbol != asked} | {"E": f"{v['E']!r} N"}
    again = ask("loaded-bar", "si", {"direction": direction}, **rest)
    assert again["values"][asked]["si"] == pytest.approx(v[asked], rel=1e-7, abs=8e-7), again["errors"]


def test_a_push_on_the_load_s_side_cannot_balance() -> None:
    answer = ask("loaded-bar", B="96", w="20", x_f="24", F_1="150", x_1="0", x_E="12")
    assert field(answer, "E")["error"]["code"] == "e-noeq"
    assert "already overbalances by 260 lbf" in answer["html"]["sentence"]  # (150 x 24 - 20 x 24)/12, by hand
    assert [note["code"] for note in answer["notes"]] == ["n-anticlockwise"]
    pulled = ask("loaded-bar", "us", {"direction": "up"}, B="96", w="20", x_f="24", F_1="150", x_1="0", x_E="12")
    assert pulled["errors"] == []


def test_an_effort_on_the_pivot_has_no_arm() -> None:
    answer = ask("loaded-bar", B="96", w="20", x_f="2 ft", F_1="150", x_1="0", x_E="24")
    assert [error["code"] for error in answer["errors"]] == ["e-arm"]


def test_a_long_heavy_side_helps_and_the_answer_says_so() -> None:
    """By hand: (40 x 24 - 20 x 24)/72 with the bar's weight, 40 x 24/72 without."""
    answer = ask("loaded-bar", B="96", w="20", x_f="24", F_1="40", x_1="0", x_E="96")
    assert "n-selfhelp" in [note["code"] for note in answer["notes"]]
    assert answer["values"]["E"]["si"] / LBF == pytest.approx(480 / 72)
    assert answer["values"]["E_0"]["si"] / LBF == pytest.approx(960 / 72)
    assert "the bar helps by 6.67 lbf" in answer["html"]["sentence"]


def test_the_pivot_may_have_to_hold_the_bar_down() -> None:
    """By hand: a load of 30 lbf at 4 ft lifted at 1 ft takes 120 lbf, so the pivot holds down 90."""
    answer = ask("loaded-bar", "us", {"direction": "up"}, w="0", x_c="1", x_f="0", F_1="30", x_1="4 ft", x_E="1 ft")
    assert answer["values"]["N_down"]["si"] / LBF == pytest.approx(90)
    assert "N" not in answer["values"]
    assert "n-helddown" in [note["code"] for note in answer["notes"]]


def test_a_measured_effort_is_no_contradiction() -> None:
    answer = ask("loaded-bar", B="96", w="20", x_f="24", F_1="40", x_1="0", x_E="96", E="8")
    assert answer["errors"] == []
    assert answer["fields"]["E"]["state"] == "measured"


def test_zero_is_a_place_that_can_be_found() -> None:
    answer = ask("loaded-bar", w="0", x_c="48", x_f="24", F_1="40", x_E="96", E="13.3333333333333333")
    assert answer["errors"] == []
    assert answer["values"]["x_1"]["si"] == pytest.approx(0, abs=1e-9)
