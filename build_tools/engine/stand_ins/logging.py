"""Stands for Python's logging. Pint tells it what nobody in a browser reads."""


class NullHandler:
    """Does nothing, as the real one."""


class Logger:
    """Listens and forgets."""

    def addHandler(self, handler: NullHandler) -> None:
        """Forget the handler."""

    def debug(self, *words: object) -> None:
        """Forget the words."""

    warn = warning = debug


def getLogger(name: str) -> Logger:
    """Return a logger, whoever asks."""
    return Logger()
