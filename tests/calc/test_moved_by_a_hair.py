"""Other methods: virtual work. Each machine is placed twice, a hair apart, and the positions are measured.

What the hand goes for what the load goes is the ideal advantage, and forces follow from equal work. No formula of a
machine is used: points are turned, ropes and chains are walked from end to end, chain pockets and paths are counted.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import mpmath
import pytest

from tests.calc.other_ways import arc, metric, rate, root, turned, walked

Position = Callable[[float], float]


def advantage(hand: Position, load: Position, x: float = 0.3) -> float:
    """How far the hand goes for each bit that the load goes."""
    return abs(rate(hand, x) / rate(load, x))


def rim(radius: float, angle: float) -> float:
    """Cord taken up on a rim, walked along it."""
    return math.copysign(walked(arc(radius, 0, angle)), angle)


# Positions of hand and load as the machine goes through x. Sizes are those of CASES below.


def lever_hand(x: float) -> float:
    return turned((0.6, 0), x)[1]


def lever_load(x: float) -> float:
    return turned((-0.15, 0), x)[1]


def wheel_hand(x: float) -> float:
    return rim(0.23, x)


def wheel_load(x: float) -> float:
    return rim(0.04, x)


def plank_hand(x: float) -> float:
    """Along a plank of 2.4 m that rises 0.6 m, to the point at level place x."""
    return walked([(0, 0), (x, plank_load(x))])


def plank_load(x: float) -> float:
    return x * 0.6 / math.sqrt(2.4**2 - 0.6**2)


def screw_hand(x: float) -> float:
    return walked(arc(0.2, 0, x))


def screw_load(x: float) -> float:
    """The height of a nut by its turns, counted in 0.004 m each."""
    return 0.004 * x / math.tau


def rope_between(n: int, y: float, sheave: float = 0.03) -> float:
    """Rope of a tackle from its dead end to where it leaves for the hand: n runs and the bends between them, walked."""
    line: list[tuple[float, float]] = []
    for i in range(n):
        x = 2 * sheave * i
        line += [(x, y), (x, 2.0)] if i % 2 == 0 else [(x, 2.0), (x, y)]
        if i < n - 1:
            top = i % 2 == 0
            line += arc(sheave, math.pi, 0 if top else math.tau, (x + sheave, 2.0 if top else y), 90)
    return walked(line)


def tackle_hand(n: int, rove: str) -> Position:
    """The hand on a rope of 20 m: under the standing block, or over the moving one."""
    if rove == "disadvantage":
        return lambda y: 20 - rope_between(n, y)
    return lambda y: y + 20 - rope_between(n - 1, y)


def height(y: float) -> float:
    return y


CASES = {
    "lever": (lever_hand, lever_load, {"aR_1": 0.15, "aE_1": 0.6}, "eta_l_1"),
    "wheel": (wheel_hand, wheel_load, {"r_w_1": 0.23, "D_a_1": 0.08}, "eta_w_1"),
    "ramp": (plank_hand, plank_load, {"L_1": 2.4}, "eta_r_1"),
    "screw": (screw_hand, screw_load, {"r_1": 0.2, "l_1": 0.004}, "eta_s_1"),
    "tackle": (tackle_hand(4, "advantage"), height, {"n_1": 4}, "eta_t_1"),
}


@pytest.mark.parametrize("way", CASES)
def test_ways_up_compared_by_their_motion(way: str) -> None:
    """Virtual work with a share lost: the hand's work times the efficiency is the load's."""
    hand, load, sizes, efficiency = CASES[way]
    choices = {"way_1": way, "way_2": "none", "way_3": "none"}
    v = metric("compare", choices, R=160, h=0.6, **sizes, **{efficiency: 0.8})
    ideal = advantage(hand, load)
    assert v["IMA_1"] == pytest.approx(ideal, rel=1e-6)
    assert v["E_1"] * 0.8 * ideal == pytest.approx(160, rel=1e-6)


def test_a_bar_swung_through_its_positions() -> None:
    """Positions of both ends, tipped down and up, measured upright."""
    v = metric("lever", R=180, aR=0.15, aE=0.6, psi=0.3)
    assert v["dE"] == pytest.approx(abs(lever_hand(0.3) - lever_hand(-0.3)), rel=1e-12)
    assert v["dR"] == pytest.approx(abs(lever_load(0.3) - lever_load(-0.3)), rel=1e-12)
    assert v["E"] * advantage(lever_hand, lever_load, 0.0) == pytest.approx(180, rel=1e-6)


def test_a_bent_lever_turned_a_hair() -> None:
    """Each arm's end moves; only what it moves along its force is work."""

    def along(arm: float, angle: float) -> Position:
        line = turned((1, 0), angle)
        return lambda x: sum(a * b for a, b in zip(turned((arm, 0), x), line, strict=True))

    hand, load = along(0.3, math.radians(110)), along(0.04, math.radians(70))
    v = metric("bent-lever", R=270, aR=0.04, psi_R=math.radians(70), aE=0.3, psi_E=math.radians(110))
    assert v["IMA"] == pytest.approx(advantage(hand, load, 0.0), rel=1e-6)
    assert v["E"] * rate(hand, 0) == pytest.approx(270 * rate(load, 0), rel=1e-6)


