"""The physics and the words of an answer: calculators as data, and one door to them."""

from calc.door import answer, answer_json
from calc.form import describe, example, keys

__all__ = ["answer", "answer_json", "describe", "example", "keys"]
