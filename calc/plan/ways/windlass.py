"""A load lifted by a windlass, straight or with a tackle between; and the windlass as the first of two machines."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from calc.plan.changes import lacking, stronger, up, with_parts
from calc.plan.kit import Item, usual
from calc.plan.relations import NoAnswer, one, worked
from calc.plan.rig import JUST, Bench, Check, Pulls, Rigged, Setup, Way
from calc.plan.task import WALKWAY
from calc.plan.ways import tackle
from calc.units import factor


def windlasses(bench: Bench) -> list[tuple[Item, bool]]:
    """Every windlass, and whether the kit lacks one."""
    return [(item, False) for item in bench.kit.of("windlass")] or [(usual("windlass"), True)]


def crank(windlass: Item, rope: Item, pull: float, efficiency: float, layer: int) -> float:
    """The push on the crank that winds up a rope against a pull (N), on a layer of the drum."""
    return one("windlass", "E", R=pull, eta=efficiency, **_sizes(windlass, rope, layer))


def crank_ideal(windlass: Item, rope: Item, pull: float, layer: int) -> float:
    """The push without any friction: easing back takes no more than that (N)."""
    return one("windlass", "E", "ideal", R=pull, **_sizes(windlass, rope, layer))


def advantage(windlass: Item, rope: Item, layer: int) -> float:
    """The ideal advantage of crank and drum, on a layer."""
    return one("windlass", "IMA", "ideal", **_sizes(windlass, rope, layer))


def _sizes(windlass: Item, rope: Item, layer: int) -> dict[str, float | str]:
    drum = {"D": windlass["drum"], "t": rope["diameter"], "m": float(layer)}
    return {"wind": "layer", "r_c": windlass["crank"], **drum}


def _drum(windlass: Item, rope: Item) -> dict[str, float | str]:
    return {"wind": "width", "b": windlass["width"], "D": windlass["drum"], "t": rope["diameter"]}


def layers(windlass: Item, rope: Item) -> int:
    """How many layers the cheeks take, with the spare edge above the top one; one where their height is not told."""
    cheek = windlass.get("cheek")
    fit = 1 if cheek is None else math.floor(cheek / rope["diameter"] + 1e-9) - SPARE_EDGE
    return min(max(fit, 1), MOST_LAYERS)


SPARE_EDGE = 1
"""Thicknesses of rope by which a cheek stands above the top layer: common practice, no source."""
MOST_LAYERS = 11
"""One less than the windlass's calculator knows."""


def holds(windlass: Item, rope: Item, layers: int) -> float:
    """The rope that so many full layers take (m); only the dead turns where those fill the first."""
    try:
        return one("windlass", "l_u", "ideal", m=layers + 1.0, **_drum(windlass, rope))
    except NoAnswer:  # the drum has no room beside its dead turns
        return on_drum(windlass, rope, 1.0) - 1.0


def on_drum(windlass: Item, rope: Item, travel: float) -> float:
    """The rope that lies on the drum after a travel, its dead turns among it (m)."""
    return one("windlass", "l", "ideal", wind="width", h=travel, D=windlass["drum"], t=rope["diameter"])


def layer(windlass: Item, rope: Item, travel: float) -> int:
    """The layer on which the rope lies after a travel: the hardest one. The last that fits, where it does not fit."""
    most, length = layers(windlass, rope), on_drum(windlass, rope, travel)
    return next((m for m in range(1, most) if holds(windlass, rope, m) * JUST >= length), most)


def wound(windlass: Item, rope: Item, travel: float) -> Mapping[str, float]:
    """Turns of the crank, and the hand's path (m), layer by layer."""
    last = float(layer(windlass, rope, travel))
    return worked("windlass", "turns s", "ideal", h=travel, r_c=windlass["crank"], m=last, **_drum(windlass, rope))


@dataclass(frozen=True)
class Winding:
    """A rope wound up against a pull: which rope, the push to start on the hardest layer (N), and its limits."""

    rope: Item | None
    start: float
    checks: tuple[Check, ...]


def wind(bench: Bench, windlass: Item, pull: float, travel: float, more: float) -> Winding:
    """The shortest rope with which every limit is kept, else the one that comes nearest.

    ``more`` is the rope beside that on the drum (m). A thick rope may fill the drum, or reach a layer on which the hand
    is too weak, where a thin one does not: so the drum and the hand are limits of the rope as well.
    """
    ropes: list[tuple[Item | None, Item]] = [(rope, rope) for rope in bench.kit.of("rope")] or [(None, usual("rope"))]
    tried = [_wind(windlass, rope, size, pull, travel, more) for rope, size in ropes]

    def distance(it: Winding) -> tuple[int, float, float]:
        checks = (*it.checks, Check("pull", it.start, bench.pull_limit))
        broken = [check.used for check in checks if not check.passed]
        return len(broken), max(broken, default=0.0), it.rope["length"] if it.rope else 0.0

    return min(tried, key=distance)


