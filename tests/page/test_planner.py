"""The planner on its page: a plan made as a teacher would, a kit changed and kept as a file, a card on one page."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

import calc
from build_tools.bench.waiting import until
from build_tools.planner_block import EXAMPLE, KIT, planner_html

SHOWN = "Number(document.querySelector('.planner-form').dataset.shown ?? 0)"


@pytest.fixture(scope="module")
def planner(browser: Browser, file_url: str):
    """The page from the disk, alive; its tests share one engine and begin each with the garden's kit."""
    context = browser.new_context(viewport={"width": 1366, "height": 768}, accept_downloads=True)
    page = context.new_page()
    page.goto(file_url + "planner.html")
    until(page, "engine.state === 'ready'")
    until(page, f"{SHOWN} > 0")
    yield page
    context.close()


@pytest.fixture
def afresh(planner: Page) -> Page:
    """The page with its first task and kit again."""
    planner.locator("#plan-job").select_option("raise")
    for symbol, text in EXAMPLE.items():
        planner.locator(f"#plan-{symbol}").fill(text)
    planner.locator("#plan-moves").select_option("thing")
    opened(planner, ".p-kit")
    answered(planner, lambda: planner.locator("[data-act=garden]").click())
    settled(planner)
    return planner


def opened(page: Page, selector: str) -> None:
    page.locator(selector).evaluate("it => { it.open = true; }")


def answered(page: Page, act) -> None:
    """Does something, and waits until the plan that follows from it stands on the page."""
    before = page.evaluate(SHOWN)
    act()
    until(page, f"{SHOWN} > {before}")


def planned(page: Page, task: dict[str, str]) -> None:
    """Asks for a task, and waits until its own plan stands on the page, not one of its first boxes only."""
    if "job" in task:
        page.locator("#plan-job").select_option(task["job"])
    for symbol, text in task.items():
        if symbol != "job":
            page.locator(f"#plan-{symbol}").fill(text)
    settled(page)


def settled(page: Page) -> None:
    """Waits until the plan on the page is that of what stands in its boxes."""
    planner = "document.querySelector('demonstration-planner').planner"
    until(page, f"JSON.stringify({planner}.answered) === JSON.stringify({planner}.request())")


def test_without_scripts_the_page_shows_a_plan_for_the_gardens_kit() -> None:
    html = planner_html()
    kit = calc.answer({"kit_file": KIT.read_text("utf-8")})["kit"]
    for thing in kit["plank"]:
        assert f'value="{thing["name"]}"' in html
    for option in calc.answer({"plan": EXAMPLE, "kit": kit})["options"]:
        assert option["text"]["start"] in html


@pytest.mark.browser
def test_from_a_task_to_a_card_and_on_to_the_calculator(afresh: Page) -> None:
    """The rain barrel: refused without the trestle, planned with it, its card made, its calculator opened."""
    page = afresh
    props = page.locator('.p-kind[data-kind="prop"]')
    answered(page, lambda: props.locator("[data-act=remove]").click())
    row = page.locator(".p-refusals div", has=page.get_by_text("Roll it up a plank", exact=True))
    expect(row).to_contain_text("psi")
    expect(row).to_contain_text("a prop rated for")
    props.locator("[data-act=add]").click()
    props.locator("[name=name]").fill("Sawhorse")
    answered(page, lambda: props.locator("[name=rated]").fill("500 lbf"))
    best = page.locator(".p-table tbody").first
    expect(best).to_contain_text("Roll it up a plank")
    # By hand: 85 lbf on 12 ft by 2 ft with C = 0.05: 85 (24 + 0.05 x 142.0)/144 = 18.36 lbf.
    expect(best).to_contain_text("18.36 lbf")
    best.get_by_role("button", name="Card").click()
    card = page.locator(".p-card")
    expect(card.locator("h2")).to_have_text("Roll it up a plank")
    expect(card).to_contain_text("Sawhorse, under the plank’s middle")
    expect(card.locator("svg")).to_be_visible()
    expect(card).to_contain_text("Stand uphill or beside it, never below.")
    link = best.locator("a.lead").get_attribute("href") or ""
    assert re.match(r"more-ramps\.html#c=cart-ramp&", link)
    page.locator("[data-act=close]").click()
    expect(card).to_be_empty()
    other = page.context.new_page()
    other.goto(page.url.rpartition("/")[0] + "/" + link)
    until(other, "engine.state === 'ready'")
    expect(other.locator('[id="cart-ramp-R"]')).to_have_value("60 lbf")
    expect(other.locator("#cart-ramp-sheet .say")).to_contain_text("17.10 lbf")
    other.close()


@pytest.mark.browser
def test_a_load_goes_along_the_floor_by_two_machines_that_each_open(afresh: Page) -> None:
    """The log: no lift is asked any more, the anchor's rating sideways decides, and both machines are on the card."""
    page = afresh
    planned(page, {"R": "300 lbf", "job": "level", "d": "10 ft"})
    expect(page.locator("#plan-h")).to_be_hidden()
    # By hand: (300 + 25) lbf on wheels with C = 0.05: 16.25 lbf.
    expect(page.locator(".p-table tbody").first).to_contain_text("16.25 lbf")
    row = page.locator(".p-table tbody", has=page.get_by_text("Windlass hauling a cart along", exact=True))
    row.get_by_role("button", name="Card").click()
    card = page.locator(".p-card")
    expect(card.locator("figure svg")).to_have_count(2)
    expect(card).to_contain_text("With what rides along it weighs 325 lbf.")
    expect(card).to_contain_text("Its load stands for the rope’s pull.")
    links = [link.get_attribute("href") or "" for link in row.locator("a.lead").all()]
    assert [re.sub(r"#c=([\w-]+)&.*", r"#\1", link) for link in links] == [
        "more-wheels.html#windlass",
        "more-ramps.html#level-drag",
    ]
    # Without its rating sideways the anchor may not be pulled so, whatever may hang from it.
    answered(page, lambda: page.locator('.p-kind[data-kind="anchor"] [name=side]').last.fill(""))
    refused = page.locator(".p-refusals div", has=page.get_by_text("Tackle hauling a cart along", exact=True))
    expect(refused).to_contain_text("sideways")


