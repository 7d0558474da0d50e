"""Plans with known answers: the reference calculations J22, J36, J40, J42 and J43, and some worked by hand by energy.

The reference calculations were each computed by two routes (shared/checks/reference_calculations.json). The others are
worked from work in = work out + work of friction (virtual work), which neither the calculators nor the brute force use;
each stands beside its sum.
"""

from __future__ import annotations

from dataclasses import replace
from math import cos, pi, radians, sin, sqrt, tan
from typing import Any

import pytest

from calc.plan.kit import Item, Kit, read_kit, usual
from calc.plan.mending import mend
from calc.plan.ranking import Option, make_plan
from calc.plan.rig import Bench, Setup, rigged
from calc.plan.strength import plank_checks
from calc.plan.task import Task, read_task
from calc.plan.ways import WAYS
from calc.plan.ways.ramp import longer_plank
from calc.plan.ways.tackle import more_parts, rope_need, sheaves_needed
from calc.units import factor

LBF, INCH, PSI = factor("lbf"), factor("in"), factor("psi")


def kit(**rows: list[dict[str, str]]) -> Kit:
    read, problems = read_kit(rows)
    assert not problems, problems
    return read


def task(**given: str) -> Task:
    read, errors = read_task({"most": "500 lbf", "surfaces": "no", **given}, "us")
    assert read is not None, errors
    return read


def sliding(low: str, high: str) -> dict[str, str]:
    return {"surfaces": "own", "mu_s": f"{low} to {high}", "mu_k": f"{low} to {high}"}


SCALE = {"capacity": "50 lbf"}
ROPE = {"length": "60 ft", "diameter": "0.5 in", "rated": "500 lbf"}


# ---- the reference calculations -------------------------------------------------------------------------------------


@pytest.mark.parametrize(("limit", "length"), [(50, 92.0958), (40, 128.008)])
def test_j22_the_shortest_plank_for_a_pull_limit(limit: float, length: float) -> None:
    """Rounded up to a sixteenth of an inch, as a plank to be cut."""
    asked = Bench(kit(), task(R="140 lbf", h="24 in", **sliding("0.1", "0.1")))
    plank = usual("plank").changed("short", length=30 * INCH)
    found = longer_plank(asked, plank, limit * LBF, None)
    assert found is not None
    assert length <= found["length"] / INCH + 1e-3 < length + 1 / 16 + 1e-3


def test_j36_the_plank_of_the_reference_calculation_is_refused() -> None:
    """Its load of 220 lbf has the allowance in it already: 220/1.5 on the plank."""
    plank = usual("plank")
    asked = Bench(kit(), task(R="60 lbf", h="24 in"))
    bends, sags = plank_checks(asked, plank, 220 / 1.5 * LBF, propped=False)
    assert bends.value / PSI == pytest.approx(1564.2, rel=1e-5)
    assert sags.value / INCH == pytest.approx(1.35406, rel=1e-5)
    assert 60 * sags.limit / sags.value == pytest.approx(70.8979, rel=1e-5)
    assert not bends.passed
    assert sags.passed


def test_j40_the_rope_of_a_tackle() -> None:
    block = usual("block").changed("double", sheaves=2.0)
    setup = Setup("tackle", {"standing": block, "moving": block}, 4, "disadvantage")
    assert rope_need(setup, 72 * INCH) / INCH == pytest.approx(411.708, rel=1e-6)


@pytest.mark.parametrize(
    ("keeps", "rove", "parts"),
    [(1.0, "disadvantage", 6), (0.92, "disadvantage", 8), (0.92, "advantage", 7), (0.8, "disadvantage", 0)],
)
def test_j42_the_fewest_parts(keeps: float, rove: str, parts: int) -> None:
    """200 lbf and a 6 lbf block under 40 lbf; no number of parts does it with 80 % a sheave."""
    block = replace(usual("block"), spans={"keeps": (keeps, keeps)}).changed("block", weight=6 * LBF)
    roles = ("standing", "moving") if rove == "disadvantage" else ("moving",)
    setup = Setup("tackle", dict.fromkeys(roles, block), 2, rove)
    asked = Bench(kit(), task(R="200 lbf", h="6 in", pull="40 lbf"))
    found = more_parts(asked, setup, 200 * LBF, 40 * LBF)
    assert (found[0].n if found else 0) == parts
    if found:
        needed = sheaves_needed(parts, rove)
        assert [item["sheaves"] for item in found[1]] == list(needed)


