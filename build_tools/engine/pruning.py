"""Takes out of Pyodide's two engine files what the engine cannot reach.

Pyodide's WebAssembly exports every function and variable of Python, and its glue offers every function that a compiled
package might ask for, so that packages can be linked to both while they run. The engine has no such package. Each
export costs time at every start: a JavaScript function, a place in the table of functions, a line of the glue; and each
graphics function, a small WebAssembly module of its own. What the glue, Pyodide's script and the WebAssembly's own
imports name stays; so does every function's code, which Python reaches by the table.
"""

import hashlib
import re
import subprocess
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from build_tools.engine.webassembly import (
    ELEMENTS,
    EXPORTS,
    FUNCTION,
    IMPORTS,
    MAGIC,
    WebAssemblyError,
    exports,
    imports,
    many,
    numbers,
    section,
    sections,
)

ADDRESSES = ("GOT.func", "GOT.mem")
"""Modules from which the WebAssembly imports the addresses of functions and variables."""

GRAPHICS = "emscripten_gl"
"""What the names of graphics functions begin with. Nothing in Python calls one; a table holds their addresses."""

SOME_ADDRESS = 1
"""Stands for the address of a graphics function."""

ONE_SEGMENT = bytes([1, 0, 0x23, 2, 0x0B])
"""How an element section begins that fills the table with one run of functions, from its base (the third global) on."""

BEGIN, END = "var wasmExports=await createWasm();", "function applySignatureConversions("
"""What stands before and after the lines of the glue that take up the exports, one statement for each."""

TAKEN_UP = re.compile(
    r'var (?P<name>\w+)=(?:Module\["\w+"\]=)?(?:wasmExports\["(?P<export>\w+)"\]|(?P<address>[\de]+))'
)
OFFERED = re.compile(r"var wasmImports=\{([^{}]*)\};")
"""The functions that the glue offers to the WebAssembly: name:function, or the name alone where both are the same."""

SIGNATURE = re.compile(r'(?<=[;}])([\w$]+)\.sig="\w+";')
WHOLE_TABLE = "functionsInTableMap=new WeakMap;updateTableMap(0,wasmTable.length)"
"""Where the glue looks through the whole table of functions, to find the address of one. It makes a JavaScript function
of each. Only exported functions are ever looked for, so their places do."""

FIRST_PLACE = 1
"""The first function's place in the table, which is its address."""

TABLE = re.compile(r"new WebAssembly\.Table\(\{initial:(\d+),")
"""Where the glue makes the table of functions, with so many places."""

RE_EXPORTED = re.compile(r'Module\["(\w+)"\]=\1;')
DIRECT_EVAL = re.compile(r"(?<![\w.$])eval\(")
WORD = re.compile(r"[\w$]+")
PROPERTY = re.compile(r'(?:\.|\[")([\w$]+)')
SHAKE = Path(__file__).with_name("node") / "shake.mjs"


class PruningError(WebAssemblyError):
    """The glue does not look as this module knows it, so nothing may be taken out of it."""


@dataclass(frozen=True)
class Engine:
    """Pyodide's WebAssembly, whole or the half that the first answers need with the rest, and the script for it."""

    wasm: bytes
    glue: str
    rest: bytes = b""


def pruned(stock: Engine, users: str) -> Engine:
    """Return the engine without what nobody names.

    users: text of the other scripts that call the engine. What the glue no longer needs is still in it; `shaken`
    takes it out. Raises PruningError when the files are not made as expected.
    """
    cut = list(sections(stock.wasm))
    imported = {(it.module, it.name) for it in imports(dict(cut)[IMPORTS])}
    head, taken_up, tail = _parts(stock.glue)
    head = _with_offers(head, imported)
    asked_for = set(PROPERTY.findall(RE_EXPORTED.sub("", head) + tail + users))
    head = RE_EXPORTED.sub(lambda line: line[0] if line[1] in asked_for else "", head)
    named = set(WORD.findall(head)) | set(WORD.findall(tail)) | set(WORD.findall(users))
    needed = {name[1:] for name in named if name.startswith("_")} | named
    needed |= {name for module, name in imported if module in ADDRESSES}
    statements = [text for text in taken_up if _is_needed(text, named, needed)]
    wasm = MAGIC + b"".join(
        section(kind, _with_exports(body, needed) if kind == EXPORTS else body) for kind, body in cut
    )
    head = _with_a_short_search(head, dict(sections(wasm)))
    return Engine(wasm, head + BEGIN + "".join(f"{text};" for text in statements) + tail)


