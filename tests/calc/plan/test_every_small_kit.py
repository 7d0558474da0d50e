"""The planner against every set-up of thousands of small kits, worked out without ``calc`` (see brute_force.py)."""

from __future__ import annotations

from random import Random

import pytest

from calc.plan.kit import Kit
from calc.plan.mending import lighter, mend
from calc.plan.ranking import make_plan
from calc.plan.rig import JUST, Bench, rigged
from calc.plan.ways import WAYS
from calc.plan.words import broken
from tests.calc.plan.brute_force import Lab
from tests.calc.plan.kits import bench, some_kit, some_task

BATCHES, KITS = 8, 250


def name_of(option) -> tuple[str, ...]:
    """An option by its way and its main things, without what is only picked for it."""
    way, rove, *things = option.key
    if way == "windlass-cart":
        things = things[:2]
    return (way, rove) if way == "tackle" else (way, *things)


@pytest.mark.parametrize("batch", range(BATCHES))
def test_the_planner_finds_what_trying_everything_finds(batch: int) -> None:
    draw = Random(f"kits {batch}")
    seen = 0
    for _ in range(KITS):
        kit, task = some_kit(draw), some_task(draw)
        found = {name_of(option) for option in make_plan(bench(kit, task)).options}
        assert found == Lab(kit, task).options(), (kit, task)
        seen += len(found)
    assert seen > KITS / 4, "these kits must be able to do something"


@pytest.mark.parametrize("batch", range(4))
def test_no_option_breaks_a_limit_when_it_is_rigged_again(batch: int) -> None:
    draw = Random(f"limits {batch}")
    for _ in range(60):
        table = bench(some_kit(draw, 3), some_task(draw))
        for option in make_plan(table).options:
            again = rigged(option.way, Bench(table.kit, table.task), option.rigged.setup)
            assert all(check.value <= check.limit * JUST for check in again.checks)
            assert option.pulls.start <= table.pull_limit * JUST
            assert option.pulls.moving[1] <= option.pulls.start * JUST
            assert option.pulls.moving[0] <= option.pulls.moving[1] * JUST
            assert 0.8 * option.scale["capacity"] * JUST >= option.pulls.start


@pytest.mark.parametrize("batch", range(4))
def test_more_kit_never_takes_an_option_away(batch: int) -> None:
    draw = Random(f"more {batch}")
    for _ in range(60):
        kit, more, task = some_kit(draw), some_kit(draw, 1), some_task(draw)
        small = bench(kit, task)
        extra = bench({kind: [{**it, "name": f"new {it['name']}"} for it in more[kind]] for kind in more}, task)
        large = Bench(Kit((*small.kit.items, *extra.kit.items)), small.task)
        assert {name_of(o) for o in make_plan(small).options} <= {name_of(o) for o in make_plan(large).options}


@pytest.mark.parametrize("batch", range(4))
def test_the_nearest_change_makes_a_refused_way_work(batch: int) -> None:
    """SPEC.md V56: the things named, put in the kit, and the task as changed, give that way as an option."""
    draw = Random(f"mends {batch}")
    mended = 0
    for _ in range(40):
        table = bench(some_kit(draw), some_task(draw))
        for refusal in make_plan(table).refusals:
            if refusal.mend is not None:
                changed = Bench(table.kit.and_also(*refusal.mend.items), refusal.mend.task)
                assert refusal.way.key in {o.way.key for o in make_plan(changed).options}, refusal
                mended += 1
            if refusal.load is not None:
                light = refusal.mend.task if refusal.mend else table.task
                lightened = Bench(table.kit, type(light)(**{**vars(table.task), "R": refusal.load}))
                assert refusal.way.key in {o.way.key for o in make_plan(lightened).options}, refusal
    assert mended > 80


def test_the_greatest_load_is_no_smaller_than_it_must_be() -> None:
    """One pound more than the named load, and the nearest set-up is refused again."""
    draw = Random("loads")
    for _ in range(60):
        table = bench(some_kit(draw), some_task(draw))
        for refusal in make_plan(table).refusals:
            load = lighter(refusal.way, table, refusal.rigged)
            if load is not None and load > 60:
                heavier = Bench(table.kit, type(table.task)(**{**vars(table.task), "R": load + 4.4483}))
                assert not rigged(refusal.way, heavier, refusal.rigged.setup).works


@pytest.mark.parametrize(("job", "first"), [("raise", "ramp-cart"), ("level", "level-cart")])
def test_an_empty_kit_is_told_what_each_way_needs(job: str, first: str) -> None:
    asked = {**some_task(Random(3)), "job": job, "mu_s": (0.15, 0.25), "room": None}
    table = bench(some_kit(Random(0), 0), asked)
    plan = make_plan(table)
    assert not plan.options
    assert [refusal.way.key for refusal in plan.refusals] == [way.key for way in WAYS.values() if way.job == job]
    for refusal in plan.refusals:
        assert broken(refusal.check, refusal.rigged.setup, "us").startswith("The kit has no "), refusal.way.key
    assert mend(WAYS[first], table, plan.refusals[0].rigged) is not None
