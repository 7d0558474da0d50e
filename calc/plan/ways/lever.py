"""One edge or the whole load on the short end of a bar, the hand on the long end."""

from __future__ import annotations

import math
from collections.abc import Iterator

from calc.plan.changes import longer, with_parts
from calc.plan.kit import Item, usual
from calc.plan.relations import NoAnswer, one
from calc.plan.rig import Bench, Check, Pulls, Rigged, Setup, Way, jammed
from calc.plan.task import SWING, WALKWAY


def _middle(bar: Item) -> float:
    return bar.get("balance") or bar["length"] / 2


def _push(bench: Bench, bar: Item) -> float:
    """The push on the far end that balances load and bar (N). Raises NoAnswer if the bar alone outweighs the load."""
    places = {"x_1": 0.0, "x_f": bar["arm"], "x_c": _middle(bar), "x_E": bar["length"]}
    return one("loaded-bar", "E", "ideal", direction="down", F_1=bench.task.R, w=bar["weight"], **places)


def at_efficiency(force: float, efficiency: float) -> float:
    """The effort where the ideal one is known, at an efficiency (N)."""
    return one("any-machine", "E", R=force, dR=1.0, dE=1.0, eta=efficiency)


def _rig(bench: Bench, setup: Setup) -> Rigged:
    bar = setup.parts["bar"]
    if bar["length"] <= 1.5 * bar["arm"]:
        return Rigged(setup, (Check("bar-short", 1.5 * bar["arm"], bar["length"], "length", bar),))
    try:
        balance = _push(bench, bar)
    except NoAnswer:
        return jammed(setup, "overbalances")
    start = at_efficiency(balance, bar.spans["efficiency"][0])
    swing = one("lever", "dR", "ideal", aR=bar["arm"], psi=SWING)
    checks = (
        *bench.hanging_checks(),
        Check("swing", bench.task.h, max(swing, bench.packing), "length", bar),
        *bench.pull_checks(start),
        *bench.room_check(bar["length"] + 2 * WALKWAY),
    )
    return Rigged(setup, checks, start, numbers={"balance": balance, "swing": swing})


def _pulls(bench: Bench, rigged: Rigged) -> Pulls:
    bar, balance = rigged.setup.parts["bar"], rigged.numbers["balance"]
    ratio = one("lever", "IMA", "ideal", aR=bar["arm"], aE=bar["length"] - bar["arm"])
    path = one("any-machine", "dE", "ideal", IMA=ratio, dR=bench.task.h)
    moving = (at_efficiency(balance, bar.spans["efficiency"][1]), rigged.start)
    return Pulls(
        rigged.start,
        moving,
        (0.0, balance),
        path,
        "hold",
        {"stages": float(math.ceil(bench.task.h / rigged.numbers["swing"] - 1e-9))},
    )


def _request(bench: Bench, rigged: Rigged) -> dict[str, object]:
    bar = rigged.setup.parts["bar"]
    places = {"x_1": 0.0, "x_f": bar["arm"], "x_c": _middle(bar), "x_E": bar["length"], "B": bar["length"]}
    given = {"F_1": bench.task.R, "w": bar["weight"], **places}
    return {"calculator": "loaded-bar", "given": given, "choices": {"direction": "down"}}


def longer_bar(bench: Bench, bar: Item, limit: float) -> Item | None:
    """The bar with its hand farther out, its weight and balance point where they are, for a push within a limit (N)."""
    try:
        ideal = one("any-machine", "R", E=limit, dR=1.0, dE=1.0, eta=bar.spans["efficiency"][0])
        places = {"x_1": 0.0, "x_f": bar["arm"], "x_c": _middle(bar)}
        reach = one(
            "loaded-bar", "x_E", "ideal", direction="down", F_1=bench.task.R, w=bar["weight"], E=ideal, **places
        )
    except NoAnswer:
        return None
    return longer(bar.changed(bar.name, balance=_middle(bar)), reach) if bar["arm"] < reach <= LONGEST else None


LONGEST = 3.048
"""The longest bar that a class handles (m): 10 ft, as the practice problems keep it."""


def _mend(bench: Bench, rigged: Rigged, check: Check) -> tuple[Setup, tuple[Item, ...]] | None:
    setup, bar = rigged.setup, rigged.setup.parts["bar"]
    if check.code == "bar-short":
        other: Item | None = longer(bar, 4 * bar["arm"])
    elif check.code == "overbalances":
        other = bar.changed("bar with a longer load arm", arm=_middle(bar))
    elif check.code == "pull":
        other = longer_bar(bench, bar, bench.task.strength)
    elif check.code == "swing":
        other = usual("packing").changed("packing blocks", height=bench.task.h)
        return setup, (other,)
    else:
        return None
    return (with_parts(setup, bar=other), (other,)) if other else None


def _cases(bench: Bench) -> Iterator[Iterator[Setup]]:
    own = bench.kit.of("bar")
    for bar in own or [usual("bar")]:
        yield iter([Setup("lever", {"bar": bar}, missing=() if own else (bar,))])


LEVER = Way("lever", "Lever it up with a bar", _cases, _rig, _pulls, _request, _mend)