def test_j43_the_bar_for_a_planters_edge() -> None:
    """aE 49.92 in from a pivot at 6 in: the mend asks for that bar, to a sixteenth. One swing lifts 3.10583 in."""
    bar = {"length": "54 in", "weight": "8 lbf", "arm": "6 in", "balance": "30 in", "efficiency": "100 %"}
    asked = Bench(kit(scale=[SCALE], bar=[bar]), task(R="240 lbf", h="3 in"))
    (refusal,) = (r for r in make_plan(asked).refusals if r.way.key == "lever")
    assert refusal.check.code == "pull"
    assert refusal.mend is not None
    (longer,) = refusal.mend.items
    assert 49.92 <= longer["length"] / INCH - 6 < 49.92 + 1 / 16
    assert refusal.mend.result.numbers["swing"] / INCH == pytest.approx(3.10583, rel=1e-5)


# ---- plans by hand --------------------------------------------------------------------------------------------------


def only(way: str, things: Kit, asked: Task) -> Option:
    (option,) = (o for o in make_plan(Bench(things, asked)).options if o.way.key == way)
    return option


def pulls(option: Option) -> tuple[float, float, float]:
    return option.pulls.start / LBF, option.pulls.moving[0] / LBF, option.pulls.path / INCH


def test_1_a_cart_on_a_12_ft_plank() -> None:
    """(60 + 25) lbf up 24 in, rolling friction 0.05 over the run: E 144 = 85 (24 + 0.05 run)."""
    things = kit(
        scale=[SCALE],
        rope=[ROPE],
        plank=[{"length": "144 in", "width": "9.25 in", "thickness": "2.5 in"}],
        cart=[{"weight": "25 lbf", "rolling": "0.05", "rated": "100 lbf"}],
    )
    run = sqrt(144**2 - 24**2)
    start, _, path = pulls(only("ramp-cart", things, task(R="60 lbf", h="24 in")))
    assert start == pytest.approx(85 * (24 + 0.05 * run) / 144)
    assert path == pytest.approx(144)


def test_2_a_waxed_crate_slides_at_the_worse_end() -> None:
    """E 96 = 40 (18 + mu run), with mu from 0.1 to 0.3."""
    things = kit(scale=[SCALE], rope=[ROPE], plank=[{"length": "96 in", "width": "9.25 in", "thickness": "1.5 in"}])
    run = sqrt(96**2 - 18**2)
    start, least, _ = pulls(only("ramp-slide", things, task(R="40 lbf", h="18 in", **sliding("0.1", "0.3"))))
    assert (start, least) == pytest.approx((40 * (18 + 0.3 * run) / 96, 40 * (18 + 0.1 * run) / 96))


def test_3_two_parts_to_advantage() -> None:
    """The hand's own part, and the part that it pulls through one sheave at 0.9: 1.9 E = 38."""
    things = kit(
        scale=[SCALE],
        rope=[ROPE],
        anchor=[{"rated": "100 lbf"}],
        block=[{"count": "1", "sheaves": "1", "weight": "2 lbf", "keeps": "90 %", "rated": "100 lbf"}],
    )
    option = only("tackle", things, task(R="36 lbf", h="10 in"))
    assert (option.rigged.setup.n, option.rigged.setup.rove) == (2, "advantage")
    assert pulls(option) == pytest.approx((38 / 1.9, 38 / 1.9, 20))


def test_4_four_parts_down_off_two_double_blocks() -> None:
    """Shares 0.9, 0.81, 0.729, 0.6561 of the pull: 3.0951 E = 74, where three parts, 2.439 E, would take 30.3 lbf."""
    double = {"count": "2", "sheaves": "2", "weight": "4 lbf", "keeps": "90 %", "rated": "300 lbf"}
    things = kit(scale=[SCALE], rope=[ROPE], anchor=[{"rated": "300 lbf"}], block=[double])
    found = {o.rigged.setup.rove: o for o in make_plan(Bench(things, task(R="70 lbf", h="12 in"))).options}
    option = found["disadvantage"]
    assert option.rigged.setup.n == 4
    assert pulls(option) == pytest.approx((74 / 3.0951, 74 / 3.0951, 48))
    anchor = next(check for check in option.rigged.checks if check.code == "anchor-rated")
    assert anchor.value / LBF == pytest.approx(74 + 74 / 3.0951 + 4)


