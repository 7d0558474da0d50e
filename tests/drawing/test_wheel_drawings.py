"""Wheel, windlass, journal and train against their own geometry: paths, radii, teeth and turning."""

from __future__ import annotations

import re
from dataclasses import replace
from math import pi

import pytest

from calc.drawing import gear_train, gears, wheel_and_axle, windlass
from calc.drawing.scene import NARROW, WIDE, Scene
from tests.drawing import reading, wheel_scenes

INCH = wheel_scenes.INCH
WIDTHS = pytest.mark.parametrize("width", [WIDE, NARROW])


def svg(draw: object, scene: Scene) -> str:
    drawing = draw(scene)  # type: ignore[operator]
    assert drawing is not None
    return drawing.svg


def paths(text: str) -> tuple[float, float]:
    """Lengths in pixels of the effort's and the load's path."""
    root = reading.parse(text)
    found = []
    for kind in ("path by-effort", "path"):
        (points,) = reading.straight_paths(root, kind)
        found.append(abs(points[-1] - points[0]))
    return found[0], found[1]


def circles(text: str, kind: str) -> list[tuple[float, float, float]]:
    """Centre and radius of every circle of exactly this class."""
    return [
        (float(e.attrib["cx"]), float(e.attrib["cy"]), float(e.attrib["r"]))
        for e in reading.parse(text).iter(f"{reading.SVG}circle")
        if e.get("class") == kind
    ]


@WIDTHS
@pytest.mark.parametrize("hand", ["wheel", "axle"])
@pytest.mark.parametrize(("wheel", "axle"), [(9, 1.5), (9, 8), (30, 0.5), (2, 5)])
def test_the_paths_of_a_turn_are_drawn_in_the_ratio_of_the_radii(
    width: int, hand: str, wheel: float, axle: float
) -> None:
    text = svg(wheel_and_axle.draw, wheel_scenes.wheel(width, wheel * INCH, axle * INCH, hand=hand))
    effort, load = paths(text)
    ratio = wheel / axle if hand == "wheel" else axle / wheel
    assert effort == pytest.approx(load * ratio, abs=max(2, 0.06 * ratio))


@WIDTHS
def test_one_turn_is_the_circumference_of_the_drawn_wheel(width: int) -> None:
    text = svg(wheel_and_axle.draw, wheel_scenes.wheel(width))
    rim, axle = (r for _, _, r in circles(text, "visible paper"))
    effort, load = paths(text)
    assert effort == pytest.approx(2 * pi * rim, abs=0.6)
    assert load == pytest.approx(2 * pi * axle, abs=0.6)


@WIDTHS
def test_the_crate_rises_by_the_load_path(width: int) -> None:
    """The middle of the crate's weight, at the start and after one turn."""
    places = []
    for travel in (0.0, 1.0):
        text = svg(wheel_and_axle.draw, wheel_scenes.wheel(width, travel=travel))
        (disc,) = [c for c in circles(text, "lesser paper") if c[2] == 4.5]
        places.append(disc[1])
    assert places[0] - places[1] == pytest.approx(paths(text)[1], abs=0.3)


def test_an_axle_too_thin_to_see_has_a_detail() -> None:
    text = svg(wheel_and_axle.draw, wheel_scenes.wheel(WIDE, 30 * INCH, 0.2 * INCH))
    assert "detail A, " in text
    assert "axle radius 0.2" in text
    assert "detail A" not in svg(wheel_and_axle.draw, wheel_scenes.wheel(WIDE))


@WIDTHS
@pytest.mark.parametrize("height", [6, 12, 120, 1200])
def test_the_paths_of_a_lift_are_drawn_in_the_ratio_of_crank_and_drum(width: int, height: float) -> None:
    scene = wheel_scenes.windlass(width, height=height * INCH)
    effort, load = paths(svg(windlass.draw, scene))
    assert effort == pytest.approx(load * 15 / 3.25, abs=2)


