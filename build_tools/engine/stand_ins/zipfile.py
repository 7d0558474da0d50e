"""Stands for Python's zipfile. Pyodide's package loader names one class; the engine loads no archives."""


class ZipFile:
    """Only a name, for annotations."""
