"""The same work, different trade: whatever the machine, effort times effort distance is load times height."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

import calc
from tests.calc.asking import FT_LBF, INCH, LBF, ask, field, values

FORCE, HEIGHT = st.floats(1, 5000), st.floats(0.05, 10)
ADVANTAGE, SHARE = st.floats(0.2, 200), st.floats(0.05, 1)


def own(R: float, h: float, IMA: float, eta: float | None = None) -> dict[str, float]:
    more = {} if eta is None else {"eta": f"{eta * 100!r} %"}
    return values("same-work", "si", IMA=f"{IMA!r}", R=f"{R!r} N", h=f"{h!r} m", **more)


@given(FORCE, HEIGHT, ADVANTAGE)
def test_without_friction_the_area_is_the_load_s_work(R: float, h: float, IMA: float) -> None:
    v = own(R, h, IMA)
    assert v["E"] * v["dE"] == pytest.approx(R * h, rel=1e-12)
    assert v["dE"] / v["dR"] == pytest.approx(IMA, rel=1e-12)
    assert "Wlost" not in v


@given(FORCE, HEIGHT, ADVANTAGE, SHARE)
def test_with_friction_the_area_grows_by_the_lost_work_alone(R: float, h: float, IMA: float, eta: float) -> None:
    """Energy closes: Win = R h/eta, and what is not lost is the load's work again."""
    v = own(R, h, IMA, eta)
    assert v["Win"] == pytest.approx(R * h / eta, rel=1e-9)
    assert v["Win"] - v["Wlost"] == pytest.approx(R * h, rel=1e-9)
    assert v["E"] == pytest.approx(own(R, h, IMA)["E"] / eta, rel=1e-9)


@given(FORCE, st.floats(0.05, 1.5), ADVANTAGE, SHARE)
def test_any_machine_agrees(R: float, h: float, IMA: float, eta: float) -> None:
    """The same numbers from the calculator that knows forces and distances only."""
    v = own(R, h, IMA, eta)
    other = values("any-machine", "si", R=f"{R!r} N", dR=f"{h!r} m", dE=f"{h * IMA!r} m", eta=f"{eta * 100!r} %")
    for symbol in ("E", "dE", "Win", "Wout"):
        assert v[symbol] == pytest.approx(other[symbol], rel=1e-9)


def test_j39_for_the_reader_s_own_machine() -> None:
    """120 lbf raised 2 ft: section J of the specification, computed by two routes (not a published source)."""
    ideal = values("same-work", R="120", h="2", IMA="8")
    assert [ideal["E"] / LBF, ideal["dE"] / 12 / INCH] == pytest.approx([15, 16])
    worn = values("same-work", R="120", h="2", IMA="4", eta="75")
    assert [worn["E"] / LBF, worn["Win"] / FT_LBF, worn["Wlost"] / FT_LBF] == pytest.approx([40, 320, 80])


def test_friction_stands_beside_the_ideal_machine_and_on_every_row() -> None:
    answer = ask("same-work", IMA="4", R="36", h="2", eta="75", IMA_1="1", IMA_2="8")
    assert [column["view"] for column in answer["columns"]] == ["ideal", "expected"]
    texts = {symbol: entry["text"] for symbol, entry in answer["values"].items()}
    assert texts["Win_1"] == texts["Win_2"] == texts["Win"] == "96.0 ft·lbf"


def test_a_measured_effort_tells_what_was_lost() -> None:
    answer = ask("same-work", IMA="4", R="36", h="2", E="12")
    assert field(answer, "eta")["shown"] == "75.0"
    assert answer["values"]["Wlost"]["text"] == "24.0 ft·lbf"


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_advantage_is_slid_first_and_no_travel_is(units: str) -> None:
    sliders = calc.answer(calc.example("same-work", units))["sliders"]
    assert [(s["symbol"], s["low"], s["high"]) for s in sliders[:1]] == [("IMA", 1, 8)]
    assert "travel" not in [s["symbol"] for s in sliders]
