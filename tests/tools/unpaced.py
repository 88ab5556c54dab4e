"""
The real bot as `python -m bot` runs it, with pacing off: for the benchmarks, whose stand-in has no limits.

With a file as argument it is sampled: a line a thread and sample, with its modules from the outermost in.
"""

import gc

if __name__ == "__main__":
    gc.disable()  # as `python -m bot` does while it loads

import asyncio
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from types import FrameType

from bot.app import assemble, settle_in
from bot.clock import Clock
from bot.logs import set_up_logging
from bot.settings import read_settings

EVERY_S = 0.002
SWITCH_S = 0.00001
"""So long a thread keeps the interpreter while it is sampled: by the usual 5 ms one would see only where it lets go."""


async def main() -> None:
    """Run until stopped."""
    settings = read_settings()
    set_up_logging(settings.log)
    app = assemble(settings, Clock(), pacing=False)
    settle_in()
    await app.run()


def sample(file: Path) -> None:
    """Write what every thread is at, again and again, with the processor's time it took since [us]."""
    sys.setswitchinterval(SWITCH_S)
    own, main_thread = threading.get_ident(), threading.main_thread().ident
    taken_s: dict[int, float] = {}
    with file.open("w", buffering=1) as samples:
        while True:
            time.sleep(EVERY_S)
            for thread, frame in sys._current_frames().items():  # noqa: SLF001 - the interpreter's own for samplers
                now_s = time.clock_gettime(time.pthread_getcpuclockid(thread))
                spent_us = int(1e6 * (now_s - taken_s.get(thread, now_s)))
                taken_s[thread] = now_s
                if spent_us and thread != own:
                    where = " ".join(list(_modules(frame))[::-1])
                    name = "loop" if thread == main_thread else "worker"
                    samples.write(f"{spent_us} {name} {where}\n")


def _modules(frame: FrameType | None) -> Iterator[str]:
    while frame is not None:
        yield frame.f_globals.get("__name__", "?")
        frame = frame.f_back


if __name__ == "__main__":
    gc.freeze()
    gc.enable()
    if sys.argv[1:]:
        threading.Thread(target=sample, args=(Path(sys.argv[1]),), daemon=True).start()
    asyncio.run(main())
