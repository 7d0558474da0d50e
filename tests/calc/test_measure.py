"""Reading what people type: the vectors of the specification (A23), every refusal, and what holds for any text."""

from __future__ import annotations

import math

import pytest
import uncertainties
from hypothesis import given
from hypothesis import strategies as st

from calc.figures import sixteenths
from calc.measure import read
from calc.messages import Refused
from calc.units import KINDS, factor

INCH = 0.0254


def inches(text: str) -> float:
    return read(text, KINDS["length"], "Load arm", "in").nominal / INCH


def refusal(text: str, kind: str = "length", unit: str = "in") -> str:
    with pytest.raises(Refused) as refused:
        read(text, KINDS[kind], "Load arm", unit)
    return refused.value.message.code


@pytest.mark.parametrize(
    ("text", "want"),
    [
        ("5 ft 3-1/2 in", 63.5),
        ("5' 3 1/2\"", 63.5),
        ("5'3½", 63.5),
        ("5′ 3.5″", 63.5),
        ("5’ 3.5”", 63.5),
        ("63.5 in", 63.5),
        ("5-1/2", 5.5),
        ("5 1/2", 5.5),
        ("5½", 5.5),
        ('3/4"', 0.75),
        ("1.6 m", 62.9921),
        ("160 cm", 62.9921),
        ("1,600 mm", 62.9921),
        ("1600mm", 62.9921),
        ("5.3'", 63.6),
        ("8 ft", 96),
        ("8' 0\"", 96),
        ("1e2", 100),
        (".5 ft", 6),
        ("8 FT", 96),
        ("5\u00a0ft\u00a03", 63),
    ],
)
def test_a_length_is_read(text: str, want: float) -> None:
    assert inches(text) == pytest.approx(want, rel=1e-5)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("", "e-empty"),
        ("5 ft 14 in", "e-inch12"),
        ("5 9/8", "e-frac1"),
        ("3/0", "e-frac0"),
        ("1,5 m", "e-comma"),
        ("2 M", "e-M"),
        ("12 lbf", "e-dim"),
        ("7 cubits", "e-unit"),
        ("long", "e-notnum"),
        ("5+3", "e-notnum"),
        ("5*3", "e-notnum"),
        ("1e400", "e-big"),
        ("9" * 10000, "e-notnum"),
        ("<b onclick=x>5</b>", "e-notnum"),
        ("5 ± x", "e-pm"),
        ("5 ± -1", "e-pm"),
        ("± 1", "e-pm"),
        ("5 ± 1 ± 2", "e-pm"),
        ("5 ± 1 lbf", "e-dim"),
        ("nan", "e-notnum"),
        ("inf", "e-notnum"),
        ("0x10", "e-unit"),
    ],
)
def test_a_length_is_refused_with_its_own_word(text: str, code: str) -> None:
    assert refusal(text) == code


@pytest.mark.parametrize(
    ("text", "kind", "unit", "code"),
    [
        ("3 ft", "force", "lbf", "e-dim"),
        ("10 kg", "force", "lbf", "e-massforce"),
        ("0.75", "efficiency", "%", "e-pct"),
        ("1.2", "efficiency", "%", "e-pct"),
        ("0.3 lbf", "friction", "", "e-nounit"),
        ("1:0", "angle", "°", "e-frac0"),
        ("0,20", "friction", "", "e-comma"),
    ],
)
def test_other_kinds_are_refused_with_their_own_word(text: str, kind: str, unit: str, code: str) -> None:
    assert refusal(text, kind, unit) == code


def test_a_mass_in_a_force_box_is_offered_as_a_weight() -> None:
    """10 kg weighs 98.0665 N: standard gravity, 3rd CGPM (1901)."""
    with pytest.raises(Refused) as refused:
        read("10 kg", KINDS["force"], "Load", "N", "si")
    assert refused.value.message.fill == "98.0665 N"


@pytest.mark.parametrize(
    ("text", "system", "says"),
    [
        ("10 kg", "us", "10 kg weighs 22.0462 lbf (98.0665 N)."),
        ("10 kg", "si", "10 kg weighs 98.0665 N (22.0462 lbf)."),
        ("500 g", "us", "500 g weighs 1.10231 lbf (4.90333 N)."),
    ],
)
def test_the_weight_of_a_mass_is_told_in_both_units(text: str, system: str, says: str) -> None:
    """A kilogram-force is 9.806 65 N and 2.204 62 lbf: NIST SP 811, appendix B, from memory."""
    with pytest.raises(Refused) as refused:
        read(text, KINDS["force"], "Load", "lbf" if system == "us" else "N", system)
    assert says in refused.value.message.text


@pytest.mark.parametrize(
    ("text", "code", "says"),
    [
        ("1,5 ft", "e-comma", "1.5 ft"),
        ("5 ft 3,5 in", "e-comma", "5 ft 3.5 in"),
        ("1..2 ft", "e-notnum", "1..2 ft"),
        ("5 ft 1..2 in", "e-notnum", "5 ft 1..2 in"),
        ("5 ft -3 in", "e-notnum", "5 ft -3 in"),
    ],
)
def test_feet_that_are_no_number_are_quoted_or_mended(text: str, code: str, says: str) -> None:
    with pytest.raises(Refused) as refused:
        read(text, KINDS["length"], "Load arm", "in")
    assert refused.value.message.code == code
    assert says in refused.value.message.text