@WIDTHS
def test_drum_rope_and_crank_are_to_one_scale(width: int) -> None:
    text = svg(windlass.draw, wheel_scenes.windlass(width))
    (hand,) = circles(text, "centre")
    outer = next(c for c in circles(text, "lesser paper") if c[:2] == hand[:2] and c[2] > 12)
    drum = circles(text, "visible paper")[0]
    scale = hand[2] / 15
    assert drum[2] == pytest.approx(3 * scale, abs=0.1)
    assert outer[2] == pytest.approx(3.5 * scale, abs=0.1)


def test_three_dead_turns_stay_on_the_drum_and_the_others_come_on_top() -> None:
    """J09's lift of 10 ft makes 5.88 turns: 3 strands at the start, 9 (of 8.88) at the end."""
    counts = []
    for travel in (0.0, 1.0):
        text = svg(windlass.draw, wheel_scenes.windlass(WIDE, height=120 * INCH, travel=travel))
        strands = [p for p in reading.straight_paths(reading.parse(text), "thin paper") if is_strand(p)]
        counts.append(len(strands))
    assert counts == [3, 9]


def is_strand(corners: list[complex]) -> bool:
    """A leaning parallelogram with level ends."""
    if len(corners) != 4:
        return False
    a, b, c, d = corners
    level = abs(a.imag - b.imag) < 0.11 and abs(c.imag - d.imag) < 0.11
    return level and a.real < b.real and c.real > d.real and 0.5 < d.real - a.real < 4


def test_a_high_lift_has_its_rope_cut_short_and_a_low_one_not() -> None:
    low, high = (svg(windlass.draw, wheel_scenes.windlass(WIDE, height=h * INCH)).count("q") for h in (6, 120))
    assert high == low + 2  # the two waves of a second break


def test_the_bearing_pushes_beside_the_centre_by_the_friction_circle() -> None:
    text = svg(windlass.draw_journal, wheel_scenes.journal(WIDE, mu=1.0))
    (rubbing,) = circles(text, "hidden")
    shaft = next(c for c in circles(text, "visible paper") if c[:2] == rubbing[:2])
    assert rubbing[2] / shaft[2] == pytest.approx(1 / 2**0.5, abs=0.01)
    lines = [p for p in reading.straight_paths(reading.parse(text), "lesser") if len(p) == 2]
    upright = [p for p in lines if p[0].real == p[1].real]
    assert any(p[0].real - rubbing[0] == pytest.approx(rubbing[2], abs=0.2) for p in upright)


@WIDTHS
def test_gears_are_as_large_as_their_teeth_are_many(width: int) -> None:
    text = svg(gears.draw, wheel_scenes.train(width, [(12, 48)]))
    small, large = (c for c in circles(text, "lesser paper") if c[2] > 7)
    assert large[2] / small[2] == pytest.approx(4, abs=0.05)
    assert large[0] - small[0] == pytest.approx(large[2] + small[2], abs=0.2)
    ticks = [
        e.attrib["d"].count("M") for e in reading.parse(text).iter(f"{reading.SVG}path") if e.get("class") == "lesser"
    ]
    assert {12, 48} <= set(ticks)


@pytest.mark.parametrize("teeth", [[(12, 48)], [(15, 47), (20, 33)], [(13, 31), (31, 13), (9, 40)]])
@pytest.mark.parametrize("between", [0, 1, 3])
@pytest.mark.parametrize("travel", [0.0, 0.13, 0.5, 1.0])
def test_a_tooth_meets_a_gap_wherever_the_train_stands(
    teeth: list[tuple[float, float]], between: int, travel: float
) -> None:
    """At the touching point one wheel shows a tooth where the other has the middle of a gap, always."""
    scene = wheel_scenes.train(WIDE, teeth, idlers=between, travel=travel)
    train = gear_train.lay_out(scene, gear_train.sizes(scene), 190)
    for pair in train.pairs:
        for left, right in zip(pair.wheels, pair.wheels[1:], strict=False):
            assert abs(right.centre - left.centre) == pytest.approx(left.radius + right.radius)
            above_left = (left.phase + left.turned) / (2 * pi / left.teeth)
            above_right = (pi - right.phase - right.turned) / (2 * pi / right.teeth)
            assert (above_left - above_right) % 1 == pytest.approx(0.5, abs=1e-6)