def test_5_a_windlass_by_one_turn() -> None:
    """In one turn 80 % of E 2 pi 15 goes into 60 lbf raised 2 pi 3.25."""
    things = kit(
        scale=[SCALE],
        rope=[ROPE],
        windlass=[{"crank": "15 in", "drum": "6 in", "efficiency": "80 % to 90 %", "rated": "100 lbf"}],
    )
    start, least, path = pulls(only("windlass", things, task(R="60 lbf", h="12 in")))
    assert (start, least) == pytest.approx((60 * 3.25 / (0.8 * 15), 60 * 3.25 / (0.9 * 15)))
    assert path == pytest.approx(12 / 3.25 * 15)


def test_6_a_bar_by_a_small_tilt() -> None:
    """Tilt by a hair: 100 lbf rises 6 units, the bar's 8 lbf sinks 21 at its middle, the hand sinks 48."""
    things = kit(scale=[SCALE], bar=[{"length": "54 in", "weight": "8 lbf", "arm": "6 in", "efficiency": "100 %"}])
    start, least, path = pulls(only("lever", things, task(R="100 lbf", h="3 in")))
    assert (start, least) == pytest.approx(((100 * 6 - 8 * 21) / 48,) * 2)
    assert path == pytest.approx(3 * 48 / 6)


def test_7_a_wedge_by_friction_work() -> None:
    """In 9 in 20 lbf rises 1.5 in. The slope rubs with N = R/(cos a - mu sin a), the base over 9 in with R."""
    things = kit(scale=[SCALE], wedge=[{"length": "9 in", "thickness": "1.5 in", "friction": "0.3"}])
    slope = sqrt(9**2 + 1.5**2)
    face = 20 / (9 / slope - 0.3 * 1.5 / slope)
    work = 20 * 1.5 + 0.3 * face * slope + 0.3 * 20 * 9
    start, _, path = pulls(only("wedge", things, task(R="20 lbf", h="1.5 in")))
    assert start == pytest.approx(work / 9)
    assert path == pytest.approx(9)


def test_8_a_screw_by_one_turn() -> None:
    """One turn lifts 100 lbf by 1/6 in; thread and collar rub. Thread length pi d_m/cos lam, tilted face force."""
    screw = {"thread": "3/4-6-Acme", "handle": "5 in", "travel": "6 in", "friction": "0.15", "rated": "200 lbf"}
    things = kit(scale=[{"capacity": "10 lbf"}], screw=[screw])
    mean, lead = 0.75 - 1 / 12, 1 / 6
    slope = sqrt((pi * mean) ** 2 + lead**2)
    cos_lam, sin_lam = pi * mean / slope, lead / slope
    tilt = 1 / sqrt(1 + (tan(radians(14.5)) * cos_lam) ** 2)
    face = 100 / (tilt * cos_lam - 0.15 * sin_lam)
    work = 100 * lead + 0.15 * face * slope + 0.15 * 100 * pi * 1.1
    start, _, path = pulls(only("screw", things, task(R="100 lbf", h="2 in")))
    assert start == pytest.approx(work / (2 * pi * 5), rel=1e-4)
    assert path == pytest.approx(12 * 2 * pi * 5)


def test_9_a_tackle_hauls_a_cart() -> None:
    """Rope pull from (90 + 30 + 2) lbf, coefficient 0.04, on 10 ft by 3 ft; two parts at 0.9 divide it by 1.9."""
    things = kit(
        scale=[SCALE],
        rope=[ROPE],
        anchor=[{"rated": "200 lbf", "side": "200 lbf"}],
        plank=[{"length": "120 in", "width": "11.25 in", "thickness": "2.5 in"}],
        cart=[{"weight": "30 lbf", "rolling": "0.04", "rated": "150 lbf"}],
        block=[{"count": "1", "sheaves": "1", "weight": "2 lbf", "keeps": "90 %", "rated": "100 lbf"}],
    )
    run = sqrt(120**2 - 36**2)
    option = only("tackle-cart", things, task(R="90 lbf", h="36 in"))
    assert pulls(option)[0] == pytest.approx(122 * (36 + 0.04 * run) / 120 / 1.9)
    assert pulls(option)[2] == pytest.approx(240)


