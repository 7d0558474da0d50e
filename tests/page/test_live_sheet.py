"""A live sheet in Chromium, from the disk and over http: typing, units, levels, slider, reload, bad input."""

import pytest
from playwright.sync_api import expect

from build_tools.bench.waiting import until

pytestmark = pytest.mark.browser


def test_a_measured_pull_gives_the_efficiency(open_sheet, site_url: str):
    # By hand: 30 lbf up a plank of 96 in to 24 in needs 7.50 lbf ideally; a pull of 16 lbf is 7.5 / 16 = 46.9 %.
    sheet = open_sheet(site_url + "inclined-plane.html", "ramp")
    sheet.fill(E="16")
    sheet.settle()
    assert "46.9 %" in sheet.part(".say").inner_text()
    expect(sheet.row("E")).to_have_class("q is-measured")
    assert sheet.row("E").locator(".q-mark").inner_text() == "measured"
    assert [head.strip() for head in sheet.part(".block thead th").all_inner_texts()] == ["Ideal", "Measured"]


def test_each_keystroke_is_answered(open_sheet, file_url: str):
    # Law of moments, by hand: E = 40 x 6 / 2 = 120 and then 40 x 6 / 20 = 12.
    sheet = open_sheet(file_url + "lever.html", "lever")
    sheet.box("aE").press("Control+a")
    sheet.box("aE").press("2")
    assert sheet.shown("E") == "120.0"
    sheet.box("aE").press("0")
    assert sheet.shown("E") == "12.00"


def test_the_drawing_follows_what_is_typed(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "lever.html", "lever")
    sheet.fill(R="55")
    expect(sheet.part(".machine .is-wide")).to_contain_text("55 lbf")


def test_both_widths_of_the_drawing_follow_for_paper(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "lever.html", "lever")
    sheet.fill(R="55")
    expect(sheet.part(".machine .is-narrow")).to_contain_text("55 lbf", use_inner_text=False, timeout=8000)


def test_units_switched_twice_show_the_first_texts_again(open_sheet, site_url: str):
    # 40 lbf is 177.929 N and 8 ft is 2.4384 m: 1 lbf = 4.4482216152605 N, 1 in = 0.0254 m, exact by definition.
    sheet = open_sheet(site_url + "inclined-plane.html", "ramp")
    sheet.fill(R="40", L="8 ft", h="1 1/2 ft")
    sheet.part("input[value=si]").check()
    expect(sheet.box("R")).to_have_value("177.929")
    expect(sheet.box("L")).to_have_value("2.4384")
    expect(sheet.row("R").locator(".q-unit")).to_have_text("N")
    sheet.part("input[value=us]").check()
    expect(sheet.box("R")).to_have_value("40")
    expect(sheet.box("L")).to_have_value("8 ft")
    expect(sheet.box("h")).to_have_value("1 1/2 ft")


def test_converting_loses_nothing_behind_the_shown_figures(open_sheet, file_url: str):
    # E = R h / L by similar triangles: 7.50 lbf, which is 33.4 N.
    sheet = open_sheet(file_url + "inclined-plane.html", "ramp")
    sheet.part("input[value=si]").check()
    expect(sheet.box("R")).to_have_value("133.447")
    assert sheet.shown("E") == "33.4"
    si = sheet.page.evaluate("key => document.querySelector('calculator-sheet').sheet.request().given.R", sheet.key)
    assert si == "30 lbf"


def test_a_number_typed_after_switching_is_in_the_new_units(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "lever.html", "lever")
    sheet.part("input[value=si]").check()
    expect(sheet.box("R")).to_have_value("177.929")
    sheet.fill(R="100")
    sheet.part("input[value=us]").check()
    expect(sheet.box("R")).to_have_value("22.4809")  # 100 N / 4.4482216152605
    sheet.part("input[value=si]").check()
    expect(sheet.box("R")).to_have_value("100")


def test_start_over_brings_the_example_and_clear_empties_all(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "lever.html", "lever")
    sheet.fill(R="99", E="7")
    sheet.part("[data-act=clear]").click()
    assert {box.input_value() for box in sheet.part(".q input").all()} == {""}
    sheet.part("[data-act=example]").click()
    expect(sheet.box("R")).to_have_value("40")
    expect(sheet.box("E")).to_have_value("")
    assert sheet.shown("E") == "10.00"


