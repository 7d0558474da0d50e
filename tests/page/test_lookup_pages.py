"""The pages to look things up in: what the data has stands on them, with its source, and they print."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from pathlib import Path
from xml.etree.ElementTree import Element

import html5lib
import markdown
import pytest
from playwright.sync_api import Browser, Page, expect

from build_tools import formulas_block, glossary_block, letters_block, safety_block, table_block
from build_tools.lookup_block import LookupBlockError, data
from calc.tables import rows_of
from tests.page.pages import FURTHER, WITH_SHEETS
from tests.page.sentences import long_sentences

BLOCKS = ("formulas", "table", "letters", "glossary", "safety", "printed-wrong", "licences")


def tree(html: str):
    return html5lib.parse(html, treebuilder="etree", namespaceHTMLElements=False)


@cache
def built(file: Path) -> Element:
    """A built page, parsed once."""
    return tree(file.read_text("utf-8"))


def words_of(part) -> str:
    return " ".join("".join(part.itertext()).split())


@cache
def words_on(file: Path) -> str:
    """All words between a built page's head and foot."""
    return words_of(next(built(file).iter("main")))


def rendered(text: str, block: str) -> str:
    return markdown.markdown(text, extensions=[f"build_tools.{block.replace('-', '_')}_block"])


@pytest.mark.parametrize("block", BLOCKS)
def test_an_unknown_argument_stops_the_build_and_names_those_there_are(block: str):
    with pytest.raises(LookupBlockError, match=f"{block} has no 'nothing'. There are: .+"):
        rendered(f"/// {block} | nothing\n///\n", block)


@pytest.mark.parametrize("block", BLOCKS)
def test_a_block_that_cannot_be_read_stops_the_build(block: str):
    with pytest.raises(LookupBlockError, match="could not be read"):
        rendered(f"/// {block}\n///\n", block)


# Formulas


def test_a_relation_that_no_calculator_has_stops_the_build():
    with pytest.raises(LookupBlockError, match="no relation for 'zz'"):
        formulas_block.relation({"calculator": "lever", "symbol": "zz"})


def test_a_letter_is_explained_once_and_again_only_with_another_meaning(site: Path):
    page = built(site / "formula-sheet.html")
    said = [words_of(span) for p in page.iter("p") if p.get("class") == "letters" for span in p.iter("span")]
    assert len(said) == len(set(said))
    assert [text for text in said if text.startswith("R ")] == ["R load"]
    assert "t rope diameter" in said
    assert "t thickness" in said


def test_every_chosen_formula_stands_on_the_sheet_with_its_words(site: Path):
    page = built(site / "formula-sheet.html")
    shown = [item for part in page.iter("div") if part.get("class") == "formulas" for item in part.iter("li")]
    chosen = [line for group in data("formulas").values() for line in group["lines"]]
    assert len(shown) == len(chosen) >= 40
    for item, line in zip(shown, chosen, strict=True):
        assert len(list(item.iter("{http://www.w3.org/1998/Math/MathML}math")) or list(item.iter("math"))) >= 1
        assert formulas_block.relation(line)["words"] in words_of(item)


# Tables


@pytest.mark.parametrize("name", table_block.TABLES)
def test_every_row_of_a_table_stands_on_the_page_with_source_and_grade(name: str):
    table = table_block.TABLES[name]
    page = tree(rendered(f"/// table | {name}\n///\n", "table"))
    rows = [words_of(row) for body in page.iter("tbody") for row in body.iter("tr")]
    assert len(rows) == len(rows_of(table.file))
    everything = words_of(page)
    for row in rows_of(table.file):
        assert row["source"] in everything
        assert table_block.GRADE_WORDS[row["grade"]] in everything
        assert table_block.GRADE_WORDS[row["grade"]] != row["grade"]
    (caption,) = page.iter("caption")
    (region,) = (part for part in page.iter("div") if part.get("role") == "region")
    assert region.get("aria-labelledby") == caption.get("id")
    assert region.get("tabindex") == "0"


def test_sources_that_disagree_stand_side_by_side():
    # Steel on ice at rest: 0.04 in OpenStax College Physics 2e, ten times that in the high school book's table 5.2.
    page = tree(rendered("/// table | friction\n///\n", "table"))
    rows = [row for body in page.iter("tbody") for row in body.iter("tr")]
    at = next(i for i, row in enumerate(rows) if words_of(row).startswith("steel on ice"))
    assert next(iter(rows[at])).get("rowspan") == "2"
    assert "0.04" in words_of(rows[at])
    assert words_of(rows[at + 1]).startswith("0.4 ")
    assert "ten times" in words_of(page)


