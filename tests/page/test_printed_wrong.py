"""What is often printed wrong: every claim stands on the page, and every link opens a sheet that answers."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import html5lib
import pytest

import calc
from build_tools.printed_wrong_block import claims, fragment
from calc import link
from tests.page.sentences import long_sentences

CLAIMS = {claim["number"]: claim for claim in claims()}


def answered(claim: dict[str, Any]) -> dict[str, Any]:
    choices = [choice["symbol"] for choice in calc.describe(claim["calculator"])["choices"]]
    return calc.answer(link.read("#" + fragment(claim), choices))


def si(number: str, symbol: str) -> float:
    return float(answered(CLAIMS[number])["values"][symbol]["si"])


def test_every_claim_is_there_once() -> None:
    assert len(claims()) == len(CLAIMS)
    assert set(CLAIMS) == {f"K{i}" for i in range(1, 32)}


@pytest.mark.parametrize("number", CLAIMS)
def test_a_link_is_answered_without_errors(number: str) -> None:
    answer = answered(CLAIMS[number])
    assert answer["errors"] == []
    assert answer["html"]["sentence"]
    assert all(answer["fields"][symbol]["state"] in ("typed", "measured") for symbol in CLAIMS[number]["given"])
    deep = {q["level"] for q in calc.describe(CLAIMS[number]["calculator"])["quantities"]}
    assert CLAIMS[number].get("level", 1) in deep


@pytest.mark.parametrize("number", CLAIMS)
def test_words_are_short(number: str) -> None:
    assert long_sentences(f"{CLAIMS[number]['printed']} {CLAIMS[number]['right']}") == []


def test_the_sheets_show_what_the_words_say() -> None:
    # By hand, from the numbers in the links: physics texts for all of these.
    assert si("K3", "IMA") == pytest.approx(3)  # three parts, though two sheaves
    assert si("K3", "S") == pytest.approx(2)
    assert si("K6", "IMA") == pytest.approx(2 * 3.14159265 * 3 * 6, rel=1e-6)  # hand's circle over the lead, 6 TPI
    assert si("K7", "l") == pytest.approx(2 * 0.0254 / 6)
    assert si("K8", "p") == pytest.approx(0.0254 / 8)
    assert si("K11", "IMA") == pytest.approx(20 / 54)
    assert si("K18", "L") == pytest.approx((92**2 + 24**2) ** 0.5 * 0.0254)
    assert si("K26", "IMA") == pytest.approx(2 * 10 / (10 - 9))
    assert si("K28", "IMA") == pytest.approx(4 * 3)
    assert si("K28", "eta") == pytest.approx(0.8 * 0.8)
    assert si("K22", "eta") > 1
    # Sum of shares to disadvantage at 80 %: the geometric series stays below k/(1 - k) = 4, however many the parts.
    assert 3.5 < si("K30", "K") < 4


def test_the_page_holds_every_claim_and_its_link(site: Path) -> None:
    text = (site / "often-printed-wrong.html").read_text("utf-8")
    page = html5lib.parse(text, treebuilder="etree", namespaceHTMLElements=False)
    links = {part.get("href", "").partition("#")[2] for part in page.iter("a")}
    words = " ".join("".join(page.itertext()).split())
    for claim in claims():
        assert fragment(claim) in links
        assert claim["printed"] in words
        assert claim["right"] in words


def test_no_claim_is_told_with_a_formula() -> None:
    for claim in claims():
        assert not re.search(r"[=×·/]", claim["right"])
