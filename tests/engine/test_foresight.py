"""What the engine answers before it is asked: only the very same question, and never in the way of another one."""

from typing import Any

import pytest
from playwright.sync_api import Page

from build_tools.bench.waiting import until
from tests.questions import ALL_ANSWERED, LISTEN, frames

pytestmark = pytest.mark.browser

FORESEE = "(requests) => engine.foresee(() => requests)"
ASK = """async ({slot, request}) => {
  const before = asked.length;
  const answer = await engine.ask(slot, request).catch((error) => ({ sentence: error.message }));
  return { sent: asked.length - before, answer };
}"""
MOST, KEPT = 12, 24
"""How many questions the engine takes at once, and how many answers it keeps."""


@pytest.fixture
def opened(page: Page, disk: str) -> Page:
    page.add_init_script(LISTEN)
    page.goto(disk)
    until(page, "window.engine?.state === 'ready'")
    return page


@pytest.fixture
def whole(opened: Page) -> Page:
    """With all of Python there: before that, a fault makes it start again."""
    assert ask(opened, {"calculator": "late"})["answer"]["hue"]
    return opened


def words(*turns: int) -> list[dict[str, object]]:
    return [{"calculator": "word", "turn": turn} for turn in turns]


def foresee(page: Page, *requests: dict[str, object]) -> None:
    """Returns when the last of them has been answered."""
    page.evaluate(FORESEE, list(requests))
    until(page, f"asked.some((it) => it.turn === {requests[-1]['turn']}) && {ALL_ANSWERED}")


def ask(page: Page, request: dict[str, object], slot: str = "one") -> Any:
    return page.evaluate(ASK, {"slot": slot, "request": request})


def test_a_foreseen_question_is_answered_without_the_worker(opened: Page) -> None:
    foresee(opened, *words(1, 2))
    assert ask(opened, *words(2)) == {"sent": 0, "answer": {"calculator": "word", "turn": 2, "word": "plank"}}


def test_its_answer_is_there_before_the_next_task(opened: Page) -> None:
    foresee(opened, *words(1))
    order = opened.evaluate("""() => new Promise((resolve) => {
      const order = [];
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => resolve([...order, "next task"]);
      port2.postMessage(null);
      engine.ask("one", { calculator: "word", turn: 1 }).then(() => order.push("answer"));
    })""")
    assert order == ["answer", "next task"]


@pytest.mark.parametrize("other", [{"units": "si"}, {"turn": 2}, {"given": {}}])
def test_another_question_is_not_answered_by_it(opened: Page, other: dict[str, object]) -> None:
    foresee(opened, *words(1))
    request = words(1)[0] | other
    assert ask(opened, request) == {"sent": 1, "answer": request | {"word": "plank"}}


def test_a_real_question_goes_before_the_rest_of_them(opened: Page) -> None:
    opened.evaluate("""() => {
      whenAsked = ({ turn }) => { if (turn === 1) engine.ask("one", { calculator: "word", turn: "real" }); };
    }""")
    foresee(opened, *words(1, 2, 3))
    assert opened.evaluate("asked.map((it) => it.turn)") == [1, "real", 2, 3]


def test_one_is_asked_at_a_time(opened: Page) -> None:
    opened.evaluate("""() => {
      window.most = 0;
      whenAsked = () => { most = Math.max(most, asked.length - answered.length); };
    }""")
    foresee(opened, *words(1, 2, 3))
    assert opened.evaluate("most") == 1


def test_no_more_are_asked_than_were_said_last_and_only_the_likeliest(opened: Page) -> None:
    opened.evaluate(
        "(rows) => { for (const requests of rows) engine.foresee(() => requests); }", [words(100), words(*range(40))]
    )
    until(opened, f"asked.some((it) => it.turn === {MOST - 1}) && {ALL_ANSWERED}")
    frames(opened)
    assert opened.evaluate("asked.map((it) => it.turn)") == [*range(MOST)]


def test_what_is_known_is_not_asked_again(opened: Page) -> None:
    foresee(opened, *words(1, 2))
    foresee(opened, *words(2, 1, 3))
    assert opened.evaluate("asked.map((it) => it.turn)") == [1, 2, 3]


def test_old_answers_are_given_away(opened: Page) -> None:
    for start in range(0, KEPT + MOST, MOST):
        foresee(opened, *words(*range(start, start + MOST)))
    assert ask(opened, *words(KEPT + MOST - 1))["sent"] == 0
    assert ask(opened, *words(MOST - 1))["sent"] == 1