@pytest.mark.browser
def test_a_card_that_comes_late_is_not_shown(afresh: Page) -> None:
    """A card asked for, and the task changed before it is there."""
    page = afresh
    answered(
        page,
        lambda: page.evaluate(
            """() => {
              const { planner } = document.querySelector("demonstration-planner");
              window.late = planner.showCard(0);
              const box = document.querySelector("#plan-R");
              box.value = "30 lbf";
              box.dispatchEvent(new Event("input", { bubbles: true }));
            }"""
        ),
    )
    page.evaluate("window.late")
    expect(page.locator(".p-card")).to_be_empty()
    expect(page.locator(".p-card-place")).to_be_hidden()


@pytest.mark.browser
@pytest.mark.parametrize(
    "task",
    [
        {"R": "60 lbf", "h": "24 in"},
        {"R": "36 lbf", "h": "6 in"},
        {"R": "18 lbf", "h": "1 in"},
        {"R": "110 lbf", "job": "level", "d": "10 ft"},
    ],
)
def test_every_card_fits_one_page(afresh: Page, task: dict[str, str]) -> None:
    page = afresh
    planned(page, task)
    page.evaluate(
        "document.documentElement.dataset.print = 'planner';"
        "document.querySelector('demonstration-planner').dataset.printing = ''"
    )
    for at in page.locator(".p-options [data-card]").evaluate_all("all => all.map(it => it.dataset.card)"):
        page.evaluate("at => document.querySelector('demonstration-planner').planner.showCard(Number(at))", at)
        for paper in ("Letter", "A4"):
            pdf = page.pdf(format=paper)
            title = page.locator(".p-card h2").inner_text()
            assert len(re.findall(rb"/Type\s*/Page\b", pdf)) == 1, (title, paper)
    page.evaluate(
        "delete document.documentElement.dataset.print;"
        "delete document.querySelector('demonstration-planner').dataset.printing"
    )


@pytest.mark.browser
def test_a_kit_goes_to_a_file_and_comes_back(afresh: Page, tmp_path: Path) -> None:
    page = afresh
    carts = page.locator('.p-kind[data-kind="cart"]')
    answered(page, lambda: carts.locator("[name=weight]").fill("31 lbf"))
    with page.expect_download() as download:
        page.locator("[data-act=save]").click()
    file = tmp_path / "kit.toml"
    download.value.save_as(file)
    text = file.read_text("utf-8")
    assert 'weight = "31 lbf"' in text
    answered(page, lambda: page.locator("[data-act=empty]").click())
    expect(page.locator(".p-say")).to_contain_text("Nothing in this kit does it.")
    file.write_text(text.replace('length = "12 ft"', 'length = "12 cubits"') + "\n[[piano]]\nold = 1\n", "utf-8")
    answered(page, lambda: page.locator("input[type=file]").set_input_files(file))
    expect(carts.locator("[name=weight]")).to_have_value("31 lbf")
    expect(page.locator(".planner-form > .wait")).to_contain_text(re.compile(r"Line \d+: .*cubits"))
    expect(page.locator(".planner-form > .wait")).to_contain_text("piano")


@pytest.mark.browser
def test_a_bad_box_is_named_and_people_are_never_lifted(afresh: Page) -> None:
    page = afresh
    answered(page, lambda: page.locator("#plan-R").fill("60 in"))
    expect(page.locator("#plan-R-error")).to_be_visible()
    expect(page.locator("#plan-R")).to_have_attribute("aria-invalid", "true")
    page.locator("#plan-R").fill("60 lbf")
    answered(page, lambda: page.locator("#plan-moves").select_option("person"))
    expect(page.locator(".p-say")).to_contain_text("No person is lifted")
    expect(page.locator(".p-table")).to_have_count(0)


@pytest.mark.browser
def test_other_units_keep_the_sizes(afresh: Page) -> None:
    page = afresh
    answered(page, lambda: page.locator("#plan-R").fill("60"))
    answered(page, lambda: page.locator(".planner-form [name=units][value=si]").check())
    expect(page.locator("#plan-R")).to_have_value("60 lbf")
    # 18.36 lbf by hand above is 81.7 N.
    expect(page.locator(".p-table tbody").first).to_contain_text("81.7 N")
    answered(page, lambda: page.locator(".planner-form [name=units][value=us]").check())


@pytest.mark.browser
@pytest.mark.parametrize(("scheme", "width"), [("light", 1366), ("light", 390), ("dark", 1366)])
def test_axe_finds_nothing_on_kit_plan_and_card(afresh: Page, root: Path, scheme: str, width: int) -> None:
    page = afresh
    page.emulate_media(color_scheme=scheme)
    page.set_viewport_size({"width": width, "height": 768})
    opened(page, ".p-options details")
    page.locator("[data-card='0']").click()
    expect(page.locator(".p-card svg")).to_be_visible()
    page.evaluate((root / "node_modules/axe-core/axe.min.js").read_text("utf-8"))
    found = page.evaluate("axe.run().then(result => result.violations.map(it => [it.id, it.nodes.map(n => n.html)]))")
    page.set_viewport_size({"width": 1366, "height": 768})
    assert found == []
