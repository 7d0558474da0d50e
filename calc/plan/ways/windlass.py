"""A load lifted by a windlass, straight or with a tackle between; and the windlass as the first of two machines."""

from __future__ import annotations

from collections.abc import Iterator

from calc.plan.changes import lacking, stronger, up, with_parts
from calc.plan.kit import Item, usual
from calc.plan.relations import NoAnswer, one, worked
from calc.plan.rig import Bench, Check, Pulls, Rigged, Setup, Way
from calc.plan.task import WALKWAY
from calc.plan.ways import tackle
from calc.units import factor


def windlasses(bench: Bench) -> list[tuple[Item, bool]]:
    """Every windlass, and whether the kit lacks one."""
    return [(item, False) for item in bench.kit.of("windlass")] or [(usual("windlass"), True)]


def crank(windlass: Item, rope: Item | None, pull: float, efficiency: float) -> float:
    """The push on the crank that winds up a rope against a pull (N)."""
    return one("windlass", "E", R=pull, eta=efficiency, **_sizes(windlass, rope))


def crank_ideal(windlass: Item, rope: Item | None, pull: float) -> float:
    """The push without any friction: easing back takes no more than that (N)."""
    return one("windlass", "E", "ideal", R=pull, **_sizes(windlass, rope))


def advantage(windlass: Item, rope: Item | None) -> float:
    """The ideal advantage of crank and drum."""
    return one("windlass", "IMA", "ideal", **_sizes(windlass, rope))


def _sizes(windlass: Item, rope: Item | None) -> dict[str, float | str]:
    thick = rope["diameter"] if rope else usual("rope")["diameter"]
    return {"wind": "layer", "r_c": windlass["crank"], "D": windlass["drum"], "t": thick, "m": 1.0}


def drum_checks(windlass: Item, rope: Item | None, pull: float, travel: float) -> tuple[Check, ...]:
    """The windlass's rating, and its first layer, which must take the rope wound up beside three dead turns."""
    thick = rope["diameter"] if rope else usual("rope")["diameter"]
    turns = one("windlass", "turns", "ideal", h=travel, **_sizes(windlass, rope))
    try:
        room = one("windlass", "p", "ideal", wind="width", b=windlass["width"], t=thick)
    except NoAnswer:  # the drum has no room beside its dead turns
        room = DEAD_TURNS
    return (
        Check("windlass-rated", pull, windlass.rated, item=windlass),
        Check("drum", turns + DEAD_TURNS, room, "turns", windlass),
    )


DEAD_TURNS = 3.0
"""Turns of rope that stay on the drum: common practice, no source."""


def on_drum(windlass: Item, rope: Item, travel: float) -> float:
    """The rope that goes round the drum for a travel, with its dead turns (m)."""
    return one("windlass", "l", "ideal", wind="width", h=travel, D=windlass["drum"], t=rope["diameter"])


def mend_windlass(rigged: Rigged, check: Check, bench: Bench, pull: float) -> tuple[Setup, tuple[Item, ...]] | None:
    """A windlass rated for more, or with a longer crank."""
    setup, own = rigged.setup, rigged.setup.parts["windlass"]
    if check.code == "windlass-rated":
        other = stronger(own, check.value)
    elif check.code == "drum":
        other = own.changed("windlass with a wider drum", width=up(own["width"] * check.used, factor("in")))
    elif check.code == "pull" or (check.code == "scale" and check.value > bench.task.strength):
        rope = rigged.picked.get("rope")
        sizes = {name: value for name, value in _sizes(own, rope).items() if name != "r_c"}
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
    windlass, load = setup.parts["windlass"], bench.task.R
    rope, rope_checks = bench.rope_checks(load, lambda rope: on_drum(windlass, rope, bench.task.h))
    start = crank(windlass, rope, load, windlass.spans["efficiency"][0])
    rating, drum = drum_checks(windlass, rope, load, bench.task.h)
    checks = (
        rating,
        *rope_checks,
        drum,
        *bench.hanging_checks(),
        *bench.pull_checks(start),
        *bench.room_check(2 * WALKWAY),
    )
    return Rigged(setup, checks, start, {"rope": rope} if rope else {})


