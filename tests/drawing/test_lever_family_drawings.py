"""Bars, bent levers, pins, chains and tapes against their own geometry, read back from the finished drawings."""

from __future__ import annotations

import re
from dataclasses import replace
from math import cos, hypot, pi, radians, sin

import pytest

from calc.drawing import bent_lever, chain, loaded_bar, measures, pin_friction, work_along_path
from calc.drawing.scene import NARROW, WIDE, Drawing
from tests.drawing import lever_scenes, reading, scenes

INCH, LBF = scenes.INCH, scenes.POUND_FORCE
WIDTHS = [WIDE, NARROW]


def root_of(drawing: Drawing | None) -> reading.ElementTree.Element:
    assert drawing is not None
    return reading.parse(drawing.svg)


def length(points: list[complex]) -> float:
    return abs(points[-1] - points[0])


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize(("load_angle", "effort_angle"), [(70, 90), (90, 90), (120, 60), (40, 150)])
def test_a_bent_lever_s_paths_are_in_the_ratio_of_its_moment_arms(
    width: int, load_angle: float, effort_angle: float
) -> None:
    scene = lever_scenes.bent_lever(width, 5 * INCH, radians(load_angle), 12 * INCH, radians(effort_angle))
    root = root_of(bent_lever.draw(scene))
    (effort,) = reading.straight_paths(root, "path by-effort")
    (load,) = reading.straight_paths(root, "path")
    ideal = 12 * sin(radians(effort_angle)) / (5 * sin(radians(load_angle)))
    assert length(effort) == pytest.approx(length(load) * ideal, abs=2)


@pytest.mark.parametrize("travel", [0.0, 0.5, 1.0])
def test_a_moment_arm_is_square_to_its_force(travel: float) -> None:
    root = root_of(bent_lever.draw(lever_scenes.bent_lever(WIDE, 8 * INCH, radians(120), effort_angle=1, moved=travel)))
    arms = reading.straight_paths(root, "hidden")
    lines = [line for line in reading.straight_paths(root, "centre") if length(line) > 40]
    assert len(arms) == 2
    for arm in arms:
        along = (arm[1] - arm[0]) / length(arm)
        square = [line for line in lines if abs(((line[1] - line[0]).conjugate() * along).real) / length(line) < 0.02]
        assert square, arm


@pytest.mark.parametrize("width", WIDTHS)
def test_a_chain_s_travels_shrink_by_each_stage_s_advantage(width: int) -> None:
    stages = [(4.0, 0.8), (2.5, 0.9), (2.0, 1.0)]
    root = root_of(chain.draw(lever_scenes.chain(width, stages)))
    (hand,) = reading.straight_paths(root, "path by-effort")
    others = reading.straight_paths(root, "path")
    lengths = [length(hand), *(length(path) for path in others)]
    for before, after, (advantage, _) in zip(lengths, lengths[1:], stages, strict=False):
        assert before == pytest.approx(after * advantage, abs=1.5)


@pytest.mark.parametrize("travel", [0.0, 0.3, 1.0])
def test_the_marks_of_a_chain_go_the_same_share_of_their_way(travel: float) -> None:
    root = root_of(chain.draw(lever_scenes.chain(WIDE, [(3.0, 1.0), (2.0, 1.0)], moved=travel)))
    paths = [*reading.straight_paths(root, "path by-effort"), *reading.straight_paths(root, "path")]
    marks = [
        complex(float(e.attrib["cx"]), float(e.attrib["cy"]))
        for e in root.iter(f"{reading.SVG}circle")
        if e.get("class") in ("ink", "effort")
    ]
    for path in paths:
        at = path[0] + (path[1] - path[0]) * travel
        assert min(abs(mark - at) for mark in marks) < 0.6


def test_places_on_a_bar_are_to_scale() -> None:
    root = root_of(loaded_bar.draw(lever_scenes.loaded_bar(WIDE, [(40 * LBF, 0.0)], 24 * INCH, 96 * INCH)))
    (effort,) = reading.straight_paths(root, "effort")
    hand = max(point.real for point in effort) - (max(p.real for p in effort) - min(p.real for p in effort)) / 2
    load = next(p for p in reading.straight_paths(root, "lesser paper") if len(p) == 7)
    weight = [p for p in reading.straight_paths(root, "lesser paper") if len(p) == 7][1]
    middle = [sum(p.real for p in arrow[:1] + arrow[6:]) / 2 for arrow in (load, weight)]
    assert (hand - middle[0]) / 96 == pytest.approx((middle[1] - middle[0]) / 48, abs=0.03)


