"""Effort against effort distance: areas, the lines of equal work, and scales that stay."""

from __future__ import annotations

import pytest

from calc.drawing import equal_work, three_ways
from calc.drawing.scene import NARROW, WIDE, Scene
from tests.drawing import reading, work_scenes
from tests.drawing.test_work_drawing import area

Corners = list[complex]


def drawn(scene: Scene) -> str:
    drawing = equal_work.draw(scene)
    assert drawing is not None
    return drawing.svg


def parts(scene: Scene) -> tuple[Corners, Corners, Corners]:
    """The useful part, the lost part above it, the line of equal work without friction."""
    root = reading.parse(drawn(scene))
    (useful,) = reading.straight_paths(root, "lesser paper")
    line = max(reading.straight_paths(root, "lesser"), key=len)
    dotted = [path for path in reading.straight_paths(root, "dots by-effort") if max(p.imag for p in path) > -190]
    return useful, next((path for path in dotted if len(path) == 4), []), line


@pytest.mark.parametrize("width", [WIDE, NARROW])
def test_the_rectangle_keeps_its_area_while_its_shape_changes(width: int) -> None:
    shapes = [parts(work_scenes.equal_work(width, 160, 0.6, ima))[0] for ima in (1, 2, 4, 8)]
    for corners in shapes:
        assert area(corners) == pytest.approx(area(shapes[0]), rel=0.01)
    wide = [max(p.real for p in corners) - min(p.real for p in corners) for corners in shapes]
    assert wide == pytest.approx([wide[0] * times for times in (1, 2, 4, 8)], rel=0.01)


@pytest.mark.parametrize("width", [WIDE, NARROW])
@pytest.mark.parametrize("keeps", [0.9, 0.75])
def test_friction_adds_the_lost_part_and_leaves_the_useful_one(width: int, keeps: float) -> None:
    ideal = parts(work_scenes.equal_work(width, 160, 0.6, 3))[0]
    useful, lost, _ = parts(work_scenes.equal_work(width, 160, 0.6, 3, keeps))
    assert area(useful) == pytest.approx(area(ideal), rel=0.01)
    assert area(lost) / area(useful) == pytest.approx(1 / keeps - 1, rel=0.02)


@pytest.mark.parametrize("width", [WIDE, NARROW])
@pytest.mark.parametrize("advantage", [0.2, 1, 4, 8, 200])
def test_the_useful_corner_lies_on_the_line_of_equal_work(width: int, advantage: float) -> None:
    """Every point of the line has the area of the useful part: distance times force, in pixels from the axes."""
    useful, _, line = parts(work_scenes.equal_work(width, 160, 0.6, advantage, 0.8))
    left = min(p.real for p in useful)
    areas = [(p.real - left) * -p.imag for p in line if p.real - left > 20 and -p.imag > 10]
    assert areas == pytest.approx([area(useful)] * len(areas), rel=0.03)
    assert len(areas) > 10


def test_the_line_stands_still_while_the_machine_changes() -> None:
    assert len({str(parts(work_scenes.equal_work(WIDE, 160, 0.6, ima))[2]) for ima in (1, 2.5, 8)}) == 1


def test_a_machine_beyond_the_paper_is_still_seen() -> None:
    for ima in (0.2, 200):
        useful = parts(work_scenes.equal_work(NARROW, 160, 0.6, ima))[0]
        assert max(p.real for p in useful) - min(p.real for p in useful) > 10
        assert max(p.imag for p in useful) - min(p.imag for p in useful) > 10


def test_without_a_machine_the_line_stands_alone_and_without_a_load_nothing() -> None:
    assert "hatch" not in drawn(work_scenes.equal_work(WIDE, 160, 0.6, None))
    assert equal_work.draw(Scene("equal", WIDE, {"h": 0.6}, {}, {})) is None


@pytest.mark.parametrize("width", [WIDE, NARROW])
def test_all_ways_share_one_scale(width: int) -> None:
    """Hatched is the work on the load: the same area on every way, whatever was lost."""
    drawing = three_ways.draw(work_scenes.ways(width, 270, 0.6, [(4, 0.75), (2, 1), (5, 0.5)]))
    assert drawing is not None
    useful = reading.straight_paths(reading.parse(drawing.svg), "lesser paper")
    assert len(useful) == 3
    assert [area(corners) for corners in useful] == pytest.approx([area(useful[0])] * 3, rel=0.02)
    assert drawing.svg.count('class="dots by-effort"') == 2


def test_a_way_that_is_not_known_is_left_out() -> None:
    scene = work_scenes.ways(WIDE, 270, 0.6, [(4, 0.75), (2, 1)])
    values = {symbol: value for symbol, value in scene.values.items() if symbol != "E_1"}
    drawing = three_ways.draw(Scene("ways", WIDE, values, scene.texts, {}))
    assert drawing is not None
    assert "2. " in drawing.alt
    assert "1. " not in drawing.alt
    assert three_ways.draw(Scene("ways", WIDE, {}, {}, {})) is None
