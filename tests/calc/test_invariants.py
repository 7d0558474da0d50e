"""What must hold for any numbers within the limits of the boxes; physics checked by other routes."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from calc.registry import CALCULATORS
from tests.calc.asking import ask, sizes, values

FORCE = st.floats(1, 5000)
ARM = st.floats(0.05, 5)
MU = st.floats(0.01, 1.2)
LENGTH = st.floats(0.5, 10)
PART = st.floats(0.02, 0.95)
CLASSES = st.sampled_from(["1", "2", "3"])


def si(x: float, unit: str = "") -> str:
    return f"{x!r} {unit}".strip()


def arms_for(order: str, a: float, b: float) -> tuple[float, float]:
    low, high = sorted((a, b))
    return (low, high) if order != "3" else (high, low)


@given(FORCE, ARM, ARM, CLASSES)
def test_moments_balance_and_the_pivot_carries_the_rest(R: float, a: float, b: float, order: str) -> None:
    """Force balance and moments about the LOAD, not the pivot: another sum than the one that gave the effort."""
    assume(abs(a - b) > 0.01)
    aR, aE = arms_for(order, a, b)
    v = values("lever", "si", {"class": order}, R=si(R, "N"), aR=si(aR, "m"), aE=si(aE, "m"))
    E, N = v["E"], v["N"]
    if order == "1":  # load and effort down, pivot up between them
        assert pytest.approx(N * aR, rel=1e-9) == E * (aR + aE)
    elif order == "2":  # load down, effort and pivot up
        assert pytest.approx(E * (aE - aR), rel=1e-9, abs=1e-9 * R * aR) == N * aR
    else:  # load down and pivot down, effort up between them
        assert pytest.approx(N * aR, rel=1e-9, abs=1e-9 * R * aR) == E * (aR - aE)
    assert v["IMA"] > 1 if order == "2" else True
    assert v["IMA"] < 1 if order == "3" else True


@given(FORCE, ARM, ARM, st.floats(0.001, 0.04), MU, CLASSES)
def test_pin_friction_only_ever_costs_effort(R: float, a: float, b: float, r_p: float, mu: float, order: str) -> None:
    assume(abs(a - b) > 0.01)
    aR, aE = arms_for(order, a, b)
    given_ = {"R": si(R, "N"), "aR": si(aR, "m"), "aE": si(aE, "m")}
    ideal = values("lever", "si", {"class": order}, **given_)["E"]
    low = values("lever", "si", {"class": order}, **given_, r_p=si(r_p, "m"), mu=si(mu / 2))["E"]
    high = values("lever", "si", {"class": order}, **given_, r_p=si(r_p, "m"), mu=si(mu))["E"]
    assert ideal <= low * (1 + 1e-12) <= high * (1 + 1e-9)


@given(FORCE, ARM, ARM)
def test_swapping_the_two_ends_inverts_the_ideal_advantage(R: float, a: float, b: float) -> None:
    there = values("lever", "si", R=si(R, "N"), aR=si(a, "m"), aE=si(b, "m"))["IMA"]
    back = values("lever", "si", R=si(R, "N"), aR=si(b, "m"), aE=si(a, "m"))["IMA"]
    assert there * back == pytest.approx(1, rel=1e-12)


@given(FORCE, LENGTH, PART, MU)
def test_a_ramp_balances_in_two_directions(R: float, L: float, part: float, mu: float) -> None:
    """Forces summed level and upright (not along and square to the plank, which is how the formula was found)."""
    h = L * part
    v = values("ramp", "si", R=si(R, "N"), L=si(L, "m"), h=si(h, "m"), mu=si(mu))
    t, E, N, F = v["theta"], v["E"], v["N"], v["F_f"]
    level = E * math.cos(t) - N * math.sin(t) - F * math.cos(t)
    upright = E * math.sin(t) + N * math.cos(t) - F * math.sin(t) - R
    assert abs(level) < 1e-9 * R
    assert abs(upright) < 1e-9 * R


@given(FORCE, LENGTH, PART, MU, sizes(-0.4, 0.9))
def test_energy_closes_for_a_rope_at_an_angle(R: float, L: float, part: float, mu: float, delta: float) -> None:
    h = L * part
    answer = ask(
        "ramp", "si", {"pull": "angled"}, R=si(R, "N"), L=si(L, "m"), h=si(h, "m"), mu=si(mu), delta=si(delta, "rad")
    )
    assume(not answer["errors"])
    v = {s: x["si"] for s, x in answer["values"].items()}
    assert v["E"] * math.cos(delta) * L == pytest.approx(R * h + mu * v["N"] * L, rel=1e-9)


@given(FORCE, LENGTH, PART, MU)
def test_up_and_held_pulls_sum_to_twice_the_slope_part(R: float, L: float, part: float, mu: float) -> None:
    h = L * part
    given_ = {"R": si(R, "N"), "L": si(L, "m"), "h": si(h, "m"), "mu": si(mu), "mu_s": si(mu)}
    up = values("ramp", "si", {"motion": "up"}, **given_)["E"]
    held = values("ramp", "si", {"motion": "hold"}, **given_)["E"]
    assert up >= held
    if held > 0:
        assert up + held == pytest.approx(2 * R * h / L, rel=1e-9)


@given(FORCE, LENGTH, PART, MU)
def test_a_load_that_stays_by_itself_means_at_most_half_efficiency(R: float, L: float, part: float, mu: float) -> None:
    h = L * part
    answer = ask("ramp", "si", R=si(R, "N"), L=si(L, "m"), h=si(h, "m"), mu=si(mu))
    stays = any(note["code"] == "n-stays" for note in answer["notes"])
    assert stays == (math.tan(math.asin(part)) <= mu)
    if stays:
        assert answer["values"]["eta"]["si"] <= 0.5 + 1e-12


@given(FORCE, LENGTH, st.floats(0.05, 0.6), MU)
def test_the_easiest_rope_angle_is_the_friction_angle(R: float, L: float, part: float, mu: float) -> None:
    """V38: least at delta = phi, and there R sin(theta + phi); found by trying the neighbours."""
    theta, phi = math.asin(part), math.atan(mu)
    assume(theta + phi < 1.5 and phi < 1.2)

    def pull(delta: float) -> float:
        return values(
            "ramp",
            "si",
            {"pull": "angled"},
            R=si(R, "N"),
            L=si(L, "m"),
            h=si(L * part, "m"),
            mu=si(mu),
            delta=si(delta, "rad"),
        )["E"]

    best = pull(phi)
    assert best == pytest.approx(R * math.sin(theta + phi), rel=1e-9)
    assert best <= min(pull(phi + 0.02), pull(phi - 0.02)) * (1 + 1e-12)


@given(FORCE, LENGTH, PART, MU)
def test_a_level_push_is_never_the_smaller_one(R: float, L: float, part: float, mu: float) -> None:
    assume(math.asin(part) + math.atan(mu) < 1.5)
    given_ = {"R": si(R, "N"), "L": si(L, "m"), "h": si(L * part, "m"), "mu": si(mu)}
    assert values("ramp", "si", {"pull": "level"}, **given_)["E"] >= values("ramp", "si", **given_)["E"]


@given(FORCE, LENGTH, st.floats(0.05, 0.6), st.floats(0.02, 0.5))
def test_a_longer_ramp_needs_less_effort(R: float, L: float, part: float, mu: float) -> None:
    h = L * part
    short = values("ramp", "si", R=si(R, "N"), L=si(L, "m"), h=si(h, "m"), mu=si(mu))["E"]
    long = values("ramp", "si", R=si(R, "N"), L=si(L * 1.5, "m"), h=si(h, "m"), mu=si(mu))["E"]
    assert long < short


@given(LENGTH, PART)
def test_any_two_sides_of_the_triangle_give_the_rest(L: float, part: float) -> None:
    h = L * part
    b, theta = math.sqrt(L * L - h * h), math.asin(part)
    full = {"L": (L, "m"), "h": (h, "m"), "b": (b, "m"), "theta": (theta, "rad")}
    names = list(full)
    for i, first in enumerate(names):
        for second in names[i + 1 :]:
            v = values("ramp", "si", **{s: si(*full[s]) for s in (first, second)})
            assert [v[s] for s in names] == pytest.approx([full[s][0] for s in names], rel=2e-7)


def close_the_circle(key: str, choices: dict[str, str], full: dict[str, str], asked: str) -> None:
    """Take one box out of a full set, work it out, and compare (V3)."""
    before = values(key, "si", choices, **full)
    rest = {s: t for s, t in full.items() if s != asked}
    answer = ask(key, "si", choices, **rest)
    assert asked in answer["values"], (key, asked, answer["errors"])
    again = answer["values"][asked]["si"]
    others = [n for n in answer["notes"] if n["code"] == "n-root2"]
    assert again == pytest.approx(before[asked], rel=1e-7) or others, (key, asked)


@given(FORCE, ARM, ARM, st.floats(0.2, 1), CLASSES, st.sampled_from(["R", "aR", "aE", "eta", "E"]))
def test_a_lever_solves_back(R: float, a: float, b: float, eta: float, order: str, asked: str) -> None:
    assume(abs(a - b) > 0.02)
    aR, aE = arms_for(order, a, b)
    E = R * aR / aE / eta
    assume(0.1 < E < 80000)
    full = {"R": si(R, "N"), "aR": si(aR, "m"), "aE": si(aE, "m"), "eta": si(eta * 100, "%"), "E": si(E, "N")}
    close_the_circle("lever", {"class": order}, {s: t for s, t in full.items() if s != "eta" or asked != "eta"}, asked)


@settings(deadline=None)
@given(FORCE, LENGTH, st.floats(0.05, 0.5), st.floats(0.05, 0.5), st.sampled_from(["R", "L", "h", "mu", "E"]))
def test_a_ramp_solves_back(R: float, L: float, part: float, mu: float, asked: str) -> None:
    h = L * part
    E = R * (part + mu * math.sqrt(1 - part * part))
    full = {"R": si(R, "N"), "L": si(L, "m"), "h": si(h, "m"), "mu": si(mu), "E": si(E, "N")}
    close_the_circle("ramp", {}, full, asked)


@given(FORCE, LENGTH, LENGTH, st.floats(0.2, 1), st.sampled_from(["R", "dE", "dR", "E", "eta"]))
def test_any_machine_solves_back(R: float, dE: float, dR: float, eta: float, asked: str) -> None:
    E = R * dR / dE / eta
    assume(0.1 < E < 80000)
    full = {"R": si(R, "N"), "dE": si(dE, "m"), "dR": si(dR, "m"), "E": si(E, "N"), "eta": si(eta * 100, "%")}
    close_the_circle("any-machine", {}, full, asked)


@given(FORCE, LENGTH, PART, MU, st.floats(0.5, 10))
def test_forces_scale_and_ratios_stay(R: float, L: float, part: float, mu: float, c: float) -> None:
    shape = {"L": si(L, "m"), "h": si(L * part, "m"), "mu": si(mu)}
    one = values("ramp", "si", R=si(R, "N"), **shape)
    many = values("ramp", "si", R=si(R * c, "N"), **shape)
    for s in ("E", "N", "F_f"):
        assert many[s] == pytest.approx(one[s] * c, rel=1e-12)
    for s in ("IMA", "AMA", "eta"):
        assert many[s] == pytest.approx(one[s], rel=1e-12)


@given(FORCE, st.floats(0.2, 3), st.floats(0.05, 0.3), MU)
def test_units_do_not_matter(R: float, L: float, part: float, mu: float) -> None:
    metric = values("ramp", "si", R=si(R, "N"), L=si(L, "m"), h=si(L * part, "m"), mu=si(mu))
    customary = values(
        "ramp",
        "us",
        R=si(R / 4.4482216152605, "lbf"),
        L=si(L / 0.0254, "in"),
        h=si(L * part / 0.3048, "ft"),
        mu=si(mu),
    )
    assert {s: customary[s] for s in metric} == pytest.approx(metric, rel=1e-11)


@given(FORCE, st.floats(0.1, 5), st.lists(st.floats(1, 20), min_size=2, max_size=8, unique=True), st.floats(0.2, 1))
def test_same_work_on_every_row(R: float, h: float, advantages: list[float], eta: float) -> None:
    rows = {f"IMA_{i}": si(x) for i, x in enumerate(sorted(advantages), 1)}
    v = values("same-work", "si", R=si(R, "N"), h=si(h, "m"), eta=si(eta * 100, "%"), **rows)
    n = len(rows)
    assert [v[f"Win_{i}"] for i in range(1, n + 1)] == pytest.approx([R * h / eta] * n, rel=1e-9)
    assert all(v[f"dE_{i}"] < v[f"dE_{i + 1}"] and v[f"E_{i}"] > v[f"E_{i + 1}"] for i in range(1, n))


@pytest.mark.parametrize("key", CALCULATORS)
def test_actual_advantage_is_ideal_times_efficiency(key: str) -> None:
    import calc

    answer = calc.answer(calc.example(key))
    v = {s: x["si"] for s, x in answer["values"].items()}
    if {"AMA", "IMA", "eta"} <= set(v):
        assert v["AMA"] == pytest.approx(v["IMA"] * v["eta"], rel=1e-12)
        assert v["Wout"] == pytest.approx(v["eta"] * v["Win"], rel=1e-9)