def test_unit_factors_follow_from_their_definitions():
    """Worked out again from the yard and pound agreement of 1959 and the standard acceleration of 1901."""
    inch, pound, gravity = Fraction("0.0254"), Fraction("0.45359237"), Fraction("9.80665")
    force = pound * gravity
    pi = Fraction("3.14159265358979323846")
    wanted = {
        "foot": 12 * inch,
        "yard": 36 * inch,
        "mile": 63360 * inch,
        "ounce (mass)": pound / 16,
        "long ton = 2240 lb": 2240 * pound,
        "slug = 1 lbf·s²/ft": force / (12 * inch),
        "pound-force": force,
        "ounce-force": force / 16,
        "kip = 1000 lbf": 1000 * force,
        "pound-force inch": force * inch,
        "pound-force foot": force * 12 * inch,
        "foot pound-force (energy)": force * 12 * inch,
        "horsepower = 550 ft·lbf/s": 550 * force * 12 * inch,
        "metric horsepower = 75 kgf·m/s": 75 * gravity,
        "pound-force per square inch": force / inch**2,
        "degree": pi / 180,
        "horsepower (as torque times speed)": Fraction(550 * 12 * 60) / (2 * pi),
    }
    factors = {row["unit"]: row for row in rows_of("unit_factors")}
    for unit, value in wanted.items():
        row = factors[unit]
        assert float(row["factor"]) == pytest.approx(float(value), rel=1e-15), unit
        assert (Fraction(row["factor"]) == value) == (row["exact"] == "yes"), unit


def test_the_ramp_limits_say_that_they_are_for_people(site: Path):
    page = words_on(site / "tables.html")
    assert "They do not apply to pulling loads" in page
    assert "1:12" in page


# Letters


def test_a_letter_that_no_calculator_has_stops_the_build():
    with pytest.raises(LookupBlockError, match="no letter 'zz'"):
        letters_block.own("lever", "zz")


def test_the_letters_of_technology_courses_lead_to_ours():
    page = tree(rendered("/// letters | books\n///\n", "letters"))
    rows = [" ".join(words_of(cell) for cell in row) for row in page.iter("tr")]
    for theirs in ("FE technology", "FR technology", "DE technology", "DR technology", "TMA Basic", "VR textbooks"):
        assert any(theirs in row for row in rows), theirs
    assert any("slope (the sloping face" in row for row in rows)
    for row in rows:
        if "technology education" in row or "Britain" in row:
            assert row.endswith("from memory")


# Glossary


def test_every_term_has_its_anchor_its_meaning_and_marked_spanish(site: Path):
    page = built(site / "glossary.html")
    by_id = {part.get("id"): part for part in page.iter() if part.get("id")}
    terms = glossary_block.terms()
    anchors = [glossary_block.anchor(term["term"]) for term in terms]
    assert len(set(anchors)) == len(terms) >= 86
    for term, anchor in zip(terms, anchors, strict=True):
        assert term["meaning"] in words_of(by_id[anchor])
        (spanish,) = (part for part in by_id[anchor].iter("span") if part.get("lang") == "es")
        assert words_of(spanish) == term["spanish"]
        assert len(re.findall(r"[.!?]", term["meaning"])) == 1
    listed = [part for part in page.iter("li") if any(span.get("lang") == "es" for span in part.iter("span"))]
    assert len(listed) == len(terms)
    assert words_of(page).count("to be read by a Spanish-speaking teacher") == 2


@pytest.mark.parametrize("term", [term for term in glossary_block.terms() if term["page"]], ids=lambda t: t["term"])
def test_a_term_is_met_on_the_page_that_it_leads_to(site: Path, term: dict[str, str]):
    words = words_on(site / f"{term['page']}.html").lower()
    names = [name.strip(" )") for name in re.split(r"[(,]", term.get("met", term["term"]))]
    assert any(name.lower() in words for name in names), names


def test_spanish_words_stand_in_alphabetical_order_without_regard_to_accents():
    page = tree(rendered("/// glossary | spanish\n///\n", "glossary"))
    first = [words_of(item) for item in page.iter("li")]
    assert first.index("ángulo de avance: lead angle") < first.index("aparejo (polipasto): block and tackle")


