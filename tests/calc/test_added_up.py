"""Other methods: forces and works added up in small steps, along paths, over threads and through time.

Friction is summed where it rubs, bit by bit; energy closes over a cycle; a motion is stepped through time.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

import pytest

from tests.calc.other_ways import arc, metric, root, turned, walked

Point = tuple[float, float, float]


def cross(a: Point, b: Point) -> Point:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def unit(a: Point) -> Point:
    size = math.hypot(*a)
    return (a[0] / size, a[1] / size, a[2] / size)


def threaded(R: float, lead: float, d_m: float, flank: float, mu: float, way: int) -> float:
    """The torque on a thread, summed over bits of its flank, raising (``way`` 1) or lowering (-1); newton metres.

    The flank is a surface in space that falls outward by its angle; its normal comes from two steps along the surface.
    """

    def surface(rho: float, turn: float) -> Point:
        fall = (rho - d_m / 2) * math.tan(flank)
        return (rho * math.cos(turn), rho * math.sin(turn), lead * turn / math.tau - fall)

    lift = torque = 0.0
    for i in range(24):
        turn, rho, hair = math.tau * i / 24, d_m / 2, 1e-6

        def step(at: Callable[[float], Point], middle: float, hair: float = hair) -> Point:
            a, b = at(middle - hair), at(middle + hair)
            return (b[0] - a[0], b[1] - a[1], b[2] - a[2])

        out = step(lambda r, t=turn: surface(r, t), rho)
        along = unit(step(lambda t, r=rho: surface(r, t), turn))
        push = unit(cross(out, along))
        force = tuple(p - way * mu * a for p, a in zip(push, along, strict=True))
        x, y, _ = surface(rho, turn)
        lift += force[2]
        torque += x * force[1] - y * force[0]
    return -way * torque * R / lift


def ring(R: float, diameter: float, mu: float) -> float:
    """The torque of a rubbing ring, summed over bits of it."""
    bits = arc(diameter / 2, 0, math.tau, pieces=60)[1:]
    return math.fsum(mu * R / len(bits) * math.hypot(*bit) for bit in bits)


@pytest.mark.parametrize(("thread", "flank"), [("square", 0.0), ("acme", 14.5), ("trapezoidal", 15.0), ("vee", 30.0)])
def test_the_torque_of_a_screw_bit_by_bit(thread: str, flank: float) -> None:
    """Raising and lowering, the flank's slope taken from its surface; a ring rubs as the collar."""
    choices = {"thread": thread, "collar": "rubs"}
    v = metric("screw-with-friction", choices, R=450, d=0.02, p=0.004, j=2, r=0.2, mu=0.12, mu_c=0.1, d_c=0.028)
    collar = ring(450, 0.028, 0.1)
    up, down = (threaded(450, 0.008, v["d_m"], math.radians(flank), 0.12, way) for way in (1, -1))
    assert v["T"] == pytest.approx(up + collar, rel=1e-6)
    assert v["T_down"] - v["T_hold"] == pytest.approx(down + collar, rel=1e-6)
    assert v["E"] * 0.2 == pytest.approx(up + collar, rel=1e-6)


def test_the_nut_factor_of_a_bolt_bit_by_bit() -> None:
    """As for the screw; the ring is the face under the nut."""
    v = metric("bolt-clamp", {"thread": "own", "surface": "friction"}, d=0.01, p=0.0015, mu=0.15, mu_c=0.13, d_c=0.013)
    torque = threaded(1, 0.0015, v["d_m"], math.radians(30), 0.15, 1) + ring(1, 0.013, 0.13)
    assert v["K"] * 0.01 == pytest.approx(torque, rel=1e-6)


def test_the_mean_diameter_of_a_v_thread_is_where_ridge_and_groove_are_equal() -> None:
    """The profile measured: a 60° V whose crest is cut off by an eighth of its height (ISO 68-1, from memory).

    The ridge is widest below; half way between two diameters it is halved until it takes half the pitch.
    """
    d, p = 0.01, 0.0015

    def ridge(diameter: float) -> float:
        sharp = d / 2 + p * math.sqrt(3) / 2 / 8  # the radius of the uncut crest
        return 2 * (sharp - diameter / 2) * math.tan(math.pi / 6)

    v = metric("bolt-clamp", {"thread": "own", "surface": "friction"}, d=d, p=p, mu=0.15, mu_c=0.13, d_c=0.013)
    assert v["d_m"] == pytest.approx(root(lambda x: ridge(x) - p / 2, 0.8 * d, d), rel=1e-7)


# -- energy over a cycle ---------------------------------------------------------------------------


