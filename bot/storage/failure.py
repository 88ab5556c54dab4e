"""How the store fails when its own contents stand in the way."""


class StoreError(Exception):
    """The database holds something this program cannot use; the message says what and where."""