def test_10_a_plank_that_only_a_prop_makes_good() -> None:
    """85 lbf counted 1.5 times on 8 ft: 127.5 lbf over the whole span is too much for 800 psi, over half of it not.

    Moments by cutting at the middle: half the load and half the wood times half the span, less the wood's own half.
    """
    plank = {"length": "96 in", "width": "9.25 in", "thickness": "1.5 in"}
    cart = {"weight": "25 lbf", "rolling": "0.03", "rated": "100 lbf"}
    bare = kit(scale=[SCALE], rope=[ROPE], plank=[plank], cart=[cart])
    asked = task(R="60 lbf", h="24 in", pull="30 lbf")
    square = sqrt(96**2 - 24**2) / 96

    def stress(span: float) -> float:
        wood = 35 / 1728 * 9.25 * 1.5 * span
        half = (127.5 + wood) / 2 * span / 2 - wood / 2 * span / 4
        return half * square / (9.25 * 1.5**2 / 6)

    (refusal,) = (r for r in make_plan(Bench(bare, asked)).refusals if r.way.key == "ramp-cart")
    assert refusal.check.code == "bends"
    assert refusal.check.value / PSI == pytest.approx(stress(96))
    assert stress(96) > 800 > stress(48)
    assert refusal.mend is not None
    assert [item.kind for item in refusal.mend.items] == ["prop"]
    propped = only("ramp-cart", bare.and_also(*refusal.mend.items), asked)
    bends = next(check for check in propped.rigged.checks if check.code == "bends")
    assert bends.value / PSI == pytest.approx(stress(48))
    assert pulls(propped)[0] == pytest.approx(85 * (24 + 0.03 * 96 * square) / 96)


def test_11_a_log_dragged_along_the_floor() -> None:
    """Over 10 ft, friction takes 0.4 of the weight of 55 lbf along the whole way. A cart takes 0.05 of 25 lbf more."""
    things = kit(scale=[SCALE], rope=[ROPE], cart=[{"weight": "25 lbf", "rolling": "0.05", "rated": "60 lbf"}])
    asked = task(R="55 lbf", job="level", d="10 ft", **sliding("0.4", "0.4"))
    dragged, rolled = only("level-drag", things, asked), only("level-cart", things, asked)
    assert pulls(dragged) == pytest.approx((0.4 * 55, 0.4 * 55, 120))
    assert pulls(rolled) == pytest.approx((0.05 * 80, 0.05 * 80, 120))
    assert (dragged.pulls.stays, rolled.pulls.stays) == ("rests", "coasts")
    assert {refusal.way.key for refusal in make_plan(Bench(things, asked)).refusals} == {
        "tackle-level-cart",
        "tackle-level-drag",
        "windlass-level-cart",
        "windlass-level-drag",
    }


def test_12_a_tackle_along_the_floor_and_its_anchor() -> None:
    """Two parts: 0.5 of (98 + 2) lbf over one way, for the hand two ways and a tenth of its part lost at the sheave.

    A rating to hang from says nothing of a pull sideways, and the whole pull must be held by the anchor.
    """
    block = {"count": "1", "sheaves": "1", "weight": "2 lbf", "keeps": "90 %", "rated": "100 lbf"}
    asked = task(R="98 lbf", job="level", d="10 ft", pull="30 lbf", **sliding("0.5", "0.5"))

    def on(anchor: dict[str, str]) -> Kit:
        return kit(scale=[SCALE], rope=[ROPE], block=[block], anchor=[anchor])

    option = only("tackle-level-drag", on({"rated": "900 lbf", "side": "50 lbf"}), asked)
    assert pulls(option) == pytest.approx((50 / 1.9, 50 / 1.9, 240))
    for anchor in ({"rated": "900 lbf"}, {"rated": "900 lbf", "side": "49.9 lbf"}):
        refused = {r.way.key: r for r in make_plan(Bench(on(anchor), asked)).refusals}["tackle-level-drag"]
        assert refused.check.code == "anchor-side"
        assert refused.check.value / LBF == pytest.approx(50)
        assert refused.mend is not None
        assert refused.mend.items[0]["side"] >= 50 * LBF


