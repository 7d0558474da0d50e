"""A small site and a folder that stands for a stick."""

from pathlib import Path

import pytest

from build_tools.stick import checksums, copying

TITLE = "Garden & Load"


def listed(site: Path) -> Path:
    """Writes a folder's list of sums, as the site's build does."""
    (site / checksums.NAME).write_text(checksums.written(checksums.of_folder(site)))
    return site


def made(site: Path, **texts: str) -> Path:
    """A built site whose files hold these texts; an underscore in a name stands for a dot."""
    for name, text in texts.items():
        place = site / name.replace("__", "/").replace("_", ".")
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_text(text)
    return listed(site)


@pytest.fixture
def small_site(tmp_path: Path) -> Path:
    return made(
        tmp_path / "small-site",
        index_html="home",
        lever_html="lever",
        key_html="the answers",
        assets__engine__code_0001_js="engine" * 5000,
        assets__look_css="style",
    )


@pytest.fixture
def newer_site(tmp_path: Path) -> Path:
    """A later build, of the edition without keys: one page gone, one changed, the engine under another name."""
    return made(
        tmp_path / "newer-site",
        index_html="home",
        lever_html="lever, newer",
        assets__engine__code_0002_js="another engine" * 5000,
        assets__look_css="style",
    )


@pytest.fixture
def stick(tmp_path: Path) -> Path:
    """A stick that is in use already."""
    folder = tmp_path / "My Stick é"
    (folder / "Photos").mkdir(parents=True)
    (folder / "Photos/garden.jpg").write_text("mine")
    (folder / "notes.txt").write_text("mine")
    return folder


@pytest.fixture
def copied(small_site: Path, stick: Path) -> Path:
    copying.copy(small_site, stick, TITLE)
    return stick
