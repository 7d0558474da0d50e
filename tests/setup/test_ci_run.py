"""What the project's own check does is what a contributor does."""

import os


def test_it_is_the_test_command_and_nothing_else(root):
    lines = (root / ".ci" / "run").read_text().splitlines()
    assert lines == ["#!/usr/bin/env bash", "exec python3 -m build_tools test"]


def test_it_can_be_run(root):
    assert os.access(root / ".ci" / "run", os.X_OK)
