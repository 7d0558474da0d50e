"""What axe-core, a library by accessibility specialists, finds on an open page."""

from pathlib import Path

from playwright.sync_api import Page

from build_tools.bench.waiting import until

_AXE = Path(__file__).parents[2] / "node_modules/axe-core/axe.min.js"

_RUN = """() => axe.run({ rules: { "target-size": { enabled: true } } })
    .then(result => result.violations.map(it => [it.id, it.nodes.map(n => n.html)]))"""
"""Everything that axe looks for by itself, and WCAG 2.2's 2.5.8 (24 by 24 pixels or room around), which it does not."""


def barriers(page: Page) -> list[tuple[str, list[str]]]:
    """Each violated rule with the elements that violate it, once nothing moves any more."""
    until(page, "document.getAnimations().length === 0")  # the theme's links change colour step by step
    if not page.evaluate("'axe' in window"):
        page.evaluate(_AXE.read_text("utf-8"))
    return page.evaluate(_RUN)
