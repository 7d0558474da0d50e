"""The doubt after ±: in which unit it is read, what it says, and where it is refused."""

from __future__ import annotations

import math

import pytest
import uncertainties

from calc.measure import read
from calc.messages import Refused
from calc.units import KINDS

INCH = 0.0254  # exactly, by the yard and pound agreement of 1959
LBF = 0.45359237 * 9.80665  # the pound of 1959 under standard gravity (3rd CGPM, 1901)
SURE = "± is taken as about 95 % sure (k = 2)."


@pytest.mark.parametrize(
    ("text", "kind", "box", "value", "doubt"),
    [
        ("8 ft ± 1 in", "length", "in", 96 * INCH, INCH),
        ("8 ft ± 1/2 in", "length", "in", 96 * INCH, INCH / 2),
        ("8' ± 1", "length", "in", 96 * INCH, 12 * INCH),
        ("8. ± 1 ft", "length", "in", 96 * INCH, 12 * INCH),
        ("40 lb ± 1 lb", "force", "N", 40 * LBF, LBF),
        ("40 ± 1 lb", "force", "N", 40 * LBF, LBF),
        ("40 lb ± 16 oz", "force", "N", 40 * LBF, LBF),
        ("40 lbf ± 1 N", "force", "N", 40 * LBF, 1),
        ("40 kg ± 1 lb", "mass", "kg", 40, 0.45359237),
        ("90 % ± 2 %", "efficiency", "%", 0.9, 0.02),
        ("90 ± 2", "efficiency", "%", 0.9, 0.02),
        ("0.3 ± 0.1", "friction", "", 0.3, 0.1),
        ("30° ± 0.1 rad", "angle", "°", math.radians(30), 0.1),
        ("1:4 ± 1", "angle", "°", math.atan(1 / 4), math.radians(1)),
        ("25 % ± 1°", "angle", "°", math.atan(1 / 4), math.radians(1)),
    ],
)
def test_a_doubt_is_read_in_its_own_unit_or_that_of_the_value(
    text: str, kind: str, box: str, value: float, doubt: float
) -> None:
    """By the exact definitions of inch and pound; what is typed is twice the standard uncertainty."""
    reading = read(text, KINDS[kind], "Box", box)
    assert reading.nominal == pytest.approx(value, rel=1e-12)
    assert 2 * uncertainties.std_dev(reading.value) == pytest.approx(doubt, rel=1e-9)
    assert reading.text == text


@pytest.mark.parametrize("text", ["25 % ± 1 %", "25 ± 1 %", "25 % ± 1"])
def test_a_doubt_of_a_slope_in_percent_is_as_many_degrees_as_the_slope_changes_by(text: str) -> None:
    """From 24 % to 26 % by the arc tangent itself."""
    reading = read(text, KINDS["angle"], "Slope", "°")
    assert 4 * uncertainties.std_dev(reading.value) == pytest.approx(math.atan(0.26) - math.atan(0.24), rel=1e-4)


@pytest.mark.parametrize(
    ("text", "kind", "box"),
    [
        ("15 lbf ± 2 %", "force", "lbf"),
        ("5 in ± 10 %", "length", "in"),
        ("30° ± 5 %", "angle", "°"),
        ("6 TPI ± 1 %", "pitch", "TPI"),
        ("5 in ± 1 lbf", "length", "in"),
        ("5 in ± 1 cubit", "length", "in"),
        ("5 in ± 1 lb", "length", "in"),
        ("5 in ± x", "length", "in"),
        ("5 in ± -1", "length", "in"),
        ("5 in ± 1/0 in", "length", "in"),
        ("5 in ± 1e400 in", "length", "in"),
        ("5 in ±", "length", "in"),
        ("± 1", "length", "in"),
        ("5 ± 1 ± 2", "length", "in"),
    ],
)
def test_a_doubt_that_cannot_be_read_is_refused_in_words(text: str, kind: str, box: str) -> None:
    with pytest.raises(Refused) as refused:
        read(text, KINDS[kind], "Box", box)
    assert refused.value.message.text == "I cannot read the doubt. Write the doubt after ±, like 15 ± 0.5 lbf."


def test_a_doubt_leaves_what_else_a_reading_says() -> None:
    plain, doubted = (read(text, KINDS["force"], "Load", "lbf") for text in ("40 lb", "40 lb ± 1"))
    assert doubted.echo == f"Read as 40 lbf = 177.9 N. {SURE}"
    assert (doubted.unit, doubted.resolution, doubted.warning) == (plain.unit, plain.resolution, plain.warning)
    assert read("15 ± 1", KINDS["force"], "Load", "lbf").echo == SURE


def test_no_doubt_at_all_is_none() -> None:
    reading = read("15 ± 0.0", KINDS["force"], "Load", "lbf")
    assert isinstance(reading.value, float)
    assert (reading.text, reading.echo) == ("15 ± 0.0", "")


def test_a_value_beside_a_doubt_is_refused_in_its_own_words() -> None:
    with pytest.raises(Refused) as refused:
        read("7 cubits ± 1", KINDS["speed"], "Speed", "rpm")
    assert refused.value.message.text == "I do not know the unit “cubits”. For Speed use rpm or rad/s."


@pytest.mark.parametrize(
    ("text", "fits"),
    [
        ("0.5 ± 1e12", True),
        ("0.5 ± 1.1e12", False),
        ("5 ± 4e12", True),
        ("5 ± 6e12", False),
        ("-5 ± 4e12", True),
    ],
)
def test_a_doubt_reaches_so_many_times_its_value_or_one(text: str, fits: bool) -> None:
    if fits:
        assert uncertainties.std_dev(read(text, KINDS["ratio"], "Box", "").value) > 0
    else:
        with pytest.raises(Refused, match="too large"):
            read(text, KINDS["ratio"], "Box", "")
