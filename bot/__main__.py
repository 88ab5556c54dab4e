"""`python -m bot`: the command line."""

import gc

if __name__ == "__main__":
    gc.disable()  # what is loaded stays: looking it over for rings again and again was a fifth of a start

import argparse
import asyncio
import sqlite3
import sys
import time
from io import TextIOWrapper
from pathlib import Path

from bot.app import assemble, settle_in
from bot.clock import Clock
from bot.logs import set_up_logging
from bot.rehearsal import USUAL, read_situation, rehearse
from bot.settings import Settings, SettingsError, read_settings
from bot.storage.failure import StoreError, is_for_now
from bot.telegram.failures import NothingThereError, RefusedTokenError, TryLaterError, UndeliverableError
from bot.telegram.wire import Wire

HOW_TO_BEGIN = """\
Duskround needs the token of a bot account (DUSKROUND_TOKEN).
  1. In the chat platform's app, write /newbot to @BotFather and follow its questions.
  2. Put the line it gives you into the file duskround.env: DUSKROUND_TOKEN=123456:abc...
  3. Start again: python -m bot
To try it without any account: python -m demo"""
REFUSED = "The chat platform refuses the token in DUSKROUND_TOKEN; copy it again from @BotFather."
NO_SUCH_BOT = "{} answers, but knows no such bot: DUSKROUND_API_URL or the form of DUSKROUND_TOKEN is wrong"
FAILED, WRONG, LATER = 1, 2, 75
"""Exit codes: refused; settings must be seen to first; the same may work later (sysexits.h, EX_TEMPFAIL)."""
PATIENCE_S = 120.0
"""How long a start waits for a file, a disk, a server: five such starts outlast the unit's limit. [s]"""
TRY_AGAIN_S = 10.0


def main(arguments: list[str] | None = None) -> int:
    """Run what was asked for and give the exit code."""
    chosen = _parser().parse_args(arguments)
    if chosen.command == "understand":
        return say_meanings(chosen.situation)
    try:
        settings = read_settings()
    except SettingsError as error:
        print(error, file=sys.stderr)
        return WRONG
    except OSError as error:  # the env file, or the folder it would stand in
        print(f"no {chosen.command or 'start'}: {error}", file=sys.stderr)
        return FAILED
    match chosen.command:
        case None | "run":
            return run(settings)
        case "selftest":
            return test(settings)
        case "health":
            from bot.operating import ask_health  # noqa: PLC0415 - as below

            return ask_health(settings)
        case _:
            return by_hand(chosen, settings)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python -m bot", description="Duskround, the pest notebook.")
    commands = parser.add_subparsers(dest="command", metavar="command")
    commands.add_parser("run", help="run the bot (default)")
    commands.add_parser("backup", help="copy the SQLite database and the photos, also while the bot runs")
    restoring = commands.add_parser(
        "restore", help="put a copy in the place of the database; stop the bot first"
    )
    restoring.add_argument("copy", type=Path)
    commands.add_parser("rebuild", help="derive anew what the journal decides")
    exporting = commands.add_parser("export", help="write households as JSON to standard output")
    exporting.add_argument("--household", type=int, help="only this one")
    importing = commands.add_parser("import", help="read households from a file that export wrote")
    importing.add_argument("file", type=Path)
    importing.add_argument("--owner", type=int, help="account that is to own a home exported in the chat")
    commands.add_parser("selftest", help="check token, clock, zones, disk, database, backup, messages")
    commands.add_parser("health", help="ask the running bot's health page (for containers)")
    phrases = commands.add_parser("understand", help="say what phrases on standard input would mean")
    phrases.add_argument("--situation", type=Path, help="a TOML file; without it an evening of our own")
    return parser


