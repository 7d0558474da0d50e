"""Reads and writes WebAssembly files by sections, as the core specification lays them out (chapter 5)."""

from collections.abc import Iterator
from dataclasses import dataclass

MAGIC = b"\0asm\x01\0\0\0"
CUSTOM, TYPES, IMPORTS, FUNCTIONS, GLOBALS, EXPORTS, START, ELEMENTS, CODE, DATA, DATA_COUNT = (
    0, 1, 2, 3, 6, 7, 8, 9, 10, 11, 12,
)  # fmt: skip
FUNCTION, TABLE, MEMORY, GLOBAL, TAG = range(5)
"""What can be imported or exported."""


class WebAssemblyError(ValueError):
    """The file does not look as this project knows it, so nothing may be taken out of it."""


@dataclass(frozen=True)
class Import:
    """One import: where from, and what kind of thing it is."""

    module: str
    name: str
    kind: int


@dataclass(frozen=True)
class Export:
    """One export: its name, the kind and number of what it exports, and all of it as it is written."""

    name: str
    kind: int
    number: int
    text: bytes


def sections(wasm: bytes) -> Iterator[tuple[int, bytes]]:
    """The sections of a WebAssembly file: number and content. Raises WebAssemblyError."""
    if not wasm.startswith(MAGIC):
        raise WebAssemblyError("This is no WebAssembly that is known here.")
    at = len(MAGIC)
    while at < len(wasm):
        size, start = number(wasm, at + 1)
        yield wasm[at], wasm[start : start + size]
        at = start + size


def section(kind: int, body: bytes) -> bytes:
    """Write a section."""
    return bytes([kind]) + written(len(body)) + body


def imports(body: bytes) -> Iterator[Import]:
    """What an import section imports. Raises WebAssemblyError."""
    count, at = number(body, 0)
    for _ in range(count):
        module, at = _name(body, at)
        name, at = _name(body, at)
        yield Import(module, name, body[at])
        at = _after_import(body, at)


def _after_import(body: bytes, at: int) -> int:
    kind, at = body[at], at + 1
    if kind == FUNCTION:
        return number(body, at)[1]
    if kind == GLOBAL:
        return at + 2
    if kind == TAG:
        return number(body, at + 1)[1]
    if kind in (TABLE, MEMORY):
        at += kind == TABLE
        flags, at = body[at], at + 1
        at = number(body, at)[1]
        return number(body, at)[1] if flags & 1 else at
    raise WebAssemblyError(f"The WebAssembly imports something of an unknown kind: {kind}")


def exports(body: bytes) -> Iterator[Export]:
    """What an export section exports."""
    count, at = number(body, 0)
    for _ in range(count):
        start = at
        name, at = _name(body, at)
        kind = body[at]
        found, at = number(body, at + 1)
        yield Export(name, kind, found, body[start:at])


def export(name: str, kind: int, found: int) -> bytes:
    """Write an export."""
    return written(len(name.encode())) + name.encode() + bytes([kind]) + written(found)


def many(items: list[bytes]) -> bytes:
    """Write a list of things: how many, and one after the other."""
    return written(len(items)) + b"".join(items)


def numbers(body: bytes, at: int = 0) -> list[int]:
    """Read a list of unsigned numbers that begins at a place."""
    count, at = number(body, at)
    found = []
    for _ in range(count):
        value, at = number(body, at)
        found.append(value)
    return found


def pieces(body: bytes) -> Iterator[bytes]:
    """Read a list of things each of which begins with its length: the bodies of a code section."""
    count, at = number(body, 0)
    for _ in range(count):
        size, at = number(body, at)
        yield body[at : at + size]
        at += size


def number(body: bytes, at: int) -> tuple[int, int]:
    """Read an unsigned number in LEB128; return it and where it ends."""
    value = shift = 0
    while True:
        byte = body[at]
        at += 1
        value |= (byte & 127) << shift
        if byte < 128:
            return value, at
        shift += 7


def written(value: int) -> bytes:
    """Write an unsigned number in LEB128."""
    found = bytearray()
    while value > 127:
        found.append(value & 127 | 128)
        value >>= 7
    return bytes([*found, value])


def written_signed(value: int) -> bytes:
    """Write a number that is not negative in signed LEB128: the last byte must not look like a negative number's."""
    found = written(value)
    return found[:-1] + bytes([found[-1] | 128, 0]) if found[-1] & 64 else found


def _name(body: bytes, at: int) -> tuple[str, int]:
    size, at = number(body, at)
    return body[at : at + size].decode(), at + size
