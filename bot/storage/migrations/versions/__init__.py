"""One file a revision; its number comes first in the name."""