def by_hand(chosen: argparse.Namespace, settings: Settings) -> int:
    """Do what works on the database and print what came of it; a refusal says why, exit 1."""
    from bot import operating  # noqa: PLC0415 - a running bot does without it

    clock = Clock()
    try:
        match chosen.command:
            case "backup":
                print(operating.back_up(settings, clock))
            case "restore":
                print(operating.restore(settings, chosen.copy, clock))
            case "rebuild":
                print(operating.rebuild(settings, clock))
            case "export":
                for part in operating.export_all(settings, chosen.household):
                    print(part)
            case _:
                print(operating.import_all(settings, chosen.file.read_text("utf-8"), chosen.owner, clock))
    except (StoreError, OSError, UnicodeError, sqlite3.Error) as error:
        print(f"no {chosen.command}: {error}", file=sys.stderr)
        return FAILED
    finally:
        operating.hand_to_owner(settings)
    return 0


def test(settings: Settings) -> int:
    """Check what a running bot needs; one line a check."""
    from bot import operating  # noqa: PLC0415 - as above

    problem: str | None = "DUSKROUND_TOKEN is missing: python -m bot says how to get one"
    if settings.token is not None:
        problem = asyncio.run(_token_problem(settings))
    code, lines = operating.selftest(settings, Clock(), problem)
    operating.hand_to_owner(settings)
    print("\n".join(lines))
    return code


async def _token_problem(settings: Settings) -> str | None:
    assert settings.token is not None
    wire = Wire(settings.token.reveal(), settings.api_url, is_loopback=settings.is_api_loopback)
    try:
        await asyncio.wait_for(wire.open(), 20)
    except RefusedTokenError:
        return REFUSED
    except NothingThereError:
        return NO_SUCH_BOT.format(settings.api_url)
    except (TryLaterError, UndeliverableError, TimeoutError) as error:
        return f"the platform cannot be reached ({type(error).__name__}): is the network up?"
    finally:
        await wire.close()
    return None


def say_meanings(file: Path | None) -> int:
    """Print what each phrase of standard input would mean: phrase, tab, meaning."""
    try:
        situation = read_situation((file or USUAL).read_text("utf-8"))
    except (OSError, ValueError) as error:
        print(f"no understand: {error}", file=sys.stderr)
        return WRONG
    except RecursionError:
        print("no understand: the situation is nested too deeply", file=sys.stderr)
        return WRONG
    if isinstance(sys.stdin, TextIOWrapper):
        sys.stdin.reconfigure(errors="replace")
    for line in rehearse(sys.stdin, situation):
        print(line)
    return 0


def run(settings: Settings) -> int:
    """Run the bot until it is stopped; where it cannot start now, wait a while for what is in the way."""
    if settings.token is None:
        print(HOW_TO_BEGIN, file=sys.stderr)
        return WRONG
    set_up_logging(settings.log)
    until, said = time.monotonic() + PATIENCE_S, ""
    while True:
        try:
            asyncio.run(_run(settings))
        except RefusedTokenError:
            print(REFUSED, file=sys.stderr)
            return WRONG
        except NothingThereError:
            print(f"The bot does not start: {NO_SUCH_BOT.format(settings.api_url)}", file=sys.stderr)
            return WRONG
        except NotStartedError as error:
            may_start_later = is_for_now(error.reason)
            if not may_start_later or time.monotonic() >= until:
                print(f"The bot does not start: {error}", file=sys.stderr)
                return LATER if may_start_later else WRONG
            if str(error) != said:  # once, however often it is tried
                print(f"The bot waits: {error}", file=sys.stderr, flush=True)
            said = str(error)
            time.sleep(TRY_AGAIN_S)
        else:
            return 0


class NotStartedError(Exception):
    """The bot did not get as far as running."""

    def __init__(self, reason: Exception) -> None:
        super().__init__(str(reason))
        self.reason = reason


async def _run(settings: Settings) -> None:
    try:
        app = assemble(settings, Clock())
        settle_in()
        await app.run(lambda: print(app.whereabouts(), flush=True))
    except (StoreError, OSError) as error:
        raise NotStartedError(error) from error


if __name__ == "__main__":
    gc.freeze()
    gc.enable()
    sys.exit(main())