def _wind(windlass: Item, rope: Item | None, size: Item, pull: float, travel: float, more: float) -> Winding:
    last, length, full = layer(windlass, size, travel), on_drum(windlass, size, travel), layers(windlass, size)
    cheek = windlass.get("cheek")
    checks = (
        Check("windlass-rated", pull, windlass.rated, item=windlass),
        Check("rope-rated", pull, rope.rated if rope else 0.0, item=rope),
        Check("rope-length", length + more, rope["length"] if rope else 0.0, "length", rope),
        Check("drum", length, holds(windlass, size, full), "length", windlass),
        *(
            ()
            if cheek is None
            else (Check("cheek", (last + SPARE_EDGE) * size["diameter"], cheek, "length", windlass),)
        ),
    )
    return Winding(rope, crank(windlass, size, pull, windlass.spans["efficiency"][0], last), checks)


def question(windlass: Item, rope: Item, pull: float, travel: float) -> dict[str, object]:
    """The calculator's question for a windlass on its hardest layer, ranges by their middle."""
    given = {"R": pull, "r_c": windlass["crank"], "D": windlass["drum"], "t": rope["diameter"], "h": travel}
    given["eta"] = sum(windlass.spans["efficiency"]) / 2
    last = layer(windlass, rope, travel)
    if last == 1:
        return {"calculator": "windlass", "given": given, "choices": {"wind": "layer"}}
    given |= {"b": windlass["width"], "m": float(last)}
    return {"calculator": "windlass", "given": given, "choices": {"wind": "width"}}


def mend_windlass(
    rigged: Rigged, check: Check, bench: Bench, pull: float, travel: float
) -> tuple[Setup, tuple[Item, ...]] | None:
    """A windlass rated for more, with more room on its drum, or with a longer crank."""
    setup, own = rigged.setup, rigged.setup.parts["windlass"]
    if check.code == "windlass-rated":
        other = stronger(own, check.value)
    elif check.code == "drum":
        other = own.changed("windlass with a wider drum", width=up(own["width"] * check.used, factor("in")))
    elif check.code == "cheek":
        other = own.changed("windlass with higher cheeks", cheek=up(check.value, factor("in") / 16))
    elif check.code == "pull" or (check.code == "scale" and check.value > bench.task.strength):
        rope = rigged.picked.get("rope") or usual("rope")
        last = layer(own, rope, travel)
        sizes = {name: value for name, value in _sizes(own, rope, last).items() if name != "r_c"}
        longer = one("windlass", "r_c", R=pull, E=bench.task.strength, eta=own.spans["efficiency"][0], **sizes)
        if longer > LONGEST_CRANK:
            return None
        other = own.changed("windlass with a longer crank", crank=up(longer, factor("in") / 16))
    else:
        return None
    return with_parts(setup, windlass=other), (other,)


LONGEST_CRANK = 0.6096
"""The longest crank that a hand follows round (m): 2 ft, common practice, no source."""


def _rig(bench: Bench, setup: Setup) -> Rigged:
    winding = wind(bench, setup.parts["windlass"], bench.task.R, bench.task.h, 0.0)
    checks = (
        *winding.checks,
        *bench.hanging_checks(),
        *bench.pull_checks(winding.start),
        *bench.room_check(2 * WALKWAY),
    )
    return Rigged(setup, checks, winding.start, {"rope": winding.rope} if winding.rope else {})


def _pulls(bench: Bench, rigged: Rigged) -> Pulls:
    windlass, rope, load = rigged.setup.parts["windlass"], rigged.picked["rope"], bench.task.R
    return _wound_pulls(windlass, rope, rigged.start, bench.task.h, load, load)


def _wound_pulls(windlass: Item, rope: Item, start: float, travel: float, least: float, eased: float) -> Pulls:
    """From the least pull on the first layer to the start's on the last; easing back, by the last layer."""
    last, found = layer(windlass, rope, travel), wound(windlass, rope, travel)
    moving = (crank(windlass, rope, least, windlass.spans["efficiency"][1], 1), start)
    lowering = (0.0, crank_ideal(windlass, rope, eased, last))
    return Pulls(start, moving, lowering, found["s"], "pawl", {"turns": found["turns"], "layer": float(last)})


