"""Ramp shape, cart, shortest ramp and tilt test against their own geometry."""

from __future__ import annotations

from dataclasses import replace
from math import atan2, degrees

import pytest

from calc.drawing import cart_ramp, ramp_shape, shortest_ramp, tilt_test
from calc.drawing.scene import NARROW, WIDE, Drawing
from tests.drawing import reading, slope_scenes

WIDTHS = pytest.mark.parametrize("width", [WIDE, NARROW])


def tree(drawing: Drawing | None) -> reading.ElementTree.Element:
    assert drawing is not None
    return reading.parse(drawing.svg)


def length(points: list[complex]) -> float:
    return abs(points[-1] - points[0])


@WIDTHS
@pytest.mark.parametrize("angle", [0.05, 0.2527, 0.8])
def test_the_triangle_is_drawn_at_its_true_angle(width: int, angle: float) -> None:
    triangle = next(
        p
        for p in reading.straight_paths(tree(ramp_shape.draw(slope_scenes.shape(width, angle=angle))), "visible paper")
    )
    foot, top = triangle[0], triangle[1]
    assert atan2(foot.imag - top.imag, top.real - foot.real) == pytest.approx(angle, abs=0.01)


def test_the_point_climbs_with_the_slider() -> None:
    heights = []
    for travel in (0.2, 0.5, 0.8):
        (drop,) = reading.straight_paths(tree(ramp_shape.draw(slope_scenes.shape(WIDE, travel=travel))), "path")
        heights.append(length(drop) / travel)
    assert max(heights) - min(heights) < 1.5  # rise and run of the point keep one ratio


@WIDTHS
@pytest.mark.parametrize("rope", ["direct", "sheave"])
def test_the_paths_of_hand_and_load_are_drawn_in_the_ratio_of_the_advantage(width: int, rope: str) -> None:
    root = tree(cart_ramp.draw(slope_scenes.cart(width, rope=rope)))
    (effort,) = reading.straight_paths(root, "path by-effort")
    (load,) = reading.straight_paths(root, "path")
    assert length(effort) == pytest.approx(4 * length(load), abs=2)


def test_the_arrow_of_the_load_carries_the_cart_too() -> None:
    """Both arrows to one force scale: load and cart together against the pull."""
    scene = slope_scenes.cart(WIDE)
    root = tree(cart_ramp.draw(scene))
    (effort,) = reading.straight_paths(root, "effort")
    load = next(p for p in reading.straight_paths(root, "lesser paper") if len(p) == 7)
    long = [abs((arrow[0] + arrow[-1]) / 2 - arrow[3]) for arrow in (effort, load)]
    v = scene.values
    assert long[0] / long[1] == pytest.approx(v["E"] / (v["R"] + v["w"]), rel=0.03)


@pytest.mark.parametrize(("rolling", "chocks"), [(0.03, 1), (0.5, 0)])
def test_a_chock_stands_behind_the_wheels_only_where_the_cart_runs_back(rolling: float, chocks: int) -> None:
    drawing = cart_ramp.draw(slope_scenes.cart(WIDE, rolling=rolling))
    assert drawing is not None
    assert len(reading.straight_paths(reading.parse(drawing.svg), "lesser ink")) == chocks
    assert ("chock" in drawing.caption) == bool(chocks)


def test_over_a_sheave_the_hand_pulls_down() -> None:
    (effort,) = reading.straight_paths(tree(cart_ramp.draw(slope_scenes.cart(WIDE, rope="sheave"))), "effort")
    assert effort[3].imag > effort[0].imag
    assert effort[3].real == pytest.approx((effort[0].real + effort[-1].real) / 2, abs=0.1)


@WIDTHS
def test_the_ramps_of_the_fan_have_their_true_lengths(width: int) -> None:
    root = tree(shortest_ramp.draw(slope_scenes.fan(width)))
    bold = max(reading.straight_paths(root, "visible paper"), key=lambda p: abs(p[1] - p[0]))
    shortest = abs(bold[1] - bold[0])
    others = [length(p) for p in reading.straight_paths(root, "lesser") if len(p) == 2 and abs(p[1] - bold[1]) < 1]
    assert sorted(others)[-2:] == pytest.approx([1.5 * shortest, 2 * shortest], rel=0.01)
    steep = [length(p) for p in reading.straight_paths(root, "hidden") if abs(p[1] - bold[1]) < 1]
    assert steep == pytest.approx([0.75 * shortest], rel=0.01)


def test_a_ramp_that_is_too_steep_says_so() -> None:
    drawing = shortest_ramp.draw(slope_scenes.fan(WIDE, travel=0.0))
    assert drawing is not None
    assert "too much" in drawing.svg
    assert "too steep" in drawing.caption


def test_a_ramp_shorter_than_its_height_is_left_out() -> None:
    drawing = shortest_ramp.draw(slope_scenes.fan(WIDE, angle=1.0))
    assert drawing is not None
    assert "too much" not in drawing.svg


@WIDTHS
@pytest.mark.parametrize(("travel", "share"), [(0.4, 0.5), (0.8, 1.0)])
def test_the_plank_is_tilted_in_proportion_until_it_slips(width: int, travel: float, share: float) -> None:
    scene = slope_scenes.tilt(width, travel=travel)
    plank = max(reading.straight_paths(tree(tilt_test.draw(scene)), "visible paper"), key=lambda p: abs(p[1] - p[0]))
    angle = atan2(plank[0].imag - plank[1].imag, plank[1].real - plank[0].real)
    assert degrees(angle) == pytest.approx(degrees(scene.values["theta"]) * share, abs=0.5)


def test_the_load_slides_down_only_beyond_the_slip_angle() -> None:
    captions = [tilt_test.draw(slope_scenes.tilt(WIDE, travel=travel)) for travel in (0.79, 1.0)]
    assert [bool(d and "has slipped" in d.caption) for d in captions] == [False, True]


@pytest.mark.parametrize(
    ("draw", "scene"),
    [
        (ramp_shape.draw, slope_scenes.shape(WIDE)),
        (cart_ramp.draw, slope_scenes.cart(WIDE)),
        (shortest_ramp.draw, slope_scenes.fan(WIDE)),
        (tilt_test.draw, slope_scenes.tilt(WIDE)),
    ],
)
def test_one_measure_gives_no_drawing(draw: object, scene: object) -> None:
    assert callable(draw)
    assert isinstance(scene, slope_scenes.Scene)
    assert draw(replace(scene, values={"L": 1.0})) is None


def test_the_alternatives_say_what_the_labels_say() -> None:
    drawing = cart_ramp.draw(slope_scenes.cart(WIDE, travel=0.4))
    assert drawing is not None
    assert drawing.alt == (
        "Ramp 96.0 in long, 24.0 in high; cart 40 % of the way up; pull 20.9 lbf along the ramp"
        " for a load of 50.0 lbf on a cart of 25.0 lbf."
    )
