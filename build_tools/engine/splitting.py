"""Splits Pyodide's WebAssembly in two: what the first answers call or could call by name, and what can come later.

Both halves have every function of the whole, under the same number. One whose body lies in the other half only passes
its call on, through a place in the table of functions that is kept for it. Memory, table and stack are imported, and
so the same for both. What a half could not share, the file's own tables and the few variables that change after the
start, is for functions of the first half only.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from build_tools.engine import webassembly as wa
from build_tools.engine.pruning import FIRST_PLACE, functions_in_table

LOCAL_GET, GLOBAL_GET, GLOBAL_SET, TABLE_GET, TABLE_SET = 0x20, 0x23, 0x24, 0x25, 0x26
I32_CONST, F32_CONST, F64_CONST, I32_ADD = 0x41, 0x43, 0x44, 0x6A
CALL, CALL_INDIRECT, BR_TABLE, SELECT_OF_TYPES, END, BEYOND = 0x10, 0x11, 0x0E, 0x1C, 0x0B, 0xFC
I32, FUNCTION_TYPE, CAN_CHANGE = 0x7F, 0x60, 1

NO_NUMBER = frozenset({0x00, 0x01, 0x05, 0x0B, 0x0F, 0x19, 0x1A, 0x1B, 0xD1, *range(0x45, 0xC5)})
"""Instructions that stand alone."""

ONE_NUMBER = frozenset({0x02, 0x03, 0x04, *range(0x06, 0x0A), 0x0C, 0x0D, 0x10, 0x18, *range(0x20, 0x27), 0x3F, 0x40})
"""Instructions with one number: blocks with their type, branches, calls, variables, tables, the memory's size."""

CONSTANTS = frozenset({0x41, 0x42, 0xD0, 0xD2})
LOADS_AND_STORES = frozenset(range(0x28, 0x3F))
NUMBERS_BEYOND = {**dict.fromkeys(range(8), 0), 8: 2, 9: 1, 10: 2, 11: 1, 12: 2, 13: 1, 14: 2, 15: 1, 16: 1, 17: 1}
"""How many numbers follow an instruction of the second set, by its number there."""

OF_TABLES_BEYOND = range(12, 18)


@dataclass(frozen=True)
class Halves:
    """first: what the first answers need. rest: all else. places: how many places the table of functions must have."""

    first: bytes
    rest: bytes
    places: int


class _Whole:
    def __init__(self, wasm: bytes) -> None:
        self.order = [kind for kind, _ in wa.sections(wasm)]
        self.parts = dict(wa.sections(wasm))
        kinds = [it.kind for it in wa.imports(self.parts[wa.IMPORTS])]
        self.imported = kinds.count(wa.FUNCTION)
        self.imported_variables = kinds.count(wa.GLOBAL)
        self.bodies = list(wa.pieces(self.parts[wa.CODE]))
        self.start = wa.number(self.parts[wa.START], 0)[0] - self.imported

    @cached_property
    def parameters(self) -> list[int]:
        """How many parameters a function has, by its type."""
        body, found = self.parts[wa.TYPES], []
        count, at = wa.number(body, 0)
        for _ in range(count):
            if body[at] != FUNCTION_TYPE:
                raise wa.WebAssemblyError("The WebAssembly has a type that is no function's.")
            given, at = wa.number(body, at + 1)
            found.append(given)
            results, at = wa.number(body, at + given)
            at += results
        return found

    def with_parts(self, changed: Mapping[int, bytes | None]) -> bytes:
        """Write the file with other sections in the places of some; None leaves one out."""
        found = ((kind, changed.get(kind, self.parts[kind])) for kind in self.order)
        return wa.MAGIC + b"".join(wa.section(kind, body) for kind, body in found if body is not None)


def watched(wasm: bytes) -> bytes:
    """Return the file in which each function notes its call in a variable of its own.

    The variables are exported as "called" and the function's number, from the first that is not imported on.
    """
    whole = _Whole(wasm)
    count, at = wa.number(whole.parts[wa.GLOBALS], 0)
    exported, first_export = wa.number(whole.parts[wa.EXPORTS], 0)
    first = whole.imported_variables + count
    made = len(whole.bodies)
    bodies = []
    for function, body in enumerate(whole.bodies):
        start = _after_locals(body)
        note = bytes([I32_CONST, 1, GLOBAL_SET]) + wa.written(first + function)
        bodies.append(body[:start] + note + body[start:])
    added = [wa.export(f"called{function}", wa.GLOBAL, first + function) for function in range(made)]
    variables = bytes([I32, CAN_CHANGE, I32_CONST, 0, END]) * made
    return whole.with_parts(
        {
            wa.GLOBALS: wa.written(count + made) + whole.parts[wa.GLOBALS][at:] + variables,
            wa.EXPORTS: wa.written(exported + made) + whole.parts[wa.EXPORTS][first_export:] + b"".join(added),
            wa.CODE: _code(bodies),
        }
    )


