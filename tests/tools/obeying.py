"""
The bot as a process that obeys the modes of files even when root starts it. `python -m tests.tools.obeying`.

Root may write what its mode forbids by CAP_DAC_OVERRIDE; without that in the bounding set, the next program
started has it no more (capabilities(7)).
"""

import ctypes
import os
import sys

PR_CAPBSET_DROP, CAP_DAC_OVERRIDE = 24, 1

if __name__ == "__main__":
    ctypes.CDLL(None).prctl(PR_CAPBSET_DROP, CAP_DAC_OVERRIDE, 0, 0, 0)
    os.execv(sys.executable, [sys.executable, "-m", "bot"])