def test_a_bar_with_loads_tipped_a_hair() -> None:
    """All weights go down or up a little; the effort's work is the sum of theirs."""
    places = {0.05: 600.0, 0.3: 250.0, 1.3: 90.0}  # two loads and the bar's own weight
    v = metric("loaded-bar", B=2.4, w=90, x_c=1.3, x_f=0.6, x_E=2.3, F_1=600, x_1=0.05, F_2=250, x_2=0.3)

    def stored(x: float) -> float:
        return sum(weight * turned((place - 0.6, 0), x)[1] for place, weight in places.items())

    assert v["E"] * rate(lambda x: turned((1.7, 0), x)[1], 0) == pytest.approx(-rate(stored, 0), rel=1e-6)


@pytest.mark.parametrize("hand", ["wheel", "axle"])
def test_a_shaft_turned_a_hair(hand: str) -> None:
    """Cord walked along both rims."""
    v = metric("wheel-and-axle", {"hand": hand}, R=110, r_w=0.23, r_a=0.04)
    ideal = advantage(wheel_hand, wheel_load) ** (1 if hand == "wheel" else -1)
    assert v["E"] * ideal == pytest.approx(110, rel=1e-6)


@pytest.mark.parametrize("layer", [1, 3])
def test_a_windlass_with_thick_rope(layer: int) -> None:
    """The rope's middle line walked: it lies on the drum and on the layers below, each one rope thick."""
    middle = 0.15 / 2
    for _ in range(layer - 1):
        middle += 0.012
    middle += 0.012 / 2
    v = metric("windlass", R=500, r_c=0.38, D=0.15, t=0.012, m=layer)
    ideal = advantage(lambda x: rim(0.38, x), lambda x: rim(middle, x))
    assert (v["IMA"], v["E"]) == pytest.approx((ideal, 500 / ideal), rel=1e-6)


@pytest.mark.parametrize(("n", "rove"), [(1, "disadvantage"), (3, "disadvantage"), (4, "advantage"), (5, "advantage")])
def test_a_tackle_whose_rope_keeps_its_length(n: int, rove: str) -> None:
    """The rope walked part by part, bends too, with the load in two places; what is spare is in the hand."""
    hand = tackle_hand(n, rove)
    v = metric("tackle", {"rove": rove}, R=800, w=25, n=n, h=0.5)
    assert v["IMA"] == pytest.approx(advantage(hand, height), rel=1e-6)
    assert v["dE"] == pytest.approx(abs(hand(0.8) - hand(0.3)), rel=1e-9)
    assert v["E"] * abs(hand(0.8) - hand(0.3)) == pytest.approx(825 * 0.5, rel=1e-9)


