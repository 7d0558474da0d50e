"""The site is built when something changed, and the old one stays until the new one is whole."""

from pathlib import Path

import pytest

from build_tools import site_builder
from build_tools.commands import serve


@pytest.fixture
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A project whose only page says what docs/page.md says, and whose build fails on the word "wrong"."""
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs" / "page.md").write_text("first")

    def pack(root: Path) -> None:
        (root / "build" / "engine").mkdir(parents=True, exist_ok=True)
        (root / "build" / "engine" / "code.js").write_text("code")

    def write_pages(root: Path, out: Path) -> None:
        text = (root / "docs" / "page.md").read_text()
        if text == "wrong":
            raise site_builder.BuildFailed("The page is wrong.")
        out.mkdir(parents=True, exist_ok=True)
        (out / "index.html").write_text(text)

    monkeypatch.setattr(site_builder, "_pack_engine", pack)
    monkeypatch.setattr(site_builder, "_run_mkdocs", write_pages)
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
    monkeypatch.setattr(serve, "_rebuild", rebuilt.append)
    seen = serve.glance(project)
    seen = serve.rebuild_on_change(project, seen)
    assert rebuilt == []
    (project / "docs" / "page.md").write_text("second edition")
    seen = serve.rebuild_on_change(project, seen)
    serve.rebuild_on_change(project, seen)
    assert rebuilt == [project]
    assert "page.md" in capsys.readouterr().out
