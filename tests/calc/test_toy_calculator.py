"""A new machine is one declaration: form, answer, working and drawing follow, and nothing else changes."""

from __future__ import annotations

import pytest

import calc
from calc import registry
from calc.drawing.scene import Drawing, Scene
from calc.model import Calculator, Quantity, Relation, Sentence


def draw_spring(scene: Scene) -> Drawing | None:
    """A line as long as the stretch."""
    if "x" not in scene.values:
        return None
    return Drawing(
        f'<svg id="{scene.key}-{scene.width}"><title>{scene.texts["x"]}</title></svg>', "A spring.", "A spring."
    )


SPRING = Calculator(
    key="toy-spring",
    title="A hanging spring",
    quantities=(
        Quantity("F", "Pull", "force", "6 lbf", "24 N", level=1, hint="What hangs on it."),
        Quantity("F_1in", "Pull for one inch", "force", "2 lbf", "8 N", level=1),
        Quantity("x", "Stretch", "length", "in", "mm", level=1),
        Quantity("x_1", "One inch", "length", "1 in", "25.4 mm", level=1),
    ),
    relations=(Relation("x = x_1*F/F_1in", "Twice the pull stretches it twice as far."),),
    sentences=(Sentence("A pull of {F} stretches it by {x}."),),
    draw=draw_spring,
)


@pytest.fixture(autouse=True)
def declared(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(registry.CALCULATORS, SPRING.key, SPRING)


def test_the_form_follows() -> None:
    form = calc.describe("toy-spring")
    assert [q["symbol"] for q in form["quantities"]] == ["F", "F_1in", "x", "x_1"]
    assert form["quantities"][0]["example"] == {"us": "6", "si": "24"}


def test_answer_working_and_drawing_follow() -> None:
    answer = calc.answer({**calc.example("toy-spring"), "draw": "both"})
    assert answer["values"]["x"]["text"] == "3.00 in"
    assert answer["html"]["sentence"] == "A pull of 6 lbf stretches it by 3.00 in."
    assert answer["working"][0]["text"] == "x = x_1*F / F_1in = 1 in × 6 lbf / 2 lbf = 3.00 in"
    assert 'id="toy-spring-680"' in answer["html"]["machine_wide"]


def test_it_solves_for_any_box() -> None:
    answer = calc.answer({"calculator": "toy-spring", "given": {"F": "6", "x": "3", "x_1": "1"}})
    assert answer["values"]["F_1in"]["text"] == "2.00 lbf"


def test_it_is_listed_and_reached_like_any_other() -> None:
    assert set(calc.keys()) > {"toy-spring"}
