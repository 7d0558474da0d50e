"""What would make a refused way work: things to get, a lower lift, more floor, or a lighter load. Each is tried out."""

from __future__ import annotations

from dataclasses import dataclass, replace

from calc.plan.changes import down, stronger, up
from calc.plan.kit import Item, usual
from calc.plan.relations import NoAnswer
from calc.plan.rig import JUST, Bench, Check, Rigged, Setup, Way, rigged
from calc.plan.task import READABLE, Task
from calc.units import factor

_ROUNDS = 10
_LBF, _FOOT = factor("lbf"), factor("ft")


@dataclass(frozen=True)
class Mend:
    """The changes with which a way works: things that the kit would need besides, and what of the task changes.

    ``result`` is the set-up as it works then, on ``bench``.
    """

    items: tuple[Item, ...]
    task: Task
    result: Rigged
    bench: Bench


def mend(way: Way, bench: Bench, refused: Rigged) -> Mend | None:
    """The nearest changes that make a refused set-up work, tried out; None if these few do not."""
    setup, task = refused.setup, bench.task
    added = list(setup.missing)
    trial = Bench(bench.kit.and_also(*added), task)
    for _ in range(_ROUNDS):
        found = rigged(way, trial, setup)
        if found.works:
            return _tried(way, bench, found, added, trial.task)
        step = _step(way, trial, found)
        if step is None:
            return None
        setup, items, task = step
        added += items
        trial = Bench(bench.kit.and_also(*added), task)
    return None


def _step(way: Way, bench: Bench, found: Rigged) -> tuple[Setup, tuple[Item, ...], Task] | None:
    """The change that keeps the first broken limit for which there is one; else a lighter load."""
    for check in found.checks:
        try:
            step = None if check.passed else _shared(bench, found, check) or _own(way, bench, found, check)
        except NoAnswer:
            step = None
        if step is not None:
            return step
    load = lighter(way, bench, replace(found, setup=replace(found.setup, missing=())))
    return None if load is None else (found.setup, (), replace(bench.task, R=load))


def _own(way: Way, bench: Bench, found: Rigged, check: Check) -> tuple[Setup, tuple[Item, ...], Task] | None:
    step = way.mend(bench, found, check)
    return None if step is None else (*step, bench.task)


def _shared(bench: Bench, found: Rigged, check: Check) -> tuple[Setup, tuple[Item, ...], Task] | None:
    """The changes that are the same for every way: rope, anchor, scale, lift and floor."""
    setup, task = found.setup, bench.task
    item: Item | None = None
    if check.code == "rope-rated":
        item = stronger(check.item or usual("rope"), check.value)
    elif check.code == "rope-length" and check.item:
        item = check.item.changed("longer rope", length=up(check.value, _FOOT))
    elif check.code == "anchor-rated":
        item = stronger(check.item or usual("anchor"), check.value)
    elif check.code == "anchor-side":
        item = (check.item or usual("anchor")).changed("anchor rated sideways", side=up(check.value, _LBF))
    elif check.code == "scale" and (check.value <= task.strength * JUST or not check.limit):
        item = usual("scale").changed("larger scale", capacity=up(min(check.value, task.strength) / READABLE[1], _LBF))
    elif check.code == "room":
        return setup, (), replace(task, room=up(check.value, _FOOT))
    elif check.code in ("class-lift", "wedge-thick"):
        return setup, (), replace(task, h=check.limit)
    return None if item is None else (setup, (item,), task)


def _tried(way: Way, bench: Bench, found: Rigged, added: list[Item], task: Task) -> Mend | None:
    """The mend with only those new things that the set-up uses, tried out once more."""
    used = [*found.setup.parts.values(), *found.picked.values()]
    kept = [item for item in dict.fromkeys(map(_Same, added)) if item.item in used or item.item.kind in _UNNAMED]
    last = {item.item.kind: item.item for item in kept if item.item.kind in _UNNAMED}
    items = tuple(item.item for item in kept if item.item.kind not in _UNNAMED) + tuple(last.values())
    trial = Bench(bench.kit.and_also(*items), task)
    again = rigged(way, trial, found.setup)
    return Mend(items, task, again, trial) if again.works else None


_UNNAMED = ("scale", "packing", "prop")
"""Things that a bench picks by itself, so that no set-up names them."""


@dataclass(frozen=True)
class _Same:
    """A thing, equal to another only if it is the same one: two things may have the same sizes."""

    item: Item

    def __hash__(self) -> int:
        return id(self.item)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and other.item is self.item


def lighter(way: Way, bench: Bench, refused: Rigged) -> float | None:
    """The greatest load (N), rounded down, for which this set-up works as it is; None if no load does.

    Every limit of these machines grows in a straight line with the load, so two loads tell where each is reached. The
    load that comes out is tried out.
    """
    if refused.setup.missing:
        return None
    half = rigged(way, _with_load(bench, bench.task.R / 2), refused.setup)
    if [check.code for check in half.checks] != [check.code for check in refused.checks]:
        return None
    greatest = bench.task.R
    for full, less in zip(refused.checks, half.checks, strict=True):
        slope = (full.value - less.value) / (bench.task.R / 2)
        if full.passed:
            continue
        if slope <= 0:
            return None
        greatest = min(greatest, (full.limit - full.value) / slope + bench.task.R)
    step = _LBF if greatest > 10 * _LBF else _LBF / 10
    load = down(greatest, step)
    if load < _LBF / 10 or not rigged(way, _with_load(bench, load), refused.setup).works:
        return None
    return load


def _with_load(bench: Bench, load: float) -> Bench:
    return Bench(bench.kit, replace(bench.task, R=load))
