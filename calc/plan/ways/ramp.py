"""A load up a plank: sliding, or on a cart, pulled by hand along the slope."""

from __future__ import annotations

from collections.abc import Iterator

from calc.plan.changes import longer, stronger, with_parts
from calc.plan.kit import Item, usual
from calc.plan.relations import NoAnswer, one, worked
from calc.plan.rig import Bench, Check, Pulls, Rigged, Setup, Way
from calc.plan.strength import plank_checks, thicker
from calc.plan.task import TAIL, WALKWAY


def planks(bench: Bench) -> list[tuple[Item, bool]]:
    """Every plank, and whether the kit lacks one."""
    return [(plank, False) for plank in bench.kit.of("plank")] or [(usual("plank"), True)]


def carts(bench: Bench) -> list[tuple[Item, bool]]:
    """Every cart, and whether the kit lacks one."""
    return [(cart, False) for cart in bench.kit.of("cart")] or [(usual("cart"), True)]


def held_up(bench: Bench, setup: Setup) -> Iterator[Setup]:
    """A set-up on a plank, and the same with a prop under its middle."""
    yield setup
    if bench.prop:
        yield with_parts(setup, prop=bench.prop)


def slide_pull(bench: Bench, plank: Item, extra: float = 0.0) -> float:
    """The pull that starts the load up a plank at the worse end of its friction (N). Raises NoAnswer."""
    mu_s = bench.task.mu_s
    if mu_s is None:
        raise NoAnswer("it must not slide")
    return one(
        "ramp",
        "E",
        pull="along",
        motion="start",
        R=bench.task.R + extra,
        h=bench.task.h,
        L=plank["length"],
        mu_s=mu_s[1],
    )


def slide_range(bench: Bench, plank: Item, motion: str, extra: float = 0.0) -> tuple[float, float]:
    """The least and the most pull while it moves up or is eased down (N)."""
    assert bench.task.mu_k is not None
    ends = [
        one("ramp", "E", pull="along", motion=motion, R=bench.task.R + extra, h=bench.task.h, L=plank["length"], mu=mu)
        for mu in bench.task.mu_k
    ]
    return min(ends), max(ends)


def cart_pull(bench: Bench, plank: Item, cart: Item, rolling: float, extra: float = 0.0) -> float:
    """The pull on a cart up a plank (N); ``extra`` hangs on it."""
    return one(
        "cart-ramp",
        "E",
        rope="direct",
        R=bench.task.R,
        w=cart["weight"] + extra,
        h=bench.task.h,
        L=plank["length"],
        C=rolling,
    )


def cart_lowering(bench: Bench, plank: Item, cart: Item, extra: float = 0.0) -> tuple[float, float]:
    """The pull that eases a cart down (N): a rolling coefficient is used just as a friction coefficient."""
    total = bench.task.R + cart["weight"] + extra
    ends = [
        one("ramp", "E", pull="along", motion="down", R=total, h=bench.task.h, L=plank["length"], mu=mu)
        for mu in cart.spans["rolling"]
    ]
    return min(ends), max(ends)


def stays(bench: Bench, plank: Item, mu: float) -> str:
    """Whether a load stays on the slope by itself at the lower end of its friction, or needs a chock."""
    found = worked("ramp", "theta phi", h=bench.task.h, L=plank["length"], mu_s=mu)
    return "stays" if found["theta"] <= found["phi"] else "chock"


def short(bench: Bench, setup: Setup) -> Rigged | None:
    """The refusal of a plank that is not longer than the lift is high."""
    plank = setup.parts["plank"]
    if plank["length"] > bench.task.h * 1.001:
        return None
    return Rigged(setup, (Check("plank-short", bench.task.h, plank["length"] / 1.001, "length", plank),))


def floor(bench: Bench, plank: Item) -> float:
    """The floor that a ramp takes, with room for a person beyond each end (m)."""
    return one("ramp-shape", "b", "plain", h=bench.task.h, L=plank["length"]) + 2 * WALKWAY


def _rig(bench: Bench, setup: Setup) -> Rigged:
    if refused := short(bench, setup):
        return refused
    plank, cart = setup.parts["plank"], setup.parts.get("cart")
    if cart is None and bench.task.mu_s is None:
        return Rigged(setup, (Check("may-slide", 1.0, 0.0, "ratio"),))
    start = cart_pull(bench, plank, cart, cart.spans["rolling"][1]) if cart else slide_pull(bench, plank)
    weight = bench.task.R + (cart["weight"] if cart else 0.0)
    rope, rope_checks = bench.rope_checks(start, plank["length"] + TAIL)
    checks = (
        *((Check("cart-rated", bench.task.R, cart.rated, item=cart),) if cart else ()),
        *rope_checks,
        Check("class-pull", start, bench.task.most),
        *plank_checks(bench, plank, weight, propped="prop" in setup.parts),
        *bench.pull_checks(start),
        *bench.room_check(floor(bench, plank)),
    )
    return Rigged(setup, checks, start, {"rope": rope} if rope else {})


