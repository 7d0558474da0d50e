"""The paper triangle at true size: measured on its page in inches, and refused where it would not fit."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from math import atan2, degrees, pi
from random import Random
from xml.etree import ElementTree

import pytest

from calc.drawing import page_fit, paper_to_cut
from calc.drawing.page_fit import Page, placed
from calc.drawing.scene import WIDE, Drawing, Scene
from tests.drawing import reading, screw_scenes
from tests.drawing.scenes import INCH, UNITS, spread

LETTER, A4 = (8.5, 11.0), (210 / 25.4, 297 / 25.4)
"""Sheets in inches: ANSI/ASME Y14.1 and ISO 216."""
MARGIN = 0.5


def inches(base: float, height: float, dowel: float = 1.0) -> Scene:
    return screw_scenes.paper(WIDE, base * INCH, height * INCH, dowel * INCH)


def drawn(scene: Scene) -> Drawing:
    drawing = paper_to_cut.draw(scene)
    assert drawing is not None
    return drawing


def page_of(drawing: Drawing) -> tuple[ElementTree.Element, float]:
    """The root of the drawing, and its inches for each unit of its coordinates."""
    root = reading.parse(drawing.svg)
    width, height = (float(root.attrib[name].removesuffix("in")) for name in ("width", "height"))
    _, _, across, down = (float(n) for n in root.attrib["viewBox"].split())
    assert width / across == pytest.approx(height / down, rel=1e-4)
    for paper in (LETTER, A4):
        assert width <= paper[0] - 2 * MARGIN
        assert height <= paper[1] - 2 * MARGIN
    return root, width / across


def corners(root: ElementTree.Element) -> tuple[complex, complex, complex]:
    (found,) = reading.straight_paths(root, "visible paper")
    tip, foot, top = found
    return tip, foot, top


@pytest.mark.parametrize(
    ("base", "height"),
    [(11, 2), (6, 3), (9, 0.625), (7, 7), (2, 8), (0.75, 0.25), (10.5, 1)],
)
def test_the_triangle_is_drawn_at_true_size_and_right_angled(base: float, height: float) -> None:
    """The first one is reference calculation J45's paper, which lies on the diagonal."""
    root, inch = page_of(drawn(inches(base, height)))
    tip, foot, top = corners(root)
    assert abs(foot - tip) * inch == pytest.approx(base, abs=0.003)
    assert abs(top - foot) * inch == pytest.approx(height, abs=0.003)
    square = ((top - foot) * (tip - foot).conjugate()) / abs(top - foot) / abs(tip - foot)
    assert square.real == pytest.approx(0, abs=0.01)
    assert square.imag > 0  # not mirrored: a mirrored paper winds to a left-hand thread


def test_the_slope_is_that_of_the_reference_calculation() -> None:
    tip, foot, top = corners(page_of(drawn(inches(11, 2)))[0])
    assert degrees(atan2(abs(top - foot), abs(foot - tip))) == pytest.approx(10.3048, abs=0.01)


def test_the_check_bars_are_two_inches_and_five_centimetres() -> None:
    root, inch = page_of(drawn(inches(11, 2)))
    bars = [p for p in reading.straight_paths(root, "thin") if len(p) == 4]
    lengths = sorted((max(c.real for c in bar) - min(c.real for c in bar)) * inch for bar in bars)
    assert lengths == pytest.approx([5 / 2.54, 2.0], abs=0.002)


@pytest.mark.parametrize("dowel", [0.25, 0.5, 1.0, 1.5])
def test_a_mark_stands_where_each_turn_of_the_dowel_ends(dowel: float) -> None:
    """A cord round the dowel is pi times as long as the dowel is thick; 3.50141 turns of 1 in are J45's."""
    root, inch = page_of(drawn(inches(11, 2, dowel)))
    tip, foot, top = corners(root)
    marks = [p for p in reading.straight_paths(root, "path") if len(p) == 2]
    from_edge = sorted(abs(low - foot) * inch for low, _ in marks)
    assert len(from_edge) == int(11 / (pi * dowel))
    assert from_edge == pytest.approx([k * pi * dowel for k in range(1, len(from_edge) + 1)], abs=0.004)
    for low, high in marks:  # from the base to the sloping edge, along the dowel
        share = abs(low - tip) / abs(foot - tip)
        assert abs(high - (tip + (top - tip) * share)) * inch < 0.004


