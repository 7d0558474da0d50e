"""Archives with the same bytes for the same content: wheels, stored zips, and plain file lists."""

import base64
import hashlib
import io
import json
import zipfile
from collections.abc import Mapping

from build_tools.engine.contents import Bundle

FIXED_DATE = (1980, 1, 1, 0, 0, 0)


def stored_zip(files: Mapping[str, bytes]) -> bytes:
    """Return an uncompressed zip: the script file around it is compressed, so Python need not unpack."""
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_STORED) as archive:
        for name in sorted(files):
            archive.writestr(zipfile.ZipInfo(name, FIXED_DATE), files[name])
    return buffer.getvalue()


def unzipped(content: bytes) -> dict[str, bytes]:
    """Return the files of a zip or wheel, path -> content, without its folder entries."""
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        return {name: archive.read(name) for name in archive.namelist() if not name.endswith("/")}


def wheel_name(bundle: Bundle) -> str:
    """Return the file name of the bundle's wheel."""
    return f"{bundle.name.lower().replace('-', '_')}-{bundle.version}-py3-none-any.whl"


def wheel(bundle: Bundle) -> bytes:
    """Return the bundle as a pure-Python wheel, with the record that installers expect."""
    info = f"{bundle.name.lower().replace('-', '_')}-{bundle.version}.dist-info"
    files = {f"{info}/METADATA": (f"Metadata-Version: 2.1\nName: {bundle.name}\nVersion: {bundle.version}\n").encode()}
    files |= bundle.files
    files[f"{info}/WHEEL"] = b"Wheel-Version: 1.0\nRoot-Is-Purelib: true\nTag: py3-none-any\n"
    record = "".join(
        f"{name},sha256={_urlsafe_digest(content)},{len(content)}\n" for name, content in sorted(files.items())
    )
    files[f"{info}/RECORD"] = (record + f"{info}/RECORD,,\n").encode()
    return stored_zip(files)


def file_list(files: Mapping[str, bytes]) -> bytes:
    """Return the files as one run of bytes that the worker can take apart without Python.

    Four bytes (little-endian) give the length of a JSON list of [path, length]; the contents follow.
    """
    names = sorted(files)
    head = json.dumps([[name, len(files[name])] for name in names], separators=(",", ":")).encode()
    return b"".join([len(head).to_bytes(4, "little"), head, *(files[name] for name in names)])


def listed(content: bytes) -> dict[str, bytes]:
    """Return the files in a file list, path -> content."""
    start = 4 + int.from_bytes(content[:4], "little")
    files, at = {}, start
    for name, length in json.loads(content[4:start]):
        files[name] = content[at : at + length]
        at += length
    return files


def _urlsafe_digest(content: bytes) -> str:
    return base64.urlsafe_b64encode(hashlib.sha256(content).digest()).rstrip(b"=").decode()
