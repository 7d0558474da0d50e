"""The pages of the site, as its navigation lists them."""

from pathlib import Path

from mkdocs.utils import yaml_load

_CONFIG = yaml_load((Path(__file__).parents[2] / "mkdocs.yml").read_text("utf-8"))


def _sources(entries):
    for entry in entries:
        for source in entry.values():
            yield from _sources(source) if isinstance(source, list) else (source,)


PAGES = tuple(source.removesuffix(".md") for source in _sources(_CONFIG["nav"]))
"""Every page's name, the home page's first."""

DOCS = Path(__file__).parents[2] / "docs"
WITH_SHEETS = tuple(name for name in PAGES if "\n/// calculator |" in (DOCS / f"{name}.md").read_text("utf-8"))
"""The pages with calculators on them."""

FURTHER = tuple(name for name in WITH_SHEETS if name.startswith("more-"))
"""The pages that go on from a machine's own."""

_OTHERS = ("measures", "work-and-power", "same-work", "plank")
MACHINES = tuple(name for name in WITH_SHEETS if name not in (*FURTHER, *_OTHERS))
"""The pages about machines, the compound one among them."""
