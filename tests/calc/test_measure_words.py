"""What a box says about a text: the echo in both systems, how fine the text is, and each refusal word for word."""

from __future__ import annotations

import math

import pytest

from calc.measure import LONGEST, read
from calc.messages import Refused
from calc.units import KINDS

INCH = 0.0254  # exactly, by the yard and pound agreement of 1959
LBF = 0.45359237 * 9.80665  # the pound of 1959 under standard gravity (3rd CGPM, 1901)
RPM = 2 * math.pi / 60


def refused(text: str, kind: str, box: str, system: str = "us") -> str:
    with pytest.raises(Refused) as problem:
        read(text, KINDS[kind], "Load arm", box, system)
    return problem.value.message.text


@pytest.mark.parametrize(
    ("text", "kind", "box", "system", "unit", "half", "echo"),
    [
        ("96", "length", "in", "us", "in", INCH / 2, ""),
        ("12.50", "length", "in", "us", "in", INCH / 200, ""),
        ("1.50e2", "length", "in", "us", "in", INCH / 2, ""),
        ("1E2", "length", "in", "us", "in", INCH * 50, ""),
        ("3/4 in", "length", "in", "us", "in", INCH / 32, "Read as 0.75 in = 0.01905 m."),
        ("8 ft", "length", "in", "us", "ft", INCH * 6, "Read as 96 in = 2.438 m."),
        ("8 ft", "length", "m", "si", "ft", INCH * 6, "Read as 2.438 m = 96 in."),
        ("8 ft", "length", "ft", "us", "ft", INCH * 6, ""),
        ("8.0 ft", "length", "ft", "us", "ft", INCH * 0.6, "Read as 96 in = 2.438 m."),
        ("5-1/2 ft", "length", "ft", "us", "ft", INCH * 12 / 32, "Read as 66 in = 1.676 m."),
        ("5 ft 3 in", "length", "in", "us", "in", INCH / 2, ""),
        ("5 ft 3 in", "length", "ft", "us", "in", INCH / 2, "Read as 63 in = 1.6 m."),
        ("5.5 ft 3 in", "length", "in", "us", "in", INCH / 2, "Read as 69 in = 1.753 m."),
        ("5 ft 3-1/2 in", "length", "in", "us", "in", INCH / 32, ""),
        ("5-1/2 ft 3 in", "length", "in", "us", "in", INCH / 2, "Read as 69 in = 1.753 m."),
        (
            "0.01 ft",
            "pitch",
            "in",
            "us",
            "ft",
            INCH * 0.06,
            "Read as 0.12 in = 3.048 mm. That is 0 ft 1/8 in, not 0 ft 1 in.",
        ),
        ("4 mm", "pitch", "in", "us", "mm", 0.0005, "Read as 0.1575 in = 4 mm."),
        ("4 mm", "pitch", "in", "si", "mm", 0.0005, "Read as 4 mm = 0.1575 in."),
        ("6 TPI", "pitch", "in", "us", "TPI", INCH / 72, "Read as 0.1667 in = 4.233 mm."),  # d(1/N) = dN/N^2
        ("2 kN", "force", "lbf", "us", "kN", 500, "Read as 449.6 lbf = 2000 N."),
        ("2 kN", "force", "N", "si", "kN", 500, "Read as 2000 N = 449.6 lbf."),
        ("3 hp", "power", "W", "si", "hp", 550 * 12 * INCH * LBF / 2, "Read as 2237 W = 1650 ft·lbf/s."),
        ("3 rad/s", "speed", "rpm", "us", "rad/s", 0.5, "Read as 28.65 rpm."),
        ("90", "speed", "rpm", "us", "rpm", RPM / 2, ""),
        ("0.5 rad", "angle", "°", "us", "rad", 0.05, "Read as 28.65°."),
        ("1/2", "ratio", "", "us", "", 1 / 32, "Read as 0.5."),
        ("75", "efficiency", "%", "us", "%", 0.005, ""),
        ("25 %", "angle", "°", "us", "%", 0, "Read as a slope, rise over run: 14.0362°."),
        ("1-1/2 : 12", "angle", "°", "us", "°", 0, "Read as a slope, rise over run: 7.125°."),
    ],
)
def test_a_reading_is_told_in_both_systems_and_knows_its_last_digit(
    text: str, kind: str, box: str, system: str, unit: str, half: float, echo: str
) -> None:
    """By the exact definitions of inch, pound and horsepower (550 ft lbf/s); 1/4 of a slope is 14.0362 degrees."""
    reading = read(text, KINDS[kind], "Load arm", box, system)
    assert (reading.unit, reading.echo, reading.warning, reading.text) == (unit, echo, "", text)
    assert reading.resolution == pytest.approx(half, rel=1e-9)