def test_a_paper_shorter_than_one_turn_has_no_marks() -> None:
    drawing = drawn(inches(3, 1))
    assert not reading.straight_paths(reading.parse(drawing.svg), "path")
    assert "dashed" not in drawing.svg


@pytest.mark.parametrize(("base", "height", "unit"), [(30, 2, UNITS[0]), (12, 6, UNITS[0]), (40, 7, UNITS[2])])
def test_what_does_not_fit_is_not_printed_but_the_largest_base_is_named(base: float, height: float, unit) -> None:
    scene = replace(inches(base, height), length_unit=unit[0])
    drawing = drawn(scene)
    assert drawing.svg == ""
    number, name = drawing.caption.removesuffix(".").split()[-2:]
    step = 1 / 8 if name == "in" else 1 / 25.4
    largest = float(number) * (1 if name == "in" else 1 / 25.4)
    assert largest < base
    assert drawn(inches(largest, largest * height / base)).svg
    # It is the largest: one step more of the same slope fits no more.
    assert not drawn(inches(largest + 1.01 * step, (largest + 1.01 * step) * height / base)).svg


def test_no_page_can_hold_a_longer_side_than_its_diagonal() -> None:
    """Seven inches and a quarter by ten at most: Pythagoras bounds what any turn can fit."""
    page_diagonal = abs(complex(7.25, 9.9))
    for slope in (0.02, 0.1, 0.3, 1.0, 3.0):
        largest = page_fit.largest_base(Page(696, 934, 300, 200), slope, 5000, 1) / 96
        assert largest * (1 + slope**2) ** 0.5 < page_diagonal


def test_triangle_and_text_lie_on_the_page_and_apart() -> None:
    random = Random(21)
    page = Page(696, 934, 310, 200)
    fitted = 0
    for _ in range(300):
        base = spread(random, 20, 1100)
        place = placed(page, base, base * spread(random, 0.02, 4))
        if place is None:
            continue
        fitted += 1
        near = 696 - 310 if place.text_at_right else 0
        for share in (i / 40 for i in range(41)):
            tip, foot, top = place.corners
            for start, end in ((tip, foot), (foot, top), (top, tip)):
                point = start + (end - start) * share
                assert 0 <= point.real <= 696
                assert 0 <= point.imag <= 934
                assert not (near < point.real < near + 310 and point.imag < 200)
    assert fitted > 100


def test_no_text_of_the_page_touches_another_and_all_stand_on_it() -> None:
    pages = 0
    for scene in screw_scenes.random_papers(160):
        drawing = drawn(scene)
        if not drawing.svg:
            assert "largest base" in drawing.caption or "too steep" in drawing.caption
            continue
        pages += 1
        root = reading.parse(drawing.svg)
        left, top, right, bottom = reading.view_box(root)
        words = reading.texts(root)
        for one, other in combinations(words, 2):
            assert not one.overlaps(other), (one.words, other.words)
        assert all(left <= t.left and t.right <= right and top <= t.top and t.bottom <= bottom for t in words)
    assert pages > 40


def test_an_odd_value_gives_no_error() -> None:
    for odd in (0.0, -1.0, float("inf"), float("nan"), 1e-9, 1e9):
        for symbol in ("B", "H", "d"):
            scene = inches(6, 2)
            drawing = paper_to_cut.draw(replace(scene, values={**scene.values, symbol: odd}))
            assert drawing is None or "nan" not in drawing.svg
