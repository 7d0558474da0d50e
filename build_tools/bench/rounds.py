"""The rounds of a run: every page is visited once in each, one after the other; then every build done once in each.

What is compared with each other takes turns, so that a machine's moods meet all of it alike.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

from build_tools import chromium
from build_tools.bench import builds, endurance, half_core, planner, tab_memory, visits
from build_tools.bench import others as other_browsers
from build_tools.bench.pages import CROWDED, Sites, calculators_on, lay_out, watch
from build_tools.bench.weights import Weights, weigh
from build_tools.local_server import serving

PAGE = "inclined-plane.html"
BOX = "ramp-R"
NEXT_PAGE = "lever.html"
PAGE_AFTER = "pulley.html"
LESSON = ((PAGE, "ramp"), (NEXT_PAGE, "lever"))
HALF_A_CORE = "Half a core"
SETTLING_MS = 3000
"""Time after the first answer in which a page may finish what it has put off, before its memory is read."""


@dataclass
class Readings:
    """Everything read of one kind of page, or of building, one value a round; keys go on from round to round."""

    first_answer: list[float] = field(default_factory=list)
    next_page: list[float] = field(default_factory=list)
    next_page_at_once: list[float] = field(default_factory=list)
    memory: list[float] = field(default_factory=list)
    memory_collected: list[float] = field(default_factory=list)
    painted: list[float] = field(default_factory=list)
    next_frame: list[float] = field(default_factory=list)
    longest_gap: list[float] = field(default_factory=list)
    plan: list[float] = field(default_factory=list)


@dataclass
class Run:
    """All readings of a run. Times in ms, of builds in s; memory in MB."""

    sites: Sites
    weights: Weights
    chromium: str = ""
    disk: Readings = field(default_factory=Readings)
    server: Readings = field(default_factory=Readings)
    foreign: Readings = field(default_factory=Readings)
    ordinary: Readings = field(default_factory=Readings)
    crowded: Readings = field(default_factory=Readings)
    crowded_ordinary: Readings = field(default_factory=Readings)
    endured: endurance.Endured = field(default_factory=endurance.Endured)
    endured_ordinary: endurance.Endured = field(default_factory=endurance.Endured)
    others: dict[str, other_browsers.FirstAnswers] = field(default_factory=dict)
    clean_build: list[float] = field(default_factory=list)
    unchanged_build: list[float] = field(default_factory=list)
    changed_page: list[float] = field(default_factory=list)
    pages_more: dict[int, list[float]] = field(default_factory=lambda: {0: [], 1: [], 2: []})


def measure(root: Path, rounds: int, say: Callable[[str], None]) -> Run:
    """Measure the project in `root` for so many rounds; `say` hears how far it has come.

    All but the build without changes is measured on a copy, so that the project may go on changing meanwhile.
    """
    project = builds.copy_project(root, root / "build" / "bench" / "project")
    say("Building a copy of the project")
    builds.clean(project)
    sites = lay_out(project, root / "build" / "bench" / "served")
    run = Run(sites, weigh(sites))
    watch(sites)
    with sync_playwright() as playwright, serving(run.sites.folder) as home:
        launch = playwright.chromium.launch
        browser = launch(executable_path=chromium.find_or_install(root), args=list(chromium.LAUNCH))
        run.chromium = browser.version
        for number in range(1, rounds + 1):
            say(f"Pages, round {number} of {rounds}")
            _visit_all(browser, run, home)
        say("A long lesson")
        tab_memory.wait_until_gone(browser)
        run.endured = endurance.lesson(browser, f"{home}{sites.ours.name}/", LESSON, BOX)
        tab_memory.wait_until_gone(browser)
        run.endured_ordinary = endurance.lesson(browser, f"{home}{sites.ordinary.name}/", LESSON[:1], BOX)
        slow = run.others[HALF_A_CORE] = other_browsers.FirstAnswers()
        for number in range(1, rounds + 1):
            say(f"Half a core, round {number} of {rounds}")
            half_core.visit_all(browser, slow, sites, home, PAGE, BOX.split("-")[0])
        browser.close()
        for name, program in other_browsers.found().items():
            run.others[name] = other_browsers.FirstAnswers()
            for number in range(1, rounds + 1):
                say(f"{name}, round {number} of {rounds}")
                other_browsers.visit_all(name, program, run.others[name], sites, home, PAGE)
    for number in range(1, rounds + 1):
        say(f"Builds, round {number} of {rounds}")
        _build_all(root, project, run)
    return run


def _visit_all(browser: Browser, run: Run, home: str) -> None:
    disk = run.sites.ours.as_uri() + "/"
    _visit(browser, run.disk, disk)
    _visit(browser, run.server, f"{home}{run.sites.ours.name}/", typing=True, turns_in=run.sites.ours)
    _visit(browser, run.ordinary, f"{home}{run.sites.ordinary.name}/", typing=True)
    _visit(browser, run.foreign, f"{home}{run.sites.foreign.name}/")
    _type_on_the_crowded(browser, run.crowded, f"{home}{run.sites.ours.name}/")
    _type_on_the_crowded(browser, run.crowded_ordinary, f"{home}{run.sites.ordinary.name}/")
    with visits.visit(browser) as page:
        run.server.plan += planner.answers(page, f"{home}{run.sites.ours.name}/")


def _visit(
    browser: Browser, readings: Readings, address: str, *, typing: bool = False, turns_in: Path | None = None
) -> None:
    tab_memory.wait_until_gone(browser)
    with visits.visit(browser) as page:
        readings.first_answer.append(visits.first_answer(page, address + PAGE, [BOX.split("-")[0]]))
        if typing:
            page.wait_for_timeout(SETTLING_MS)
            _read_memory(browser, readings.memory)
            page.context.new_cdp_session(page).send("HeapProfiler.collectGarbage")
            _read_memory(browser, readings.memory_collected)
            _type(page, readings)
        if turns_in:
            for name, times, by_hand in (
                (NEXT_PAGE, readings.next_page, True),
                (PAGE_AFTER, readings.next_page_at_once, False),
            ):
                keys = calculators_on(turns_in / name)
                times.append(visits.first_answer_of_next_page(page, name, keys, by_hand=by_hand))
                page.wait_for_timeout(SETTLING_MS)


def _type_on_the_crowded(browser: Browser, readings: Readings, address: str) -> None:
    with visits.visit(browser) as page:
        visits.first_answer(page, address + CROWDED, [BOX.split("-")[0]])
        page.wait_for_timeout(SETTLING_MS)
        visits.open_practice(page)
        _type(page, readings)


def _type(page: Page, readings: Readings) -> None:
    typed = visits.typing(page, BOX)
    readings.painted += typed.painted
    readings.next_frame += typed.next_frame
    readings.longest_gap.append(typed.longest_gap)


def _read_memory(browser: Browser, into: list[float]) -> None:
    size = tab_memory.of_page(browser)
    if size is not None:
        into.append(size)


def _build_all(root: Path, project: Path, run: Run) -> None:
    run.clean_build.append(builds.clean(project))
    run.changed_page.append(builds.while_serving(project))
    for times, seconds in run.pages_more.items():
        seconds.append(builds.with_more_pages(project, times))
    run.unchanged_build.append(builds.unchanged(root))
