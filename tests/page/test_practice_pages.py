"""Practice in Chromium: a set done with mistakes on purpose, kept, handed in; the teacher's link, sheets and key."""

import csv
import io
import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

import calc
from build_tools.bench.waiting import until

pytestmark = pytest.mark.browser

SLOW = 60_000
# Set garden-1, seat 7, question 1: 160 lbf at 9 in, effort at 30 in, so 48 lbf; arms swapped gives 533 (SPEC E3).
LINK = "practice.html#p=garden-1;qL1,qM1,qS4;0;3;us;&v=1"


def opened(page: Page, address: str) -> Page:
    page.goto(address)
    until(page, "engine.state === 'ready'", SLOW)
    return page


def begun(page: Page, file_url: str, seat: str = "7") -> Page:
    opened(page, file_url + LINK)
    expect(page.locator(".p-free").first).to_be_hidden()
    page.get_by_label("Seat number").fill(seat)
    page.get_by_label("Seat number").press("Enter")
    expect(page.locator(".p-text")).to_contain_text("Pry bar", timeout=SLOW)
    return page


def type_answer(page: Page, text: str) -> None:
    page.locator("#practice-answer").fill(text)
    page.locator("#practice-answer").press("Enter")


def test_mistakes_are_named_and_the_third_opens_the_working(page: Page, site_url: str) -> None:
    begun(page, site_url)
    expect(page.locator(".p-text")).to_have_text(
        "Pry bar: load 160 lbf at 9 in, effort at 30 in, pivot between. Effort?"
    )
    said, lines = page.locator(".p-said"), page.locator(".p-working li")
    expect(page.locator("practice-set figure .is-wide")).to_contain_text("effort ?", use_inner_text=False)
    type_answer(page, "533")
    expect(said).to_contain_text("Arms swapped: the long arm is the effort’s.")
    type_answer(page, "48 in")
    expect(said).to_contain_text("The number is right, the unit is not.")
    expect(lines).to_have_count(0)
    type_answer(page, "what")
    expect(said).to_contain_text("I cannot read “what” as a number.")
    type_answer(page, "77 lbf")
    expect(said).to_contain_text("Not right, and not a mistake that this page knows.")
    expect(lines).to_have_count(6)
    expect(page.locator(".p-numbers button").first).to_have_attribute("aria-label", "Problem 1, working shown")
    expect(page.locator(".p-table tbody tr").first).to_contain_text("working shown")


def test_a_right_answer_without_its_unit_is_right_and_reminded(page: Page, file_url: str) -> None:
    begun(page, file_url)
    type_answer(page, "48")
    expect(page.locator(".p-said")).to_have_text("Right. Write the unit too: 48.0 lbf.")
    expect(page.locator("[data-act=next]")).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.locator("#practice-question")).to_contain_text("Problem 2 of 3")
    expect(page.locator(".p-said")).to_have_text("")


def test_a_hint_shows_how_it_begins_without_a_miss(page: Page, file_url: str) -> None:
    begun(page, file_url)
    page.get_by_role("button", name="Hint").click()
    expect(page.locator(".p-working li")).to_have_count(2)
    expect(page.locator(".p-working")).not_to_contain_text("48")
    expect(page.locator(".p-table tbody tr").first).to_contain_text("not tried")


def test_progress_survives_a_reload_and_clear_forgets_it(page: Page, file_url: str) -> None:
    begun(page, file_url)
    type_answer(page, "48 lbf")
    expect(page.locator(".p-numbers")).to_contain_text("1 ✓")
    assert page.evaluate("localStorage.getItem('practice')") is None
    page.reload()
    expect(page.locator(".p-numbers")).to_contain_text("1 ✓", timeout=SLOW)
    page.get_by_label("Keep my answers on this device").check()
    assert page.evaluate("localStorage.getItem('practice')")
    page.get_by_role("button", name="Clear").click()
    expect(page.locator(".p-numbers")).not_to_contain_text("✓")
    assert page.evaluate("[localStorage.getItem('practice'), sessionStorage.getItem('practice')]") == [None, None]


def test_another_seat_starts_with_other_numbers_and_no_answers(page: Page, file_url: str) -> None:
    begun(page, file_url)
    first = page.locator(".p-text").inner_text()
    type_answer(page, "48 lbf")
    page.get_by_label("Seat number").fill("8")
    page.get_by_role("button", name="Start").click()
    expect(page.locator(".p-about")).to_contain_text("seat 8")
    assert page.locator(".p-text").inner_text() != first
    expect(page.locator(".p-numbers")).not_to_contain_text("✓")


