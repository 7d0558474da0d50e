"""What goes wrong under a page: its worker dies, a file of its engine is another one, memory ends."""

import gzip
from pathlib import Path

import pytest
from playwright.sync_api import Page

from build_tools.bench.waiting import until
from build_tools.engine import payload

pytestmark = pytest.mark.browser

ASK = """async (calculator) => {
  try { return (await engine.ask("one", {calculator})).word; } catch (error) { return error.message; }
}"""
INSTEAD = "Use the formula and the worked numbers below."
DAMAGED = f"A file of the calculator is missing or damaged, so it cannot run here. {INSTEAD}"


def opened(page: Page, address: str) -> Page:
    page.goto(address)
    until(page, "window.engine && engine.state !== 'starting'")
    return page


def altered(site: Path, part: str) -> None:
    """One byte is another, in a file that is whole and as long as before."""
    folder = site / "assets" / "engine"
    content = bytearray(payload.read_part(folder, part))
    content[len(content) // 2] ^= 1
    script = folder / f"{payload.read_manifest(folder)[part]['name']}.js"
    script.write_text(payload.script(script.stem, gzip.compress(bytes(content), 1)), encoding="ascii")


@pytest.mark.parametrize("part", ["code", "wasm"])
def test_an_altered_file_is_never_run(page: Page, address: str, toy_site: Path, part: str) -> None:
    altered(toy_site, part)
    opened(page, address)
    assert page.evaluate(ASK, "word") == DAMAGED
    assert page.text_content("#printed") == "The printed answer."


def test_an_altered_snapshot_is_not_restored(page: Page, address: str, toy_site: Path) -> None:
    altered(toy_site, "snapshot")
    opened(page, address)
    assert page.evaluate(ASK, "word") == "plank"
    assert page.evaluate("engine.restored") is False


HIRED = """window.hired = {};
  window.Worker = class extends Worker {
    constructor(address, options) {
      super(address, options);
      hired[options.name] = this;
    }
  };"""


def test_after_a_worker_died_in_an_answer_the_next_question_is_answered(page: Page, disk: str) -> None:
    page.add_init_script(HIRED)
    opened(page, disk)
    for _ in range(2):  # the second waits until the whole library is there
        assert page.evaluate(ASK, "word") == "plank"
    died = f"(calculator) => {{ const asked = ({ASK})(calculator); hired.engine.terminate(); return asked; }}"
    assert page.evaluate(died, "word") == "This took too long and was stopped. Change a number to try again."
    assert page.evaluate(ASK, "word") == "plank"


def test_a_worker_that_dies_with_the_rest_of_its_library_is_replaced(page: Page, disk: str) -> None:
    page.add_init_script(HIRED)
    page.add_init_script("""window.handed = [];
      const hand = Worker.prototype.postMessage;
      Worker.prototype.postMessage = function (message, moved) {
        if (message.part === "rest") {
          handed.push(message.part);
          if (handed.length === 1) this.terminate();
        }
        return hand.call(this, message, moved);
      };
      const often = setInterval;
      window.setInterval = (work, ms) => often(work, ms / 20);""")
    opened(page, disk)
    assert page.evaluate(ASK, "word") == "plank"
    assert page.evaluate(ASK, "word") == "plank"
    assert page.evaluate("handed") == ["rest", "rest"]


def test_without_memory_for_python_the_page_says_so_and_stays(page: Page, disk: str) -> None:
    page.add_init_script("""const Whole = Blob;
      window.Blob = function (pieces, options) {
        const refuse = "WebAssembly.Memory = function () { throw new RangeError('could not allocate memory'); };";
        return new Whole([refuse, ...pieces], options);
      };""")
    opened(page, disk)
    assert page.evaluate(ASK, "word").startswith("The calculator cannot run here.")
    assert page.text_content("#printed") == "The printed answer."
