"""The site is built when something changed, and the old one stays until the new one is whole."""

import shutil
import subprocess
from pathlib import Path

import pytest

from build_tools import build_mark, editions, site_builder
from build_tools.commands import serve


@pytest.fixture
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A project whose two pages say what docs/page.md says, and whose build fails on the word "wrong"."""
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs" / "page.md").write_text("first")

    def pack(root: Path, prune: bool) -> None:
        (root / "build" / "engine").mkdir(parents=True, exist_ok=True)
        (root / "build" / "engine" / "code.js").write_text("code")

    def write_pages(root: Path, out: Path, settings: dict[str, str], *, only_newer: bool = False) -> None:
        text = (root / "docs" / "page.md").read_text()
        if text == "wrong":
            raise site_builder.BuildFailed("The page is wrong.")
        out.mkdir(parents=True, exist_ok=True)
        (out / "index.html").write_text(text if settings[editions.SETTING] == "teacher" else f"{text} for the class")
        (out / "page.html").write_text(f'<meta name="build" content="{settings[build_mark.SETTING]}">{text}')

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
    assert listed == {"index.html", "page.html", "assets/engine/code.js"}


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


def test_a_page_that_is_being_written_is_renewed_alone_and_goes_with_the_scripts_that_are_there(project):
    site_builder.build(project)
    written, built = project / "docs" / "page.md", project / "site" / "page.html"
    mark = build_mark.of_page(built.read_text())
    written.write_text("second")
    assert site_builder.renew_pages(project, "teacher", [written])
    assert built.read_text().endswith(">second")
    assert build_mark.of_page(built.read_text()) == mark
    assert page(project) == "first"
    assert site_builder.build(project)  # the rest
    assert page(project) == "second"


def test_what_is_no_page_of_the_site_is_left_to_the_whole_build(project):
    site_builder.build(project)
    (project / "docs" / "new.md").write_text("new")
    assert not site_builder.renew_pages(project, "teacher", [project / "docs" / "new.md"])
    (project / "docs" / "page.md").unlink()
    assert not site_builder.renew_pages(project, "class", [project / "docs" / "page.md"])


@pytest.mark.parametrize(
    ("name", "renewed"), [("docs/page.md", [["docs/page.md"]]), ("docs/look.css", []), ("calc/lever.py", [])]
)
def test_serving_renews_a_changed_page_before_all_else(project, monkeypatch, name, renewed):
    done, before = [], []
    monkeypatch.setattr(serve, "_rebuild", lambda root, edition: done.append("all"))
    monkeypatch.setattr(
        site_builder, "renew_pages", lambda root, edition, sources: before.append(sources) if not done else 1 / 0
    )
    seen = serve.glance(project)
    (project / name).parent.mkdir(exist_ok=True)
    (project / name).write_text("changed")
    serve.rebuild_on_change(project, seen, "teacher")
    assert before == [[project / path for path in paths] for paths in renewed]
    assert done == ["all"]


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
