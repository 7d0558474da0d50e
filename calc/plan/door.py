"""The planner's part of the door: a kit and a task as texts in, the plan in words and one card out; kits as files.

Request: ``plan``: the task's boxes, symbol to text; ``kit``: kind to a list of things, each field to text; ``units``;
``name`` of the load; ``card``: the number of the option whose card is wanted. Or ``kit_file``: the text of a kit
file to be read. Or ``write_kit``: things as in ``kit``, with ``name`` and ``units``, to be written.
"""

from __future__ import annotations

from collections.abc import Mapping
from html import escape
from typing import Any

from calc.plan import words
from calc.plan.card import card, link, materials, stages
from calc.plan.card import request as question
from calc.plan.kit import Item, columns, read_kit
from calc.plan.kit_file import opened, written
from calc.plan.ranking import Option, Plan, Refusal, make_plan
from calc.plan.rig import Bench, Setup
from calc.plan.task import BOXES, CHOICES, DISTANCE, OWN, read_task
from calc.registry import CALCULATORS


def answer(request: Mapping[str, Any]) -> dict[str, Any]:
    """Answer one request. Never raises for a dict of JSON values."""
    if "kit_file" in request:
        found = opened(str(request["kit_file"]))
        return {"name": found.name, "units": found.units, "kit": found.rows, "problems": found.problems}
    system = "si" if request.get("units") == "si" else "us"
    if "write_kit" in request:
        return {"file": written(request["write_kit"], str(request.get("name") or "")[:60], system)}
    kit, problems = read_kit(request.get("kit"), system)
    task, errors = read_task(request.get("plan"), system)
    result: dict[str, Any] = {
        "units": system,
        "problems": [
            {"kind": it.kind, "index": it.index, "field": it.field, "words": it.words, "left_out": it.left_out}
            for it in problems
        ],
        "errors": [{"symbol": at, "start": it.start, "words": it.words, "text": it.text} for at, it in errors.items()],
        "options": [],
        "refusals": [],
        "html": {"say": "", "options": "", "refusals": "", "card": ""},
    }
    if task is None:
        result["html"]["say"] = "<p>Mend the marked box, and the plan comes back.</p>"
        return result
    if said := _never(task.moves, task.under):
        result["html"]["say"] = f'<p class="v-stop"><strong>No.</strong> {said}</p>'
        return result
    bench = Bench(kit, task)
    plan = make_plan(bench)
    result["options"] = [_option(option, bench, system) for option in plan.options]
    result["refusals"] = [_refusal(refusal, bench, system) for refusal in plan.refusals]
    result["html"] |= {
        "say": _say(plan),
        "options": _options_html(plan, result["options"], task.job),
        "refusals": _refusals_html(result["refusals"]),
    }
    chosen = request.get("card")
    if type(chosen) is int and 0 <= chosen < len(plan.options):
        name = str(request.get("name") or "")[:60]
        result["html"]["card"] = card(plan.options[chosen], bench, name, system)
    return result


def describe() -> dict[str, Any]:
    """What the page needs before anything is typed: the task's boxes and choices, and the kinds of things in a kit."""
    return {
        "boxes": [
            {"symbol": symbol, "label": label, "us": us, "si": si, "hint": hint}
            | {"units": dict(zip(("us", "si"), unit.split("|"), strict=True))}
            for symbol, (label, _, us, si, hint, unit) in BOXES.items()
        ],
        "choices": [
            {"symbol": symbol, "label": label, "options": options} for symbol, (label, options) in CHOICES.items()
        ],
        "own": OWN,
        "distance": DISTANCE,
        "kit": columns(),
    }


def _never(moves: str, under: str) -> str:
    """What is refused whatever the kit holds, in words; or nothing."""
    if moves == "person":
        return "No person is lifted, lowered or rolled with these machines. That belongs to licensed persons."
    if under == "people":
        return "Nothing is moved over or beside people. Clear the place first, then plan again."
    return ""


def _option(option: Option, bench: Bench, system: str) -> dict[str, Any]:
    pulls, scale = option.pulls, option.scale
    setup, picked = option.rigged.setup, option.rigged.picked
    calculator, fragment = link(question(option, bench, system))
    parts = [link(stage) for stage in stages(option, bench, system)]
    tight = sorted((check for check in option.rigged.checks), key=lambda check: -check.used)[:2]
    return {
        "way": option.way.key,
        "title": option.way.title,
        "key": list(option.key),
        "made_of": [item.name for _, item in materials(option)],
        "n": setup.n,
        "start": pulls.start,
        "moving": list(pulls.moving),
        "lowering": list(pulls.lowering),
        "path": pulls.path,
        "lift": bench.task.h,
        "way_along": bench.task.d,
        "stays": pulls.stays,
        "scale": scale.name,
        "readable": option.readable,
        "checks": [
            {"code": it.code, "value": it.value, "limit": it.limit, "used": it.used} for it in option.rigged.checks
        ],
        "calculator": calculator,
        "link": fragment,
        "stages": [{"calculator": key, "link": text} for key, text in parts],
        "text": {
            "start": words.size(pulls.start, "force", system),
            "moving": words.forces(pulls.moving, system),
            "lowering": words.forces(pulls.lowering, system),
            "path": words.path(pulls.path, system),
            "share": _share(option),
            "stays": words.LETS_GO[pulls.stays][0],
            "reason": f"Closest limits: {'; '.join(words.kept(check) for check in tight)}.",
            "parts": _made_of(setup, [*setup.parts.values(), *picked.values()], bench.task.job),
        },
    }


