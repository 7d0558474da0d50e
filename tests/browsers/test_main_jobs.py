"""The site's jobs in Firefox and WebKit, from the disk and over http."""

from build_tools.driving.webdriver import Window
from tests.browsers.conftest import READY


def opened(window: Window, address: str) -> None:
    window.open(address)
    window.until(READY)


def afresh(window: Window, address: str) -> None:
    """Opens a page as a first visit does."""
    window.open(address)
    window.run("sessionStorage.clear(); localStorage.clear()")
    opened(window, address)


def fill_ramp(window: Window) -> None:
    for symbol, text in {"R": "60 lbf", "L": "8 ft", "h": "2 ft", "E": "20 lbf"}.items():
        window.type(f"[id='ramp-{symbol}']", text)


def test_a_ramp_is_worked_out_and_its_link_opens_with_the_numbers(window: Window, site_url: str) -> None:
    # By hand: IMA = 8/2 = 4; AMA = 60/20 = 3; efficiency = 3/4.
    afresh(window, site_url + "inclined-plane.html")
    fill_ramp(window)
    window.shows("#ramp-sheet .say", "75.0 %")
    window.shows("#ramp-sheet .block", "4.00")
    window.shows("#ramp-sheet .block", "3.00")
    window.click("#ramp-sheet [data-act=share]")
    window.until("document.querySelector('#ramp-sheet .copied input')?.value.includes('#c=ramp')")
    link = window.run("return document.querySelector('#ramp-sheet .copied input').value")
    window.run("sessionStorage.clear()")
    opened(window, link)
    window.shows("#ramp-sheet .say", "75.0 %")
    assert window.run("return document.getElementById('ramp-E').value") == "20 lbf"


def test_bad_input_is_told_at_its_box_and_the_rest_stays(window: Window, site_url: str) -> None:
    afresh(window, site_url + "inclined-plane.html")
    fill_ramp(window)
    window.shows("#ramp-sheet .say", "75.0 %")
    window.type("[id='ramp-E']", "20 pears")
    window.until("document.getElementById('ramp-E').getAttribute('aria-invalid') === 'true'")
    assert window.run("return ['R', 'L', 'h'].map(it => document.getElementById('ramp-' + it).value)") == [
        "60 lbf",
        "8 ft",
        "2 ft",
    ]


def test_a_lab_sheet_is_judged_and_survives_a_reload(window: Window, site_url: str) -> None:
    # By hand: 36 lbf over a mean of 12.6 lbf is 2.86, over 96/24 = 4 is 71.4 %.
    address = site_url + "lab-ramp.html"
    afresh(window, address)
    window.type("#ramp-lab-once-L", "8 ft")
    window.type("#ramp-lab-once-h", "2 ft")
    for row, text in enumerate(("12.5", "13", "12.5", "12", "13"), 1):
        window.type(f"record-sheet tr[data-row='{row}'] [name=R]", "36")
        window.type(f"record-sheet tr[data-row='{row}'] [name=E]", text)
    window.shows("record-sheet .r-verdict", "71.4")
    opened(window, address)
    window.shows("record-sheet .r-verdict", "71.4")


def test_a_practice_set_is_answered(window: Window, site_url: str) -> None:
    # By hand: 160 lbf at 9 in, effort at 30 in: 160 x 9/30 = 48 lbf.
    afresh(window, site_url + "practice.html#p=garden-1;qL1,qM1,qS4;0;3;us;&v=1")
    seat = "practice-set input[name=seat]"
    window.until("document.querySelector('practice-set input[name=seat]').getClientRects().length")
    window.type(seat, "7")
    window.press_enter(seat)
    window.shows(".p-text", "Pry bar")
    window.type("#practice-answer", "48")
    window.press_enter("#practice-answer")
    window.shows(".p-said", "Right. Write the unit too: 48.0 lbf.")


def test_a_plan_is_made_for_another_load(window: Window, site_url: str) -> None:
    shown = "Number(document.querySelector('.planner-form').dataset.shown ?? 0)"
    afresh(window, site_url + "planner.html")
    window.until(f"{shown} > 0")
    window.type("#plan-R", "40 lbf")
    # By hand: 65 lbf with the cart, on 8 ft by 2 ft with C = 0.05: 65 (24 + 0.05 x 92.95)/96 = 19.40 lbf.
    window.shows(".p-table", "19.40 lbf")
    window.click(".p-table tbody [data-card]")
    window.until("document.querySelector('.p-card svg')")


def test_the_engine_goes_on_to_the_next_page(window: Window, http_url: str) -> None:
    afresh(window, http_url + "lever.html")
    window.run("window.kept = true; document.querySelector('nav a[href$=\"inclined-plane.html\"]').click()")
    window.until("document.getElementById('ramp-R')")
    window.type("[id='ramp-R']", "60 lbf")
    window.shows("#ramp-sheet .say", "15.00 lbf")  # 60 x 24 / 96
    assert window.run("return window.kept")


def test_without_the_snapshot_the_answers_are_the_same(window: Window, site_without_snapshot: str) -> None:
    afresh(window, site_without_snapshot + "inclined-plane.html")
    assert window.run("return engine.restored") is False
    fill_ramp(window)
    window.shows("#ramp-sheet .say", "75.0 %")
