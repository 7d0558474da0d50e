"""Gears, chains and belts: what must hold for any train, checked by walking it rim by rim."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.calc.asking import ask, field, values

TEETH = st.lists(st.tuples(st.integers(5, 400), st.integers(5, 400)), min_size=1, max_size=5)
DIAMETERS = st.lists(st.tuples(st.floats(0.02, 1), st.floats(0.02, 1)), min_size=1, max_size=5)
ETA, TORQUE, SPEED, SLIP = st.floats(0.5, 1), st.floats(0.1, 100), st.floats(1, 3000), st.floats(0.001, 0.2)


def toothed(pairs: list[tuple[int, int]], eta: float) -> dict[str, str]:
    found = {}
    for i, (a, b) in enumerate(pairs, 1):
        found |= {f"N_a_{i}": str(a), f"N_b_{i}": str(b), f"eta_{i}": f"{eta * 100!r} %"}
    return found


def belted(pairs: list[tuple[float, float]], eta: float) -> dict[str, str]:
    found = {}
    for i, (a, b) in enumerate(pairs, 1):
        found |= {f"D_a_{i}": f"{a!r} m", f"D_b_{i}": f"{b!r} m", f"eta_{i}": f"{eta * 100!r} %"}
    return found


def ways(answer: dict) -> set[str]:
    return {note["code"] for note in answer["notes"]} & {"n-sameway", "n-otherway"}


@given(TEETH, ETA, TORQUE, SPEED, st.integers(0, 6))
def test_an_idler_keeps_the_ratio_and_turns_the_way_about(
    pairs: list[tuple[int, int]], eta: float, torque: float, speed: float, idlers: int
) -> None:
    given_ = {**toothed(pairs, eta), "T_in": f"{torque!r} N·m", "rpm_in": f"{speed!r} rpm"}
    without = ask("gears-and-belts", "si", **given_, idlers=str(idlers))
    with_one = ask("gears-and-belts", "si", **given_, idlers=str(min(idlers + 1, 6)))
    assert without["values"]["ratio"] == with_one["values"]["ratio"]
    assert without["values"]["T_out"] == with_one["values"]["T_out"]
    if idlers < 6:
        assert ways(without) != ways(with_one)
    expected = "n-sameway" if (len(pairs) + idlers) % 2 == 0 else "n-otherway"
    assert ways(without) == {expected}


@given(TEETH, ETA, TORQUE, SPEED)
def test_gears_walked_rim_by_rim(pairs: list[tuple[int, int]], eta: float, torque: float, speed: float) -> None:
    """Rim force and rim speed from pair to pair, radii of 1 mm a tooth: not by ratios."""
    T, rpm = torque, speed
    for a, b in pairs:
        force, rim = T / (a / 2000) * eta, rpm * a / 2000
        T, rpm = force * b / 2000, rim / (b / 2000)
    v = values("gears-and-belts", "si", **toothed(pairs, eta), T_in=f"{torque!r} N·m", rpm_in=f"{speed!r} rpm")
    assert v["T_out"] == pytest.approx(T, rel=1e-9)
    assert v["rpm_out"] * 30 / math.pi == pytest.approx(rpm, rel=1e-9)
    n = len(pairs)
    assert v[f"T_{n}"] == pytest.approx(v["T_out"], rel=1e-12)
    assert v[f"rpm_{n}"] == pytest.approx(v["rpm_out"], rel=1e-12)


@given(DIAMETERS, ETA, TORQUE, SPEED, SLIP, st.sampled_from(["belt", "crossed"]))
def test_power_out_is_power_in_less_rubbing_and_slip(
    pairs: list[tuple[float, float]], eta: float, torque: float, speed: float, slip: float, drive: str
) -> None:
    v = values(
        "gears-and-belts",
        "si",
        {"drive": drive},
        **belted(pairs, eta),
        T_in=f"{torque!r} N·m",
        rpm_in=f"{speed!r} rpm",
        s=f"{slip * 100!r} %",
    )
    share = (eta * (1 - slip)) ** len(pairs)
    assert v["T_out"] * v["rpm_out"] == pytest.approx(v["T_in"] * v["rpm_in"] * share, rel=1e-9)
    assert v["P_out"] == pytest.approx(v["P_in"] * share, rel=1e-9)


@given(DIAMETERS, st.sampled_from([("belt", 0), ("chain", 0), ("crossed", 1), ("gears", 1)]))
def test_only_crossed_belts_and_gears_turn_the_way_about(
    pairs: list[tuple[float, float]], drive: tuple[str, int]
) -> None:
    kind, flips = drive
    teeth = [(max(5, round(a * 100)), max(5, round(b * 100))) for a, b in pairs]
    given_ = belted(pairs, 0.95) if kind in ("belt", "crossed") else toothed(teeth, 0.95)
    answer = ask("gears-and-belts", "si", {"drive": kind}, **given_, rpm_in="100 rpm", idlers="0")
    assert ways(answer) == {"n-otherway" if flips * len(pairs) % 2 else "n-sameway"}


@given(TEETH, ETA, TORQUE, SPEED, st.sampled_from(["T_in", "T_out", "rpm_in", "rpm_out", "N_a_1", "N_b_1", "eta_1"]))
def test_gears_solve_back(pairs: list[tuple[int, int]], eta: float, torque: float, speed: float, asked: str) -> None:
    given_ = {**toothed(pairs, eta), "T_in": f"{torque!r} N·m", "rpm_in": f"{speed!r} rpm"}
    v = values("gears-and-belts", "si", **given_)
    torques = {s: f"{v[s]!r} N·m" for s in ("T_in", "T_out")}
    speeds = {s: f"{v[s]!r} rad/s" for s in ("rpm_in", "rpm_out")}
    full = {**given_, **torques, **({} if asked == "eta_1" else speeds)}
    if asked in torques:
        full |= {s: t for s, t in full.items() if s != asked}
    rest = {s: t for s, t in full.items() if s != asked}
    got = ask("gears-and-belts", "si", **rest)["values"]
    assert got[asked]["si"] == pytest.approx(v[asked], rel=1e-7)


def test_a_tooth_count_is_shown_exact_and_as_the_nearest_whole_one() -> None:
    """360 rpm to 100 rpm from 12 teeth takes 43.2: worked by hand, 12 x 360/100."""
    answer = ask("gears-and-belts", N_a_1="12", eta_1="95", rpm_in="360", rpm_out="100")
    assert answer["values"]["N_b_1"]["si"] == pytest.approx(43.2, rel=1e-12)
    assert "43" in field(answer, "N_b_1")["note"]
    assert field(answer, "N_b_1")["shown"] == "43.2"


def test_teeth_are_whole() -> None:
    answer = ask("gears-and-belts", N_a_1="12.5", N_b_1="48", eta_1="95")
    assert [(e["symbol"], e["code"]) for e in answer["errors"]] == [("N_a_1", "e-int")]


def test_a_belt_without_a_word_on_slip_does_not_slip() -> None:
    v = values("gears-and-belts", choices={"drive": "belt"}, D_a_1="4", D_b_1="12", eta_1="95", rpm_in="360")
    assert v["rpm_out"] * 30 / math.pi == pytest.approx(120, rel=1e-12)


def test_a_belt_may_be_said_not_to_slip() -> None:
    v = values("gears-and-belts", choices={"drive": "belt"}, D_a_1="4", D_b_1="12", eta_1="95", rpm_in="360", s="0 %")
    assert v["rpm_out"] * 30 / math.pi == pytest.approx(120, rel=1e-12)


def test_the_table_has_teeth_for_gears_and_diameters_for_belts() -> None:
    gears = ask("gears-and-belts", N_a_1="12", N_b_1="48", eta_1="95", rpm_in="360")["html"]["results"]
    belts = ask("gears-and-belts", choices={"drive": "belt"}, D_a_1="4", D_b_1="12", eta_1="95", rpm_in="360")
    assert "Driver teeth" in gears
    assert "Driver diameter" not in gears
    assert "Driver diameter" in belts["html"]["results"]
    assert "Driver teeth" not in belts["html"]["results"]


def test_an_odd_number_of_changes_turns_the_way_about() -> None:
    answer = ask("gears-and-belts", N_a_1="12", N_b_1="48", eta_1="95", rpm_in="360", idlers="0")
    assert answer["values"]["turnabouts"]["text"] == "1"
    assert ways(answer) == {"n-otherway"}
