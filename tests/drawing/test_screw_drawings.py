"""The screw's drawings against their own geometry: true slopes, true travel, shares in proportion."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import atan2, cos, pi, radians, sin, tan
from xml.etree import ElementTree

import pytest

from calc.drawing import bolt_joint, screw_press, unrolled_thread, wrapped_paper
from calc.drawing.scene import NARROW, WIDE, Drawing, Scene
from tests.drawing import reading, screw_scenes
from tests.drawing.scenes import INCH, POUND_FORCE


def root_of(scene: Scene, draw: Callable[[Scene], Drawing | None]) -> ElementTree.Element:
    drawing = draw(scene)
    assert drawing is not None
    return reading.parse(drawing.svg)


def largest(paths: list[list[complex]]) -> list[complex]:
    return max(paths, key=lambda corners: max(abs(a - b) for a in corners for b in corners))


# -- one turn unrolled -----------------------------------------------------------------------------


@pytest.mark.parametrize("width", [WIDE, NARROW])
@pytest.mark.parametrize("angle", [1.0, 4.5, 15, 40, 60])
def test_one_turn_unrolls_to_its_true_slope_and_advantage(width: int, angle: float) -> None:
    """Once round over lead, as drawn, is the ideal advantage of the thread."""
    mean = INCH
    scene = screw_scenes.screw(width, mean, pi * mean * tan(radians(angle)))
    tip, foot, top = largest(reading.straight_paths(root_of(scene, unrolled_thread.draw), "phantom"))
    assert foot.imag == tip.imag
    assert top.real == foot.real
    assert atan2(tip.imag - top.imag, top.real - tip.real) == pytest.approx(radians(angle), abs=0.003)
    bar = next(e for e in root_of(scene, unrolled_thread.draw).iter(f"{reading.SVG}path") if e.get("class") == "paper")
    numbers = [float(n) for n in bar.attrib["d"].replace("M", "").replace("V", " ").replace("H", " ")[:-1].split()[:4]]
    assert (foot.real - tip.real) == pytest.approx(pi * (numbers[3] - numbers[0]), abs=1)


def test_the_paper_unrolls_in_step_with_the_travel() -> None:
    ends, heights = [], []
    for travel in (0.25, 0.5, 1.0):
        root = root_of(screw_scenes.screw(WIDE, travel=travel), unrolled_thread.draw)
        corners = largest(reading.straight_paths(root, "visible paper"))
        ends.append(corners[1].real - corners[0].real)
        heights.append(corners[1].imag - corners[2].imag)
    assert ends[1] == pytest.approx(2 * ends[0], abs=0.3)
    assert ends[2] == pytest.approx(4 * ends[0], abs=0.5)
    assert heights == pytest.approx([heights[0]] * 3, abs=0.11)  # its upright edge is always one lead


def dots(root: ElementTree.Element, kind: str) -> list[complex]:
    """The centres of the circles of exactly this class."""
    circles = [e for e in root.iter(f"{reading.SVG}circle") if e.get("class") == kind]
    return [complex(float(e.attrib["cx"]), float(e.attrib["cy"])) for e in circles]


@pytest.mark.parametrize("travel", [0.0, 0.3, 0.5, 0.8, 1.0])
def test_a_point_is_followed_from_the_screw_to_its_place_on_the_ramp(travel: float) -> None:
    """B leaves the bar on a level line as long as the arc that has been unrolled; A goes round as the bar turns."""
    root = root_of(screw_scenes.screw(WIDE, travel=travel), unrolled_thread.draw)
    tip, foot, top = largest(reading.straight_paths(root, "phantom"))
    turn, radius = foot.real - tip.real, (foot.real - tip.real) / (2 * pi)
    front, behind = dots(root, "ink"), dots(root, "thin paper")
    upper_end = front[-1]
    assert upper_end.imag == pytest.approx(top.imag, abs=0.11)
    assert upper_end.real - tip.real == pytest.approx(turn * travel, abs=0.11)
    lower_end = behind[0] if behind else front[0]
    assert lower_end.imag == pytest.approx(tip.imag, abs=0.11)
    # The bar has turned by the share of a turn that is off it: its rim point seen from the side.
    assert lower_end.real - tip.real == pytest.approx(radius * sin(2 * pi * travel), abs=0.2)
    assert bool(behind) == (cos(2 * pi * travel) < -1e-6)


@pytest.mark.parametrize("width", [WIDE, NARROW])
@pytest.mark.parametrize(("lead", "starts"), [(0.05, 1), (0.25, 2), (1.0, 4), (2.0, 8)])
def test_its_ends_stay_apart_and_named_for_fine_and_coarse_threads(width: int, lead: float, starts: int) -> None:
    root = root_of(
        screw_scenes.screw(width, pitch=lead / starts * INCH, starts=starts, travel=1.0), unrolled_thread.draw
    )
    letters = {text.words: text for text in reading.texts(root) if text.words in ("A", "B")}
    assert set(letters) == {"A", "B"}
    lower_end, upper_end = dots(root, "ink")
    assert upper_end.real > lower_end.real
    assert upper_end.imag < lower_end.imag


def test_a_thin_triangle_has_its_end_enlarged() -> None:
    thin = root_of(screw_scenes.screw(WIDE, INCH, 0.05 * INCH), unrolled_thread.draw)
    assert any("times" in text.words for text in reading.texts(thin))
    plain = root_of(screw_scenes.screw(WIDE), unrolled_thread.draw)
    assert not any("times" in text.words for text in reading.texts(plain))


# -- the wrap test ---------------------------------------------------------------------------------


@pytest.mark.parametrize("width", [WIDE, NARROW])
def test_the_paper_left_over_keeps_its_slope(width: int) -> None:
    for travel in (0.0, 0.3, 0.8):
        root = root_of(screw_scenes.paper(width, travel=travel), wrapped_paper.draw)
        tip, foot, top = largest(reading.straight_paths(root, "visible paper"))
        whole_tip, whole_foot, whole_top = largest(reading.straight_paths(root, "phantom"))
        assert (foot.real - tip.real) / (whole_foot.real - whole_tip.real) == pytest.approx(1 - travel, abs=0.02)
        assert (foot.imag - top.imag) / (foot.real - tip.real) == pytest.approx(2 / 11, abs=0.01)
        assert (whole_foot.imag - whole_top.imag) / (whole_foot.real - whole_tip.real) == pytest.approx(
            2 / 11, abs=0.01
        )


# -- the screw stand -------------------------------------------------------------------------------


def load_tip(scene: Scene) -> complex:
    """The tip of the load's arrow on the crate."""
    arrows = [p for p in reading.straight_paths(root_of(scene, screw_press.draw), "lesser paper") if len(p) == 7]
    return arrows[0][3]


