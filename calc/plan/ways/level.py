"""A load moved along a level floor: dragged, or on a cart; by hand, by a tackle along the floor, or by a windlass.

A cart's rolling coefficient is used just as a friction coefficient, so both ask the level drag's relations. A tackle is
rove to advantage: the hand pulls the way the load goes. Its moving block rides on the load and is counted with it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from calc.plan.changes import lacking, stronger, with_parts
from calc.plan.kit import Item
from calc.plan.relations import one
from calc.plan.rig import Bench, Check, Pulls, Rigged, Setup, Way
from calc.plan.task import TAIL, WALKWAY
from calc.plan.ways import ramp, tackle, windlass


def _weight(bench: Bench, setup: Setup) -> float:
    """What lies or rolls on the floor (N)."""
    cart = setup.parts.get("cart")
    return bench.task.R + tackle.moving_weight(setup) + (cart["weight"] if cart else 0.0)


def _along(bench: Bench, setup: Setup, mu: float) -> float:
    """The level pull on the load against friction (N)."""
    return one("level-drag", "E", motion="keep", R=_weight(bench, setup), mu=mu, delta=0.0)


def _start(bench: Bench, setup: Setup) -> float:
    """The pull on the load that starts it at the worse end of its friction (N)."""
    cart, mu_s = setup.parts.get("cart"), bench.task.mu_s
    assert cart or mu_s
    return _along(bench, setup, cart.spans["rolling"][1] if cart else mu_s[1])  # type: ignore[index]


def _keeps(bench: Bench, setup: Setup) -> tuple[float, float]:
    """The least and the most friction coefficient while it moves."""
    cart = setup.parts.get("cart")
    found = cart.spans["rolling"] if cart else bench.task.mu_k
    assert found is not None
    return found


def _rig(bench: Bench, setup: Setup) -> Rigged:
    cart, way = setup.parts.get("cart"), bench.task.d
    if cart is None and bench.task.mu_s is None:
        return Rigged(setup, (Check("may-slide", 1.0, 0.0, "ratio"),))
    pull = start = _start(bench, setup)
    anchor: Item | None = None
    checks: tuple[Check, ...]
    if setup.n:
        start = tackle.effort(setup, pull, 0.0, tackle.keeps(setup)[0])
        anchor, ratings = tackle.block_checks(bench, setup, pull, 0.0, sideways=True)
        rope, rope_checks = bench.rope_checks(start, tackle.rope_need(setup, way))
        checks = (*ratings, *rope_checks)
    elif "windlass" in setup.parts:
        winding = windlass.wind(bench, setup.parts["windlass"], pull, way, TAIL)
        start, rope, checks = winding.start, winding.rope, winding.checks
    else:
        rope, checks = bench.rope_checks(pull, TAIL)
    checks = (
        *((Check("cart-rated", bench.task.R, cart.rated, item=cart),) if cart else ()),
        *checks,
        Check("class-pull", pull, bench.task.most),
        *bench.pull_checks(start),
        *bench.room_check(way + TAIL + 2 * WALKWAY),
    )
    picked = {role: item for role, item in (("rope", rope), ("anchor", anchor)) if item}
    return Rigged(setup, checks, start, picked, {"pull": pull})


def _pulls(bench: Bench, rigged: Rigged) -> Pulls:
    setup, way = rigged.setup, bench.task.d
    least, most = (_along(bench, setup, mu) for mu in _keeps(bench, setup))
    stops = "coasts" if "cart" in setup.parts else "rests"
    nothing, moved = (0.0, 0.0), {"moved": _weight(bench, setup)}
    if setup.n:
        low, high = tackle.keeps(setup)
        hand = (tackle.effort(setup, least, 0.0, high), tackle.effort(setup, most, 0.0, low))
        hauled = one("tackle", "dE", rove=setup.rove, n=float(setup.n), h=way)
        return Pulls(rigged.start, hand, nothing, hauled, stops, moved)
    if drum := setup.parts.get("windlass"):
        rope, (low, high) = rigged.picked["rope"], drum.spans["efficiency"]
        last, found = windlass.layer(drum, rope, way), windlass.wound(drum, rope, way)
        hand = (windlass.crank(drum, rope, least, high, 1), windlass.crank(drum, rope, most, low, last))
        facts = {"turns": found["turns"], "layer": float(last)}
        return Pulls(rigged.start, hand, nothing, found["s"], stops, {**moved, **facts})
    return Pulls(rigged.start, (least, most), nothing, way, stops, moved)


def _drag(bench: Bench, setup: Setup) -> dict[str, object]:
    given = {"R": _weight(bench, setup), "mu": sum(_keeps(bench, setup)) / 2, "delta": 0.0, "d": bench.task.d}
    return {"calculator": "level-drag", "given": given, "choices": {"motion": "keep"}}


def _request(bench: Bench, rigged: Rigged) -> dict[str, object]:
    return next(iter(_stages(bench, rigged)), None) or _drag(bench, rigged.setup)


def _stages(bench: Bench, rigged: Rigged) -> list[dict[str, object]]:
    setup = rigged.setup
    pull = _along(bench, setup, sum(_keeps(bench, setup)) / 2)
    if setup.n:
        return [tackle.question(setup, pull, 0.0, bench.task.d), _drag(bench, setup)]
    if drum := setup.parts.get("windlass"):
        return [windlass.question(drum, rigged.picked["rope"], pull, bench.task.d), _drag(bench, setup)]
    return []


def _mend(bench: Bench, rigged: Rigged, check: Check) -> tuple[Setup, tuple[Item, ...]] | None:
    setup, cart = rigged.setup, rigged.setup.parts.get("cart")
    if check.code == "may-slide":
        return None
    if check.code == "cart-rated" and cart:
        other = stronger(cart, check.value)
        return with_parts(setup, cart=other), (other,)
    if check.code in ("standing-rated", "moving-rated"):
        return tackle.mend_blocks(rigged, check)
    if "windlass" in setup.parts:
        return windlass.mend_windlass(rigged, check, bench, rigged.numbers["pull"], bench.task.d)
    if setup.n and (check.code == "pull" or (check.code == "scale" and check.value > bench.task.strength)):
        return tackle.more_parts(bench, setup, rigged.numbers["pull"], bench.task.strength)
    return None


def _loads(bench: Bench, *, rolls: bool) -> list[tuple[dict[str, Item], tuple[Item, ...]]]:
    """What moves beside the load, and what of it the kit lacks: nothing, or each cart."""
    if not rolls:
        return [({}, ())]
    return [({"cart": cart}, (cart,) if lacks else ()) for cart, lacks in ramp.carts(bench)]


def _by_hand(way: str, *, rolls: bool) -> Callable[[Bench], Iterator[Iterator[Setup]]]:
    def cases(bench: Bench) -> Iterator[Iterator[Setup]]:
        for parts, lacks in _loads(bench, rolls=rolls):
            yield iter([Setup(way, parts, missing=lacks)])

    return cases


def _by_tackle(way: str, *, rolls: bool) -> Callable[[Bench], Iterator[Iterator[Setup]]]:
    def cases(bench: Bench) -> Iterator[Iterator[Setup]]:
        for parts, lacks in _loads(bench, rolls=rolls):
            yield (lacking(setup, *lacks) for setup in tackle.rove_from(bench, way, "advantage", 2, **parts))

    return cases


def _by_windlass(way: str, *, rolls: bool) -> Callable[[Bench], Iterator[Iterator[Setup]]]:
    def cases(bench: Bench) -> Iterator[Iterator[Setup]]:
        for parts, lacks in _loads(bench, rolls=rolls):
            for drum, no_drum in windlass.windlasses(bench):
                missing = (*lacks, *((drum,) if no_drum else ()))
                yield iter([Setup(way, {**parts, "windlass": drum}, missing=missing)])

    return cases


def _way(key: str, title: str, cases: Callable[[Bench], Iterator[Iterator[Setup]]]) -> Way:
    return Way(key, title, cases, _rig, _pulls, _request, _mend, _stages, "level")


WAYS = (
    _way("level-cart", "Roll it along on a cart", _by_hand("level-cart", rolls=True)),
    _way("level-drag", "Drag it along the floor", _by_hand("level-drag", rolls=False)),
    _way("tackle-level-cart", "Tackle hauling a cart along", _by_tackle("tackle-level-cart", rolls=True)),
    _way("tackle-level-drag", "Tackle dragging it along", _by_tackle("tackle-level-drag", rolls=False)),
    _way("windlass-level-cart", "Windlass hauling a cart along", _by_windlass("windlass-level-cart", rolls=True)),
    _way("windlass-level-drag", "Windlass dragging it along", _by_windlass("windlass-level-drag", rolls=False)),
)
