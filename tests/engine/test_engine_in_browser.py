"""The engine in a page, from the disk and from a server."""

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from build_tools.bench.waiting import until
from build_tools.engine import archives, payload

pytestmark = pytest.mark.browser

ASK = """async ({slot, request}) => {
  try { return await engine.ask(slot, request); } catch (error) { return {sentence: error.message}; }
}"""
INSTEAD = "Use the formula and the worked numbers below."


def opened(page: Page, address: str) -> Page:
    page.goto(address)
    until(page, "window.engine")
    return page


def ask(page: Page, calculator: str, slot: str = "one", **rest: object) -> Any:
    return page.evaluate(ASK, {"slot": slot, "request": {"calculator": calculator, **rest}})


def test_the_first_question_is_asked_before_the_engine_is_there(page: Page, address: str) -> None:
    page.add_init_script("""document.addEventListener("DOMContentLoaded", () => {
      window.stateWhenAsked = engine.state;
      window.first = engine.ask("one", {calculator: "word"});
    });
    window.states = [];
    document.addEventListener("engine-state", (event) => states.push(event.detail));""")
    opened(page, address)
    assert page.evaluate("first") == {"calculator": "word", "word": "plank"}
    assert page.evaluate("stateWhenAsked") == "starting"
    assert page.evaluate("engine.state") == "ready"
    assert page.evaluate("states") == ["starting", "ready"]


def test_a_newer_question_takes_the_place_of_one_not_yet_asked(page: Page, disk: str) -> None:
    opened(page, disk)
    answers = page.evaluate("""() => {
      const ask = (slot, turn) => engine.ask(slot, {calculator: "word", turn});
      return Promise.all([ask("a", 1), ask("b", 2), ask("a", 3), ask("a", 4)]);
    }""")
    assert [answer and answer["turn"] for answer in answers] == [None, 2, None, 4]


def test_a_question_without_end_is_stopped_and_the_next_one_answered(page: Page, disk: str) -> None:
    opened(page, disk)
    page.evaluate("engine.ready")
    sentence = ask(page, "forever")["sentence"]
    assert sentence == "This took too long and was stopped. Change a number to try again."
    assert page.text_content("#printed") == "The printed answer."
    assert ask(page, "word")["word"] == "plank"


def test_a_question_that_breaks_calc_gets_a_sentence_and_the_next_one_an_answer(page: Page, disk: str) -> None:
    opened(page, disk)
    sentence = ask(page, "broken")["sentence"]
    assert sentence == "The calculator could not answer this. Change a number to try again."
    assert ask(page, "word")["word"] == "plank"


@pytest.mark.parametrize("part", ["code", "wasm", "manifest"])
def test_a_missing_file_is_told_in_a_sentence(page: Page, address: str, toy_site: Path, part: str) -> None:
    remove(toy_site, part)
    opened(page, address)
    assert ask(page, "word")["sentence"] == (
        f"A file of the calculator is missing or damaged, so it cannot run here. {INSTEAD}"
    )
    assert page.evaluate("engine.state") == "failed"
    assert page.text_content("#printed") == "The printed answer."


@pytest.mark.parametrize("part", ["code", "wasm"])
def test_a_damaged_file_is_told_in_a_sentence(page: Page, disk: str, toy_site: Path, part: str) -> None:
    script = script_of(toy_site, part)
    text = script.read_text(encoding="ascii")
    middle = len(text) // 2
    script.write_text(text[:middle] + "AAAAAAAA" + text[middle + 8 :], encoding="ascii")
    opened(page, disk)
    assert INSTEAD in ask(page, "word")["sentence"]


@pytest.mark.parametrize("ability", ["Worker", "WebAssembly", "DecompressionStream"])
def test_an_old_browser_is_told_in_a_sentence(page: Page, disk: str, ability: str) -> None:
    page.add_init_script(f"delete window.{ability}")
    opened(page, disk)
    assert ask(page, "word")["sentence"] == (
        f"This browser is too old for the calculator, or this computer’s settings block it. {INSTEAD}"
    )


def test_files_of_another_version_are_never_used(page: Page, disk: str, toy_site: Path) -> None:
    manifest = toy_site / "assets" / "engine" / payload.MANIFEST
    text = manifest.read_text(encoding="ascii").replace(f'"protocol":{payload.PROTOCOL}', '"protocol":0')
    manifest.write_text(text, encoding="ascii")
    opened(page, disk)
    assert "different versions" in ask(page, "word")["sentence"]


