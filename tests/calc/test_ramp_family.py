"""Ramp shape, cart, shortest ramp and tilt test: what must hold for any numbers, checked by other routes."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.calc.asking import ask, sizes, values

FORCE = st.floats(1, 5000)
LENGTH = st.floats(0.5, 10)
PART = st.floats(0.02, 0.95)
MU = st.floats(0.01, 1.2)
ROLLING = sizes(0.0, 0.3)
SHEAVE = st.floats(0.5, 1)


def si(x: float, unit: str = "") -> str:
    return f"{x!r} {unit}".strip()


def codes(answer: dict[str, object]) -> set[str]:
    notes, errors = answer["notes"], answer["errors"]
    assert isinstance(notes, list)
    assert isinstance(errors, list)
    return {entry["code"] for entry in (*notes, *errors)}


@given(LENGTH, PART)
def test_any_two_measures_of_a_ramp_give_the_other_two(L: float, part: float) -> None:
    h = L * part
    full = {"L": (L, "m"), "h": (h, "m"), "b": (math.sqrt(L * L - h * h), "m"), "theta": (math.asin(part), "rad")}
    names = list(full)
    for i, first in enumerate(names):
        for second in names[i + 1 :]:
            v = values("ramp-shape", "si", **{s: si(*full[s]) for s in (first, second)})
            assert [v[s] for s in names] == pytest.approx([full[s][0] for s in names], rel=2e-7)


@given(LENGTH, PART)
def test_the_advantage_along_is_the_longer_side_of_the_one_for_a_level_push(L: float, part: float) -> None:
    v = values("ramp-shape", "si", L=si(L, "m"), h=si(L * part, "m"))
    assert v["IMA"] ** 2 == pytest.approx(v["IMA_level"] ** 2 + 1, rel=1e-9)
    assert v["L"] ** 2 == pytest.approx(v["h"] ** 2 + v["b"] ** 2, rel=1e-9)


@given(FORCE, MU)
def test_a_steep_ramp_asks_for_the_whole_load_and_a_flat_one_for_its_friction_only(R: float, mu: float) -> None:
    """V34, at the ends of the box for the angle: 85 degrees and 0.1 degrees."""
    steep = values("ramp", "si", R=si(R, "N"), L="1 m", theta="85 °", mu=si(mu))["E"]
    flat = values("ramp", "si", R=si(R, "N"), L="1 m", theta="0.1 °", mu=si(mu))["E"]
    assert steep == pytest.approx(R, rel=0.005 + 0.09 * mu)
    assert flat == pytest.approx(mu * R, abs=0.002 * R)


@given(FORCE, LENGTH, PART)
def test_without_friction_the_pull_is_load_times_sine(R: float, L: float, part: float) -> None:
    v = values("ramp", "si", R=si(R, "N"), L=si(L, "m"), h=si(L * part, "m"), mu="0")
    assert v["E"] == pytest.approx(R * part, rel=1e-9)


def haul(choices: dict[str, str], R: float, w: float, L: float, h: float, C: float, k: float = 1.0) -> dict[str, float]:
    given_ = {"R": si(R, "N"), "w": si(w, "N"), "L": si(L, "m"), "h": si(h, "m"), "C": si(C)}
    if choices.get("rope") == "sheave":
        given_["k"] = si(k * 100, "%")
    return values("cart-ramp", "si", choices, **given_)


@given(FORCE, FORCE, LENGTH, PART, ROLLING, SHEAVE)
def test_the_energy_of_a_cart_closes(R: float, w: float, L: float, part: float, C: float, k: float) -> None:
    """V39: what the rope does on the cart lifts both weights and rubs; the sheave keeps the rest back."""
    v = haul({"rope": "sheave"}, R, w, L, L * part, C, k)
    rubbed = C * (R + w) * math.sqrt(1 - part * part) * L
    assert v["E_1"] * L == pytest.approx((R + w) * L * part + rubbed, rel=1e-9)
    assert v["E"] * L == pytest.approx(v["E_1"] * L / k, rel=1e-9)
    assert v["Win"] - v["Wout"] == pytest.approx(v["Wlost"], rel=1e-9)
    assert v["AMA"] == pytest.approx(v["IMA"] * v["eta"], rel=1e-12)
    assert v["Wlost"] >= 0


@given(FORCE, LENGTH, PART, st.floats(0.001, 1.2))
def test_a_weightless_cart_is_a_load_on_a_ramp(R: float, L: float, part: float, C: float) -> None:
    """V40. The box for the cart's weight takes no zero, so the least weight stands for none."""
    light = 0.05
    v = haul({}, R, light, L, L * part, C)
    ramp = values("ramp", "si", R=si(R + light, "N"), L=si(L, "m"), h=si(L * part, "m"), mu=si(C))
    assert v["E"] == pytest.approx(ramp["E"], rel=1e-12)


