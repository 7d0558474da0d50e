"""Rounding for showing: the vectors of the specification (A11 to A13) and what must hold for every number."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.figures import feet_and_inches, plain, shown, significant, sixteenths, to_places, with_doubt

NUMBERS = st.floats(1e-6, 1e9)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (30, "30.0"),
        (1.85023, "1.850"),
        (0.37037, "0.370"),
        (9.9996, "10.00"),
        (9.996, "10.0"),
        (999.6, "1000"),
        (23456, "23500"),
        (0.125, "0.1250"),
        (2.675, "2.68"),
        (20.249999999999996, "20.3"),
        (0, "0"),
        (-0.0, "0"),
    ],
)
def test_three_figures_or_four_after_a_one(value: float, text: str) -> None:
    assert shown(value) == text


@given(NUMBERS, st.integers(1, 6))
def test_significant_figures_agree_with_the_decimal_module(value: float, figures: int) -> None:
    """General reference: Python's decimal, rounding half up at the same place."""
    exact = Decimal(f"{value:.11e}")
    want = exact.quantize(Decimal(1).scaleb(exact.adjusted() - figures + 1), ROUND_HALF_UP)
    assert Decimal(significant(value, figures)) == want


@given(NUMBERS)
def test_rounding_is_odd(value: float) -> None:
    assert shown(-value) == "-" + shown(value)


@given(NUMBERS, NUMBERS)
def test_rounding_is_monotone(a: float, b: float) -> None:
    low, high = sorted((a, b))
    assert float(significant(low, 3)) <= float(significant(high, 3))


@given(st.floats(0.01, 1000))
def test_a_cut_length_is_never_short_and_never_a_sixteenth_too_long(inches: float) -> None:
    whole, _, rest = sixteenths(inches, "up").rpartition("-")
    part = rest if whole else sixteenths(inches, "up")
    top, _, bottom = part.partition("/")
    length = float(whole or 0) + float(top) / float(bottom or 1)
    assert inches - 1e-9 <= length < inches + 1 / 16 + 1e-9


def test_fractions_of_an_inch() -> None:
    assert [sixteenths(92.1), sixteenths(92.0958, "up"), sixteenths(0.5), sixteenths(12)] == [
        "92-1/8",
        "92-1/8",
        "1/2",
        "12",
    ]
    assert sixteenths(92.1, "down") == "92-1/16"


@pytest.mark.parametrize(
    ("value", "u", "text"),
    [(2.85714, 0.0562, ("2.86", "0.11")), (71.4286, 1.40961, ("71.4", "2.8")), (1234.5, 55, ("1230", "110"))],
)
def test_a_doubt_has_two_figures_and_the_value_the_same_place(value: float, u: float, text: tuple[str, str]) -> None:
    assert with_doubt(value, u) == text


@pytest.mark.parametrize(
    ("value", "u", "text"),
    [
        (5, 0, ("5.00", "0")),
        (5, float("inf"), ("5.00", "0")),
        (5, 4e-12, ("5.00", "0")),  # below the twelfth figure of the value
        (1, 1e-12, ("1.000", "0")),
        (0.5, 1.5e-12, ("0.5000000000000", "0.0000000000030")),  # above the twelfth figure of one
        (float("inf"), 1, ("inf", "0")),
    ],
)
def test_a_doubt_beyond_the_twelfth_figure_is_none(value: float, u: float, text: tuple[str, str]) -> None:
    assert with_doubt(value, u) == text


@pytest.mark.parametrize("value", [89.99967914363472, 38000.00000066612, 123456789012.34, 0.512345678901234])
@pytest.mark.parametrize("u", [3.2e-10, 2.95e-7, 1.5e-12 * 90])
def test_each_figure_beside_a_doubt_is_the_numbers_own(value: float, u: float) -> None:
    """Against the float's exact value in Python's decimal, rounded there."""
    text, doubt = with_doubt(value, u)
    exact = Decimal(value).quantize(Decimal(text), ROUND_HALF_UP)
    assert doubt == "0" or Decimal(text) == exact
    assert Decimal(to_places(value, 1)) == Decimal(value).quantize(Decimal("0.1"), ROUND_HALF_UP)


def test_a_small_negative_number_never_shows_as_minus_zero() -> None:
    assert to_places(-0.004, 2) == "0.00"
    assert to_places(-0.005, 2) == "-0.01"
    assert plain(0.1) == "0.1"


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (10, "10"),
        (1000000, "1000000"),
        (1234567, "1234570"),
        (1.23456789, "1.23457"),
        (2.5, "2.5"),
        (-0.05, "-0.05"),
        (float("inf"), "inf"),
        (float("nan"), "nan"),
    ],
)
def test_a_number_for_a_box_has_six_figures_and_no_needless_zero(value: float, text: str) -> None:
    assert plain(value) == text


@pytest.mark.parametrize("zeros", [24, 25, 26, 27, 30])
def test_a_one_with_many_zeros_keeps_them(zeros: int) -> None:
    """Python's decimal module counts with 28 digits and refuses to round more; those have no decimals to round."""
    assert to_places(10.0**zeros, 2) == "1" + "0" * zeros + ".00"


def test_a_tape_is_read_to_the_nearest_part_and_up_from_the_middle() -> None:
    """A foot is 12 inches."""
    assert [feet_and_inches(92.1), feet_and_inches(12), feet_and_inches(1 / 32)] == [
        "7 ft 8-1/8 in",
        "1 ft 0 in",
        "0 ft 1/16 in",
    ]
    assert [feet_and_inches(12 + 1 / 32, 32), feet_and_inches(12 + 1 / 16, 8)] == ["1 ft 1/32 in", "1 ft 1/8 in"]
