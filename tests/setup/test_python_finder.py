"""A Python is found wherever it is, and nothing that pretends to be one stops the search."""

import os
import time
from pathlib import Path

import pytest

from build_tools import python_finder
from build_tools.missing import Missing

SECONDS = 3.0


def environment(*folders: Path, home: Path | None = None, **more: str) -> dict[str, str]:
    return {"PATH": os.pathsep.join(map(str, folders)), "HOME": str(home or folders[0] / "nobody"), **more}


def found(env: dict[str, str]) -> str:
    return python_finder.find(env, seconds=SECONDS).command[0]


@pytest.mark.parametrize(
    "script",
    [
        pytest.param("echo 'pyenv: python3.13: command not found' >&2; exit 127", id="fails"),
        pytest.param("sleep 60", id="hangs"),
        pytest.param("sleep 60 & sleep 60", id="hangs with a child"),
        pytest.param("echo Hello; exit 0", id="prints something else"),
        pytest.param("echo python cpython 2.7 final", id="is too old"),
        pytest.param("echo python cpython 3.99 final", id="is too new"),
        pytest.param("echo python pypy 3.13 final", id="is another Python"),
        pytest.param("echo python cpython 3.13 early", id="is a preview"),
        pytest.param("head -c 3000000 /dev/zero", id="prints rubbish without end"),
        pytest.param("exit 0", id="prints nothing"),
    ],
)
def test_a_shim_that_does_not_answer_as_a_python_is_passed_over(program, tmp_path, real_python, here, script):
    program(tmp_path / "shims" / f"python{here}", script)
    right = program(tmp_path / "bin" / f"python{here}", real_python)
    assert found(environment(tmp_path / "shims", tmp_path / "bin")) == str(right)


def test_a_hanging_shim_costs_no_more_than_its_time(program, tmp_path):
    shim = program(tmp_path / "python3.13", "sleep 60 & sleep 60")
    began = time.monotonic()
    assert python_finder.prove((str(shim),), seconds=0.3) is None
    assert time.monotonic() - began < 30


def test_a_file_that_cannot_be_run_is_passed_over(program, tmp_path, real_python, here):
    broken = program(tmp_path / "broken" / f"python{here}", "")
    broken.write_bytes(b"\x7fELF but not really")
    right = program(tmp_path / "bin" / f"python{here}", real_python)
    assert found(environment(tmp_path / "broken", tmp_path / "bin")) == str(right)


@pytest.mark.parametrize("name", ["python3", "python"])
def test_a_plain_name_serves_when_its_version_fits(program, tmp_path, real_python, name):
    right = program(tmp_path / name, real_python)
    assert found(environment(tmp_path)) == str(right)


def test_every_match_on_path_is_tried_and_not_only_the_first(program, tmp_path, real_python):
    program(tmp_path / "one" / "python3", "echo python cpython 3.11 final")
    program(tmp_path / "two" / "python3", "exit 1")
    right = program(tmp_path / "three" / "python3", real_python)
    assert found(environment(tmp_path / "one", tmp_path / "two", tmp_path / "three")) == str(right)


def test_a_newer_version_is_preferred_wherever_it_is(program, tmp_path):
    program(tmp_path / "bin" / "python3.12", "echo python cpython 3.12 final")
    newer = program(tmp_path / "bin" / "python", "echo python cpython 3.13 final")
    assert found(environment(tmp_path / "bin")) == str(newer)


def test_the_older_version_serves_when_there_is_no_newer_one(program, tmp_path):
    older = program(tmp_path / "bin" / "python3.12", "echo python cpython 3.12 final")
    program(tmp_path / "bin" / "python3.13", "exit 1")
    assert found(environment(tmp_path / "bin")) == str(older)


def test_pyenv_s_folders_are_looked_into(program, tmp_path, real_python, here):
    right = program(tmp_path / ".pyenv" / "versions" / f"{here}.4" / "bin" / f"python{here}", real_python)
    assert found(environment(tmp_path / "empty", home=tmp_path)) == str(right)


def test_pyenv_s_own_root_is_looked_into(program, tmp_path, real_python, here):
    right = program(tmp_path / "elsewhere" / "versions" / f"{here}.4" / "bin" / f"python{here}", real_python)
    assert found(environment(tmp_path / "empty", PYENV_ROOT=str(tmp_path / "elsewhere"))) == str(right)


def test_the_newest_of_pyenv_s_versions_comes_first(program, tmp_path, real_python, here):
    versions = tmp_path / ".pyenv" / "versions"
    program(versions / f"{here}.2" / "bin" / f"python{here}", real_python)
    newest = program(versions / f"{here}.11" / "bin" / f"python{here}", real_python)
    assert found(environment(tmp_path / "empty", home=tmp_path)) == str(newest)


def test_the_windows_launcher_is_asked_for_each_version(program, tmp_path):
    launcher = program(tmp_path / "py.exe", "exit 1")
    commands = list(python_finder.candidates({"PATH": str(tmp_path)}, windows=True))
    assert commands == [(str(launcher), "-3.13"), (str(launcher), "-3.12")]


def test_windows_own_place_for_programs_is_looked_into(program, tmp_path):
    right = program(tmp_path / "Programs" / "Python" / "Python313" / "python.exe", "exit 1")
    commands = list(python_finder.candidates({"PATH": "", "LOCALAPPDATA": str(tmp_path)}, windows=True))
    assert commands == [(str(right),)]


def test_the_running_python_is_asked_first(program, tmp_path):
    first = program(tmp_path / "mine", "echo python cpython 3.13 final")
    program(tmp_path / "bin" / "python3.13", "echo python cpython 3.13 final")
    env = environment(tmp_path / "bin")
    assert python_finder.find(env, first=(str(first),), seconds=SECONDS).command == (str(first),)


def test_a_python_without_venv_gives_way_to_a_whole_one(program, tmp_path):
    program(tmp_path / "bin" / "python3.13", "echo python cpython 3.13 final ensurepip")
    whole = program(tmp_path / "bin" / "python3.12", "echo python cpython 3.12 final")
    assert found(environment(tmp_path / "bin")) == str(whole)


def test_when_the_only_one_lacks_a_part_that_part_is_named(program, tmp_path):
    program(tmp_path / "bin" / "python3.13", "echo python cpython 3.13 final ensurepip")
    with pytest.raises(Missing, match="lacks ensurepip") as missing:
        found(environment(tmp_path / "bin"))
    assert "3.13" in missing.value.mend[0]


def test_when_there_is_none_it_says_what_was_tried_and_what_to_type(program, tmp_path):
    shim = program(tmp_path / "bin" / "python3.13", "exit 1")
    with pytest.raises(Missing) as missing:
        found(environment(tmp_path / "bin"))
    said = str(missing.value)
    assert "No Python 3.13 or 3.12" in said
    assert str(shim) in said
    assert any("install" in command for command in missing.value.mend)