def test_the_slider_writes_its_box(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "lever.html", "lever")
    sheet.part(".change select").select_option("aE")
    slider = sheet.part("input[type=range]")
    slider.focus()
    sheet.page.keyboard.press("End")
    high = slider.get_attribute("max")
    expect(sheet.box("aE")).to_have_value(high)
    sheet.page.keyboard.press("ArrowLeft")
    assert float(sheet.box("aE").input_value()) < float(high)
    sheet.page.keyboard.press("Home")
    expect(sheet.box("aE")).to_have_value(slider.get_attribute("min"))
    assert sheet.box("aE").input_value() in slider.get_attribute("aria-valuetext")
    sheet.settle()
    assert "Out of date" not in sheet.part(".machine").inner_text()


def test_a_box_that_cannot_be_read_for_a_while_keeps_the_slider(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "lever.html", "lever")
    quantity = sheet.part(".change select")
    quantity.select_option("aE")
    sheet.fill(aE="twelve")
    expect(quantity.locator("option[value=aE]")).to_have_count(0)
    sheet.fill(aE="12")
    expect(quantity).to_have_value("aE")


def test_travel_moves_the_drawing_and_no_number(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "inclined-plane.html", "ramp")
    before = sheet.part(".say").inner_text()
    sheet.part(".change select").select_option("travel")
    sheet.part("input[type=range]").focus()
    sheet.page.keyboard.press("Home")
    expect(sheet.part(".machine figcaption")).to_contain_text("0 %")
    assert sheet.part(".say").inner_text() == before


def test_a_reload_keeps_what_was_typed(open_sheet, site_url: str):
    sheet = open_sheet(site_url + "inclined-plane.html", "ramp")
    sheet.fill(R="45", E="20")
    sheet.part(".level-2 summary").click()
    sheet.part("input[value=si]").check()
    expect(sheet.box("R")).to_have_value("200.17")
    sheet.page.reload()
    until(sheet.page, "engine.state === 'ready'")
    expect(sheet.box("R")).to_have_value("200.17")
    expect(sheet.part("input[value=si]")).to_be_checked()
    assert sheet.part(".level-2").get_attribute("open") is not None
    sheet.part("input[value=us]").check()
    expect(sheet.box("R")).to_have_value("45")
    expect(sheet.box("E")).to_have_value("20")


def test_the_sheet_works_where_storage_is_forbidden(page, http_url: str):
    # Twice the load of the example, twice its effort.
    page.add_init_script(
        "Object.defineProperty(window, 'sessionStorage', {get() { throw new DOMException('no', 'SecurityError'); }})"
    )
    page.goto(http_url + "lever.html")
    page.locator("#lever-R").fill("80")
    expect(page.locator("#lever-E-value")).to_have_text("20.0", timeout=60_000)


def test_a_box_that_does_not_apply_is_not_shown(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "inclined-plane.html", "ramp")
    sheet.part(".level-3 summary").click()
    expect(sheet.row("delta")).to_be_hidden()
    sheet.part("select[name=pull]").select_option("angled")
    expect(sheet.row("delta")).to_be_visible()


BAD = {
    "negative": ("h", "-24", "negative"),
    "zero": ("h", "0", "zero"),
    "a word": ("h", "tall", "number"),
    "another dimension": ("R", "3 ft", "length"),
    "an unknown unit": ("h", "3 cubits", "unit"),
    "too large": ("R", "1e400", "large"),
    "ten thousand characters": ("R", "9" * 10_000, ""),
    "pasted markup": ("R", "<img src=x onerror=\"document.title='hurt'\">", "number"),
    "a rise longer than the slope": ("h", "120", "longer"),
    "efficiency over 100": ("eta", "130 %", "100 %"),
}


@pytest.mark.parametrize("bad", BAD)
def test_bad_input_gets_a_sentence_at_its_box_and_keeps_the_rest(open_sheet, file_url: str, bad: str):
    symbol, text, wanted = BAD[bad]
    sheet = open_sheet(file_url + "inclined-plane.html", "ramp")
    title = sheet.page.title()
    for level in sheet.part("summary").all():
        level.click()
    kept = {s: sheet.box(s).input_value() for s in ("R", "L", "h") if s != symbol}
    sheet.fill(**{symbol: text})
    error = sheet.row(symbol).locator(".q-error")
    expect(error).to_be_visible()
    assert wanted in error.inner_text()
    assert len(error.inner_text()) < 300
    assert sheet.box(symbol).input_value() == text
    assert sheet.box(symbol).get_attribute("aria-invalid") == "true"
    assert error.get_attribute("id") in sheet.box(symbol).get_attribute("aria-describedby").split()
    assert {s: sheet.box(s).input_value() for s in kept} == kept
    assert sheet.page.title() == title
    assert sheet.part("img").count() == 0
    if symbol != "eta":
        stale = "stale" in sheet.row("E").get_attribute("class")
        assert stale or sheet.shown("E") == ""
    sheet.box(symbol).press("Escape")
    expect(error).to_be_hidden()
    expect(sheet.row("E")).to_have_class("q is-computed")


