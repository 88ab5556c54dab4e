"""
`python -m tests.tools.ordinary FILE...`: makes bot/phrases/ordinary.bin, a filter of ordinary English words.

The files are lists of a word a line: those of the Debian packages wamerican-small and wbritish-small.
"""

import argparse
import sys
from collections.abc import Iterable
from pathlib import Path
from zlib import crc32

from bot.phrases.lexicon import TURNS

FILE = Path(__file__).parent.parent.parent / "bot" / "phrases" / "ordinary.bin"
SIZE = 46_000
"""Length of the filter. [byte]"""
NOTICE = (
    "ordinary English words, from wamerican-small and wbritish-small 2020.12.07-2: SCOWL, Copyright 2000-2011 by Kevin"
    " Atkinson. Permission to use, copy, modify, distribute and sell these word lists, the associated scripts, the output"
    " created from the scripts, and its documentation for any purpose is hereby granted without fee, provided that the"
    " above copyright notice appears in all copies and that both that copyright notice and this permission notice appear"
    " in supporting documentation. Kevin Atkinson makes no representations about the suitability of this array for any"
    ' purpose. It is provided "as is" without express or implied warranty.'
)


def packed(words: Iterable[str]) -> bytes:
    """Give the notice and the filter; what has a capital or an apostrophe is a name or a form of another word."""
    bits = bytearray(SIZE)
    for word in words:
        if word.isalpha() and word.islower() and word.isascii():
            for turn in range(TURNS):
                at = crc32(word.encode(), turn) % (8 * SIZE)
                bits[at // 8] |= 1 << at % 8
    return NOTICE.encode() + b"\n" + bytes(bits)


def main() -> int:
    """Write the file."""
    parser = argparse.ArgumentParser(prog="python -m tests.tools.ordinary")
    parser.add_argument("files", nargs="+", type=Path, metavar="FILE")
    files = parser.parse_args().files
    FILE.write_bytes(packed(word for file in files for word in file.read_text("utf-8").split()))
    return 0


if __name__ == "__main__":
    sys.exit(main())
