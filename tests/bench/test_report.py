"""The figures that a run comes to: each the median of its rounds, held to its bar. The readings are invented."""

from pathlib import Path

from build_tools.bench import report
from build_tools.bench.endurance import Endured
from build_tools.bench.others import FirstAnswers
from build_tools.bench.pages import Sites
from build_tools.bench.rounds import Readings, Run
from build_tools.bench.weights import Weights


def a_run() -> Run:
    ours = Readings([200, 900, 220], [40], [70], [150], [140], [12, 16, 40], [28, 32, 56], [30], [60])
    return Run(
        Sites(Path("nowhere")),
        Weights(page=90_000, parts={"wasm": 3_000_000}, ordinary_engine=12_000_000, site=18_000_000, ordinary_site=0),
        disk=Readings([250]),
        server=ours,
        foreign=Readings([500]),
        ordinary=Readings([2000, 2200, 1800], [], [], [160], [150], [20], [30], [50]),
        crowded=Readings(painted=[10, 11, 60], longest_gap=[20, 51, 52]),
        crowded_ordinary=Readings(painted=[20], longest_gap=[30]),
        endured=Endured(fresh=110.0, recalculated=130.0, turned=140.0, again=160.0),
        endured_ordinary=Endured(fresh=130.0, recalculated=150.0),
        others={"Firefox": FirstAnswers([600], [900, 700, 800], [4000])},
        clean_build=[20.0],
        unchanged_build=[0.5],
        changed_page=[1.5, 4.0, 1.6],
        pages_more={0: [5.0], 1: [10.0], 2: [15.0]},
    )


def test_a_figure_is_the_median_of_its_rounds_by_the_baseline_of_the_same_run() -> None:
    figures = {figure.name: figure for figure in report.figures(a_run())}
    first = figures["first live answer, first http visit"]
    assert (first.ours, first.baseline, first.ratio, first.verdict) == (220, 2000, 0.11, "ok")
    firefox = figures["Firefox: first http visit"]
    assert (firefox.ours, firefox.ratio, firefox.verdict) == (800, 0.2, "ok")
    assert figures["a page changed, while serving"].ours == 1.6


def test_keys_on_a_crowded_page_are_held_to_the_bars_of_any_other() -> None:
    figures = {figure.name: figure for figure in report.figures(a_run())}
    middle, tail, busy = (
        figures[f"crowded page: {name}"]
        for name in ("key to number painted, median", "key to number painted, p99", "busy while typing, longest")
    )
    assert (middle.ours, middle.baseline, middle.verdict) == (11, 20, "ok")
    assert tail.ours is not None
    assert 50 < tail.ours <= 60
    assert tail.verdict == "over"
    assert (busy.ours, busy.verdict) == (51, "over")


def test_memory_that_grows_in_a_second_lesson_is_over_its_bar() -> None:
    verdicts = [figure.verdict for figure in report.figures(a_run()) if figure.name.startswith("memory after")]
    assert verdicts == ["ok", "", "over"]


def test_a_browser_that_is_not_there_has_no_figures() -> None:
    run = a_run()
    run.others.clear()
    assert not [figure for figure in report.figures(run) if "Firefox" in figure.name]
