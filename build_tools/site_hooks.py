"""What the site needs beyond MkDocs and its theme: a content policy, and search that runs from a disk."""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import Environment
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.pages import Page
from mkdocs.utils import get_relative_url

from build_tools import site_builder
from build_tools.content_policy import with_policy
from build_tools.shop_objects import of_page
from build_tools.shop_pictures import thumbnail

# From a disk browsers refuse a worker named by its address, but not one made from a Blob: so the theme's search worker
# travels as text in a script of ours, which the theme loads before its own.
SEARCH_FROM_DISK = """"use strict";
(() => {
  if (location.protocol !== "file:") return;
  const RealWorker = Worker;
  const source = %s;
  window.Worker = function (address, options) {
    const blob = String(address).startsWith("blob:");
    return new RealWorker(blob ? address : URL.createObjectURL(new Blob([source])), options);
  };
})();
"""


def on_config(config: MkDocsConfig) -> MkDocsConfig:
    """Leave out the theme's page for missing addresses: only a server set up for it could show it."""
    config.theme.static_templates.discard("404.html")
    return config


def on_env(env: Environment, **_: Any) -> Environment:
    """Give the title page the shop objects of a page, and their small pictures."""
    env.globals["shop_objects_of"] = of_page
    env.globals["shop_thumbnail"] = thumbnail
    return env


_places: dict[str, str] = {}


def on_page_content(html: str, page: Page, **_: Any) -> str:
    """Note which calculators stand on a page."""
    _places.update(dict.fromkeys(re.findall(r'<calculator-sheet key="([^"]+)"', html), page.url))
    return html


def _leading_on(html: str, page: Page) -> str:
    """The page with every lead's address completed by the page that its calculator stands on.

    All pages have been read by now. Raises PluginError for a calculator that stands on none.
    """

    def address(match: re.Match[str]) -> str:
        if match[2] not in _places:
            raise PluginError(f"A sheet on {page.url} leads to the calculator {match[2]!r}, which stands on no page.")
        place = _places[match[2]]
        return f"{match[1]}{'' if place == page.url else get_relative_url(place, page.url)}#c={match[2]}"

    return re.sub(r'(<a class="lead" href=")#c=([\w-]+)', address, html)


def on_post_page(output: str, page: Page, config: MkDocsConfig, **_: Any) -> str:
    """Complete the leads of the finished page; give it its policy, and the mark of the build that scripts compare."""
    output = _leading_on(output, page)
    mark = f'<meta name="build" content="{_build_mark(config.config_file_path)}">'
    return with_policy(output.replace("</head>", mark + "</head>", 1))


@cache
def _build_mark(config_file: str) -> str:
    return site_builder.state_of_inputs(Path(config_file).parent)[:12]


def on_post_build(config: MkDocsConfig) -> None:
    """Write the script for search from a disk where ``extra.polyfills`` names it, and where each calculator stands."""
    where = json.dumps(dict(sorted(_places.items())), indent=1)
    (Path(config.site_dir) / "assets/calculator-pages.js").write_text(f"window.calculatorPages = {where};\n", "utf-8")
    for sheet in (Path(config.site_dir) / "assets").glob("*.css"):
        sheet.write_text(without_comments(sheet.read_text("utf-8")), "utf-8")
    scripts = Path(config.site_dir) / "assets/javascripts"
    workers = sorted(scripts.glob("workers/search.*.min.js"))
    if len(workers) != 1:
        raise PluginError(f"The theme's search worker was not found where it used to be: {scripts / 'workers'}")
    source = workers[0].read_text("utf-8")
    (scripts / "instead-of-iframe-worker.js").write_text(SEARCH_FROM_DISK % json.dumps(source), "utf-8")


def without_comments(css: str) -> str:
    """A style sheet without comments and without the spaces that are only for whoever changes it.

    What stands between quotes stays as it is. Ours holds no string with the signs of a comment in it.
    """
    parts = re.split(r'("[^"]*")', re.sub(r"/\*.*?\*/", "", css, flags=re.S))
    bare = [part if i % 2 else re.sub(r"\s*([{};,])\s*|(?<=:)\s+|\s+", _closer, part) for i, part in enumerate(parts)]
    return "".join(bare).replace(";}", "}").strip() + "\n"


def _closer(space: re.Match[str]) -> str:
    """What is left of a sign with its spaces, or of spaces: nothing after a colon, else one."""
    before = space.string[: space.start()][-1:]
    return space[1] or ("" if before == ":" else " ")
