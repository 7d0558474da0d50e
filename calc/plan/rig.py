"""A set-up and what is found out about it: its limits one by one, the pulls, and the changes that would mend it."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from calc.plan.kit import Item, Kit
from calc.plan.relations import NoAnswer
from calc.plan.task import READABLE, Task

JUST = 1 + 1e-9
"""A limit that is just reached is kept; the last bits of a number do not decide."""


@dataclass(frozen=True)
class Check:
    """One limit: a value that must not be more than it, both in SI and of one kind of quantity.

    ``code`` names it in ``words.py``; ``item`` is the thing that sets the limit.
    """

    code: str
    value: float
    limit: float
    kind: str = "force"
    item: Item | None = None

    @property
    def passed(self) -> bool:
        """Whether the limit is kept. Where there is nothing to set one (no scale, no rating), nothing is allowed."""
        return self.limit > 0 and self.value <= self.limit * JUST

    @property
    def used(self) -> float:
        """How much of the limit is used; infinite where there is no limit to use."""
        return self.value / self.limit if self.limit > 0 else math.inf


@dataclass(frozen=True)
class Setup:
    """One way, rigged from given things. ``n`` and ``rove`` are a tackle's parts and reeving."""

    way: str
    parts: Mapping[str, Item]
    n: int = 0
    rove: str = ""
    missing: tuple[Item, ...] = ()


@dataclass(frozen=True)
class Rigged:
    """A set-up with its limits in the order in which they decide, the pull to start, and what was picked for it.

    ``numbers`` are what the way found on the way (SI), for its further questions.
    """

    setup: Setup
    checks: tuple[Check, ...]
    start: float = math.inf
    picked: Mapping[str, Item] = field(default_factory=dict)
    numbers: Mapping[str, float] = field(default_factory=dict)

    @property
    def works(self) -> bool:
        """Whether every limit is kept."""
        return all(check.passed for check in self.checks)

    @property
    def broken(self) -> frozenset[str]:
        """The codes of the limits that are not kept."""
        return frozenset(check.code for check in self.checks if not check.passed)

    @property
    def refusal(self) -> Check | None:
        """The first limit that is not kept."""
        return next((check for check in self.checks if not check.passed), None)


@dataclass(frozen=True)
class Pulls:
    """What the hand feels (N) and does. A range is (least, most); ``lowering`` from 0 means at most that.

    ``stays`` tells what the load does when the hand lets go: stays, chock, hold, pawl; on the level rests, coasts.
    """

    start: float
    moving: tuple[float, float]
    lowering: tuple[float, float]
    path: float
    stays: str
    facts: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True)
class Way:
    """A machine, or two in a row, as the planner knows it.

    ``cases`` lists, for a bench, groups of set-ups: each group is one option, its set-ups in the order of preference.
    ``rig`` finds the limits of one, ``pulls`` what the hand feels in one that works, ``mend`` the set-up and the new
    things that would keep one limit, ``request`` its calculator's question; ``stages`` those of its machines one by
    one, from the hand on, where there are two. ``job`` is what of the task it does.
    """

    key: str
    title: str
    cases: Callable[[Bench], Iterator[Iterator[Setup]]]
    rig: Callable[[Bench, Setup], Rigged]
    pulls: Callable[[Bench, Rigged], Pulls]
    request: Callable[[Bench, Rigged], dict[str, object]]
    mend: Callable[[Bench, Rigged, Check], tuple[Setup, tuple[Item, ...]] | None] = lambda bench, rigged, check: None
    stages: Callable[[Bench, Rigged], list[dict[str, object]]] = lambda bench, rigged: []
    job: str = "raise"