@given(FORCE, FORCE, LENGTH, PART, ROLLING)
def test_a_heavier_cart_lowers_the_efficiency(R: float, w: float, L: float, part: float, C: float) -> None:
    light, heavy = (haul({}, R, x, L, L * part, C) for x in (w, 1.5 * w))
    assert heavy["eta"] < light["eta"] <= 1
    assert heavy["E"] > light["E"]


@given(FORCE, FORCE, LENGTH, PART, ROLLING)
def test_a_cart_runs_back_when_the_slope_is_steeper_than_its_coefficient(
    R: float, w: float, L: float, part: float, C: float
) -> None:
    answer = ask("cart-ramp", "si", {}, R=si(R, "N"), w=si(w, "N"), L=si(L, "m"), h=si(L * part, "m"), C=si(C))
    runs = math.tan(math.asin(part)) > C
    assert ("n-chock" in codes(answer)) == runs
    assert ("n-stays" in codes(answer)) == (not runs)


@settings(deadline=None)
@given(FORCE, FORCE, LENGTH, st.floats(0.05, 0.5), st.floats(0.01, 0.3), st.sampled_from(["R", "L", "h", "C", "E"]))
def test_a_cart_solves_back(R: float, w: float, L: float, part: float, C: float, asked: str) -> None:
    E = (R + w) * (part + C * math.sqrt(1 - part * part))
    full = {"R": (R, "N"), "w": (w, "N"), "L": (L, "m"), "h": (L * part, "m"), "C": (C, ""), "E": (E, "N")}
    answer = ask("cart-ramp", "si", {}, **{s: si(*full[s]) for s in full if s != asked})
    assert asked in answer["values"], (asked, answer["errors"])
    again = answer["values"][asked]["si"]
    assert again == pytest.approx(full[asked][0], rel=1e-7) or "n-root2" in codes(answer)


@settings(deadline=None)
@given(FORCE, st.floats(0.1, 3), MU, st.floats(0.05, 0.95))
def test_the_pull_on_the_shortest_ramp_is_the_limit(R: float, h: float, mu: float, share: float) -> None:
    """V41: put the length back into the ramp with friction, another calculator, and the limit comes out."""
    limit = mu * R + share * (R - mu * R)
    assume(mu < 0.95)
    v = values("shortest-ramp", "si", R=si(R, "N"), h=si(h, "m"), mu=si(mu), E_max=si(limit, "N"))
    assume("L" in v and v["L"] < 304)  # the longest ramp that a box takes
    back = values("ramp", "si", R=si(R, "N"), L=si(v["L"], "m"), h=si(h, "m"), mu=si(mu))
    assert back["E"] == pytest.approx(limit, rel=1e-8)
    assert v["E_1"] > limit > v["E_2"] > v["E_3"] if "E_1" in v else limit > v["E_2"] > v["E_3"]


@settings(deadline=None)
@given(FORCE, st.floats(0.1, 3), st.floats(0.01, 0.6), st.floats(0.2, 0.9))
def test_more_load_rise_or_friction_asks_for_a_longer_ramp(R: float, h: float, mu: float, share: float) -> None:
    limit = 1.3 * mu * R + share * (R - 1.3 * mu * R)

    def length(R: float, h: float, mu: float, limit: float) -> float:
        return values("shortest-ramp", "si", R=si(R, "N"), h=si(h, "m"), mu=si(mu), E_max=si(limit, "N"))["L"]

    base = length(R, h, mu, limit)
    assert length(R * 1.05, h, mu, limit) > base
    assert length(R, h * 1.05, mu, limit) > base
    assert length(R, h, mu * 1.05, limit) > base
    assert length(R, h, mu, limit * 0.98) > base


@given(FORCE, st.floats(0.1, 3), st.floats(0.02, 0.95), st.floats(0.1, 1.5))
def test_no_ramp_is_long_enough_when_the_level_already_takes_more(R: float, h: float, mu: float, share: float) -> None:
    limit = mu * R * share
    assume(abs(share - 1) > 1e-6 and limit > 0.05)  # the box for a force takes 0.01 lbf or more
    answer = ask("shortest-ramp", "si", R=si(R, "N"), h=si(h, "m"), mu=si(mu), E_max=si(limit, "N"))
    assert ("e-noramp" in codes(answer)) == (limit <= mu * R)
    assert ("e-straight" in codes(answer)) == (limit >= R)
    if mu * R < limit < R and "L" not in answer["values"]:
        assert "e-range" in codes(answer)


def test_a_pull_as_large_as_the_load_needs_no_ramp() -> None:
    assert "e-straight" in codes(ask("shortest-ramp", R="60", h="24", mu="0.1", E_max="60"))


