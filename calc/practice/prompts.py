"""Questions to answer in writing: why, not how much. They have no key."""

from __future__ import annotations

from calc.library import table_of


def prompts(machine: str) -> list[str]:
    """The prompts of a machine. Raises KeyError for an unknown one."""
    return list(table_of("practice/prompts.toml")[machine]["prompts"])
