"""Wheel and axle, windlass and journal: what must hold for any numbers, checked by other routes than the formulas."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.calc.asking import INCH, LBF, ask, values

FORCE = st.floats(1, 5000)
RADIUS = st.floats(0.01, 3)
MU = st.floats(0.005, 1.2)
ETA = st.floats(0.05, 1)
HANDS = st.sampled_from(["wheel", "axle"])


def si(x: float, unit: str = "") -> str:
    return f"{x!r} {unit}".strip()


@given(RADIUS, RADIUS)
def test_radius_and_diameter_are_two_ways_to_type_one_size(wheel: float, axle: float) -> None:
    by_radius = values("wheel-and-axle", "si", R="100 N", r_w=si(wheel, "m"), r_a=si(axle, "m"))
    by_diameter = values("wheel-and-axle", "si", R="100 N", D_w=si(2 * wheel, "m"), D_a=si(2 * axle, "m"))
    assert by_diameter == pytest.approx(by_radius, rel=1e-12)
    assert by_radius["D_w"] == pytest.approx(2 * wheel, rel=1e-12)


@given(FORCE, RADIUS, RADIUS)
def test_effort_on_the_axle_is_the_same_machine_turned_round(R: float, wheel: float, axle: float) -> None:
    sizes = {"R": si(R, "N"), "r_w": si(wheel, "m"), "r_a": si(axle, "m")}
    on_wheel = values("wheel-and-axle", "si", **sizes)["IMA"]
    on_axle = values("wheel-and-axle", "si", {"hand": "axle"}, **sizes)["IMA"]
    assert on_wheel * on_axle == pytest.approx(1, rel=1e-12)


@given(FORCE, RADIUS, RADIUS, HANDS)
def test_a_small_turn_does_the_same_work_on_both_cords(R: float, wheel: float, axle: float, hand: str) -> None:
    """Virtual work over a thousandth of a turn: not the balance of moments that the effort came from."""
    v = values("wheel-and-axle", "si", {"hand": hand}, R=si(R, "N"), r_w=si(wheel, "m"), r_a=si(axle, "m"))
    angle = 2 * math.pi / 1000
    pulled, lifted = (wheel, axle) if hand == "wheel" else (axle, wheel)
    assert v["E"] * pulled * angle == pytest.approx(R * lifted * angle, rel=1e-9)
    assert v["dE"] / v["dR"] == pytest.approx(v["IMA"], rel=1e-12)


@given(FORCE, RADIUS, RADIUS, HANDS, ETA)
def test_efficiency_is_the_share_of_the_work(R: float, wheel: float, axle: float, hand: str, eta: float) -> None:
    sizes = {"R": si(R, "N"), "r_w": si(wheel, "m"), "r_a": si(axle, "m")}
    v = values("wheel-and-axle", "si", {"hand": hand}, **sizes, eta=si(eta * 100, "%"))
    assert v["AMA"] == pytest.approx(v["IMA"] * eta, rel=1e-9)
    assert v["Wout"] == pytest.approx(eta * v["Win"], rel=1e-9)
    assert v["Wlost"] >= -1e-9 * v["Win"]


@given(FORCE, RADIUS, RADIUS, HANDS, ETA, st.sampled_from(["R", "r_w", "r_a", "eta", "E"]))
def test_a_wheel_and_axle_solves_back(R: float, wheel: float, axle: float, hand: str, eta: float, asked: str) -> None:
    pulled, lifted = (wheel, axle) if hand == "wheel" else (axle, wheel)
    E = R * lifted / pulled / eta
    assume(0.1 < E < 80000)
    full = {"R": (R, "N"), "r_w": (wheel, "m"), "r_a": (axle, "m"), "E": (E, "N"), "eta": (eta * 100, "%")}
    rest = {s: si(*pair) for s, pair in full.items() if s != asked}
    got = ask("wheel-and-axle", "si", {"hand": hand}, **rest)["values"][asked]["si"]
    assert got == pytest.approx(eta if asked == "eta" else full[asked][0], rel=1e-7)


def windlass(**sizes: float) -> dict[str, str]:
    units = {"R": "N", "w": "N", "E": "N", "mu": "", "eta": "%", "turns": "", "m": "", "p": ""}
    return {symbol: si(size, units.get(symbol, "m")) for symbol, size in sizes.items()}


CRANK, DRUM, ROPE = st.floats(0.1, 1), st.floats(0.03, 0.6), st.floats(0.002, 0.05)
HEIGHT = st.floats(0.05, 20)


@given(FORCE, CRANK, DRUM, ROPE, HEIGHT, ETA)
def test_the_windlass_winds_up_just_the_height(R: float, c: float, D: float, t: float, h: float, eta: float) -> None:
    v = values("windlass", "si", **windlass(R=R, r_c=c, D=D, t=t, h=h, eta=100 * eta))
    assert v["r"] == pytest.approx((D + t) / 2, rel=1e-12)
    assert v["turns"] * 2 * math.pi * v["r"] == pytest.approx(h, rel=1e-12)
    assert v["s"] / h == pytest.approx(v["IMA"], rel=1e-12)
    assert v["Win"] * eta == pytest.approx(R * h, rel=1e-9)


@given(FORCE, CRANK, DRUM, ROPE, st.floats(1.001, 3))
def test_thicker_rope_never_lowers_the_effort(R: float, c: float, D: float, t: float, more: float) -> None:
    thin = values("windlass", "si", **windlass(R=R, r_c=c, D=D, t=t))["E"]
    thick = values("windlass", "si", **windlass(R=R, r_c=c, D=D, t=t * more))["E"]
    assert thick >= thin


@given(
    FORCE, CRANK, DRUM, ROPE, HEIGHT, ETA, st.sampled_from(["R", "r_c", "D", "E", "eta", "h from turns", "h from path"])
)
def test_a_windlass_solves_back(R: float, c: float, D: float, t: float, h: float, eta: float, asked: str) -> None:
    r = (D + t) / 2
    E = R * r / c / eta
    turns = h / (2 * math.pi * r)
    assume(0.1 < E < 80000 and 1e-5 < turns < 1e5 and 2 * math.pi * c * turns < 300)
    full = {"R": R, "r_c": c, "D": D, "t": t, "h": h, "eta": 100 * eta, "E": E}
    if asked.startswith("h "):
        full |= {"turns": turns} if asked == "h from turns" else {"s": 2 * math.pi * c * turns}
        del full["E"]
        asked = "h"
    rest = {s: x for s, x in full.items() if s != asked}
    got = ask("windlass", "si", **windlass(**rest))["values"][asked]["si"]
    assert got == pytest.approx(full[asked] / (100 if asked == "eta" else 1), rel=1e-7)


JOURNAL = st.floats(0.003, 0.05)


@given(FORCE, CRANK, DRUM, ROPE, JOURNAL, MU, st.floats(0.1, 500))
def test_moments_about_the_point_of_contact_balance(
    R: float, c: float, D: float, t: float, r_j: float, mu: float, w: float
) -> None:
    """All forces about the point where the bearing's force passes, so that this force drops out."""
    v = values("journal-friction", "si", **windlass(R=R, r_c=c, D=D, t=t, r_j=r_j, mu=mu, w=w))
    beside = r_j * mu / math.sqrt(1 + mu * mu)
    turning = v["E"] * (c - beside)
    against = R * ((D + t) / 2 + beside) + w * beside
    assert turning == pytest.approx(against, rel=1e-9)
    assert v["N"] == pytest.approx(R + w + v["E"], rel=1e-12)


