"""The tackle: what must hold for any of them, walked along the rope instead of by the sums of powers."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.calc.asking import LBF, ask, field, values

FORCE = st.floats(1, 5000)
WEIGHT = st.floats(0.01, 500)
K = st.floats(0.52, 0.999)
PARTS = st.integers(1, 12)
LIFT = st.floats(0.05, 3)
ROVE = st.sampled_from(["disadvantage", "advantage"])
CONVENTIONS = {
    row["convention"]: row
    for row in csv.DictReader(
        line
        for line in (Path(__file__).parents[2] / "shared" / "checks" / "tackle_conventions.csv")
        .read_text("utf-8")
        .splitlines()
        if not line.startswith("#")
    )
}


def si(x: float, unit: str = "") -> str:
    return f"{x!r} {unit}".strip()


def tackle(rove: str, **given_: str) -> dict[str, float]:
    return values("tackle", "si", {"rove": rove}, **given_)


def carried(rove: str, n: int, k: float) -> float:
    """What n parts carry for a pull of 1, walked from the hand to the dead end: k times as much past each sheave."""
    tension, total = 1.0, 0.0
    if rove == "disadvantage":
        tension *= k  # over the standing block first
    for part in range(n):
        total += tension
        if part < n - 1:
            tension *= k
    return total


@given(PARTS, ROVE, FORCE)
def test_without_losses_the_parts_share_evenly(n: int, rove: str, R: float) -> None:
    v = tackle(rove, n=str(n), R=si(R, "N"), k="100")
    assert v["K"] == pytest.approx(n, rel=1e-12)
    assert v["IMA"] == n
    assert v["S"] == (n if rove == "disadvantage" else n - 1)
    assert v["E"] == pytest.approx(R / n, rel=1e-12)


@given(PARTS, ROVE, K, FORCE, WEIGHT, LIFT)
def test_the_rope_walked_from_hand_to_dead_end(n: int, rove: str, k: float, R: float, w: float, h: float) -> None:
    """V30 too: anchor and pull together hold the load, and the energy closes."""
    v = tackle(rove, n=str(n), k=si(k * 100, "%"), R=si(R, "N"), w=si(w, "N"), h=si(h, "m"))
    assert v["E"] * carried(rove, n, k) == pytest.approx(R + w, rel=1e-9)
    assert v["E_down"] * carried(rove, n, 1 / k) == pytest.approx(R + w, rel=1e-9)
    sign = 1 if rove == "disadvantage" else -1
    assert v["A"] == pytest.approx(R + w + sign * v["E"], rel=1e-9, abs=1e-9 * R)
    if sign < 0:  # the hauling part may go slack
        assert v["A_max"] == pytest.approx(R + w, rel=1e-12)
    assert v["dE"] * v["E"] * v["K"] / n == pytest.approx((R + w) * h, rel=1e-9)
    assert v["eta"] == pytest.approx(R / v["E"] / n, rel=1e-9)
    assert v["Wlost"] >= 0


@given(PARTS, ROVE, K, st.floats(0.001, 0.05))
def test_better_sheaves_and_more_parts_carry_more_but_less_well(n: int, rove: str, k: float, more: float) -> None:
    assume(n < 12 and k + more < 1)

    def share(parts: int, passed: float) -> float:
        return tackle(rove, n=str(parts), k=si(passed * 100, "%"), R="100 N")["K"]

    here = share(n, k)
    assert here <= n * (1 + 1e-12)
    assert share(n, k + more) >= here
    assert share(n + 1, k) > here
    assert share(n + 1, k) / (n + 1) < here / n


@given(st.integers(1, 11), K)
def test_the_two_ways_of_reeving_are_one_sheave_apart(n: int, k: float) -> None:
    """V27: to disadvantage is to advantage through one more sheave; one part more to advantage adds the hand's own."""
    given_ = {"k": si(k * 100, "%"), "R": "100 N"}
    down, up = (tackle(rove, n=str(n), **given_)["K"] for rove in ("disadvantage", "advantage"))
    assert down == pytest.approx(k * up, rel=1e-12)
    assert tackle("advantage", n=str(n + 1), **given_)["K"] == pytest.approx(1 + down, rel=1e-12)


@given(PARTS, ROVE, K, FORCE)
def test_the_even_share_lies_between_lowering_and_raising(n: int, rove: str, k: float, R: float) -> None:
    v = tackle(rove, n=str(n), k=si(k * 100, "%"), R=si(R, "N"))
    if rove == "advantage" and n == 1:
        assert v["E_down"] == pytest.approx(v["E"], rel=1e-12)
    else:
        assert v["E_down"] < R / n < v["E"]
    perfect = tackle(rove, n=str(n), k="100", R=si(R, "N"))
    assert perfect["E_down"] == pytest.approx(perfect["E"], rel=1e-12)


@given(PARTS, ROVE, K, FORCE)
def test_no_tackle_passes_its_ceiling(n: int, rove: str, k: float, R: float) -> None:
    """V29, the ceiling by adding shares until they no longer count."""
    ceiling = carried(rove, 20000, k)
    v = tackle(rove, n=str(n), k=si(k * 100, "%"), R=si(R, "N"))
    assert v["K"] < ceiling
    assert v["E_min"] == pytest.approx(R / ceiling, rel=1e-6)
    assert v["E"] > v["E_min"]