def _made_of(setup: Setup, items: list[Item], job: str) -> str:
    names = ", ".join(dict.fromkeys(item.name for item in items if item.kind not in ("rope", "anchor", "prop")))
    tackle = ""
    if n := setup.n:
        along = "along" if job == "level" else "up" if setup.rove == "advantage" else "down"
        tackle = f"; {n} part{'s' if n > 1 else ''} of rope, hauled {along}"
    prop = "; with a prop under the middle" if "prop" in setup.parts else ""
    return f"{names}{tackle}{prop}"


def _share(option: Option) -> str:
    """The readings as a part of the scale's range, from the least moving pull to the start."""
    low, high = (100 * pull / option.scale["capacity"] for pull in (option.pulls.moving[0], option.pulls.start))
    ends = dict.fromkeys((f"{low:.0f}", f"{high:.0f}"))
    return f"{' to '.join(ends)} %"


def _refusal(refusal: Refusal, bench: Bench, system: str) -> dict[str, Any]:
    return {
        "way": refusal.way.key,
        "title": refusal.way.title,
        "code": refusal.check.code,
        "value": refusal.check.value,
        "limit": refusal.check.limit,
        "load": refusal.load,
        "why": words.broken(refusal.check, refusal.rigged.setup, system),
        "mend": words.mended(refusal.mend, refusal.load, bench.task, system),
    }


def _say(plan: Plan) -> str:
    ways = len({option.way.key for option in plan.options})
    if not plan.options:
        return "<p><strong>Nothing in this kit does it.</strong> Each way says what stops it, and what would help.</p>"
    best = plan.options[0]
    count = f"{ways} ways work" if ways > 1 else "One way works"
    small = "" if best.readable else "<p>No way reads in the good part of a scale. A smaller scale would help.</p>"
    order = "Best first: readings in the good part of a scale, then the shortest pull."
    return f"<p><strong>{count}.</strong> {order}</p>{small}"


_HEADS = {
    "raise": ("Way", "To start", "Moving", "Of the scale", "Coming down", "Hand moves", "Let go, it"),
    "level": ("Way", "To start", "Moving", "Of the scale", "Hand moves", "Let go, it"),
}


def _options_html(plan: Plan, options: list[dict[str, Any]], job: str) -> str:
    """The ways that work: the best set-up of each, then how many more of its kind, folded."""
    if not options:
        return ""
    seen: dict[str, list[int]] = {}
    for at, option in enumerate(plan.options):
        seen.setdefault(option.way.key, []).append(at)
    heads = "".join(f'<th scope="col">{head}</th>' for head in _HEADS[job])
    best = "".join(_rows(options[ats[0]], ats[0], job) for ats in seen.values())
    html = _table("Ways that work, best first", heads, best)
    rest = [at for ats in seen.values() for at in ats[1:]]
    if rest:
        more = "".join(_rows(options[at], at, job) for at in sorted(rest)[:_MOST_SHOWN])
        left = f"<p>{len(rest) - _MOST_SHOWN} more are not listed.</p>" if len(rest) > _MOST_SHOWN else ""
        html += (
            f'<details class="level"><summary>More set-ups of the same kinds ({len(rest)})</summary>'
            f"{_table('More set-ups', heads, more)}{left}</details>"
        )
    return html


_MOST_SHOWN = 20
_LOW = " It reads low there: a smaller scale would read better."


def _table(name: str, heads: str, rows: str) -> str:
    return (
        f'<div class="wide" role="region" aria-label="{name}" tabindex="0"><table class="record p-table">'
        f'<caption class="vh">{name}</caption><thead><tr>{heads}</tr></thead>{rows}</table></div>'
    )


def _rows(option: dict[str, Any], at: int, job: str) -> str:
    text = option["text"]
    down = (text["lowering"],) if job == "raise" else ()
    cells = (text["start"], text["moving"], text["share"], *down, text["path"], text["stays"])
    filled = "".join(f'<td data-label="{head}">{cell}</td>' for head, cell in zip(_HEADS[job][1:], cells, strict=True))
    title = escape(option["title"])
    parts = "".join(
        f' <a class="lead" href="#{escape(it["link"])}">{CALCULATORS[it["calculator"]].title}</a>'
        for it in option["stages"]
        if it["link"] != option["link"]
    )
    return (
        f'<tbody><tr><th scope="row">{title}</th>{filled}</tr>'
        f'<tr class="p-why"><td colspan="{len(cells) + 1}">{escape(text["parts"])}.'
        f" Read on: {escape(option['scale'])}.{'' if option['readable'] else _LOW} {text['reason']}"
        f' <a class="lead" href="#{escape(option["link"])}">Open in its calculator</a>{parts}'
        f' <button type="button" class="live" data-card="{at}" aria-label="Card: {title}">Card</button>'
        "</td></tr></tbody>"
    )


def _refusals_html(refusals: list[dict[str, Any]]) -> str:
    if not refusals:
        return ""
    lines = "".join(
        f"<div><dt>{escape(it['title'])}</dt><dd>{escape(it['why'])} {escape(it['mend'])}</dd></div>" for it in refusals
    )
    return f"<dl>{lines}</dl>"