def test_a_browser_without_the_newest_decoder_gets_the_same_answer(page: Page, disk: str) -> None:
    page.add_init_script("delete Uint8Array.fromBase64")
    opened(page, disk)
    assert ask(page, "word")["word"] == "plank"


def test_nothing_is_asked_from_another_host(page: Page, address: str, toy_site: Path) -> None:
    asked: list[str] = []
    page.context.on("request", lambda request: asked.append(request.url))
    opened(page, address)
    ask(page, "word")
    own = re.compile("(file|http|blob|data):")
    home = address.rsplit("/", 1)[0]
    assert asked
    assert [url for url in asked if not (url.startswith((home, "blob:")) and own.match(url))] == []


def test_python_is_restored_from_the_snapshot(page: Page, address: str) -> None:
    opened(page, address)
    assert ask(page, "feet", m=3.048)["feet"] == pytest.approx(10, rel=1e-12)  # 1 ft = 0.3048 m by definition
    assert ask(page, "uncertain")["text"] == "20.0+/-2.0"
    assert page.evaluate("engine.restored")


def test_an_import_outside_the_snapshot_waits_for_the_library(page: Page, address: str) -> None:
    opened(page, address)
    assert ask(page, "late")["hue"] == pytest.approx(1 / 3)  # green is 120 degrees of 360
    assert page.evaluate("engine.restored")


def test_two_pages_from_one_snapshot_draw_different_numbers(page: Page, disk: str, browser: Browser) -> None:
    other = browser.new_page()
    numbers = [ask(opened(it, disk), "chance")["number"] for it in (page, other)]
    other.close()
    assert numbers[0] != numbers[1]


def missing(site: Path) -> None:
    script_of(site, "snapshot").unlink()


def cut_short(site: Path) -> None:
    script = script_of(site, "snapshot")
    text = script.read_text(encoding="ascii")
    script.write_text(text[: len(text) // 2 // 4 * 4] + '");\n', encoding="ascii")


def foreign(site: Path) -> None:
    """Made for other files, but whole."""
    change_snapshot(site, {"about.json": b'{"madeFor": "wasm.0 code.0"}'})


def nonsense(site: Path) -> None:
    """Made for these files, it says, but holding no memory of Python."""
    change_snapshot(site, {"bytes": bytes(len(snapshot_files(site)["bytes"]))})


def without_header(site: Path) -> None:
    change_snapshot(site, {"header": bytes(144)})


def snapshot_files(site: Path) -> dict[str, bytes]:
    return archives.listed(payload.read_part(site / "assets" / "engine", "snapshot"))


def change_snapshot(site: Path, changes: dict[str, bytes]) -> None:
    """Put another snapshot in the place of the one that the manifest names."""
    payload.exchange_part(site / "assets/engine", "snapshot", archives.file_list(snapshot_files(site) | changes))


@pytest.mark.parametrize("damage", [missing, cut_short, foreign, nonsense, without_header])
def test_without_a_fitting_snapshot_python_starts_the_ordinary_way(
    page: Page, disk: str, toy_site: Path, damage: Callable[[Path], None]
) -> None:
    damage(toy_site)
    opened(page, disk)
    assert ask(page, "feet", m=3.048)["feet"] == pytest.approx(10, rel=1e-12)
    assert not page.evaluate("engine.restored")
    assert ask(page, "late")["hue"] == pytest.approx(1 / 3)


@pytest.mark.parametrize("part", ["packages"])
def test_the_late_library_is_missed_only_by_a_question_that_needs_it(
    page: Page, disk: str, toy_site: Path, part: str
) -> None:
    script_of(toy_site, part).unlink()
    opened(page, disk)
    assert ask(page, "word")["word"] == "plank"
    assert "missing or damaged" in ask(page, "late")["sentence"]


def script_of(site: Path, part: str) -> Path:
    folder = site / "assets" / "engine"
    return folder / f"{payload.read_manifest(folder)[part]['name']}.js"


def remove(site: Path, part: str) -> None:
    folder = site / "assets" / "engine"
    (folder / payload.MANIFEST if part == "manifest" else script_of(site, part)).unlink()