def test_the_nut_rises_one_lead_in_a_turn() -> None:
    """In the side view, whose scale is that of the screw's outside as drawn."""
    turns = 3
    scenes = [screw_scenes.stand(WIDE, lift=turns * INCH / 6, travel=travel) for travel in (0.0, 1 / 3, 1.0)]
    low, one, high = (load_tip(scene).imag for scene in scenes)
    nut = [p for p in reading.straight_paths(root_of(scenes[0], screw_press.draw), "hidden") if len(p) == 2]
    upright = [p[0].real for p in nut if p[0].real == p[1].real]
    outside = max(upright) - min(upright)
    lead = outside * (1 / 6) / 0.75
    assert low - one == pytest.approx(lead, abs=0.4)
    assert low - high == pytest.approx(3 * lead, abs=0.6)


@pytest.mark.parametrize("travel", [0.0, 0.13, 0.7])
def test_the_effort_is_square_to_the_handle_and_turns_the_nut_up(travel: float) -> None:
    scene = screw_scenes.stand(WIDE, handle=1.2 * INCH, travel=travel)
    root = root_of(scene, screw_press.draw)
    corners = reading.straight_paths(root, "effort")[0]
    hand, tip = (corners[0] + corners[-1]) / 2, corners[3]
    circle = next(e for e in root.iter(f"{reading.SVG}circle") if e.get("class") == "path by-effort")
    centre = complex(float(circle.attrib["cx"]), float(circle.attrib["cy"]))
    arm, push = hand - centre, tip - hand
    assert abs(arm) == pytest.approx(float(circle.attrib["r"]), abs=0.2)
    square = (push * arm.conjugate()) / abs(push) / abs(arm)
    assert square.real == pytest.approx(0, abs=0.03)
    assert square.imag > 0  # clockwise on the paper, where y runs down: a right-hand nut climbs


