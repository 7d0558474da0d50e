"""Three ways side by side: each as its own calculator has it, and no way for less work."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

import calc
from calc.compare import NONE, WAYS
from calc.library import table_of
from tests.calc.asking import FT_LBF, INCH, LBF, ask, field, values

FORCE, HEIGHT, SHARE = st.floats(10, 3000), st.floats(0.1, 1.5), st.floats(0.05, 1)
SIZES = {
    "hand": {},
    "ramp": {"L": "3.1 m"},
    "lever": {"aR": "0.4 m", "aE": "1.7 m"},
    "wheel": {"r_w": "0.38 m", "D_a": "0.17 m"},
    "tackle": {"n": "5"},
    "screw": {"r": "0.125 m", "l": "6 mm"},
}


def boxes(way: str, i: int, eta: float | None = None) -> dict[str, str]:
    """The boxes of way ``i``, filled with sizes that are nobody's example."""
    given_ = {f"{symbol}_{i}": text for symbol, text in SIZES[way].items()}
    return given_ if eta is None or way == "hand" else {**given_, f"eta_{way[0]}_{i}": f"{eta * 100!r} %"}


def compared(R: float, h: float, ways: tuple[str, ...], eta: float | None = None) -> dict[str, float]:
    chosen = {f"way_{i}": way for i, way in enumerate((*ways, NONE, NONE)[:3], 1)}
    filled = {symbol: text for i, way in enumerate(ways, 1) for symbol, text in boxes(way, i, eta).items()}
    return values("compare", "si", chosen, R=f"{R!r} N", h=f"{h!r} m", **filled)


def alone(way: str, R: float, h: float, eta: float) -> dict[str, float]:
    """What the machine's own calculator says; a lever is tipped just so far that its load rises by the height."""
    more = {"R": f"{R!r} N", "eta": f"{eta * 100!r} %", **SIZES[way]}
    if way in ("ramp", "tackle", "screw"):
        more["h"] = f"{h!r} m"
    if way == "lever":
        more["psi"] = f"{math.asin(h / 0.8)!r} rad"
    key = {"wheel": "wheel-and-axle"}.get(way, way)
    return values(key, "si", {"thread": "square"} if way == "screw" else {}, **more)


@pytest.mark.parametrize("way", [way.option for way in WAYS if way.machine])
@pytest.mark.parametrize("eta", [1.0, 0.62])
def test_each_way_gives_what_the_machine_s_own_calculator_gives(way: str, eta: float) -> None:
    R, h = 250.0, 0.55
    here, there = compared(R, h, (way,), eta), alone(way, R, h, eta)
    names = ("E", "IMA", "dE", "Win") if way != "wheel" else ("E", "IMA")  # that calculator looks at one turn
    for name in names:
        assert here[f"{name}_1"] == pytest.approx(there[name], rel=1e-9), name
    if way == "wheel":
        assert here["dE_1"] / h == pytest.approx(there["dE"] / there["dR"], rel=1e-9)


def test_j17_and_j39() -> None:
    """Section J of the specification, computed by two routes: the ideal ramp, and 75 % at an advantage of 4."""
    chosen = {"way_1": "ramp", "way_2": "tackle", "way_3": NONE}
    v = values("compare", "us", chosen, R="120", h="24 in", L_1="96 in", n_2="4", eta_t_2="75 %")
    assert v["E_1"] / LBF == pytest.approx(30)
    assert [v["E_2"] / LBF, v["Win_2"] / FT_LBF] == pytest.approx([40, 320])


@given(FORCE, HEIGHT, SHARE, st.lists(st.sampled_from(list(SIZES)), min_size=1, max_size=3))
def test_energy_closes_on_every_way(R: float, h: float, eta: float, ways: list[str]) -> None:
    v = compared(R, h, tuple(ways), eta)
    for i, way in enumerate(ways, 1):
        keeps = 1 if way == "hand" else eta
        assert v[f"E_{i}"] * v[f"dE_{i}"] == pytest.approx(R * h / keeps, rel=1e-9)
        assert v[f"Wlost_{i}"] == pytest.approx(R * h * (1 / keeps - 1), rel=1e-9, abs=1e-9 * R * h)


