"""Serves a folder to this machine only."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any


class _Files(SimpleHTTPRequestHandler):
    """The folder's files, as any plain web server would send them."""

    def log_message(self, format: str, *args: Any) -> None:
        """Says nothing: a line for each file would hide what a rebuild has to say."""


class _Server(ThreadingHTTPServer):
    daemon_threads = True

    def handle_error(self, request: Any, client_address: Any) -> None:
        """Says nothing when a browser hangs up in the middle of a file."""


@contextmanager
def serving(folder: Path, port: int = 0) -> Iterator[str]:
    """Serves the folder while the block runs; gives the address, which ends in a slash.

    Port 0 picks a free one. Raises OSError when the port is taken.
    """
    with _Server(("127.0.0.1", port), partial(_Files, directory=str(folder))) as server:
        thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True)
        thread.start()
        try:
            yield f"http://127.0.0.1:{server.server_address[1]}/"
        finally:
            server.shutdown()
            thread.join()
