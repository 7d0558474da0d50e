"""Property tests: the same examples on every machine, and no time limit on a single one."""

import json
import os
from pathlib import Path

import pytest
from hypothesis import Phase, settings

settings.register_profile("project", deadline=None, derandomize=True, print_blob=True)
settings.register_profile(
    "mutation", settings.get_profile("project"), max_examples=10, phases=(Phase.explicit, Phase.generate)
)
settings.load_profile("project")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Under mutmut the quickest tests come first, by the durations it noted: most changes are noticed at once."""
    noted = Path("mutmut-stats.json")
    if "MUTANT_UNDER_TEST" in os.environ and noted.exists():
        seconds = json.loads(noted.read_text(encoding="utf-8"))["duration_by_test"]
        items.sort(key=lambda item: float(seconds.get(item.nodeid, 0)))
