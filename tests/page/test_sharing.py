"""A sheet's link: shown in words, as a code that an independent reader decodes, on screen and on paper."""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterator

import pytest
import zxingcpp
from playwright.sync_api import Browser, Locator, Page, expect

from build_tools.bench.waiting import until
from tests.page.pages import WITH_SHEETS
from tests.page.test_for_everybody import pages_of

SLOW = 30_000


def decoded(picture: bytes) -> list[str]:
    """What zxing-cpp (an independent reader of ISO/IEC 18004) reads in a PNG as Chromium writes it: 8 bit RGB(A)."""
    width, height, depth, colour = struct.unpack(">IIBB", picture[16:26])
    channels = {2: 3, 6: 4}[colour]
    assert depth == 8
    packed, at = b"", 8
    while at < len(picture):
        (size,) = struct.unpack(">I", picture[at : at + 4])
        if picture[at + 4 : at + 8] == b"IDAT":
            packed += picture[at + 8 : at + 8 + size]
        at += size + 12
    return [code.text for code in zxingcpp.read_barcodes(gray(zlib.decompress(packed), width, height, channels))]


def gray(raw: bytes, width: int, height: int, channels: int) -> memoryview:
    """The green of each pixel; the line filters undone as the PNG specification, section 9, says."""
    before = bytearray(width * channels)
    out = bytearray()
    for row in range(height):
        at = row * (width * channels + 1)
        kind, line = raw[at], bytearray(raw[at + 1 : at + 1 + width * channels])
        for x in range(len(line)):
            left, up = line[x - channels] if x >= channels else 0, before[x]
            corner = before[x - channels] if x >= channels else 0
            guess = left + up - corner
            near = min((abs(guess - left), 0, left), (abs(guess - up), 1, up), (abs(guess - corner), 2, corner))[2]
            line[x] = (line[x] + (0, left, up, (left + up) // 2, near)[kind]) & 255
        out += line[1::channels]
        before = line
    return memoryview(bytes(out)).cast("B", (height, width))


@pytest.fixture(scope="module")
def lever(browser: Browser, http_url: str) -> Iterator[Page]:
    context = browser.new_context(viewport={"width": 1366, "height": 900}, device_scale_factor=2)
    page = context.new_page()
    page.goto(http_url + "lever.html#c=lever&v=1&u=us&R=45_lbf&aR=6_in&aE=2_ft&hide=E&lock=R")
    until(page, "engine.state === 'ready'")
    expect(page.locator("#lever-R")).to_have_value("45 lbf")
    page.evaluate("window.print = () => { window.printed = true; }")
    page.evaluate("fetched('share')")
    yield page
    context.close()


def panel(page: Page) -> Locator:
    return page.locator("#lever-sheet .copied")


def test_a_link_says_in_words_what_it_holds_and_what_not(lever: Page) -> None:
    lever.locator("#lever-sheet [data-act=share]").click()
    said = panel(lever).locator(".share-holds")
    for words in ("US units", "Load 45 lbf", "Load arm 6 in", "Effort arm 2 ft", "class 1"):
        expect(said).to_contain_text(words)
    expect(said).to_contain_text("hidden until a number is typed: Effort")
    expect(said).to_contain_text("not to be changed: Load")
    expect(said).to_contain_text("Not in it: results and names.")


def test_the_code_on_the_screen_is_the_link(lever: Page) -> None:
    lever.locator("#lever-sheet [data-act=share]").click()
    code = panel(lever).locator(".share-code svg")
    expect(code).to_be_visible()
    link = panel(lever).locator("input").input_value()
    assert link.endswith("#c=lever&v=1&u=us&R=45_lbf&aR=6_in&aE=2_ft&class=1&hide=E&lock=R")
    assert decoded(code.screenshot()) == [link]


def test_a_code_in_the_dark_scheme_is_dark_on_white_too(lever: Page) -> None:
    lever.emulate_media(color_scheme="dark")
    lever.locator("#lever-sheet [data-act=share]").click()
    code = panel(lever).locator(".share-code svg")
    expect(code).to_be_visible()
    assert decoded(code.screenshot()) == [panel(lever).locator("input").input_value()]
    lever.emulate_media(color_scheme="light")


@pytest.mark.parametrize("length", [40, 150, 151, 299, 300])
def test_every_length_up_to_the_limit_is_read(lever: Page, length: int) -> None:
    """On the screen at the size that it has on paper at 300 dots an inch."""
    address = "http://school.example/machines/lever.html#c=lever&R=" + "1234567890" * 30
    address = address[:length]
    lever.evaluate(
        "async a => { await Share.ready(); document.body.insertAdjacentHTML('afterbegin',"
        " `<div id=trial style='width:108px'>${Share.svg(a)}</div>`); }",
        address,
    )
    try:
        assert decoded(lever.locator("#trial svg").screenshot()) == [address]
    finally:
        lever.evaluate("document.getElementById('trial').remove()")


def test_a_link_that_is_too_long_for_a_code_says_so(lever: Page) -> None:
    assert "301 characters of 300" in lever.evaluate("Share.reason('http://a' + 'b'.repeat(293))")
    assert lever.evaluate("Share.reason('http://a' + 'b'.repeat(292))") == ""


def test_close_gives_the_focus_back(lever: Page) -> None:
    lever.locator("#lever-sheet [data-act=share]").click()
    panel(lever).get_by_role("button", name="Close").click()
    expect(panel(lever)).to_be_hidden()
    expect(lever.locator("#lever-sheet [data-act=share]")).to_be_focused()


def test_the_printed_sheet_carries_the_code(lever: Page) -> None:
    lever.locator("#lever-sheet [data-act=print]").click()
    until(lever, "window.printed")
    lever.emulate_media(media="print")
    place = lever.locator(".site-head .share-paper svg")
    expect(place).to_be_visible()
    (link,) = decoded(place.screenshot())
    assert "#c=lever&v=1&u=us&R=45_lbf" in link
    assert pages_of(lever.pdf(format="Letter")) == 1
    lever.emulate_media(media="null")
    lever.evaluate("dispatchEvent(new Event('afterprint'))")
    expect(place).to_be_hidden()


def test_from_a_disk_there_is_no_code_and_the_reader_is_told_what_to_do(page: Page, file_url: str) -> None:
    page.goto(file_url + "lever.html")
    until(page, "engine.state === 'ready'", SLOW)
    page.locator("#lever-sheet [data-act=share]").click()
    expect(panel(page).locator(".share-note")).to_contain_text("paste it into the box on that copy’s title page")
    expect(panel(page).locator("svg")).to_have_count(0)


@pytest.mark.parametrize("name", [*WITH_SHEETS, "lab-ramp"])
def test_the_code_costs_no_sheet_a_page(browser: Browser, http_url: str, name: str) -> None:
    """Every sheet of every page on both papers, with its code and without."""
    page = browser.new_page()
    page.goto(http_url + f"{name}.html")
    until(page, "engine.state === 'ready'", SLOW)
    page.evaluate("window.print = () => { window.printed = true; }")
    for at, button in enumerate(page.locator(":is(calculator-sheet, record-sheet) [data-act=print]").all(), start=1):
        for paper in ("Letter", "A4"):
            needed = []
            for code in (True, False):
                page.evaluate("window.printed = false")
                button.click()
                until(page, "window.printed", SLOW)
                assert page.locator(".site-head .share-paper svg").count() == 1
                if not code:
                    page.locator(".site-head .share-paper").evaluate("place => { place.hidden = true; }")
                needed.append(pages_of(page.pdf(format=paper)))
                until(page, "!document.documentElement.dataset.print", SLOW)  # Chromium has told that it printed
            assert needed[0] == needed[1], f"sheet {at} on {paper}"
    page.close()


def test_a_labs_link_sets_the_sheet_up_and_holds_no_reading(page: Page, http_url: str) -> None:
    page.goto(http_url + "lab-ramp.html")
    until(page, "engine.state === 'ready'", SLOW)
    form = page.locator("#ramp-lab-record")
    form.locator("input[name=units][value=si]").check()
    size = form.locator("input[id^='ramp-lab-once-']").first
    size.fill("2.40 m")
    symbol = size.get_attribute("name")
    form.locator("table input[type=text]").first.fill("77")
    form.locator("input[id^='ramp-lab-once-']").nth(1).fill("0.6")
    form.locator("[name=division]").evaluate("box => { box.value = '2'; }")  # in a part that may be closed
    form.locator("[name=tape]").evaluate("box => { box.value = '1'; }")
    form.locator("[data-act=share]").click()
    link = form.locator(".copied input").input_value()
    assert link.split("#")[1].startswith(f"c=ramp-lab&v=1&u=si&{symbol}=2.40_m&h=0.6_m&")  # a bare number got its unit
    assert "&division=2&" in link  # in what the scale shows, which the link says too
    assert "&tape=1_mm&" in link
    assert "77" not in link.split("#")[1]
    expect(form.locator(".share-holds")).to_contain_text("Not in it: readings, results and names.")
    other = page.context.new_page()
    other.goto(link)
    until(other, "engine.state === 'ready'", SLOW)
    expect(other.locator(f"#ramp-lab-once-{symbol}")).to_have_value("2.40 m")
    expect(other.locator("input[name=units][value=si]")).to_be_checked()
    expect(other.locator("#ramp-lab-record table input[type=text]").first).to_have_value("")


def test_a_labs_link_opens_from_the_paste_box_of_a_copy(page: Page, file_url: str) -> None:
    page.goto(file_url + "index.html")
    page.locator("#paste").fill("https://school.example/x/lab-ramp.html#c=ramp-lab&v=1&u=si")
    page.locator("#paste").press("Enter")
    page.wait_for_url("**/lab-ramp.html#c=ramp-lab&v=1&u=si")
    expect(page.locator("input[name=units][value=si]")).to_be_checked()


def test_a_sets_link_opens_the_students_page_and_says_what_it_holds(page: Page, http_url: str) -> None:
    page.set_viewport_size({"width": 1366, "height": 900})
    page.goto(http_url + "practice-sets.html")
    until(page, "engine.state === 'ready'", SLOW)
    page.get_by_label("Set code").fill("hens-2")
    page.get_by_label("Screw", exact=True).check()
    page.locator("#sets-level").select_option("2")
    page.get_by_role("button", name="Share").click()
    shown = page.locator("practice-sets .copied")
    expect(shown.locator(".share-holds")).to_have_text(
        "In this link: set code hens-2; Lever, Screw; level 2, several steps; 6 problems; US units. "
        "Not in it: a seat number, answers, the key and names."
    )
    link = shown.locator("input").input_value()
    assert link == http_url + "practice.html#p=hens-2;lever,screw;2;6;us;&v=1"
    expect(shown.locator(".share-code svg")).to_be_visible()
    page.evaluate("document.documentElement.style.zoom = 2")
    assert decoded(shown.locator(".share-code svg").screenshot()) == [link]


def test_a_shared_sets_link_follows_the_form_and_holds_what_was_understood(page: Page, http_url: str) -> None:
    page.goto(http_url + "practice-sets.html")
    until(page, "engine.state === 'ready'", SLOW)
    page.get_by_role("button", name="Share").click()
    shown = page.locator("practice-sets .copied")
    expect(shown.locator("input")).to_have_value(http_url + "practice.html#p=garden-1;lever;0;6;us;&v=1")
    page.get_by_label("Problems", exact=True).fill("700")  # refused, with a message: 6 stay
    page.locator("#sets-units").select_option("si")
    expect(shown.locator("input")).to_have_value(http_url + "practice.html#p=garden-1;lever;0;6;si;&v=1")
    expect(shown.locator(".share-holds")).to_contain_text("6 problems; SI units")
    page.locator(".p-single summary").click()
    page.locator("[name=family][value=qS4]").check()
    expect(shown.locator(".share-holds")).to_contain_text("set code garden-1; 1 single problem;")
    expect(shown.locator("input")).to_have_value(http_url + "practice.html#p=garden-1;qS4;0;6;si;&v=1")
