"""Two machines in a row on a plank: a tackle along the slope, or a windlass at its top, hauls crate or cart.

The tackle is rove to advantage, so that the hand pulls up the slope and nobody stands below the load. Its moving block
rides on the load and is counted with it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from calc.plan.changes import lacking, stronger, with_parts
from calc.plan.kit import Item
from calc.plan.relations import one, worked
from calc.plan.rig import Bench, Check, Pulls, Rigged, Setup, Way
from calc.plan.strength import plank_checks
from calc.plan.task import TAIL
from calc.plan.ways import ramp, tackle, windlass


def _rope_pull(bench: Bench, setup: Setup) -> float:
    """The pull on the load that starts it (N)."""
    plank, cart, extra = setup.parts["plank"], setup.parts.get("cart"), tackle.moving_weight(setup)
    if cart:
        return ramp.cart_pull(bench, plank, cart, cart.spans["rolling"][1], extra)
    return ramp.slide_pull(bench, plank, extra)


def _rope_range(bench: Bench, setup: Setup) -> tuple[tuple[float, float], tuple[float, float], str]:
    """The pulls on the load while it goes up and while it is eased down (N), and whether it stays."""
    plank, cart, extra = setup.parts["plank"], setup.parts.get("cart"), tackle.moving_weight(setup)
    if cart:
        low, high = cart.spans["rolling"]
        moving = (ramp.cart_pull(bench, plank, cart, low, extra), ramp.cart_pull(bench, plank, cart, high, extra))
        return moving, ramp.cart_lowering(bench, plank, cart, extra), ramp.stays(bench, plank, low)
    assert bench.task.mu_s is not None
    stays = ramp.stays(bench, plank, bench.task.mu_s[0])
    return (
        ramp.slide_range(bench, plank, "up", extra),
        ramp.slide_range(bench, plank, "down", extra),
        stays,
    )


def _rig(bench: Bench, setup: Setup) -> Rigged:
    if refused := ramp.short(bench, setup):
        return refused
    plank, cart = setup.parts["plank"], setup.parts.get("cart")
    if cart is None and bench.task.mu_s is None:
        return Rigged(setup, (Check("may-slide", 1.0, 0.0, "ratio"),))
    pull = _rope_pull(bench, setup)
    weight = bench.task.R + tackle.moving_weight(setup) + (cart["weight"] if cart else 0.0)
    ratings: tuple[Check, ...]
    rope_checks: tuple[Check, ...]
    if setup.n:
        start = tackle.effort(setup, pull, 0.0, tackle.keeps(setup)[0])
        anchor, ratings = tackle.block_checks(bench, setup, pull, 0.0, sideways=True)
        rope, rope_checks = bench.rope_checks(start, tackle.rope_need(setup, plank["length"]))
    else:
        drum = setup.parts["windlass"]
        anchor = None
        winding = windlass.wind(bench, drum, pull, plank["length"], TAIL)
        start, rope, (rating, *others) = winding.start, winding.rope, winding.checks
        ratings, rope_checks = (rating,), tuple(others)
    checks = (
        *((Check("cart-rated", bench.task.R, cart.rated, item=cart),) if cart else ()),
        *ratings,
        *rope_checks,
        Check("class-pull", pull, bench.task.most),
        *plank_checks(bench, plank, weight, propped="prop" in setup.parts),
        *bench.pull_checks(start),
        *bench.room_check(ramp.floor(bench, plank)),
    )
    picked = {role: item for role, item in (("rope", rope), ("anchor", anchor)) if item}
    return Rigged(setup, checks, start, picked, {"pull": pull})


def _pulls(bench: Bench, rigged: Rigged) -> Pulls:
    setup, rope = rigged.setup, rigged.picked["rope"]
    moving, lowering, stays = _rope_range(bench, setup)
    path = one("ramp", "dE", h=bench.task.h, L=setup.parts["plank"]["length"])
    if setup.n:
        low, high = tackle.keeps(setup)
        hand = (tackle.effort(setup, moving[0], 0.0, high), tackle.effort(setup, moving[1], 0.0, low))
        ends = (tackle.lowering(setup, end, 0.0) if end > 0 else (0.0, 0.0) for end in lowering)
        (least, _), (_, most) = ends
        hauled = one("tackle", "dE", rove=setup.rove, n=float(setup.n), h=path)
        return Pulls(rigged.start, hand, (least, most), hauled, stays)
    drum = setup.parts["windlass"]
    low, high = drum.spans["efficiency"]
    last = windlass.layer(drum, rope, path)
    hand = (windlass.crank(drum, rope, moving[0], high, 1), windlass.crank(drum, rope, moving[1], low, last))
    eased = windlass.crank_ideal(drum, rope, lowering[1], last) if lowering[1] > 0 else 0.0
    wound = windlass.wound(drum, rope, path)
    facts = {"turns": wound["turns"], "layer": float(last)}
    return Pulls(rigged.start, hand, (0.0, eased), wound["s"], "stays" if stays == "stays" else "pawl", facts)


def _request(bench: Bench, rigged: Rigged) -> dict[str, object]:
    setup = rigged.setup
    plank, cart, extra = setup.parts["plank"], setup.parts.get("cart"), tackle.moving_weight(setup)
    shape = {"h": bench.task.h, "L": plank["length"]}
    load = bench.task.R
    if cart:
        rolling = sum(cart.spans["rolling"]) / 2
        slope = worked("cart-ramp", "IMA eta", rope="direct", R=load, w=cart["weight"] + extra, C=rolling, **shape)
    else:
        assert bench.task.mu_k is not None
        load += extra
        slope = worked("ramp", "IMA eta", pull="along", motion="up", R=load, mu=sum(bench.task.mu_k) / 2, **shape)
    if setup.n:
        k = sum(tackle.keeps(setup)) / 2
        first = (float(setup.n), one("tackle", "eta", rove=setup.rove, n=float(setup.n), k=k, R=load, w=0.0))
    else:
        drum = setup.parts["windlass"]
        rope = rigged.picked["rope"]
        last = windlass.layer(drum, rope, plank["length"])
        first = (windlass.advantage(drum, rope, last), sum(drum.spans["efficiency"]) / 2)
    given = {
        "R": load,
        "h": bench.task.h,
        "IMA_1": first[0],
        "eta_1": first[1],
        "IMA_2": slope["IMA"],
        "eta_2": slope["eta"],
    }
    return {"calculator": "chain", "given": given, "choices": {"preset": "own"}}


def _stages(bench: Bench, rigged: Rigged) -> list[dict[str, object]]:
    setup = rigged.setup
    slope = ramp.question(bench, setup, tackle.moving_weight(setup))
    pull = ramp.asked_pull(slope)
    if setup.n:
        return [tackle.question(setup, pull, 0.0, setup.parts["plank"]["length"]), slope]
    return [
        windlass.question(setup.parts["windlass"], rigged.picked["rope"], pull, setup.parts["plank"]["length"]),
        slope,
    ]


def _mend(bench: Bench, rigged: Rigged, check: Check) -> tuple[Setup, tuple[Item, ...]] | None:
    setup, cart = rigged.setup, rigged.setup.parts.get("cart")
    if check.code == "cart-rated" and cart:
        other = stronger(cart, check.value)
        return with_parts(setup, cart=other), (other,)
    if check.code in ("standing-rated", "moving-rated"):
        return tackle.mend_blocks(rigged, check)
    if check.code in ("windlass-rated", "drum", "cheek"):
        return windlass.mend_windlass(rigged, check, bench, rigged.numbers["pull"], setup.parts["plank"]["length"])
    if check.code == "pull" or (check.code == "scale" and check.value > bench.task.strength):
        if setup.n:
            return tackle.more_parts(bench, setup, rigged.numbers["pull"], bench.task.strength)
        return windlass.mend_windlass(rigged, check, bench, rigged.numbers["pull"], setup.parts["plank"]["length"])
    weight = bench.task.R + tackle.moving_weight(setup) + (cart["weight"] if cart else 0.0)
    return ramp.mend_plank(bench, rigged, check, weight)


def _tackled(way: str, *, rolls: bool) -> Callable[[Bench], Iterator[Iterator[Setup]]]:
    def cases(bench: Bench) -> Iterator[Iterator[Setup]]:
        for plank, no_plank in ramp.planks(bench):
            for cart, no_cart in ramp.carts(bench) if rolls else [(None, False)]:
                parts = {"plank": plank, **({"cart": cart} if cart else {})}
                lacks = (*((plank,) if no_plank else ()), *((cart,) if cart and no_cart else ()))
                yield _propped(bench, tackle.rove_from(bench, way, "advantage", 2, **parts), lacks)

    return cases


def _wound(bench: Bench) -> Iterator[Iterator[Setup]]:
    for plank, no_plank in ramp.planks(bench):
        for cart, no_cart in ramp.carts(bench):
            lacks = ramp.lacks((plank, no_plank), (cart, no_cart))
            drums = (
                lacking(Setup("windlass-cart", {"plank": plank, "cart": cart, "windlass": drum}), *([drum] * no_drum))
                for drum, no_drum in windlass.windlasses(bench)
            )
            yield _propped(bench, drums, lacks)


def _propped(bench: Bench, setups: Iterator[Setup], lacks: tuple[Item, ...]) -> Iterator[Setup]:
    for setup in setups:
        yield from ramp.held_up(bench, lacking(setup, *lacks) if lacks else setup)


TACKLE_CART = Way(
    "tackle-cart",
    "Tackle hauling a cart up a plank",
    _tackled("tackle-cart", rolls=True),
    _rig,
    _pulls,
    _request,
    _mend,
    _stages,
)
TACKLE_SLIDE = Way(
    "tackle-slide",
    "Tackle hauling the load up a plank",
    _tackled("tackle-slide", rolls=False),
    _rig,
    _pulls,
    _request,
    _mend,
    _stages,
)
WINDLASS_CART = Way(
    "windlass-cart",
    "Windlass hauling a cart up a plank",
    _wound,
    _rig,
    _pulls,
    _request,
    _mend,
    _stages,
)
