"""A load lifted straight up by blocks and one rope, over a pad, from a rated anchor."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace

from calc.plan.changes import stronger, with_parts
from calc.plan.kit import Item, usual
from calc.plan.relations import one
from calc.plan.rig import Bench, Check, Pulls, Rigged, Setup, Way
from calc.plan.task import GAP, TAIL, WALKWAY

MOST_PARTS = 12


def sheaves_needed(n: int, rove: str) -> tuple[int, int]:
    """Sheaves in the standing and in the moving block for n parts.

    An even number is shared, of an odd number the standing block has one more; to advantage it has one less.
    """
    return (n + 1) // 2 - (rove == "advantage"), n // 2


def keeps(setup: Setup) -> tuple[float, float]:
    """The range of what a sheave passes on, of the worse of the two blocks."""
    spans = [setup.parts[role].spans["keeps"] for role in ("standing", "moving") if role in setup.parts]
    return min(low for low, _ in spans), min(high for _, high in spans)


def moving_weight(setup: Setup) -> float:
    """The weight of the block that moves with the load (N)."""
    return setup.parts["moving"]["weight"] if "moving" in setup.parts else 0.0


def pairs(blocks: tuple[Item, ...], n: int, rove: str) -> list[dict[str, Item]]:
    """The pairs of blocks that can be rove to n parts, those that pass on most first, then the lightest.

    A pair that another one beats or equals in everything is left out: no limit could refuse the better and not it.
    """
    above, below = sheaves_needed(n, rove)
    standing = [b for b in blocks if b["sheaves"] >= above] if above else [None]
    moving = [b for b in blocks if b["sheaves"] >= below] if below else [None]
    found: list[tuple[tuple[float, ...], dict[str, Item]]] = []
    for a in standing:
        for b in moving:
            if a is None or a is not b or a["count"] >= 2:
                pair = {role: block for role, block in (("standing", a), ("moving", b)) if block is not None}
                found.append((_merit(pair), pair))
    found.sort(key=lambda scored: scored[0], reverse=True)
    kept: list[tuple[tuple[float, ...], dict[str, Item]]] = []
    for merit, pair in found:
        if not any(all(x >= y for x, y in zip(better, merit, strict=True)) for better, _ in kept):
            kept.append((merit, pair))
    return [pair for _, pair in kept]


def _merit(pair: Mapping[str, Item]) -> tuple[float, ...]:
    """What is better the larger it is: what a sheave keeps, at worst and at best, lightness, smallness, ratings."""
    lowest, highest = (min(block.spans["keeps"][end] for block in pair.values()) for end in (0, 1))
    moving, standing = pair.get("moving"), pair.get("standing")
    light = (-moving["weight"] if moving else 0.0, -standing["weight"] if standing else 0.0)
    width = -max(block["diameter"] for block in pair.values())
    return (lowest, *light, width, *(block.rated if block else math.inf for block in (moving, standing)), highest)


def rove_from(bench: Bench, way: str, rove: str, first: int, **parts: Item) -> Iterator[Setup]:
    """Every tackle of the kit's blocks, the fewest parts first; of a usual pair if the kit's make none."""
    own = tuple(bench.kit.of("block"))
    if own and (first, rove) not in bench.memo:
        bench.memo[first, rove] = [(n, pair) for n in range(first, MOST_PARTS + 1) for pair in pairs(own, n, rove)]
    if found := bench.memo.get((first, rove)):
        yield from (Setup(way, {**parts, **pair}, n, rove) for n, pair in found)
        return
    lacks = usual("block")
    yield from (Setup(way, {**parts, **pair}, first, rove, (lacks,)) for pair in pairs((lacks,), first, rove))


def rope_need(setup: Setup, travel: float) -> float:
    """The rope that a tackle takes, with its tail (m)."""
    width = max(setup.parts[role]["diameter"] for role in ("standing", "moving") if role in setup.parts)
    return one("tackle-rope", "L", "plain", rove=setup.rove, n=float(setup.n), h=travel, gap=GAP, D_s=width, tail=TAIL)


def effort(setup: Setup, load: float, weight: float, keeps: float) -> float:
    """The hand's pull that raises a load (N)."""
    return one("tackle", "E", rove=setup.rove, n=float(setup.n), k=keeps, R=load, w=weight)


def lowering(setup: Setup, load: float, weight: float) -> tuple[float, float]:
    """The hand's pull that lets it down (N)."""
    ends = [one("tackle", "E_down", rove=setup.rove, n=float(setup.n), k=k, R=load, w=weight) for k in keeps(setup)]
    return min(ends), max(ends)


