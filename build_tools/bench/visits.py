"""Visits to a page, as a reader makes them: open it, wait for the first answer, type, go to another page."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass

from playwright.sync_api import Browser, Page

from build_tools.bench.waiting import until

FIRST_ANSWER_MS = 120_000
KEYS = tuple(key for digit in "1234567890" * 3 + "12" for key in (digit, "Backspace"))
"""What is typed: a digit more and away again, so that each key makes another number, and none an absurd one."""
BETWEEN_KEYS_MS = (83, 97, 71, 89, 101)
"""Quick typing; no multiple of a frame, so that keys fall anywhere in one."""
POINTING_MS = 150
"""How long the pointer is over a link before the button goes down; a value from memory, and a small one: pointing and
pressing take a second and more."""
PRESS_MS = 100
"""How long a button is held: "The keystroke-level model for user performance time with interactive systems", in the
Communications of the ACM for July 1980, gives 0.1 s to a press or a release. From memory."""
BEFORE_A_VISIT_MS = 1500
"""A fresh profile makes Chromium prepare windows of its own; a reader's browser has done that long before the visit."""


@dataclass(frozen=True)
class Typing:
    """What came of typing, in ms.

    painted: for each key, until its number was painted. next_frame: until the frame after began.
    longest_gap: the longest time in which the page's thread could do nothing else.
    """

    painted: tuple[float, ...]
    next_frame: tuple[float, ...]
    longest_gap: float


@contextmanager
def visit(browser: Browser) -> Iterator[Page]:
    """A page in a fresh profile, with an empty cache."""
    context = browser.new_context()
    try:
        page = context.new_page()
        page.wait_for_timeout(BEFORE_A_VISIT_MS)
        yield page
    finally:
        context.close()


def first_answer(page: Page, address: str, keys: Sequence[str]) -> float:
    """Open the address; ms from the start of the navigation until an answer of one of the calculators is painted."""
    with page.expect_console_message(lambda said: _told(said.text, keys), timeout=FIRST_ANSWER_MS) as said:
        page.goto(address, wait_until="commit")
    return float(said.value.text.split()[2])


def first_answer_of_next_page(page: Page, name: str, keys: Sequence[str], *, by_hand: bool = True) -> float:
    """Click the link to another page; ms from the click until an answer of its calculators is painted.

    by_hand: as a reader does, whose pointer comes over the link first and whose finger holds the button for a while.
    """
    link = page.locator(f'nav a[href$="{name}"]').first
    with page.expect_console_message(lambda said: _told(said.text, keys), timeout=FIRST_ANSWER_MS) as said:
        if by_hand:
            link.hover()
            page.wait_for_timeout(POINTING_MS)
        link.click(delay=PRESS_MS if by_hand else 0)
    return float(said.value.text.split()[2])


def typing(page: Page, box: str, keys: Sequence[str] = KEYS) -> Typing:
    """Type the keys into the box with this id, at the pace of a quick typist."""
    page.focus(f"#{box}")
    page.keyboard.press("End")
    page.evaluate("watch.startTyping()")
    for number, key in enumerate(keys):
        page.keyboard.press(key)
        page.wait_for_timeout(BETWEEN_KEYS_MS[number % len(BETWEEN_KEYS_MS)])
    until(page, "watch.settled()")
    seen = page.evaluate("watch.stopTyping()")
    return Typing(tuple(seen["painted"]), tuple(seen["nextFrame"]), seen["longestGap"])


def open_practice(page: Page) -> None:
    """Open a set of practice problems on the page, at its first one."""
    page.fill("#practice-seat", "7")
    page.click("practice-set [data-act=start]")
    until(page, "document.querySelector('.p-question:not([hidden])')")


def _told(text: str, keys: Sequence[str]) -> bool:
    words = text.split()
    return len(words) == 3 and words[0] == "bench" and words[1] in keys
