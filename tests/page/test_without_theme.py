"""If the theme or MkDocs ends: a page made by Markdown alone, with our style, scripts and engine, still answers."""

import re
import shutil
from pathlib import Path

import markdown
import pytest
from playwright.sync_api import Browser, expect

from build_tools.bench.waiting import until
from build_tools.content_policy import with_policy

SOURCE = """# Prying

A bar lifts the corner of a planter in the school garden. All of it is invented.

/// calculator | lever
    sheet: 1.1
///
"""
EXTENSIONS = ["attr_list", "md_in_html", "build_tools.calculator_block"]
PAGE = """<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>Prying</title>
<meta name="viewport" content="width=device-width">
<link rel="stylesheet" href="assets/look.css"><script src="assets/engine.js"></script></head>
<body class="md-typeset"><main class="md-grid">{text}</main>
{scripts}</body></html>
"""


@pytest.fixture(scope="module")
def address(root: Path, site: Path, tmp_path_factory: pytest.TempPathFactory) -> str:
    """A folder with one page, our own files as they lie in docs/, and the packed engine; nothing of the theme."""
    folder = tmp_path_factory.mktemp("plain")
    shutil.copytree(root / "docs/assets", folder / "assets")
    (folder / "assets/engine").mkdir()
    for part in (root / "build/engine").glob("*.js"):
        shutil.copy(part, folder / "assets/engine")
    (names,) = re.findall(r'"<calculator-sheet": "([^"]+)"', (root / "build_tools/theme/main.html").read_text("utf-8"))
    scripts = "\n".join(f'<script src="assets/{name}.js" defer></script>' for name in names.split())
    html = PAGE.format(text=markdown.markdown(SOURCE, extensions=EXTENSIONS), scripts=scripts)
    (folder / "page.html").write_text(with_policy(html), "utf-8")
    return (folder / "page.html").as_uri()


def test_a_calculator_answers_on_a_page_without_the_theme(browser: Browser, address: str) -> None:
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    page = context.new_page()
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text) if message.type in ("error", "warning") else None)
    page.on("pageerror", lambda error: said.append(str(error)))
    page.goto(address)
    until(page, "engine.state === 'ready'", 120_000)
    for symbol, text in (("R", "60 lbf"), ("aR", "8 in"), ("aE", "40 in"), ("E", "")):
        page.locator(f'[id="lever-{symbol}"]').fill(text)
    # By hand: 60 lbf times 8 in over 40 in is 12 lbf.
    expect(page.locator('#lever-sheet .q[data-symbol="E"] output')).to_have_text(re.compile(r"^12\.0"), timeout=60_000)
    expect(page.locator("#lever-sheet .say")).to_contain_text("12.0")
    expect(page.locator("#lever-sheet .machine .is-wide svg").first).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= 1366
    box = page.locator("#lever-R").bounding_box()
    assert box["x"] + box["width"] <= page.locator('#lever-sheet .q[data-symbol="R"] .q-unit').bounding_box()["x"]
    assert said == []
    context.close()


def test_without_scripts_the_same_page_is_a_worked_example(browser: Browser, address: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address)
    for part in ("h1", ".machine .is-wide svg", ".say", ".steps math"):
        expect(page.locator(part).first).to_be_visible()
    context.close()