def halves(wasm: bytes, called: set[int]) -> Halves:
    """Return the two halves of a file.

    called: the functions for the first half, numbered from the first that is not imported. Raises WebAssemblyError
    when the file is not made as expected.
    """
    whole = _Whole(wasm)
    calls, bound = _studied(whole)
    first = _with_what_they_call(called | bound | {whole.start}, calls)
    order = sorted(range(len(whole.bodies)), key=lambda function: (function not in first, function))
    lowest = FIRST_PLACE + len(functions_in_table(whole.parts[wa.ELEMENTS]))
    place = {function: lowest + at for at, function in enumerate(order)}
    kinds = wa.numbers(whole.parts[wa.FUNCTIONS])
    passing = [_pass_on(kind, whole.parameters[kind], place[at]) for at, kind in enumerate(kinds)]
    in_rest = [passing[at] if at in first else body for at, body in enumerate(whole.bodies)]
    in_rest[whole.start] = _only_variables(whole.bodies[whole.start])
    numbers = [whole.imported + function for function in order]
    return Halves(
        whole.with_parts(
            {
                wa.ELEMENTS: wa.written(2) + whole.parts[wa.ELEMENTS][1:] + _segment(lowest, numbers[: len(first)]),
                wa.CODE: _code([body if at in first else passing[at] for at, body in enumerate(whole.bodies)]),
            }
        ),
        whole.with_parts(
            {
                wa.CUSTOM: None,
                wa.EXPORTS: None,
                wa.ELEMENTS: wa.written(1) + _segment(lowest + len(first), numbers[len(first) :]),
                wa.DATA_COUNT: None,
                wa.CODE: _code(in_rest),
                wa.DATA: None,
            }
        ),
        lowest + len(order),
    )


def _studied(whole: _Whole) -> tuple[list[set[int]], set[int]]:
    """Return which functions each function calls by name, and which are bound to the first half.

    These use one of the file's own tables, or a variable that changes after the start.
    """
    calls: list[set[int]] = []
    uses: dict[int, set[int]] = {}
    changed: set[int] = set()
    bound: set[int] = set()
    for function, body in enumerate(whole.bodies):
        called = set()
        for instruction, found, _ in _instructions(body, _after_locals(body)):
            if instruction == CALL and found >= whole.imported:
                called.add(found - whole.imported)
            elif instruction in (GLOBAL_GET, GLOBAL_SET) and found >= whole.imported_variables:
                uses.setdefault(found, set()).add(function)
                if instruction == GLOBAL_SET and function != whole.start:
                    changed.add(found)
            elif instruction in (TABLE_GET, TABLE_SET) or (instruction == BEYOND and found in OF_TABLES_BEYOND):
                bound.add(function)
        calls.append(called)
    return calls, bound.union(*(uses[variable] for variable in changed))


def _with_what_they_call(functions: set[int], calls: list[set[int]]) -> set[int]:
    """The functions and all that they call by name, directly or not: what an answer meets when something is wrong."""
    found, waiting = set(functions), list(functions)
    while waiting:
        fresh = calls[waiting.pop()] - found
        found |= fresh
        waiting += fresh
    return found


def _only_variables(start: bytes) -> bytes:
    """The body of the start as far as it sets variables, of which each half has its own.

    After that it clears memory, where by the time of the rest much lies.
    """
    known = list(_instructions(start, _after_locals(start)))
    last = max(end for instruction, _, end in known if instruction == GLOBAL_SET)
    if {instruction for instruction, _, end in known if end <= last} - {GLOBAL_GET, GLOBAL_SET, I32_CONST, I32_ADD}:
        raise wa.WebAssemblyError("The WebAssembly starts in another way.")
    return start[:last] + bytes([END])


def _instructions(body: bytes, at: int) -> Iterator[tuple[int, int, int]]:
    """Each instruction of a body: its first number, 0 if it has none that matters here, and where it ends."""
    while at < len(body):
        instruction, at = body[at], at + 1
        found = 0
        if instruction in ONE_NUMBER:
            found, at = wa.number(body, at)
        elif instruction in LOADS_AND_STORES or instruction == CALL_INDIRECT:
            _, at = wa.number(body, at)
            _, at = wa.number(body, at)
        elif instruction in CONSTANTS:
            _, at = wa.number(body, at)
        elif instruction in (F32_CONST, F64_CONST):
            at += 4 if instruction == F32_CONST else 8
        elif instruction == BR_TABLE:
            count, at = wa.number(body, at)
            for _ in range(count + 1):
                _, at = wa.number(body, at)
        elif instruction == SELECT_OF_TYPES:
            count, at = wa.number(body, at)
            at += count
        elif instruction == BEYOND:
            found, at = wa.number(body, at)
            if found not in NUMBERS_BEYOND:
                raise wa.WebAssemblyError(f"The WebAssembly has an unknown instruction: {BEYOND:x} {found}")
            for _ in range(NUMBERS_BEYOND[found]):
                _, at = wa.number(body, at)
        elif instruction not in NO_NUMBER:
            raise wa.WebAssemblyError(f"The WebAssembly has an unknown instruction: {instruction:x}")
        yield instruction, found, at


def _after_locals(body: bytes) -> int:
    groups, at = wa.number(body, 0)
    for _ in range(groups):
        _, at = wa.number(body, at)
        at += 1  # their type
    return at


def _pass_on(kind: int, parameters: int, place: int) -> bytes:
    """A body that calls the function at a place in the table with what it was given."""
    given = b"".join(bytes([LOCAL_GET]) + wa.written(at) for at in range(parameters))
    call = bytes([I32_CONST]) + wa.written_signed(place) + bytes([CALL_INDIRECT]) + wa.written(kind) + bytes([0, END])
    return bytes([0]) + given + call


def _segment(place: int, functions: list[int]) -> bytes:
    head = bytes([0, I32_CONST]) + wa.written_signed(place) + bytes([END])
    return head + wa.many([wa.written(function) for function in functions])


def _code(bodies: list[bytes]) -> bytes:
    return wa.many([wa.written(len(body)) + body for body in bodies])
