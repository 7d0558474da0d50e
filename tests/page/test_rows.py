"""Rows of boxes in a live sheet: one more stands ready than is in use, and columns come and go with the case."""

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser


def lines(sheet):
    return sheet.part(".row[data-row]:not([hidden])")


def test_the_next_row_appears_when_the_last_one_is_used(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "more-levers.html", "loaded-bar")
    expect(lines(sheet)).to_have_count(2)
    sheet.fill(F_2="10")
    expect(lines(sheet)).to_have_count(3)
    # By hand: 40 lbf at 0, 20 lbf at 48 in and 10 lbf at 36 in about 24 in; (40*24 - 20*24 - 10*12)/72 = 5 lbf.
    sheet.fill(x_2="36")
    assert sheet.shown("E") == "5.00"
    sheet.fill(F_2="", x_2="")
    expect(lines(sheet)).to_have_count(2)
    assert sheet.shown("E") == "6.67"


def test_a_wrong_box_in_a_row_says_so_under_its_line(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "more-levers.html", "loaded-bar")
    sheet.fill(F_1="40 kg")
    expect(sheet.row("F_1").locator(".q-error")).to_be_visible()
    box, words = sheet.box("F_1").bounding_box(), sheet.row("F_1").locator(".q-error").bounding_box()
    assert words["y"] > box["y"]
    assert words["width"] > 1.5 * box["width"]


def test_a_column_goes_with_the_case_that_has_it(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "compound.html", "gears-and-belts")
    heads = sheet.part("[data-column]:not([hidden])")
    expect(heads).to_have_count(3)
    sheet.part("select[name=drive]").select_option("belt")
    expect(sheet.part("[data-column=D_a]")).to_be_visible()
    expect(sheet.part("[data-column=N_a]")).to_be_hidden()
    expect(sheet.box("N_a_3")).to_be_hidden()
    sheet.part("input[value=si]").check()
    expect(sheet.part("[data-column=D_a] .unit")).to_have_text("mm")
    sheet.part("select[name=drive]").select_option("gears")


def test_rows_fit_a_phone(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "compound.html", "gears-and-belts")
    size = sheet.page.viewport_size
    sheet.page.set_viewport_size({"width": 340, "height": 800})
    try:
        right = sheet.box("eta_1").bounding_box()
        assert right["x"] + right["width"] <= 340
        assert right["width"] >= 60
    finally:
        sheet.page.set_viewport_size(size)


def test_filled_boxes_change_with_the_choice_and_yield_to_typing(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "compound.html", "chain")
    assert sheet.shown("IMA_1") == "4.62"
    expect(sheet.row("IMA_1")).to_have_class("q is-assumed")
    sheet.part("select[name=preset]").select_option("vise")
    assert sheet.shown("IMA_1") == "15.00"
    sheet.fill(IMA_1="10")
    expect(sheet.row("IMA_1")).to_have_class("q is-typed")
    sheet.part("[data-act=example]").click()
    expect(sheet.part("select[name=preset]")).to_have_value("windlass-tackle")
    assert sheet.shown("IMA_1") == "4.62"
