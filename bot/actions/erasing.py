"""What can be erased at somebody's wish."""

from enum import Enum


class Erasing(Enum):
    ME = "me"
    HOME = "home"