def _pulls(bench: Bench, rigged: Rigged) -> Pulls:
    plank, cart = rigged.setup.parts["plank"], rigged.setup.parts.get("cart")
    path = one("ramp", "dE", h=bench.task.h, L=plank["length"])
    if cart:
        low, high = cart.spans["rolling"]
        moving = (cart_pull(bench, plank, cart, low), cart_pull(bench, plank, cart, high))
        return Pulls(rigged.start, moving, cart_lowering(bench, plank, cart), path, stays(bench, plank, low))
    assert bench.task.mu_s is not None
    moving, lowering = slide_range(bench, plank, "up"), slide_range(bench, plank, "down")
    return Pulls(rigged.start, moving, lowering, path, stays(bench, plank, bench.task.mu_s[0]))


def _request(bench: Bench, rigged: Rigged) -> dict[str, object]:
    return question(bench, rigged.setup)


def question(bench: Bench, setup: Setup, extra: float = 0.0) -> dict[str, object]:
    """The calculator's question for a slope, ranges by their middle; ``extra`` (N) hangs on the load."""
    plank, cart = setup.parts["plank"], setup.parts.get("cart")
    shape = {"R": bench.task.R, "L": plank["length"], "h": bench.task.h}
    if cart:
        low, high = cart.spans["rolling"]
        given = {**shape, "w": cart["weight"] + extra, "C": (low + high) / 2}
        return {"calculator": "cart-ramp", "given": given, "choices": {"rope": "direct"}}
    assert bench.task.mu_k is not None
    assert bench.task.mu_s is not None
    given = {**shape, "R": bench.task.R + extra, "mu": sum(bench.task.mu_k) / 2, "mu_s": sum(bench.task.mu_s) / 2}
    return {"calculator": "ramp", "given": given, "choices": {"pull": "along", "motion": "up"}}


def asked_pull(slope: dict[str, object]) -> float:
    """The pull that answers a slope's question (N)."""
    boxes: dict[str, float | str] = {**slope["given"], **slope["choices"]}  # type: ignore[dict-item]
    return one(str(slope["calculator"]), "E", **boxes)


def longer_plank(bench: Bench, plank: Item, limit: float, cart: Item | None, extra: float = 0.0) -> Item | None:
    """The shortest plank on which the start stays within a limit (N), rounded up to be cut; None if there is none."""
    try:
        if cart:
            weight = cart["weight"] + extra
            asked: dict[str, float | str] = {
                "moves": "rolls",
                "w": weight,
                "C": cart.spans["rolling"][1],
                "R": bench.task.R,
            }
        elif bench.task.mu_s is not None:
            asked = {"moves": "slides", "mu": bench.task.mu_s[1], "R": bench.task.R + extra}
        else:
            return None
        length = one("shortest-ramp", "L", "plain", h=bench.task.h, E_max=limit, **asked)
    except NoAnswer:
        return None
    return longer(plank, max(length, plank["length"])) if length <= LONGEST_PLANK else None


LONGEST_PLANK = 4.8768
"""The longest plank worth naming (m): 16 ft, as lumber is commonly sold; from memory."""


def mend_plank(bench: Bench, rigged: Rigged, check: Check, load: float) -> tuple[Setup, tuple[Item, ...]] | None:
    """The changes that keep a limit of the plank itself, the same for every way with a plank."""
    setup, plank = rigged.setup, rigged.setup.parts["plank"]
    if check.code == "plank-short":
        other = longer(plank, bench.task.h * 1.1)
        return with_parts(setup, plank=other), (other,)
    if check.code in ("bends", "sags"):
        if "prop" not in setup.parts:
            prop = bench.prop or stronger(usual("prop"), 2 * load)
            return with_parts(setup, prop=prop), () if bench.prop else (prop,)
        thick = thicker(bench, plank, load, propped=True)
        return (with_parts(setup, plank=thick), (thick,)) if thick else None
    if check.code == "prop-rated":
        prop = stronger(setup.parts["prop"], check.value)
        return with_parts(setup, prop=prop), (prop,)
    return None


def _mend(bench: Bench, rigged: Rigged, check: Check) -> tuple[Setup, tuple[Item, ...]] | None:
    setup, plank, cart = rigged.setup, rigged.setup.parts["plank"], rigged.setup.parts.get("cart")
    if check.code == "cart-rated" and cart:
        other = stronger(cart, check.value)
        return with_parts(setup, cart=other), (other,)
    if check.code == "pull" or (check.code == "scale" and check.value > bench.task.strength):
        found = longer_plank(bench, plank, bench.task.strength, cart)
        return (with_parts(setup, plank=found), (found,)) if found else None
    return mend_plank(bench, rigged, check, bench.task.R + (cart["weight"] if cart else 0.0))


def _slides(bench: Bench) -> Iterator[Iterator[Setup]]:
    for plank, no_plank in planks(bench):
        yield held_up(bench, Setup("ramp-slide", {"plank": plank}, missing=lacks((plank, no_plank))))


def _rolls(bench: Bench) -> Iterator[Iterator[Setup]]:
    for plank, no_plank in planks(bench):
        for cart, no_cart in carts(bench):
            missing = lacks((plank, no_plank), (cart, no_cart))
            yield held_up(bench, Setup("ramp-cart", {"plank": plank, "cart": cart}, missing=missing))


def lacks(*found: tuple[Item, bool]) -> tuple[Item, ...]:
    """Those things that the kit does not have."""
    return tuple(item for item, missing in found if missing)


SLIDE = Way("ramp-slide", "Slide it up a plank", _slides, _rig, _pulls, _request, _mend)
CART = Way("ramp-cart", "Roll it up a plank", _rolls, _rig, _pulls, _request, _mend)