def _pulls(bench: Bench, rigged: Rigged) -> Pulls:
    windlass, rope, load = rigged.setup.parts["windlass"], rigged.picked["rope"], bench.task.R
    moving = (crank(windlass, rope, load, windlass.spans["efficiency"][1]), rigged.start)
    found = worked("windlass", "s turns", "ideal", h=bench.task.h, **_sizes(windlass, rope))
    lowering = (0.0, crank_ideal(windlass, rope, load))
    return Pulls(rigged.start, moving, lowering, found["s"], "pawl", {"turns": found["turns"]})


def _request(bench: Bench, rigged: Rigged) -> dict[str, object]:
    windlass, rope = rigged.setup.parts["windlass"], rigged.picked["rope"]
    given = {
        "R": bench.task.R,
        "r_c": windlass["crank"],
        "D": windlass["drum"],
        "t": rope["diameter"],
        "h": bench.task.h,
        "eta": sum(windlass.spans["efficiency"]) / 2,
    }
    return {"calculator": "windlass", "given": given, "choices": {"wind": "layer"}}


def _mend(bench: Bench, rigged: Rigged, check: Check) -> tuple[Setup, tuple[Item, ...]] | None:
    return mend_windlass(rigged, check, bench, bench.task.R)


def _cases(bench: Bench) -> Iterator[Iterator[Setup]]:
    for item, lacks in windlasses(bench):
        yield iter([Setup("windlass", {"windlass": item}, missing=(item,) if lacks else ())])


# ---- the windlass hauls the rope of a tackle that comes down off its standing block -------------------------------


def _rig_both(bench: Bench, setup: Setup) -> Rigged:
    windlass, load, weight = setup.parts["windlass"], bench.task.R, tackle.moving_weight(setup)
    pull = tackle.effort(setup, load, weight, tackle.keeps(setup)[0])
    hauled = one("tackle", "dE", rove=setup.rove, n=float(setup.n), h=bench.task.h)
    anchor, ratings = tackle.block_checks(bench, setup, load, weight)

    def need(rope: Item) -> float:
        return tackle.rope_need(setup, bench.task.h) + on_drum(windlass, rope, hauled)

    rope, rope_checks = bench.rope_checks(pull, need)
    start = crank(windlass, rope, pull, windlass.spans["efficiency"][0])
    rating, drum = drum_checks(windlass, rope, pull, hauled)
    checks = (
        *ratings,
        rating,
        *rope_checks,
        drum,
        *bench.hanging_checks(),
        *bench.pull_checks(start),
        *bench.room_check(2 * WALKWAY),
    )
    picked = {role: item for role, item in (("rope", rope), ("anchor", anchor)) if item}
    return Rigged(setup, checks, start, picked, {"pull": pull, "hauled": hauled})


def _pulls_both(bench: Bench, rigged: Rigged) -> Pulls:
    setup, rope = rigged.setup, rigged.picked["rope"]
    windlass, load, weight = setup.parts["windlass"], bench.task.R, tackle.moving_weight(setup)
    least = tackle.effort(setup, load, weight, tackle.keeps(setup)[1])
    moving = (crank(windlass, rope, least, windlass.spans["efficiency"][1]), rigged.start)
    eased = tackle.lowering(setup, load, weight)[1]
    found = worked("windlass", "s turns", "ideal", h=rigged.numbers["hauled"], **_sizes(windlass, rope))
    lowering = (0.0, crank_ideal(windlass, rope, eased))
    return Pulls(rigged.start, moving, lowering, found["s"], "pawl", {"turns": found["turns"]})


def _request_both(bench: Bench, rigged: Rigged) -> dict[str, object]:
    setup, windlass = rigged.setup, rigged.setup.parts["windlass"]
    k, eta = sum(tackle.keeps(setup)) / 2, sum(windlass.spans["efficiency"]) / 2
    share = one("tackle", "eta", rove=setup.rove, n=float(setup.n), k=k, R=bench.task.R, w=tackle.moving_weight(setup))
    given = {
        "R": bench.task.R,
        "h": bench.task.h,
        "IMA_1": advantage(windlass, rigged.picked["rope"]),
        "eta_1": eta,
        "IMA_2": float(setup.n),
        "eta_2": share,
    }
    return {"calculator": "chain", "given": given, "choices": {"preset": "own"}}


def _mend_both(bench: Bench, rigged: Rigged, check: Check) -> tuple[Setup, tuple[Item, ...]] | None:
    if check.code in ("standing-rated", "moving-rated"):
        return tackle.mend_blocks(rigged, check)
    return mend_windlass(rigged, check, bench, rigged.numbers.get("pull", 0.0))


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
)
