"""The one place that reads the environment and the env file."""

import os
import re
import shlex
import shutil
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from dotenv import dotenv_values

PREFIX = "DUSKROUND_"
ENV_FILE = Path("duskround.env")
PLATFORM_URL = "https://api.telegram.org"
TOKEN = re.compile(r"\d{1,20}:[A-Za-z0-9_-]{3,200}", re.ASCII)
SECRET = re.compile(r"[A-Za-z0-9_-]{1,256}", re.ASCII)
LOOPBACK = frozenset({"127.0.0.1", "::1", "localhost"})
HIGHEST_PORT = 65_535
LONGEST_TICK_S = 60.0
SWITCH = {
    **dict.fromkeys(("1", "true", "yes", "on", "y", "t"), True),
    **dict.fromkeys(("0", "false", "no", "off", "n", "f"), False),
}


class SettingsError(Exception):
    """Every problem of the settings, each beginning with the variable's name."""

    def __init__(self, problems: tuple[str, ...]) -> None:
        super().__init__("\n".join(problems))
        self.problems = problems


class Secret:
    """A text that shows itself only when asked to: neither a log nor an error gives it away."""

    def __init__(self, text: str) -> None:
        self._text = text

    def reveal(self) -> str:
        """Give the text."""
        return self._text

    def __repr__(self) -> str:
        return "Secret(...)"


@dataclass(frozen=True, kw_only=True)
class Settings:
    """What the operator chose. Without a token the bot does not start, but the settings are valid."""

    token: Secret | None = None
    owner: int | None = None
    open: bool = False
    data: Path = Path("data")
    database_url: str = ""
    api_url: str = PLATFORM_URL
    webhook_url: str = ""
    webhook_secret: Secret | None = None
    webhook_listen: str = "127.0.0.1:8080"
    health_listen: str = ""
    copy_command: str = ""
    """Run with the path of each new copy of the database, to encrypt it or carry it away."""
    log: str = "warning"
    tick_seconds: float = 5.0
    """How often it is looked what other processes wrote and which errors to tell. [s] above 0, at most 60."""

    @property
    def database(self) -> str:
        """The database's address: the one told, or a file in the data folder."""
        return self.database_url or f"sqlite:///{(self.data / 'duskround.sqlite').absolute()}"

    @property
    def is_api_loopback(self) -> bool:
        """Whether the bot API is on this machine, where no proxy belongs between."""
        return urlsplit(self.api_url).hostname in LOOPBACK

    @property
    def health(self) -> tuple[str, int] | None:
        """Address and port the health page is served on, None where it is not wanted."""
        if not self.health_listen:
            return None
        host, _, port = self.health_listen.rpartition(":")
        return host.strip("[]"), int(port)

    @property
    def listen(self) -> tuple[str, int]:
        """Address and port the webhook is served on."""
        host, _, port = self.webhook_listen.rpartition(":")
        return host.strip("[]"), int(port)


def _token(text: str) -> Secret:
    if not TOKEN.fullmatch(text):
        raise ValueError("does not look like a bot token (digits, a colon, letters)")
    return Secret(text)


def _owner(text: str) -> int:
    if not (text.isascii() and text.isdigit() and int(text) > 0):
        raise ValueError("must be a whole number above 0")
    return int(text)


def _switch(text: str) -> bool:
    if text.lower() not in SWITCH:
        raise ValueError("must be true or false")
    return SWITCH[text.lower()]


def _database_url(url: str) -> str:
    if not url.startswith(("sqlite:", "postgresql:", "postgresql+psycopg:")):
        raise ValueError("must begin with sqlite: or postgresql:")
    return url


def _api_url(url: str) -> str:
    parts = urlsplit(url)
    if parts.scheme not in {"http", "https"} or not parts.hostname:
        raise ValueError("must be an address that begins with http:// or https://")
    return url.rstrip("/")


def _webhook_url(url: str) -> str:
    parts = urlsplit(url)
    is_local = parts.scheme == "http" and parts.hostname in LOOPBACK
    if not (parts.hostname and (parts.scheme == "https" or is_local)):
        raise ValueError("must be an address that begins with https://")
    return url


def _webhook_secret(text: str) -> Secret:
    if not SECRET.fullmatch(text):
        raise ValueError("must be 1 to 256 letters, digits, underscores or hyphens")
    return Secret(text)


def _listen(listen: str) -> str:
    host, _, port = listen.rpartition(":")
    if not (host and port.isascii() and port.isdigit() and int(port) <= HIGHEST_PORT):
        raise ValueError("must be ADDRESS:PORT, such as 127.0.0.1:8080")
    return listen


def _copy_command(command: str) -> str:
    program = (shlex.split(command) or [""])[0]
    if shutil.which(program) is None:
        raise ValueError(f"names no program that can be run: {program}")
    return command


def _log(level: str) -> str:
    if level.lower() not in {"debug", "info", "warning", "error"}:
        raise ValueError("must be debug, info, warning or error")
    return level.lower()


def _tick_seconds(text: str) -> float:
    try:
        seconds = float(text)
    except ValueError:
        seconds = 0.0
    if not 0 < seconds <= LONGEST_TICK_S:
        raise ValueError(f"must be a number of seconds above 0, at most {LONGEST_TICK_S:g}")
    return seconds


_READERS: Mapping[str, Callable[[str], Any]] = {
    "token": _token,
    "owner": _owner,
    "open": _switch,
    "data": Path,
    "database_url": _database_url,
    "api_url": _api_url,
    "webhook_url": _webhook_url,
    "webhook_secret": _webhook_secret,
    "webhook_listen": _listen,
    "health_listen": _listen,
    "copy_command": _copy_command,
    "log": _log,
    "tick_seconds": _tick_seconds,
}


def read_settings(env_file: Path = ENV_FILE) -> Settings:
    """Read the environment, and the env file beneath it if there; raise SettingsError with every problem."""
    told = dotenv_values(env_file, interpolate=False) if env_file.is_file() else {}
    given = {name.upper(): value or "" for name, value in (*told.items(), *os.environ.items())}  # noqa: TID251 - here
    options: dict[str, Any] = {}
    strange = (name for name in told if not name.upper().startswith(PREFIX))
    problems = [f"{name} is not a setting of Duskround" for name in strange]
    for name in sorted(given):
        if not name.startswith(PREFIX):
            continue
        field = name.removeprefix(PREFIX).lower()
        if field not in _READERS:
            problems.append(f"{name} is not a setting of Duskround")
        elif given[name]:  # empty is as good as not told
            try:
                options[field] = _READERS[field](given[name])
            except ValueError as error:
                problems.append(f"{name} {error}")
    if not problems:
        settings = Settings(**options)
        problems = list(_webhook_problems(settings))
        if not problems:
            return settings
    raise SettingsError(tuple(problems))


def _webhook_problems(settings: Settings) -> Iterator[str]:
    if settings.webhook_url and settings.webhook_secret is None:
        yield f"{PREFIX}WEBHOOK_SECRET is missing: a webhook without a secret believes anybody"
    if settings.webhook_secret is not None and not settings.webhook_url:
        yield f"{PREFIX}WEBHOOK_URL is missing although a webhook secret is set"
