"""How the store fails: by its own contents, or for now by the disk or the server."""

from sqlalchemy.exc import OperationalError


class StoreError(Exception):
    """The database holds something this program cannot use; the message says what and where."""


def is_for_now(error: BaseException) -> bool:
    """Whether the disk is full, the file locked or the server gone: the same may work later."""
    return isinstance(error, OperationalError)
