"""What is missing on this machine, and the command that mends it."""

from __future__ import annotations


class Missing(Exception):
    """Something the project needs is not there.

    `what` says what is missing, `mend` holds the commands to type, any one of which mends it.
    """

    def __init__(self, what: str, mend: list[str]) -> None:
        super().__init__(what)
        self.what = what
        self.mend = mend

    def __str__(self) -> str:
        lines = [self.what]
        if self.mend:
            lines.append("This mends it:" if len(self.mend) == 1 else "One of these mends it:")
            lines.extend("    " + command for command in self.mend)
        return "\n".join(lines)