@pytest.mark.parametrize("text", ["1..2:4", "4:1..2", "1/2/3 in 4"])
def test_a_slope_of_no_number_is_quoted(text: str) -> None:
    with pytest.raises(Refused) as refused:
        read(text, KINDS["angle"], "Slope", "°")
    assert refused.value.message.code == "e-notnum"
    assert text in refused.value.message.text


@pytest.mark.parametrize(("text", "angle"), [("1:4", "14.0362"), ("1:41", "1.3972")])
def test_a_slope_says_which_angle_it_is_and_is_exact(text: str, angle: str) -> None:
    """atan(1/4) and atan(1/41) by Python's math module: 14.03624 and 1.39718 degrees."""
    reading = read(text, KINDS["angle"], "Slope", "°")
    assert reading.echo == f"Read as a slope, rise over run: {angle}°."
    assert (reading.text, reading.unit, reading.resolution) == (text, "°", 0)


@pytest.mark.parametrize("text", ["30°", "2 rad"])
def test_an_angle_in_another_box_is_called_one(text: str) -> None:
    with pytest.raises(Refused) as refused:
        read(text, KINDS["force"], "Load", "lbf")
    assert refused.value.message.code == "e-dim"
    assert "angle" in refused.value.message.text


@pytest.mark.parametrize("text", ["5 ± 1e200", "5 ± 1e13", "0 ± 1e13", "0e9999"])
def test_a_doubt_or_an_exponent_beyond_all_measure_is_refused(text: str) -> None:
    assert refusal(text, "ratio", "") in ("e-big", "e-pm")


@pytest.mark.parametrize("text", ["5e-324", "9e-249 %", "-1e-31", "1e-9999", "1/" + "9" * 50, "0." + "0" * 40 + "1"])
def test_a_number_next_to_nothing_is_refused_and_a_nought_is_not(text: str) -> None:
    assert {refusal(text, kind, "") for kind in ("ratio", "efficiency")} == {"e-small"}
    assert read("0e-9999", KINDS["ratio"], "Box", "").nominal == read("0/7", KINDS["ratio"], "Box", "").nominal == 0
    assert read("1e-30", KINDS["ratio"], "Box", "").nominal == 1e-30


@pytest.mark.parametrize(
    ("text", "want"), [("1:4", 14.0362), ("1 in 4", 14.0362), ("25 %", 14.0362), ("0.5 rad", 28.6479)]
)
def test_a_slope_is_read_as_an_angle(text: str, want: float) -> None:
    assert math.degrees(read(text, KINDS["angle"], "Slope", "°").nominal) == pytest.approx(want, abs=1e-4)


def test_lb_in_a_force_box_is_a_pound_force_and_says_so() -> None:
    reading = read("40 lb", KINDS["force"], "Load", "lbf")
    assert reading.nominal == pytest.approx(177.92886461042)
    assert "pound-force" in reading.warning


@pytest.mark.parametrize(
    "text", ["15 ± 0.5 lbf", "15 lbf ± 0.5 lbf", "15 lbf ± 0.5", "15 +- 0.5", "15 +/- 0.5 lbf", "15±0.5"]
)
def test_a_doubt_is_two_standard_uncertainties(text: str) -> None:
    value = read(text, KINDS["force"], "Effort", "lbf").value
    assert uncertainties.nominal_value(value) == pytest.approx(15 * factor("lbf"))
    assert uncertainties.std_dev(value) == pytest.approx(0.25 * factor("lbf"))


@given(st.integers(0, 60), st.integers(0, 191))
def test_feet_and_sixteenths_come_back(feet: int, parts: int) -> None:
    text = f"{feet} ft {sixteenths(parts / 16)} in"
    assert inches(text) == pytest.approx(feet * 12 + parts / 16, rel=1e-12, abs=1e-12)


@given(st.integers(1, 999))
def test_feet_are_twelve_inches(n: int) -> None:
    assert inches(f"{n} ft") == pytest.approx(inches(f"{12 * n} in"), rel=1e-15)


ALPHABET = "0123456789.,-+/ '\"ftinmckglbNrad°%:±eE½×*()<>&=x\u00a0"


def finite_or_a_message(text: str, kind: str) -> bool:
    try:
        return math.isfinite(read(text, KINDS[kind], "Box", KINDS[kind].us).nominal)
    except Refused as refused:
        return refused.message.code.startswith("e-") and bool(refused.message.text)


@given(st.text(ALPHABET, max_size=24), st.sampled_from(sorted(KINDS)))
def test_any_text_is_a_finite_value_or_one_message(text: str, kind: str) -> None:
    assert finite_or_a_message(text, kind)


@given(st.text(max_size=30), st.sampled_from(sorted(KINDS)))
def test_any_unicode_is_a_finite_value_or_one_message(text: str, kind: str) -> None:
    assert finite_or_a_message(text, kind)


@pytest.mark.parametrize("unit", ["in", "ft", "yd", "lbf", "ozf", "kgf", "hp", "ft·lbf"])
def test_our_unit_file_agrees_with_pints_own(unit: str) -> None:
    """General reference library: pint's default unit definitions."""
    import pint

    words = {
        "lbf": "pound_force",
        "ozf": "ounce_force",
        "kgf": "kilogram_force",
        "hp": "horsepower",
        "ft·lbf": "foot_pound",
    }
    theirs = pint.UnitRegistry().Quantity(1, words.get(unit, unit)).to_base_units().magnitude
    assert factor(unit) == pytest.approx(theirs, rel=1e-12)
