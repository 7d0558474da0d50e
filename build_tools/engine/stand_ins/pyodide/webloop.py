"""Stands for Pyodide's event loop, which is the greatest part of what Pyodide imports. The engine answers at once."""

# A snapshot can hold a reference to this function of the page only when Pyodide's start has taken it up.
from pyodide_js._api import scheduleCallback  # type: ignore[import-not-found] # noqa: F401


def _initialize_event_loop() -> None:
    """Pyodide's start calls this."""