@given(FORCE, CRANK, DRUM, ROPE, JOURNAL, MU, st.floats(0.1, 500), st.floats(1.01, 1.6))
def test_journal_friction_only_ever_costs_effort(
    R: float, c: float, D: float, t: float, r_j: float, mu: float, w: float, more: float
) -> None:
    base = {"R": R, "r_c": c, "D": D, "t": t, "w": w}
    ideal = values("windlass", "si", **windlass(R=R, r_c=c, D=D, t=t))["E"]
    E = values("journal-friction", "si", **windlass(**base, r_j=r_j, mu=mu))["E"]
    rougher = values("journal-friction", "si", **windlass(**base, r_j=r_j, mu=mu * more))["E"]
    thicker = values("journal-friction", "si", **windlass(**base, r_j=r_j * more, mu=mu))["E"]
    assert ideal < E < rougher
    assert thicker > E


def test_a_journal_without_friction_is_the_ideal_windlass() -> None:
    sizes = {"R": "40", "r_c": "15", "D": "6", "t": "0.5"}
    greased = values("journal-friction", **sizes, r_j="0.5", w="18", mu="0")
    assert greased["E"] == pytest.approx(values("windlass", **sizes)["E"], rel=1e-12)
    answer = ask("journal-friction", **sizes, r_j="0.5", w="18", mu="0")
    assert any(note["code"] == "n-nofric" for note in answer["notes"])


