"""Waiting in a page whose content policy forbids the browser tool's own way of waiting (it evaluates text there)."""

from __future__ import annotations

import time

from playwright.sync_api import Error, Page

TURNED = "Execution context was destroyed"
"""What the browser tool says when the page was turned while it was being asked."""


def until(page: Page, expression: str, timeout: float = 60_000) -> None:
    """Wait until a JavaScript expression is true in the page. Raises TimeoutError after so many milliseconds."""
    end = time.monotonic() + timeout / 1000
    while not _is_true(page, expression):
        if time.monotonic() > end:
            raise TimeoutError(f"still not true in the page: {expression}")
        page.wait_for_timeout(25)


def _is_true(page: Page, expression: str) -> bool:
    try:
        return bool(page.evaluate(f"Boolean({expression})"))
    except Error as error:
        if TURNED not in str(error):
            raise
        return False