def _request(bench: Bench, rigged: Rigged) -> dict[str, object]:
    return question(rigged.setup.parts["windlass"], rigged.picked["rope"], bench.task.R, bench.task.h)


def _mend(bench: Bench, rigged: Rigged, check: Check) -> tuple[Setup, tuple[Item, ...]] | None:
    return mend_windlass(rigged, check, bench, bench.task.R, bench.task.h)


def _cases(bench: Bench) -> Iterator[Iterator[Setup]]:
    for item, lacks in windlasses(bench):
        yield iter([Setup("windlass", {"windlass": item}, missing=(item,) if lacks else ())])


# ---- the windlass hauls the rope of a tackle that comes down off its standing block -------------------------------


def _rig_both(bench: Bench, setup: Setup) -> Rigged:
    windlass, load, weight = setup.parts["windlass"], bench.task.R, tackle.moving_weight(setup)
    pull = tackle.effort(setup, load, weight, tackle.keeps(setup)[0])
    hauled = one("tackle", "dE", rove=setup.rove, n=float(setup.n), h=bench.task.h)
    anchor, ratings = tackle.block_checks(bench, setup, load, weight)

    winding = wind(bench, windlass, pull, hauled, tackle.rope_need(setup, bench.task.h))
    checks = (
        *ratings,
        *winding.checks,
        *bench.hanging_checks(),
        *bench.pull_checks(winding.start),
        *bench.room_check(2 * WALKWAY),
    )
    picked = {role: item for role, item in (("rope", winding.rope), ("anchor", anchor)) if item}
    return Rigged(setup, checks, winding.start, picked, {"pull": pull, "hauled": hauled})


def _pulls_both(bench: Bench, rigged: Rigged) -> Pulls:
    setup, load = rigged.setup, bench.task.R
    weight = tackle.moving_weight(setup)
    least = tackle.effort(setup, load, weight, tackle.keeps(setup)[1])
    eased = tackle.lowering(setup, load, weight)[1]
    windlass, rope, hauled = setup.parts["windlass"], rigged.picked["rope"], rigged.numbers["hauled"]
    return _wound_pulls(windlass, rope, rigged.start, hauled, least, eased)


def _stages_both(bench: Bench, rigged: Rigged) -> list[dict[str, object]]:
    setup, load = rigged.setup, bench.task.R
    weight, k = tackle.moving_weight(setup), sum(tackle.keeps(setup)) / 2
    pull, hauled = tackle.effort(setup, load, weight, k), rigged.numbers["hauled"]
    first = question(setup.parts["windlass"], rigged.picked["rope"], pull, hauled)
    return [first, tackle.question(setup, load, weight, bench.task.h)]


def _request_both(bench: Bench, rigged: Rigged) -> dict[str, object]:
    setup, windlass = rigged.setup, rigged.setup.parts["windlass"]
    rope = rigged.picked["rope"]
    k, eta = sum(tackle.keeps(setup)) / 2, sum(windlass.spans["efficiency"]) / 2
    share = one("tackle", "eta", rove=setup.rove, n=float(setup.n), k=k, R=bench.task.R, w=tackle.moving_weight(setup))
    given = {
        "R": bench.task.R,
        "h": bench.task.h,
        "IMA_1": advantage(windlass, rope, layer(windlass, rope, rigged.numbers["hauled"])),
        "eta_1": eta,
        "IMA_2": float(setup.n),
        "eta_2": share,
    }
    return {"calculator": "chain", "given": given, "choices": {"preset": "own"}}


def _mend_both(bench: Bench, rigged: Rigged, check: Check) -> tuple[Setup, tuple[Item, ...]] | None:
    if check.code in ("standing-rated", "moving-rated"):
        return tackle.mend_blocks(rigged, check)
    return mend_windlass(rigged, check, bench, rigged.numbers.get("pull", 0.0), rigged.numbers.get("hauled", 0.0))


def _cases_both(bench: Bench) -> Iterator[Iterator[Setup]]:
    for item, lacks in windlasses(bench):
        rove = tackle.rove_from(bench, "windlass-tackle", "disadvantage", 2, windlass=item)
        yield (lacking(setup, item) if lacks else setup for setup in rove)


WINDLASS = Way("windlass", "Wind it up with a windlass", _cases, _rig, _pulls, _request, _mend)
WINDLASS_TACKLE = Way(
    "windlass-tackle",
    "Windlass hauling a tackle",
    _cases_both,
    _rig_both,
    _pulls_both,
    _request_both,
    _mend_both,
    _stages_both,
)
