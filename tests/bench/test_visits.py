"""The pages that are compared answer alike, and what is read of them is there."""

import os
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

import calc
from build_tools.bench import half_core, pages, tab_memory, visits
from build_tools.bench.others import FirstAnswers
from build_tools.bench.waiting import until
from build_tools.local_server import serving

ASK = "request => engine.ask('asked by hand', request)"
PAGE = "inclined-plane.html"


@pytest.fixture(scope="module")
def sites(root: Path, site: Path, tmp_path_factory: pytest.TempPathFactory) -> pages.Sites:
    laid = pages.lay_out(root, tmp_path_factory.mktemp("bench"))
    pages.watch(laid)
    return laid


@pytest.fixture(scope="module")
def home(sites: pages.Sites) -> Iterator[str]:
    with serving(sites.folder) as address:
        yield address


def opened(page: Page, address: str) -> Page:
    assert 0 < visits.first_answer(page, address + PAGE, ["ramp"]) < visits.FIRST_ANSWER_MS
    return page


def answer_to_example(page: Page, key: str) -> object:
    return page.evaluate(ASK, {**calc.example(key, "us"), "draw": "wide"})


def test_the_baseline_answers_as_our_page_does_and_the_same_numbers_come_of_typing(browser: Browser, home: str) -> None:
    seen = {}
    for name in ("site", "ordinary"):
        with visits.visit(browser) as page:
            opened(page, f"{home}{name}/")
            answers = [answer_to_example(page, key) for key in ("ramp", "lever")]
            typed = visits.typing(page, "ramp-R", ["5", "Backspace", "7"])
            assert len(typed.painted) == len(typed.next_frame) == 3
            assert all(0 < now < later for now, later in zip(typed.painted, typed.next_frame, strict=True))
            assert typed.longest_gap > 0
            assert page.input_value("#ramp-R") == "307"
            seen[name] = (answers, page.text_content("#ramp-E-value"), page.text_content(".results"))
    assert seen["site"] == seen["ordinary"]
    assert seen["site"][1] == "76.8"  # 307 lbf by the slope's 96 in over 24 in, by hand: 76.75


@pytest.mark.parametrize("name", ["site", "ordinary"])
def test_the_crowded_page_has_all_of_it_alive(browser: Browser, home: str, name: str) -> None:
    wrong: list[str] = []
    with visits.visit(browser) as page:
        page.on("pageerror", lambda error: wrong.append(str(error)))
        visits.first_answer(page, f"{home}{name}/{pages.CROWDED}", ["ramp"])
        visits.open_practice(page)
        assert "Problem 1 of" in page.inner_text("#practice-question")
        until(page, "document.querySelector('demonstration-planner').planner")
        assert page.locator("calculator-sheet").count() > 3
        typed = visits.typing(page, "ramp-R", ["5", "Backspace", "7"])
        assert len(typed.painted) == 3
        assert page.text_content("#ramp-E-value") == "76.8"
    assert wrong == []


def test_a_snapshot_that_does_not_fit_makes_python_start_the_ordinary_way(browser: Browser, home: str) -> None:
    with visits.visit(browser) as page:
        opened(page, f"{home}foreign/")
        assert not page.evaluate("engine.restored")


def test_the_next_page_is_timed_from_the_click(browser: Browser, home: str, sites: pages.Sites) -> None:
    with visits.visit(browser) as page:
        opened(page, f"{home}site/")
        keys = pages.calculators_on(sites.ours / "lever.html")
        assert "lever" in keys
        assert 0 < visits.first_answer_of_next_page(page, "lever.html", keys) < visits.FIRST_ANSWER_MS
        assert page.url.endswith("lever.html")


def test_the_memory_of_a_page_with_python_is_read_where_the_system_tells(browser: Browser, sites: pages.Sites) -> None:
    with visits.visit(browser) as page:
        opened(page, sites.ours.as_uri() + "/")
        size = tab_memory.of_page(browser)
        assert (size is not None) == Path("/proc/self/status").exists()
        assert size is None or size > 20  # Python's own memory alone is that much


BUSY = "() => { const end = performance.now() + 1000; while (performance.now() < end); }"


def system_has_groups() -> bool:
    """Whether the system lets this process keep others to a part of a core; asked otherwise than the bench asks."""
    first, second = half_core.GROUPS / "cpu", half_core.GROUPS / "cgroup.subtree_control"
    if first.is_dir():
        return os.access(first, os.W_OK) and (first / "cpu.cfs_quota_us").exists()
    return os.access(half_core.GROUPS, os.W_OK) and second.exists() and "cpu" in second.read_text().split()


def test_half_a_core_is_less_than_a_busy_page_asks_for(own_browser: Browser) -> None:
    for _ in range(2):  # the first time leaves nothing behind
        held_back, members = 0, []
        with half_core.kept_to_half_a_core(own_browser) as group, visits.visit(own_browser) as page:
            page.evaluate(BUSY)
            if group:
                seen = dict(line.split() for line in (group / "cpu.stat").read_text().splitlines())
                held_back = int(seen["nr_throttled"])
                members = (group / half_core.MEMBERS).read_text().split()
                assert {len(cores) for cores in cores_of(members)} == {1}
        assert (held_back > 10) is system_has_groups()
        assert set(cores_of(members)) == ({frozenset(os.sched_getaffinity(0))} if members else set())


def cores_of(processes: list[str]) -> Iterator[frozenset[int]]:
    """The cores that each thread of the processes may run on, as far as they still do."""
    for process in processes:
        for task in Path("/proc").glob(f"{process}/task/*"):
            with suppress(ProcessLookupError):
                yield frozenset(os.sched_getaffinity(int(task.name)))


def test_without_such_groups_there_are_no_times_of_half_a_core(
    browser: Browser, sites: pages.Sites, home: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(half_core, "GROUPS", tmp_path / "nowhere")
    read = FirstAnswers()
    half_core.visit_all(browser, read, sites, home, PAGE, "ramp")
    assert read == FirstAnswers()
