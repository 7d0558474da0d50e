"""Other methods: forces from free bodies in balance, for planes and wedges; friction at rest from the edge of slipping.

No formula of a machine is used. Each body is drawn with its forces, and a linear system finds their sizes.
"""

from __future__ import annotations

import math

import pytest

from tests.calc.other_ways import DOWN, LEFT, RIGHT, UP, Force, Vector, balanced, metric, root, rubbing, turned

# -- inclined plane --------------------------------------------------------------------------------

SLOPE, MU, LEAN = 0.38, 0.22, 0.35
ALONG, SQUARE = turned(RIGHT, SLOPE), turned(UP, SLOPE)
PULLS = {"along": ALONG, "angled": turned(ALONG, LEAN), "level": RIGHT}


def sliding(weight: float, pull: Vector, slides: Vector, slope: float, mu: float) -> dict[str, float]:
    """A block that slides steadily on a plane: its pull and the plane's push."""
    return balanced(
        Force("R", "block", DOWN, size=weight),
        Force("E", "block", pull),
        Force("N", "block", rubbing(turned(UP, slope), slides, mu)),
    )


def ramp(motion: str, pull: str, **more: float) -> dict[str, float]:
    more |= {"delta": LEAN} if pull == "angled" else {}
    return metric("ramp", {"motion": motion, "pull": pull}, R=540, L=2.4, theta=SLOPE, **more)


@pytest.mark.parametrize("pull", PULLS)
@pytest.mark.parametrize(("motion", "way"), [("up", 1), ("down", -1)])
def test_a_crate_slides_steadily(pull: str, motion: str, way: int) -> None:
    """Linear system: two equations of the crate, friction against its motion."""
    found = sliding(540, PULLS[pull], (way * ALONG[0], way * ALONG[1]), SLOPE, MU)
    v = ramp(motion, pull, mu=MU)
    assert (v["E"], v["N"]) == pytest.approx((found["E"], found["N"]), rel=1e-9)


def test_a_crate_that_sticks_is_pushed_down() -> None:
    """Linear system: more friction than slope, so the push points down it."""
    down = (-ALONG[0], -ALONG[1])
    found = sliding(540, down, down, SLOPE, 0.6)
    assert ramp("push", "along", mu=0.6)["E"] == pytest.approx(found["E"], rel=1e-9)


def lies_still(weight: float, pull: Vector, E: float, slope: float, mu: float) -> bool:
    """Whether friction can take what is left over along the plane, by its limit mu N."""
    held = balanced(
        Force("R", "block", DOWN, size=weight),
        Force("E", "block", pull, size=E),
        Force("N", "block", turned(UP, slope)),
        Force("F", "block", turned(RIGHT, slope)),
    )
    return abs(held["F"]) <= mu * held["N"]


@pytest.mark.parametrize("pull", PULLS)
@pytest.mark.parametrize("motion", ["start", "hold"])
def test_the_edge_of_slipping(pull: str, motion: str) -> None:
    """Search: the pull at which the crate just starts, and the least at which it does not run back."""
    middle = sliding(540, PULLS[pull], ALONG, SLOPE, 0)["E"]  # no friction wanted
    low, high = (middle, 3 * middle) if motion == "start" else (0.0, middle)
    E = root(lambda x: 1.0 if lies_still(540, PULLS[pull], x, SLOPE, MU) else -1.0, low, high)
    assert ramp(motion, pull, mu_s=MU)["E"] == pytest.approx(E, rel=1e-9)


@pytest.mark.parametrize("motion", ["start", "keep"])
def test_a_load_dragged_on_the_level(motion: str) -> None:
    """Search for the edge of slipping; linear system while it slides."""
    pull = turned(RIGHT, LEAN)
    if motion == "start":
        E = root(lambda x: 1.0 if lies_still(300, pull, x, 0, 0.45) else -1.0, 0, 300)
        assert metric("level-drag", {"motion": motion}, R=300, mu_s=0.45, delta=LEAN)["E"] == pytest.approx(E)
    else:
        found = sliding(300, pull, RIGHT, 0, 0.3)
        v = metric("level-drag", {"motion": motion}, R=300, mu=0.3, delta=LEAN)
        assert (v["E"], v["N"]) == pytest.approx((found["E"], found["N"]), rel=1e-9)


