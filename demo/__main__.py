"""`python -m demo`: the real bot on a page of your own machine, without an account or network."""

import argparse
import asyncio
import sys
from datetime import UTC, datetime
from pathlib import Path

from bot.logs import set_up_logging
from demo.running import running
from demo.story import play


def main(arguments: list[str] | None = None) -> int:
    """Run the demo, or its story."""
    parser = argparse.ArgumentParser(prog="python -m demo", description="Try the bot without an account.")
    parser.add_argument(
        "--story", action="store_true", help="play fourteen weeks of an outbreak and print the talk"
    )
    parser.add_argument("--port", type=int, default=0, help="port of the page on 127.0.0.1")
    parser.add_argument("--at", help="where the clock starts, ISO 8601")
    parser.add_argument("--data", type=Path, help="folder to keep; without it the demo starts empty")
    options = parser.parse_args(arguments)
    start = None
    if options.at is not None:
        try:
            start = datetime.fromisoformat(options.at)
        except ValueError:
            parser.error(f"--at {options.at} is not a time like 2026-05-02T10:00")
        start = start if start.tzinfo else start.replace(tzinfo=UTC)
    set_up_logging()
    try:
        return asyncio.run(play(options.data) if options.story else _serve(start, options.data, options.port))
    except KeyboardInterrupt:
        return 0
    except OSError as error:
        print(f"cannot start: {error}", file=sys.stderr)
        return 2


async def _serve(start: datetime | None, data: Path | None, port: int) -> int:
    async with running(start, data, port) as whole:
        ended = asyncio.ensure_future(whole.app.run_until_stopped())
        await asyncio.sleep(0)  # it listens to SIGTERM before anybody reads that it is ready
        print(f"ready {whole.standin.url}/", flush=True)
        await ended
    return 0


if __name__ == "__main__":
    sys.exit(main())
