"""Run a program as another account of this machine; only root can."""

import os
import sys
from pathlib import Path


def as_account(number: int) -> list[str]:
    """
    Give the words before a program that make it run as an account without any right of its own.

    Where only root may read the interpreter, the account may read whatever root may, and write nothing more.
    """
    words = ["setpriv", f"--reuid={number}", f"--regid={number}", "--clear-groups"]
    folders = Path(sys.executable).resolve().parents
    if os.geteuid() == 0 and not all(folder.stat().st_mode & 0o001 for folder in folders):
        words += ["--inh-caps=+dac_read_search", "--ambient-caps=+dac_read_search"]
    return words
