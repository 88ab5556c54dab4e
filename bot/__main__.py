"""`python -m bot`: the command line."""

import argparse
import asyncio
import logging
import sys

from bot.app import assemble
from bot.clock import Clock
from bot.settings import Settings, SettingsError, read_settings
from bot.telegram.failures import RefusedTokenError

HOW_TO_BEGIN = """\
Duskround needs the token of a bot account (DUSKROUND_TOKEN).
  1. In the chat platform's app, write /newbot to @BotFather and follow its questions.
  2. Put the line it gives you into the file duskround.env: DUSKROUND_TOKEN=123456:abc...
  3. Start again: python -m bot
To try it without any account: python -m demo"""
REFUSED = "The chat platform refuses the token in DUSKROUND_TOKEN; copy it again from @BotFather."
WRONG = 2


def main(arguments: list[str] | None = None) -> int:
    """Run what was asked for and give the exit code."""
    parser = argparse.ArgumentParser(prog="python -m bot", description="Duskround, the pest notebook.")
    parser.add_argument("command", nargs="?", default="run", choices=["run"], help="run the bot (default)")
    parser.parse_args(arguments)
    try:
        settings = read_settings()
    except SettingsError as error:
        print(error, file=sys.stderr)
        return WRONG
    return run(settings)


def run(settings: Settings) -> int:
    """Run the bot until it is stopped."""
    if settings.token is None:
        print(HOW_TO_BEGIN, file=sys.stderr)
        return WRONG
    set_up_logging()
    try:
        asyncio.run(_run(settings))
    except RefusedTokenError:
        print(REFUSED, file=sys.stderr)
        return WRONG
    return 0


def set_up_logging() -> None:
    """Log what the operator needs; the libraries' own lines carry the token and people's words."""
    logging.basicConfig(level=logging.INFO, format="%(asctime)s %(levelname)s %(name)s: %(message)s")
    for name in ("httpx", "httpcore", "telegram", "apscheduler", "tornado.access"):
        logging.getLogger(name).setLevel(logging.WARNING)


async def _run(settings: Settings) -> None:
    app = assemble(settings, Clock())
    await app.start()
    await app.run_until_stopped()


if __name__ == "__main__":
    sys.exit(main())
