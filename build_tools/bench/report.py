"""The figures that a run comes to, with the bars that the site is held to."""

from collections.abc import Iterator, Sequence
from statistics import median

from build_tools.bench import builds, endurance, planner
from build_tools.bench.figures import Bar, Figure
from build_tools.bench.rounds import Readings, Run
from build_tools.bench.spread import percentile

FIRST_ANSWER = Bar(0.15)
OTHERS = Bar(0.2)
FALLBACK = Bar(0.5)
NEXT_PAGE = Bar(50, "ours")
ONE_FRAME = Bar(16.7, "ours")
TAIL = Bar(50, "ours")
BLOCKED = Bar(50, "ours")
"""A longer task is what the web's standard for them calls a long one."""
PLAN = Bar(300, "ours")
PAGE_KB = Bar(300, "ours")
SITE_MB = Bar(20, "ours")
MEMORY = Bar(1.0)
STABLE = Bar(1.05)
"""Measured against the first time: what a browser has compiled and keeps by then is no growth, and makes some 30 MB."""
CLEAN = Bar(60, "ours")
CHANGED_PAGE = Bar(3, "ours")
REBUILD = Bar(2, "ours")
LINEAR = Bar(1.25)
"""Twice as many pages more may cost twice as much; the rest is allowance for a machine's moods."""


def figures(run: Run) -> list[Figure]:
    """All figures of a run: each time the median of its rounds; keys are taken from all rounds together."""
    return [*_answers(run), *_others(run), *_typing(run), *_plan(run), *_memory(run), *_sizes(run), *_builds(run)]


def _answers(run: Run) -> list[Figure]:
    ordinary = _middle(run.ordinary.first_answer)
    rows = (
        ("first live answer, from the disk", run.disk.first_answer, FIRST_ANSWER),
        ("first live answer, first http visit", run.server.first_answer, FIRST_ANSWER),
        ("first live answer, next page over http", run.server.next_page, NEXT_PAGE),
        ("next page, by a click of no length", run.server.next_page_at_once, None),
        ("first live answer, snapshot does not fit", run.foreign.first_answer, FALLBACK),
    )
    return [Figure(name, "ms", _middle(values), ordinary, bar) for name, values, bar in rows]


def _others(run: Run) -> Iterator[Figure]:
    for name, read in run.others.items():
        ordinary = _middle(read.ordinary)
        yield Figure(f"{name}: from the disk", "ms", _middle(read.disk), ordinary, OTHERS)
        yield Figure(f"{name}: first http visit", "ms", _middle(read.server), ordinary, OTHERS)


def _typing(run: Run) -> list[Figure]:
    ours, ordinary = run.server, run.ordinary
    crowded, crowded_ordinary = run.crowded, run.crowded_ordinary
    return [
        *_keys("key to number painted", ours.painted, ordinary.painted, ONE_FRAME, TAIL),
        *_keys("key to the frame after that", ours.next_frame, ordinary.next_frame, None, None),
        _gap("page busy while typing, longest", ours, ordinary),
        *_keys("crowded page: key to number painted", crowded.painted, crowded_ordinary.painted, ONE_FRAME, TAIL),
        _gap("crowded page: busy while typing, longest", crowded, crowded_ordinary),
    ]


def _gap(name: str, ours: Readings, ordinary: Readings) -> Figure:
    return Figure(name, "ms", _middle(ours.longest_gap), _middle(ordinary.longest_gap), BLOCKED)


def _keys(
    name: str, ours: Sequence[float], ordinary: Sequence[float], middle: Bar | None, tail: Bar | None
) -> Iterator[Figure]:
    yield Figure(f"{name}, median", "ms", median(ours), median(ordinary), middle)
    yield Figure(f"{name}, p99", "ms", percentile(ours, 99), percentile(ordinary, 99), tail)


def _plan(run: Run) -> list[Figure]:
    return [Figure(f"plan with a kit of {planner.THINGS} things", "ms", _middle(run.server.plan), None, PLAN)]


def _memory(run: Run) -> list[Figure]:
    ours, ordinary = run.server, run.ordinary
    return [
        Figure("memory of the tab", "MB", _middle(ours.memory), _middle(ordinary.memory), MEMORY),
        Figure(
            "memory of the tab, garbage collected",
            "MB",
            _middle(ours.memory_collected),
            _middle(ordinary.memory_collected),
        ),
        *_endured(run),
    ]


def _endured(run: Run) -> Iterator[Figure]:
    ours, ordinary = run.endured, run.endured_ordinary
    typed, turned = f"{endurance.RECALCULATIONS} recalculations", f"{endurance.PAGE_CHANGES} page changes more"
    yield Figure(f"memory after {typed}", "MB", ours.recalculated, ordinary.recalculated, MEMORY)
    yield Figure(f"memory after {turned}, by a fresh tab", "MB", ours.turned, ours.fresh)
    yield Figure("memory after all that again, by the first time", "MB", ours.again, ours.turned, STABLE)


def _sizes(run: Run) -> list[Figure]:
    weights = run.weights
    return [
        Figure("page before its engine, heaviest", "kB", weights.page / 1e3, None, PAGE_KB),
        *(Figure(f"engine: {part}", "kB", size / 1e3) for part, size in weights.parts.items()),
        Figure("engine, whole", "MB", sum(weights.parts.values()) / 1e6, weights.ordinary_engine / 1e6),
        Figure("site, whole", "MB", weights.site / 1e6, weights.ordinary_site / 1e6, SITE_MB),
    ]


def _builds(run: Run) -> list[Figure]:
    none, once, twice = (median(seconds) for seconds in run.pages_more.values())
    more = builds.PAGES_MORE
    return [
        Figure("build, clean", "s", _middle(run.clean_build), None, CLEAN),
        Figure("a page changed, while serving", "s", _middle(run.changed_page), None, CHANGED_PAGE),
        Figure("build, nothing changed", "s", _middle(run.unchanged_build), None, REBUILD),
        Figure(f"build, the second {more} pages more by the first", "s", twice - once, once - none, LINEAR),
    ]


def _middle(values: Sequence[float]) -> float | None:
    return median(values) if values else None
