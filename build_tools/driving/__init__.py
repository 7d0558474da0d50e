"""Drives Firefox and WebKit, as playwright drives Chromium: for the tests and for the bench."""
