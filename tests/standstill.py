"""Whether a browser still draws the pages that it has open.

The browser tool clicks only after two frames of a page, and does not say which it waited for in vain: a page that keeps
its thread busy, or a browser that draws nothing though the page answers.
"""

from playwright.sync_api import Browser, Error

FRAME_MS = 2000
TWO_FRAMES = """ms => Promise.race([
  new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(() => drawn(true)))),
  new Promise((ended) => setTimeout(() => ended(false), ms)),
])"""


def page_that_stands_still(browser: Browser) -> str | None:
    """The address of an open page whose scripts run and that gets no frame, if there is one."""
    for page in [page for context in browser.contexts for page in context.pages]:
        try:
            page.locator("html").wait_for(state="attached", timeout=FRAME_MS)
            if not page.evaluate(TWO_FRAMES, FRAME_MS):
                return page.url
        except Error:
            continue  # it crashed, keeps its thread busy, or is just being turned
    return None
