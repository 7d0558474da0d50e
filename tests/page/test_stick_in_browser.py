"""A copied stick in the browser: it opens from its root, and a page says when a file of the copy is missing."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from build_tools.bench.waiting import until
from build_tools.stick import copying, verifying

SLOW = 60_000


@pytest.fixture(scope="module")
def whole_stick(class_site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    stick = tmp_path_factory.mktemp("a") / "Stick Nº 7"
    stick.mkdir()
    copying.copy(class_site, stick, "Effort and Load")
    return stick


@pytest.fixture
def stick(whole_stick: Path, tmp_path: Path) -> Path:
    return shutil.copytree(whole_stick, tmp_path / "Stick é 8")


def test_a_copied_stick_opens_from_its_root_and_calculates(page: Page, whole_stick: Path) -> None:
    page.goto((whole_stick / "open me.html").as_uri())
    page.wait_for_url("**/effort-and-load/index.html")
    page.locator(".machines a").filter(has_text="Lever").first.click()
    page.wait_for_url("**/lever.html")
    until(page, "engine.state === 'ready'", SLOW)
    page.locator("#lever-R").fill("80")
    expect(page.locator("#lever-sheet .say")).to_contain_text("20.0 lbf")  # 80 * 6 / 24
    expect(page.locator(".missing-file")).to_have_count(0)


@pytest.mark.parametrize("name", ["assets/sheet.js", "assets/look.css", "assets/engine.js"])
def test_a_page_names_a_script_or_style_that_is_missing(page: Page, stick: Path, name: str) -> None:
    (stick / "effort-and-load" / name).unlink()
    page.goto((stick / "effort-and-load/lever.html").as_uri())
    told = page.locator(".missing-file")
    expect(told).to_contain_text(f"A file of this site is missing here: {name}.")
    expect(told).to_contain_text("Copy the site again")
    assert verifying.verify(stick).missing == (f"effort-and-load/{name}",)


@pytest.mark.parametrize("part", ["wasm", "stdlib"])
def test_a_page_tells_when_a_part_of_the_engine_is_missing(page: Page, stick: Path, part: str) -> None:
    assets = stick / "effort-and-load/assets"
    (missing,) = (assets / "engine").glob(f"{part}.*js")
    missing.unlink()
    if part == "stdlib":  # needed only where the memory snapshot does not fit: so that goes too
        next((assets / "engine").glob("snapshot.*")).unlink()
    page.goto((stick / "effort-and-load/lever.html").as_uri())
    expect(page.locator("#lever-sheet .wait")).to_contain_text(
        "is missing or damaged, so it cannot run here", timeout=SLOW
    )
    expect(page.locator("#lever-sheet .say")).to_contain_text("10.00 lbf")  # the worked example stays