@given(
    FORCE,
    CRANK,
    DRUM,
    ROPE,
    JOURNAL,
    MU,
    st.floats(0.1, 500),
    st.sampled_from(["R", "r_c", "D", "r_j", "w", "mu", "E"]),
)
def test_a_journal_solves_back(
    R: float, c: float, D: float, t: float, r_j: float, mu: float, w: float, asked: str
) -> None:
    full = {"R": R, "r_c": c, "D": D, "t": t, "r_j": r_j, "mu": mu, "w": w}
    E = values("journal-friction", "si", **windlass(**full))["E"]
    assume(0.1 < E < 80000)
    full["E"] = E
    rest = {s: x for s, x in full.items() if s != asked}
    answer = ask("journal-friction", "si", **windlass(**rest))
    assert answer["values"][asked]["si"] == pytest.approx(full[asked], rel=1e-5 if asked in ("w", "D") else 1e-7)


@given(FORCE, CRANK, DRUM, ROPE, JOURNAL, MU, st.floats(0.5, 8))
def test_forces_scale_and_ratios_stay(
    R: float, c: float, D: float, t: float, r_j: float, mu: float, times: float
) -> None:
    one = values("journal-friction", "si", **windlass(R=R, r_c=c, D=D, t=t, r_j=r_j, mu=mu, w=R / 3))
    many = values("journal-friction", "si", **windlass(R=R * times, r_c=c, D=D, t=t, r_j=r_j, mu=mu, w=R * times / 3))
    for s in ("E", "N"):
        assert many[s] == pytest.approx(one[s] * times, rel=1e-12)
    for s in ("IMA", "AMA", "eta"):
        assert many[s] == pytest.approx(one[s], rel=1e-12)


@given(FORCE, CRANK, DRUM, ROPE, HEIGHT, st.floats(0.5, 8))
def test_sizes_scale_and_forces_stay(R: float, c: float, D: float, t: float, h: float, times: float) -> None:
    one = values("windlass", "si", **windlass(R=R, r_c=c, D=D, t=t, h=h, eta=80))
    many = values("windlass", "si", **windlass(R=R, r_c=c * times, D=D * times, t=t * times, h=h * times, eta=80))
    for s in ("E", "IMA", "AMA", "turns"):
        assert many[s] == pytest.approx(one[s], rel=1e-12)
    assert many["s"] == pytest.approx(one["s"] * times, rel=1e-12)


@given(FORCE, CRANK, DRUM, ROPE)
def test_units_do_not_matter(R: float, c: float, D: float, t: float) -> None:
    metric = values("windlass", "si", **windlass(R=R, r_c=c, D=D, t=t, h=0.3))
    customary = values(
        "windlass",
        "us",
        R=si(R / LBF, "lbf"),
        r_c=si(c / INCH, "in"),
        D=si(D / INCH, "in"),
        t=si(t / INCH, "in"),
        h=si(0.3 / INCH, "in"),
    )
    assert {s: customary[s] for s in metric} == pytest.approx(metric, rel=1e-11)


WIDE = {"wind": "width"}


