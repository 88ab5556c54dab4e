"""The real bot as `python -m bot` runs it, with pacing off: for the benchmarks, whose stand-in has no limits."""

import asyncio

from bot.app import assemble, settle_in
from bot.clock import Clock
from bot.logs import set_up_logging
from bot.settings import read_settings


async def main() -> None:
    """Run until stopped."""
    settings = read_settings()
    set_up_logging(settings.log)
    app = assemble(settings, Clock(), pacing=False)
    settle_in()
    await app.run()


if __name__ == "__main__":
    asyncio.run(main())
