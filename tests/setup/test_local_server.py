"""The folder is served to this machine, and to no other."""

import urllib.error
import urllib.request

import pytest

from build_tools.local_server import serving


def test_a_file_comes_as_it_is(tmp_path):
    (tmp_path / "index.html").write_bytes(b"<p>1 \xc3\x97 2")
    with serving(tmp_path) as address, urllib.request.urlopen(address + "index.html") as answer:
        assert answer.read() == b"<p>1 \xc3\x97 2"
        assert address.startswith("http://127.0.0.1:")


def test_what_is_not_there_is_said_not_to_be(tmp_path):
    with serving(tmp_path) as address, pytest.raises(urllib.error.HTTPError, match="404"):
        urllib.request.urlopen(address + "nothing.html")


def test_a_taken_port_is_an_error(tmp_path):
    with serving(tmp_path) as address:
        port = int(address.rstrip("/").rpartition(":")[2])
        with pytest.raises(OSError, match="in use"), serving(tmp_path, port):
            pass
