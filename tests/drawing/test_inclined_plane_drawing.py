"""The ramp's drawing against its own geometry: one scale, every direction of pull."""

from __future__ import annotations

import re
from dataclasses import replace
from math import atan2, cos, pi, radians, sin

import pytest

from calc.drawing import inclined_plane
from calc.drawing.ramp_layout import triangle
from calc.drawing.scene import NARROW, WIDE, Scene
from tests.drawing import reading, scenes

INCH = scenes.INCH


def drawn(scene: Scene) -> str:
    drawing = inclined_plane.draw(scene)
    assert drawing is not None
    return drawing.svg


def plank(scene: Scene) -> tuple[complex, complex]:
    """Foot and upper edge of the plank."""
    corners = max(
        reading.straight_paths(reading.parse(drawn(scene)), "visible paper"),
        key=lambda corners: abs(corners[1] - corners[0]),
    )
    return corners[0], corners[1]


@pytest.mark.parametrize("width", [WIDE, NARROW])
@pytest.mark.parametrize("angle", [1.5, 5, 14.5, 30, 45, 60])
def test_the_plank_is_drawn_at_its_true_angle(width: int, angle: float) -> None:
    foot, top = plank(scenes.ramp(width, angle=radians(angle)))
    drawn_angle = atan2(foot.imag - top.imag, top.real - foot.real)
    assert drawn_angle == pytest.approx(radians(angle), abs=0.002)


@pytest.mark.parametrize("width", [WIDE, NARROW])
@pytest.mark.parametrize("angle", [1.5, 14.5, 45, 60])
def test_the_paths_are_drawn_in_the_ratio_of_the_ideal_advantage(width: int, angle: float) -> None:
    scene = scenes.ramp(width, angle=radians(angle))
    root = reading.parse(drawn(scene))
    (effort,) = reading.straight_paths(root, "path by-effort")
    (load,) = reading.straight_paths(root, "path")
    assert abs(effort[1] - effort[0]) == pytest.approx(
        abs(load[1] - load[0]) / sin(radians(angle)), abs=2 / sin(radians(angle)) * 0.1 + 2
    )
    foot, top = plank(scene)
    assert abs(effort[1] - effort[0]) == pytest.approx(abs(top - foot), abs=1)
    assert abs(load[1] - load[0]) == pytest.approx(foot.imag - top.imag, abs=1)


@pytest.mark.parametrize("angle", [5, 9, 14.5, 20, 30])
def test_half_way_up_the_load_lies_clear_of_the_slopes_arc(angle: float) -> None:
    root = reading.parse(drawn(scenes.ramp(NARROW, angle=radians(angle), travel=0.5)))
    (arc,) = [
        e.get("d", "") for e in root.iter(f"{reading.SVG}path") if e.get("class") == "thin" and "A" in e.get("d", "")
    ]
    disc = next(e for e in root.iter(f"{reading.SVG}circle") if e.get("class") == "lesser paper")
    ends = [float(x) for x in re.findall(r"([-\d.]+)[ ,][-\d.]+(?=A|$)", arc)]
    assert max(ends) + 11 < float(disc.get("cx", ""))  # half of the widest arrow


def test_the_crate_moves_up_the_plank_with_the_travel() -> None:
    centres = []
    for travel in (0.0, 0.5, 1.0):
        root = reading.parse(drawn(scenes.ramp(WIDE, travel=travel)))
        disc = next(e for e in root.iter(f"{reading.SVG}circle") if e.get("class") == "lesser paper")
        centres.append(complex(float(disc.attrib["cx"]), float(disc.attrib["cy"])))
    first, second = centres[1] - centres[0], centres[2] - centres[1]
    assert first == pytest.approx(second, abs=0.3)
    assert atan2(-first.imag, first.real) == pytest.approx(scenes.ramp(WIDE).values["theta"], abs=0.01)


