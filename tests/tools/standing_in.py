"""The stand-in in a process of its own. `python -m tests.tools.standing_in [PORT]` prints `ready URL`."""

import asyncio
import sys
from datetime import datetime

from bot.clock import Clock
from demo.standin import StandIn

TOKEN = "100:demo"


def now() -> datetime:
    return Clock().now()


async def main(port: int) -> None:
    """Serve until killed."""
    standin = StandIn(token=TOKEN, clock=now)
    await standin.start(port)
    sys.stdout.write(f"ready {standin.url}\n")
    sys.stdout.flush()
    await asyncio.Event().wait()


if __name__ == "__main__":
    asyncio.run(main(int(sys.argv[1]) if len(sys.argv) > 1 else 0))