def test_a_closed_level_says_how_many_boxes_to_mend(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "inclined-plane.html", "ramp")
    sheet.part(".level-3 summary").click()
    sheet.fill(mu="rough")
    expect(sheet.part(".level-3 .level-note")).to_have_text("1 box to mend")


def test_a_half_typed_length_is_not_called_an_error_while_typing(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "inclined-plane.html", "ramp")
    waited = sheet.row("L").evaluate(
        """row => new Promise(resolve => {
          const box = row.querySelector('input'), error = row.querySelector('.q-error');
          box.focus();
          box.value = '8 ft 3-';
          const typed = performance.now();
          new MutationObserver(() => error.hidden || resolve(performance.now() - typed))
            .observe(error, {attributes: true});
          box.dispatchEvent(new InputEvent('input', {bubbles: true}));
        })"""
    )
    assert waited >= 390  # 0.4 s, less a clock's rounding
    sheet.fill(L="8 ft 3-1/2")
    expect(sheet.row("L").locator(".q-error")).to_be_hidden()


def test_kilograms_offer_the_weight(open_sheet, file_url: str):
    # 10 kg weighs 98.0665 N, 22.0462 lbf (g0 = 9.80665 m/s2 and 1 lbf = 4.4482216152605 N, by definition).
    sheet = open_sheet(file_url + "lever.html", "lever")
    sheet.fill(R="10 kg")
    button = sheet.row("R").locator("button")
    expect(button).to_be_visible()
    assert "22.0462 lbf" in button.inner_text()
    button.click()
    expect(sheet.row("R").locator(".q-error")).to_be_hidden()
    assert sheet.box("R").evaluate("box => box === document.activeElement")


def test_the_answer_is_said_once_after_typing_stops(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "lever.html", "lever")
    said = sheet.part("p[role=status]")
    assert said.inner_text() == ""
    sheet.page.evaluate(
        """() => {
          window.said = [];
          const line = document.querySelector('#lever-sheet p[role=status]');
          new MutationObserver(() => window.said.push(line.textContent)).observe(line, {childList: true});
        }"""
    )
    sheet.box("R").press("Control+a")
    for key in "125":
        sheet.box("R").press(key)
        sheet.page.wait_for_timeout(150)
    assert sheet.page.evaluate("said") == []
    expect(said).not_to_be_empty()
    sheet.page.wait_for_timeout(1200)
    assert len(sheet.page.evaluate("said")) == 1


def test_focus_stays_where_the_reader_put_it(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "lever.html", "lever")
    sheet.box("R").focus()
    for text in ("5", "x", "5"):
        sheet.box("R").press(text)
        sheet.page.wait_for_timeout(500)
        assert sheet.box("R").evaluate("box => box === document.activeElement")


def test_a_new_answer_leaves_the_nodes_that_it_does_not_change(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "inclined-plane.html", "ramp")
    sheet.page.evaluate("window.kept = [...document.querySelectorAll('#ramp-sheet .results td')]")
    sheet.fill(R="60")
    sheet.settle()
    expect(sheet.part(".results")).to_contain_text("15.00 lbf")  # by similar triangles: 60 x 24 / 96
    assert sheet.page.evaluate("kept.every(cell => cell.isConnected)")


FRAGMENTS = (
    "<p>Pull <strong>7.50 lbf</strong>.</p>",
    "<p>Pull <strong class='effort'>16.0 lbf</strong>.</p>",
    "<p class='none'>Fill in <em>one</em> more box.</p>",
    "<ol><li>1</li><li>2</li></ol>",
    "<ol><li>1</li><li title='a'>3</li><li>2</li></ol>",
    "<svg viewBox='0 0 2 2'><path class='a' d='M0,0'/><text>a &lt; b</text></svg>",
    "<svg viewBox='0 0 4 2'><text x='1'>a</text><path d='M1,0'/></svg>",
    "text alone",
    "",
)


def test_what_is_renewed_reads_as_if_it_were_written_anew(open_sheet, file_url: str):
    # The second way to the same: the browser's own parser, by innerHTML.
    sheet = open_sheet(file_url + "lever.html", "lever")
    different = sheet.page.evaluate(
        """fragments => {
          const [renewed, anew] = [document.createElement('div'), document.createElement('div')];
          const pairs = fragments.flatMap(before => fragments.map(after => [before, after]));
          return pairs.filter(([before, after]) => {
            renew(renewed, before);
            renew(renewed, after);
            anew.innerHTML = after;
            return !renewed.isEqualNode(anew);
          });
        }""",
        FRAGMENTS,
    )
    assert different == []