def test_the_summary_is_saved_with_nothing_that_a_spreadsheet_runs(page: Page, file_url: str, tmp_path: Path) -> None:
    begun(page, file_url)
    type_answer(page, "-48 lbf")
    expect(page.locator(".p-said")).to_contain_text("the sign is not")
    with page.expect_download() as download:
        page.get_by_role("button", name="Save the summary").click()
    download.value.save_as(tmp_path / "summary.csv")
    rows = list(csv.reader(io.StringIO((tmp_path / "summary.csv").read_text("utf-8"))))
    assert rows[:3] == [["set", "garden-1"], ["seat", "7"], ["units", "us"]]
    assert rows[5][2:] == ["'-48 lbf", "1", "not yet right"]


def test_a_hostile_link_stays_text_and_the_page_works(page: Page, file_url: str) -> None:
    failed: list[str] = []
    page.on("pageerror", lambda error: failed.append(str(error)))
    opened(page, file_url + "practice.html#p=%3Cimg src=x onerror=alert(1)%3E;nowhere;9;999;us;700&v=2")
    expect(page.locator(".r-errors li")).to_have_count(6, timeout=SLOW)
    assert page.locator("practice-set img").count() == 0
    page.get_by_label("Seat number").fill("3")
    page.get_by_role("button", name="Start").click()
    expect(page.locator(".p-text")).not_to_be_empty(timeout=SLOW)
    assert failed == []


def test_a_pasted_practice_link_opens_the_practice_page(page: Page, file_url: str) -> None:
    page.goto(file_url + "index.html")
    paste = page.get_by_label("Paste the link here")
    paste.fill("https://school.example/site/" + LINK)
    paste.press("Enter")
    expect(page).to_have_url(file_url + LINK)


@pytest.fixture(scope="module")
def teachers_page(browser: Browser, file_url: str):
    page = browser.new_page()
    page.add_init_script("window.print = () => {}")
    yield opened(page, file_url + "practice-sets.html")
    page.close()


def test_a_start_overtakes_the_page_that_is_still_opening_its_link(page: Page, file_url: str) -> None:
    begun(page, file_url)
    type_answer(page, "48 lbf")
    expect(page.locator(".p-said")).to_contain_text("Right.")
    shown = page.evaluate(
        """async () => {
            const head = document.querySelector("#practice-question");
            let shown = 0;
            new MutationObserver(() => { shown += 1; }).observe(head, { childList: true });
            dispatchEvent(new HashChangeEvent("hashchange"));
            document.querySelector("[name=seat]").value = "9";
            document.querySelector("[data-act=start]").click();
            for (let quiet = 0; quiet < 20; quiet += 1) await engine.ask(`quiet ${quiet}`, { practice: { link: "" } });
            return shown;
        }"""
    )
    assert shown == 1, "the set was opened again under the reader's hands"
    expect(page.locator(".p-about")).to_contain_text("seat 9")


def test_a_start_before_the_link_was_read_opens_the_links_own_set(page: Page, file_url: str) -> None:
    page.goto(file_url + "practice.html#p=hens-2;lever,screw;0;6;us;&v=1")
    page.get_by_label("Seat number").fill("9")
    page.get_by_label("Seat number").press("Enter")
    expect(page.locator(".p-about")).to_contain_text("Set hens-2, seat 9: 6 problems, Lever, Screw", timeout=SLOW)
    expect(page.locator(".p-free").first).to_be_hidden()
    expect(page.get_by_label("Set code")).to_have_value("hens-2")


HOLD = """(slot) => {
  const ask = engine.ask.bind(engine);
  engine.ask = async (asked, request) => {
    const answer = await ask(asked, request);
    if (asked === "practice questions") for (const question of answer.questions) question.picture = false;
    if (asked === slot) await new Promise((resolve) => { window.release = resolve; });
    return answer;
  };
}"""
"""Holds the answers on a slot back until `release()`; problems that are asked for now have no picture."""


@pytest.mark.parametrize(
    ("slot", "button", "place"),
    [
        ("practice picture", "[data-act=go]", "practice-set figure"),
        ("practice hint", "[data-act=hint]", ".p-working li"),
        ("practice mark", "[data-act=check]", ".p-working li"),
    ],
)
def test_what_comes_late_for_one_set_is_not_shown_with_another(
    page: Page, file_url: str, slot: str, button: str, place: str
) -> None:
    begun(page, file_url)
    expect(page.locator("practice-set figure")).to_be_visible()
    page.evaluate(HOLD, slot)
    page.locator("#practice-answer").fill("533")
    page.locator(button).first.click()
    until(page, "window.release")
    page.get_by_label("Seat number").fill("9")
    page.get_by_role("button", name="Start").click()
    expect(page.locator(".p-about")).to_contain_text("seat 9")
    page.evaluate("release()")
    page.evaluate("new Promise((resolve) => setTimeout(resolve, 0))")  # all that waited for it has run
    expect(page.locator(place).first).to_be_hidden()
    expect(page.locator(".p-said")).to_be_empty()
    expect(page.locator(".p-table tbody tr").first).to_contain_text("not tried")