def shaken(glue: str, cache: Path, node: str) -> str:
    """Return the glue without the functions and variables that it never uses.

    cache: folder that keeps results by content. node: the Node command. Raises PruningError.
    """
    # A direct eval could use any name, and only linking a compiled package has one.
    glue = DIRECT_EVAL.sub("globalThis.eval(", glue)
    key = hashlib.sha256(SHAKE.read_bytes() + glue.encode()).hexdigest()[:32]
    place = cache / f"{key}.js"
    if not place.exists():
        cache.mkdir(parents=True, exist_ok=True)
        done = subprocess.run([node, str(SHAKE)], input=glue, capture_output=True, encoding="utf-8", check=False)
        if done.returncode:
            raise PruningError(done.stderr.strip())
        place.write_text(done.stdout, encoding="utf-8")
    return place.read_text(encoding="utf-8")


def _with_offers(head: str, imported: set[tuple[str, str]]) -> str:
    """Offer to the WebAssembly what it imports, and nothing more."""
    graphics = {name for module, name in imported if module == "GOT.func" and name.startswith(GRAPHICS)}
    wanted = {name for _, name in imported} - graphics
    found = OFFERED.findall(head)
    if len(found) != 1:
        raise PruningError("The glue of this Pyodide offers its functions in another way.")
    offers = [offer for offer in found[0].split(",") if offer.partition(":")[0] in wanted]
    used = {offer.rpartition(":")[2] for offer in offers}
    offers += [f"{name}:{SOME_ADDRESS}" for name in sorted(graphics)]
    head = OFFERED.sub(f"var wasmImports={{{','.join(offers)}}};", head)
    return SIGNATURE.sub(lambda line: line[0] if line[1] in used else "", head)


def _with_a_short_search(head: str, parts: Mapping[int, bytes]) -> str:
    if head.count(WHOLE_TABLE) != 1:
        raise PruningError("The glue of this Pyodide looks for functions in another way.")
    exported = {it.number for it in exports(parts[EXPORTS]) if it.kind == FUNCTION}
    places = [
        FIRST_PLACE + at for at, function in enumerate(functions_in_table(parts[ELEMENTS])) if function in exported
    ]
    listed = ",".join(map(str, places))
    return head.replace(
        WHOLE_TABLE, f"functionsInTableMap=new WeakMap;for(var place of[{listed}])updateTableMap(place,1)"
    )


def functions_in_table(body: bytes) -> list[int]:
    """The functions that an element section puts into the table, one after the other. Raises WebAssemblyError."""
    if not body.startswith(ONE_SEGMENT):
        raise WebAssemblyError("This WebAssembly fills its table in another way.")
    return numbers(body, len(ONE_SEGMENT))


def with_places(glue: str, places: int) -> str:
    """Return the glue with a table of functions of so many places. Raises PruningError."""
    found = TABLE.findall(glue)
    if len(found) != 1 or int(found[0]) > places:
        raise PruningError("The glue of this Pyodide makes its table in another way.")
    return TABLE.sub(lambda made: made[0].replace(made[1], str(places)), glue)


def _with_exports(body: bytes, needed: set[str]) -> bytes:
    return many([it.text for it in exports(body) if it.name in needed])


def _parts(glue: str) -> tuple[str, list[str], str]:
    """Cut the glue into what stands before the lines that take up exports, those lines, and the rest."""
    if glue.count(BEGIN) != 1 or glue.count(END) != 1:
        raise PruningError("The glue of this Pyodide takes up its exports in another way.")
    head, _, rest = glue.partition(BEGIN)
    lines, _, tail = rest.partition(END)
    statements = lines.split(";")[:-1]
    for text in statements:
        if not TAKEN_UP.fullmatch(text):
            raise PruningError(f"The glue takes up an export in another way: {text[:100]}")
    return head, statements, END + tail


def _is_needed(statement: str, named: set[str], needed: set[str]) -> bool:
    found = TAKEN_UP.fullmatch(statement)
    assert found
    return found["name"] in named or (found["export"] or "") in needed
