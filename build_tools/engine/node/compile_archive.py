"""Runs inside Pyodide: compiles the Python files of one archive, for hosts with another Python."""

import importlib.util
import io
import zipfile
from importlib._bootstrap_external import _code_to_hash_pyc  # type: ignore[attr-defined]


def compiled_archive(content: bytes, level: int) -> bytes:
    """Return the archive with each .py file as .pyc, marked by hash as `py-compile` marks it.

    level: 0, or 2 for code without assertions and docstrings.
    """
    result = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(result, "w") as new:
        for name in old.namelist():
            source = old.read(name)
            if not name.endswith(".py"):
                new.writestr(name, source)
                continue
            code = compile(source, name, "exec", dont_inherit=True, optimize=level)
            digest = importlib.util.source_hash(source)
            new.writestr(name + "c", bytes(_code_to_hash_pyc(code, digest, True)))
    return result.getvalue()