def test_the_teachers_link_gives_the_student_the_same_set(teachers_page: Page, page: Page) -> None:
    teachers_page.get_by_label("Set code").fill("hens-2")
    teachers_page.get_by_label("Screw", exact=True).check()
    teachers_page.get_by_role("button", name="Share").click()
    expect(teachers_page.locator("#sets-link")).to_have_value(re.compile("p=hens-2;lever,screw;0;6;us;&v=1$"))
    cells = teachers_page.locator(".p-key tbody tr").nth(8).locator("td").all_inner_texts()
    opened(page, teachers_page.input_value("#sets-link"))
    page.get_by_label("Seat number").fill("9")
    page.get_by_role("button", name="Start").click()
    for number, answer in enumerate(cells, 1):
        expect(page.locator("#practice-question")).to_contain_text(f"Problem {number} of 6", timeout=SLOW)
        type_answer(page, answer)
        expect(page.locator(".p-said")).to_contain_text("Right.")
        page.get_by_role("button", name="Next problem").click()
    expect(page.locator("#practice-summary")).to_be_focused()  # all are done


@pytest.mark.parametrize("units", ["us", "si"])
def test_every_family_is_drawn_in_the_browser_as_it_is_here(teachers_page: Page, units: str) -> None:
    """All families, 20 at a time: keys, mistakes and working, character for character."""
    ids = [id_ for machine in calc.practice_machines() for id_, _, _ in calc.practice_families(machine)]
    for first in range(0, len(ids), 20):
        chosen = ids[first : first + 20]
        practice = {"set": "same-1", "families": chosen, "count": len(chosen), "units": units, "seat": 40}
        request = {"practice": practice, "key": [1, 2, 39, 40]}
        there = teachers_page.evaluate("request => engine.ask('same', request)", request)
        assert there == calc.answer(request)


def test_what_a_student_wrote_is_looked_up_for_the_teacher(teachers_page: Page) -> None:
    row = teachers_page.locator(".p-ask")
    row.get_by_label("Seat").fill("1")
    row.get_by_label("Problem").fill("1")
    row.get_by_label("The student wrote").fill(teachers_page.locator(".p-slips tbody .n").first.inner_text())
    row.get_by_label("The student wrote").press("Enter")
    words = teachers_page.locator(".p-slips tbody td:nth-child(2)").first.inner_text()
    expect(row.locator(".p-said")).to_contain_text(words)


def pages_of(pdf: bytes) -> int:
    return len(re.findall(rb"/Type\s*/Page[^s]", pdf))


@pytest.mark.parametrize("paper", ["Letter", "A4"])
def test_the_key_of_forty_seats_fits_one_page_before_the_known_mistakes(teachers_page: Page, paper: str) -> None:
    teachers_page.get_by_label("Seats").fill("40")
    expect(teachers_page.locator(".p-key tbody tr")).to_have_count(40)
    slips = teachers_page.locator(".p-key-slips")
    for display, least, most in (("none", 1, 1), ("", 2, 4)):
        slips.evaluate("(part, display) => { part.style.display = display; }", display)
        teachers_page.get_by_role("button", name="Print the key").click()
        assert least <= pages_of(teachers_page.pdf(format=paper, prefer_css_page_size=True)) <= most


def test_each_seats_sheet_is_a_page(teachers_page: Page) -> None:
    teachers_page.get_by_label("Seats").fill("5")
    teachers_page.get_by_role("button", name="Print the sheets").click()
    expect(teachers_page.locator(".p-sheet")).to_have_count(5)
    assert pages_of(teachers_page.pdf(format="Letter", prefer_css_page_size=True)) == 5
    teachers_page.evaluate("dispatchEvent(new Event('afterprint'))")


def test_predict_first_holds_the_effort_back_until_enter(page: Page, file_url: str) -> None:
    opened(page, file_url + "lever.html")
    say, line = page.locator(".say").first, page.locator(".prediction").first
    button = page.locator("#lever-sheet [data-act=predict]")
    button.click()
    expect(say).to_contain_text("Type your own effort first")
    expect(button).to_have_attribute("aria-pressed", "true")
    page.locator("#lever-E").fill("15")
    expect(say).not_to_contain_text("10.00 lbf")
    page.locator("#lever-E").press("Enter")
    # Law of moments, by hand: 40 x 6 / 24 = 10 lbf.
    expect(line).to_have_text("You predicted 15 lbf; the sheet finds 10.00 lbf. That is 5.00 lbf too high, 50 % off.")
    expect(say).to_contain_text("10.00 lbf")
    expect(page.locator("#lever-E")).to_have_value("")
    page.locator("#lever-R").fill("80")
    expect(line).to_be_hidden()  # it was predicted for another load