def test_a_bar_s_forces_are_to_one_scale() -> None:
    """By hand the effort is 480/72 lbf beside a load of 40."""
    root = root_of(loaded_bar.draw(lever_scenes.loaded_bar(WIDE, [(40 * LBF, 0.0)], 24 * INCH, 96 * INCH)))
    (effort,) = reading.straight_paths(root, "effort")
    load = next(p for p in reading.straight_paths(root, "lesser paper") if len(p) == 7)
    long = [max(p.imag for p in arrow) - min(p.imag for p in arrow) for arrow in (effort, load)]
    assert long[0] / long[1] == pytest.approx(480 / 72 / 40, abs=0.01)


@pytest.mark.parametrize(("turning", "word"), [(5.0, "anticlockwise"), (-5.0, "clockwise")])
def test_a_bar_out_of_balance_shows_which_way_it_turns(turning: float, word: str) -> None:
    scene = lever_scenes.loaded_bar(WIDE, [(40 * LBF, 0.0)], 24 * INCH, 96 * INCH)
    values = {symbol: value for symbol, value in scene.values.items() if symbol not in ("E", "N")}
    root = root_of(loaded_bar.draw(replace(scene, values={**values, "M": turning})))
    assert word in [text.words for text in reading.texts(root)]
    assert not reading.straight_paths(root, "effort")


@pytest.mark.parametrize("kind", ["1", "2", "3"])
def test_the_pivot_force_touches_the_friction_circle_on_opposite_sides(kind: str) -> None:
    arms = (24, 6) if kind == "3" else (6, 24)
    base = scenes.lever(WIDE, kind, load_arm=arms[0] * INCH, effort_arm=arms[1] * INCH)
    root = root_of(pin_friction.draw(lever_scenes.pin_friction(base, 0.25 * INCH, 0.5)))
    circles = list(root.iter(f"{reading.SVG}circle"))
    rings = [e for e in circles if e.get("class") == "hidden"]
    pins = [e for e in circles if e.get("class") == "visible paper"]
    assert len(rings) == len(pins) == 2
    radius = float(rings[0].attrib["r"])
    assert radius / float(pins[0].attrib["r"]) == pytest.approx(0.5 / hypot(1, 0.5), abs=0.01)  # sin(arctan mu)
    beside = []
    for ring in rings:
        centre = float(ring.attrib["cx"])
        pushes = [p for p in reading.straight_paths(root, "lesser") if len(p) == 2 and p[0].real == p[1].real]
        nearest = min(pushes, key=lambda push: abs(push[0].real - centre))
        beside.append(nearest[0].real - centre)
    assert abs(beside[0]) == pytest.approx(radius, abs=0.2)
    assert beside[0] == pytest.approx(-beside[1], abs=0.2)
    assert (beside[0] > 0) == (kind != "2")  # going up, on the effort's side of class 1 and 3, away from it in class 2


@pytest.mark.parametrize("angle", [0.0, 40.0, 90.0, 135.0])
def test_the_dashed_part_of_a_force_is_its_cosine(angle: float) -> None:
    root = root_of(work_along_path.draw(lever_scenes.along_path(WIDE, radians(angle))))
    parts = reading.straight_paths(root, "hidden")
    if angle in (0.0, 90.0):
        assert not parts
        return
    shaft = length(parts[0]) + 8.0  # the head stands on the last 8 px
    assert shaft == pytest.approx(90 * abs(cos(radians(angle))), abs=0.5)


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("travel", [0.0, 0.5, 1.0])
def test_the_mark_on_the_tape_stands_at_the_length(width: int, travel: float) -> None:
    """Counted from the inch figures on either side of it."""
    root = root_of(measures.draw(lever_scenes.measure(width, 63.3 * INCH, moved=travel)))
    (mark,) = reading.straight_paths(root, "visible by-effort")
    figures = {}
    for text in root.iter(f"{reading.SVG}text"):
        if re.fullmatch(r"6\d", text.text or "") and float(text.attrib["y"]) < 46:
            figures[int(text.text or "0")] = float(text.attrib["x"])
    (low, x), (high, y) = sorted(figures.items())[0], sorted(figures.items())[-1]
    inch = (y - x) / (high - low)
    assert low + (mark[0].real - x) / inch == pytest.approx(63.3, abs=0.01)


def test_a_slope_is_drawn_at_its_angle() -> None:
    root = root_of(measures.draw(lever_scenes.measure(WIDE, angle=pi / 6)))
    triangle = next(p for p in reading.straight_paths(root, "visible paper") if len(p) == 3)
    foot, corner, top = triangle
    assert abs(top - corner) / abs(corner - foot) == pytest.approx(sin(pi / 6) / cos(pi / 6), abs=0.005)
