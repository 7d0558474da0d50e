"""The verbs, one module each; they run inside .venv."""
