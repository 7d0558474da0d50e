"""Cards of shop objects: their numbers, their pictures, the links that open their sheets."""

from __future__ import annotations

import math
import re
from html import unescape
from pathlib import Path
from xml.etree import ElementTree

import markdown
import pytest
from playwright.sync_api import Browser, Page, expect

import calc
from build_tools import shop_block, shop_pictures
from build_tools.shop_block import ShopBlockError, cards_html, figures, links, pages_with_cards
from build_tools.shop_objects import STANDINGS, SYSTEMS, ShopObject, shop_objects
from build_tools.stated_numbers import facts
from calc import link
from calc.drawing.letters import width_of
from calc.units import factor

THINGS = shop_objects()
KEYS = [thing.key for thing in THINGS]
BY_KEY = dict(zip(KEYS, THINGS, strict=True))
MEASURED = [thing for thing in THINGS if thing.standing == "class"]
HANGING = ("windlass", "single-pulley", "tackle")
LBF, INCH = factor("lbf"), factor("in")
LIMITS = {"us": (25 * LBF, 100 * LBF, 12 * INCH), "si": (110.0, 450.0, 0.3)}
TYPE = 13  # the size of a picture's words in its own units, as look.css sets it

each = pytest.mark.parametrize("thing", THINGS, ids=KEYS)
both = pytest.mark.parametrize("units", SYSTEMS)


def values(thing: ShopObject, units: str) -> dict[str, float]:
    return {symbol: entry["si"] for symbol, entry in calc.answer(thing.request(units))["values"].items()}


def test_no_key_stands_twice_and_all_have_a_known_standing() -> None:
    assert len(set(KEYS)) == len(KEYS)
    assert {thing.standing for thing in THINGS} <= set(STANDINGS)


@each
@both
def test_an_object_answers_without_a_complaint(thing: ShopObject, units: str) -> None:
    answer = calc.answer(thing.request(units))
    assert answer["errors"] == []
    assert answer["remarks"] == []


@each
def test_a_card_tells_figures_and_a_shape_only_one(thing: ShopObject) -> None:
    names = [figure["name"] for figure in figures(thing)]
    if thing.standing == "class":
        assert len(names) >= 2
    else:
        assert names == ["IMA"]


@pytest.mark.parametrize("thing", MEASURED, ids=[thing.key for thing in MEASURED])
@both
def test_a_class_can_set_it_up(thing: ShopObject, units: str) -> None:
    """What one student pulls steadily, what hangs on a class rig, how high: common practice, no source.

    The pull is that of the least efficient such thing, not of the ideal one.
    """
    pull, load, lift = LIMITS[units]
    found, slack = values(thing, units), 1 + 1e-9
    worst = facts()[thing.usual]["low"] if thing.usual else 1
    assert found.get("E", 0) / worst <= pull * slack
    assert found.get("R", 0) <= load * slack
    if thing.calculator in HANGING:
        assert found["h"] <= lift * slack


@each
def test_what_no_class_measures_has_only_a_shape(thing: ShopObject) -> None:
    if thing.standing != "class":
        assert "R" not in values(thing, "us")
        assert STANDINGS[thing.standing] in thing.cautions


@each
def test_both_systems_describe_one_thing(thing: ShopObject) -> None:
    """A slip in typing shows as two sizes that differ. Thread tables differ most: 10 to the inch or 3 mm, 18 %."""
    us, si = values(thing, "us"), values(thing, "si")
    assert set(thing.given["us"]) == set(thing.given["si"])
    assert us.keys() == si.keys()
    for symbol in thing.given["us"]:
        assert si[symbol] == pytest.approx(us[symbol], rel=0.08), symbol
    for symbol in thing.shows:
        if symbol in us:
            assert si[symbol] == pytest.approx(us[symbol], rel=0.2), symbol


@pytest.mark.parametrize(
    ("key", "symbol", "by_hand"),
    [
        ("wrecking-bar", "E", 40 * 4 / 44 * LBF),  # law of moments
        ("garden-barrow", "E", 60 * 16 / 48 * LBF),
        ("shovel", "IMA", 16 / 40),
        ("claw-hammer", "E", 80 * 1.5 * math.sin(math.radians(70)) / 12 * LBF),
        ("windlass", "IMA", 15 / (6 / 2 + 0.5 / 2)),  # the rope's middle is half its thickness outside the drum
        ("drill-press-feed", "IMA", 6 / (5 / 8)),
        ("bicycle-wheel", "IMA", 1.5 / 13),
        ("movable-pulley", "E", (20 + 1) / 2 * LBF),
        ("four-part-tackle", "E", (60 + 4) / 4 * LBF),
        ("plank-cart", "IMA", 96 / 24),
        ("compost-chute", "E", 30 * 48 / 96 * LBF),
        ("kindling-wedge", "IMA", 8 / 2),
        ("bench-vise", "IMA", 2 * math.pi * 5 * 6),  # once round the hand's circle for a sixth of an inch
        ("jar-lid", "IMA", 2 * math.pi * 1.5 / (4 / 8)),  # four starts, eight threads to the inch
        ("paper-triangle", "turns", 11 / math.pi),  # paper over circumference
        ("bolt", "F", 12.5 * 12 / (0.20 * 0.375) * LBF),  # torque = nut factor x force x diameter
    ],
)
def test_a_card_says_what_the_hand_computes(key: str, symbol: str, by_hand: float) -> None:
    assert values(BY_KEY[key], "us")[symbol] == pytest.approx(by_hand, rel=1e-6)


