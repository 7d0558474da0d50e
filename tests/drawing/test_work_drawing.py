"""Work drawn as area: equal work, equal area."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calc.drawing import work
from calc.drawing.scene import NARROW, WIDE, Scene
from tests.drawing import reading, scenes


def area(corners: list[complex]) -> float:
    across, down = [p.real for p in corners], [p.imag for p in corners]
    return (max(across) - min(across)) * (max(down) - min(down))


def drawn(scene: Scene) -> str:
    drawing = work.draw(scene)
    assert drawing is not None
    return drawing.svg


@pytest.mark.parametrize("width", [WIDE, NARROW])
def test_without_loss_work_in_and_work_out_have_the_same_area(width: int) -> None:
    root = reading.parse(drawn(scenes.work(width, 10, 0.8, 40, 0.2)))
    (put_in,) = reading.straight_paths(root, "effort")
    (got_out,) = reading.straight_paths(root, "lesser paper")
    assert area(put_in) == pytest.approx(area(got_out), rel=0.02)


@pytest.mark.parametrize("width", [WIDE, NARROW])
def test_the_solid_part_of_the_work_in_is_as_large_as_the_work_out(width: int) -> None:
    root = reading.parse(drawn(scenes.work(width, 16, 0.8, 30, 0.2)))
    (useful,) = reading.straight_paths(root, "effort")
    (got_out,) = reading.straight_paths(root, "lesser paper")
    (lost,) = reading.straight_paths(root, "dots by-effort")
    assert area(useful) == pytest.approx(area(got_out), rel=0.02)
    assert area(lost) / (area(useful) + area(lost)) == pytest.approx(1 - 6 / 12.8, rel=0.02)


def test_more_work_out_than_in_is_never_drawn_as_a_loss() -> None:
    assert "dots" not in drawn(scenes.work(WIDE, 10, 0.8, 60, 0.2))


def test_work_out_alone_is_drawn_while_the_effort_is_unknown() -> None:
    full = scenes.work(WIDE, 10, 0.8, 40, 0.2)
    values = {symbol: full.values[symbol] for symbol in ("R", "dR", "Wout")}
    svg = drawn(replace(full, values=values))
    assert 'class="effort"' not in svg
    assert work.draw(replace(full, values={})) is None


@pytest.mark.parametrize("width", [WIDE, NARROW])
def test_every_row_of_the_same_work_has_the_same_area(width: int) -> None:
    drawing = work.same_work(scenes.same_work(width, 160, 0.6, [1, 2, 3, 4, 6]))
    assert drawing is not None
    rows = reading.straight_paths(reading.parse(drawing.svg), "effort")
    assert len(rows) == 5
    for row in rows:
        assert area(row) == pytest.approx(area(rows[0]), rel=0.02)


def test_no_rows_give_no_drawing() -> None:
    assert work.same_work(scenes.same_work(WIDE, 160, 0.6, [])) is None
