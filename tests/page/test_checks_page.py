"""The checks and their examples: every row on its page, each holding, each link opening the numbers beside it."""

from __future__ import annotations

import random
import re
import xml.etree.ElementTree as etree
from dataclasses import replace
from pathlib import Path

import html5lib
import markdown
import pytest

import calc
from build_tools.checks import block, examples, tables
from build_tools.checks.examples import CheckFailedError
from calc import link
from calc.registry import CALCULATORS

PAGES = ("checks.html", "worked-examples.html", "more-examples.html")


@pytest.fixture(scope="module")
def page(site: Path):
    """The page and those of its examples, as one."""
    whole = etree.Element("pages")
    for name in PAGES:
        whole.append(html5lib.parse((site / name).read_text("utf-8"), treebuilder="etree", namespaceHTMLElements=False))
    return whole


def words(element) -> str:
    return " ".join("".join(element.itertext()).split())


def test_no_row_is_hidden(page):
    shown = {part.get("id"): part for part in page.iter("tbody") if part.get("id")}
    assert shown.keys() == examples.examples().keys()
    for entry in examples.all_answered():
        lines = [words(line) for line in shown[entry.example.id].iter("tr")]
        assert len(lines) == 1 + len(entry.rows)
        assert entry.example.source in lines[0]
        for line, row in zip(lines[1:], entry.rows, strict=True):
            assert row.shown in line


def test_those_read_in_the_source_come_first(page):
    order = list(examples.GRADES)
    grades = {key: order.index(example.grade) for key, example in examples.examples().items()}
    for table in page.iter("table"):
        found = [grades[part.get("id")] for part in table.iter("tbody") if part.get("id")]
        assert found == sorted(found)


def test_the_counts_on_top_are_those_of_the_rows(page):
    total = sum(len(entry.rows) for entry in examples.all_answered())
    assert f"{total} of {sum(len(e.asks) for e in examples.examples().values())}" in words(next(page.iter("body")))


def test_what_proves_nothing_and_where_books_disagree_are_told(page):
    """18 examples and 14 points: the counts of the collection as it was handed over."""
    text = words(next(page.iter("body")))
    left_out = examples.table("not_reproducing.toml")["example"]
    points = examples.table("disagreements.toml")["point"]
    assert (len(left_out), len(points)) == (18, 14)
    assert all(" ".join(entry["statement"].split()) in text for entry in left_out)
    assert all(point["topic"] in text for point in points)
    assert all(reason in text for check in tables.checked_tables() for reason in check.differs.values())
    assert not {entry["id"] for entry in left_out} & examples.examples().keys()


def test_a_link_opens_a_sheet_that_stands_there_and_says_the_same(page, site: Path):
    """A sample of the page's links, through the reader of links, against what the row beside it says."""
    answers = {entry.example.id: entry for entry in examples.all_answered()}
    tried = 0
    for part in random.Random(7).sample([part for part in page.iter("tbody") if part.get("id")], 60):
        entry = answers[part.get("id")]
        links = [anchor.get("href") for anchor in part.iter("a")]
        assert len(links) == len(entry.sheets)
        if len(links) > 1:
            continue
        where, _, fragment = links[0].partition("#")
        key = entry.sheets[0][0]
        assert f'<calculator-sheet key="{key}"' in (site / where).read_text("utf-8")
        answer = calc.answer(link.read(fragment, [choice.symbol for choice in CALCULATORS[key].choices]))
        assert answer["errors"] == []
        covered = examples.coverage()[entry.example.id]
        for row in entry.rows:
            rule = covered["asks"][row.ask.symbol]
            if rule in answer["values"]:
                again = answer["values"][rule]["si"] / examples.size_of(row.ask.unit)
                assert row.ask.allows(again)
                assert again == pytest.approx(row.got, rel=1e-12)
                tried += 1
    assert tried > 40


def test_tables_have_heads_that_say_what_they_head(page):
    for table in page.iter("table"):
        assert table.find("caption") is not None
        assert table.find("thead") is not None
        assert all(head.get("scope") in ("col", "row", "rowgroup") for head in table.iter("th"))


def test_the_examples_of_each_machine_stand_once_and_the_page_of_checks_points_there(site: Path):
    """An old link to a part of the page lands on the pointer to it."""
    checks, *others = ((site / name).read_text("utf-8") for name in PAGES)
    for name, html in zip(PAGES[1:], others, strict=True):
        for anchor in re.findall(r'<h2 id="([\w-]+)">', html):
            assert f'<li id="{anchor}"><a href="{name}#{anchor}">' in checks
    assert sum(html.count("<h2 id=") for html in others) == len(block.MACHINES)


@pytest.mark.parametrize("part", ["lever", "counts"])
def test_a_falsified_number_stops_the_build(monkeypatch: pytest.MonkeyPatch, part: str):
    """A printed 32.4 N made a 32.6 N: the page's own code refuses to show it."""
    found = dict(examples.examples())
    barrow = found["cp-wheelbarrow"]
    asks = tuple(replace(ask, value=32.6, printed="32.6") if ask.symbol == "Fi" else ask for ask in barrow.asks)
    found["cp-wheelbarrow"] = replace(barrow, asks=asks)
    monkeypatch.setattr(examples, "examples", lambda: found)
    examples.all_answered.cache_clear()
    try:
        with pytest.raises(CheckFailedError, match=r"cp-wheelbarrow Fi: printed 32[.]6 N, the site says 32[.]42"):
            markdown.markdown(f"/// checks | {part}\n///\n", extensions=["build_tools.checks.block"])
    finally:
        examples.all_answered.cache_clear()


def test_an_unknown_part_stops_the_build():
    with pytest.raises(CheckFailedError, match="no part 'levers'"):
        block.part_html("levers")
