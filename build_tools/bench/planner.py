"""The planner's answer for a large kit, timed where a reader waits: in the page, from question to answer.

The kit is the one that the page opens with, its things taken again and again under other names.
"""

from playwright.sync_api import Page

from build_tools.bench.waiting import until

PAGE = "planner.html"
THINGS = 60
TIMES = 7
"""The first answer also opens the planner's modules, so it is asked once before."""
_ASK = """async ([things, times]) => {
  const request = document.querySelector("demonstration-planner").planner.request();
  const owned = Object.entries(request.kit).flatMap(([kind, rows]) => rows.map((row) => [kind, row]));
  request.kit = {};
  for (let at = 0; at < things; at += 1) {
    const [kind, row] = owned[at % owned.length];
    (request.kit[kind] ??= []).push({ ...row, name: `${row.name} ${at}` });
  }
  const seconds = [];
  for (let at = 0; at <= times; at += 1) {
    const began = performance.now();
    const answer = await engine.ask("bench", request);
    if (!answer?.options?.length) throw new Error("the planner found nothing to plan");
    seconds.push(performance.now() - began);
  }
  return seconds.slice(1);
}"""


def answers(page: Page, address: str) -> list[float]:
    """Open the planner; the times of its answers (ms)."""
    page.goto(address + PAGE)
    until(page, "engine.state === 'ready'", 120_000)
    until(page, "document.querySelector('demonstration-planner').planner")
    return [float(time) for time in page.evaluate(_ASK, [THINGS, TIMES])]
