"""What the site needs beyond MkDocs and its theme: search that runs from a disk, and no page made for a server only."""

from __future__ import annotations

from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError

STAND_IN = "node_modules/iframe-worker/shim/index.js"

# From a disk browsers refuse a worker script named by its address, so search gets a stand-in that runs in a frame.
# The stand-in replaces Worker for everybody; a worker made from a Blob works from a disk and must stay a real one.
BLOBS_STAY_REAL = """const RealWorker = Worker;
{stand_in}
if (Worker !== RealWorker) {{
  const FrameWorker = Worker;
  window.Worker = function (address, options) {{
    return String(address).startsWith("blob:") ? new RealWorker(address, options) : new FrameWorker(address, options);
  }};
}}
"""


def on_config(config: MkDocsConfig) -> MkDocsConfig:
    """Leave out the theme's page for missing addresses: only a server set up for it could show it."""
    config.theme.static_templates.discard("404.html")
    return config


def on_post_build(config: MkDocsConfig) -> None:
    """Put our own copy of the search stand-in where the theme looks for it."""
    source = Path(config.config_file_path).parent / STAND_IN
    if not source.is_file():
        raise PluginError(f"{STAND_IN} is missing. Run: python3 -m build_tools site")
    target = Path(config.site_dir) / "assets/javascripts/iframe-worker.js"
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_text(BLOBS_STAY_REAL.format(stand_in=source.read_text("utf-8")), "utf-8")
