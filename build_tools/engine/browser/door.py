"""The one door between the worker and calc: a question as JSON text in, its answer as JSON text out."""

import calc


def answer(question: str) -> str:
    """Return calc's answer to the question, both JSON text."""
    words: str = calc.answer_json(question)
    return words
