"""Other methods: forces from free bodies in balance, for levers, shafts, pulleys, gears and ropes.

No formula of a machine is used. Each body is drawn with its forces, and a linear system finds their sizes.
"""

from __future__ import annotations

import math

import pytest

from tests.calc.other_ways import DOWN, LEFT, RIGHT, UP, Force, balanced, metric, root, rubbing, solved, turned

ORDERS = {"1": (-0.3, 0.8, DOWN), "2": (0.3, 0.8, UP), "3": (0.8, 0.3, UP)}
"""Order on the bar: place of load and effort from the pivot (m), way of the effort."""


@pytest.mark.parametrize("order", ORDERS)
@pytest.mark.parametrize("tilt", [0.0, 0.4])
def test_a_bar_in_balance(order: str, tilt: float) -> None:
    """Linear system: three equations of the bar, level or tilted, forces upright."""
    load, effort, way = ORDERS[order]
    found = balanced(
        Force("R", "bar", DOWN, turned((load, 0), tilt), size=180),
        Force("E", "bar", way, turned((effort, 0), tilt)),
        Force("N", "bar", DOWN if order == "3" else UP),
        Force("side", "bar", RIGHT),
        turning=["bar"],
    )
    v = metric("lever", {"class": order}, R=180, aR=abs(load), aE=effort)
    assert (v["E"], v["N"]) == pytest.approx((found["E"], found["N"]), rel=1e-9)


def on_a_pin(forces: list[Force], radius: float, mu: float, turns: int, inside: int) -> dict[str, float]:
    """A body that turns (1 counter-clockwise) on a round pin: the place where they touch is searched for.

    ``inside`` 1: the body's hole goes round the pin and hangs on its top; -1: on its underside (held down);
    0: the body is the pin, and lies in its bearing.
    """

    def at(angle: float) -> dict[str, float]:
        x, y = radius * math.sin(angle), radius * math.cos(angle) * (inside or -1)
        push = (x / radius, y / radius) if inside else (-x / radius, -y / radius)
        slides = (-turns * y, turns * x)
        touch = Force("N", "body", rubbing(push, slides, mu), (x, y))
        return balanced(*forces, touch, Force("side", "body", RIGHT), turning=["body"])

    angle = root(lambda a: at(a)["side"], -1.2, 1.2)
    return at(angle)


@pytest.mark.parametrize("key", ["lever", "pin-friction"])
@pytest.mark.parametrize("order", ORDERS)
def test_a_bar_on_a_rubbing_pin(key: str, order: str) -> None:
    """Search: the point where pin and bar touch walks round the pin until nothing is left over sideways."""
    load, effort, way = ORDERS[order]
    forces = [Force("R", "body", DOWN, (load, 0), size=180), Force("E", "body", way, (effort, 0))]
    found = on_a_pin(forces, 0.012, 0.25, turns=-1 if order == "1" else 1, inside=-1 if order == "3" else 1)
    v = metric(key, {"class": order}, R=180, aR=abs(load), aE=effort, r_p=0.012, mu=0.25)
    assert v["E"] == pytest.approx(found["E"], rel=1e-9)


def test_a_drum_in_rubbing_journals() -> None:
    """Search as for the pin; here the journal lies in its bearing, and the drum's own weight presses too."""
    r = 0.075 + 0.006
    forces = [
        Force("R", "body", DOWN, (-r, 0), size=500),
        Force("E", "body", DOWN, (0.38, 0)),
        Force("w", "body", DOWN, size=80),
    ]
    found = on_a_pin(forces, 0.0125, 0.15, turns=-1, inside=0)
    v = metric("journal-friction", R=500, r_c=0.38, D=0.15, t=0.012, r_j=0.0125, mu=0.15, w=80)
    assert v["E"] == pytest.approx(found["E"], rel=1e-9)


@pytest.mark.parametrize("hand", ["wheel", "axle"])
def test_cords_pull_on_a_shaft_from_any_side(hand: str) -> None:
    """Linear system: the effort leaves its rim 40° round; two bearing forces and the effort are unknown."""
    rims = {"wheel": 0.23, "axle": 0.038}
    rim = rims.pop(hand)
    place = turned((rim, 0), 0.7)
    found = balanced(
        Force("R", "shaft", DOWN, (-next(iter(rims.values())), 0), size=110),
        Force("E", "shaft", turned(DOWN, 0.7), place),
        Force("x", "shaft", RIGHT),
        Force("y", "shaft", UP),
        turning=["shaft"],
    )
    assert metric("wheel-and-axle", {"hand": hand}, R=110, r_w=0.23, r_a=0.038)["E"] == pytest.approx(found["E"])


def test_a_bent_lever_with_both_forces_turned() -> None:
    """Linear system with vectors: arms 100° apart, each force at its own angle to its arm."""
    arm_E, arm_R = turned((0.3, 0), 0.3), turned((0.04, 0), 0.3 + math.radians(100))
    found = balanced(
        Force("R", "lever", turned(arm_R, -math.radians(70)), arm_R, size=270 / 0.04),
        Force("E", "lever", turned(arm_E, math.radians(110)), arm_E),
        Force("x", "lever", RIGHT),
        Force("y", "lever", UP),
        turning=["lever"],
    )
    v = metric("bent-lever", R=270, aR=0.04, psi_R=math.radians(70), aE=0.3, psi_E=math.radians(110))
    assert v["E"] == pytest.approx(found["E"] * 0.3, rel=1e-9)