def test_a_board_tilted_until_the_block_slips() -> None:
    """Search: tilt at the edge of slipping and tilt of steady sliding; the rise and run there tell the friction."""
    slips = root(lambda a: 1.0 if lies_still(10, UP, 0, a, 0.42) else -1.0, 0, 1.4)
    glides = root(lambda a: sliding(10, turned(RIGHT, a), turned(LEFT, a), a, 0.31)["E"], 0, 1.4)
    v = metric(
        "tilt-test",
        h=1.5 * math.sin(slips),
        b=1.5 * math.cos(slips),
        h_k=1.5 * math.sin(glides),
        b_k=1.5 * math.cos(glides),
    )
    assert (v["mu_s"], v["mu_k"]) == pytest.approx((0.42, 0.31), rel=1e-9)


def rolling(weight: float, slope: float, C: float, wheel: float = 0.15) -> float:
    """The pull on a cart whose wheels meet the ground a little ahead of their middle: cart and wheel, five equations.

    That the ground's push lies C times the wheel's radius ahead is what a coefficient of rolling resistance means.
    """
    along, square = turned(RIGHT, slope), turned(UP, slope)
    foot = (C * wheel * along[0] - wheel * square[0], C * wheel * along[1] - wheel * square[1])
    found = balanced(
        Force("R", "cart", DOWN, size=weight),
        Force("E", "cart", along),
        Force("x", "cart", RIGHT, against="wheel"),
        Force("y", "cart", UP, against="wheel"),
        Force("N", "wheel", square, foot),
        Force("T", "wheel", along, foot),
        turning=["wheel"],
    )
    return found["E"]


def test_a_cart_rolls_up_a_plank() -> None:
    """Linear system of cart and wheel."""
    v = metric("cart-ramp", {"rope": "direct"}, R=540, w=110, L=2.4, theta=0.26, C=0.04)
    assert v["E"] == pytest.approx(rolling(650, 0.26, 0.04), rel=1e-9)


@pytest.mark.parametrize("moves", ["slides", "rolls"])
def test_a_ramp_lengthened_until_the_pull_is_small_enough(moves: str) -> None:
    """Search: the ramp's length at which the pull, found by balance, is the limit."""

    def pull(L: float) -> float:
        slope = math.asin(0.6 / L)
        if moves == "rolls":
            return rolling(630 + 90, slope, 0.05)
        return sliding(630, turned(RIGHT, slope), turned(RIGHT, slope), slope, 0.1)["E"]

    sizes = {"mu": 0.1} if moves == "slides" else {"w": 90.0, "C": 0.05}
    v = metric("shortest-ramp", {"moves": moves}, R=630, h=0.6, E_max=180, **sizes)
    assert v["L"] == pytest.approx(root(lambda L: pull(L) - 180, 0.65, 20), rel=1e-9)


# -- wedge -----------------------------------------------------------------------------------------

ELL, T = 0.23, 0.04


def single(mu_1: float, mu_2: float, mu_3: float, way: int) -> dict[str, float]:
    """Wedge, load and guide: the wedge goes in to the right (``way`` 1) or comes out; the load goes up or down."""
    alpha = math.atan2(T, ELL)
    face, up_the_face = turned(UP, -alpha), turned(LEFT, -alpha)
    slides = (way * up_the_face[0], way * up_the_face[1])
    return balanced(
        Force("R", "load", DOWN, size=1300),
        Force("N", "load", rubbing(face, slides, mu_1), against="wedge"),
        Force("guide", "load", rubbing(LEFT, (0, way), mu_3)),
        Force("V", "wedge", rubbing(UP, (way, 0), mu_2)),
        Force("E", "wedge", RIGHT),
    )


