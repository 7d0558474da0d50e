"""The budget of sizes and counts in build_tools/bench/budget.toml, held by the built site."""

import tomllib
from pathlib import Path

import pytest

from build_tools.bench import weights

BUDGET = tomllib.loads(Path(weights.__file__).with_name("budget.toml").read_text("utf-8"))


@pytest.fixture(scope="module")
def pages(site: Path) -> list[Path]:
    found = sorted(site.rglob("*.html"))
    assert len(found) > 30
    return found


def test_no_page_is_heavier_than_its_budget(pages: list[Path]) -> None:
    allowed = BUDGET["each-page"]
    for page in pages:
        html = page.read_text("utf-8")
        assert page.stat().st_size <= 1000 * allowed["html-kB"], page.name
        assert weights.page_weight(page) <= 1000 * allowed["weight-kB"], page.name
        assert html.count("<script src=") <= allowed["scripts"], page.name
        assert html.count("<") - html.count("</") <= allowed["dom-nodes"], page.name


def test_the_engine_keeps_to_its_budget(site: Path) -> None:
    parts = weights.engine_parts(site)
    first = sum(parts[name] for name in ("parts", "code", "wasm", "snapshot"))
    assert first <= 1e6 * BUDGET["engine"]["before-first-answer-MB"]
    assert sum(parts.values()) <= 1e6 * BUDGET["engine"]["whole-MB"]


def test_the_site_keeps_to_its_budget(site: Path) -> None:
    assert weights.whole(site) <= 1e6 * BUDGET["site"]["whole-MB"]
    assert sum(1 for file in site.rglob("*") if file.is_file()) <= BUDGET["site"]["files"]


def test_no_part_of_the_engine_lies_there_twice(site: Path) -> None:
    names = [script.name.partition(".")[0] for script in (site / "assets/engine").glob("*.js")]
    assert sorted(names) == ["packages", "parts", "rest", "snapshot", "stdlib", "wasm"]
