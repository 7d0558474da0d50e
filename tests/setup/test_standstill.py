"""A test is run once more if its browser drew no more frames, and for no other reason."""

import os
import signal
import subprocess
import sys
from pathlib import Path

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


def test_what_failed_for_another_reason_is_not_run_again(root: Path, tmp_path: Path) -> None:
    file = tmp_path / "test_twice.py"
    file.write_text(
        "from tests.standstill import StoodStillError\n"
        "tries = []\n"
        "def test_whose_browser_stood_still_at_first():\n"
        "    tries.append('still')\n"
        "    if tries.count('still') == 1: raise StoodStillError('no frame')\n"
        "def test_that_fails_at_first():\n"
        "    tries.append('wrong')\n"
        "    assert tries.count('wrong') == 2\n"
    )
    command = [sys.executable, "-m", "pytest", "-c", str(root / "pyproject.toml"), "-p", "no:cacheprovider", str(file)]
    done = subprocess.run(command, cwd=root, capture_output=True, text=True, check=False)
    assert "1 failed, 1 passed, 1 rerun" in done.stdout, done.stdout
