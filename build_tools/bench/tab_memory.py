"""What a tab costs: the memory of the process that draws it."""

import time
from pathlib import Path

from playwright.sync_api import Browser


def of_page(browser: Browser) -> float | None:
    """The memory, in MB, of the largest page process of the browser; None where the system does not tell.

    Only what a process does not share with others is counted: memory of no file, swapped out or not.
    """
    found = [private_bytes(pid) for pid in _page_processes(browser)]
    sizes = [size for size in found if size is not None]
    return max(sizes) / 1e6 if sizes else None


def wait_until_gone(browser: Browser, seconds: float = 10.0) -> None:
    """Wait until the processes of closed pages have ended, so that none is taken for the next page's."""
    end = time.monotonic() + seconds
    while _page_processes(browser) and time.monotonic() < end:
        time.sleep(0.05)


def private_bytes(pid: int) -> int | None:
    """The private memory of a process in bytes, as /proc tells it."""
    try:
        lines = Path(f"/proc/{pid}/status").read_text(encoding="ascii", errors="replace").splitlines()
    except OSError:
        return None
    sizes = dict(line.split(":", 1) for line in lines if line.startswith(("RssAnon:", "VmSwap:")))
    if "RssAnon" not in sizes:
        return None
    return sum(int(text.split()[0]) * 1024 for text in sizes.values())


def _page_processes(browser: Browser) -> list[int]:
    session = browser.new_browser_cdp_session()
    try:
        processes = session.send("SystemInfo.getProcessInfo")["processInfo"]
    finally:
        session.detach()
    return [process["id"] for process in processes if process["type"] == "renderer"]
