"""Every page as a reader may have set browser and system: enlarged, in the system's colours, without motion."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, CDPSession, Page

from tests.page.pages import PAGES

pytestmark = pytest.mark.browser

ZOOMED = {"200 %": (683, 384, 2), "400 %": (342, 192, 4), "320 px": (320, 256, 1)}
"""A window of 1366 by 768 pixels enlarged, and WCAG 2.2's 1.4.10 itself (320 by 256): width, height, pixels for one."""


class Visit:
    """One page after the other in one window, with all that can be opened open."""

    def __init__(self, page: Page, screen: CDPSession, address: str) -> None:
        self.page, self.screen, self.address = page, screen, address

    def go(self, name: str) -> None:
        if not self.page.url.endswith(f"/{name}.html"):
            self.page.goto(f"{self.address}{name}.html", wait_until="domcontentloaded")
            self.page.evaluate("document.querySelectorAll('details').forEach(it => { it.open = true; })")

    def enlarge(self, width: int, height: int, scale: int) -> None:
        size = {"width": width, "height": height, "deviceScaleFactor": scale, "mobile": False}
        self.screen.send("Emulation.setDeviceMetricsOverride", size)
        self.page.evaluate("() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))")


@pytest.fixture(scope="module")
def visit(browser: Browser, file_url: str) -> Iterator[Visit]:
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    page = context.new_page()
    yield Visit(page, context.new_cdp_session(page), file_url)
    context.close()


@pytest.fixture(scope="module", params=PAGES)
def name(request: pytest.FixtureRequest) -> str:
    """All tests of a page in turn, so that it is opened once."""
    return request.param


OUT_OF_SIGHT = """() => {
    const wide = document.documentElement.clientWidth, high = innerHeight, found = [];
    const told = (what, it) => found.push(`${what}: ${it.outerHTML.slice(0, 90)}`);
    const slides = it => {
        for (; it && it !== document.documentElement; it = it.parentElement)
            if (["auto", "scroll"].includes(getComputedStyle(it).overflowX)) return true;
        return false;
    };
    const { scrollWidth } = document.documentElement;
    if (scrollWidth > wide) found.push(`the page is ${scrollWidth} wide`);
    for (const it of document.body.querySelectorAll("*")) {
        if (!it.checkVisibility({ visibilityProperty: true }) || it.closest(".vh, .md-skip, caption, math")) continue;
        const inDrawing = it.closest("svg") && it.localName !== "svg";
        if (inDrawing && it.localName !== "text") continue;
        const box = it.getBoundingClientRect(), look = getComputedStyle(it);
        if (!box.width || !box.height) continue;
        if ((box.right > wide + 1 || box.left < -1) && !slides(it.parentElement)) told("beside the page", it);
        if (inDrawing) continue;
        const cuts = ["hidden", "clip"].includes(look.overflowX) || it.matches("input[type=text]");
        if (cuts && it.scrollWidth > it.clientWidth + 1) told("cut off", it);
        const stays = ["fixed", "sticky"].includes(look.position);
        if (stays && box.width > wide / 2 && box.height > high / 5) told("covers the page", it);
    }
    return found;
}"""


@pytest.mark.parametrize("zoom", ZOOMED)
def test_an_enlarged_page_neither_scrolls_sideways_nor_cuts_nor_covers(visit: Visit, name: str, zoom: str) -> None:
    """WCAG 2.2, 1.4.4 and 1.4.10. Tables and formulas may slide in a box of their own."""
    visit.go(name)
    visit.enlarge(*ZOOMED[zoom])
    assert visit.page.evaluate(OUT_OF_SIGHT) == []