@pytest.mark.parametrize(("n", "rove"), [(4, "disadvantage"), (5, "advantage")])
def test_the_rope_of_a_tackle_laid_out(n: int, rove: str) -> None:
    """The drawn line measured: n runs and every bend, the last one only where the rope turns down to the hand."""
    runs = rope_between(n, 0.4)  # runs of 1.6 m, n - 1 bends of 0.03 m radius
    last = walked(arc(0.03, math.pi, 0, pieces=90)) if rove == "disadvantage" else 0
    v = metric("tackle-rope", {"rove": rove}, n=n, h=1.3, gap=0.3, D_s=0.06, tail=1.5)
    assert v["L"] == pytest.approx(runs + last + 1.5, rel=1e-5)  # chords are a little short
    assert v["dE"] == pytest.approx(runs - rope_between(n, 0.4 + 1.3), rel=1e-9)


def test_a_moving_pulley_on_leaning_parts() -> None:
    """Least stored energy: a pulley rolls down on a rope, a weight E hangs on its end; where it rests tells the angle.

    Searched over the depth by thirds, without forces.
    """
    E, G, span = 60.0, 94.0, 1.2

    def stored(depth: float) -> float:
        return -G * depth + E * 2 * math.hypot(span / 2, depth)  # the weight rises by the rope that is drawn in

    low, high = 0.0, 10.0
    while high - low > 1e-9:
        a, b = low + (high - low) / 3, high - (high - low) / 3
        low, high = (low, b) if stored(a) < stored(b) else (a, high)
    v = metric("single-pulley", {"kind": "leaning"}, R=90, w=4, beta=math.atan2(span / 2, low))
    assert v["E"] == pytest.approx(E, rel=1e-6)


def test_a_chain_hoist_turned_once() -> None:
    """Chain walked on both wheels; the loop that carries the load is shared by two parts."""

    def loop(x: float) -> float:
        return 3.0 - rim(0.125, x) + rim(0.11, x)

    v = metric("chain-hoist", R=1300, D=0.25, d=0.22)
    assert v["E"] * advantage(lambda x: rim(0.125, x), lambda x: loop(x) / 2) == pytest.approx(1300, rel=1e-6)
    assert v["dR"] == pytest.approx((loop(0) - loop(math.tau)) / 2, rel=1e-5)


