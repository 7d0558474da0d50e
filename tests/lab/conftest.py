"""Property tests: the same examples on every machine, and no time limit on a single one."""

from hypothesis import settings

settings.register_profile("project", deadline=None, derandomize=True, print_blob=True)
settings.load_profile("project")
