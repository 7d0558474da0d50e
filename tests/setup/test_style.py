"""The code keeps its own rules: linted, formatted, typed."""

import subprocess
import sys


def check(root, *command: str) -> None:
    done = subprocess.run([sys.executable, "-m", *command], cwd=root, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


def test_the_linter_has_nothing_to_say(root):
    check(root, "ruff", "check", "--quiet", "--output-format=concise", ".")


def test_the_code_is_formatted(root):
    check(root, "ruff", "format", "--check", "--quiet", ".")


def test_every_type_is_right(root):
    check(root, "mypy")
