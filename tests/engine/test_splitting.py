"""The WebAssembly's two halves: what is in which, and that together they are the whole."""

import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Page

from build_tools.bench.waiting import until
from build_tools.engine import packing, payload, pruning, splitting
from build_tools.engine import webassembly as wa

ROOT = Path(__file__).parent.parent.parent
PYODIDE = ROOT / "node_modules" / "pyodide"
CACHE = ROOT / "build" / "engine" / "compiled"


@pytest.fixture(scope="module")
def whole() -> bytes:
    node = shutil.which("node")
    assert node, "the engine is built with Node"
    return packing.engine_files(PYODIDE, CACHE, node, prune=True).wasm


@pytest.fixture(scope="module")
def halves(whole: bytes) -> splitting.Halves:
    return splitting.halves(whole, set(range(1000, 1100)))


def bodies(wasm: bytes) -> list[bytes]:
    return list(wa.pieces(dict(wa.sections(wasm))[wa.CODE]))


def start_of(wasm: bytes) -> int:
    """The number of the function that runs first, from the first that is not imported on."""
    parts = dict(wa.sections(wasm))
    imported = [it.kind for it in wa.imports(parts[wa.IMPORTS])].count(wa.FUNCTION)
    return wa.number(parts[wa.START], 0)[0] - imported


def test_each_function_is_whole_in_one_half_and_passed_on_in_the_other(whole: bytes, halves: splitting.Halves) -> None:
    all_three = zip(bodies(whole), bodies(halves.first), bodies(halves.rest), strict=True)
    more = set()
    for function, (body, first, rest) in enumerate(all_three):
        if function == start_of(whole):
            assert first == body
            assert rest[:-1] == body[: len(rest) - 1], "it sets the same variables"
            continue
        assert (first == body) != (rest == body), function
        if first == body and not 1000 <= function < 1100:
            more.add(function)
    assert 0 < len(more) < len(bodies(whole)) / 2, "those that the others call, or that a half could not share"


def test_the_rest_brings_no_memory_of_its_own(halves: splitting.Halves) -> None:
    """It comes when Python's memory is in use: it may neither fill it from data nor clear it."""
    parts = dict(wa.sections(halves.rest))
    assert {wa.DATA, wa.EXPORTS}.isdisjoint(parts)
    start = bodies(halves.rest)[start_of(halves.rest)]
    clears = bytes([0xFC, 0x0B])  # memory.fill, by the core specification, 5.4.6
    assert clears in bodies(halves.first)[start_of(halves.first)]
    assert clears not in start


def test_the_table_has_a_place_for_each_function_that_is_passed_on(whole: bytes, halves: splitting.Halves) -> None:
    before = len(pruning.functions_in_table(dict(wa.sections(whole))[wa.ELEMENTS]))
    assert halves.places == pruning.FIRST_PLACE + before + len(bodies(whole))


def test_a_watched_function_notes_its_call_and_then_does_what_it_did(whole: bytes) -> None:
    watched = splitting.watched(whole)
    made = len(bodies(whole))
    exported = {it.name for it in wa.exports(dict(wa.sections(watched))[wa.EXPORTS]) if it.kind == wa.GLOBAL}
    assert {f"called{function}" for function in range(made)} <= exported
    note = bytes([0x41, 1, 0x24])  # i32.const 1, global.set
    for before, after in zip(bodies(whole), bodies(watched), strict=True):
        at = after.index(note)
        _, end = wa.number(after, at + len(note))
        assert after[:at] + after[end:] == before