@pytest.mark.parametrize(
    ("text", "echo"),
    [
        ("5.25 ft", "Read as 63 in = 1.6 m. That is 5 ft 3 in, not 5 ft 25 in."),
        ("5.3'", "Read as 63.6 in = 1.615 m. That is 5 ft 3-5/8 in, not 5 ft 3 in."),
        (".5 ft", "Read as 6 in = 0.1524 m. That is 0 ft 6 in, not 0 ft 5 in."),
        ("11.999 ft", "Read as 144 in = 3.657 m. That is 12 ft 0 in, not 11 ft 999 in."),
        ("5. ft", "Read as 60 in = 1.524 m."),
        ("5.0 ft", "Read as 60 in = 1.524 m."),
    ],
)
def test_tenths_of_a_foot_are_no_inches(text: str, echo: str) -> None:
    assert read(text, KINDS["length"], "Load arm", "in").echo == echo


@pytest.mark.parametrize(
    ("text", "newtons", "unit", "echo", "warning"),
    [
        ("40 lb", 40 * LBF, "lbf", "Read as 40 lbf = 177.9 N.", "In a force box lb means pound-force."),
        ("40 pounds", 40 * LBF, "lbf", "Read as 40 lbf = 177.9 N.", "In a force box pounds means pound-force."),
        ("40 oz", 2.5 * LBF, "ozf", "Read as 2.5 lbf = 11.12 N.", "oz means ounce-force here."),
        ("40 lbf", 40 * LBF, "lbf", "", ""),
    ],
)
def test_pounds_and_ounces_in_a_force_box_are_forces(
    text: str, newtons: float, unit: str, echo: str, warning: str
) -> None:
    """16 ounces are a pound."""
    reading = read(text, KINDS["force"], "Load", "lbf")
    assert reading.nominal == pytest.approx(newtons, rel=1e-12)
    assert (reading.unit, reading.echo, reading.warning) == (unit, echo, warning)


NO_NUMBER = "I cannot read “{}” as a number. Try 12, 3.5, 3/4 or 5-1/2."
LENGTHS = "in, ft, yd, mm, cm or m"


