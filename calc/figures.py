"""Rounding for showing, one rule for page, print and key; the numbers themselves are never rounded."""

from __future__ import annotations

import math
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Decimal
from fractions import Fraction
from functools import lru_cache


@lru_cache(maxsize=8192)
def significant(value: float, figures: int) -> str:
    """A number to so many significant figures, half away from zero, trailing zeros kept, never '-0'.

    The value is first taken to 12 figures, so that the last bits of a math library can't show.
    """
    if value == 0 or not math.isfinite(value):
        return "0" if value == 0 else str(value)
    exact = Decimal(f"{value:.11e}")
    rounded = _round(exact, exact.adjusted() - figures + 1)
    return f"{_round(rounded, rounded.adjusted() - figures + 1):f}"  # 9.996 has become 10.0: one place less


def _round(exact: Decimal, place: int) -> Decimal:
    """``exact`` rounded to the decimal place 10**place, half away from zero."""
    step = Decimal(1).scaleb(place)
    return (exact / step).to_integral_value(ROUND_HALF_UP) * step


def shown(value: float, digits: int = 3) -> str:
    """Three significant figures, four when the first digit (after rounding to four) is 1; or six."""
    if digits != 3:
        return significant(value, digits)
    four = significant(value, 4)
    return four if four.lstrip("-0.").startswith("1") else significant(value, 3)


def to_places(value: float, places: int) -> str:
    """A number to so many decimals, half away from zero, never '-0'.

    It is first taken to 12 figures. If the decimals need more it is taken as Python writes it, which is as short as
    this very number can be written.
    """
    more_than_12 = Decimal(value).adjusted() + places >= 12
    taken = Decimal(repr(float(value)) if more_than_12 else f"{value:.11e}")
    text = f"{_round(taken, -places):.{max(places, 0)}f}"
    return text.removeprefix("-") if float(text) == 0 else text


def with_doubt(value: float, u: float) -> tuple[str, str]:
    """The k = 2 uncertainty 2u at two figures, and the value to the same place.

    A doubt below the twelfth figure of the value, or of one, is none.
    """
    if not max(abs(value), 1) * 1e-12 < u < math.inf or not math.isfinite(value):
        return shown(value), "0"
    doubt = significant(2 * u, 2)
    place = Decimal(doubt).adjusted() - 1
    return to_places(value, -place), doubt


def sixteenths(inches: float, direction: str = "near", parts: int = 16) -> str:
    """Inches as a mixed number of sixteenths ('92-1/8'), or of other parts.

    ``direction`` is near, up (to be cut) or down (a limit).
    """
    exact = Decimal(f"{inches * parts:.11e}")
    rule = {"near": ROUND_HALF_UP, "up": ROUND_CEILING, "down": ROUND_FLOOR}[direction]
    part = Fraction(int(exact.to_integral_value(rule)), parts)
    whole, rest = divmod(part, 1)
    if not rest:
        return str(whole)
    return f"{whole}-{rest}" if whole else str(rest)


def feet_and_inches(inches: float, parts: int = 16) -> str:
    """A length as it is read off a tape: '7 ft 8-1/8 in', to the nearest part of an inch."""
    count = int(Decimal(f"{inches * parts:.11e}").to_integral_value(ROUND_HALF_UP))
    feet, rest = divmod(count, 12 * parts)
    return f"{feet} ft {sixteenths(rest / parts, parts=parts)} in"


@lru_cache(maxsize=8192)
def plain(value: float, figures: int = 6) -> str:
    """A typed-looking number for a box: up to 6 significant figures, or so many, no trailing zeros, no exponent."""
    text = significant(value, figures)
    return text.rstrip("0").rstrip(".") if "." in text else text
