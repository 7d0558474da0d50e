"""The lever's drawing against its own geometry: arms, paths and forces to scale."""

from __future__ import annotations

from dataclasses import replace
from math import pi, sin

import pytest

from calc.drawing import lever
from calc.drawing.scene import NARROW, WIDE, Scene
from tests.drawing import reading, scenes

INCH = scenes.INCH


def length(points: list[complex]) -> float:
    return abs(points[-1] - points[0])


def path_lengths(scene: Scene) -> tuple[float, float]:
    """Lengths in pixels of the effort's and the load's straight path."""
    drawing = lever.draw(scene)
    assert drawing is not None
    root = reading.parse(drawing.svg)
    (effort,) = reading.straight_paths(root, "path by-effort")
    (load,) = reading.straight_paths(root, "path")
    return length(effort), length(load)


@pytest.mark.parametrize("width", [WIDE, NARROW])
@pytest.mark.parametrize(
    ("kind", "load_arm", "effort_arm"), [("1", 6, 24), ("2", 6, 24), ("3", 24, 6), ("1", 10, 10), ("1", 20, 7)]
)
def test_the_paths_are_drawn_in_the_ratio_of_the_arms(
    width: int, kind: str, load_arm: float, effort_arm: float
) -> None:
    effort, load = path_lengths(scenes.lever(width, kind, load_arm=load_arm * INCH, effort_arm=effort_arm * INCH))
    # Equal angles: the ideal advantage is the ratio of the arms, and of the paths.
    assert effort == pytest.approx(load * effort_arm / load_arm, abs=2)


@pytest.mark.parametrize("width", [WIDE, NARROW])
def test_the_path_of_the_effort_is_the_rise_of_its_end_of_the_bar(width: int) -> None:
    scene = scenes.lever(width, travel=0.0)
    drawing = lever.draw(scene)
    assert drawing is not None
    root = reading.parse(drawing.svg)
    (effort,) = reading.straight_paths(root, "path by-effort")
    arc = next(
        e for e in root.iter(f"{reading.SVG}path") if e.get("class") == "path by-effort" and "A" in e.attrib["d"]
    )
    numbers = arc.attrib["d"].replace("M", " ").replace("A", " ").split()
    rise = abs(float(numbers[1]) - float(numbers[-1]))
    assert length(effort) == pytest.approx(rise, abs=1)
    radius = float(numbers[2])
    assert rise == pytest.approx(2 * radius * sin(pi / 12), abs=1)


@pytest.mark.parametrize("kind", ["1", "2", "3"])
@pytest.mark.parametrize("travel", [0.0, 0.3, 1.0])
def test_the_bar_tilts_with_the_travel_and_the_load_rises(kind: str, travel: float) -> None:
    arms = (24, 6) if kind == "3" else (6, 24)
    level, tilted = (
        reading.parse(drawing.svg)
        for drawing in (
            lever.draw(scenes.lever(WIDE, kind, load_arm=arms[0] * INCH, effort_arm=arms[1] * INCH, travel=t))
            for t in (0.5, travel)
        )
        if drawing
    )
    outlines = [max(reading.straight_paths(root, "visible paper"), key=length_of_sides) for root in (level, tilted)]
    flat, bar = outlines
    assert flat[0].imag == flat[1].imag
    rise = bar[0].imag - bar[1].imag  # the right end above the left one
    load_is_left = kind == "1"
    load_up = travel > 0.5
    assert (rise > 0) == (load_up != load_is_left)


def length_of_sides(corners: list[complex]) -> float:
    return max(abs(a - b) for a in corners for b in corners)


def test_the_height_of_the_drawing_does_not_jump_with_the_travel() -> None:
    for width in (WIDE, NARROW):
        heights = []
        for travel in (0.0, 0.25, 0.5, 0.75, 1.0):
            drawing = lever.draw(scenes.lever(width, travel=travel))
            assert drawing is not None
            _, top, _, bottom = reading.view_box(reading.parse(drawing.svg))
            heights.append(bottom - top)
        assert max(heights) - min(heights) < 16


def test_force_arrows_are_to_one_scale() -> None:
    drawing = lever.draw(scenes.lever(WIDE))
    assert drawing is not None
    root = reading.parse(drawing.svg)
    (effort,) = (p for p in reading.straight_paths(root, "effort"))
    load = next(p for p in reading.straight_paths(root, "lesser paper") if len(p) == 7)
    long = [max(p.imag for p in arrow) - min(p.imag for p in arrow) for arrow in (effort, load)]
    assert long[1] == pytest.approx(90, abs=0.5)
    assert long[0] == pytest.approx(long[1] / 4, abs=0.5)


def test_a_small_arrow_says_how_much_it_was_lengthened() -> None:
    drawing = lever.draw(scenes.lever(WIDE, load_arm=1 * INCH, effort_arm=60 * INCH))
    assert drawing is not None
    assert "(arrow × 10)" in drawing.svg


def test_an_arm_too_short_to_dimension_has_a_detail() -> None:
    drawing = lever.draw(scenes.lever(WIDE, load_arm=1 * INCH, effort_arm=60 * INCH))
    assert drawing is not None
    assert "detail A, " in drawing.svg
    assert "load arm 1.00 in" in drawing.svg


def test_without_an_effort_there_is_no_effort_arrow() -> None:
    full = scenes.lever(WIDE)
    values = {symbol: value for symbol, value in full.values.items() if symbol not in ("E", "N")}
    texts = {symbol: text for symbol, text in full.texts.items() if symbol not in ("E", "N")}
    drawing = lever.draw(replace(full, values=values, texts=texts))
    assert drawing is not None
    assert 'class="effort"' not in drawing.svg
    assert "effort not known" in drawing.alt


@pytest.mark.parametrize("missing", ["aR", "aE"])
def test_without_an_arm_there_is_no_drawing(missing: str) -> None:
    full = scenes.lever(WIDE)
    values = {symbol: value for symbol, value in full.values.items() if symbol != missing}
    assert lever.draw(replace(full, values=values)) is None


def test_the_alternative_says_what_the_labels_say() -> None:
    drawing = lever.draw(scenes.lever(WIDE))
    assert drawing is not None
    assert drawing.alt == (
        "Lever of class 1, pivot between load and effort: load 40.0 lbf at a load arm of 6.00 in,"
        " effort 10.0 lbf at an effort arm of 24.0 in; bar level."
    )
