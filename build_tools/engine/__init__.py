"""The packer of the browser engine: Pyodide, the standard library and calc as script files."""

from build_tools.engine.packing import pack

__all__ = ["pack"]
