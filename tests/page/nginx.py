"""A real nginx in front of a folder, from the system's packages, for as long as a test needs it."""

from __future__ import annotations

import getpass
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from build_tools.missing import Missing
from build_tools.one_at_a_time import one_at_a_time

CONFIGURATION = """
daemon off; master_process on; worker_processes 2; pid {work}/nginx.pid; error_log {work}/error.log; {user}
events {{ worker_connections 1024; }}
http {{
  include {types};
  access_log off; client_body_temp_path {work}/b; proxy_temp_path {work}/p; fastcgi_temp_path {work}/f;
  uwsgi_temp_path {work}/u; scgi_temp_path {work}/s;
  server {{
    listen 127.0.0.1:{port};
    {location}
  }}
}}
"""


def program(root: Path) -> str:
    """nginx of this machine, or of the system's packages unpacked into build/: nothing is installed for it.

    Raises Missing where there is neither: these tests are not left out.
    """
    if found := shutil.which("nginx"):
        return found
    place = root / "build" / "nginx"
    unpacked = place / "usr/sbin/nginx"
    with one_at_a_time(root / "build" / "nginx.lock"):
        if not unpacked.exists() and shutil.which("apt-get") and shutil.which("dpkg-deb"):
            place.mkdir(parents=True, exist_ok=True)
            subprocess.run(["apt-get", "update", "-qq"], capture_output=True, check=False)  # a bare machine has no list
            wanted = ["nginx", "nginx-common"]  # the program; its settings, the list of media types among them
            subprocess.run(["apt-get", "download", "-qq", *wanted], cwd=place, capture_output=True, check=False)
            for package in sorted(place.glob("nginx*.deb")):  # the program comes last: it says that all is there
                subprocess.run(["dpkg-deb", "-x", package, place], check=True)
    if not unpacked.exists() or subprocess.run([unpacked, "-v"], capture_output=True, check=False).returncode:
        mend = "brew install nginx" if sys.platform == "darwin" else "sudo apt-get update && sudo apt-get install nginx"
        raise Missing("The tests of web servers need nginx, and none was found on this machine.", [mend])
    return str(unpacked)


def types(nginx: str) -> Path:
    """The list of media types that comes with this nginx, which its own settings include."""
    beside = Path(nginx).parents[2] / "etc/nginx/mime.types"
    return beside if beside.exists() else Path("/etc/nginx/mime.types")


def free_port() -> int:
    """A port that nothing listens on just now."""
    with socket.socket() as asked:
        asked.bind(("127.0.0.1", 0))
        return int(asked.getsockname()[1])


@contextmanager
def serving(nginx: str, location: str, work: Path) -> Iterator[str]:
    """Runs nginx with one location; gives the server's address, which ends in a slash."""
    port = free_port()
    user = "user root;" if getpass.getuser() == "root" else ""
    settings = work / "nginx.conf"
    settings.write_text(CONFIGURATION.format(work=work, port=port, location=location, user=user, types=types(nginx)))
    with subprocess.Popen([nginx, "-p", str(work), "-c", str(settings)], stderr=subprocess.PIPE) as server:
        try:
            for _ in range(100):
                try:
                    socket.create_connection(("127.0.0.1", port), 0.2).close()
                    break
                except OSError:
                    assert server.poll() is None, (server.stderr.read() if server.stderr else b"").decode()
                    time.sleep(0.1)
            yield f"http://127.0.0.1:{port}/"
        finally:
            server.terminate()
            server.wait()
