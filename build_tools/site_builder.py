"""Builds site/ from everything it is made from, and knows whether that is needed."""

import hashlib
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from build_tools import build_mark, editions, fingerprint
from build_tools.engine import payload
from build_tools.one_at_a_time import one_at_a_time
from build_tools.stick import checksums, names

INPUTS = ("docs", "calc", "shared", "build_tools", "mkdocs.yml", "requirements.txt", "package-lock.json", "VERSION")
"""What the site is made from: folders with all that is in them, and files."""

ENGINE = Path("build/engine")
"""Where the engine is packed, inside the project."""

CODE_DRAWING = "qrcode-generator/dist/qrcode.js"


class BuildFailed(Exception):
    """The site could not be built; what went wrong has been printed."""


def build(root: Path, edition: str = editions.TEACHER, *, prune: bool = True) -> bool:
    """Sees that an edition's folder, site/ or site-class/, is what its inputs say; returns whether that took a build.

    prune: leave out of Pyodide's files what the engine cannot reach; if not, they ship as they are.
    The old site stays as it was until the new one is whole. Raises BuildFailed.
    """
    with one_at_a_time(root / "build" / "site.lock"):
        inputs = (
            state_of_inputs(root) if prune else hashlib.sha256(b"stock" + state_of_inputs(root).encode()).hexdigest()
        )
        site = folder_of(root, edition)
        note = root / "build" / f"{site.name}-built.txt"
        if fingerprint.matches(note, _built(site, inputs)):
            return False
        fingerprint.forget(note)
        new = root / "build" / "new-site"
        _pack_engine(root, prune)
        mark = build_mark.mark(inputs, edition)
        _run_mkdocs(root, new, {editions.SETTING: edition, build_mark.SETTING: mark})
        _put_in_code_drawing(root, new)
        _bare_scripts(new)
        build_mark.in_scripts(new / "assets", mark)
        for file in sorted((root / ENGINE).glob("*.js")):
            (new / "assets" / "engine").mkdir(parents=True, exist_ok=True)
            shutil.copy2(file, new / "assets" / "engine")
        for listed in (new / "assets" / "engine").glob("parts.js"):
            build_mark.in_list_of_parts(listed, mark)
            payload.put_into_page_script(listed.parent, new / "assets" / "engine.js")
        _list_files(new)
        _put_in_place(new, site, root / "build" / "old-site")
        fingerprint.remember(note, _built(site, inputs))
        return True


def renew_pages(root: Path, edition: str, sources: Sequence[Path]) -> bool:
    """Make some pages of an edition that has been built from their sources anew, for whoever is writing them.

    All else stays until the next build: other pages, the search, the list of sums. Returns whether it could be done:
    not for what is no page of the site as it lies there. Raises BuildFailed.
    """
    site = folder_of(root, edition)
    pages = [source.relative_to(root).relative_to("docs").with_suffix(".html") for source in sources]
    if not pages or not all((site / page).exists() for page in pages):
        return False
    with one_at_a_time(root / "build" / "site.lock"):
        draft = root / "build" / "renewed"
        shutil.rmtree(draft, ignore_errors=True)
        shutil.copytree(site, draft)
        mark = build_mark.of_page((site / pages[0]).read_text("utf-8"))
        _run_mkdocs(root, draft, {editions.SETTING: edition, build_mark.SETTING: mark}, only_newer=True)
        for page in pages:
            (draft / page).replace(site / page)
        shutil.rmtree(draft)
    return True


def folder_of(root: Path, edition: str) -> Path:
    """Where an edition is built."""
    return root / editions.FOLDERS[edition]


def state_of_inputs(root: Path) -> str:
    """A digest of every byte that the site is made from."""
    return fingerprint.of(root, input_files(root))


def input_files(root: Path) -> Iterator[Path]:
    """Every file that the site is made from, in a fixed order."""
    for name in INPUTS:
        place = root / name
        if place.is_file():
            yield place
        for file in sorted(place.rglob("*")):
            if file.is_file() and "__pycache__" not in file.parts:
                yield file


def _built(site: Path, inputs: str) -> str:
    """A digest of the inputs and of the site's files as they lie there, so that a damaged site is built anew."""
    digest = hashlib.sha256(inputs.encode())
    for file in sorted(site.rglob("*")):
        about = file.stat()
        if file.is_file():
            digest.update(f"{file.relative_to(site)} {about.st_size} {about.st_mtime_ns}\n".encode())
    return digest.hexdigest()


def _pack_engine(root: Path, prune: bool) -> None:
    from build_tools import engine

    engine.pack(root, root / ENGINE, prune=prune)


def _run_mkdocs(root: Path, out: Path, settings: Mapping[str, str], *, only_newer: bool = False) -> None:
    """only_newer: only the pages whose source is newer than what lies in `out`."""
    how = ["--dirty"] if only_newer else ["--clean", "--strict"]
    command = [sys.executable, "-m", "mkdocs", "build", "--quiet", *how, "--site-dir", str(out)]
    # The theme's notice about its own future is for us, not for someone who builds a site.
    env = {**os.environ, "NO_MKDOCS_2_WARNING": "1", **settings}
    if subprocess.call(command, cwd=root, env=env) != 0:
        raise BuildFailed("mkdocs could not build the pages: see above.")


def _put_in_code_drawing(root: Path, new: Path) -> None:
    """Puts the script that works out QR codes where share.js fetches it, shortened."""
    out = new / "assets" / "qr" / "code.js"
    out.parent.mkdir(parents=True, exist_ok=True)
    packages = root / "node_modules"
    command = ["node", str(packages / "terser/bin/terser"), str(packages / CODE_DRAWING), "-c", "-m", "-o", str(out)]
    if subprocess.call(command) != 0:
        raise BuildFailed(f"{CODE_DRAWING} could not be shortened: see above.")


def _bare_scripts(new: Path) -> None:
    """Takes the comments out of the page scripts: a third of their bytes, and of no use to a reader's browser."""
    scripts = [str(script) for script in sorted((new / "assets").glob("*.js"))]
    if subprocess.call(["node", str(Path(__file__).with_name("bare_scripts.mjs")), *scripts]) != 0:
        raise BuildFailed("The comments could not be taken out of the page scripts: see above.")


def _list_files(site: Path) -> None:
    """Writes the list of sums that a copy of the site is checked against; every name must fit on a stick."""
    sums = checksums.of_folder(site)
    if bad := names.problems([*sums, checksums.NAME]):
        raise BuildFailed("A stick cannot hold these names:\n  " + "\n  ".join(bad))
    (site / checksums.NAME).write_bytes(checksums.written(sums).encode())


def _put_in_place(new: Path, site: Path, old: Path) -> None:
    if old.exists():
        shutil.rmtree(old)
    if site.exists():
        site.rename(old)
    new.rename(site)
    shutil.rmtree(old, ignore_errors=True)
