"""A load raised on the guided plate of a screw stand, the handle turned by hand."""

from __future__ import annotations

from collections.abc import Iterator

from calc.plan.changes import stronger, with_parts
from calc.plan.kit import Item, usual
from calc.plan.relations import one, worked
from calc.plan.rig import Bench, Check, Pulls, Rigged, Setup, Way
from calc.plan.task import WALKWAY


def _given(bench: Bench, screw: Item, mu: float) -> dict[str, float | str]:
    sizes = {"j": 1.0, "r": screw["handle"], "d_c": screw["collar"], "mu": mu, "mu_c": mu}
    return {"thread": screw.words["thread"], "collar": "rubs", "R": bench.task.R, "h": bench.task.h, **sizes}


def _rig(bench: Bench, setup: Setup) -> Rigged:
    screw = setup.parts["screw"]
    start = one("screw-with-friction", "E", **_given(bench, screw, screw.spans["friction"][1]))
    checks = (
        Check("screw-rated", bench.task.R, screw.rated, item=screw),
        Check("travel", bench.task.h, screw["travel"], "length", screw),
        *bench.pull_checks(start),
        *bench.room_check(2 * WALKWAY),
    )
    return Rigged(setup, checks, start)


def _pulls(bench: Bench, rigged: Rigged) -> Pulls:
    screw = rigged.setup.parts["screw"]
    slick, rough = (
        worked("screw-with-friction", "E E_down T_l turns", **_given(bench, screw, mu))
        for mu in screw.spans["friction"]
    )
    path = one("screw-with-friction", "dE", **_given(bench, screw, screw.spans["friction"][0]))
    stays = "stays" if slick["T_l"] >= 0 else "hold"
    lowering = (slick["E_down"], rough["E_down"])
    return Pulls(rigged.start, (slick["E"], rough["E"]), lowering, path, stays, {"turns": slick["turns"]})


def _request(bench: Bench, rigged: Rigged) -> dict[str, object]:
    screw = rigged.setup.parts["screw"]
    given = dict(_given(bench, screw, sum(screw.spans["friction"]) / 2))
    choices = {"thread": str(given.pop("thread")), "collar": str(given.pop("collar"))}
    return {"calculator": "screw-with-friction", "given": given, "choices": choices}


def _mend(bench: Bench, rigged: Rigged, check: Check) -> tuple[Setup, tuple[Item, ...]] | None:
    setup, screw = rigged.setup, rigged.setup.parts["screw"]
    if check.code == "screw-rated":
        other = stronger(screw, check.value)
    elif check.code == "travel" and check.value <= LONGEST_TRAVEL:
        other = screw.changed("screw stand with more travel", travel=check.value)
    else:
        return None
    return with_parts(setup, screw=other), (other,)


LONGEST_TRAVEL = 0.3048
"""The longest travel of a screw stand worth naming (m): 1 ft, common practice, no source."""


def _cases(bench: Bench) -> Iterator[Iterator[Setup]]:
    own = bench.kit.of("screw")
    for screw in own or [usual("screw")]:
        yield iter([Setup("screw", {"screw": screw}, missing=() if own else (screw,))])


SCREW = Way("screw", "Raise it on a screw stand", _cases, _rig, _pulls, _request, _mend)
