"""Leads from sheet to sheet in the browser, and the paper triangle on paper."""

from __future__ import annotations

import re
from pathlib import Path

import html5lib
import pytest
from playwright.sync_api import Browser, Page, expect

import calc
from build_tools.bench.waiting import until
from build_tools.local_server import serving
from tests.page.paper import paths
from tests.page.test_for_everybody import pages_of

SLOW = 30_000
RAMP = "One turn of the thread as a ramp, pushed level"


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("screw", "screw"),
        ("screw", "wrap-test"),
        ("lever", "lever"),
        ("more-ramps", "cart-ramp"),
        ("wedge", "wedge"),
    ],
)
def test_without_scripts_a_lead_holds_the_example_s_numbers_and_a_page(site: Path, name: str, key: str) -> None:
    """As the file stands there: a relative address, so that it holds on a disk and under any path of a server."""
    page = html5lib.parse((site / f"{name}.html").read_text("utf-8"), treebuilder="etree", namespaceHTMLElements=False)
    (sheet,) = (part for part in page.iter("calculator-sheet") if part.get("key") == key)
    lines = [line for ul in sheet.iter("ul") if ul.get("class") == "leads" for line in ul]
    leads = calc.answer(calc.example(key, "us"))["leads"]
    assert [line.get("hidden") is None for line in lines] == [bool(lead["link"]) for lead in leads]
    for line, lead in zip(lines, leads, strict=True):
        address, _, fragment = line[0].get("href").partition("#")
        assert fragment == (lead["link"] or f"c={lead['calculator']}")
        assert re.fullmatch(r"([\w-]+\.html)?", address)
        assert f'key="{lead["calculator"]}"' in (site / (address or f"{name}.html")).read_text("utf-8")


def test_a_lead_follows_the_numbers_and_opens_the_other_sheet(page: Page, site_url: str) -> None:
    page.goto(site_url + "screw.html")
    until(page, "engine.state === 'ready'", SLOW)
    page.locator("#screw-j").fill("2")
    lead = page.get_by_role("link", name=RAMP)
    expect(lead).to_have_attribute("href", re.compile("h=0.333333333_in"))
    page.locator("#screw-R").fill("")
    expect(lead).to_be_hidden()
    page.locator("#screw-R").fill("90")
    lead.click()
    page.wait_for_url("**/inclined-plane.html#c=ramp&*")
    expect(page.locator("#ramp-R")).to_have_value("90 lbf")
    # By hand: once round over lead, 2/3 pi / (1/3) = 2 pi = 6.28, and 90 / 2 pi = 14.32 lbf.
    expect(page.locator("#ramp-sheet .say")).to_contain_text("14.32 lbf", timeout=SLOW)
    expect(page.locator("#ramp-pull")).to_have_value("level")
    expect(page.locator("#ramp-pull")).to_be_visible()


def test_a_lead_goes_to_its_sheet_and_not_to_the_page_s_top_under_any_path(
    page: Page, site: Path, tmp_path: Path
) -> None:
    (tmp_path / "some").mkdir()
    (tmp_path / "some/place").symlink_to(site)
    with serving(tmp_path) as address:
        page.goto(f"{address}some/place/screw.html")
        until(page, "engine.state === 'ready'", SLOW)
        page.get_by_role("link", name="The same slope as a ramp").click()
        page.wait_for_url("**/some/place/inclined-plane.html#c=ramp-shape&*")
        expect(page.locator("#ramp-shape-h")).to_have_value("2 in")
        expect(page.locator("#ramp-shape-title")).to_be_in_viewport()


def test_a_lead_on_the_same_page_can_be_taken_twice(page: Page, file_url: str) -> None:
    page.goto(file_url + "more-ramps.html")
    until(page, "engine.state === 'ready'", SLOW)
    lead = page.get_by_role("link", name="The shortest ramp for this cart")
    for _ in range(2):
        lead.click()
        expect(page.locator("#shortest-ramp-h")).to_have_value("24 in")
        expect(page.locator('[data-symbol="L"] output').nth(-1)).not_to_be_empty()
        page.locator("#shortest-ramp-h").fill("30")


# -- paper -------------------------------------------------------------------------------------------


def triangle(pdf: bytes) -> tuple[float, float]:
    """The legs, in inches, of the one right triangle that is longer than a hand."""
    found = set()
    for path in paths(pdf):
        corners = list(dict.fromkeys(complex(round(p.real, 3), round(p.imag, 3)) for p in path))
        if len(corners) != 3:
            continue
        sides = sorted(abs(a - b) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))
        if sides[2] > 4 and abs(sides[2] ** 2 - sides[1] ** 2 - sides[0] ** 2) < 0.05:
            found.add((round(sides[1], 2), round(sides[0], 2)))
    (legs,) = found
    return legs


def bars(pdf: bytes) -> set[float]:
    """The lengths of the level rectangles about as high as a check bar, in inches."""
    wide = [(p[1].real - p[0].real, abs(p[2].imag - p[1].imag)) for p in paths(pdf) if len(p) == 4]
    return {round(length, 2) for length, high in wide if 0.08 < high < 0.12 and length > 1}


@pytest.fixture
def printing(page: Page, file_url: str) -> Page:
    """The screw's page, alive, whose print command prints nothing."""
    page.goto(file_url + "screw.html")
    until(page, "engine.state === 'ready'", SLOW)
    page.evaluate("() => { window.print = () => { window.printed = true; }; }")
    return page


@pytest.mark.parametrize("paper", ["Letter", "A4"])
def test_the_paper_triangle_prints_alone_and_at_true_size(printing: Page, paper: str) -> None:
    printing.locator("#wrap-test-B").fill("9")
    printing.locator("#wrap-test-H").fill("1-1/2")
    printing.get_by_role("button", name="Print the paper triangle").click()
    until(printing, "window.printed")
    pdf = printing.pdf(format=paper)
    assert pages_of(pdf) == 1
    assert triangle(pdf) == pytest.approx((9, 1.5), abs=0.01)
    assert sorted(bars(pdf)) == pytest.approx([5 / 2.54, 2], abs=0.01)


@pytest.mark.parametrize("paper", ["Letter", "A4"])
def test_without_scripts_the_example_s_triangle_prints_with_the_page(
    browser: Browser, file_url: str, paper: str
) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(file_url + "screw.html")
    pdf = page.pdf(format=paper)
    assert triangle(pdf) == pytest.approx((11, 2), abs=0.01)  # reference calculation J45's paper
    assert {1.97, 2.0} <= bars(pdf)
    context.close()


def test_a_triangle_that_fits_no_page_offers_no_printing(printing: Page) -> None:
    printing.locator("#wrap-test-B").fill("30")
    expect(printing.locator(".true-page figcaption")).to_contain_text("the largest base that fits is")
    expect(printing.get_by_role("button", name="Print the paper triangle")).to_be_hidden()
    expect(printing.locator(".true-page svg")).to_have_count(0)
    printing.locator("#wrap-test-B").fill("10")
    expect(printing.get_by_role("button", name="Print the paper triangle")).to_be_visible()


def test_the_sheet_itself_prints_without_the_triangle(printing: Page) -> None:
    printing.locator("#wrap-test-sheet [data-act=print]").click()
    until(printing, "window.printed")
    assert pages_of(printing.pdf(format="A4")) == 1