@given(ROVE, K, FORCE, WEIGHT, st.floats(0.03, 1.2))
def test_the_fewest_parts_under_a_limit(rove: str, k: float, R: float, w: float, part: float) -> None:
    """Counted here by walking the rope; where none will do, the words say so."""
    limit = (R + w) * part
    assume(0.1 < limit < 80000)
    pulls = {n: (R + w) / carried(rove, n, k) for n in range(1, 13)}
    assume(all(abs(pull / limit - 1) > 1e-6 for pull in pulls.values()))
    fewest = next((n for n, pull in pulls.items() if pull <= limit), None)
    answer = ask(
        "tackle", "si", {"rove": rove}, R=si(R, "N"), w=si(w, "N"), k=si(k * 100, "%"), E=si(limit, "N"), h="1"
    )
    if fewest is None:
        assert [error["code"] for error in answer["errors"]] == ["e-neverparts"]
    else:
        assert answer["errors"] == []
        assert answer["values"]["n"]["si"] == fewest
        assert answer["values"]["E"]["si"] == pytest.approx(pulls[fewest], rel=1e-9)
        assert answer["fields"]["E"]["mark"] == "limit"


@given(ROVE, FORCE, st.floats(0.09, 1.0))
def test_without_a_share_the_fewest_parts_are_the_ideal_ones(rove: str, R: float, part: float) -> None:
    limit = R * part
    assume(abs(1 / part - round(1 / part)) > 1e-6)
    answer = ask("tackle", "si", {"rove": rove}, R=si(R, "N"), E=si(limit, "N"), h="1")
    assert answer["values"]["n"]["si"] == -(-R // limit)


@given(st.integers(2, 12), ROVE, st.floats(0.6, 0.995), FORCE, WEIGHT, st.sampled_from(["E", "R", "k"]))
def test_a_tackle_solves_back(n: int, rove: str, k: float, R: float, w: float, asked: str) -> None:
    full = {"n": str(n), "k": si(k * 100, "%"), "R": si(R, "N"), "w": si(w, "N"), "h": "0.3 m"}
    before = tackle(rove, **full)
    assume(before["E"] > 0.1)
    full["E"] = si(before["E"], "N")
    again = tackle(rove, **{s: t for s, t in full.items() if s != asked})
    assert again[asked] == pytest.approx(before[asked], rel=1e-7)


@given(PARTS, ROVE, K, FORCE, WEIGHT, st.floats(0.5, 10))
def test_forces_scale_and_ratios_stay(n: int, rove: str, k: float, R: float, w: float, c: float) -> None:
    rest = {"n": str(n), "k": si(k * 100, "%"), "h": "0.3 m"}
    one = tackle(rove, R=si(R, "N"), w=si(w, "N"), **rest)
    many = tackle(rove, R=si(R * c, "N"), w=si(w * c, "N"), **rest)
    for s in ("E", "E_down", "G", "E_x"):
        assert many[s] == pytest.approx(one[s] * c, rel=1e-11)
    for s in ("IMA", "AMA", "eta", "K"):
        assert many[s] == pytest.approx(one[s], rel=1e-11)


def test_a_single_pulley_is_the_shortest_tackle() -> None:
    for kind, rove, n in (("fixed", "disadvantage", "1"), ("movable", "advantage", "2")):
        alone = values("single-pulley", "us", {"kind": kind}, R="20", k="92", h="12")
        roved = values("tackle", "us", {"rove": rove}, R="20", k="92", h="12", n=n)
        for symbol in ("E", "E_down", "IMA", "eta", "dE", "Win"):
            assert alone[symbol] == pytest.approx(roved[symbol], rel=1e-12)


def test_one_part_to_advantage_is_called_a_bare_rope() -> None:
    notes = ask("tackle", "us", {"rove": "advantage"}, R="20", n="1", h="12")["notes"]
    assert [note["code"] for note in notes] == ["n-bareparts"]


def test_half_a_part_is_refused() -> None:
    answer = ask("tackle", R="20", n="2.5", h="12")
    assert field(answer, "n")["error"]["code"] == "e-int"


@pytest.mark.parametrize(
    ("row", "n"), [("observed whip", 1), ("observed 2:1", 2), ("observed 4:1", 4), ("observed 6:1", 6)]
)
def test_observed_efficiencies_give_the_observed_pulls(row: str, n: int) -> None:
    """Workshop table of observed tackles: efficiency and pull for each unit of load, both as printed there.

    Its rows 3:1 and 5:1 print pulls (0.45 and 0.32) that do not follow from their own efficiencies (0.444 and 0.325),
    so they check nothing.
    """
    numbers = CONVENTIONS[row]["numbers"]
    efficiency = numbers.partition(" ")[0]
    pull = numbers.partition("pull ")[2].partition(" ")[0]
    half = 10 ** -len(pull.partition(".")[2]) / 2
    v = values("tackle", "us", R="1000", n=str(n), eta=si(float(efficiency) * 100, "%"))
    assert v["E"] / LBF / 1000 == pytest.approx(float(pull), abs=half * 1.0001)


def test_a_factor_per_sheave_is_the_same_rule_the_other_way_up() -> None:
    """Rigging practice writes pull = W c^n (c - 1)/(c^p - 1) with c = 1/k over 1 (recalled, no source read)."""
    for c, n in ((1.03, 4), (1.1, 6)):
        v = values("tackle", "us", R="100", n=str(n), k=si(100 / c, "%"))
        assert v["E"] / LBF == pytest.approx(100 * c**n * (c - 1) / (c**n - 1), rel=1e-9)