@pytest.mark.parametrize(
    ("text", "kind", "box", "words"),
    [
        ("", "length", "in", "Fill in Load arm first."),
        ("x" * 24, "length", "in", NO_NUMBER.format("x" * 24)),
        ("x" * 25, "length", "in", NO_NUMBER.format("x" * 20 + "…")),
        ("x" * 19 + " yyyyyy", "length", "in", NO_NUMBER.format("x" * 19 + "…")),
        ("x" * (LONGEST + 1), "length", "in", NO_NUMBER.format("x" * 20 + "…")),
        ("x" * 19 + " " * LONGEST, "length", "in", NO_NUMBER.format("x" * 19 + "…")),
        ("5+3", "length", "in", NO_NUMBER.format("5+3")),
        ("5;3", "length", "in", NO_NUMBER.format("5;3")),
        ("ft", "length", "in", NO_NUMBER.format("ft")),
        ("5 ft 14 in", "length", "in", "After feet, inches must be under 12. 5 ft 14 in is 6 ft 2 in."),
        ("5 ft 12 in", "length", "in", "After feet, inches must be under 12. 5 ft 12 in is 6 ft 0 in."),
        ("6 ft 30-1/2 in", "length", "in", "After feet, inches must be under 12. 6 ft 30-1/2 in is 8 ft 6-1/2 in."),
        ("-5 ft 14 in", "length", "in", "After feet, inches must be under 12. -5 ft 14 in is -6 ft 2 in."),
        ("5 9/8", "length", "in", "The fraction after a whole number must be less than 1. 5 9/8 would be 6-1/8."),
        ("-5 9/8 in", "length", "in", "The fraction after a whole number must be less than 1. -5 9/8 would be -6-1/8."),
        ("5 19/8", "length", "in", "The fraction after a whole number must be less than 1. 5 19/8 would be 7-3/8."),
        ("5-8/8 in", "length", "in", "The fraction after a whole number must be less than 1. 5-8/8 would be 6."),
        ("5-28/8", "length", "in", "The fraction after a whole number must be less than 1. 5-28/8 would be 8-1/2."),
        ("3/0", "length", "in", "The bottom of a fraction cannot be zero. Write it like 3/4."),
        ("2 3/0", "length", "in", "The bottom of a fraction cannot be zero. Write it like 3/4."),
        ("1:0", "angle", "°", "The bottom of a fraction cannot be zero. Write it like 3/4."),
        ("1,5 m", "length", "in", "Use a point for decimals. Write 1.5 m."),
        ("1,5", "length", "in", "Use a point for decimals. Write 1.5."),
        ("2 M", "length", "in", "“M” is not a unit here. Use small m for metres, mm for millimetres."),
        ("12 lbf", "length", "in", f"“lbf” measures force, but Load arm needs a length. Use {LENGTHS}."),
        ("2 mm", "stress", "psi", "“mm” measures length, but Load arm needs a stress. Use psi, MPa or GPa."),
        ("5 kg", "length", "in", f"“kg” measures mass, but Load arm needs a length. Use {LENGTHS}."),
        ("5 %", "length", "in", f"“%” measures a share of a hundred, but Load arm needs a length. Use {LENGTHS}."),
        ("5 TPI", "length", "in", f"“TPI” measures threads, but Load arm needs a length. Use {LENGTHS}."),
        (
            "5 " + "lbf" * 9,
            "length",
            "in",
            f"I do not know the unit “{('lbf' * 9)[:20]}…”. For Load arm use {LENGTHS}.",
        ),
        ("7 cubits", "length", "in", f"I do not know the unit “cubits”. For Load arm use {LENGTHS}."),
        ("7 cubits", "speed", "rpm", "I do not know the unit “cubits”. For Load arm use rpm or rad/s."),
        ("7 cubits", "efficiency", "%", "I do not know the unit “cubits”. For Load arm use %."),
        ("7 cubits", "friction", "", "Load arm is a plain number. Leave out the “cubits”."),
        ("0.3 lbf", "friction", "", "Load arm is a plain number. Leave out the “lbf”."),
        ("0 TPI", "pitch", "TPI", "Load arm cannot be zero. Give the size that you measured."),
        ("0.75", "efficiency", "%", "Did you mean 75 % or 0.75 %? Type the percent sign."),
        ("1.49", "efficiency", "%", "Did you mean 149 % or 1.49 %? Type the percent sign."),
        ("1e400", "length", "in", "That number is too large for this page. Check the digits and the unit."),
        ("1.79769e306 kN", "force", "lbf", "That number is too large for this page. Check the digits and the unit."),
        ("0e9999", "ratio", "", "That number is too large for this page. Check the digits and the unit."),
    ],
)
def test_a_refusal_says_what_is_wrong_and_what_would_do(text: str, kind: str, box: str, words: str) -> None:
    assert refused(text, kind, box) == words


@pytest.mark.parametrize(("text", "share"), [("0", 0), ("0.5 %", 0.005), ("1.5", 0.015), ("75", 0.75)])
def test_an_efficiency_is_asked_for_its_sign_only_where_it_may_be_a_share(text: str, share: float) -> None:
    assert read(text, KINDS["efficiency"], "Efficiency", "%").nominal == pytest.approx(share)


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        (" 5 ", 5),
        ("5''", 5),
        ("½", 0.5),
        ("5 ½", 5.5),
        ("-2.5", -2.5),
        ("-3/4", -0.75),
        ("-5-1/2", -5.5),
        ("-5 ft 3 in", -63),
        ("-0 ft 3 in", -3),
        ("0" * (LONGEST - 1) + "7", 7),
    ],
)
def test_signs_and_spaces_are_read(text: str, inches: float) -> None:
    assert read(text, KINDS["length"], "Load arm", "in").nominal / INCH == pytest.approx(inches)


@pytest.mark.parametrize(
    ("text", "system", "fill"),
    [("10 kg", "us", "22.0462 lbf"), ("10 kg", "si", "98.0665 N"), ("500 g", "si", "4.90333 N")],
)
def test_a_weight_is_offered_to_fill_in(text: str, system: str, fill: str) -> None:
    """1 kg weighs 9.80665 N by standard gravity; 10 kg are 22.0462 lb."""
    with pytest.raises(Refused) as problem:
        read(text, KINDS["force"], "Load", "lbf" if system == "us" else "N", system)
    assert problem.value.message.fill == fill