IN_OTHER_COLOURS = """() => {
    const probe = document.createElement("i");
    document.body.append(probe);
    const named = name => { probe.style.color = name; return getComputedStyle(probe).color; };
    const paper = named("Canvas"), ink = named("CanvasText"), link = named("LinkText");
    probe.remove();
    const found = [], seen = it => it.checkVisibility({ visibilityProperty: true });
    const told = (what, it, ...more) => found.push([what, it.outerHTML.slice(0, 90), ...more].join(" "));
    const plain = [paper, ink, "none", "rgba(0, 0, 0, 0)"];
    for (const it of document.querySelectorAll("svg :is(path, line, rect, circle, ellipse, polygon, polyline, text)")) {
        if (!seen(it)) continue;
        const { fill, stroke } = getComputedStyle(it);
        if (!plain.includes(fill) || !plain.includes(stroke)) told("not in the system's colours", it, fill, stroke);
        if (it.localName === "text" && fill !== ink) told("unseen", it, fill);
    }
    for (const it of document.querySelectorAll(":is(button, select, input[type=text])")) {
        if (!seen(it) || it.closest(".md-search")) continue;
        const look = getComputedStyle(it), edge = look.borderBottomStyle !== "none" && look.borderBottomColor !== paper;
        if (!edge || parseFloat(look.borderBottomWidth) < 1) told("without an edge", it);
        if (look.color === look.backgroundColor || look.color === paper) told("unseen words", it);
    }
    for (const it of document.querySelectorAll("input:is([type=radio], [type=checkbox])")) {
        const drawn = getComputedStyle(it).appearance !== "none";
        if (seen(it) && !it.matches(".md-option") && !drawn) told("a toggle that shows no state", it);
    }
    const marked = document.querySelectorAll(".book a[aria-current]");
    for (const it of document.querySelectorAll(".book a")) {
        const here = [...marked].includes(it), drawn = getComputedStyle(it).borderLeftColor === link;
        if (seen(it) && here !== drawn) told("the page that is open cannot be told", it);
    }
    return found;
}"""


def test_the_systems_colours_leave_lines_edges_and_states(visit: Visit, name: str) -> None:
    """WCAG 2.2, 1.4.11, with the colours of CSS Color 4 that forced colours leave: Canvas, CanvasText, LinkText."""
    visit.go(name)
    visit.enlarge(1366, 768, 1)
    visit.page.emulate_media(forced_colors="active")
    found = visit.page.evaluate(IN_OTHER_COLOURS)
    visit.page.emulate_media(forced_colors="none")
    assert found == []


MOVING = """() => {
    const found = [];
    for (const it of document.querySelectorAll("*")) {
        for (const part of [null, "::before", "::after"]) {
            const look = getComputedStyle(it, part);
            const moves = look.animationName === "none" ? "0s" : look.animationDuration;
            const longest = Math.max(...`${look.transitionDuration}, ${moves}`.split(",").map(parseFloat));
            const smooth = look.scrollBehavior === "smooth";
            if (longest > 0.1 || smooth) found.push(`${it.outerHTML.slice(0, 90)} ${part} ${longest} s`);
        }
    }
    return [...found, ...document.getAnimations().map(it => String(it.animationName ?? it.transitionProperty))];
}"""


def test_nothing_moves_for_who_wants_no_motion(visit: Visit, name: str) -> None:
    """WCAG 2.2, 2.3.3. A tenth of a second, as long as a blink, is from memory: the shortest that is seen as motion."""
    visit.go(name)
    visit.page.emulate_media(reduced_motion="reduce")
    found = visit.page.evaluate(MOVING)
    visit.page.emulate_media(reduced_motion="no-preference")
    assert found == []


FOCUS = """() => {
    const focus = document.activeElement, it = focus.matches(".md-option") ? focus.nextElementSibling : focus;
    const look = getComputedStyle(it), head = document.querySelector(".site-head");
    const low = getComputedStyle(head).position === "sticky" ? head.getBoundingClientRect().bottom : 0;
    const box = it.getBoundingClientRect();
    const covered = !head.contains(it) && box.bottom > 0 && box.bottom <= low + 1;
    const outline = look.outlineStyle === "none" ? 0 : parseFloat(look.outlineWidth);
    return { html: it.outerHTML.slice(0, 90), last: it === document.body, covered, outline };
}"""


@pytest.mark.parametrize("page_name", ["inclined-plane", "practice", "planner", "lab-ramp"])
def test_where_the_focus_is_can_be_seen_in_the_systems_colours_and_enlarged(visit: Visit, page_name: str) -> None:
    """WCAG 2.2, 2.4.7 and 2.4.11: a line round it, and no bar over it."""
    visit.go(page_name)
    visit.enlarge(*ZOOMED["200 %"])
    visit.page.emulate_media(forced_colors="active")
    unseen = []
    visit.page.evaluate("document.querySelector('h1').scrollIntoView()")
    for _ in range(45):
        visit.page.keyboard.press("Tab")
        at = visit.page.evaluate(FOCUS)
        if not at["last"] and (at["outline"] < 2 or at["covered"]):
            unseen.append(at)
    visit.page.emulate_media(forced_colors="none")
    assert unseen == []