# Safety


def test_every_page_with_sheets_takes_its_cautions_from_the_data():
    assert set(safety_block.machines()) == set(WITH_SHEETS) - set(FURTHER)


@pytest.mark.parametrize("name", safety_block.machines())
def test_a_machines_page_and_the_safety_page_say_the_same(site: Path, name: str):
    machine = safety_block.machines()[name]
    shared = safety_block.shared_rules()
    own_page = words_on(site / f"{name}.html")
    safety_page = words_on(site / "safety.html")
    own = [safety_block.with_facts(text) for text in (machine["first"], *machine.get("rules", ()))]
    for text in (*own, *(shared[rule] for rule in machine["with"])):
        assert text in own_page
        assert text in safety_page
    for text in own:
        assert long_sentences(text) == []


@pytest.mark.parametrize(
    ("name", "phrases"),
    [  # The usual cautions of each machine: common practice, no source.
        ("lever", ("chin", "sit or stand", "must not roll", "Pull rather than push", "packing blocks")),
        ("wheel-and-axle", ("pawl", "loose sleeves", "Guard every pair", "three turns")),
        ("pulley", ("over a pad", "sum of load and pull", "No knots", "round a hand", "damaged latch", "snaps back")),
        ("inclined-plane", ("Chock it", "never below", "Cleat both", "splinters", "Nobody rides")),
        ("wedge", ("No striking", "fly out", "face protection", "clear zone", "mushroomed", "axe poll")),
        ("screw", ("pinches", "run back", "with a pipe", "maker’s torque", "retaining pin")),
        ("compound", ("own load", "over a pad", "snaps back", "pawl")),
        ("work-and-power", ("hurts backs", "knees, not the back", "20 lbf")),
        (
            "safety",
            ("qualified or licensed", "80 %", "below eye level", "Two lift", "let go", "near anything that turns"),
        ),
    ],
)
def test_no_usual_caution_is_missing(site: Path, name: str, phrases: tuple[str, ...]):
    page = built(site / f"{name}.html")
    words = " ".join(words_of(part) for part in page.iter("div") if part.get("class") == "caution")
    for phrase in phrases:
        assert phrase in words, phrase


# On paper and by keyboard


@pytest.mark.parametrize("paper", ["Letter", "A4"])
def test_the_formula_sheet_is_one_page_in_print_of_10_points(page: Page, file_url: str, paper: str):
    page.goto(file_url + "formula-sheet.html")
    assert len(re.findall(rb"/Type\s*/Page\b", page.pdf(format=paper))) == 1
    page.emulate_media(media="print")
    sizes = page.evaluate(
        """() => [...document.querySelectorAll('.formulas :is(li, .words, .letters, math, span)')]
             .map(it => parseFloat(getComputedStyle(it).fontSize))"""
    )
    assert min(sizes) >= 10 * 96 / 72 - 0.01


def test_the_heads_of_a_long_table_come_again_on_each_page(page: Page, file_url: str):
    page.goto(file_url + "tables.html")
    page.emulate_media(media="print")
    heads = page.locator(".trade-table thead").evaluate_all("them => them.map(it => getComputedStyle(it).display)")
    assert set(heads) == {"table-header-group"}
    slides = page.locator(".wide").evaluate_all("them => them.map(it => getComputedStyle(it).overflowX)")
    assert set(slides) == {"visible"}


def test_a_table_that_is_too_wide_slides_by_keyboard(browser: Browser, file_url: str):
    context = browser.new_context(viewport={"width": 390, "height": 844})
    page = context.new_page()
    page.goto(file_url + "tables.html")
    region = page.get_by_role("region", name="Friction coefficients")
    region.focus()
    page.keyboard.press("ArrowRight")
    page.wait_for_timeout(400)
    assert region.evaluate("it => it.scrollLeft") > 0
    context.close()


def test_a_link_of_the_printed_wrong_page_opens_the_sheet_filled_in(page: Page, site_url: str):
    page.goto(site_url + "often-printed-wrong.html")
    page.locator("#K28 a").click()
    expect(page.locator("#chain-IMA_1")).to_have_value("4")
    expect(page.locator("#chain-sheet .say")).to_contain_text("64.0 %", timeout=60_000)  # 0.8 x 0.8