def test_a_turn_of_a_windlass_pays_for_its_journals() -> None:
    """Energy over one turn: friction of the journal along its own path. Its push depends on the effort: repeated."""
    r, r_j, mu, steps = 0.081, 0.0125, 0.15, 360
    effort = 0.0
    for _ in range(60):
        pressing = (500 + 80 + effort) / math.hypot(1, mu)  # square to the rubbing face
        rubbed = math.fsum(mu * pressing * r_j * math.tau / steps for _ in range(steps))
        effort = (500 * math.tau * r + rubbed) / (math.tau * 0.38)
    v = metric("journal-friction", R=500, r_c=0.38, D=0.15, t=0.012, r_j=r_j, mu=mu, w=80)
    assert v["E"] == pytest.approx(effort, rel=1e-9)
    assert v["Wlost"] == pytest.approx(rubbed, rel=1e-9)


@pytest.mark.parametrize("order", ["1", "2", "3"])
def test_a_small_swing_pays_for_its_pin(order: str) -> None:
    """Energy over a swing: work in less work out is the friction torque of the pin through the angle.

    Only for a small swing: the ends' upright paths grow with the sine of the swing, the pin's rubbing with the swing
    itself, and the sheet takes the effort of the level bar for all of it. At 15° each way they differ by 1.1 %.
    """
    aR, aE = (0.8, 0.3) if order == "3" else (0.3, 0.8)
    pin = {"r_p": 0.012, "mu": 0.25}
    for psi, apart in ((0.002, 1e-6), (math.pi / 12, 0.0116)):
        v = metric("lever", {"class": order}, R=180, aR=aR, aE=aE, psi=psi, **pin)
        rubbed = v["N"] * 0.25 / math.hypot(1, 0.25) * 0.012 * 2 * psi
        assert v["E"] * v["dE"] - 180 * v["dR"] == pytest.approx(v["Wlost"], rel=1e-9)
        assert v["Wlost"] == pytest.approx(rubbed, rel=apart)
        assert v["Wlost"] <= rubbed


def test_a_swing_of_a_bar_step_by_step() -> None:
    """Work of upright forces summed along the arcs on which the ends move."""
    v = metric("lever", R=180, aR=0.15, aE=0.6, psi=0.3)

    def work(force: float, arm: float) -> float:
        path = arc(arm, -0.3, 0.3, pieces=3000)
        return math.fsum(force * (b[1] - a[1]) for a, b in pairwise(path))

    assert v["Win"] == pytest.approx(work(v["E"], 0.6), rel=1e-9)
    assert v["Wout"] == pytest.approx(work(180, 0.15), rel=1e-9)


def test_a_bent_lever_works_along_its_turn() -> None:
    """Work summed over a turn of 20° in which both forces turn with the lever."""
    psi_R, psi_E, turn, steps = math.radians(70), math.radians(110), math.pi / 9, 2000
    v = metric("bent-lever", R=270, aR=0.04, psi_R=psi_R, aE=0.3, psi_E=psi_E)

    def work(force: float, arm: float, angle: float) -> float:
        total = 0.0
        for i in range(steps):
            before, after = (turned((arm, 0), turn * (i + j) / steps) for j in (0, 1))
            line = turned((force, 0), turn * (i + 0.5) / steps + angle)
            total += (after[0] - before[0]) * line[0] + (after[1] - before[1]) * line[1]
        return total

    assert v["Win"] == pytest.approx(work(v["E"], 0.3, psi_E), rel=1e-6)
    assert v["Wout"] == pytest.approx(work(270, 0.04, psi_R), rel=1e-6)


@pytest.mark.parametrize(("n", "rove"), [(4, "disadvantage"), (5, "advantage")])
def test_the_heat_of_every_sheave(n: int, rove: str) -> None:
    """Energy: what is lost at a sheave is the drop of tension there times the rope that has run over it."""
    k, G, h = 0.9, 825.0, 0.5
    first = 0 if rove == "disadvantage" else 1  # parts that carry nothing

    def missing(E: float) -> float:
        tension, heat, running = E, 0.0, n * h
        for _ in range(n - first):
            running -= first * h
            heat += (1 - k) * tension * running
            tension *= k
            running -= (1 - first) * h
        return E * n * h - G * h - heat

    v = metric("tackle", {"rove": rove}, R=800, w=25, n=n, k=k, h=h)
    assert v["E"] == pytest.approx(root(missing, 0, 10 * G), rel=1e-9)