def test_13_a_windlass_winds_a_second_layer() -> None:
    """A drum of 4 in takes 8 turns of 1/2 in side by side, 3 of them dead: 5 turns of 2 pi 2.25 in on the first layer.

    The rest of 100 in winds at 2.75 in. There a turn lifts 40 lbf by 2 pi 2.75 in, and the crank of 15 in gives it with
    a tenth lost. The cheeks must stand one thickness above the second layer: 3/2 in.
    """
    asked = task(R="40 lbf", h="100 in", hang="120 in")

    def on(**more: str) -> Kit:
        windlass = {"crank": "15 in", "drum": "4 in", "width": "4 in", "efficiency": "90 %", "rated": "100 lbf"}
        return kit(scale=[{"capacity": "12 lbf"}], rope=[ROPE], windlass=[{**windlass, **more}])

    option = only("windlass", on(cheek="1.5 in"), asked)
    first = 5 * 2 * pi * 2.25
    turns = 5 + (100 - first) / (2 * pi * 2.75)
    assert pulls(option) == pytest.approx((40 * 2.75 / 15 / 0.9, 40 * 2.25 / 15 / 0.9, turns * 2 * pi * 15))
    assert option.pulls.facts["turns"] == pytest.approx(turns)
    assert option.pulls.facts["layer"] == 2
    for low in ({}, {"cheek": "1.4 in"}):
        (refused,) = (r for r in make_plan(Bench(on(**low), asked)).refusals if r.way.key == "windlass")
        assert refused.check.code == "drum"
        assert refused.check.value / INCH == pytest.approx(100 + 3 * 2 * pi * 2.25)
        assert refused.check.limit / INCH == pytest.approx(first + 3 * 2 * pi * 2.25)
        assert refused.mend is not None
    assert only("windlass", on(width="8 in"), asked).pulls.facts["layer"] == 1


# ---- gates ----------------------------------------------------------------------------------------------------------


def test_a_thing_without_a_makers_rating_carries_nothing() -> None:
    for lacks in ("rope", "anchor", "block"):
        rows: dict[str, list[dict[str, Any]]] = {
            "scale": [SCALE],
            "rope": [dict(ROPE)],
            "anchor": [{"rated": "300 lbf"}],
            "block": [{"count": "2", "sheaves": "1", "weight": "2 lbf", "rated": "300 lbf"}],
        }
        del rows[lacks][0]["rated"]
        rows[lacks][0]["name"] = "Unmarked"
        refused = {r.way.key: r for r in make_plan(Bench(kit(**rows), task(R="30 lbf", h="6 in"))).refusals}
        assert refused["tackle"].check.limit == 0
        assert refused["tackle"].mend is not None


def test_a_thicker_plank_or_a_prop_never_bends_more() -> None:
    """SPEC.md V55."""
    asked = Bench(kit(prop=[{"rated": "900 lbf"}]), task(R="60 lbf", h="24 in"))
    values = [
        {c.code: c.value for c in plank_checks(asked, usual("plank").changed("", thickness=t * INCH), 300, propped=p)}
        for t, p in ((1.5, False), (1.5, True), (2.5, True))
    ]
    for code in ("bends", "sags"):
        assert values[0][code] > values[1][code] > values[2][code]


def test_a_mend_of_an_unmendable_way_is_none() -> None:
    """It must not slide: nothing to buy changes that."""
    asked = Bench(
        kit(scale=[SCALE], rope=[ROPE], plank=[{"length": "96 in", "width": "9.25 in", "thickness": "1.5 in"}]),
        task(R="60 lbf", h="24 in"),
    )
    plank: Item = asked.kit.of("plank")[0]
    found = rigged(WAYS["ramp-slide"], asked, Setup("ramp-slide", {"plank": plank}))
    assert found.refusal is not None
    assert found.refusal.code == "may-slide"
    assert mend(WAYS["ramp-slide"], asked, found) is None


def test_a_slope_keeps_what_its_friction_holds() -> None:
    """tan theta against the lower end of the friction to start (SPEC.md RMP2)."""
    things = kit(scale=[SCALE], rope=[ROPE], plank=[{"length": "96 in", "width": "9.25 in", "thickness": "2.5 in"}])
    for mu, says in (("0.15", "stays"), ("0.10", "chock")):
        option = only("ramp-slide", things, task(R="30 lbf", h="12 in", **sliding(mu, "0.30")))
        assert option.pulls.stays == says
    theta = radians(7.18)
    assert 0.10 < sin(theta) / cos(theta) < 0.15
