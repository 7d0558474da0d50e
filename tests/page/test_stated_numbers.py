"""No page's running text holds a number of its own: it comes from a calculator or from a data file."""

import re
from pathlib import Path

import markdown
import pytest

import calc
from build_tools.asking import UnknownCalculatorError
from build_tools.stated_numbers import PATTERN, StatedNumberError, computed, facts, filled_in, sheet_places
from tests.page import pages

ALLOWED = (
    r"[Ll]evels? [123](?: and [123])?",  # the depths of a sheet
    r"100 %",  # all of it
    r"\b(?:1[789]|20)\d\d\b",  # a year
    r"1 : 4",
    r"\b\d+ min(?:utes)?\b|\bday \d\b",  # the plan of a lesson, a week
    r"from 1 to 40\b",  # seats
    r"29 CFR [\d.()a-z]+",  # a rule of a code
    r"Version \d+\.\d+(?:, \d+ \w+)?",
    r"550 foot-pounds each second",  # the definition of the horsepower
)


def own_numbers(text: str) -> list[str]:
    """The paragraphs of a page's text with digits that no mark accounts for."""
    body = re.sub(r"\A---\n.*?\n---\n", "", text, flags=re.S)
    body = re.sub(r"^/// .*?^///$", "", body, flags=re.S | re.M)  # blocks: their numbers are checked by what they name
    body = re.sub(r'<div class="ticket".*?</div>', "", body, flags=re.S)  # a printed exercise: its numbers are its own
    body = re.sub(r"`[^`]*`|^\|\s*\d+\s*\|", "", body, flags=re.M)  # links as they are typed; numbered lines of a table
    found = []
    for paragraph in re.split(r"\n(?:\s*\n|(?=- |\d+\. ))", body):
        given = [value for mark in re.findall(PATTERN, paragraph) for value in re.findall(r": ([^,\]]+)", mark)]
        rest = re.sub(PATTERN, "", paragraph)
        rest = re.sub(r"<[^>]*>|\]\([^)]*\)|\{[^}]*\}|^\s*\d+\. ", "", rest, flags=re.M)
        amounts = sorted((text for text in given if re.search(r"\d", text)), key=len, reverse=True)
        for known in (*ALLOWED, *(rf"(?<!\d){re.escape(text)}(?!\d)" for text in amounts)):
            rest = re.sub(known, "", rest)
        if re.search(r"\d", rest):
            found.append(rest.strip())
    return found


@pytest.mark.parametrize("name", pages.PAGES)
def test_a_page_holds_no_number_of_its_own(root: Path, name: str):
    assert own_numbers((root / "docs" / f"{name}.md").read_text("utf-8")) == []


def test_the_check_finds_a_stray_number_and_knows_a_stated_one():
    assert own_numbers("A bar of 48 in.\n\nFine words.\n") == ["A bar of 48 in."]
    assert own_numbers("Level 2 has it, and [=lever E, R: 40 lbf, aR: 6 in, aE: 24 in] lifts 40 lbf.") == []
    assert own_numbers("1. Pull.\n2. Read 7 times.") == ["Read 7 times."]


def written(text: str) -> str:
    return markdown.markdown(text, extensions=["build_tools.stated_numbers"])


def test_a_mark_becomes_what_the_calculator_says():
    """By hand: 40 lbf times 6 in over 24 in is 10 lbf."""
    assert "10.00 lbf" in written("[=lever E, R: 40 lbf, aR: 6 in, aE: 24 in]")


def test_a_mark_that_says_nothing_stops_the_build():
    for mark in (
        "lever E, R: 40 lbf",
        "lever E, R: forty",
        "levr E",
        "fact no-such",
        "sheet no-such",
        "open lever, R: x",
    ):
        with pytest.raises((StatedNumberError, UnknownCalculatorError)):
            written(f"[={mark}]")


def test_a_link_with_numbers_gives_the_sheet_just_these():
    fragment = filled_in("lever", {"E": "10.5 lbf"}, "2")
    assert "E=10.5_lbf" in fragment
    assert fragment.endswith("&level=2")


def test_every_sheet_on_a_page_has_a_number_of_its_own(root: Path):
    places = sheet_places(root / "docs")
    assert set(places) == set(calc.keys())
    numbers = [number for _, number in places.values()]
    assert sorted(numbers) == sorted(set(numbers))


@pytest.mark.parametrize("name", facts())
def test_a_fact_names_its_source_and_how_it_was_read(name: str):
    fact = facts()[name]
    assert fact["grade"] in ("source-text", "computed", "common-practice", "recalled", "decided")
    assert fact["source"]
    assert fact["about"].endswith(".")
    assert (fact["grade"] == "common-practice") == (fact["source"] == "common practice, no source")


def number(text: str) -> float:
    return float(re.match(r"-?[\d.]+", text)[0])


def test_computed_facts_are_what_the_calculators_compute():
    """Each recomputed by another route where there is one; the bounds are the fact's own."""
    share = [0.92 * (1 - 0.92**n) / (1 - 0.92) / n for n in (1, 4)]  # by hand: the sum of the parts' tensions over n
    assert [round(x, 2) for x in share] == [facts()["tackle-efficiency"]["high"], facts()["tackle-efficiency"]["low"]]
    drum, rope = 6.0, 0.5
    assert round(rope / drum, 2) == facts()["rope-left-out"]["value"]
    assert facts()["wedge-conventions"]["high"] > (1 + (1 / 5) ** 2) ** 0.5 - 1
    low, high = facts()["bolt-share"]["low"], facts()["bolt-share"]["high"]
    for mu in ("0.14", "0.20"):
        share = computed("bolt-clamp", "s_c", {"surface": "friction", "F": "2000 lbf", "mu": mu, "mu_c": mu})
        assert low <= number(share) / 100 <= high, (mu, share)
    for load in ("50 lbf", "120 lbf"):
        for rolling in ("0.01", "0.05"):
            eta = computed("cart-ramp", "eta", {"R": load, "w": "25 lbf", "L": "96 in", "h": "24 in", "C": rolling})
            assert facts()["cart-efficiency"]["low"] <= number(eta) / 100 <= facts()["cart-efficiency"]["high"]
