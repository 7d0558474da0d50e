"""Stands for Python's ipaddress. urllib.parse imports it for addresses that calc never reads; it only quotes text."""