def test_an_older_question_of_the_slot_never_comes_after_it(opened: Page) -> None:
    """Neither one that the worker has already, nor one that waits; questions of other slots are not touched."""
    foresee(opened, *words(1))
    answers = opened.evaluate("""() => {
      const ask = (slot, turn) => engine.ask(slot, { calculator: "word", turn });
      return Promise.all([ask("a", 2), ask("b", 3), ask("a", 1), ask("b", 4), ask("b", 1), ask("c", 5)]);
    }""")
    assert [answer and answer["turn"] for answer in answers] == [None, None, 1, None, 1, 5]
    assert opened.evaluate("asked.map((it) => it.turn)") == [1, 2, 5], "the questions that wait are not asked any more"


def test_nothing_is_asked_before_the_frame_is_painted(opened: Page) -> None:
    """So a page that is hidden, and has no frames, asks nothing."""
    opened.evaluate("""() => {
      window.requestAnimationFrame = (then) => { window.frame = then; };
    }""")
    opened.evaluate(FORESEE, words(1))
    assert ask(opened, *words(2)) == {"sent": 1, "answer": words(2)[0] | {"word": "plank"}}
    assert opened.evaluate("asked.map((it) => it.turn)") == [2]
    opened.evaluate("frame()")
    until(opened, f"asked.length === 2 && {ALL_ANSWERED}")
    assert ask(opened, *words(1))["sent"] == 0


def test_another_worker_begins_without_answers(whole: Page) -> None:
    opened = whole
    foresee(opened, *words(1))
    assert "could not answer" in ask(opened, {"calculator": "broken"})["answer"]["sentence"]
    until(opened, "engine.state === 'ready'")
    assert opened.evaluate("workers") == 2
    assert ask(opened, *words(1)) == {"sent": 1, "answer": words(1)[0] | {"word": "plank"}}


def test_one_that_fails_is_not_told_and_ends_the_row(whole: Page) -> None:
    opened = whole
    said: list[str] = []
    opened.on("console", lambda message: said.append(message.text))
    opened.on("pageerror", lambda problem: said.append(str(problem)))
    opened.evaluate(FORESEE, [*words(1), {"calculator": "broken", "turn": 2}, *words(3)])
    until(opened, f"asked.some((it) => it.turn === 2) && {ALL_ANSWERED}")
    frames(opened)
    assert opened.evaluate("asked.map((it) => it.turn).filter(Boolean)") == [1, 2]
    assert opened.evaluate("[engine.state, workers]") == ["ready", 1]
    assert ask(opened, *words(4))["answer"]["word"] == "plank"
    assert said == []


def test_one_without_end_holds_a_real_question_up_and_does_not_lose_it(opened: Page) -> None:
    """The reader's question is asked of a new worker, without a word; and then nothing is foreseen any more."""
    opened.evaluate(FORESEE, [{"calculator": "forever", "turn": 1}])
    until(opened, "asked.length === 1")
    assert ask(opened, *words(2)) == {"sent": 1, "answer": words(2)[0] | {"word": "plank"}}
    assert opened.evaluate("workers") == 2
    opened.evaluate(FORESEE, words(3))
    frames(opened)
    assert opened.evaluate("asked.map((it) => it.turn)") == [1, 2]


def test_nothing_more_is_foreseen_and_nobody_counts_while_the_worker_is_at_one(opened: Page) -> None:
    opened.evaluate("""() => {
      window.timers = 0;
      const start = window.setInterval;
      window.setInterval = (...options) => { timers += 1; return start(...options); };
    }""")
    foresee(opened, *words(1))
    opened.evaluate(FORESEE, [{"calculator": "forever", "turn": 2}])
    until(opened, "asked.length === 2")
    opened.evaluate(FORESEE, words(3))
    frames(opened)
    assert opened.evaluate("asked.length") == 2
    assert opened.evaluate("timers") == 0


def test_on_a_slow_machine_less_is_foreseen_and_more_again_when_it_is_quick(opened: Page) -> None:
    assert row(opened, 11, 0, 0) == [0], "a slow answer ends the row"
    assert row(opened, 0, 100, 105) == [*range(100, 106)], "half as many"
    assert row(opened, 0, 200, 206) == [*range(200, 207)], "one more after a quick row"
    for start in (300, 400, 500, 600):
        assert row(opened, 11, start, start) == [start], "one at least is tried"
    assert row(opened, 0, 700, 700) == [700]


def row(page: Page, stride: int, start: int, last: int) -> list[int]:
    """What is asked of twelve, from `start` on, while the clock goes on by `stride` between question and answer."""
    before = page.evaluate("asked.length")
    page.evaluate(f"stride = {stride}")
    page.evaluate(FORESEE, words(*range(start, start + MOST)))
    until(page, f"asked.some((it) => it.turn === {last}) && {ALL_ANSWERED}")
    frames(page)
    turns: list[int] = page.evaluate(f"asked.slice({before}).map((it) => it.turn)")
    return turns