# -- pulleys and gears -----------------------------------------------------------------------------


def rope_tensions(n: int, rove: str, k: float, G: float) -> list[float]:
    """The hand's pull, then each part's: every sheave passes on k, and the parts at the moving block carry G."""
    count = n + 1 if rove == "disadvantage" else n
    rows = [[k * (j == i) - (j == i + 1) for j in range(count)] for i in range(count - 1)]
    rows.append([float(j >= count - n) for j in range(count)])
    return solved(rows, [0.0] * (count - 1) + [G])


@pytest.mark.parametrize("rove", ["disadvantage", "advantage"])
@pytest.mark.parametrize("n", [3, 6])
def test_the_tensions_of_a_tackle(rove: str, n: int) -> None:
    """Linear system of all parts of the rope; lowering, each sheave passes on 1/k."""
    v = metric("tackle", {"rove": rove}, R=800, w=25, n=n, k=0.92)
    up, down = (rope_tensions(n, rove, k, 825) for k in (0.92, 1 / 0.92))
    assert (v["E"], v["E_down"]) == pytest.approx((up[0], down[0]), rel=1e-9)
    standing = balanced(  # the standing block, its hook up, all its parts down
        Force("A", "block", UP),
        Force("side", "block", RIGHT),
        Force("parts", "block", DOWN, size=sum(up) if rove == "disadvantage" else sum(up[1:])),
    )
    assert v["A"] == pytest.approx(standing["A"], rel=1e-9)


@pytest.mark.parametrize("kind", ["fixed", "movable"])
def test_one_pulley_with_friction(kind: str) -> None:
    """Linear system of the two parts of the rope."""
    rove, n, w = ("disadvantage", 1, {}) if kind == "fixed" else ("advantage", 2, {"w": 8.0})
    v = metric("single-pulley", {"kind": kind}, R=90, k=0.9, **w)
    assert v["E"] == pytest.approx(rope_tensions(n, rove, 0.9, 90 + w.get("w", 0))[0], rel=1e-9)


@pytest.mark.parametrize("drive", ["gears", "belt"])
def test_torque_from_shaft_to_shaft(drive: str) -> None:
    """Linear system of three shafts: the force at each rim, and the torque that is left at the last."""
    rims, eta = ((0.06, 0.24), (0.075, 0.225)), (0.95, 0.9)
    rows = [
        [rims[0][0], 0, 0],  # first shaft: torque in is the rim force on its radius
        [-eta[0] * rims[0][1], rims[1][0], 0],
        [0, -eta[1] * rims[1][1], 1],
    ]
    torque = solved(rows, [2.0, 0, 0])[2]
    if drive == "gears":
        sizes = {"N_a_1": 12, "N_b_1": 48, "N_a_2": 15, "N_b_2": 45}
    else:
        sizes = {f"D_{s}_{i}": 2 * rims[i - 1][s == "b"] for i in (1, 2) for s in "ab"}
    v = metric("gears-and-belts", {"drive": drive}, T_in=2, eta_1=0.95, eta_2=0.9, **sizes)
    assert v["T_out"] == pytest.approx(torque, rel=1e-9)


@pytest.mark.parametrize("way", ["ease", "up"])
def test_a_rope_on_a_post_with_many_flats(way: str) -> None:
    """Linear system of one short bit of rope on its flat, 20000 of them round the post."""
    flat = 2 * math.pi * 1.6 / 20000
    near, far = turned(LEFT, flat / 2), turned(RIGHT, -flat / 2)
    bit = balanced(
        Force("load", "rope", near, size=1),
        Force("hand", "rope", far),
        Force("N", "rope", rubbing(UP, LEFT if way == "ease" else RIGHT, 0.3)),
    )
    v = metric("rope-on-post", {"way": way}, R=400, mu=0.3, n=1.6)
    assert v["E"] == pytest.approx(400 * bit["hand"] ** 20000, rel=1e-6)
    if way == "ease":
        assert v["E_half"] == pytest.approx(400 * bit["hand"] ** 10000, rel=1e-6)


def test_a_loaded_bar_with_its_weight_in_slices() -> None:
    """Linear system of the bar, its own weight spread over 600 slices."""
    slices = [Force(f"w{i}", "bar", DOWN, (2.4 * (i + 0.5) / 600, 0), size=90 / 600) for i in range(600)]
    found = balanced(
        *slices,
        Force("F_1", "bar", DOWN, (0.05, 0), size=600),
        Force("F_2", "bar", DOWN, (0.3, 0), size=250),
        Force("E", "bar", DOWN, (2.3, 0)),
        Force("N", "bar", UP, (0.6, 0)),
        Force("side", "bar", RIGHT),
        turning=["bar"],
    )
    v = metric("loaded-bar", B=2.4, w=90, x_f=0.6, x_E=2.3, F_1=600, x_1=0.05, F_2=250, x_2=0.3)
    assert (v["E"], v["N"]) == pytest.approx((found["E"], found["N"]), rel=1e-9)