@dataclass(frozen=True)
class Bench:
    """A kit and a task together, and how the shared things are picked: scale, rope, anchor, prop."""

    kit: Kit
    task: Task

    @cached_property
    def scale_limit(self) -> float:
        """What the largest scale reads well (N); 0 without one."""
        return READABLE[1] * max((scale["capacity"] for scale in self.kit.of("scale")), default=0.0)

    @cached_property
    def pull_limit(self) -> float:
        """What the hand may be asked for: the students' pull, and what a scale still reads well (N)."""
        return min(self.task.strength, self.scale_limit)

    def scale_for(self, start: float, low: float) -> Item | None:
        """The smallest scale that reads the start well, if it can one that reads the least pull well too."""
        able = [s for s in self.kit.of("scale") if start <= READABLE[1] * s["capacity"] * JUST]
        able.sort(key=lambda s: (low < READABLE[0] * s["capacity"], s["capacity"]))
        return able[0] if able else None

    def rope_for(self, tension: float, need: Callable[[Item], float] | float) -> tuple[Item | None, float]:
        """The shortest rope that is rated and long enough, else the one that comes nearest; and the length needed."""
        found = [(rope, need(rope) if callable(need) else need) for rope in self.kit.of("rope")]
        able = [pair for pair in found if pair[0].rated * JUST >= tension and pair[0]["length"] * JUST >= pair[1]]
        if able:
            return min(able, key=lambda pair: pair[0]["length"])
        return max(
            found,
            key=lambda pair: (pair[0].rated * JUST >= tension, min(pair[0]["length"] / pair[1], 1.0), pair[0].rated),
            default=(None, 0.0),
        )

    def anchor_check(self, force: float, *, sideways: bool = False) -> tuple[Item | None, Check]:
        """The anchor with the lowest rating that is enough, else the strongest; and its limit, hung from or pulled."""

        def rating(anchor: Item) -> float:
            return anchor.get("side") or 0.0 if sideways else anchor.rated

        anchors = self.kit.of("anchor")
        able = [a for a in anchors if rating(a) >= force / JUST]
        anchor = min(able, key=rating) if able else max(anchors, key=rating, default=None)
        code = "anchor-side" if sideways else "anchor-rated"
        return anchor, Check(code, force, rating(anchor) if anchor else 0.0, item=anchor)

    @cached_property
    def memo(self) -> dict[tuple[int, str], list[tuple[int, dict[str, Item]]]]:
        """The tackles that the kit's blocks make, from so many parts on and by reeving: worked out once."""
        return {}

    @cached_property
    def prop(self) -> Item | None:
        """The strongest prop."""
        return max(self.kit.of("prop"), key=lambda p: p.rated, default=None)

    @cached_property
    def packing(self) -> float:
        """The highest packing (m)."""
        return max((p["height"] for p in self.kit.of("packing")), default=0.0)

    def pull_checks(self, start: float) -> tuple[Check, Check]:
        """The hand's limits: what students pull, and what a scale reads well."""
        return Check("pull", start, self.task.strength), Check("scale", start, self.scale_limit)

    def rope_checks(
        self, tension: float, need: Callable[[Item], float] | float
    ) -> tuple[Item | None, tuple[Check, Check]]:
        """The rope that is picked, and its limits. ``need`` is the length, or tells it for a rope."""
        rope, length = self.rope_for(tension, need)
        rated = Check("rope-rated", tension, rope.rated if rope else 0.0, item=rope)
        return rope, (rated, Check("rope-length", length, rope["length"] if rope else 0.0, "length", rope))

    def room_check(self, length: float) -> tuple[Check, ...]:
        """The floor, where the teacher has said how long it is."""
        return () if self.task.room is None else (Check("room", length, self.task.room, "length"),)

    def hanging_checks(self) -> tuple[Check, Check]:
        """The class's limits for a load on a bar or a rope."""
        return Check("class-load", self.task.R, self.task.most), Check(
            "class-lift", self.task.h, self.task.hang, "length"
        )


def jammed(setup: Setup, code: str = "jams") -> Rigged:
    """A set-up for which the relations have no answer."""
    return Rigged(setup, (Check(code, 1.0, 0.0, "ratio"),))


def rigged(way: Way, bench: Bench, setup: Setup) -> Rigged:
    """What is found out about a set-up; a jam is a limit like any other."""
    try:
        return way.rig(bench, setup)
    except NoAnswer:
        return jammed(setup)
