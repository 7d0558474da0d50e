"""Single pulley, chain hoist and rope round a post: what must hold, and what books print."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from calc.units import factor
from tests.calc.asking import INCH, ask, values

FORCE = st.floats(1, 5000)
WEIGHT = st.floats(0.1, 500)
K = st.floats(0.55, 0.999)
LIFT = st.floats(0.05, 3)
LEAN = st.floats(0.01, 1.4)
MU = st.floats(0.01, 0.6)
TURNS = st.floats(0.1, 4)
KINDS = st.sampled_from(["fixed", "movable"])


def si(x: float, unit: str = "") -> str:
    return f"{x!r} {unit}".strip()


def single(kind: str, **given_: str) -> dict[str, float]:
    return values("single-pulley", "si", {"kind": kind}, **given_)


@given(FORCE, WEIGHT)
def test_a_moving_pulley_with_upright_parts_halves_load_and_block(R: float, w: float) -> None:
    upright = single("movable", R=si(R, "N"), w=si(w, "N"))
    leaning = single("leaning", R=si(R, "N"), w=si(w, "N"), beta="0")
    assert upright["E"] == pytest.approx((R + w) / 2, rel=1e-12)
    assert leaning["E"] == pytest.approx((R + w) / 2, rel=1e-12)


@given(FORCE, LEAN, st.floats(0.001, 0.05))
def test_parts_that_lean_more_pull_harder(R: float, lean: float, more: float) -> None:
    a, b = (single("leaning", R=si(R, "N"), beta=si(x, "rad"))["E"] for x in (lean, lean + more))
    assert b > a


@given(FORCE, WEIGHT, LEAN, st.floats(0.2, 3))
def test_a_leaning_rope_does_the_work_of_the_lift(R: float, w: float, lean: float, span: float) -> None:
    """By virtual work: the rope between two points a span apart, shortened by a hair, lifts the pulley by another."""
    E = single("leaning", R=si(R, "N"), w=si(w, "N"), beta=si(lean, "rad"))["E"]
    depth = span / 2 / math.tan(lean)
    hair = depth * 1e-4

    def rope(y: float) -> float:
        return 2 * math.hypot(span / 2, y)

    taken_in = rope(depth + hair) - rope(depth - hair)
    assert E * taken_in == pytest.approx((R + w) * 2 * hair, rel=1e-5)


@given(FORCE, WEIGHT, K, LIFT, KINDS)
def test_the_forces_on_a_pulley_with_friction_balance(R: float, w: float, k: float, h: float, kind: str) -> None:
    """Rope walk: the hand's tension, then k times it past the one sheave; up and, with 1/k, down."""
    v = single(kind, R=si(R, "N"), w=si(w, "N"), k=si(k * 100, "%"), h=si(h, "m"))
    if kind == "fixed":
        assert v["E"] * k == pytest.approx(R, rel=1e-9)
        assert v["E_down"] / k == pytest.approx(R, rel=1e-9)
    else:
        assert v["E"] + v["E"] * k == pytest.approx(R + w, rel=1e-9)
        assert v["E_down"] + v["E_down"] / k == pytest.approx(R + w, rel=1e-9)
    assert v["E_down"] < v["E"]
    assert v["eta"] == pytest.approx(v["AMA"] / v["IMA"], rel=1e-12)


@given(FORCE, K, KINDS)
def test_two_readings_give_the_sheave_and_the_load(R: float, k: float, kind: str) -> None:
    """V3 for the lab: from the pull up and the pull down alone."""
    there = single(kind, R=si(R, "N"), k=si(k * 100, "%"))
    back = single(kind, E=si(there["E"], "N"), E_down=si(there["E_down"], "N"))
    assert back["k"] == pytest.approx(k, rel=1e-9)
    assert back["R"] == pytest.approx(R, rel=1e-7)


@given(FORCE, K, LIFT, KINDS, st.sampled_from(["E", "R", "k"]))
def test_a_single_pulley_solves_back(R: float, k: float, h: float, kind: str, asked: str) -> None:
    full = {"R": si(R, "N"), "k": si(k * 100, "%"), "h": si(h, "m")}
    before = single(kind, **full)
    full["E"] = si(before["E"], "N")
    again = single(kind, **{s: t for s, t in full.items() if s != asked})
    assert again[asked] == pytest.approx(before[asked], rel=1e-7)


