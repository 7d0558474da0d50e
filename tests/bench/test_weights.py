"""What is weighed, and what is not."""

import os
from importlib import resources
from pathlib import Path

import pytest

from build_tools.bench import tab_memory, weights

PAGE = """<!doctype html><head>
<link rel="stylesheet" href="assets/look.css"><link rel="stylesheet" href="assets/stylesheets/{theme}">
<link rel="icon" href="assets/icon.svg"><script src="assets/sheet.js" defer></script><script>inline</script></head>
"""


@pytest.fixture
def small_site(tmp_path: Path) -> Path:
    """A page of ours that names two files of ours, an icon, and a style sheet that the theme brings."""
    theme = next(resources.files("material").joinpath("templates/assets/stylesheets").iterdir()).name
    files = {
        "index.html": PAGE.format(theme=theme),
        "assets/look.css": "c" * 1000,
        "assets/sheet.js": "s" * 200,
        "assets/icon.svg": "i" * 30000,
        f"assets/stylesheets/{theme}": "t" * 50000,
        "assets/engine/parts.js": "p" * 7,
        "assets/engine/wasm.0123456789ab.js": "w" * 400,
    }
    for name, text in files.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text, encoding="ascii")
    return tmp_path


def test_a_page_is_its_html_and_our_styles_and_scripts(small_site):
    page = small_site / "index.html"
    assert weights.page_weight(page) == page.stat().st_size + 1000 + 200


def test_the_heaviest_page_counts(small_site):
    (small_site / "long.html").write_text("x" * 9999, encoding="ascii")
    assert weights.heaviest_page(small_site) == 9999


def test_the_engine_is_told_part_by_part(small_site):
    assert weights.engine_parts(small_site) == {"code": 0, "parts": 7, "wasm": 400}


def test_the_whole_is_every_byte(small_site):
    page = (small_site / "index.html").stat().st_size
    assert weights.whole(small_site) == page + 1000 + 200 + 30000 + 50000 + 7 + 400


def test_a_process_that_fills_memory_is_seen_to_grow_where_the_system_tells():
    before = tab_memory.private_bytes(os.getpid())
    held = bytearray(b"x") * 80_000_000
    after = tab_memory.private_bytes(os.getpid())
    if Path("/proc/self/status").exists():
        assert after - before > 0.9 * len(held)
    else:
        assert (before, after) == (None, None)