def test_under_a_moving_handle_the_drawing_keeps_up(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "lever.html", "lever")
    sheet.part(".change select").select_option("R")
    slider = sheet.part("input[type=range]")
    slider.focus()
    sheet.page.keyboard.press("End")
    expect(sheet.part(".machine .is-wide")).to_contain_text(f"{slider.get_attribute('max')} lbf")
    expect(sheet.part(".working .steps")).to_contain_text(slider.get_attribute("max") or "none")


def test_two_sheets_on_a_page_do_not_disturb_each_other(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "inclined-plane.html", "ramp")
    other = sheet.page.locator("#ramp-shape-L")
    before = other.input_value()
    sheet.fill(R="50", L="80")
    sheet.settle()
    assert other.input_value() == before
    assert sheet.shown("E") == "15.00"  # by hand: 50 x 24 / 80


def test_the_table_of_machines_grows_by_what_is_typed(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "same-work.html", "same-work")
    sheet.fill(IMA_7="12")
    expect(sheet.part(".record tbody tr")).to_have_count(7)


def test_the_arrow_keys_trade_effort_for_distance(open_sheet, file_url: str):
    # By hand: 36 lbf raised 2 ft is 72 ft lbf; at an advantage of 8 that is 4.50 lbf through 16 ft.
    sheet = open_sheet(file_url + "same-work.html", "same-work")
    assert sheet.part(".change select").input_value() == "IMA"
    sheet.part("input[type=range]").focus()
    sheet.page.keyboard.press("End")
    assert sheet.shown("E") == "4.50"
    expect(sheet.part(".machine .is-wide")).to_contain_text("4.50 lbf through 16.00 ft")
    expect(sheet.part(".machine .is-wide")).to_contain_text("work in 72.0 ft·lbf")
    sheet.page.keyboard.press("Home")
    assert sheet.shown("E") == "36.0"
    expect(sheet.part(".machine .is-wide")).to_contain_text("36.0 lbf through 2.00 ft")


def test_the_boxes_of_a_way_come_with_it(open_sheet, file_url: str):
    # By hand: 60 lbf on arms of 6 and 24 in at 95 % takes 60 x 6 / 24 / 0.95 = 15.79 lbf.
    sheet = open_sheet(file_url + "compare.html", "compare")
    expect(sheet.row("aR_1")).to_be_hidden()
    sheet.part("select[name=way_1]").select_option("lever")
    expect(sheet.row("aR_1")).to_be_visible()
    expect(sheet.row("L_1")).to_be_hidden()
    expect(sheet.part(".results thead")).to_contain_text("Way 1: lever")
    expect(sheet.part(".results tbody")).to_contain_text("15.79 lbf")
    sheet.part("select[name=way_3]").select_option("none")
    expect(sheet.part(".results thead th")).to_have_count(2)


def test_what_was_typed_before_the_engine_is_answered_when_it_is_ready(page, file_url: str):
    page.goto(file_url + "lever.html", wait_until="commit")
    page.locator("#lever-R").fill("80")
    expect(page.locator("#lever-E-value")).to_have_text("20.0", timeout=60_000)  # twice the example's load
    expect(page.locator("#lever-sheet .wait")).to_be_hidden()


def test_a_slow_start_is_said_only_to_a_reader_who_has_typed(page, file_url: str):
    never = "{state: 'starting', reason: '', ask: () => new Promise(() => {})}"
    page.add_init_script(f"Object.defineProperty(window, 'engine', {{value: {never}}})")
    page.goto(file_url + "lever.html")
    wait = page.locator("#lever-sheet .wait")
    expect(wait).to_be_hidden()
    page.locator("#lever-R").fill("80")
    expect(wait).to_have_text("Getting the calculator ready…")
    expect(page.locator("#lever-sheet .answer")).to_have_class("answer is-stale")


def test_a_failure_is_said_in_words_and_leaves_the_page_whole(page, file_url: str):
    sentence = "The calculator cannot run here. Use the formula and the worked numbers below."
    page.add_init_script(
        f"""Object.defineProperty(window, 'engine', {{value: {{state: 'failed', reason: {sentence!r},
            ask: () => Promise.reject(new Error({sentence!r}))}}}})"""
    )
    page.goto(file_url + "lever.html")
    sheet = page.locator("#lever-sheet")
    expect(sheet.locator(".wait")).to_have_text(sentence)
    expect(sheet.locator(".say")).to_contain_text("10.00 lbf")
    expect(sheet.locator(".answer")).to_have_class("answer")
    page.locator("#lever-R").fill("80")
    expect(sheet.locator(".wait")).to_contain_text("belong to the worked example")
    sheet.locator("[data-act=example]").click()
    expect(sheet.locator(".answer")).to_have_class("answer")
