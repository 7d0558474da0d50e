"""The site is built when something changed, and the old one stays until the new one is whole."""

import shutil
import subprocess
from pathlib import Path

import pytest

from build_tools import editions, site_builder
from build_tools.commands import serve


@pytest.fixture
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A project whose only page says what docs/page.md says, and whose build fails on the word "wrong"."""
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs" / "page.md").write_text("first")

    def pack(root: Path, prune: bool) -> None:
        (root / "build" / "engine").mkdir(parents=True, exist_ok=True)
        (root / "build" / "engine" / "code.js").write_text("code")

    def write_pages(root: Path, out: Path, settings: dict[str, str]) -> None:
        text = (root / "docs" / "page.md").read_text()
        if text == "wrong":
            raise site_builder.BuildFailed("The page is wrong.")
        out.mkdir(parents=True, exist_ok=True)
        (out / "index.html").write_text(text if settings[editions.SETTING] == "teacher" else f"{text} for the class")

    monkeypatch.setattr(site_builder, "_pack_engine", pack)
    monkeypatch.setattr(site_builder, "_run_mkdocs", write_pages)
    monkeypatch.setattr(site_builder, "_put_in_code_drawing", lambda root, new: None)
    return tmp_path


def page(project: Path) -> str:
    return (project / "site" / "index.html").read_text()


def test_pages_and_engine_end_up_in_the_site(project):
    assert site_builder.build(project)
    assert page(project) == "first"
    assert (project / "site" / "assets" / "engine" / "code.js").read_text() == "code"


def test_nothing_is_built_twice(project):
    assert site_builder.build(project)
    assert not site_builder.build(project)


def test_the_editions_lie_apart_and_neither_replaces_the_other(project):
    assert site_builder.build(project, "class")
    assert site_builder.build(project)
    assert (project / "site-class" / "index.html").read_text() == "first for the class"
    assert page(project) == "first"
    assert not site_builder.build(project, "class")


@pytest.mark.skipif(not shutil.which("sha256sum"), reason="GNU coreutils' sha256sum is not on this machine")
def test_a_built_site_lists_the_sum_of_each_of_its_files(project):
    """The sums by GNU coreutils, which read the same list."""
    site_builder.build(project)
    check = ["sha256sum", "--check", "--strict", "--quiet", "checksums.txt"]
    assert subprocess.run(check, cwd=project / "site", check=False).returncode == 0
    listed = {line[66:] for line in (project / "site/checksums.txt").read_text().splitlines()}
    assert listed == {"index.html", "assets/engine/code.js"}


def test_a_changed_page_is_built(project):
    site_builder.build(project)
    (project / "docs" / "page.md").write_text("second")
    assert site_builder.build(project)
    assert page(project) == "second"


def test_a_new_file_and_a_lost_file_are_changes(project):
    site_builder.build(project)
    (project / "docs" / "more.md").write_text("more")
    assert site_builder.build(project)
    (project / "docs" / "more.md").unlink()
    assert site_builder.build(project)


def test_a_damaged_site_is_built_anew(project):
    site_builder.build(project)
    (project / "site" / "assets" / "engine" / "code.js").unlink()
    assert site_builder.build(project)
    assert (project / "site" / "assets" / "engine" / "code.js").exists()


def test_a_build_that_fails_leaves_the_old_site(project):
    site_builder.build(project)
    (project / "docs" / "page.md").write_text("wrong")
    with pytest.raises(site_builder.BuildFailed):
        site_builder.build(project)
    assert page(project) == "first"


def test_after_a_failure_the_next_build_is_not_taken_for_done(project):
    site_builder.build(project)
    (project / "docs" / "page.md").write_text("wrong")
    with pytest.raises(site_builder.BuildFailed):
        site_builder.build(project)
    (project / "docs" / "page.md").write_text("first")
    assert site_builder.build(project)


def test_serving_rebuilds_once_for_each_change(project, monkeypatch, capsys):
    rebuilt = []
    monkeypatch.setattr(serve, "_rebuild", lambda root, edition: rebuilt.append((root, edition)))
    seen = serve.glance(project)
    seen = serve.rebuild_on_change(project, seen, "class")
    assert rebuilt == []
    (project / "docs" / "page.md").write_text("second edition")
    seen = serve.rebuild_on_change(project, seen, "class")
    serve.rebuild_on_change(project, seen, "class")
    assert rebuilt == [(project, "class")]
    assert "page.md" in capsys.readouterr().out
