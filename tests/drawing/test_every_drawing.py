"""What holds for every drawing, over hundreds of machines from a fixed seed, at both widths."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import combinations

import pytest

from calc.drawing import (
    bent_lever,
    bolt_joint,
    cart_ramp,
    chain,
    chain_hoist,
    equal_work,
    gears,
    inclined_plane,
    level_drag,
    lever,
    loaded_bar,
    measures,
    pin_friction,
    ramp_shape,
    rope_on_post,
    screw_press,
    shortest_ramp,
    single_pulley,
    tackle,
    tackle_rope,
    three_ways,
    tilt_test,
    unrolled_thread,
    wedge,
    wheel_and_axle,
    windlass,
    work,
    work_along_path,
    wrapped_paper,
)
from calc.drawing.canvas import HARD, Canvas
from calc.drawing.plane import Box, length_inside
from calc.drawing.scene import Drawing, Scene
from tests.drawing import (
    lever_scenes,
    pulley_scenes,
    reading,
    scenes,
    screw_scenes,
    slope_scenes,
    wheel_scenes,
    work_scenes,
)

Draw = Callable[[Scene], Drawing | None]
Compose = Callable[[Scene], Canvas | None]

CASES: dict[str, tuple[Draw, Compose, list[Scene]]] = {
    "lever": (lever.draw, lever.compose, list(scenes.random_levers(240))),
    "inclined plane": (inclined_plane.draw, inclined_plane.compose, list(scenes.random_ramps(320))),
    "work": (work.draw, work.compose, list(scenes.random_work(120))),
    "same work": (work.same_work, work.compose_same_work, list(scenes.random_same_work(80))),
    "equal work": (equal_work.draw, equal_work.compose, list(work_scenes.random_equal_work(240))),
    "three ways": (three_ways.draw, three_ways.compose, list(work_scenes.random_ways(160))),
    "unrolled thread": (unrolled_thread.draw, unrolled_thread.compose, list(screw_scenes.random_screws(160))),
    "wound paper": (wrapped_paper.draw, wrapped_paper.compose, list(screw_scenes.random_papers(120))),
    "screw stand": (screw_press.draw, screw_press.compose, list(screw_scenes.random_stands(160))),
    "bolt": (bolt_joint.draw, bolt_joint.compose, list(screw_scenes.random_bolts(120))),
    "wheel and axle": (wheel_and_axle.draw, wheel_and_axle.compose, list(wheel_scenes.random_wheels(160))),
    "windlass": (windlass.draw, windlass.compose, list(wheel_scenes.random_windlasses(200))),
    "journal": (windlass.draw_journal, windlass.compose_journal, list(wheel_scenes.random_journals(160))),
    "gears and belts": (gears.draw, gears.compose, list(wheel_scenes.random_trains(200))),
    "tackle": (tackle.draw, tackle.compose, list(pulley_scenes.random_tackles(320))),
    "single pulley": (single_pulley.draw, single_pulley.compose, list(pulley_scenes.random_single_pulleys(180))),
    "tackle's rope": (tackle_rope.draw, tackle_rope.compose, list(pulley_scenes.random_tackle_ropes(160))),
    "chain hoist": (chain_hoist.draw, chain_hoist.compose, list(pulley_scenes.random_chain_hoists(100))),
    "rope on a post": (rope_on_post.draw, rope_on_post.compose, list(pulley_scenes.random_ropes_on_posts(160))),
    "loaded bar": (loaded_bar.draw, loaded_bar.compose, list(lever_scenes.random_bars(160))),
    "bent lever": (bent_lever.draw, bent_lever.compose, list(lever_scenes.random_bent_levers(160))),
    "pin friction": (pin_friction.draw, pin_friction.compose, list(lever_scenes.random_pins(120))),
    "chain": (chain.draw, chain.compose, list(lever_scenes.random_chains(120))),
    "work along a path": (work_along_path.draw, work_along_path.compose, list(lever_scenes.random_paths(120))),
    "level drag": (level_drag.draw, level_drag.compose, list(lever_scenes.random_drags(60))),
    "measures": (measures.draw, measures.compose, list(lever_scenes.random_measures(120))),
    "ramp shape": (ramp_shape.draw, ramp_shape.compose, list(slope_scenes.random_shapes(100))),
    "cart on a ramp": (cart_ramp.draw, cart_ramp.compose, list(slope_scenes.random_carts(200))),
    "shortest ramp": (shortest_ramp.draw, shortest_ramp.compose, list(slope_scenes.random_fans(140))),
    "tilt test": (tilt_test.draw, tilt_test.compose, list(slope_scenes.random_tilts(140))),
    "wedge": (wedge.draw, wedge.compose, list(slope_scenes.random_wedges(320))),
}
A_FEW = [(draw, scene) for draw, _, cases in CASES.values() for scene in cases[::20]]

CLASSES = {
    *("drawing", "visible", "lesser", "thin", "hatch", "hidden", "centre", "phantom", "path", "dots", "grain"),
    *("paper", "ink", "effort", "by-effort", "note", "heading", "effort-name", "symbol"),
    *("rope", "lay"),
}


def drawn(draw: Draw, scene: Scene) -> str:
    drawing = draw(scene)
    assert drawing is not None
    return drawing.svg


@pytest.fixture(scope="module", params=list(CASES))
def canvases(request: pytest.FixtureRequest) -> list[Canvas]:
    """Every case composed once, ready to be written out."""
    _, compose, cases = CASES[request.param]
    found = [canvas for scene in cases if (canvas := compose(scene))]
    assert len(found) == len(cases)
    return found


def test_every_machine_can_be_drawn() -> None:
    for draw, scene in A_FEW:
        assert draw(scene) is not None


def test_no_text_touches_another_and_all_is_inside_the_frame(canvases: list[Canvas]) -> None:
    for index, canvas in enumerate(canvases):
        root = reading.parse(canvas.svg("A machine."))
        left, top, right, bottom = reading.view_box(root)
        found = reading.texts(root)
        assert found, index
        for text in found:
            inside = text.left >= left and text.right <= right and text.top >= top and text.bottom <= bottom
            assert inside, (index, canvas.width, text)
        for one, other in combinations(found, 2):
            assert not one.overlaps(other), (index, canvas.width, one, other)


def test_no_text_stands_on_a_thick_line_an_arrow_or_a_leader(canvases: list[Canvas]) -> None:
    for index, canvas in enumerate(canvases):
        hard = [segment for segment in canvas.segments if segment.weight >= HARD]
        for box in canvas.boxes:
            core = Box(box.left + 2, box.top + 2, box.right - 2, box.bottom - 2)
            for segment in hard:
                assert length_inside(core, segment) <= 2, (index, canvas.width, box, segment)


def test_nothing_drawn_leaves_the_frame(canvases: list[Canvas]) -> None:
    for index, canvas in enumerate(canvases):
        assert canvas.left >= 0, (index, canvas.width)
        assert canvas.right <= canvas.width, (index, canvas.width)
        assert canvas.bottom - canvas.top < (560 if canvas.width > 500 else 760), (index, canvas.width)


def test_the_same_scene_gives_the_same_drawing() -> None:
    for draw, scene in A_FEW:
        assert draw(scene) == draw(scene)


def test_a_drawing_names_and_describes_itself() -> None:
    for draw, scene in A_FEW:
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


def test_only_classes_of_the_style_sheet_are_used() -> None:
    for draw, scene in A_FEW:
        for element in reading.parse(drawn(draw, scene)).iter():
            assert set(element.get("class", "").split()) <= CLASSES


@pytest.mark.parametrize("odd", [0.0, -1.0, float("inf"), float("nan"), 1e-9, 1e9])
def test_an_odd_value_gives_a_drawing_or_none_but_never_an_error(odd: float) -> None:
    for draw, scene in A_FEW:
        for symbol in scene.values:
            drawing = draw(replace(scene, values={**scene.values, symbol: odd}))
            if drawing is not None:
                assert "nan" not in drawing.svg
                assert "inf" not in drawing.svg