def test_a_pull_too_small_for_load_and_pulley_is_said_to_be_so() -> None:
    answer = ask("single-pulley", R="20", w="2", h="12", E="10.5")
    assert [error["code"] for error in answer["errors"]] == ["e-toolight"]
    assert "k" not in answer["values"]
    assert answer["values"]["AMA"]["si"] == pytest.approx(20 / 10.5)


@given(FORCE, st.floats(0.05, 1), st.floats(0.1, 0.999))
def test_what_a_chain_hoist_gains_it_pays_in_chain(R: float, D: float, part: float) -> None:
    v = values("chain-hoist", "si", R=si(R, "N"), D=si(D, "m"), d=si(D * part, "m"))
    assert v["IMA"] * v["dR"] == pytest.approx(v["dE"], rel=1e-9)
    assert v["E"] * v["dE"] == pytest.approx(R * v["dR"], rel=1e-9)


@given(st.floats(0.05, 1), st.floats(0.1, 0.99), st.floats(0.1, 0.99))
def test_nearly_equal_wheels_have_the_greater_advantage(D: float, a: float, b: float) -> None:
    assume(abs(a - b) > 1e-6)
    low, high = sorted((a, b))
    less, more = (values("chain-hoist", "si", D=si(D, "m"), d=si(D * x, "m"))["IMA"] for x in (low, high))
    assert more > less
    assert values("chain-hoist", "si", D=si(D, "m"), d=si(D * 0.99999, "m"))["IMA"] > 1e5


@given(st.integers(4, 60), st.integers(3, 59), st.floats(0.005, 0.1))
def test_counting_pockets_is_as_good_as_measuring_wheels(large: int, small: int, pocket: float) -> None:
    assume(small < large)
    counted = values(
        "chain-hoist", "si", {"by": "pockets"}, N_D=str(large), N_d=str(small), p=si(pocket, "m"), R="100 N"
    )
    D, d = (number * pocket / math.pi for number in (large, small))
    measured = values("chain-hoist", "si", D=si(D, "m"), d=si(d, "m"), R="100 N")
    for symbol in ("IMA", "E", "dE", "dO", "dR"):
        assert counted[symbol] == pytest.approx(measured[symbol], rel=1e-9)


@given(FORCE, st.floats(0.05, 1), st.floats(0.3, 0.95), st.floats(0.2, 1), st.sampled_from(["E", "R", "D", "d", "eta"]))
def test_a_chain_hoist_solves_back(R: float, D: float, part: float, eta: float, asked: str) -> None:
    full = {"R": si(R, "N"), "D": si(D, "m"), "d": si(D * part, "m"), "eta": si(eta * 100, "%")}
    before = values("chain-hoist", "si", **full)
    assume(before["E"] > 0.1)
    full["E"] = si(before["E"], "N")
    again = values("chain-hoist", "si", **{s: t for s, t in full.items() if s != asked})
    assert again[asked] == pytest.approx(before[asked], rel=1e-7)


@pytest.mark.parametrize(("eta", "code"), [("40", "n-hoistholds"), ("50", "n-hoistholds"), ("60", "n-hoistruns")])
def test_up_to_half_efficiency_a_hoist_holds_by_itself(eta: str, code: str) -> None:
    """With the same loss both ways, lowering takes R(1 - (1/eta - 1)), which is below zero from a half down."""
    notes = ask("chain-hoist", R="100", D="10", d="9", eta=eta)["notes"]
    assert code in [note["code"] for note in notes]


def hauled_round(R: float, mu: float, beta: float, steps: int = 4000) -> float:
    """Tension at the other end, by stepping along the rope: dT = mu T d(beta), half a step at a time (Heun)."""
    T, step = R, beta / steps
    for _ in range(steps):
        slope = mu * T
        T += step * (slope + mu * (T + step * slope)) / 2
    return T


@given(FORCE, MU, TURNS, st.sampled_from(["ease", "up"]))
def test_a_rope_on_a_post_follows_its_friction_along_the_arc(R: float, mu: float, n: float, way: str) -> None:
    v = values("rope-on-post", "si", {"way": way}, R=si(R, "N"), mu=si(mu), n=si(n))
    sign = 1 if way == "up" else -1
    assert v["E"] == pytest.approx(hauled_round(R, sign * mu, 2 * math.pi * n), rel=1e-4)


