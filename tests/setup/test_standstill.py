"""What a failed test says of its browser: whether it still drew."""

import os
import signal

from playwright.sync_api import Browser

from tests.standstill import page_that_stands_still


def painter_of(browser: Browser) -> int:
    """The process that puts a browser's frames together."""
    processes = browser.new_browser_cdp_session().send("SystemInfo.getProcessInfo")["processInfo"]
    return next(int(process["id"]) for process in processes if process["type"] == "GPU")


def test_a_page_that_gets_no_frame_is_named(own_browser: Browser) -> None:
    page = own_browser.new_page()
    page.goto("data:text/html,<p>Still here</p>")
    assert page_that_stands_still(own_browser) is None
    painter = painter_of(own_browser)
    os.kill(painter, signal.SIGSTOP)
    try:
        assert page_that_stands_still(own_browser) == page.url
    finally:
        os.kill(painter, signal.SIGCONT)
    assert page_that_stands_still(own_browser) is None


def test_a_page_that_keeps_its_thread_busy_is_not_the_browsers_fault(own_browser: Browser) -> None:
    page = own_browser.new_page()
    page.evaluate("setTimeout(() => { for (const end = Date.now() + 4000; Date.now() < end; ); })")
    assert page_that_stands_still(own_browser) is None