def test_a_chain_hoist_counted_link_by_link() -> None:
    """The wheels turn together; each time a pocket passes the top, one link changes sides."""
    loop, hand, steps = 400, 0, 17 * 15 * 4
    for step in range(steps):  # one turn
        if step % (steps // 17) == 0:
            loop, hand = loop - 1, hand + 1
        if step % (steps // 15) == 0:
            loop += 1
    v = metric("chain-hoist", {"by": "pockets"}, R=1300, N_D=17, N_d=15, p=0.03)
    assert v["dE"] == pytest.approx(hand * 0.03, rel=1e-12)
    assert v["dR"] == pytest.approx((400 - loop) * 0.03 / 2, rel=1e-12)
    assert v["E"] * hand == pytest.approx(1300 * (400 - loop) / 2, rel=1e-9)


def test_gears_turned_tooth_by_tooth() -> None:
    """Both gears of a pair step on until the same two teeth meet again; their whole turns are counted."""
    driver, driven, turns = 0, 0, [0, 0]
    while not turns[0] or driver or driven:
        driver, driven = (driver + 1) % 14, (driven + 1) % 52
        turns[0] += driver == 0
        turns[1] += driven == 0
    v = metric("gears-and-belts", {"drive": "gears"}, T_in=2, N_a_1=14, N_b_1=52, eta_1=1)
    assert v["ratio"] * turns[1] == pytest.approx(turns[0], rel=1e-12)
    assert v["T_out"] * turns[1] == pytest.approx(2 * turns[0], rel=1e-12)  # equal work, no loss


def test_a_screw_turned_a_hair() -> None:
    """A point on the handle and one on the load, in space."""

    def hand(x: float) -> float:
        return walked(
            [(0.2 * math.cos(a), 0.2 * math.sin(a), screw_load(a)) for a in (x * i / 500 for i in range(501))]
        )

    ideal = math.sqrt(advantage(hand, screw_load) ** 2 - 1)  # the hand rises too; its push is level
    v = metric("screw", {"thread": "square"}, R=450, d=0.02, p=0.004, j=1, r=0.2)
    assert v["E"] * ideal == pytest.approx(450, rel=1e-5)


@pytest.mark.parametrize("kind", ["single", "double"])
def test_a_wedge_pushed_under_a_guided_load(kind: str) -> None:
    """The wedge's outline is pushed past a guided edge, whose height is read off it; a double one has two."""
    ell, t = 0.23, 0.04
    faces = 2 if kind == "double" else 1

    def edge(x: float) -> float:
        """The least height at which the edge, at level place 0, is clear of the face from (x, 0) to (x - ell, t)."""
        return root(lambda y: x * t / faces - y * ell, -1, 1)

    v = metric("wedge", {"kind": kind}, R=1300, ell=ell, t=t)
    ideal = advantage(height, lambda x: faces * edge(x), 0.1)
    assert (v["IMA_w"], v["E"]) == pytest.approx((ideal, 1300 / ideal), rel=1e-6)


@pytest.mark.parametrize("pull", ["along", "level", "angled"])
def test_a_crate_moved_a_hair_up_a_plank(pull: str) -> None:
    """The crate's place moves; the work of the pull is along its own line."""
    slope = math.asin(0.25)
    line = {"along": turned((1, 0), slope), "level": (1.0, 0.0), "angled": turned((1, 0), slope + 0.35)}[pull]

    def place(x: float) -> tuple[float, float]:
        return turned((x, 0), slope)

    ideal = advantage(lambda x: place(x)[0] * line[0] + place(x)[1] * line[1], lambda x: place(x)[1])
    more = {"delta": 0.35} if pull == "angled" else {}
    v = metric("ramp", {"pull": pull}, R=540, L=2.4, h=0.6, **more)
    assert (v["IMA"], v["E"]) == pytest.approx((ideal, 540 / ideal), rel=1e-6)


def test_a_ramp_surveyed() -> None:
    """Length and angle as integrals along the run, by mpmath's quadrature."""
    h, b = 0.6, 2.3
    length = mpmath.quad(lambda x: mpmath.sqrt(1 + (h / b) ** 2), [0, b])
    angle = mpmath.quad(lambda m: 1 / (1 + m * m), [0, h / b])
    v = metric("ramp-shape", h=h, b=b)
    assert (v["L"], v["theta"]) == pytest.approx((float(length), float(angle)), rel=1e-9)
    assert v["IMA"] == pytest.approx(float(length) / h, rel=1e-9)


# -- machines in a row -----------------------------------------------------------------------------


def test_a_windlass_that_hauls_a_tackle() -> None:
    """One position after the other: crank to rope, rope to the load of a tackle with three parts."""

    def load(x: float) -> float:
        """The height at which the tackle's rope is as short as the drum has made it."""
        spare = tackle_hand(3, "disadvantage")
        drawn = spare(0.2) + rim(0.081, x)
        return root(lambda y: spare(y) - drawn, 0.0, 1.9)

    v = metric("chain", {"preset": "own"}, R=1300, h=0.1, IMA_1=0.38 / 0.081, IMA_2=3)
    ideal = advantage(lambda x: rim(0.38, x), load, 0.6)
    assert (v["IMA"], v["E"]) == pytest.approx((ideal, 1300 / ideal), rel=1e-5)


def test_a_tackle_that_hauls_a_crate_up_a_plank() -> None:
    """One position after the other: rope to crate, crate to its height."""

    def up(y: float) -> float:
        return turned((y, 0), math.asin(0.25))[1]

    v = metric("chain", {"preset": "own"}, R=540, h=0.1, IMA_1=4, IMA_2=4)
    ideal = advantage(tackle_hand(4, "advantage"), up)
    assert (v["IMA"], v["E"]) == pytest.approx((ideal, 540 / ideal), rel=1e-6)