@settings(deadline=None)
@given(
    st.sampled_from(["slides", "rolls"]),
    FORCE,
    FORCE,
    st.floats(0.1, 3),
    st.floats(0.02, 0.5),
    st.floats(0.1, 0.9),
    st.sampled_from(["R", "h", "mu", "E_max", "L"]),
)
def test_a_shortest_ramp_solves_back(
    moves: str, R: float, w: float, h: float, mu: float, share: float, asked: str
) -> None:
    down = R if moves == "slides" else R + w
    limit = mu * down + share * (0.9 - mu) * down
    full = {"R": (R, "N"), "h": (h, "m"), "E_max": (limit, "N"), ("mu" if moves == "slides" else "C"): (mu, "")}
    if moves == "rolls":
        full["w"] = (w, "N")
    first = ask("shortest-ramp", "si", {"moves": moves}, **{s: si(*full[s]) for s in full})
    assert first["errors"] == []
    full["L"] = (first["values"]["L"]["si"], "m")
    asked = "C" if asked == "mu" and moves == "rolls" else asked
    answer = ask("shortest-ramp", "si", {"moves": moves}, **{s: si(*full[s]) for s in full if s != asked})
    assert answer["values"][asked]["si"] == pytest.approx(full[asked][0], rel=1e-6), answer["errors"]


@given(LENGTH, st.floats(0.05, 0.85), st.floats(0.3, 0.99))
def test_friction_is_the_slope_at_which_it_slips(L: float, part: float, less: float) -> None:
    """Balance along the plank, not the formula: the weight's part along it is friction times the part square to it."""
    h, h_k = L * part, L * part * less
    b = math.sqrt(L * L - h * h)
    v = values("tilt-test", "si", h=si(h, "m"), b=si(b, "m"), h_k=si(h_k, "m"))
    assert math.sin(v["theta"]) == pytest.approx(v["mu_s"] * math.cos(v["theta"]), rel=1e-9)
    assert math.sin(v["theta_k"]) == pytest.approx(v["mu_k"] * math.cos(v["theta_k"]), rel=1e-7)
    assert v["L"] == pytest.approx(L, rel=1e-9)
    assert v["mu_k"] < v["mu_s"]


@given(st.floats(0.05, 1.9), LENGTH)
def test_a_tilt_test_solves_back(mu: float, b: float) -> None:
    there = values("tilt-test", "si", mu_s=si(mu), b=si(b, "m"))
    back = values("tilt-test", "si", h=si(there["h"], "m"), L=si(there["L"], "m"))
    assert back["mu_s"] == pytest.approx(mu, rel=1e-7)
    assert back["b"] == pytest.approx(b, rel=1e-7)


def test_sliding_needs_less_slope_than_starting() -> None:
    assert "e-tiltorder" in codes(ask("tilt-test", h="30", b="60", h_k="32"))


def test_the_doubts_of_rise_and_run_add_up_in_the_coefficient() -> None:
    """mu = h/b: relative doubts add in squares (an independent sum by hand): 0.5 * sqrt((1/30)^2 + (1/60)^2)."""
    entry = ask("tilt-test", h="30 ± 1", b="60 ± 1")["values"]["mu_s"]
    assert 2 * entry["u"] == pytest.approx(0.5 * math.hypot(1 / 30, 1 / 60), rel=1e-9)


@given(FORCE, FORCE, st.floats(0.5, 10), PART, st.floats(0.001, 0.3), st.floats(0.5, 10))
def test_a_cart_scales_with_its_forces_and_not_with_its_lengths(
    R: float, w: float, L: float, part: float, C: float, c: float
) -> None:
    """V5 and V6."""
    one = haul({}, R, w, L, L * part, C)
    heavier, longer = haul({}, R * c, w * c, L, L * part, C), haul({}, R, w, L * c, L * part * c, C)
    assert heavier["E"] == pytest.approx(one["E"] * c, rel=1e-9)
    assert longer["E"] == pytest.approx(one["E"], rel=1e-9)
    for s in ("IMA", "AMA", "eta"):
        assert heavier[s] == pytest.approx(one[s], rel=1e-9)
        assert longer[s] == pytest.approx(one[s], rel=1e-9)


@given(FORCE, FORCE, st.floats(0.5, 3), PART, st.floats(0.001, 0.3))
def test_units_do_not_matter_to_a_cart(R: float, w: float, L: float, part: float, C: float) -> None:
    lbf, inch = 4.4482216152605, 0.0254
    metric = haul({}, R, w, L, L * part, C)
    customary = values(
        "cart-ramp",
        "us",
        R=si(R / lbf, "lbf"),
        w=si(w / lbf, "lbf"),
        L=si(L / inch, "in"),
        h=si(L * part / inch, "in"),
        C=si(C),
    )
    assert customary == pytest.approx(metric, rel=1e-10)
