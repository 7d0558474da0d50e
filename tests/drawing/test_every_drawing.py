"""What holds for every drawing, over hundreds of machines from a fixed seed, at both widths."""

from __future__ import annotations

from collections.abc import Callable
from itertools import combinations

import pytest

from calc.drawing import inclined_plane, lever, work
from calc.drawing.canvas import HARD, Canvas
from calc.drawing.plane import Box, length_inside
from calc.drawing.scene import Drawing, Scene
from tests.drawing import reading, scenes

Draw = Callable[[Scene], Drawing | None]
Compose = Callable[[Scene], Canvas | None]

CASES = [
    pytest.param(lever.draw, lever.compose, list(scenes.random_levers(240)), id="lever"),
    pytest.param(inclined_plane.draw, inclined_plane.compose, list(scenes.random_ramps(320)), id="inclined plane"),
    pytest.param(work.draw, work.compose, list(scenes.random_work(120)), id="work"),
    pytest.param(work.same_work, work.compose_same_work, list(scenes.random_same_work(80)), id="same work"),
]

CLASSES = {
    *("drawing", "visible", "lesser", "thin", "hatch", "hidden", "centre", "phantom", "path", "dots", "grain"),
    *("paper", "ink", "effort", "by-effort", "note", "heading", "effort-name", "symbol"),
}


def drawn(draw: Draw, scene: Scene) -> str:
    drawing = draw(scene)
    assert drawing is not None
    return drawing.svg


@pytest.mark.parametrize(("draw", "compose", "cases"), CASES)
def test_no_text_touches_another_and_all_is_inside_the_frame(draw: Draw, compose: Compose, cases: list[Scene]) -> None:
    for index, scene in enumerate(cases):
        root = reading.parse(drawn(draw, scene))
        left, top, right, bottom = reading.view_box(root)
        found = reading.texts(root)
        assert found, index
        for text in found:
            inside = text.left >= left and text.right <= right and text.top >= top and text.bottom <= bottom
            assert inside, (index, scene.width, text)
        for one, other in combinations(found, 2):
            assert not one.overlaps(other), (index, scene.width, one, other)


@pytest.mark.parametrize(("draw", "compose", "cases"), CASES)
def test_no_text_stands_on_a_thick_line_an_arrow_or_a_leader(draw: Draw, compose: Compose, cases: list[Scene]) -> None:
    for index, scene in enumerate(cases):
        canvas = compose(scene)
        assert canvas is not None
        for box in canvas.boxes:
            core = Box(box.left + 2, box.top + 2, box.right - 2, box.bottom - 2)
            for segment in canvas.segments:
                if segment.weight >= HARD:
                    assert length_inside(core, segment) <= 2, (index, scene.width, box, segment)


@pytest.mark.parametrize(("draw", "compose", "cases"), CASES)
def test_nothing_drawn_leaves_the_frame(draw: Draw, compose: Compose, cases: list[Scene]) -> None:
    for index, scene in enumerate(cases):
        canvas = compose(scene)
        assert canvas is not None
        assert canvas.left >= 0, (index, scene.width)
        assert canvas.right <= scene.width, (index, scene.width)
        assert canvas.bottom - canvas.top < (560 if scene.wide else 760), (index, scene.width)


@pytest.mark.parametrize(("draw", "compose", "cases"), CASES)
def test_the_same_scene_gives_the_same_drawing(draw: Draw, compose: Compose, cases: list[Scene]) -> None:
    for scene in cases[::20]:
        assert draw(scene) == draw(scene)


@pytest.mark.parametrize(("draw", "compose", "cases"), CASES)
def test_a_drawing_names_and_describes_itself(draw: Draw, compose: Compose, cases: list[Scene]) -> None:
    for scene in cases[::20]:
        drawing = draw(scene)
        assert drawing is not None
        root = reading.parse(drawing.svg)
        assert root.attrib["role"] == "img"
        assert root.attrib["class"] == "drawing"
        named = {element.get("id"): element.text for element in root if element.get("id")}
        title, desc = root.attrib["aria-labelledby"].split()
        assert named[title]
        assert named[desc] == drawing.alt
        assert drawing.alt.endswith(".")
        ids = [element.attrib["id"] for element in root.iter() if element.get("id")]
        assert len(ids) == len(set(ids))
        assert all(str(scene.width) in name and name.startswith(scene.key) for name in ids)
        assert root.find(f".//{reading.SVG}style") is None


@pytest.mark.parametrize(("draw", "compose", "cases"), CASES)
def test_only_classes_of_the_style_sheet_are_used(draw: Draw, compose: Compose, cases: list[Scene]) -> None:
    for scene in cases[::20]:
        for element in reading.parse(drawn(draw, scene)).iter():
            assert set(element.get("class", "").split()) <= CLASSES
