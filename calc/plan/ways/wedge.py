"""A guided load lifted by a levelling wedge that is pushed in steadily, never struck."""

from __future__ import annotations

from collections.abc import Iterator

from calc.plan.kit import usual
from calc.plan.relations import one
from calc.plan.rig import Bench, Check, Pulls, Rigged, Setup, Way
from calc.plan.task import WALKWAY

_CASE = {"kind": "single", "faces": "one", "guide": "free"}


def _push(bench: Bench, setup: Setup, mu: float) -> float:
    wedge = setup.parts["wedge"]
    return one("wedge-with-friction", "E", **_CASE, R=bench.task.R, ell=wedge["length"], t=wedge["thickness"], mu=mu)


def _rig(bench: Bench, setup: Setup) -> Rigged:
    wedge = setup.parts["wedge"]
    start = _push(bench, setup, wedge.spans["friction"][1])
    checks = (
        Check("class-load", bench.task.R, bench.task.most),
        Check("wedge-thick", bench.task.h, wedge["thickness"], "length", wedge),
        *bench.pull_checks(start),
        *bench.room_check(2 * WALKWAY),
    )
    return Rigged(setup, checks, start)


def _pulls(bench: Bench, rigged: Rigged) -> Pulls:
    setup, wedge = rigged.setup, rigged.setup.parts["wedge"]
    low, high = wedge.spans["friction"]
    shape = {"R": bench.task.R, "ell": wedge["length"], "t": wedge["thickness"]}
    ends = [one("wedge-with-friction", "E_out", **_CASE, **shape, mu=mu) for mu in (low, high)]
    ratio = one("wedge-with-friction", "IMA", **_CASE, **shape, mu=low)
    path = one("any-machine", "dE", "ideal", IMA=ratio, dR=bench.task.h)
    stays = "stays" if ends[0] >= 0 else "hold"  # it must be drawn out, at the lower end of its friction
    moving = (_push(bench, setup, low), rigged.start)
    return Pulls(rigged.start, moving, (max(ends[0], 0.0), max(ends[1], 0.0)), path, stays)


def _request(bench: Bench, rigged: Rigged) -> dict[str, object]:
    wedge = rigged.setup.parts["wedge"]
    given = {
        "R": bench.task.R,
        "ell": wedge["length"],
        "t": wedge["thickness"],
        "mu": sum(wedge.spans["friction"]) / 2,
    }
    return {"calculator": "wedge-with-friction", "given": given, "choices": {**_CASE, "surfaces": "own"}}


def _cases(bench: Bench) -> Iterator[Iterator[Setup]]:
    own = bench.kit.of("wedge")
    for wedge in own or [usual("wedge")]:
        yield iter([Setup("wedge", {"wedge": wedge}, missing=() if own else (wedge,))])


WEDGE = Way("wedge", "Push a wedge under it", _cases, _rig, _pulls, _request)
