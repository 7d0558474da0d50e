"""Packages are installed once, again when a lock file changes, and again after an install that broke off."""

from pathlib import Path

import pytest

from build_tools import environment
from build_tools.missing import Missing
from build_tools.python_finder import Python


@pytest.fixture
def project(tmp_path: Path) -> Path:
    (tmp_path / ".venv").mkdir()
    (tmp_path / "requirements.txt").write_text("one==1 \\\n    --hash=sha256:0\n")
    return tmp_path


@pytest.fixture
def python(project, program) -> Python:
    return Python((str(program(project / "pip", f'echo "$@ ${{PIP_TARGET-}}" >> {project}/calls')),), "3.13", ())


def install(project: Path, python: Python) -> int:
    environment._install(project, python, "requirements.txt")
    return len((project / "calls").read_text().splitlines())


def test_a_second_run_installs_nothing(project, python):
    assert install(project, python) == 1
    assert install(project, python) == 1


def test_hashes_are_always_required(project, python):
    install(project, python)
    assert "--require-hashes" in (project / "calls").read_text()


def test_a_changed_lock_file_is_installed(project, python):
    install(project, python)
    (project / "requirements.txt").write_text("one==2 \\\n    --hash=sha256:1\n")
    assert install(project, python) == 2


def test_another_python_has_its_packages_installed(project, python):
    install(project, python)
    assert install(project, Python(python.command, "3.12", ())) == 2


def test_an_install_that_broke_off_is_done_again(project, python, program):
    install(project, python)
    (project / "requirements.txt").write_text("one==2 \\\n    --hash=sha256:1\n")
    failing = Python((str(program(project / "failing", "exit 1")),), "3.13", ())
    with pytest.raises(Missing, match=r"requirements\.txt"):
        install(project, failing)
    assert install(project, python) == 2


def test_it_is_done_again_even_when_the_old_lock_file_returns(project, python, program):
    before = (project / "requirements.txt").read_text()
    install(project, python)
    (project / "requirements.txt").write_text("one==2 \\\n    --hash=sha256:1\n")
    failing = Python((str(program(project / "failing", "exit 1")),), "3.13", ())
    with pytest.raises(Missing):
        install(project, failing)
    (project / "requirements.txt").write_text(before)
    assert install(project, python) == 2


def test_a_setting_that_would_install_elsewhere_is_left_out(project, python, monkeypatch):
    monkeypatch.setenv("PIP_TARGET", "elsewhere")
    install(project, python)
    assert "elsewhere" not in (project / "calls").read_text()


def test_what_is_missing_is_said_with_the_command_that_mends_it():
    said = str(Missing("The oil can is empty.", ["fill the can"]))
    assert said == "The oil can is empty.\nThis mends it:\n    fill the can"
