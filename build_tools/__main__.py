"""`python3 -m build_tools VERB`, with any Python from 3.9 on and nothing installed."""

import os
import sys

if sys.version_info < (3, 9):  # noqa: UP036 - here an old Python is told so
    sys.exit(
        "This command needs Python 3.9 or newer to start.\n"
        "Start it with a newer one, for example: python3.13 -m build_tools site"
    )

from build_tools.bootstrap import start

if __name__ == "__main__":
    sys.exit(start(os.path.dirname(os.path.dirname(os.path.abspath(__file__))), sys.argv[1:]))
