"""Counts, turns, speeds, pitches, torques, times and powers: what their boxes take, show and put in a line."""

from __future__ import annotations

import math
from typing import Any

import pytest

import calc
from calc import registry
from calc.model import Calculator, Quantity, Relation
from calc.units import KINDS, factor, from_unit, in_unit

GEARBOX = Calculator(
    key="toy-gearbox",
    title="A gear pair on a motor",
    quantities=(
        Quantity("a", "Driver teeth", "count", "12", "12", level=1, low=5, high=400),
        Quantity("b", "Driven teeth", "count", "48", "48", level=1, low=5, high=400),
        Quantity("n", "Speed in", "speed", "360 rpm", "360 rpm", level=1),
        Quantity("n_b", "Speed out", "speed", level=1),
        Quantity("T", "Torque in", "torque", "20 lbf·in", "2 N·m", level=1),
        Quantity("P", "Power", "power", "hp", "W", level=1),
        Quantity("t", "Running time", "time", "2 min", "2 min", level=1),
        Quantity("W", "Work", "work", level=1),
    ),
    relations=(
        Relation("n_b = n*a/b", "The bigger gear turns slower."),
        Relation("P = T*n", "Power is torque times speed of turning."),
        Relation("W = P*t", "Work is power times time."),
    ),
)
SCREW = Calculator(
    key="toy-screw",
    title="A screw",
    quantities=(
        Quantity("p", "Pitch", "pitch", "6 TPI", "4 mm", level=1),
        Quantity("h", "Travel", "length", "1 in", "24 mm", level=1),
        Quantity("turns", "Turns", "turns", level=1),
    ),
    relations=(Relation("turns = h/p", "Each turn moves it by one pitch."),),
)


@pytest.fixture(autouse=True)
def declared(monkeypatch: pytest.MonkeyPatch) -> None:
    for toy in (GEARBOX, SCREW):
        monkeypatch.setitem(registry.CALCULATORS, toy.key, toy)


def ask(toy: Calculator, units: str = "us", **given: str) -> dict[str, Any]:
    return calc.answer({"calculator": toy.key, "given": given, "units": units})


def line(answer: dict[str, Any], symbol: str) -> str:
    return next(x["text"] for x in answer["working"] if x["text"].startswith(f"{symbol} = "))


def test_a_count_is_whole() -> None:
    assert ask(GEARBOX, a="12.5")["errors"] == [
        {"symbol": "a", "code": "e-int", "text": "Driver teeth must be a whole number. Round it to a count."}
    ]
    assert ask(GEARBOX, a="12 ± 1")["errors"][0]["code"] == "e-int"
    assert ask(GEARBOX, a="4")["errors"][0]["text"].startswith("Driver teeth must be between 5 and 400 here.")
    assert ask(GEARBOX, a="12 in")["errors"][0]["code"] == "e-nounit"


def test_a_count_that_comes_out_between_two_says_which_is_nearest() -> None:
    field = ask(GEARBOX, a="12", n="360", n_b="100")["fields"]["b"]
    assert (field["shown"], field["note"]) == ("43.2", "Not a whole number. The nearest is 43.")
    assert ask(GEARBOX, a="12", n="360", n_b="90")["fields"]["b"]["shown"] == "48"


def test_a_count_slides_by_ones() -> None:
    slider = next(s for s in calc.answer(calc.example(GEARBOX.key))["sliders"] if s["symbol"] == "a")
    assert (slider["low"], slider["high"], slider["step"]) == (6, 30, 1)


def test_speeds_stay_in_turns_per_minute_where_only_speeds_are_compared() -> None:
    answer = calc.answer(calc.example(GEARBOX.key))
    assert line(answer, "n_b") == "n_b = n*a / b = 360 rpm × 12 / 48 = 90.0 rpm"


def test_power_is_torque_times_radians_per_second() -> None:
    """20 lbf in at 360 rpm: the handbook form T n / 63025.36 in horsepower (550 ft lbf/s) gives 0.11424 hp."""
    answer = calc.answer(calc.example(GEARBOX.key))
    assert answer["values"]["P"]["si"] / factor("hp") == pytest.approx(20 * 360 / 63025.36, rel=1e-6)
    assert line(answer, "P").endswith("= 754 in·lbf/s = 0.1142 hp")
    assert line(answer, "W") == "W = P*t = 62.8 ft·lbf/s × 120 s = 7540 ft·lbf"


def test_a_pitch_reads_threads_per_inch_and_lengths() -> None:
    for text in ("6 TPI", "6 tpi", "6", "6 threads per inch", "1/6 in", "4.2333333333 mm"):
        value = ask(SCREW, p=text)["values"]["p"]["si"]
        assert value == pytest.approx(0.0254 / 6, rel=1e-9), text
    assert ask(SCREW, "si", p="4")["values"]["p"]["si"] == pytest.approx(0.004)


def test_a_pitch_is_shown_in_the_unit_of_its_box() -> None:
    answer = ask(SCREW, h="1", turns="8")
    assert answer["fields"]["p"]["shown"] == "8.00"
    assert answer["fields"]["p"]["unit"] == "TPI"
    assert ask(SCREW, p="6 TPI")["fields"]["p"]["converted"] == {"us": "6", "si": "4.23333"}


def test_formulas_take_the_pitch_itself() -> None:
    answer = calc.answer(calc.example(SCREW.key))
    assert answer["working"][0]["text"] == "p = 6 TPI = 0.166667 in"
    assert line(answer, "turns") == "turns = h / p = 1 in / 0.166667 in = 6.00 turns"
    found = line(ask(SCREW, h="1", turns="8"), "turns")
    assert found == "turns = h/p, so p = h / turns = 1 in / 8 turns = 0.1250 in = 8.00 TPI"


def test_a_pitch_has_limits_in_threads_per_inch_too() -> None:
    text = ask(SCREW, p="0.1 TPI")["errors"][0]["text"]
    assert text.startswith("Pitch must be between 0.500 TPI and 80.0 TPI here.")
    assert ask(SCREW, p="0 TPI")["errors"][0]["code"] == "e-zero"
    assert ask(SCREW, p="6 lbf")["errors"][0]["code"] == "e-dim"
    assert ask(SCREW, h="6 TPI")["errors"][0]["code"] == "e-dim"


def test_the_doubt_of_a_pitch_goes_with_its_threads() -> None:
    """d(1/N) = dN / N^2, so the relative doubt is the same: 0.06/6 = 1 %, halved for k = 2."""
    p = ask(SCREW, p="6 ± 0.06 TPI")["values"]["p"]
    assert p["u"] / p["si"] == pytest.approx(0.005, rel=1e-9)


@pytest.mark.parametrize("kind", ["time", "torque", "power", "work", "speed", "turns", "pitch"])
def test_every_unit_offered_is_read_and_comes_back(kind: str) -> None:
    for unit in KINDS[kind].units:
        assert in_unit(from_unit(7.0, unit), unit) == pytest.approx(7.0)


def test_turns_are_counted_and_speed_turns_by_radians() -> None:
    assert factor("turns") == 1
    assert factor("rpm") == pytest.approx(2 * math.pi / 60)
