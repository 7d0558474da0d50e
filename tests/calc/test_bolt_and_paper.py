"""The bolt and the paper triangle: what must hold for any numbers, checked by other routes than the formulas."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.calc.asking import ask, values

DIAMETER = st.floats(0.004, 0.08)
PART = st.floats(0.05, 0.4)
"""Pitch over diameter."""
STARTS = st.integers(1, 4)
MU = st.floats(0.02, 0.4)
SQUARE = {"thread": "square"}
OWN = {"surface": "own", "thread": "own"}


def si(x: float, unit: str = "") -> str:
    return f"{x!r} {unit}".strip()


# -- the bolt --------------------------------------------------------------------------------------


@given(st.floats(0.5, 500), st.floats(0.004, 0.03), st.floats(0.08, 0.18), st.floats(0.1, 0.4))
def test_clamp_force_times_nut_factor_and_size_is_the_torque(T: float, d: float, part: float, K: float) -> None:
    F = T / (K * d)
    assume(1 < F < 80000 and d * part > 0.0254 / 80)
    boxes = {"T": si(T, "N·m"), "d": si(d, "m"), "p": si(d * part, "m"), "K": si(K), "F": si(F, "N")}
    v = values("bolt-clamp", "si", OWN, **boxes)
    assert v["F_lo"] == pytest.approx(T / (1.3 * K * d), rel=1e-12)
    assert v["F_hi"] == pytest.approx(T / (0.7 * K * d), rel=1e-12)
    # Energy of a small turn: the clamp takes F times the advance, the wrench gives T times the turn.
    assert v["s_c"] == pytest.approx(F * (d * part / 1000) / (T * 2 * math.pi / 1000), rel=1e-9)
    for asked in ("T", "F", "K"):
        rest = {s: t for s, t in boxes.items() if s != asked}
        assert values("bolt-clamp", "si", OWN, **rest)[asked] == pytest.approx(
            {"T": T, "F": F, "K": K}[asked], rel=1e-9
        )


@given(st.floats(0.5, 50), st.floats(0.004, 0.03), st.floats(0.08, 0.18), MU, MU, st.floats(1.1, 1.6))
def test_the_nut_factor_from_friction_is_the_screw_with_friction(
    T: float, d: float, part: float, mu: float, mu_c: float, face: float
) -> None:
    p = d * part
    assume(p > 0.0254 / 80)
    boxes = {"d": si(d, "m"), "p": si(p, "m"), "mu": si(mu), "mu_c": si(mu_c), "d_c": si(face * d, "m")}
    v = values("bolt-clamp", "si", {"surface": "friction"}, **boxes, T=si(T, "N·m"))
    assume(1 < v["F"] < 80000)
    screw = values("screw-with-friction", "si", {"thread": "vee"}, **boxes, R=si(v["F"], "N"), j="1", r="0.1 m")
    assert screw["T"] == pytest.approx(T, rel=1e-9)
    assert v["K"] == pytest.approx(screw["T"] / (v["F"] * d), rel=1e-9)
    assert v["s_c"] + v["s_t"] + v["s_f"] == pytest.approx(1, rel=1e-12)
    assert v["s_c"] == pytest.approx(screw["eta"], rel=1e-9)


def test_a_nut_factor_that_would_make_work_is_refused() -> None:
    answer = ask("bolt-clamp", choices=OWN, T="12.5", d="0.375", p="1", K="0.05")
    assert [error["code"] for error in answer["errors"]] == ["e-nutfactor"]


# -- the paper triangle ----------------------------------------------------------------------------


@given(st.floats(0.02, 2), st.floats(0.005, 1), st.floats(0.003, 0.2))
def test_the_wound_paper_climbs_its_own_height(B: float, H: float, d: float) -> None:
    """The edge walked along in small pieces on the cylinder: height gained in a turn and in all."""
    assume(0.1 < math.degrees(math.atan(H / B)) < 85)
    v = values("wrap-test", "si", B=si(B, "m"), H=si(H, "m"), d=si(d, "m"))
    assert v["turns"] * v["p"] == pytest.approx(H, rel=1e-12)
    piece = 1e-4
    turned = 2 * piece * B / d
    assert v["p"] == pytest.approx(piece * H / (turned / (2 * math.pi)), rel=1e-9)
    assert math.tan(v["lam"]) == pytest.approx(v["p"] / (math.pi * d), rel=1e-9)


@given(st.floats(0.02, 2), st.floats(0.005, 1), st.floats(0.003, 0.2), st.sampled_from("BHd"))
def test_the_paper_solves_back(B: float, H: float, d: float, asked: str) -> None:
    assume(0.2 < math.degrees(math.atan(H / B)) < 85)
    full = {"B": (B, "m"), "H": (H, "m"), "d": (d, "m"), "turns": (B / (math.pi * d), "turns"), "p": (0.0, "m")}
    full["p"] = (H / full["turns"][0], "m")
    v = values("wrap-test", "si", **{s: si(*x) for s, x in full.items() if s != asked})
    assert v[asked] == pytest.approx(full[asked][0], rel=1e-7)


@given(DIAMETER, PART, STARTS, st.integers(1, 6))
def test_a_paper_as_long_as_some_turns_shows_the_screw_s_lead(d: float, part: float, j: int, turns: int) -> None:
    p = d * part
    assume(0.0254 / 80 < p < 0.0254 / 0.5)
    screw = values("screw", "si", SQUARE, p=si(p, "m"), j=str(j), d_m=si(d, "m"))
    paper = values("wrap-test", "si", B=si(turns * math.pi * d, "m"), H=si(turns * j * p, "m"), d=si(d, "m"))
    assert paper["p"] == pytest.approx(screw["l"], rel=1e-9)
    assert paper["lam"] == pytest.approx(screw["lam"], rel=1e-9)
