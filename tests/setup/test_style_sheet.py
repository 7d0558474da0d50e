"""The style sheet that travels says what the one in docs/ says, in fewer bytes."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from build_tools.site_hooks import without_comments


def test_spaces_and_comments_go_and_strings_stay():
    assert without_comments('/* x */ a { content: "x ;  y: z" ; b: c }') == 'a{content:"x ;  y: z";b:c}\n'
    assert without_comments(".d > .e :is(f, g) {\n  margin: 0;\n}\n") == ".d > .e :is(f,g){margin:0}\n"


@pytest.mark.browser
@pytest.mark.parametrize("name", ["look", "plan", "planner", "practice"])
def test_a_browser_reads_the_same_rules_in_both(browser: Browser, root: Path, name: str):
    page = browser.new_page()
    css = (root / f"docs/assets/{name}.css").read_text("utf-8")
    rules = [
        page.evaluate(
            "css => { const s = new CSSStyleSheet(); s.replaceSync(css); return [...s.cssRules].map(r => r.cssText); }",
            text,
        )
        for text in (css, without_comments(css))
    ]
    assert len(rules[0]) > 10
    # a value with a variable in it is told back as it was written, spaces and all
    assert [re.sub(r"\s*,\s*", ",", rule) for rule in rules[0]] == [re.sub(r"\s*,\s*", ",", rule) for rule in rules[1]]
    page.close()
