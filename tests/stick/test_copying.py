"""A stick is copied whole or mended; nothing of its owner's is lost; trouble is told in plain words."""

from __future__ import annotations

import errno
import filecmp
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from build_tools.stick import copying, opening, record, verifying
from build_tools.stick.trouble import StickTrouble
from tests.stick.conftest import TITLE, listed

SITE = record.FOLDER


def files(folder: Path) -> dict[str, bytes]:
    """Every file below a folder, by another walk than the project's own."""
    return {str(file.relative_to(folder)): file.read_bytes() for file in folder.rglob("*") if file.is_file()}


def holds(stick: Path, site: Path) -> bool:
    """Whether the stick has each file of the site, byte for byte, as Python's own filecmp reads them."""
    names = list(files(site))
    same, different, lost = filecmp.cmpfiles(site, stick / SITE, names, shallow=False)
    return sorted(same) == sorted(names) and not different and not lost


def test_a_copy_holds_every_byte_and_leaves_the_owners_files_alone(small_site: Path, copied: Path) -> None:
    assert holds(copied, small_site)
    assert (copied / "notes.txt").read_text() == (copied / "Photos/garden.jpg").read_text() == "mine"
    others = set(files(copied)) - {f"{SITE}/{name}" for name in files(small_site)}
    assert others == {"notes.txt", "Photos/garden.jpg", opening.NAME, f"{SITE}/{record.NAME}"}
    assert verifying.verify(copied).well


def test_the_page_in_the_root_leads_into_the_copy(copied: Path) -> None:
    page = (copied / "open me.html").read_text()
    assert page.count(f'href="{SITE}/index.html"') == 1
    assert "Garden &amp; Load" in page
    assert "http:" not in page


@pytest.mark.skipif(not shutil.which("sha256sum"), reason="GNU coreutils' sha256sum is not on this machine")
def test_the_sticks_list_is_read_by_others_too(copied: Path) -> None:
    """GNU coreutils' sha256sum, an implementation of FIPS 180-4 that is not ours."""
    check = ["sha256sum", "--check", "--quiet", f"{SITE}/{record.NAME}"]
    assert subprocess.run(check, cwd=copied, check=False).returncode == 0


def test_a_second_copy_writes_nothing_that_is_there(small_site: Path, copied: Path) -> None:
    done = copying.copy(small_site, copied, TITLE)
    assert done.copied == done.removed == done.kept == []
    assert len(done.there) == len(files(small_site)) + 1


def test_a_newer_copy_takes_away_what_is_out_of_date_and_nothing_else(newer_site: Path, copied: Path) -> None:
    (copied / SITE / "my own page.html").write_text("mine")
    done = copying.copy(newer_site, copied, TITLE)
    assert holds(copied, newer_site)
    assert sorted(done.removed) == [f"{SITE}/assets/engine/code.0001.js", f"{SITE}/key.html"]
    assert (copied / SITE / "my own page.html").read_text() == "mine"
    assert verifying.verify(copied).others == (f"{SITE}/my own page.html",)


def test_a_page_that_somebody_changed_is_left_and_named(newer_site: Path, copied: Path) -> None:
    (copied / SITE / "key.html").write_text("my notes on the answers")
    done = copying.copy(newer_site, copied, TITLE)
    assert done.left == [f"{SITE}/key.html"]
    assert (copied / SITE / "key.html").read_text() == "my notes on the answers"


def test_a_file_of_the_owners_in_the_way_gets_another_name(small_site: Path, stick: Path) -> None:
    (stick / "open me.html").write_text("mine")
    (stick / SITE).mkdir()
    (stick / SITE / "lever.html").write_text("mine too")
    done = copying.copy(small_site, stick, TITLE)
    assert sorted(done.kept) == [f"{SITE}/lever (yours).html", "open me (yours).html"]
    assert [(stick / path).read_text() for path in sorted(done.kept)] == ["mine too", "mine"]
    assert holds(stick, small_site)


def test_a_copy_made_by_hand_is_brought_up_to_date(small_site: Path, newer_site: Path, stick: Path) -> None:
    shutil.copytree(small_site, stick / SITE)
    done = copying.copy(newer_site, stick, TITLE)
    assert holds(stick, newer_site)
    assert done.kept == []
    assert not (stick / SITE / "key.html").exists()


# -- interrupted, damaged ----------------------------------------------------------------------------

CHILD = """
import sys
from pathlib import Path
from build_tools.stick import copying
count = 0
def say(path):
    global count
    count += 1
    if count == int(sys.argv[3]):
        print("here", flush=True)
        sys.stdin.readline()
copying.copy(Path(sys.argv[1]), Path(sys.argv[2]), "Garden & Load", say)
"""