@each
@both
def test_its_link_opens_the_same_numbers(thing: ShopObject, units: str) -> None:
    asked = thing.request(units)
    page, _, fragment = links(thing)[units].partition("#")
    docs = Path(shop_block.__file__).parents[1] / "docs"
    assert f"/// calculator | {thing.calculator}\n" in (docs / page.replace(".html", ".md")).read_text("utf-8")
    read = link.read(fragment, choices=asked["choices"])
    assert (read["calculator"], read["units"]) == (thing.calculator, units)
    assert read["given"].keys() == asked["given"].keys()
    assert read["choices"].items() <= asked["choices"].items()
    again = calc.answer(read)
    assert again["errors"] == []
    assert {s: v["text"] for s, v in again["values"].items()} == {
        s: v["text"] for s, v in calc.answer(asked)["values"].items()
    }


@each
def test_its_words_are_short_sentences(thing: ShopObject) -> None:
    for text in (thing.notice, thing.picture, thing.caution):
        for sentence in re.split(r"[.:!?]\s", text):
            assert len(sentence.split()) <= 20, sentence
    for path in (thing.dE, thing.dR):
        assert len(path.split()) <= 12, path


# --- pictures ---------------------------------------------------------------------------------------------------


def drawn(thing: ShopObject) -> ElementTree.Element:
    return ElementTree.fromstring(shop_pictures.picture(thing))


def test_every_object_is_drawn_and_no_drawing_is_left_over() -> None:
    assert sorted(file.stem for file in shop_pictures.FOLDER.iterdir()) == sorted(KEYS)


@each
def test_a_picture_names_its_points_and_says_what_it_shows(thing: ShopObject) -> None:
    picture = drawn(thing)
    assert picture.findtext("title") == thing.name
    described = picture.findtext("desc") or ""
    assert described.startswith(thing.picture)
    words = [part.text for part in picture.iter("text")]
    assert words == [point.printed for point in thing.points]
    assert {"effort", "load"} <= set(words)
    for point in thing.points:
        assert point.where in described
    assert len(words) == 3 or thing.page == "inclined-plane"
    assert {part.get("class") for part in picture.iter("path")} >= {"effort", "hatch"}
    assert len(shop_pictures.picture(thing).encode()) < 3000


def boxes(thing: ShopObject) -> list[tuple[float, float, float, float]]:
    """Left, top, right, bottom of each word, in whichever face it is set."""
    found = []
    for point in thing.points:
        x, y, anchor = point.text
        width = width_of(point.printed) * TYPE / 14 * (1.07 if point.role == "effort" else 1)
        left = x - {"start": 0.0, "middle": width / 2, "end": width}[anchor]
        found.append((left, y - 0.75 * TYPE, left + width, y + 0.22 * TYPE))
    return found


