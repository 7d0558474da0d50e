"""The house's measure of plain words: sentences of twenty words at most."""

import re

MOST_WORDS = 20


def long_sentences(prose: str) -> list[str]:
    """The sentences that are longer."""
    return [
        sentence for sentence in re.split(r"[.:!?]”?\s", prose.replace("\n", " ")) if len(sentence.split()) > MOST_WORDS
    ]
