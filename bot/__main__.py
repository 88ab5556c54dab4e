"""`python -m bot`: the command line."""

import argparse
import asyncio
import logging
import sqlite3
import sys
from pathlib import Path

from bot.app import assemble
from bot.clock import Clock
from bot.phrases.rehearsal import EVENING, read_situation, rehearse
from bot.settings import Settings, SettingsError, read_settings
from bot.storage.backup import back_up as copy_database
from bot.storage.failure import StoreError
from bot.telegram.failures import RefusedTokenError

HOW_TO_BEGIN = """\
Duskround needs the token of a bot account (DUSKROUND_TOKEN).
  1. In the chat platform's app, write /newbot to @BotFather and follow its questions.
  2. Put the line it gives you into the file duskround.env: DUSKROUND_TOKEN=123456:abc...
  3. Start again: python -m bot
To try it without any account: python -m demo"""
REFUSED = "The chat platform refuses the token in DUSKROUND_TOKEN; copy it again from @BotFather."
WRONG, FAILED = 2, 1


def main(arguments: list[str] | None = None) -> int:
    """Run what was asked for and give the exit code."""
    parser = argparse.ArgumentParser(prog="python -m bot", description="Duskround, the pest notebook.")
    commands = parser.add_subparsers(dest="command", metavar="command")
    commands.add_parser("run", help="run the bot (default)")
    commands.add_parser("backup", help="copy the SQLite database, also while the bot runs")
    phrases = commands.add_parser("understand", help="say what phrases on standard input would mean")
    phrases.add_argument("--situation", type=Path, help="a TOML file; without it an evening of our own")
    chosen = parser.parse_args(arguments)
    if chosen.command == "understand":
        return say_meanings(chosen.situation)
    try:
        settings = read_settings()
    except SettingsError as error:
        print(error, file=sys.stderr)
        return WRONG
    return back_up(settings) if chosen.command == "backup" else run(settings)


def back_up(settings: Settings) -> int:
    """Copy the database into the data folder's backups and print where."""
    if not settings.database.startswith("sqlite"):
        print("only a SQLite file is copied here; for PostgreSQL use the server's own tools", file=sys.stderr)
        return FAILED
    file = Path(settings.database.removeprefix("sqlite:///"))
    if not file.is_file():
        print(f"no backup was written: there is no database at {file}", file=sys.stderr)
        return FAILED
    try:
        # the file itself, not opened by this version: a copy before an upgrade must be of the old one
        print(copy_database(file, settings.data / "backups", Clock().now()))
    except (StoreError, OSError, sqlite3.Error) as error:
        print(f"no backup was written: {error}", file=sys.stderr)
        return FAILED
    return 0


def say_meanings(file: Path | None) -> int:
    """Print what each phrase of standard input would mean: phrase, tab, meaning."""
    try:
        situation = EVENING if file is None else read_situation(file.read_text("utf-8"))
    except (OSError, ValueError) as error:
        print(error, file=sys.stderr)
        return WRONG
    for line in rehearse(sys.stdin, situation):
        print(line)
    return 0


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
