"""What is the same on a locked-down computer, whatever the browser."""

NO_STORAGE = """for (const name of ["localStorage", "sessionStorage"]) Object.defineProperty(window, name, {
  get() { throw new DOMException("Access is denied for this document.", "SecurityError"); } });"""
"""A script that blocks storage as managed browsers do."""

SENTENCE = "Use the formula and the worked numbers below."
"""Ends what a sheet says when its engine cannot run."""
