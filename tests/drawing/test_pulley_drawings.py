"""The pulley machines' drawings against their own geometry: the rope's run, the paths, the tensions, the wheels."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise
from math import atan2, degrees, exp, pi, radians
from typing import Any

import pytest

from calc.drawing import chain_hoist, rope_on_post, single_pulley, tackle, tackle_rope
from calc.drawing.scene import NARROW, WIDE, Drawing, Scene
from tests.drawing import pulley_scenes, reading

PARTS = range(1, 13)
BOTH_WAYS = [False, True]
WIDTHS = [WIDE, NARROW]


def root_of(drawing: Drawing | None) -> Any:
    assert drawing is not None
    return reading.parse(drawing.svg)


def rope_runs(root: Any) -> tuple[list[complex], int]:
    """The points that the drawn rope goes through, and how many half turns it makes."""
    (rope,) = (e.attrib["d"] for e in root.iter(f"{reading.SVG}path") if e.get("class") == "rope")
    points = []
    for _, data in re.findall(r"([MLA])([^MLA]*)", rope):
        numbers = [float(part) for part in data.split()]
        points.append(complex(*numbers[-2:]))
    return points, rope.count("A")


def rope_length(points: list[complex]) -> float:
    """Length of the upright runs; each half turn is level from one part to the next and counts pi/2 of that."""
    total = 0.0
    for a, b in pairwise(points):
        step = b - a
        total += abs(step.imag) if abs(step.real) < 0.5 else abs(step.real) * pi / 2
    return total


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("to_advantage", BOTH_WAYS)
@pytest.mark.parametrize("parts", PARTS)
def test_the_hand_goes_the_lift_once_for_every_part(parts: int, to_advantage: bool, width: int) -> None:
    """The drawn paths are in the ratio n : 1, the ideal advantage."""
    root = root_of(tackle.draw(pulley_scenes.tackle(width, parts, to_advantage)))
    (effort,) = reading.straight_paths(root, "path by-effort")
    (load,) = reading.straight_paths(root, "path")
    assert abs(effort[1] - effort[0]) == pytest.approx(parts * abs(load[1] - load[0]), abs=2)


@pytest.mark.parametrize("to_advantage", BOTH_WAYS)
@pytest.mark.parametrize("parts", PARTS)
def test_the_rope_turns_round_as_many_sheaves_as_the_tackle_has(parts: int, to_advantage: bool) -> None:
    points, turns = rope_runs(root_of(tackle.draw(pulley_scenes.tackle(WIDE, parts, to_advantage))))
    assert turns == (parts - 1 if to_advantage else parts)
    upright = [(a, b) for a, b in pairwise(points) if abs(a.real - b.real) < 0.5]
    assert len(upright) == (parts if to_advantage else parts + 1)


@pytest.mark.parametrize("to_advantage", BOTH_WAYS)
@pytest.mark.parametrize("parts", PARTS)
def test_exactly_as_many_parts_as_counted_touch_the_moving_block(parts: int, to_advantage: bool) -> None:
    """The runs that end at the lowest points of the rope, counted without the hand's."""
    made = pulley_scenes.tackle(WIDE, parts, to_advantage, travel=0.0)
    points, _ = rope_runs(root_of(tackle.draw(made)))
    body = points if to_advantage else points[:-1]
    low = max(point.imag for point in body)
    assert sum(point.imag > low - 12 for point in body) == parts


@pytest.mark.parametrize("to_advantage", BOTH_WAYS)
@pytest.mark.parametrize("parts", PARTS)
def test_the_rope_keeps_its_length_while_it_is_hauled(parts: int, to_advantage: bool) -> None:
    """What the parts lose, the hauling part gains, to a pixel: the reeving is true."""
    lengths = [
        rope_length(rope_runs(root_of(tackle.draw(pulley_scenes.tackle(WIDE, parts, to_advantage, travel=at))))[0])
        for at in (0.0, 0.4, 1.0)
    ]
    if to_advantage:  # the hauling part is itself one of the parts
        assert lengths[0] == pytest.approx(lengths[2], abs=2)
    assert lengths[0] == pytest.approx(lengths[1], abs=2)


@pytest.mark.parametrize("parts", range(2, 9))
def test_the_dead_end_is_at_the_standing_block_for_an_even_number_of_parts(parts: int) -> None:
    points, _ = rope_runs(root_of(tackle.draw(pulley_scenes.tackle(WIDE, parts))))
    first, then = points[:2]
    assert (then.imag > first.imag) == (parts % 2 == 0)


def test_the_listed_tensions_add_up_to_load_and_block() -> None:
    drawing = tackle.draw(pulley_scenes.tackle(WIDE, 4, k=0.92))
    words = [text.words for text in reading.texts(root_of(drawing))]
    start = words.index("TENSION IN THE ROPE")
    listed = [float(text.split()[0]) for text in words[start:] if re.fullmatch(r"[\d.]+ lbf", text)]
    assert len(listed) == 5  # the hand and four parts
    assert sum(listed[1:]) == pytest.approx(40, abs=0.02)
    assert listed == sorted(listed, reverse=True)


