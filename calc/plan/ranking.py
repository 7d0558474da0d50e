"""The plan: every way that works with a kit, best first, and why each of the others does not."""

from __future__ import annotations

from dataclasses import dataclass, replace

from calc.plan.kit import Item
from calc.plan.mending import Mend, lighter, mend
from calc.plan.rig import Bench, Check, Pulls, Rigged, Setup, Way, rigged
from calc.plan.task import READABLE
from calc.plan.ways import WAYS


@dataclass(frozen=True)
class Option:
    """A way that works, with what the hand feels, and the scale to read it on."""

    way: Way
    rigged: Rigged
    pulls: Pulls
    scale: Item

    @property
    def readable(self) -> bool:
        """Whether every reading lies in the part of the scale that is read well."""
        return self.pulls.moving[0] >= READABLE[0] * self.scale["capacity"]

    @property
    def key(self) -> tuple[str, ...]:
        """What this option is, apart from what was picked for it: the way and its main things."""
        parts = self.rigged.setup.parts
        main = ("plank", "cart", "bar", "wedge", "screw", "windlass")
        return (self.way.key, self.rigged.setup.rove, *(parts[role].name for role in main if role in parts))


@dataclass(frozen=True)
class Refusal:
    """A way that does not work with anything in the kit: its nearest miss, the limit that refused it, and the mends."""

    way: Way
    rigged: Rigged
    check: Check
    mend: Mend | None
    load: float | None


@dataclass(frozen=True)
class Plan:
    """The answer: options best first, refusals in the ways' order."""

    options: tuple[Option, ...]
    refusals: tuple[Refusal, ...]


def make_plan(bench: Bench) -> Plan:
    """Plan a task with a kit. Every way is tried with everything that could make it."""
    options: list[Option] = []
    refusals: list[Refusal] = []
    for way in (way for way in WAYS.values() if way.job == bench.task.job):
        works, misses = _tried(way, bench)
        options += works
        if not works:
            refusals.append(_refused(way, bench, misses))
    options.sort(key=lambda o: (not o.readable, o.pulls.path, o.pulls.start, len(o.rigged.setup.parts), o.key))
    return Plan(tuple(options), tuple(refusals))


def _tried(way: Way, bench: Bench) -> tuple[list[Option], list[Rigged]]:
    """The options of a way, one for each group of set-ups that has one that works; else all that were tried."""
    works: list[Option] = []
    misses: list[Rigged] = []
    for group in way.cases(bench):
        last: Rigged | None = None
        for setup in group:
            if last is not None and _no_help(last, setup):
                continue
            last = found = rigged(way, bench, setup)
            if found.works and not setup.missing:
                pulls = way.pulls(bench, found)
                scale = bench.scale_for(pulls.start, pulls.moving[0])
                assert scale is not None, "the limit of the scales is one of the checks"
                works.append(Option(way, found, pulls, scale))
                break
            misses.append(found)
            if hopeless(found):
                break
    return works, misses


def _no_help(last: Rigged, setup: Setup) -> bool:
    """Whether a prop is tried where the plank was strong enough without."""
    return "prop" in setup.parts and "prop" not in last.setup.parts and not STRENGTH & last.broken


def hopeless(found: Rigged) -> bool:
    """Whether a limit is broken that every other set-up of the same group breaks as well."""
    if any(check.code == "anchor-side" and not check.limit for check in found.checks):
        return True
    return bool(found.broken & (FIXED if "prop" in found.setup.parts else FIXED - STRENGTH))


STRENGTH = frozenset({"bends", "sags"})
FIXED = STRENGTH | {"plank-short", "may-slide", "cart-rated", "class-lift", "room", "jams"}
"""Limits that neither other blocks nor another windlass can keep: what they add on a plank makes it only worse."""


def _refused(way: Way, bench: Bench, misses: list[Rigged]) -> Refusal:
    """The refusal of a way by that of its set-ups which comes nearest."""
    nearest = min(misses, key=_distance)
    check = nearest.refusal
    if nearest.setup.missing:
        check = Check(f"no-{nearest.setup.missing[0].kind}", 1.0, 0.0, "count")
    assert check is not None, "a way without a miss would be an option"
    return Refusal(way, nearest, check, _mended(way, bench, nearest), lighter(way, bench, nearest))


def _mended(way: Way, bench: Bench, nearest: Rigged) -> Mend | None:
    """The nearest change. Where the lift is too high, a lower one comes first, and then what still lacks."""
    check = nearest.refusal
    if check is None or check.code not in LOWER or check.limit <= 0:
        return mend(way, bench, nearest)
    lower = Bench(bench.kit, replace(bench.task, h=check.limit))
    works, misses = _tried(way, lower)
    if works:
        return Mend((), lower.task, works[0].rigged, lower)
    return mend(way, lower, min(misses, key=_distance))


LOWER = frozenset({"class-lift", "wedge-thick", "travel"})
"""Limits of the lift itself."""


def _distance(found: Rigged) -> tuple[int, float]:
    """How far a set-up is from working: limits broken, and by how much the worst."""
    broken = [check for check in found.checks if not check.passed]
    return len(broken) + len(found.setup.missing), max((check.used for check in broken), default=0.0)
