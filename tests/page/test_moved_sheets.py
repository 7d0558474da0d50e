"""Links to sheets that moved to a second page: each goes on to it, whole, from a disk and from a server."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.calc.test_old_links import FILED, LINKS, now_on, parts

SLOW = 30_000
MOVED = (
    "loaded-bar",
    "bent-lever",
    "pin-friction",
    "windlass",
    "journal-friction",
    "single-pulley",
    "tackle-rope",
    "chain-hoist",
    "rope-on-post",
    "cart-ramp",
    "shortest-ramp",
    "tilt-test",
    "level-drag",
    "screw-with-friction",
    "bolt-clamp",
)
PLACES = [
    ("lever.html#pin-friction-sheet", "more-levers.html"),
    ("lever.html#pin-friction-title", "more-levers.html"),
    ("lever.html#friction-on-the-pin", "more-levers.html"),
    ("inclined-plane.html#how-long-must-it-be", "more-ramps.html"),
    ("screw.html#bolt-clamp-title", "more-screws.html"),
]


def test_these_are_the_sheets_that_moved(site) -> None:
    now = now_on(site)
    assert {key for key, page in FILED["pages"].items() if now[key] != page} == set(MOVED)


@pytest.mark.parametrize("key", MOVED)
def test_an_old_link_reaches_its_sheet_with_all_that_it_says(page: Page, site, site_url: str, key: str) -> None:
    link = next(it["link"] for it in LINKS if parts(it["link"])["c"] == key and "v" in parts(it["link"]))
    page.goto(f"{site_url}{FILED['pages'][key]}#{link}&level=3")
    address = f"{site_url}{now_on(site)[key]}#{link}&level=3"
    page.wait_for_url(address)
    sheet = page.locator(f"#{key}-sheet")
    for name, text in parts(link).items():
        if name == "u":
            expect(sheet.locator(f"input[name=units][value={text}]")).to_be_checked()
        elif name not in ("c", "v"):
            expect(sheet.locator(f"[name={name}]")).to_have_value(text)
    if sheet.locator(".level-3").count():
        expect(sheet.locator(".level-3")).to_have_attribute("open", "")
    expect(sheet).to_be_in_viewport()
    page.go_back()
    expect(page).to_have_url("about:blank")  # the old address is no step on the way back


@pytest.mark.parametrize(("old", "leads_to"), PLACES)
def test_an_old_address_of_a_place_reaches_the_place(page: Page, site_url: str, old: str, leads_to: str) -> None:
    page.goto(site_url + old)
    place = old.partition("#")[2]
    page.wait_for_url(f"{site_url}{leads_to}#{place}")
    expect(page.locator(f"#{place}")).to_be_in_viewport()


def test_an_old_link_put_in_the_address_of_the_open_page_goes_on_too(page: Page, site_url: str) -> None:
    page.goto(site_url + "pulley.html")
    page.evaluate("location.hash = 'v=1&u=us&hide=E&lock=R&c=chain-hoist&R=200_lbf&D=6_in&d=5.5_in'")
    page.wait_for_url(
        re.compile(r"/more-pulleys\.html#v=1&u=us&hide=E&lock=R&c=chain-hoist&R=200_lbf&D=6_in&d=5\.5_in$")
    )
    expect(page.locator("#chain-hoist-R")).to_have_value("200 lbf")
    expect(page.locator("#chain-hoist-R")).to_have_attribute("readonly", "")
    expect(page.locator("#chain-hoist-sheet .say")).to_contain_text("Type your own effort first", timeout=SLOW)


def test_the_title_page_opens_an_old_link_on_the_new_page(page: Page, file_url: str) -> None:
    page.goto(file_url + "index.html")
    paste = page.get_by_label("Paste the link here")
    paste.fill("https://school.example/machines/lever.html#c=pin-friction&R=40lbf&aR=6in&aE=24in")
    paste.press("Enter")
    expect(page).to_have_url(file_url + "more-levers.html#c=pin-friction&R=40lbf&aR=6in&aE=24in")


def test_what_a_link_cannot_mean_stays_where_it_is(page: Page, site_url: str) -> None:
    for fragment in ("c=no-such&R=1", "lever-title", "%E0%A4%A", "c=../../../etc", "often-done-wrong", ""):
        page.goto("about:blank")
        page.goto(f"{site_url}lever.html#{fragment}")
        page.wait_for_function("typeof followPointer === 'function'")
        assert page.evaluate("location.pathname").endswith("/lever.html")


@pytest.mark.parametrize("old", [old for old, _ in PLACES if not old.endswith("-title")])
def test_without_scripts_an_old_address_lands_on_the_pointer(browser, file_url: str, old: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(file_url + old)
    pointer = page.locator(f"#{old.partition('#')[2]}")
    expect(pointer).to_be_in_viewport()
    expect(pointer).to_be_visible()
    context.close()
