"""The record sheet in the browser: typed by keyboard, kept, undone, saved, opened, printed; and the plan above it."""

import csv
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

import calc
from build_tools.bench.waiting import until
from tests.page.pages import PAGES

pytestmark = pytest.mark.browser

LABS = {
    key: name
    for name in PAGES
    if name.startswith("lab-")
    for key in re.findall(
        r"^/// record \| ([a-z-]+)$",
        (Path(__file__).parents[2] / "docs" / f"{name}.md").read_text("utf-8"),
        re.M,
    )
}


@pytest.fixture(scope="module")
def shared(browser: Browser, file_url: str) -> Iterator[Page]:
    """One page of the ramp's lab, its engine started once."""
    context = browser.new_context(viewport={"width": 1366, "height": 768}, accept_downloads=True)
    page = context.new_page()
    page.goto(file_url + "lab-ramp.html")
    until(page, "engine.state === 'ready'", 60_000)
    yield page
    context.close()


@pytest.fixture
def lab(shared: Page) -> Page:
    """The sheet as a first visit shows it."""
    shared.evaluate("sessionStorage.clear(); localStorage.clear()")
    shared.locator("record-sheet [data-act=clear]").click()
    settle(shared)
    return shared


def settle(page: Page) -> None:
    """Waits until everything asked so far is answered and shown."""
    page.wait_for_timeout(350)  # the sheet's own pause before it asks
    page.evaluate("engine.ask('settle', {record: 'no-lab'}).then(() => new Promise(requestAnimationFrame))")


def cell(page: Page, row: int, name: str):
    return page.locator(f"record-sheet tr[data-row='{row}'] [name={name}]")


def fill(page: Page, efforts: tuple[str, ...] = ("12.5", "13", "12.5", "12", "13")) -> None:
    page.locator("#ramp-lab-once-L").fill("96")
    page.locator("#ramp-lab-once-h").fill("24")
    for row, text in enumerate(efforts, 1):
        cell(page, row, "R").fill("36")
        cell(page, row, "E").fill(text)
    settle(page)


def verdict(page: Page):
    return page.locator("record-sheet .r-verdict")


def test_every_lab_has_a_page() -> None:
    assert set(LABS) == set(calc.labs())


def test_a_sheet_is_filled_in_by_keyboard_alone(lab: Page) -> None:
    """By hand: 36 lbf over a mean of 12.6 lbf is 2.86, over 96/24 = 4 is 71.4 %."""
    lab.locator("#ramp-lab-once-L").focus()
    lab.keyboard.type("8 ft")
    for _ in range(40):
        lab.keyboard.press("Tab")
        if lab.evaluate("document.activeElement.name") == "h":
            break
    lab.keyboard.type("2 ft")
    for _ in range(40):
        lab.keyboard.press("Tab")
        if lab.evaluate("document.activeElement.name") == "R":
            break
    lab.keyboard.type("36")
    lab.keyboard.press("ArrowRight")
    for text in ("12.5", "13", "12.5", "12", "13"):
        lab.keyboard.type(text)
        lab.keyboard.press("Enter")
    settle(lab)
    expect(verdict(lab)).to_contain_text("71.4 ±")
    expect(cell(lab, 5, "E")).to_have_value("13")
    assert lab.evaluate("document.activeElement.closest('tr').dataset.row") == "6"
    lab.wait_for_timeout(1000)
    expect(lab.locator("record-sheet p[role=status]")).to_contain_text("friction")


def test_a_block_from_a_spreadsheet_is_pasted_and_taken_back(lab: Page) -> None:
    lab.locator("#ramp-lab-once-L").fill("96")
    lab.locator("#ramp-lab-once-h").fill("24")
    cell(lab, 1, "R").focus()
    lines = "\\r\\n".join(["36\\t12.5"] * 12)
    lab.evaluate(
        f"""() => {{ const data = new DataTransfer(); data.setData("text/plain", "{lines}");
                    document.activeElement.dispatchEvent(
                      new ClipboardEvent("paste", {{ clipboardData: data, bubbles: true, cancelable: true }})); }}"""
    )
    settle(lab)
    expect(cell(lab, 12, "E")).to_have_value("12.5")  # more rows than the sheet began with
    expect(verdict(lab)).to_contain_text("friction")
    lab.keyboard.press("Control+z")
    settle(lab)
    expect(cell(lab, 1, "R")).to_have_value("")
    expect(cell(lab, 12, "E")).to_have_value("")
    expect(lab.locator("#ramp-lab-once-L")).to_have_value("96")


