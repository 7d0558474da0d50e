"""The compound machine: advantages and efficiencies multiply, whatever the order, stage by stage."""

from __future__ import annotations

import random

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from calc.compound import CHAIN
from tests.calc.asking import ask, values

STAGE = st.tuples(st.floats(0.1, 20), st.floats(0.05, 1))
STAGES = st.lists(STAGE, min_size=1, max_size=5)
OWN = {"preset": "own"}


def boxes(stages: list[tuple[float, float]]) -> dict[str, str]:
    given_ = {}
    for i, (advantage, efficiency) in enumerate(stages, 1):
        given_ |= {f"IMA_{i}": f"{advantage!r}", f"eta_{i}": f"{efficiency * 100!r} %"}
    return given_


@given(STAGES, st.floats(1, 5000), st.randoms(use_true_random=False))
def test_the_order_of_the_stages_does_not_matter(
    stages: list[tuple[float, float]], R: float, shuffle: random.Random
) -> None:
    """V13."""
    other = list(stages)
    shuffle.shuffle(other)
    one = values("chain", "si", OWN, R=f"{R!r} N", **boxes(stages))
    two = values("chain", "si", OWN, R=f"{R!r} N", **boxes(other))
    for symbol in ("IMA", "AMA", "eta", "E"):
        assert two[symbol] == pytest.approx(one[symbol], rel=1e-12)


@given(st.lists(STAGE, min_size=1, max_size=4), st.floats(1, 5000))
def test_a_stage_that_does_nothing_changes_nothing(stages: list[tuple[float, float]], R: float) -> None:
    """V13."""
    one = values("chain", "si", OWN, R=f"{R!r} N", **boxes(stages))
    two = values("chain", "si", OWN, R=f"{R!r} N", **boxes([*stages, (1.0, 1.0)]))
    for symbol in ("IMA", "AMA", "eta", "E"):
        assert two[symbol] == pytest.approx(one[symbol], rel=1e-12)


@given(STAGES, st.floats(1, 5000), st.floats(0.01, 3))
def test_the_effort_is_that_of_one_machine_after_another(stages: list[tuple[float, float]], R: float, h: float) -> None:
    """V13, from the load back: what one stage needs is the load of the next stage nearer the hand."""
    v = values("chain", "si", OWN, R=f"{R!r} N", h=f"{h!r} m", **boxes(stages))
    load, travel = R, h
    for advantage, efficiency in reversed(stages):
        assume(0.1 < load < 80000)
        one = values(
            "any-machine", "si", R=f"{load!r} N", dR="1 m", dE=f"{advantage!r} m", eta=f"{efficiency * 100!r} %"
        )
        load, travel = one["E"], travel * advantage
    assert v["E"] == pytest.approx(load, rel=1e-9)
    assert v["dE"] == pytest.approx(travel, rel=1e-12)
    last = len(stages)
    assert [v[f"F_{last}"], v[f"d_{last}"]] == pytest.approx([R, h], rel=1e-9)


@given(STAGES, st.floats(1, 5000), st.sampled_from(["R", "IMA_1"]))
def test_it_solves_back(stages: list[tuple[float, float]], R: float, asked: str) -> None:
    """V3."""
    full = {"R": f"{R!r} N", **boxes(stages)}
    v = values("chain", "si", OWN, **full)
    assume(0.1 < v["E"] < 80000)
    rest = {symbol: text for symbol, text in full.items() if symbol != asked} | {"E": f"{v['E']!r} N"}
    assert values("chain", "si", OWN, **rest)[asked] == pytest.approx(v[asked], rel=1e-7)


@pytest.mark.parametrize("preset", [name for name, _ in CHAIN.choices[0].options if name != "own"])
def test_each_preset_is_a_whole_machine(preset: str) -> None:
    answer = ask("chain", choices={"preset": preset}, R="80", h="12")
    assert answer["errors"] == []
    assert answer["values"]["E"]["view"] == "expected"
    assert answer["fields"]["IMA_1"]["state"] == "assumed"
    assert answer["fields"]["IMA_1"]["note"]


def test_the_numbers_of_the_presets_follow_from_their_own_words() -> None:
    """Each recomputed from the sizes in its note, to the figures shown."""
    from math import pi

    want = {
        ("windlass-tackle", "IMA_1"): 15 / 3.25,
        ("windlass-tackle", "eta_2"): (1 + 0.92 + 0.92**2) / 3,
        ("crank-gears-drum", "IMA_1"): 15 / 1.5,
        ("crank-gears-drum", "IMA_2"): 6 / 3.25,
        ("vise", "IMA_1"): 5 / (1 / 3),
        ("vise", "IMA_2"): pi * (2 / 3) / (1 / 6),
        ("vise", "eta_2"): 0.182765,  # the same vise among the reference calculations
        ("tackle-ramp", "IMA_2"): 8 / 2,
        ("tackle-ramp", "eta_2"): 1 / (1 + 0.03 * (8**2 - 2**2) ** 0.5 / 2),  # 1/(1 + C run/rise)
        ("lopper", "IMA_1"): 16 / 2,
        ("lopper", "IMA_2"): 2.5 / 1,
    }
    for (preset, symbol), number in want.items():
        shown = values("chain", choices={"preset": preset}, R="80")[symbol]
        assert shown == pytest.approx(number, rel=1.5e-3), (preset, symbol)


def test_it_says_what_it_cannot_tell() -> None:
    codes = {
        preset: {note["code"] for note in ask("chain", choices={"preset": preset}, R="80")["notes"]}
        for preset in ("lopper", "vise")
    }
    assert codes == {"lopper": {"n-cannottell"}, "vise": {"n-viseholds"}}


def test_what_is_typed_stands_before_the_preset() -> None:
    answer = ask("chain", choices={"preset": "windlass-tackle"}, R="80", IMA_1="10")
    assert answer["values"]["IMA"]["si"] == pytest.approx(30)
    assert answer["fields"]["IMA_1"]["state"] == "typed"