@pytest.mark.parametrize(
    ("pull", "motion", "rope", "expected"),
    [
        ("along", "up", 0.0, 14.4775),
        ("angled", "up", 30.0, 44.4775),
        ("level", "up", 0.0, 0.0),
        ("along", "push", 0.0, 194.4775),
    ],
)
def test_the_effort_points_where_it_acts(pull: str, motion: str, rope: float, expected: float) -> None:
    scene = scenes.ramp(WIDE, friction=0.5, pull=pull, motion=motion, rope=radians(rope))
    corners = reading.straight_paths(reading.parse(drawn(scene)), "effort")[0]
    tail, tip = (corners[0] + corners[-1]) / 2, corners[3]
    way = tip - tail
    assert atan2(-way.imag, way.real) % (2 * pi) == pytest.approx(radians(expected) % (2 * pi), abs=0.02)


def test_friction_and_the_part_along_the_plank_add_up_to_the_pull() -> None:
    # Balance along the plank: E = R sin(theta) + F_f, so the three arrows fit together.
    scene = scenes.ramp(WIDE, friction=0.3)
    v = scene.values
    assert v["E"] == pytest.approx(v["R"] * sin(v["theta"]) + v["F_f"])
    root = reading.parse(drawn(scene))
    effort = reading.straight_paths(root, "effort")[-1]
    friction_tip = min(
        (p for path in reading.straight_paths(root, "lesser paper") if len(path) == 3 for p in path[1:2]),
        key=lambda p: p.real,
    )
    tail, tip = (effort[0] + effort[-1]) / 2, effort[3]
    assert abs(friction_tip - tail) == pytest.approx(abs(tip - tail), abs=1)


@pytest.mark.parametrize("width", [WIDE, NARROW])
def test_the_forces_on_the_crate_are_shown_only_with_friction(width: int) -> None:
    assert "FORCES ON THE CRATE" in drawn(scenes.ramp(width, friction=0.3))
    assert "FORCES ON THE CRATE" not in drawn(scenes.ramp(width))
    assert "FORCES ON THE CRATE" not in drawn(scenes.ramp(width, friction=0.03, angle=radians(1.4)))


def test_a_flat_ramp_has_its_slope_written_out() -> None:
    svg = drawn(scenes.ramp(WIDE, slope=240 * INCH, angle=0.025))
    assert "1 : 40, 1.4°" in svg


def test_without_an_effort_there_is_no_effort_arrow() -> None:
    full = scenes.ramp(WIDE)
    values = {symbol: value for symbol, value in full.values.items() if symbol != "E"}
    texts = {symbol: text for symbol, text in full.texts.items() if symbol != "E"}
    assert 'class="effort"' not in drawn(replace(full, values=values, texts=texts))


def test_a_load_that_needs_no_effort_gets_no_arrow() -> None:
    scene = scenes.ramp(WIDE, friction=0.5, motion="hold")
    assert scene.values["E"] == 0
    assert 'class="effort"' not in drawn(scene)


@pytest.mark.parametrize("known", [("L", "h"), ("L", "b"), ("h", "b"), ("L", "theta"), ("h", "theta"), ("b", "theta")])
def test_any_two_of_its_measures_fix_the_triangle(known: tuple[str, str]) -> None:
    angle = radians(20)
    whole = {"L": 3.0, "h": 3 * sin(angle), "b": 3 * cos(angle), "theta": angle}
    found = triangle({symbol: whole[symbol] for symbol in known})
    assert found is not None
    assert (found.slope, found.rise, found.run, found.angle) == pytest.approx((3.0, whole["h"], whole["b"], angle))


@pytest.mark.parametrize("known", [(), ("L",), ("theta",)])
def test_less_gives_no_drawing(known: tuple[str, ...]) -> None:
    full = scenes.ramp(WIDE)
    assert inclined_plane.draw(replace(full, values={s: full.values[s] for s in known})) is None


def test_the_alternative_says_what_the_labels_say() -> None:
    drawing = inclined_plane.draw(scenes.ramp(WIDE, travel=0.62))
    assert drawing is not None
    assert drawing.alt == (
        "Ramp 96.0 in long, 24.0 in high; crate 62 % of the way up;"
        " pull 7.50 lbf along the ramp for a load of 30.0 lbf."
    )