def test_the_last_shaft_has_turned_by_the_ratio() -> None:
    scene = wheel_scenes.train(WIDE, [(12, 48), (15, 45)], travel=1.0)
    train = gear_train.lay_out(scene, gear_train.sizes(scene), 190)
    assert train.turned[0] == pytest.approx(-2 * pi)
    assert train.turned[-1] == pytest.approx(-2 * pi / 12)
    turned = gear_train.lay_out(replace(scene, values={**scene.values, "idlers": 1.0}), gear_train.sizes(scene), 190)
    assert turned.turned[-1] == pytest.approx(2 * pi / 12)


@pytest.mark.parametrize("drive", ["belt", "crossed", "chain"])
def test_a_belt_touches_both_wheels_square_to_their_radii(drive: str) -> None:
    pairs = [(12.0, 48.0)] if drive == "chain" else [(4 * INCH, 12 * INCH)]
    text = svg(gears.draw, wheel_scenes.train(WIDE, pairs, drive))
    rims = [c for c in circles(text, "lesser paper" if drive == "chain" else "visible paper") if c[2] > 7]
    belts = [p for p in reading.straight_paths(reading.parse(text), "visible") if len(p) == 2]
    assert len(belts) == 2
    for start, end in belts:
        for point, (x, y, r) in zip((start, end), rims, strict=True):
            radius = point - complex(x, y)
            assert abs(radius) == pytest.approx(r, abs=0.2)
            along = (end - start) / abs(end - start)
            assert (radius * along.conjugate()).real == pytest.approx(0, abs=0.3)


def test_what_is_missing_leaves_no_drawing() -> None:
    for draw, scene, needed in (
        (wheel_and_axle.draw, wheel_scenes.wheel(WIDE), ("r_w", "r_a")),
        (windlass.draw, wheel_scenes.windlass(WIDE), ("r_c", "r")),
        (windlass.draw_journal, wheel_scenes.journal(WIDE), ("r_c", "r")),
        (gears.draw, wheel_scenes.train(WIDE, [(12, 48)]), ("N_a_1", "N_b_1")),
    ):
        for symbol in needed:
            assert draw(replace(scene, values={s: v for s, v in scene.values.items() if s != symbol})) is None


def test_the_alternatives_say_what_the_labels_say() -> None:
    found = [
        drawing.alt
        for drawing in (
            wheel_and_axle.draw(wheel_scenes.wheel(WIDE)),
            windlass.draw(wheel_scenes.windlass(WIDE, height=120 * INCH)),
            windlass.draw_journal(wheel_scenes.journal(WIDE)),
            gears.draw(wheel_scenes.train(WIDE, [(12, 48), (15, 45)])),
        )
        if drawing
    ]
    assert found == [
        "Wheel of radius 9.00 in on an axle of radius 1.50 in: effort 4.00 lbf on the wheel and load 24.0 lbf;"
        " 50 % of one turn made.",
        "Windlass with a crank of 15.0 in and an effective radius of 3.25 in: effort 8.67 lbf for a load of 40.0 lbf;"
        " 50 % of 5.88 turns made.",
        "Windlass with a crank of 15.0 in and an effective radius of 3.25 in: effort 9.00 lbf for a load of 40.0 lbf;"
        " bearing load 67.0 lbf, crank level.",
        "Gears, 12 to 48 teeth, 15 to 45 teeth: the last shaft turns the same way as the first at 30.0 rpm.",
    ]


@WIDTHS
def test_the_height_of_the_drawing_does_not_jump_with_the_travel(width: int) -> None:
    for draw, make in (
        (wheel_and_axle.draw, wheel_scenes.wheel),
        (windlass.draw, wheel_scenes.windlass),
        (windlass.draw_journal, wheel_scenes.journal),
    ):
        heights = []
        for travel in (0.0, 0.25, 0.5, 0.75, 1.0):
            frame = re.search(r'viewBox="([^"]+)"', svg(draw, make(width, travel=travel)))
            assert frame
            heights.append(float(frame[1].split()[3]))
        assert max(heights) - min(heights) < 16, (make.__name__, heights)