@pytest.mark.parametrize("guide", ["free", "guided"])
def test_a_wedge_driven_in(guide: str) -> None:
    """Linear system of wedge and load, friction on each rubbing face; a free load is one on a smooth guide."""
    more = {"mu_3": 0.2} if guide == "guided" else {}
    found = single(0.25, 0.3, more.get("mu_3", 0), way=1)
    choices = {"faces": "each", "guide": guide}
    v = metric("wedge-with-friction", choices, R=1300, ell=ELL, t=T, mu_1=0.25, mu_2=0.3, **more)
    assert [v[s] for s in ("E", "N", "V")] == pytest.approx([found[s] for s in ("E", "N", "V")], rel=1e-9)


@pytest.mark.parametrize(("mu", "asked", "sign"), [(0.25, "E_out", -1), (0.05, "E_hold", 1)])
def test_a_wedge_that_comes_out(mu: float, asked: str, sign: int) -> None:
    """Linear system with all friction turned round: pulled out if it stays, held if it backs out."""
    v = metric("wedge-with-friction", {"faces": "each"}, R=1300, ell=ELL, t=T, mu_1=mu, mu_2=mu)
    assert v[asked] == pytest.approx(sign * single(mu, mu, 0, way=-1)["E"], rel=1e-9)


def double(face_along: float, size: float | None = None) -> dict[str, float]:
    """A splitting wedge between two halves, each held lengthways by a smooth stop; the upper one pressed with R.

    ``face_along`` is the friction on each face for a push of 1, against the wedge's way in.
    """
    alpha = math.atan2(T / 2, ELL)
    upper = rubbing(turned(UP, -alpha), turned(LEFT, -alpha), face_along)
    return balanced(
        Force("R", "upper", DOWN, size=2200),
        Force("N", "upper", upper, against="wedge"),
        Force("stop", "upper", LEFT),
        Force("N_2", "lower", (upper[0], -upper[1]), against="wedge"),
        Force("stop_2", "lower", LEFT),
        Force("R_2", "lower", UP),
        Force("E", "wedge", RIGHT, size=size),
    )


@pytest.mark.parametrize(("mu", "asked", "sign"), [(0.2, "E", 1), (0.2, "E_out", -1), (0.03, "E_hold", 1)])
def test_a_splitting_wedge(mu: float, asked: str, sign: int) -> None:
    """Linear system of wedge and both halves; what presses on the lower half comes out as on the upper one."""
    found = double(mu if asked == "E" else -mu)
    assert found["R_2"] == pytest.approx(2200, rel=1e-12)
    v = metric("wedge-with-friction", {"kind": "double"}, R=2200, ell=ELL, t=T, mu=mu)
    assert v[asked] == pytest.approx(sign * found["E"], rel=1e-9)
    if asked == "E":
        assert v["N"] == pytest.approx(found["N"], rel=1e-9)


@pytest.mark.parametrize("kind", ["single", "double"])
def test_the_face_force_behind_a_measured_push(kind: str) -> None:
    """Linear system: push of the face and friction on it both unknown, load and effort known; the base is smooth."""
    faces = 2 if kind == "double" else 1
    alpha = math.atan2(T / faces, ELL)
    normal, slides = turned(UP, -alpha), turned(LEFT, -alpha)
    found = balanced(
        Force("R", "load", DOWN, size=2200),
        Force("N", "load", normal, against="half"),
        Force("F", "load", (-slides[0], -slides[1]), against="half"),
        Force("stop", "load", LEFT),
        Force("E", "half", RIGHT, size=900 / faces),
        Force("base", "half", UP),
    )
    v = metric("wedge", {"kind": kind, "wedge": "slope"}, R=2200, ell=ELL, t=T, E=900)
    assert v["N"] == pytest.approx(found["N"], rel=1e-9)