def touch(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def arrow(thing: ShopObject, role: str) -> tuple[float, float, float, float]:
    point = next(point for point in thing.points if point.role == role)
    assert point.at is not None
    length, half = {"effort": (34, 7.5), "load": (38, 9)}[role]
    along, across = math.radians(point.turn), math.radians(point.turn + 90)
    corners = [
        (
            point.at[0] + far * math.cos(along) + side * math.cos(across),
            point.at[1] + far * math.sin(along) + side * math.sin(across),
        )
        for far in (0, length)
        for side in (-half, half)
    ]
    xs, ys = [corner[0] for corner in corners], [corner[1] for corner in corners]
    return min(xs), min(ys), max(xs), max(ys)


@each
def test_words_and_arrows_keep_apart_and_inside_the_picture(thing: ShopObject) -> None:
    left, top, width, height = map(float, shop_pictures.SHEET.split())
    words = boxes(thing)
    for one in words:
        assert left - 4 <= one[0], one
        assert one[2] <= left + width + 4, one
        assert top - 4 <= one[1], one
        assert one[3] <= top + height + 4, one
    for number, one in enumerate(words):
        assert not any(touch(one, other) for other in words[:number])
    effort, load = arrow(thing, "effort"), arrow(thing, "load")
    assert not touch(effort, load)
    if thing.key not in SLANTED:
        assert not any(touch(one, other) for one in words for other in (effort, load))


SLANTED = ("two-part-tackle", "four-part-tackle", "chisel", "plank-cart", "compost-chute", "plank-crate")
"""Their effort's arrow lies aslant, so that the box around it says too much."""


# --- block and pages ---------------------------------------------------------------------------------------------


def rendered(text: str) -> str:
    return markdown.markdown(text, extensions=["build_tools.shop_block"])


def test_a_block_becomes_the_cards_of_its_page() -> None:
    html = rendered("/// shop | wedge\n///\n")
    assert re.findall(r'<h3 id="shop-([\w-]+)"', html) == [thing.key for thing in THINGS if thing.page == "wedge"]
    assert "Teacher only." in html
    assert "Shape only: not measured by a class." in html


def test_a_page_without_objects_stops_the_build_and_names_those_there_are() -> None:
    with pytest.raises(ShopBlockError, match=r"'levr'.*lever.*screw"):
        rendered("/// shop | levr\n///\n")


@pytest.mark.parametrize("text", ["/// shop\n///\n", "/// shop | lever\n    units: si\n///\n"])
def test_a_block_that_cannot_be_read_stops_the_build(text: str) -> None:
    with pytest.raises(ShopBlockError, match="could not be read"):
        rendered(text)


@pytest.mark.parametrize("page", pages_with_cards())
def test_the_cards_of_a_page_stay_light(page: str) -> None:
    """40 KB of HTML at most (the house's own limit)."""
    assert len(cards_html(page).encode()) < 40_000


def test_every_number_of_a_card_is_computed() -> None:
    """No number with a decimal point stands in the words of the data."""
    for thing in THINGS:
        for text in (thing.notice, thing.caution, thing.picture, thing.dE, thing.dR):
            assert not re.search(r"\d", text), thing.key


@each
def test_a_card_tells_the_usual_efficiency_with_its_source(thing: ShopObject) -> None:
    told = shop_block.usual(thing)
    if thing.usual:
        assert facts()[thing.usual]["text"] == told["text"].replace("\u00a0", " ")
        assert told["mark"]


@each
def test_the_card_stands_on_its_page_and_the_title_page_leads_to_it(site: Path, thing: ShopObject) -> None:
    page = (site / f"{thing.page}.html").read_text("utf-8")
    assert f'<h3 id="shop-{thing.key}">' in page
    for address in links(thing).values():
        assert address in unescape(page)
        opened = (site / address.partition("#")[0]).read_text("utf-8")
        assert f'<calculator-sheet key="{thing.calculator}"' in opened
    assert f'href="{thing.page}.html#shop-{thing.key}"' in (site / "index.html").read_text("utf-8")


def test_pages_without_cards_keep_their_words_in_the_index(site: Path) -> None:
    index = (site / "index.html").read_text("utf-8")
    for word in ("Torque wrench", "Garden lopper", "Jack"):
        assert word in index


def test_a_card_opens_its_sheet(page: Page, site_url: str) -> None:
    """By hand: 60 lbf at 16 in is held by 20 lbf at 48 in; 270 N at 400 mm by 90 N at 1200 mm."""
    page.goto(site_url + "lever.html#shop-garden-barrow")
    card = page.locator("li", has=page.locator("#shop-garden-barrow"))
    for words, load, effort in (("Open with these numbers", "60 lbf", "20.0 lbf"), ("in SI units", "270 N", "90.0 N")):
        card.get_by_role("link", name=words).click()
        expect(page.locator("#lever-R")).to_have_value(load)
        expect(page.locator("#lever-sheet .say")).to_contain_text(effort, timeout=30_000)
        expect(page.locator("#lever-sheet select[name=class]")).to_have_value("2")
        expect(page.locator("#lever-sheet")).to_be_in_viewport()


@pytest.mark.parametrize("width", [320, 390, 800, 1024, 1366])
def test_the_names_in_a_picture_can_be_read(browser: Browser, file_url: str, width: int) -> None:
    """12 px at least at the size at which the picture is shown; no word stands out of the page."""
    context = browser.new_context(viewport={"width": width, "height": 800}, java_script_enabled=False)
    page = context.new_page()
    for name in pages_with_cards():
        page.goto(f"{file_url}{name}.html")
        for text in page.locator(".cards svg text").all():
            box = text.bounding_box()
            assert box is not None
            assert box["x"] >= 0
            assert box["x"] + box["width"] <= width
            size = text.evaluate("it => parseFloat(getComputedStyle(it).fontSize) * it.getScreenCTM().a")
            assert size >= 12
    context.close()


@pytest.mark.parametrize("name", pages_with_cards())
def test_no_card_is_cut_by_the_edge_of_a_sheet_of_paper(browser: Browser, file_url: str, name: str) -> None:
    page = browser.new_page()
    page.goto(f"{file_url}{name}.html")
    page.emulate_media(media="print")
    for card in page.locator(".cards > li").all():
        assert card.evaluate("card => getComputedStyle(card).breakInside") == "avoid"
        height = card.evaluate("card => card.getBoundingClientRect().height")
        assert height < 9 * 96, "a card is no higher than a page"
    page.close()
