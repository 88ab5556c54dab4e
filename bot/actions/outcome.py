"""What all outcomes have in common."""


class Outcome:
    """What came of a command: the wording makes sentences of it, nobody else does."""

    __slots__ = ()