@given(FORCE, HEIGHT, st.permutations(list(SIZES)))
def test_without_friction_every_way_takes_the_same_work(R: float, h: float, ways: list[str]) -> None:
    v = compared(R, h, tuple(ways[:3]))
    assert [v[f"Win_{i}"] for i in (1, 2, 3)] == pytest.approx([R * h] * 3, rel=1e-12)


def test_the_order_of_the_ways_changes_nothing() -> None:
    ways = ("ramp", "tackle", "lever")
    first = compared(200, 0.4, ways, 0.7)
    for order in itertools.permutations(ways):
        other = compared(200, 0.4, order, 0.7)
        for name, way in itertools.product(("E", "dE", "Win", "Wlost", "IMA"), ways):
            was, now = first[f"{name}_{ways.index(way) + 1}"], other[f"{name}_{order.index(way) + 1}"]
            assert now == pytest.approx(was, rel=1e-12)


@pytest.mark.parametrize(("units", "pull"), [("us", 25 * LBF), ("si", 110.0)])
def test_a_class_can_pull_every_way_of_the_example(units: str, pull: float) -> None:
    """Common practice, no source: what one student pulls steadily."""
    answer = calc.answer(calc.example("compare", units))
    for i in (1, 2, 3):
        assert answer["values"][f"E_{i}"]["si"] <= pull


def test_an_empty_efficiency_is_ideal_and_says_so() -> None:
    answer = ask("compare", R="60", h="24", L_1="96", n_2="4", eta_t_2="80", r_w_3="15", D_a_3="6")
    assert field(answer, "eta_r_1")["state"] == "assumed"
    assert "ideal" in field(answer, "eta_r_1")["note"]
    assert answer["html"]["results"].count('<span class="none">ideal</span>') == 2


@pytest.mark.parametrize(("height", "noted"), [("3 in", False), ("3.2 in", True)])
def test_a_lever_that_must_swing_too_far_is_raised_in_stages(height: str, noted: bool) -> None:
    """15° down and up on an arm of 6 in: a rise of 12 in times sin 15° = 3.106 in, by hand."""
    answer = ask("compare", choices={"way_1": "lever"}, R="60", h=height, aR_1="6", aE_1="24")
    assert ("One swing will not do it." in field(answer, "aR_1")["note"]) == noted
    assert 2 * 6 * math.sin(math.radians(15)) * INCH == pytest.approx(3.106 * INCH, rel=1e-3)


def test_an_impossible_ramp_stops_only_itself() -> None:
    answer = ask("compare", R="60", h="24", L_1="20", n_2="4")
    assert [(error["symbol"], error["code"]) for error in answer["errors"]] == [("L_1", "e-hgtL")]
    assert "E_1" not in answer["values"]
    assert answer["values"]["E_2"]["text"] == "15.00 lbf"


def test_a_way_left_out_has_no_column_and_no_boxes() -> None:
    answer = ask("compare", choices={"way_2": NONE}, R="60", h="24", L_1="96", r_w_3="15", D_a_3="6")
    assert answer["html"]["results"].count('<th scope="col">') == 2
    assert field(answer, "n_2")["state"] == "unused"
    assert "on either way" in answer["html"]["sentence"]


def test_an_empty_sheet_asks_only_for_boxes_that_stand_there() -> None:
    sentence = ask("compare")["html"]["sentence"]
    assert "load" in sentence
    assert "arm" not in sentence  # no way is a lever


@pytest.mark.parametrize(
    ("way", "facts"),
    [
        ("ramp", ("cart-efficiency", "slide-efficiency")),
        ("lever", ("lever-efficiency",)),
        ("wheel", ("windlass-efficiency",)),
        ("tackle", ("tackle-efficiency",)),
        ("screw", ("screw-efficiency",)),
    ],
)
def test_a_hint_tells_the_usual_efficiency_as_the_facts_of_the_trade_have_it(way: str, facts: tuple[str, ...]) -> None:
    """shared/facts.toml names the source of each, or says that it has none."""
    known = table_of("facts.toml")
    (hint,) = (q["hint"] for q in calc.describe("compare")["quantities"] if q["symbol"] == f"eta_{way[0]}_1")
    for fact in facts:
        assert known[fact]["text"] in hint
    assert "common practice" in hint