def test_a_sheet_survives_a_reload_and_stays_only_if_asked(browser: Browser, file_url: str) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.goto(file_url + "lab-ramp.html")
    cell(page, 1, "E").fill("12.5")
    page.reload()
    expect(cell(page, 1, "E")).to_have_value("12.5")
    other = context.new_page()
    other.goto(file_url + "lab-ramp.html")
    expect(cell(other, 1, "E")).to_have_value("")
    page.locator("[name=keep]").check()
    other.reload()
    expect(cell(other, 1, "E")).to_have_value("12.5")
    page.locator("record-sheet [data-act=clear]").click()
    expect(cell(page, 1, "E")).to_have_value("")
    last = context.new_page()
    last.goto(file_url + "lab-ramp.html")
    expect(cell(last, 1, "E")).to_have_value("")
    context.close()


def test_clearing_can_be_taken_back(lab: Page) -> None:
    fill(lab)
    lab.locator("record-sheet [data-act=clear]").click()
    settle(lab)
    expect(cell(lab, 1, "E")).to_have_value("")
    lab.locator("record-sheet [data-act=undo]").click()
    settle(lab)
    expect(cell(lab, 1, "E")).to_have_value("12.5")
    expect(verdict(lab)).to_contain_text("71.4 ±")


def test_a_sheet_is_saved_and_opened_again(lab: Page, tmp_path: Path) -> None:
    fill(lab)
    cell(lab, 1, "note").fill("=1+1")
    lab.locator("[name=group]").fill("3")
    with lab.expect_download() as saving:
        lab.locator("record-sheet [data-act=save]").click()
    assert saving.value.suggested_filename == "ramp-lab-group-3.csv"
    saving.value.save_as(file := tmp_path / "sheet.csv")
    cells = [text for line in csv.reader(file.open(newline="", encoding="utf-8")) for text in line]
    assert "'=1+1" in cells  # a spreadsheet would run it
    lab.locator("record-sheet [data-act=clear]").click()
    lab.locator("record-sheet input[type=file]").set_input_files(file)
    settle(lab)
    expect(cell(lab, 1, "note")).to_have_value("=1+1")
    expect(cell(lab, 5, "E")).to_have_value("13")
    expect(verdict(lab)).to_contain_text("71.4 ±")


@pytest.mark.parametrize(
    ("name", "content", "said"),
    [
        ("words.csv", b"just words\n", "no line that starts with"),
        ("picture.csv", b"\x89PNG\r\n\x1a\n\xff\xfe", "not a text file"),
        ("other.csv", b"record,lever-lab\ntrial,R (lbf),E (lbf)\n1,40,10\n", "belongs to another sheet"),
        ("bad.csv", b"trial,R (lbf),E (lbf)\n1,36,twelve\n2,36,13\n", "Line 2, column 3"),
        ("large.csv", b"x" * 2_000_001, "too large"),
    ],
)
def test_a_bad_file_is_named_and_takes_nothing_away(lab: Page, name: str, content: bytes, said: str) -> None:
    fill(lab, ("14",))
    lab.locator("record-sheet input[type=file]").set_input_files(
        {"name": name, "mimeType": "text/csv", "buffer": content}
    )
    settle(lab)
    expect(lab.locator("record-sheet .wait")).to_contain_text(said)
    if name == "bad.csv":  # its good row is there, and the old sheet comes back with one press
        expect(cell(lab, 2, "E")).to_have_value("13")
        lab.locator("record-sheet [data-act=undo]").click()
        settle(lab)
    expect(cell(lab, 1, "E")).to_have_value("14")


def test_a_cell_that_can_not_be_read_is_told_and_mended_with_one_press(lab: Page) -> None:
    fill(lab, ("12.5", "55.6 N"))
    expect(cell(lab, 2, "E")).to_have_attribute("aria-invalid", "true")
    expect(lab.locator("record-sheet .r-errors")).to_contain_text("Trial 2, Effort, moving")
    lab.locator("record-sheet .r-errors button").click()
    settle(lab)
    expect(cell(lab, 2, "E")).to_have_value("12.5")
    expect(lab.locator("record-sheet .r-errors")).to_be_hidden()


def test_axe_finds_nothing_on_a_filled_sheet(lab: Page, root: Path) -> None:
    fill(lab, ("12.5", "13", "12,5", "12"))
    for part in lab.locator("summary").all():
        if not part.evaluate("it => it.parentElement.open"):
            part.click()
    for width in (1366, 390):
        lab.set_viewport_size({"width": width, "height": 844})
        lab.evaluate((root / "node_modules/axe-core/axe.min.js").read_text("utf-8"))
        found = lab.evaluate(
            "axe.run().then(result => result.violations.map(it => [it.id, it.nodes.map(n => n.html)]))"
        )
        assert found == []
        assert lab.evaluate("document.documentElement.scrollWidth") <= width
    lab.set_viewport_size({"width": 1366, "height": 768})


