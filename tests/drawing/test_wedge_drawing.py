"""The wedges' drawings against their own geometry: shape, paths, forces, and no hand where the wedge stays in."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calc.drawing import wedge
from calc.drawing.scene import NARROW, WIDE, Scene
from tests.drawing import reading, slope_scenes

WIDTHS = pytest.mark.parametrize("width", [WIDE, NARROW])
INCH = slope_scenes.INCH


def tree(scene: Scene) -> reading.ElementTree.Element:
    drawing = wedge.draw(scene)
    assert drawing is not None
    return reading.parse(drawing.svg)


def body(root: reading.ElementTree.Element) -> list[complex]:
    """The wedge itself: the one thick triangle."""
    return next(p for p in reading.straight_paths(root, "visible paper") if len(p) == 3)


@WIDTHS
@pytest.mark.parametrize("thick", [1.0, 1.5, 6.0])
def test_a_single_wedge_has_its_true_shape(width: int, thick: float) -> None:
    tip, butt, top = body(tree(slope_scenes.wedge(width, thick=thick * INCH)))
    assert abs(tip - butt) / abs(top - butt) == pytest.approx(9 / thick, rel=0.03)
    assert tip.imag == butt.imag


@WIDTHS
@pytest.mark.parametrize("thick", [1.0, 1.5, 6.0])
def test_a_double_wedge_has_its_true_shape(width: int, thick: float) -> None:
    tip, left, right = body(tree(slope_scenes.wedge(width, "double", thick=thick * INCH)))
    assert (tip.imag - left.imag) / (right.real - left.real) == pytest.approx(9 / thick, rel=0.03)


@WIDTHS
@pytest.mark.parametrize("kind", ["single", "double"])
def test_the_paths_are_drawn_in_the_ratio_of_the_advantage(width: int, kind: str) -> None:
    root = tree(slope_scenes.wedge(width, kind))
    (effort,) = reading.straight_paths(root, "path by-effort")
    (load,) = reading.straight_paths(root, "path")
    assert abs(effort[-1] - effort[0]) == pytest.approx(6 * abs(load[-1] - load[0]), abs=2)


@pytest.mark.parametrize("travel", [0.0, 0.3, 0.7, 1.0])
def test_the_planter_stands_on_the_face_of_the_wedge(travel: float) -> None:
    root = tree(slope_scenes.wedge(WIDE, travel=travel))
    tip, butt, top = body(root)
    planter = max(
        (p for p in reading.straight_paths(root, "visible paper") if len(p) == 4), key=lambda p: abs(p[1] - p[0])
    )
    corner = planter[0]
    share = (tip.real - corner.real) / abs(tip - butt)
    assert share == pytest.approx(travel, abs=0.01)
    assert butt.imag - corner.imag == pytest.approx(share * abs(top - butt), abs=0.5)


@pytest.mark.parametrize("travel", [0.0, 0.4, 1.0])
def test_the_blocks_touch_the_faces_of_a_double_wedge(travel: float) -> None:
    root = tree(slope_scenes.wedge(WIDE, "double", travel=travel))
    tip, left, right = body(root)
    blocks = [p for p in reading.straight_paths(root, "visible paper") if len(p) == 4]
    inner = sorted(x for p in blocks for x in {q.real for q in p})[1:3]
    top = blocks[0][0].imag
    deep = (tip.imag - top) / (tip.imag - left.imag)
    assert deep == pytest.approx(travel, abs=0.01)
    assert inner[1] - inner[0] == pytest.approx(deep * (right.real - left.real), abs=0.5)


@pytest.mark.parametrize("kind", ["single", "double"])
def test_force_arrows_are_to_one_scale(kind: str) -> None:
    scene = slope_scenes.wedge(WIDE, kind, friction=0.25)
    root = tree(scene)
    effort = reading.straight_paths(root, "effort")[-1]
    load = next(p for p in reading.straight_paths(root, "lesser paper") if len(p) == 7)
    long = [abs((arrow[0] + arrow[-1]) / 2 - arrow[3]) for arrow in (effort, load)]
    assert long[0] / long[1] == pytest.approx(scene.values["E"] / scene.values["R"], rel=0.03)


@pytest.mark.parametrize("kind", ["single", "double"])
def test_the_triangle_of_forces_closes(kind: str) -> None:
    """Head to tail, effort and two faces come back to where they began, each as long as its force."""
    scene = slope_scenes.wedge(WIDE, kind, friction=0.25)
    root = tree(scene)
    effort = reading.straight_paths(root, "effort")[0 if kind == "none" else -1]
    start, tip = (effort[0] + effort[-1]) / 2, effort[3]
    heads = [p[1] for p in reading.straight_paths(root, "lesser paper") if len(p) == 3]
    assert any(abs(head - start) < 0.5 for head in heads)
    scale = abs(tip - start) / scene.values["E"]
    third = next(head for head in heads if abs(head - start) > 1)
    second = abs(third - tip) / scale
    last = abs(start - third) / scale
    wanted = ("F_1", "F_1") if kind == "double" else ("F_2", "F_1")
    assert (second, last) == pytest.approx(tuple(scene.values[s] for s in wanted), rel=0.03)


@pytest.mark.parametrize("kind", ["single", "double"])
def test_a_wedge_that_stays_in_is_drawn_without_a_hand_when_it_is_home(kind: str) -> None:
    held = wedge.draw(slope_scenes.wedge(WIDE, kind, friction=0.25, travel=1.0))
    assert held is not None
    assert "stays in" in held.svg
    assert len(reading.straight_paths(reading.parse(held.svg), "effort")) == 1  # only in the triangle of forces
    assert "nobody pushes it" in held.alt
    slips = wedge.draw(slope_scenes.wedge(WIDE, kind, friction=0.01, travel=1.0))
    assert slips is not None
    assert "stays in" not in slips.svg
    assert len(reading.straight_paths(reading.parse(slips.svg), "effort")) == 2


@WIDTHS
def test_a_thin_butt_is_dimensioned_in_an_enlarged_view(width: int) -> None:
    svg = wedge.draw(slope_scenes.wedge(width, length=24 * INCH, thick=0.5 * INCH))
    assert svg is not None
    assert "detail, " in svg.svg
    assert "thickness 0.500 in" in svg.svg


@WIDTHS
@pytest.mark.parametrize("kind", ["single", "double"])
def test_the_height_does_not_jump_with_the_travel(width: int, kind: str) -> None:
    heights = []
    for travel in (0.0, 0.25, 0.5, 0.75, 1.0):
        _, top, _, bottom = reading.view_box(tree(slope_scenes.wedge(width, kind, friction=0.25, travel=travel)))
        heights.append(bottom - top)
    assert max(heights) - min(heights) < 30


@pytest.mark.parametrize("missing", ["ell", "t"])
def test_without_its_shape_there_is_no_drawing(missing: str) -> None:
    full = slope_scenes.wedge(WIDE)
    assert wedge.draw(replace(full, values={s: x for s, x in full.values.items() if s != missing})) is None


def test_without_an_effort_there_is_no_effort_arrow() -> None:
    full = slope_scenes.wedge(WIDE)
    values = {s: x for s, x in full.values.items() if s != "E"}
    texts = {s: x for s, x in full.texts.items() if s != "E"}
    drawing = wedge.draw(replace(full, values=values, texts=texts))
    assert drawing is not None
    assert 'class="effort"' not in drawing.svg.replace('class="effort" cx', "")


def test_the_alternative_says_what_the_labels_say() -> None:
    drawing = wedge.draw(slope_scenes.wedge(WIDE, "double", travel=0.3))
    assert drawing is not None
    assert drawing.alt == (
        "Double wedge 9.00 in long and 1.50 in thick, 30 % of the way between two blocks;"
        " push 3.33 lbf for a load of 20.0 lbf on each side."
    )
