"""Stands for Python's importlib.metadata. Pint asks for its own version; Python's own start, for a finder to tidy."""


class PackageNotFoundError(ModuleNotFoundError):
    """Raised for each package: none says its version here."""


class MetadataPathFinder:
    """Finds nothing."""

    @staticmethod
    def invalidate_caches() -> None:
        """Do nothing: there is no cache."""


def version(distribution_name: str) -> str:
    """Raise PackageNotFoundError."""
    raise PackageNotFoundError(distribution_name)
