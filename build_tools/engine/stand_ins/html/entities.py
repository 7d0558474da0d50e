"""Stands for Python's html.entities. html takes its table of names for `unescape`, which nothing here calls; without it
that raises TypeError."""

html5 = None