@pytest.mark.parametrize(
    ("body", "words"),
    [(bytes([0, 0xFF, 0x0B]), "unknown instruction: ff"), (bytes([0, 0xFC, 99, 0x0B]), "unknown instruction: fc 99")],
)
def test_an_instruction_that_is_not_known_is_refused(whole: bytes, body: bytes, words: str) -> None:
    parts = [(kind, content) for kind, content in wa.sections(whole)]
    code = wa.many([wa.written(len(it)) + it for it in [*bodies(whole)[:-1], body]])
    changed = wa.MAGIC + b"".join(wa.section(kind, code if kind == wa.CODE else it) for kind, it in parts)
    with pytest.raises(wa.WebAssemblyError, match=words):
        splitting.halves(changed, set())


@pytest.mark.parametrize("value", [0, 1, 63, 64, 127, 128, 8191, 8192, 19_166, 2**31 - 1])
def test_numbers_are_written_as_they_are_read(value: int) -> None:
    """LEB128 by the core specification, 5.2.2; a signed one that is not negative ends with bit 6 clear."""
    assert wa.number(wa.written(value), 0) == (value, len(wa.written(value)))
    assert wa.number(wa.written_signed(value), 0)[0] == value
    assert not wa.written_signed(value)[-1] & 64


ASK = """async (question) => {
  try { return await engine.ask("one", question); } catch (error) { return {sentence: error.message}; }
}"""


@pytest.mark.browser
def test_the_rest_comes_after_the_first_answer(page: Page, disk: str, toy_site: Path) -> None:
    folder = toy_site / "assets/engine"
    rest = folder / f"{payload.read_manifest(folder)['rest']['name']}.js"
    rest.unlink()
    page.goto(disk)
    until(page, "window.engine && engine.state === 'ready'")
    assert page.evaluate(ASK, {"calculator": "word"})["word"] == "plank"
    assert page.evaluate("engine.restored")


@pytest.mark.browser
def test_a_function_that_is_not_there_yet_makes_python_start_again_with_all_of_it(page: Page, address: str) -> None:
    """The toy is never asked for complex numbers when its functions are chosen."""
    page.goto(address)
    until(page, "window.engine && engine.state !== 'starting'")
    assert page.evaluate(ASK, {"calculator": "complex"})["text"] == "(-4+3j)"  # (3 + 4i) i = -4 + 3i
    assert page.evaluate(ASK, {"calculator": "word"})["word"] == "plank"


@pytest.mark.browser
def test_without_the_rest_such_a_question_is_told_in_a_sentence(page: Page, disk: str, toy_site: Path) -> None:
    folder = toy_site / "assets/engine"
    (folder / f"{payload.read_manifest(folder)['rest']['name']}.js").unlink()
    page.goto(disk)
    until(page, "window.engine && engine.state === 'ready'")
    assert "missing or damaged" in page.evaluate(ASK, {"calculator": "complex"})["sentence"]


@pytest.mark.browser
def test_once_the_rest_is_there_python_goes_on_as_it_was(page: Page, address: str) -> None:
    page.goto(address)
    until(page, "window.engine && engine.state === 'ready'")
    assert page.evaluate(ASK, {"calculator": "late"})["hue"]  # it waits for all that comes later
    assert page.evaluate(ASK, {"calculator": "complex"})["text"] == "(-4+3j)"
    assert page.evaluate("engine.restored")


@pytest.mark.browser
def test_after_the_first_answer_questions_wait_for_the_rest(page: Page, disk: str) -> None:
    page.add_init_script("""
      window.sent = [];
      const Whole = window.Worker;
      window.Worker = class extends Whole {
        postMessage(message, ...rest) {
          if (message.part || message.id) sent.push(message.part ?? "question");
          super.postMessage(message, ...rest);
        }
      };""")
    page.goto(disk)
    until(page, "window.engine")
    both = """() => Promise.all(["one", "two"].map((slot) => engine.ask(slot, { calculator: "word" })))"""
    assert [it["word"] for it in page.evaluate(both)] == ["plank", "plank"]
    sent = page.evaluate("sent")
    assert sent[:2] == ["wasm", "question"]
    assert sorted(sent[2:-1]) == ["packages", "rest", "stdlib"]
    assert sent[-1] == "question"
