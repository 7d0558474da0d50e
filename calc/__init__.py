"""The physics and the words of an answer: calculators as data, and one door to them."""

from calc.door import answer, answer_json
from calc.form import describe, example, keys
from calc.lab.plan import LABS
from calc.lab.sheet import describe as describe_record
from calc.lab.sheet import sample as sample_record
from calc.letters import letters
from calc.plan.door import describe as describe_plan
from calc.practice.families import MACHINES, of_machine
from calc.practice.prompts import prompts
from calc.relations import relations

__all__ = [
    "answer",
    "answer_json",
    "describe",
    "describe_plan",
    "describe_record",
    "example",
    "keys",
    "labs",
    "letters",
    "practice_families",
    "practice_machines",
    "prompts",
    "relations",
    "sample_record",
]


def labs() -> tuple[str, ...]:
    """The key of every record sheet."""
    return tuple(LABS)


def practice_machines() -> dict[str, str]:
    """The machines that have practice problems: key and name."""
    return dict(MACHINES)


def practice_families(machine: str) -> list[tuple[str, int, str]]:
    """A machine's US problem families: id, level, text with ``{R}`` for a drawn number."""
    return [(family.id, family.level, family.text) for family in of_machine(machine, "us")]