@pytest.mark.parametrize("key", LABS)
def test_without_scripts_a_lab_is_complete_on_paper_and_screen(browser: Browser, file_url: str, key: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{file_url}{LABS[key]}.html")
    for part in ("h1", ".caution", ".r-table", ".r-verdict p", ".r-results table"):
        expect(page.locator(part).first).to_be_visible()
    if key != "any-lab":
        for part in (".p-steps li", ".p-questions li", ".p-draw svg:visible", ".p-teacher summary"):
            expect(page.locator(part).first).to_be_visible()
        expect(page.locator(".p-teacher table")).to_be_hidden()
    for dead in page.locator(".acts button, .switch input, [name=keep]").all():
        expect(dead).to_be_hidden()
    context.close()


def pages_of(pdf: bytes) -> int:
    return len(re.findall(rb"/Type\s*/Page\b", pdf))


@pytest.mark.parametrize("key", LABS)
def test_plan_and_sheet_fit_one_page_each(browser: Browser, file_url: str, key: str) -> None:
    """The plan with the teacher's part closed and open, the sheet blank and filled in, on both papers."""
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    page = context.new_page()
    page.goto(f"{file_url}{LABS[key]}.html")
    until(page, "engine.state === 'ready'", 60_000)
    page.evaluate("() => { window.print = () => {}; }")

    def printed(part: str, paper: str) -> int:
        page.locator(f"{part} [data-act=print]").click()
        return pages_of(page.pdf(format=paper))  # the print button's state ends with the printing

    counts = {}
    for paper in ("Letter", "A4"):
        counts["sheet, blank", paper] = printed("record-sheet", paper)
        if key != "any-lab":
            counts["plan", paper] = printed("lab-plan", paper)
    if key != "any-lab":
        assert pages_of(page.pdf()) == 3  # all of the page: the plan, the sheet, the questions to answer in writing
    page.locator("record-sheet [data-act=sample]").click()
    settle(page)
    expect(page.locator("record-sheet .r-plots svg").first).to_be_attached()
    for paper in ("Letter", "A4"):
        counts["sheet, filled in", paper] = printed("record-sheet", paper)
    page.locator("[name=predict]").check()
    page.locator("[name=prediction]").fill("9")
    page.locator("[name=prediction]").press("Enter")
    expect(page.locator("record-sheet .prediction")).to_contain_text("You predicted 9")
    settle(page)
    for paper in ("Letter", "A4"):
        counts["sheet, with a prediction", paper] = printed("record-sheet", paper)
    assert set(counts.values()) == {1}, counts
    context.close()


def test_the_teachers_numbers_are_on_paper_only_if_opened(shared: Page) -> None:
    table = shared.locator(".p-teacher table")
    summary = shared.locator(".p-teacher summary")
    if shared.locator(".p-teacher").evaluate("it => it.open"):
        summary.click()
    shared.emulate_media(media="print")
    shared.locator(".p-teacher").evaluate("it => { it.open = true; }")  # as the theme does for paper
    expect(table).to_be_hidden()
    shared.locator(".p-teacher").evaluate("it => { it.open = false; }")
    shared.emulate_media(media="screen")
    summary.click()
    shared.emulate_media(media="print")
    expect(table).to_be_visible()
    shared.emulate_media(media="null")
    summary.click()


def results(page: Page):
    return page.locator("record-sheet .r-results")


def test_predicting_first_holds_all_results_back_until_a_number_is_given(lab: Page) -> None:
    """By hand: the mean of 12, 12.5, 12 and 11.5 is 12 lbf; 9 is a quarter less."""
    expect(lab.locator("[name=predict]")).not_to_be_checked()
    expect(results(lab)).to_be_visible()
    lab.locator("[name=predict]").check()
    box = lab.locator("[name=prediction]")
    expect(box).to_be_focused()
    expect(results(lab)).to_be_hidden()
    expect(cell(lab, 1, "E")).to_have_attribute("placeholder", "")  # the invented effort would give it away
    fill(lab, ("12", "12.5", "12", "11.5"))
    expect(results(lab)).to_be_hidden()
    expect(verdict(lab)).to_have_text("")
    expect(lab.locator("record-sheet tr[data-row='1'] .r-ama")).to_have_text("")
    expect(lab.locator("record-sheet .r-plots svg:visible")).to_have_count(0)
    box.fill("what")
    box.press("Enter")
    expect(lab.locator("#ramp-lab-prediction-error")).to_contain_text("what")
    expect(box).to_have_value("what")
    expect(results(lab)).to_be_hidden()
    box.fill("9")
    box.press("Enter")
    expect(lab.locator("record-sheet .prediction")).to_have_text(
        "You predicted 9 lbf; the mean of your 4 pulls is 12.00 lbf. That is 3.00 lbf too low, 25 % off."
    )
    expect(results(lab)).to_be_visible()
    expect(box).to_be_hidden()
    lab.reload()
    expect(lab.locator("record-sheet .prediction")).to_contain_text("25 % off", timeout=60_000)
    lab.evaluate("() => { window.print = () => {}; }")
    lab.locator("record-sheet [data-act=print]").click()
    assert pages_of(lab.pdf(format="Letter")) == 1
    lab.locator("[name=predict]").uncheck()
    expect(lab.locator("record-sheet .prediction")).to_be_hidden()


def test_a_blank_printed_sheet_has_a_line_for_the_prediction_above_the_readings(lab: Page) -> None:
    line = lab.locator("record-sheet .r-guess")
    expect(line).to_be_hidden()
    lab.emulate_media(media="print")
    expect(line).to_be_visible()
    assert line.bounding_box()["y"] < lab.locator("record-sheet .r-table").bounding_box()["y"]
    assert line.locator("span").bounding_box()["width"] > 96  # an inch to write in
    lab.emulate_media(media="null")
    fill(lab, ("12",))
    lab.emulate_media(media="print")
    expect(line).to_be_hidden()  # what was typed stands there instead
    lab.emulate_media(media="null")


def test_who_declines_to_predict_sees_the_results(lab: Page) -> None:
    lab.locator("[name=predict]").check()
    fill(lab)
    expect(results(lab)).to_be_hidden()
    lab.get_by_role("button", name="Show the results without it").click()
    expect(results(lab)).to_be_visible()
    expect(verdict(lab)).to_contain_text("71.4 ±")
    expect(lab.locator("record-sheet .prediction")).to_be_hidden()
    lab.locator("[name=predict]").uncheck()


def test_a_link_can_ask_for_a_prediction_and_says_so(lab: Page, file_url: str) -> None:
    lab.locator("[name=predict]").check()
    lab.locator("record-sheet [data-act=share]").click()
    expect(lab.locator("record-sheet .share-holds")).to_contain_text("prediction first")
    link = lab.locator("record-sheet .copied input").input_value()
    assert link.endswith("&hide=E")
    lab.locator("[name=predict]").uncheck()
    other = lab.context.new_page()
    other.goto(link)
    expect(other.locator("[name=predict]")).to_be_checked()
    expect(results(other)).to_be_hidden()
    until(other, "engine.state === 'ready'", 60_000)
    fill(other)
    expect(results(other)).to_be_hidden()
    other.close()


def test_a_link_that_this_sheet_can_not_follow_whole_says_what_is_left_out(lab: Page) -> None:
    def opened(fragment: str) -> None:
        lab.evaluate("fragment => { location.hash = fragment; }", "c=ramp-lab&v=1")  # the same address opens nothing
        lab.evaluate("fragment => { location.hash = fragment; }", fragment)
        settle(lab)

    said = lab.locator("record-sheet .wait")
    opened("c=ramp-lab&v=1&u=us&L=90_in&unit=N")
    expect(lab.locator("#ramp-lab-once-L")).to_have_value("90 in")
    expect(said).to_be_hidden()
    opened("c=ramp-lab&v=2&u=us&L=80_in&unit=stone&E=12&width=3")
    expect(lab.locator("#ramp-lab-once-L")).to_have_value("80 in")
    for words in ("another version of this site", "no “stone” here", "fills no “E” in", "fills no “width” in"):
        expect(said).to_contain_text(words)
    lab.locator("record-sheet [data-act=clear]").click()
    settle(lab)
    expect(said).not_to_contain_text("another version")


def test_a_prediction_is_cleared_and_taken_back_with_the_sheet(lab: Page) -> None:
    lab.locator("[name=predict]").check()
    fill(lab, ("12",))
    lab.locator("[name=prediction]").fill("9")
    lab.get_by_role("button", name="That is my prediction").click()
    expect(lab.locator("record-sheet .prediction")).to_contain_text("25 % off")
    lab.locator("record-sheet [data-act=clear]").click()
    expect(lab.locator("record-sheet .prediction")).to_be_hidden()
    expect(lab.locator("[name=prediction]")).to_have_value("")
    expect(lab.locator("[name=prediction]")).to_be_visible()  # the sheet still asks for one
    lab.locator("record-sheet [data-act=undo]").click()
    expect(lab.locator("record-sheet .prediction")).to_contain_text("25 % off")
    lab.locator("[name=predict]").uncheck()
