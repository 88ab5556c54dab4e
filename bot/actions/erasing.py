"""What can be erased at somebody's wish."""

from enum import Enum


class Erasing(Enum):
    """What is to be erased."""

    ME = "me"
    HOME = "home"