@given(FORCE, CRANK, st.floats(0.05, 0.4), st.floats(0.004, 0.04), st.integers(4, 40), st.floats(0.05, 60), ETA)
def test_layers_wound_turn_by_turn(
    R: float, r_c: float, D: float, t: float, per_layer: int, h: float, eta: float
) -> None:
    """The lift wound layer by layer, each at its own radius, three dead turns on the first: not by the closed sum."""
    layer, left, turns, work, room = 1, h, 0.0, 0.0, per_layer - 3
    while True:
        radius = D / 2 + (layer - 0.5) * t
        made = min(left / (2 * math.pi * radius), room)
        turns += made
        work += R * radius / (r_c * eta) * 2 * math.pi * r_c * made
        left -= 2 * math.pi * radius * made
        if left <= 1e-9 * h:
            break
        layer, room = layer + 1, per_layer
    sizes = windlass(R=R, r_c=r_c, D=D, t=t, h=h, b=(per_layer + 0.5) * t, eta=100 * eta)
    answer = ask("windlass", "si", WIDE, **sizes)
    if layer > 12:
        assert ("m", "e-drumfull") in [(e["symbol"], e["code"]) for e in answer["errors"]]
        assert "E" not in answer["values"]
        return
    v = {s: entry["si"] for s, entry in answer["values"].items()}
    assert answer["errors"] == []
    assert (v["p"], v["m"]) == (per_layer, layer)
    assert v["turns"] == pytest.approx(turns, rel=1e-9)
    assert v["W_lift"] == pytest.approx(work, rel=1e-9)
    assert v["E"] == pytest.approx(R * (D / 2 + (layer - 0.5) * t) / (r_c * eta), rel=1e-9)
    assert v["dE"] / v["dR"] == pytest.approx(v["IMA"], rel=1e-12)


def test_a_later_layer_is_harder_to_wind() -> None:
    """By hand: 40 lbf on a 6 in drum with 1/2 in rope, third layer at 3 + 2.5 x 0.5 = 4.25 in, crank 15 in."""
    v = values("windlass", R="40", r_c="15", D="6", t="0.5", m="3")
    assert v["r"] == pytest.approx(4.25 * INCH, rel=1e-12)
    assert v["E"] == pytest.approx(40 * 4.25 / 15 * LBF, rel=1e-12)


def test_a_drum_too_narrow_for_three_dead_turns_is_refused() -> None:
    answer = ask("windlass", choices=WIDE, R="40", r_c="15", D="6", t="0.5", h="12", b="1.5")
    assert [(e["symbol"], e["code"]) for e in answer["errors"]] == [("b", "e-deadturns")]


def test_a_typed_layer_that_the_rope_does_not_reach_is_refused() -> None:
    answer = ask("windlass", choices=WIDE, R="40", r_c="15", D="6", t="0.5", h="12", b="6", m="2")
    assert [(e["symbol"], e["code"]) for e in answer["errors"]] == [("m", "e-drumlow")]


def test_rope_that_just_fills_a_drum_needs_no_further_layer() -> None:
    """A drum of 16 turns of 1/2 in rope: 13 turns above the dead ones lift 13 x 2 pi x 3.25 in exactly."""
    full = 13 * 2 * math.pi * 3.25
    v = values("windlass", choices=WIDE, R="40", r_c="15", D="6", t="0.5", h=f"{full!r} in", b="8")
    assert (v["p"], v["m"]) == (16, 1)
    assert v["turns"] == pytest.approx(13, rel=1e-12)


def test_an_axle_larger_than_its_wheel_is_remarked_on() -> None:
    answer = ask("wheel-and-axle", R="24", r_w="2", r_a="9")
    assert [note["code"] for note in answer["notes"]] == ["n-axle"]
    assert answer["errors"] == []


def test_a_journal_too_big_for_its_crank_cannot_turn() -> None:
    answer = ask("journal-friction", R="40", r_c="2", D="1", t="0.25", r_j="5", mu="1", w="18")
    assert [(e["symbol"], e["code"]) for e in answer["errors"]] == [("r_j", "e-journal")]