def test_without_friction_one_tension_is_stated() -> None:
    assert "No friction: 10.0 lbf" in str(root_text(tackle.draw(pulley_scenes.tackle(WIDE))))


def root_text(drawing: Drawing | None) -> str:
    return " ".join(text.words for text in reading.texts(root_of(drawing)))


def test_only_a_hauling_part_off_the_standing_block_is_said_not_to_count() -> None:
    assert "not counted" in root_text(tackle.draw(pulley_scenes.tackle(WIDE, 3)))
    assert "not counted" not in root_text(tackle.draw(pulley_scenes.tackle(WIDE, 3, to_advantage=True)))


@pytest.mark.parametrize("number", [0.0, 2.5, 13.0])
def test_a_number_of_parts_that_no_tackle_has_is_not_drawn(number: float) -> None:
    made = pulley_scenes.tackle(WIDE)
    assert tackle.draw(replace(made, values={**made.values, "n": number})) is None


@pytest.mark.parametrize("to_advantage", BOTH_WAYS)
def test_the_frame_stands_still_while_the_rope_is_hauled(to_advantage: bool) -> None:
    for width in WIDTHS:
        boxes = []
        for at in (0.0, 0.25, 0.5, 0.75, 1.0):
            _, top, _, bottom = reading.view_box(
                root_of(tackle.draw(pulley_scenes.tackle(width, to_advantage=to_advantage, travel=at)))
            )
            boxes.append(bottom - top)
        assert max(boxes) - min(boxes) < 40


@pytest.mark.parametrize("lean", [10.0, 25.0, 60.0])
def test_a_leaning_part_is_drawn_at_its_angle(lean: float) -> None:
    root = root_of(single_pulley.draw(pulley_scenes.single_pulley(WIDE, "leaning", radians(lean))))
    points, _ = rope_runs(root)
    run = points[-1] - points[-2]
    assert degrees(atan2(run.real, -run.imag)) == pytest.approx(lean, abs=0.3)


def circles(root: Any, kind: str) -> list[float]:
    return sorted(float(e.attrib["r"]) for e in root.iter(f"{reading.SVG}circle") if e.get("class") == kind)


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("small", [3.0, 7.0, 9.0])
def test_the_hoist_is_drawn_to_scale(width: int, small: float) -> None:
    scene = pulley_scenes.chain_hoist(width, small=small * pulley_scenes.INCH)
    root = root_of(chain_hoist.draw(scene))
    (effort,) = reading.straight_paths(root, "path by-effort")
    out, rise = (abs(p[1] - p[0]) for p in reading.straight_paths(root, "path"))
    taken_in = abs(effort[1] - effort[0])
    assert out == pytest.approx(taken_in * small / 10, abs=2)
    assert rise == pytest.approx((taken_in - out) / 2, abs=2)
    assert circles(root, "lesser")[-1] == pytest.approx(taken_in / (2 * pi) * small / 10, abs=1)


@pytest.mark.parametrize("way", ["ease", "up"])
@pytest.mark.parametrize(("turns", "mu"), [(0.5, 0.2), (1.0, 0.25), (1.5, 0.2)])
def test_the_rope_on_the_post_is_as_wide_as_its_tension(turns: float, mu: float, way: str) -> None:
    root = root_of(rope_on_post.draw(pulley_scenes.rope_on_post(WIDE, turns, mu, way=way)))
    band = max(reading.straight_paths(root, "ink"), key=len)
    half = len(band) // 2
    ends = [abs(band[0] - band[-1]), abs(band[half - 1] - band[half])]
    assert min(ends) / max(ends) == pytest.approx(exp(-mu * 2 * pi * turns), abs=0.02)
    assert (ends[0] > ends[1]) == (way == "ease")


def test_the_laid_out_rope_keeps_its_length() -> None:
    for at in (0.0, 0.5, 1.0):
        root = root_of(tackle_rope.draw(pulley_scenes.tackle_rope(WIDE, travel=at)))
        fields = [
            reading.points(element)
            for element in root.iter(f"{reading.SVG}path")
            if element.get("class") in ("lesser paper", "ink", "effort")
            and re.fullmatch(r"M[-\d. ]+(L[-\d. ]+){3}Z", element.attrib["d"])
        ]
        fields = [points for points in fields if abs(abs(points[0].imag - points[2].imag) - 10) < 0.2]
        rows: dict[float, float] = {}
        for points in fields:
            if abs(points[1].real - points[0].real) > 16.2:  # not a sample in the key
                rows[points[0].imag] = rows.get(points[0].imag, 0.0) + abs(points[1].real - points[0].real)
        whole = WIDE - 8
        assert [round(length) for length in rows.values()] == [pytest.approx(whole, abs=1)] * 2


@pytest.mark.parametrize("scene", [pulley_scenes.tackle(WIDE), pulley_scenes.tackle(NARROW, 3, to_advantage=True)])
def test_the_alternative_says_what_the_labels_say(scene: Scene) -> None:
    drawing = tackle.draw(scene)
    assert drawing is not None
    for symbol in ("E", "R", "dE", "dR"):
        assert scene.text(symbol) in drawing.alt
        assert scene.text(symbol) in root_text(drawing)