def block_checks(
    bench: Bench, setup: Setup, load: float, weight: float, *, sideways: bool = False
) -> tuple[Item | None, tuple[Check, ...]]:
    """The anchor that is picked, and the ratings of anchor and blocks; ``sideways`` along a plank or a floor."""
    slack = "A_max" if setup.rove == "advantage" else "A"
    force = one("tackle", slack, rove=setup.rove, n=float(setup.n), k=keeps(setup)[0], R=load, w=weight)
    standing, moving = setup.parts.get("standing"), setup.parts.get("moving")
    hung = force + (standing["weight"] if standing else 0.0)
    anchor, anchor_check = bench.anchor_check(hung, sideways=sideways)
    checks = [anchor_check]
    if standing:
        checks.append(Check("standing-rated", force, standing.rated, item=standing))
    if moving:
        checks.append(Check("moving-rated", load, moving.rated, item=moving))
    return anchor, tuple(checks)


def _rig(bench: Bench, setup: Setup) -> Rigged:
    load, weight = bench.task.R, moving_weight(setup)
    start = effort(setup, load, weight, keeps(setup)[0])
    anchor, ratings = block_checks(bench, setup, load, weight)
    rope, rope_checks = bench.rope_checks(start, rope_need(setup, bench.task.h))
    checks = (
        *ratings,
        *rope_checks,
        *bench.hanging_checks(),
        *bench.pull_checks(start),
        *bench.room_check(2 * WALKWAY),
    )
    picked = {role: item for role, item in (("rope", rope), ("anchor", anchor)) if item}
    return Rigged(setup, checks, start, picked)


def _pulls(bench: Bench, rigged: Rigged) -> Pulls:
    setup, load = rigged.setup, bench.task.R
    weight = moving_weight(setup)
    low, high = keeps(setup)
    moving = (effort(setup, load, weight, high), effort(setup, load, weight, low))
    path = one("tackle", "dE", rove=setup.rove, n=float(setup.n), h=bench.task.h)
    return Pulls(rigged.start, moving, lowering(setup, load, weight), path, "hold")


def _request(bench: Bench, rigged: Rigged) -> dict[str, object]:
    return question(rigged.setup, bench.task.R, moving_weight(rigged.setup), bench.task.h)


def question(setup: Setup, load: float, weight: float, travel: float) -> dict[str, object]:
    """The calculator's question for a tackle, ranges by their middle."""
    given = {"R": load, "n": float(setup.n), "h": travel, "k": sum(keeps(setup)) / 2}
    # A block that weighs nothing is one that the load carries: the box then stays empty.
    return {
        "calculator": "tackle",
        "given": {**given, "w": weight} if weight else given,
        "choices": {"rove": setup.rove},
    }


def mend_blocks(rigged: Rigged, check: Check) -> tuple[Setup, tuple[Item, ...]] | None:
    """The blocks rated for what hangs on them, the same for every way with a tackle."""
    setup = rigged.setup
    role = check.code.removesuffix("-rated")
    if role not in setup.parts:
        return None
    other = stronger(setup.parts[role], check.value).changed(f"{role} block with a higher rating")
    return with_parts(setup, **{role: other}), (other,)


def more_parts(bench: Bench, setup: Setup, load: float, limit: float) -> tuple[Setup, tuple[Item, ...]] | None:
    """The fewest parts with which the start stays within a limit (N), and the blocks for them; None if none do."""
    for n in range(setup.n + 1, MOST_PARTS + 1):
        bigger, new = _with_sheaves(setup, n)
        if effort(bigger, load, moving_weight(bigger), keeps(bigger)[0]) <= limit:
            return bigger, new
    return None


def _with_sheaves(setup: Setup, n: int) -> tuple[Setup, tuple[Item, ...]]:
    """The set-up with n parts, and the blocks that it needs beyond its own."""
    parts, new = dict(setup.parts), []
    model = next(iter(setup.parts[role] for role in ("moving", "standing") if role in setup.parts))
    for role, needed in zip(("standing", "moving"), sheaves_needed(n, setup.rove), strict=True):
        own = parts.get(role)
        if not needed:
            parts.pop(role, None)
        elif own is None or own["sheaves"] < needed:
            parts[role] = model.changed(f"{role} block of {needed}", sheaves=float(needed), count=1.0)
            new.append(parts[role])
    return replace(setup, parts=parts, n=n), tuple(new)


def _mend(bench: Bench, rigged: Rigged, check: Check) -> tuple[Setup, tuple[Item, ...]] | None:
    if check.code in ("standing-rated", "moving-rated"):
        return mend_blocks(rigged, check)
    if check.code == "pull" or (check.code == "scale" and check.value > bench.task.strength):
        return more_parts(bench, rigged.setup, bench.task.R, bench.task.strength)
    return None


def _cases(bench: Bench) -> Iterator[Iterator[Setup]]:
    for rove, first in (("disadvantage", 1), ("advantage", 2)):
        yield rove_from(bench, "tackle", rove, first)


TACKLE = Way("tackle", "Lift it with a tackle", _cases, _rig, _pulls, _request, _mend)
