"""A browser that draws no more frames: on a loaded machine that has happened to one page in thousands.

A page cannot bring that about: while its thread runs what it is told, nothing in it can hold back the next frame. A
test that waited in vain for a click to land there has said nothing about the site, so it is run once more. A page whose
thread is busy, or whose buttons move, is no such page: that failure stays one.
"""

from playwright.sync_api import Browser, Error

FRAME_MS = 2000
TWO_FRAMES = """ms => Promise.race([
  new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(() => drawn(true)))),
  new Promise((ended) => setTimeout(() => ended(false), ms)),
])"""


class StoodStillError(Exception):
    """The browser ran the scripts of a page, and drew no frame of it. The project's test settings name this class."""


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
