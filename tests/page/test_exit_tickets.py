"""Each answer to an exit ticket is what the calculators say, and what the arithmetic of a textbook gives by hand."""

from __future__ import annotations

import html
import re
from fractions import Fraction
from pathlib import Path

import pytest

from build_tools.stated_numbers import computed

# Machine: the numbers that its ticket prints, and its two answers by hand from the law of the machine, work in equals
# work out (any physics text, e.g. OpenStax Physics, ch. 9): what stands in the key as number and unit.
BY_HAND = {
    "Lever": (("four times", "8 in"), (Fraction(4), ""), (Fraction(8, 4), "in")),
    "Wheel and axle": (("4 in", "16 in", "1 ft"), (Fraction(16, 4), ""), (1 * Fraction(16, 4), "ft")),
    "Pulley": (("Three", "60 lbf", "24 in"), (Fraction(60, 3), "lbf"), (Fraction(24 * 3), "in")),
    "Inclined plane": (("8 ft", "2 ft", "40 lbf"), (Fraction(40 * 2, 8), "lbf"), (Fraction(40 * 2), "ft·lbf")),
    "Wedge": (("6 in", "1-1/2 in"), (6 / Fraction(3, 2), ""), None),
    "Screw": (("1/4 in", "50 in", "2 in"), (50 / Fraction(1, 4), ""), (2 / Fraction(1, 4), "turns")),
    "Compound machine": (("4", "3", "120 lbf"), (Fraction(4 * 3), ""), (Fraction(120, 4 * 3), "lbf")),
}


def text(part: str) -> str:
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", part)).split())


@pytest.fixture(scope="module")
def page(site: Path) -> str:
    """The tickets as they are built."""
    return (site / "exit-tickets.html").read_text("utf-8")


@pytest.fixture(scope="module")
def tickets(page: str) -> dict[str, str]:
    found = [text(part) for part in re.findall(r'<div class="ticket">(.*?)</div>', page, re.S)]
    return {ticket.partition(".")[0]: ticket for ticket in found}


@pytest.fixture(scope="module")
def key(page: str) -> dict[str, tuple[list[str], str]]:
    """For each machine its row's answers: the numbers that come from a calculator, and all of the words."""
    (part,) = re.findall(r'<div class="ticket-key">(.*?)</table>', page, re.S)
    rows = re.findall(r"<tr>\s*<td>(.*?)</td>\s*<td>(.*?)</td>", part, re.S)
    return {text(name): (re.findall(r'class="stated">(.*?)<', html.unescape(said)), text(said)) for name, said in rows}


def test_every_machine_has_a_ticket_and_a_line_in_the_key(tickets: dict, key: dict) -> None:
    assert list(tickets) == list(BY_HAND) == list(key)


@pytest.mark.parametrize("machine", BY_HAND)
def test_a_ticket_asks_three_things_with_the_numbers_that_are_worked_here(machine: str, tickets: dict) -> None:
    for number in BY_HAND[machine][0]:
        assert re.search(rf"(?<![\w/.-]){re.escape(number)}(?![\w/-])", tickets[machine]), number
    assert tickets[machine].count("?") + len(re.findall(r"Name two", tickets[machine])) == 3


@pytest.mark.parametrize("machine", BY_HAND)
def test_the_key_says_what_the_arithmetic_gives_and_no_number_of_its_own(machine: str, key: dict) -> None:
    stated, said = key[machine]
    expected = [answer for answer in BY_HAND[machine][1:] if answer]
    assert len(stated) == len(expected)
    for shown, (value, unit) in zip(stated, expected, strict=True):
        number, _, shown_unit = shown.partition(" ")
        assert (Fraction(number), shown_unit) == (value, unit)
        said = said.replace(shown, "")
    assert not re.search(r"\d", said), said


def number(key: str, symbol: str, **given: str) -> float:
    return float(re.match(r"[\d.]+", computed(key, symbol, given))[0])


def test_what_the_key_says_in_words_the_calculators_say_too() -> None:
    """The third questions, and the second of ramp and wedge: each by two sheets side by side."""
    lever = {"R": "40 lbf", "aR": "6 in", "aE": "24 in"}
    effort = number("lever", "E", **lever)
    assert number("lever", "E", **{**lever, "aR": "5 in"}) < effort  # the pivot nearer to the load
    assert number("lever", "E", **{**lever, "aE": "30 in"}) < effort  # the hand farther out
    thin, thick = ({"R": "20 lbf", "D_w": "16 in", "D_a": across} for across in ("4 in", "5 in"))
    assert number("wheel-and-axle", "E", **thick) > number("wheel-and-axle", "E", **thin)
    assert number("wheel-and-axle", "dR", **thick) > number("wheel-and-axle", "dR", **thin)  # in one turn
    tackle = {"R": "60 lbf", "w": "0 lbf", "n": "3", "h": "24 in"}
    assert number("tackle", "E", **tackle, k="92 %") > number("tackle", "E", **tackle)
    ramp = {"R": "40 lbf", "L": "8 ft", "h": "2 ft"}
    assert computed("ramp", "Win", ramp) == computed("ramp", "Wout", ramp)
    assert number("ramp", "E", **ramp) < 40
    rough = number("ramp", "E", **ramp, mu="0.30")
    assert number("ramp", "E", **ramp, mu="0.40") > rough
    assert number("ramp", "E", **{**ramp, "R": "45 lbf"}, mu="0.30") > rough
    assert number("ramp", "E", **{**ramp, "h": "3 ft"}, mu="0.30") > rough
    wedge = {"kind": "double", "R": "20 lbf", "ell": "6 in"}
    assert number("wedge", "E", **wedge, t="1 in") < number("wedge", "E", **wedge, t="1-1/2 in")
    # It stays if its angle at each face is less than that of friction: alpha < phi; then it must be pulled out.
    held = {**wedge, "t": "1-1/2 in", "mu": "0.30"}
    assert number("wedge-with-friction", "alpha", **held) < number("wedge-with-friction", "phi", **held)
    assert number("wedge-with-friction", "E_out", **held) > 0
    # A jack's thread: d_m = 2/pi is a lead angle of about 7 degrees; held, it must be turned down.
    jack = {"thread": "square", "l": "1/4 in", "d_m": "0.64 in", "R": "100 lbf", "r": "8 in", "collar": "none"}
    assert number("screw-with-friction", "T_down", **jack, mu="0.15") > 0
    chain = {"preset": "own", "IMA_1": "4", "IMA_2": "3", "eta_1": "85 %", "eta_2": "90 %"}
    assert number("chain", "eta", **chain) == pytest.approx(100 * 0.85 * 0.90, abs=0.05)
