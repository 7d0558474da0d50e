"""The calculator block: Markdown in, HTML out, in plain Python-Markdown without the site's theme."""

import html5lib
import markdown
import pytest

import calc
from build_tools.calculator_block import CalculatorBlockError, box_symbols

KEYS = calc.keys()
LEVER = "/// calculator | lever\n    sheet: 1.1\n///\n"


def rendered(text: str, *more: str) -> str:
    return markdown.markdown(text, extensions=["build_tools.calculator_block", *more])


def tree(html: str):
    return html5lib.parse(html, treebuilder="etree", namespaceHTMLElements=False)


def test_a_block_becomes_a_whole_worked_sheet():
    page = tree(rendered(LEVER))
    (sheet,) = page.iter("calculator-sheet")
    assert sheet.get("key") == "lever"
    inputs = {
        box.get("name"): box.get("value")
        for box in sheet.iter("input")
        if box.get("type") == "text" and box.get("name")
    }
    assert inputs == {
        symbol: calc.example("lever", "us")["given"].get(symbol, "") for symbol in box_symbols(calc.describe("lever"))
    }
    classes = [part.get("class") for part in sheet.iter()]
    for wanted in ("machine", "quantities", "answer", "working"):
        assert wanted in classes


def test_every_calculator_has_a_sheet():
    for key in KEYS:
        assert f'id="{key}-sheet"' in rendered(f"/// calculator | {key}\n///\n")


def test_every_box_has_a_label_and_a_description_that_exist():
    for key in KEYS:
        page = tree(rendered(f"/// calculator | {key}\n///\n"))
        ids = {part.get("id") for part in page.iter()}
        labelled = {label.get("for") for label in page.iter("label")}
        for box in (*page.iter("input"), *page.iter("select")):
            if box.get("type") == "radio":
                continue  # its label is around it
            assert box.get("id") in labelled
            assert set(box.get("aria-describedby", "").split()) <= ids


def test_text_around_a_block_stays_markdown():
    html = rendered(f"Before *it*.\n\n{LEVER}\nAfter **it**.")
    assert "Before <em>it</em>." in html
    assert "After <strong>it</strong>." in html


def test_the_sheet_stands_in_the_table_of_contents():
    parser = markdown.Markdown(extensions=["build_tools.calculator_block", "toc"])
    parser.convert(f"# Lever\n\n{LEVER}")
    (page,) = parser.toc_tokens
    assert [token["name"] for token in page["children"]] == [calc.describe("lever")["title"]]
    assert page["children"][0]["id"] == "lever-title"


def test_the_sheet_number_stands_before_the_title():
    assert '<span class="sheet-no">Sheet 1.1</span> Two-arm lever' in rendered(LEVER)


def test_units_choose_the_example_of_that_system():
    page = tree(rendered("/// calculator | lever\n    units: si\n///\n"))
    load = next(box for box in page.iter("input") if box.get("name") == "R")
    assert load.get("value") == calc.example("lever", "si")["given"]["R"]
    assert (load.get("data-us"), load.get("data-si")) == ("40", "180")


def test_levels_stand_open_when_asked():
    page = tree(rendered("/// calculator | ramp\n    levels: 3\n///\n"))
    assert {part.get("data-level"): part.get("open") is not None for part in page.iter("details")} == {
        "2": False,
        "3": True,
    }


def test_given_lays_other_numbers_over_the_example():
    # Law of moments: 60 lbf at 6 in balances 15 lbf at 24 in (60 x 6 = 15 x 24, by hand).
    page = tree(rendered("/// calculator | lever\n    given:\n        R: 60 lbf\n///\n"))
    rows = {row.get("data-symbol"): row for row in page.iter("div") if row.get("data-symbol")}
    assert rows["R"].find(".//input").get("value") == "60 lbf"
    assert rows["E"].find(".//output").text == "15.00"


def test_a_box_in_error_says_so_on_the_printed_page_too():
    page = tree(rendered("/// calculator | lever\n    given:\n        aR: '-6'\n///\n"))
    row = next(row for row in page.iter("div") if row.get("data-symbol") == "aR")
    assert row.get("class") == "q is-error"
    assert row.find(".//input").get("aria-invalid") == "true"


def test_what_is_given_is_text_and_never_markup():
    html = rendered("/// calculator | lever\n    given:\n        R: '<img src=x onerror=alert(1)>'\n///\n")
    assert "<img" not in html


def test_an_unknown_key_stops_the_build_and_names_those_there_are():
    with pytest.raises(CalculatorBlockError, match=r"no calculator 'levr'.*lever.*ramp"):
        rendered("/// calculator | levr\n///\n")


def test_an_unknown_box_stops_the_build():
    with pytest.raises(CalculatorBlockError, match=r"'lever' has no box 'Q'"):
        rendered("/// calculator | lever\n    given:\n        Q: 3\n///\n")


def test_one_calculator_twice_on_a_page_stops_the_build():
    with pytest.raises(CalculatorBlockError, match="twice"):
        rendered(LEVER + "\n" + LEVER)


@pytest.mark.parametrize(
    "options",
    ["units: imperial", "sheet: first", "levels: 4", "given: 40 lbf", "colour: red", "units: [us"],
)
def test_an_option_that_cannot_be_read_stops_the_build(options: str):
    with pytest.raises(CalculatorBlockError, match="could not be read"):
        rendered(f"/// calculator | lever\n    {options}\n///\n")


def test_a_block_without_a_key_stops_the_build():
    with pytest.raises(CalculatorBlockError, match="could not be read"):
        rendered("/// calculator\n///\n")


def shown_rows(sheet) -> list[str]:
    return [row.get("data-row") for row in sheet.iter("div") if row.get("data-row") and row.get("hidden") is None]


def test_one_empty_row_stands_ready_behind_those_in_use():
    page = tree(rendered("/// calculator | loaded-bar\n///\n"))
    assert shown_rows(page) == ["1", "2"]
    assert shown_rows(tree(rendered("/// calculator | same-work\n///\n"))) == [str(row) for row in range(1, 8)]


def test_rows_of_several_boxes_have_one_head_and_every_box_its_label():
    page = tree(rendered("/// calculator | gears-and-belts\n///\n"))
    (group,) = (part for part in page.iter("fieldset") if part.get("data-rows"))
    heads = [part for part in group.iter("span") if part.get("data-column")]
    shown = [head.get("data-column") for head in heads if head.get("hidden") is None]
    assert shown == ["N_a", "N_b", "eta"]
    assert group.get("data-columns") == "3"
    labels = {label.get("for"): "".join(label.itertext()) for label in group.iter("label")}
    assert labels["gears-and-belts-N_b_2"] == "Driven teeth 2"
    hidden = [
        part.get("data-symbol")
        for part in group.iter("div")
        if part.get("hidden") is not None and part.get("data-symbol")
    ]
    assert {"D_a_1", "D_b_1", "D_a_5"} <= set(hidden)


def test_what_is_only_calculated_says_so():
    assert "never set it up in class" in rendered("/// calculator | chain-hoist\n///\n")


def test_a_choice_stands_above_the_box_that_it_belongs_to():
    page = tree(rendered("/// calculator | compare\n///\n"))
    names = [part.get("name") for part in page.iter() if part.tag in ("input", "select") and part.get("name")]
    assert names.index("h") < names.index("way_1") == names.index("L_1") - 1
    assert names.index("L_1") < names.index("way_2") == names.index("L_2") - 1
