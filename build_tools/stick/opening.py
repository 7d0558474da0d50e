"""The page in the stick's root that a reader double-clicks."""

from __future__ import annotations

from html import escape

NAME = "open me.html"

_PAGE = """<!doctype html>
<html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width">
<meta name="color-scheme" content="light dark">
<meta http-equiv="refresh" content="0; url={folder}/index.html">
<title>{title}</title></head>
<body><h1>{title}</h1>
<p><a href="{folder}/index.html">Open the site</a>. It lies in the folder “{folder}” beside this page.</p>
<p>If it does not open, the folder is missing. Copy the stick again, folder and page together.</p>
</body></html>
"""


def page(title: str, folder: str) -> bytes:
    """The page's bytes: it goes on to the site by itself, and says where it is if it cannot."""
    return _PAGE.format(title=escape(title), folder=escape(folder)).encode()
