"""Compiles the Python files of one archive, inside Pyodide, for hosts with another Python.

Code here does not know its lines: nobody reads them in a browser, and they were a sixth of it.
"""

import importlib.util
import io
import marshal
import zipfile
from importlib._bootstrap_external import _code_to_hash_pyc  # type: ignore[attr-defined]
from types import CodeType

PYC_HEAD = 16
"""Bytes before the code in a .pyc file."""

NOWHERE, LONGEST = 0xF8, 8
"""An entry of a table of lines (CPython, Objects/locations.md): no place at all, for at most so many units of code."""

UNIT = 2
"""Bytes in a unit of code."""


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
            code = _lineless(compile(source, name, "exec", dont_inherit=True, optimize=level), {})
            digest = importlib.util.source_hash(source)
            new.writestr(name + "c", bytes(_code_to_hash_pyc(code, digest, True)))
    return result.getvalue()


def without_lines(archive: bytes) -> bytes:
    """Return the archive of .pyc files, made by this same version of Python, without the lines in their code."""
    result = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(archive)) as old, zipfile.ZipFile(result, "w") as new:
        for info in old.infolist():
            content = old.read(info)
            if info.filename.endswith(".pyc"):
                code = _lineless(marshal.loads(content[PYC_HEAD:]), {})
                content = content[:PYC_HEAD] + marshal.dumps(code)
            new.writestr(info, content)
    return result.getvalue()


def _lineless(code: CodeType, tables: dict[int, bytes]) -> CodeType:
    """tables: the number of units of code -> a table of lines, so that codes of one length share one."""
    units = len(code.co_code) // UNIT
    consts = tuple(_lineless(it, tables) if isinstance(it, CodeType) else it for it in code.co_consts)
    return code.replace(co_linetable=tables.setdefault(units, _no_lines(units)), co_consts=consts)


def _no_lines(units: int) -> bytes:
    whole, rest = divmod(units, LONGEST)
    return bytes([NOWHERE | LONGEST - 1] * whole + [NOWHERE | rest - 1] * bool(rest))