def killed(root: Path, site: Path, stick: Path, at: int) -> None:
    """Copies in a process of its own and kills it before it writes the file number ``at``."""
    command = [sys.executable, "-c", CHILD, str(site), str(stick), str(at)]
    with subprocess.Popen(command, cwd=root, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as child:
        assert child.stdout
        assert child.stdout.readline() == "here\n"
        child.kill()
        child.wait()


@pytest.mark.parametrize("at", [1, 3, 5])
def test_a_copy_that_was_killed_is_seen_and_mended(root: Path, small_site: Path, stick: Path, at: int) -> None:
    killed(root, small_site, stick, at)
    found = verifying.verify(stick)
    assert found.interrupted
    assert not found.well
    (stick / SITE / "coming.part").write_text("half a fi")  # as a pull in the middle of a file leaves it
    done = copying.copy(small_site, stick, TITLE)
    assert len(done.there) == at - 1  # what was whole is not copied again
    assert done.kept == []
    assert holds(stick, small_site)
    assert not (stick / SITE / "coming.part").exists()
    assert verifying.verify(stick).well


def test_two_interrupted_copies_of_two_versions_leave_no_key_behind(
    root: Path, small_site: Path, newer_site: Path, stick: Path, tmp_path: Path
) -> None:
    """A teacher edition pulled out half-way, a second version pulled out half-way, then the class edition."""
    second = shutil.copytree(small_site, tmp_path / "second-site")
    (second / "second-key.html").write_text("more answers")
    killed(root, small_site, stick, 6)
    killed(root, listed(second), stick, 4)
    assert (stick / SITE / "key.html").exists()
    copying.copy(newer_site, stick, TITLE)
    wanted = {f"{SITE}/{name}" for name in files(newer_site)} | {opening.NAME, f"{SITE}/{record.NAME}"}
    assert set(files(stick)) - {"notes.txt", "Photos/garden.jpg"} == wanted


@pytest.mark.parametrize("path", [f"{SITE}/assets/engine/code.0001.js", f"{SITE}/checksums.txt", "open me.html"])
def test_a_damaged_byte_is_named_and_mended(small_site: Path, copied: Path, path: str) -> None:
    data = bytearray((copied / path).read_bytes())
    data[len(data) // 2] ^= 1
    (copied / path).write_bytes(data)
    assert verifying.verify(copied).damaged == (path,)
    assert copying.copy(small_site, copied, TITLE).copied == [path]
    assert verifying.verify(copied).well


def test_a_damaged_list_is_named_and_mended_wherever_the_byte_is(small_site: Path, copied: Path) -> None:
    whole = (copied / SITE / record.NAME).read_bytes()
    for at in range(0, len(whole), 7):
        (copied / SITE / record.NAME).write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
        found = verifying.verify(copied)
        assert f"{SITE}/{record.NAME}" in found.damaged
        copying.copy(small_site, copied, TITLE)
        assert (copied / SITE / record.NAME).read_bytes() == whole
    assert holds(copied, small_site)
    assert "yours" not in " ".join(files(copied))


def test_a_missing_file_is_named_and_mended(small_site: Path, copied: Path) -> None:
    (copied / SITE / "lever.html").unlink()
    assert verifying.verify(copied).missing == (f"{SITE}/lever.html",)
    copying.copy(small_site, copied, TITLE)
    assert verifying.verify(copied).well


def test_a_folder_of_a_server_is_verified_too(small_site: Path) -> None:
    assert verifying.verify(small_site).well
    (small_site / "lever.html").write_text("levers")
    assert verifying.verify(small_site).damaged == ("lever.html",)


def test_a_folder_without_a_copy_is_told_as_such(stick: Path) -> None:
    with pytest.raises(StickTrouble, match="No copy of the site lies in"):
        verifying.verify(stick)
    with pytest.raises(StickTrouble, match="Plug the stick in"):
        verifying.verify(stick / "nowhere")


# -- trouble with the stick --------------------------------------------------------------------------

SMALL_FILES = """
import resource, sys
from pathlib import Path
from build_tools.stick import copying
from build_tools.stick.trouble import StickTrouble
resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000))
try:
    copying.copy(Path(sys.argv[1]), Path(sys.argv[2]), "Garden & Load")
except StickTrouble as trouble:
    print(trouble)
"""


@pytest.mark.skipif(os.name == "nt", reason="Windows has no limit to the size of a process's files")
def test_a_stick_that_fills_up_on_the_way_is_told_and_mended(root: Path, small_site: Path, stick: Path) -> None:
    """The system itself refuses to write more than 20 000 bytes to a file: the engine has 30 000."""
    command = [sys.executable, "-c", SMALL_FILES, str(small_site), str(stick)]
    said = subprocess.run(command, cwd=root, capture_output=True, text=True, check=True).stdout
    assert "is full" in said
    assert "Make room on it" in said
    assert "Traceback" not in said
    assert (stick / "notes.txt").read_text() == "mine"
    assert not (stick / SITE / "coming.part").exists()
    copying.copy(small_site, stick, TITLE)
    assert holds(stick, small_site)


TWO_MB = 2 << 20


def may_mount() -> bool:
    """Whether this process may mount a file system: root on Linux, unless its container forbids it."""
    with tempfile.TemporaryDirectory() as place:
        if not shutil.which("mount") or subprocess.run(mount_at(place), capture_output=True, check=False).returncode:
            return False
        subprocess.run(["umount", place], check=True)
    return True


def mount_at(place: str) -> list[str]:
    return ["mount", "-t", "tmpfs", "-o", f"size={TWO_MB}", "tmpfs", place]


@dataclass
class TinyDisk:
    """A stick of 2 MB, and what makes it read-only."""

    place: Path
    make_read_only: Callable[[], object]


@pytest.fixture(params=["told", "mounted"] if may_mount() else ["told"])
def tiny_disk(request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[TinyDisk]:
    """A folder that the system is made to speak of as such a stick; and a real one, where this process may mount it."""
    place = tmp_path / "tiny"
    place.mkdir()
    if request.param == "mounted":
        subprocess.run(mount_at(str(place)), check=True)
        yield TinyDisk(place, lambda: subprocess.run(["mount", "-o", "remount,ro", str(place)], check=True))
        subprocess.run(["umount", str(place)], check=True)
        return

    def refuse(*_: object) -> None:
        raise OSError(errno.EROFS, os.strerror(errno.EROFS))

    usage = type(shutil.disk_usage(place))(TWO_MB, 0, TWO_MB)
    monkeypatch.setattr(shutil, "disk_usage", lambda _: usage)
    yield TinyDisk(place, lambda: monkeypatch.setattr(os, "mkdir", refuse))


def test_a_stick_too_small_is_told_before_anything_is_written(small_site: Path, tiny_disk: TinyDisk) -> None:
    (small_site / "assets/engine/code.0001.js").write_text("x" * 3_000_000)
    with pytest.raises(
        StickTrouble, match=r"is full: the copy needs 4\.0 MB and 2\.1 MB are free\. Nothing was copied"
    ):
        copying.copy(listed(small_site), tiny_disk.place, TITLE)
    assert list(tiny_disk.place.iterdir()) == []


def test_a_read_only_stick_is_told_as_such(small_site: Path, tiny_disk: TinyDisk) -> None:
    tiny_disk.make_read_only()
    with pytest.raises(StickTrouble, match=r"it is read-only.* Look for a small switch on the stick"):
        copying.copy(small_site, tiny_disk.place, TITLE)


@pytest.mark.parametrize(
    ("name", "words"),
    [("EROFS", "read-only"), ("EACCES", "read-only"), ("ENOSPC", "is full"), ("EIO", "cannot be used")],
)
def test_what_the_system_says_is_told_in_plain_words(
    small_site: Path, stick: Path, monkeypatch: pytest.MonkeyPatch, name: str, words: str
) -> None:
    def refuse(_: int) -> None:
        raise OSError(getattr(errno, name), os.strerror(getattr(errno, name)))

    monkeypatch.setattr(os, "fsync", refuse)
    with pytest.raises(StickTrouble, match=words):
        copying.copy(small_site, stick, TITLE)


def test_a_stick_pulled_out_on_the_way_is_told_as_such(small_site: Path, stick: Path) -> None:
    with pytest.raises(StickTrouble, match=r"is gone.* Plug it in again"):
        copying.copy(small_site, stick, TITLE, lambda _: shutil.rmtree(stick) if stick.exists() else None)


@pytest.mark.parametrize("link", [SITE, f"{SITE}/assets", f"{SITE}/lever.html", f"{SITE}/coming.part", "open me.html"])
def test_no_link_leads_the_copy_out_of_the_folder(small_site: Path, stick: Path, tmp_path: Path, link: str) -> None:
    outside = tmp_path / "outside"
    outside.mkdir()
    (outside / "look.css").write_text("not on the stick")
    (stick / link).parent.mkdir(exist_ok=True)
    (stick / link).symlink_to(outside if "." not in link else outside / "look.css")
    with pytest.raises(StickTrouble, match="is a link to another place"):
        copying.copy(small_site, stick, TITLE)
    assert files(outside) == {"look.css": b"not on the stick"}


def test_a_list_that_names_a_place_outside_removes_nothing_there(
    newer_site: Path, copied: Path, tmp_path: Path
) -> None:
    victim = tmp_path / "victim.txt"
    victim.write_text("answers")
    digest = record.checksums.of(victim)
    lines = (*record.read(copied).lines, (f"{SITE}/../../victim.txt", digest), (str(victim), digest))
    (copied / SITE / record.NAME).write_bytes(record.text(lines, whole=True))
    copying.copy(newer_site, copied, TITLE)
    assert victim.exists()


def test_the_project_itself_is_no_stick(small_site: Path) -> None:
    for folder in (small_site, small_site / "assets", small_site.parent):
        with pytest.raises(StickTrouble, match="belongs to the project itself"):
            copying.copy(small_site, folder, TITLE)


def test_a_site_that_was_damaged_after_the_build_is_not_copied(small_site: Path, stick: Path) -> None:
    (small_site / "lever.html").write_text("LEVER")
    with pytest.raises(StickTrouble, match="has changed since the site was built"):
        copying.copy(small_site, stick, TITLE)
