"""What the site needs beyond MkDocs and its theme: a content policy, and search that runs from a disk."""

from __future__ import annotations

import json
import os
import re
import shutil
from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import Environment
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.files import Files
from mkdocs.structure.pages import Page
from mkdocs.utils import get_relative_url

from build_tools import build_mark, editions, shipped, site_builder
from build_tools.content_policy import with_policy
from build_tools.shop_objects import of_page
from build_tools.shop_pictures import thumbnail

SEARCH_WORKER = Path(__file__).with_name("search_worker.js")
"""Our script before the theme's: the search worker starts when somebody searches, and from a disk too."""

LEFT_OUT = {"404.html", "sitemap.xml"}
"""The theme's templates that make no page here."""

_teachers: set[str] = set()
"""The addresses of the pages for teachers, whether this edition holds them or not."""


def on_config(config: MkDocsConfig) -> MkDocsConfig:
    """Choose the edition's pages; leave out the page for missing addresses, which few servers would show, and the map
    of a site that has no address, which holds nothing but the day of the build."""
    config.theme.static_templates -= LEFT_OUT
    edition = os.environ.get(editions.SETTING, editions.TEACHER)
    pages = editions.for_teachers(Path(config.docs_dir))
    _teachers.update(page.removesuffix(".md") + ".html" for page in pages)
    if edition == editions.CLASS:
        config.nav = editions.without(config.nav or [], pages)
    config.extra["edition"] = edition
    config.extra["version"] = editions.version(Path(config.config_file_path).parent).words
    return config


def on_files(files: Files, config: MkDocsConfig) -> Files:
    """Take the pages for teachers out of the class edition, before anything can lead to one.

    What is no template any more would be copied as it is: that goes too.
    """
    for name in LEFT_OUT:
        if (unfilled := files.get_file_from_path(name)) is not None:
            files.remove(unfilled)
    if config.extra["edition"] == editions.CLASS:
        for page in editions.for_teachers(Path(config.docs_dir)):
            file = files.get_file_from_path(page)
            if file is not None:
                files.remove(file)
    return files


def on_env(env: Environment, **_: Any) -> Environment:
    """Give the title page the shop objects of a page, and their small pictures."""
    env.globals["shop_objects_of"] = of_page
    env.globals["shop_thumbnail"] = thumbnail
    return env


_places: dict[str, str] = {}


def on_page_content(html: str, page: Page, **_: Any) -> str:
    """Note which sheets stand on a page. Raises PluginError where students would be led to a teachers' page."""
    if page.url not in _teachers and (links := editions.links_to(html, page.url, _teachers)):
        raise PluginError(f"{page.url} is for students, and leads to a page for teachers: {', '.join(links)}")
    _places.update(dict.fromkeys(re.findall(r'<(?:calculator|record)-sheet key="([^"]+)"', html), page.url))
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
    output = without_indentation(theme_later(_leading_on(output, page)))
    mark = _mark(Path(config.config_file_path).parent, config.extra["edition"])
    output = build_mark.in_addresses(output, mark)
    return with_policy(output.replace("</head>", f'<meta name="build" content="{mark}"></head>', 1))


_LATER = re.compile(r'<script src="([^"]*assets/later\.js)"')
_THEMES = re.compile(r'<script src="([^"]*assets/javascripts/[^"]+)"></script>')


def theme_later(html: str) -> str:
    """The page with the theme's scripts named in the tag of ours that loads them, if the page has that.

    Raises PluginError if there are not two: ours that stands before the theme's, and the theme's.
    """
    if not _LATER.search(html):
        return html
    themes = _THEMES.findall(html)
    if len(themes) != 2:
        raise PluginError(f"The theme's scripts are not where they used to be: {themes}")
    return _LATER.sub(rf'<script src="\1" data-theme="{" ".join(themes)}"', _THEMES.sub("", html))


_SPACE = re.compile(r"(<(script|style|pre|textarea)\b.*?</\2>)|[ \t]*\n\s*", re.S)


def without_indentation(html: str) -> str:
    """The page without the empty lines and indents of its templates, 3 kB a page. What shows its spaces keeps them."""
    return _SPACE.sub(lambda found: found[1] or "\n", html)


@cache
def _mark(root: Path, edition: str) -> str:
    return os.environ.get(build_mark.SETTING) or build_mark.mark(site_builder.state_of_inputs(root), edition)


def on_post_build(config: MkDocsConfig) -> None:
    """Write the script for search from a disk where ``extra.polyfills`` names it, where each calculator stands, and
    the licences of what others wrote."""
    where = json.dumps(dict(sorted(_places.items())), indent=1)
    (Path(config.site_dir) / "assets/calculator-pages.js").write_text(f"window.calculatorPages = {where};\n", "utf-8")
    for sheet in (Path(config.site_dir) / "assets").glob("*.css"):
        sheet.write_text(without_comments(sheet.read_text("utf-8")), "utf-8")
    leave_out_unused(Path(config.site_dir) / "assets")
    shipped.write_texts(Path(config.site_dir))
    scripts = Path(config.site_dir) / "assets/javascripts"
    workers = sorted(scripts.glob("workers/search.*.min.js"))
    if len(workers) != 1:
        raise PluginError(f"The theme's search worker was not found where it used to be: {scripts / 'workers'}")
    source = json.dumps(workers[0].read_text("utf-8"))
    script = SEARCH_WORKER.read_text("utf-8").replace("SEARCH_SOURCE", source)
    (scripts / "instead-of-iframe-worker.js").write_text(script, "utf-8")


def leave_out_unused(assets: Path) -> None:
    """Take away what the theme brings and no reader ever loads: maps for its makers, and other languages' search."""
    for file in assets.rglob("*.map"):
        file.unlink()
    shutil.rmtree(assets / "javascripts/lunr", ignore_errors=True)


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
