"""What a screen reader is told of a page: the browser's accessibility tree."""

from dataclasses import dataclass
from typing import Any

from playwright.sync_api import Page


@dataclass(frozen=True)
class Heard:
    """One thing of the page as it is told: its `id` in the page, if it has one, and what is said of it."""

    id: str
    role: str
    name: str
    description: str
    value: str
    states: dict[str, Any]


def heard(page: Page) -> dict[str, Heard]:
    """All that is told and has an id, by that id; the rest under numbers, in the page's order."""
    devtools = page.context.new_cdp_session(page)
    ids: dict[int, str] = {}

    def walk(node: dict[str, Any]) -> None:
        pairs = node.get("attributes", [])
        ids[node["backendNodeId"]] = dict(zip(pairs[::2], pairs[1::2], strict=True)).get("id", "")
        for child in node.get("children", []):
            walk(child)

    walk(devtools.send("DOM.getDocument", {"depth": -1})["root"])
    nodes = devtools.send("Accessibility.getFullAXTree")["nodes"]
    devtools.detach()
    told = {}
    for at, node in enumerate(nodes):
        if node.get("ignored") or node["role"]["value"] in ("StaticText", "InlineTextBox"):
            continue
        text = {part: str(node.get(part, {}).get("value", "")) for part in ("role", "name", "description", "value")}
        states = {it["name"]: it["value"].get("value") for it in node.get("properties", [])}
        name = ids.get(node.get("backendDOMNodeId", 0), "")
        told[name or str(at)] = Heard(name, states=states, **text)
    return told
