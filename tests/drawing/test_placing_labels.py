"""The placer, scale bars and widths of text on their own."""

from __future__ import annotations

import pytest

from calc.drawing.canvas import Canvas, Words
from calc.drawing.labels import Label, settle, wrapped
from calc.drawing.letters import EFFORT, PLAIN, width_of
from calc.drawing.plane import Box, Segment, length_inside, meet, section_lines
from calc.drawing.scales import Scales, round_below, scale_bars


def sheet() -> Canvas:
    return Canvas("sheet", 340, "A sheet")


def test_a_label_takes_its_first_side_when_that_is_free() -> None:
    (box,) = settle(sheet(), [Label(100 + 0j, Words(("load",)), "E N")])
    assert box.left == pytest.approx(109)


def test_a_label_gives_way_to_a_thick_line() -> None:
    canvas = sheet()
    canvas.line(120 - 40j, 120 + 40j, "visible")
    (box,) = settle(canvas, [Label(100 + 0j, Words(("load",)), "E W")])
    assert box.right == pytest.approx(91)


def test_two_labels_of_one_point_do_not_touch() -> None:
    one, other = settle(sheet(), [Label(100 + 0j, Words(("effort",)), "E"), Label(100 + 0j, Words(("load",)), "E")])
    assert one.bottom < other.top or other.bottom < one.top or other.right < one.left or one.right < other.left


def test_a_label_without_a_free_place_stands_outside_on_a_leader() -> None:
    canvas = sheet()
    for y in range(-200, 201, 8):
        canvas.line(complex(0, y), complex(340, y), "visible")
    (box,) = settle(canvas, [Label(100 + 0j, Words(("load",)), "E")])
    assert box.bottom <= -200 or box.top >= 200
    assert any(segment.weight == 8 for segment in canvas.segments)


def test_a_long_label_is_broken_at_its_spaces() -> None:
    words = wrapped(Words(("a load of compost for the long bed",)), 120)
    assert len(words.lines) > 1
    assert words.width <= 120
    assert " ".join(words.lines) == "a load of compost for the long bed"


def test_bold_text_is_wider_and_no_letter_is_without_a_width() -> None:
    assert width_of("effort", EFFORT) > width_of("effort", PLAIN)
    assert width_of("1\u202f000 N·m") > 0


@pytest.mark.parametrize(("value", "expected"), [(7, 5), (5, 5), (0.3, 0.2), (1, 1), (19, 10), (0.1, 0.1)])
def test_scale_bars_count_in_ones_twos_and_fives(value: float, expected: float) -> None:
    assert round_below(value) == pytest.approx(expected)


@pytest.mark.parametrize(("unit", "metres"), [("in", 0.0254), ("ft", 0.3048), ("mm", 0.001), ("cm", 0.01), ("m", 1.0)])
@pytest.mark.parametrize("pixels", [2, 30, 500, 9000, 100000])
def test_a_scale_bar_is_as_long_as_it_says(unit: str, metres: float, pixels: float) -> None:
    canvas = sheet()
    scale_bars(canvas, 10, 0, Scales(pixels, (unit, metres)))
    svg = canvas.svg("A scale.")
    shown = float(svg.split(f" {unit}</text>")[0].rsplit(">", 1)[1])
    assert canvas.segments[0].x2 - canvas.segments[0].x1 == pytest.approx(shown * metres * pixels)
    assert 20 < canvas.segments[0].x2 - canvas.segments[0].x1 <= 116


def test_a_segment_is_clipped_to_a_box() -> None:
    assert length_inside(Box(0, 0, 10, 10), Segment(-5, 5, 20, 5, 1)) == pytest.approx(10)
    assert length_inside(Box(0, 0, 10, 10), Segment(-5, 15, 20, 15, 1)) == 0
    assert meet(Segment(0, 0, 10, 10, 1), Segment(0, 10, 10, 0, 1))
    assert not meet(Segment(0, 0, 10, 10, 1), Segment(20, 0, 30, 0, 1))


def test_a_hatch_stays_inside_its_polygon() -> None:
    triangle = [0j, 60 + 0j, 60 + 40j]
    lines = section_lines(triangle, 5, 0.7853981633974483)
    assert lines
    for start, end in lines:
        for x, y in ((p.real, p.imag) for p in (start, end)):
            assert -1e-6 <= x <= 60 + 1e-6
            assert -1e-6 <= y <= x * 40 / 60 + 1e-6