def test_a_crate_dragged_over_a_curved_bank_any_machine() -> None:
    """Works summed along a bank that steepens to 30°: the mean pull is typed into the sheet as if measured.

    What the friction of the steps takes must be what the sheet calls lost.
    """
    path = arc(4.0, -math.pi / 2, -math.pi / 3, pieces=5000)
    length, put_in, rubbed = walked(path), 0.0, 0.0
    for a, b in pairwise(path):
        step = math.dist(a, b)
        along = ((b[0] - a[0]) / step, (b[1] - a[1]) / step)
        pressed = 540 * along[0]
        put_in += (540 * along[1] + 0.3 * pressed) * step
        rubbed += 0.3 * pressed * step
    v = metric("any-machine", R=540, E=put_in / length, dR=path[-1][1] - path[0][1], dE=length)
    assert (v["Win"], v["Wlost"]) == pytest.approx((put_in, rubbed), rel=1e-9)
    assert v["eta"] == pytest.approx(1 - rubbed / put_in, rel=1e-9)


# -- through time, and along drawn lines -----------------------------------------------------------


def test_work_is_what_makes_a_truck_run() -> None:
    """A mass on smooth rails, stepped through time under a slanting force: the work is its energy of motion."""
    force, gamma, distance, mass, dt = 180.0, 0.6, 3.0, 25.0, 1e-4
    pull, rail = turned((force, 0), gamma), (1.0, 0.0)
    speed = place = time = 0.0
    while place < distance:
        half = speed + (pull[0] * rail[0] + pull[1] * rail[1]) / mass * dt / 2
        place += half * dt
        speed = 2 * half - speed
        time += dt
    speed = math.sqrt(speed**2 * distance / place)  # back from the end of the last step
    v = metric("work-and-power", F=force, d=distance, gamma=gamma, t=time)
    assert v["W"] == pytest.approx(mass * speed**2 / 2, rel=1e-6)
    assert v["P"] * time == pytest.approx(mass * speed**2 / 2, rel=1e-6)


def test_paper_wound_on_a_dowel() -> None:
    """The sloping edge drawn as a line in space and measured: its turns counted, its climb from turn to turn read off.

    The paper is wound bit by bit; each bit turns the place on the dowel by the angle that its length covers.
    """
    B, H, d, bits = 0.28, 0.05, 0.025, 20000
    line: list[Point] = []
    angle = 0.0
    for i in range(bits + 1):
        line.append((d / 2 * math.cos(angle), d / 2 * math.sin(angle), H * i / bits))
        angle += 2 * math.asin(B / bits / d)  # the chord of one bit
    rounds, turns = 0.0, []
    for a, b in pairwise(line):
        before = rounds
        rounds += math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]) / math.tau
        if math.floor(rounds) > math.floor(before):
            turns.append(a[2] + (b[2] - a[2]) * (math.ceil(before) - before) / (rounds - before))
    v = metric("wrap-test", B=B, H=H, d=d)
    assert v["turns"] == pytest.approx(rounds, rel=1e-6)
    assert v["p"] == pytest.approx(turns[-1] - turns[-2], rel=1e-6)
    flat = walked([(0, 0), (B, H)])
    assert walked(line) == pytest.approx(flat, rel=1e-6)
    assert math.sin(v["lam"]) == pytest.approx(H / walked(line), rel=1e-6)


@pytest.mark.parametrize("prop", ["ends", "middle"])
def test_a_plank_bent_slice_by_slice(prop: str) -> None:
    """Its weight in slices on two supports, its stiffness in fibres, its bend added up twice along the span.

    The moment at each place is what lies on one side of it; the slope is level in the middle, by symmetry.
    """
    b, t, wood, load, slope = 0.235, 0.038, 5.5e3, 1.5 * 270, math.asin(0.25)
    span, n = (2.4 if prop == "ends" else 1.2), 2000
    own, fibre = wood * b * t * span * math.cos(slope), t / 400
    stiffness = 8.3e9 * math.fsum(b * fibre * ((i + 0.5) * fibre - t / 2) ** 2 for i in range(400))
    dx = span / 2 / n
    support, moment, moments = (own + load * math.cos(slope)) / 2, 0.0, []
    for i in range(n):  # from one end to the middle
        shear = support - own / span * dx * (i + 0.5)
        moments.append(moment + shear * dx / 2)
        moment += shear * dx
    turn = sag = 0.0
    for here in reversed(moments):  # from the middle, where it is level, to the end
        bent = here / stiffness * dx
        sag += (turn + bent / 2) * dx
        turn += bent
    sizes = {"Q": 270, "L": 2.4, "h": 0.6, "b": b, "t": t, "a": 1.5, "f_b": 5.5, "Y": 8300, "g_w": 5.5}
    v = metric("plank-check", {"prop": prop}, **sizes)
    assert v["M"] == pytest.approx(moment, rel=1e-9)
    assert v["f"] == pytest.approx(moment * (t / 2) * 8.3e9 / stiffness, rel=1e-4)
    assert v["y"] == pytest.approx(sag, rel=1e-4)