@given(FORCE, MU, TURNS)
def test_holding_and_pulling_up_lie_evenly_about_the_load(R: float, mu: float, n: float) -> None:
    given_ = {"R": si(R, "N"), "mu": si(mu), "n": si(n)}
    hold, up = (values("rope-on-post", "si", {"way": way}, **given_)["E"] for way in ("ease", "up"))
    assert hold * up == pytest.approx(R * R, rel=1e-9)


@given(FORCE, MU, st.floats(0.1, 2), st.sampled_from(["E", "R", "mu", "n"]), st.sampled_from(["ease", "up"]))
def test_a_rope_on_a_post_solves_back(R: float, mu: float, n: float, asked: str, way: str) -> None:
    full = {"R": si(R, "N"), "mu": si(mu), "n": si(n)}
    before = values("rope-on-post", "si", {"way": way}, **full)
    assume(0.1 < before["E"] < 80000)
    full["E"] = si(before["E"], "N")
    again = values("rope-on-post", "si", {"way": way}, **{s: t for s, t in full.items() if s != asked})
    assert again[asked] == pytest.approx(before[asked], rel=1e-6)


def test_half_the_friction_takes_more_than_three_times_the_hold_at_one_and_a_half_turns() -> None:
    """exp(0.125 * 3 pi) = 3.2482, by hand."""
    v = values("rope-on-post", R="40", mu="0.25", n="1.5")
    assert v["E_half"] / v["E"] == pytest.approx(3.2482, rel=1e-4)


@pytest.mark.parametrize(("way", "E", "code"), [("ease", "50", "e-posthold"), ("up", "30", "e-postup")])
def test_an_effort_on_the_wrong_side_of_the_load_is_refused_in_words(way: str, E: str, code: str) -> None:
    answer = ask("rope-on-post", "us", {"way": way}, R="40", n="1", E=E)
    assert [error["code"] for error in answer["errors"]] == [code]


@given(st.integers(1, 12), LIFT, LIFT, st.floats(0.01, 0.2), LIFT, st.sampled_from(["disadvantage", "advantage"]))
def test_the_rope_of_a_tackle_is_all_its_runs(n: int, h: float, gap: float, D: float, tail: float, rove: str) -> None:
    """Walked from the dead end: a part, a half turn, a part, ... and the tail; half turns by chords of a circle."""
    v = values(
        "tackle-rope",
        "si",
        {"rove": rove},
        n=str(n),
        h=si(h, "m"),
        gap=si(gap, "m"),
        D_s=si(D, "m"),
        tail=si(tail, "m"),
    )
    chords = 20000
    half_turn = chords * D * math.sin(math.pi / 2 / chords)
    rope = tail
    for part in range(1, n + 1):
        rope += h + gap
        if part < n or rove == "disadvantage":
            rope += half_turn
    assert v["L"] == pytest.approx(rope, rel=1e-7)
    assert v["dE"] == pytest.approx(n * h, rel=1e-12)


@given(st.integers(1, 12), LIFT, LIFT, st.floats(0.01, 0.2), LIFT)
def test_a_given_rope_tells_how_far_it_lifts(n: int, h: float, gap: float, D: float, tail: float) -> None:
    rest = {"n": str(n), "gap": si(gap, "m"), "D_s": si(D, "m"), "tail": si(tail, "m")}
    L = values("tackle-rope", "si", h=si(h, "m"), **rest)["L"]
    assert values("tackle-rope", "si", L=si(L, "m"), **rest)["h"] == pytest.approx(h, rel=1e-7)


@given(FORCE, FORCE, st.floats(0.5, 3))
def test_units_do_not_matter_to_a_pulley(R: float, w: float, h: float) -> None:
    metric = single("movable", R=si(R, "N"), w=si(w, "N"), h=si(h, "m"), k="90")
    customary = values(
        "single-pulley",
        "us",
        R=si(R / factor("lbf"), "lbf"),
        w=si(w / factor("lbf"), "lbf"),
        h=si(h / INCH, "in"),
        k="90",
    )
    assert {s: customary[s] for s in metric} == pytest.approx(metric, rel=1e-11)