def test_load_push_and_closing_force_make_a_triangle() -> None:
    """The angle at the load's tail is lead angle plus friction angle."""
    scene = screw_scenes.stand(WIDE, pitch=0.25 * INCH, starts=2, friction=0.4)
    root = root_of(scene, screw_press.draw)
    loads = [p for p in reading.straight_paths(root, "lesser paper") if len(p) == 7]
    load = loads[-1]
    tail, tip = (load[0] + load[-1]) / 2, load[3]
    push = scene.values["Q"] / scene.values["R"] * abs(tip - tail)
    heads = [p for p in reading.straight_paths(root, "lesser paper") if len(p) == 3]
    assert any(abs(head[1] - tail) < 0.5 for head in heads)  # the closing force ends where the load begins
    assert push / abs(tip - tail) == pytest.approx(tan(scene.values["lam"] + scene.values["phi"]), rel=1e-9)


def test_it_says_whether_it_holds_or_runs_back() -> None:
    holds = screw_press.draw(screw_scenes.stand(WIDE))
    back = screw_press.draw(screw_scenes.stand(WIDE, starts=4, friction=0.05, collar=0.0))
    assert holds is not None
    assert back is not None
    assert "it holds by itself" in holds.alt
    assert "it runs back when let go" in back.alt
    assert "runs back unless held with" in back.svg


def test_without_friction_no_triangle_of_forces_is_drawn() -> None:
    svg = screw_press.draw(screw_scenes.stand(WIDE, friction=None))
    assert svg is not None
    assert "push" not in svg.svg


# -- the bolt --------------------------------------------------------------------------------------


@pytest.mark.parametrize("width", [WIDE, NARROW])
def test_the_bar_is_split_in_proportion(width: int) -> None:
    scene = screw_scenes.bolt(width, split=0.4)
    root = root_of(scene, bolt_joint.draw)
    parts = [
        max(p.real for p in path) - min(p.real for p in path)
        for path in reading.straight_paths(root, "visible paper")
        if len(path) == 4 and max(p.imag for p in path) - min(p.imag for p in path) == pytest.approx(22, abs=0.2)
    ]
    whole = sum(parts)
    assert [part / whole for part in parts] == pytest.approx(
        [scene.values[symbol] for symbol in ("s_c", "s_t", "s_f")], abs=0.002
    )


def test_the_band_opens_with_the_torque() -> None:
    """At half the torque the heavy line across the band is half as long."""

    def band(travel: float) -> float:
        root = root_of(screw_scenes.bolt(WIDE, travel=travel), bolt_joint.draw)
        upright = [p for p in reading.straight_paths(root, "visible") if len(p) == 2 and p[0].real == p[1].real]
        return max((abs(p[0] - p[1]) for p in upright), default=0.0)

    assert band(0.0) == 0
    assert band(0.5) == pytest.approx(band(1.0) / 2, abs=0.2)


def test_what_is_not_known_is_not_drawn() -> None:
    scene = screw_scenes.bolt(WIDE)
    assert bolt_joint.draw(replace(scene, values={"T": 10.0 * POUND_FORCE})) is None
    alone = bolt_joint.draw(replace(scene, values={s: scene.values[s] for s in ("d", "p")}, texts={}))
    assert alone is not None
    assert "CLAMP FORCE" not in alone.svg
    assert unrolled_thread.draw(replace(screw_scenes.screw(WIDE), values={"d_m": 0.02})) is None
    assert wrapped_paper.draw(replace(screw_scenes.paper(WIDE), values={"B": 0.02, "H": 0.01})) is None
    assert screw_press.draw(replace(screw_scenes.stand(WIDE), values={"r": 0.02})) is None
