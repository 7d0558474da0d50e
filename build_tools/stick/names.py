"""Which names a USB stick can hold: one formatted as FAT32 or exFAT, opened under Windows, macOS, Linux or ChromeOS.

Sources: Microsoft, "exFAT file system specification", 7.7.3 (characters that a name may not hold, 255 UTF-16 units);
Microsoft, "Naming Files, Paths, and Namespaces" (device names, a dot or space at the end, 260 characters for a path);
both formats keep the case of a name but find it under any.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable

REFUSED = frozenset('"*/:<>?\\|') | {chr(code) for code in range(0x20)} | {"\x7f"}
DEVICES = frozenset({"CON", "PRN", "AUX", "NUL"} | {f"{port}{n}" for port in ("COM", "LPT") for n in "123456789¹²³"})
LONGEST_NAME = 255
LONGEST_PATH = 200
"""Of the 260 that Windows allows for a path, the rest is left for where the stick or a copy of it may lie."""
LARGEST_FILE = 2**32 - 1
"""In bytes, on FAT32 (Microsoft, "FAT32 file system specification": the size is kept in 32 bits)."""


def problems(paths: Iterable[str]) -> list[str]:
    """In words, each path (with '/' between names) that a stick could not hold, or could not hold beside another."""
    found = []
    seen: dict[str, str] = {}
    for path in paths:
        found += [f"{path}: {reason}" for name in path.split("/") if (reason := _problem(name))]
        if len(path) > LONGEST_PATH:
            found.append(f"{path}: longer than {LONGEST_PATH} characters.")
        for stem in _stems(path):
            same = seen.setdefault(unicodedata.normalize("NFC", stem).casefold(), stem)
            if same != stem:
                found.append(f"{stem}: the same name as {same} but for its letters' case or accents.")
    return list(dict.fromkeys(found))


def _stems(path: str) -> Iterable[str]:
    """The path and the folders on its way: two folders may clash as well as two files."""
    parts = path.split("/")
    return ("/".join(parts[: count + 1]) for count in range(len(parts)))


def _problem(name: str) -> str:
    if bad := sorted(REFUSED & set(name)):
        return f"the character {bad[0]!r} cannot stand in a name."
    if not name or name[-1] in " .":
        return "a name cannot be empty or end in a dot or a space."
    if name.split(".")[0].rstrip(" ").upper() in DEVICES:
        return "Windows keeps this name for a device."
    if len(name.encode("utf-16-le")) // 2 > LONGEST_NAME:
        return f"a name longer than {LONGEST_NAME} characters."
    return ""
