"""Stands for Python's asyncio. Pyodide's C code imports it; calc never waits for anything."""
