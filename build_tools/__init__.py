"""Builds, tests and serves the site, and answers in the terminal."""
