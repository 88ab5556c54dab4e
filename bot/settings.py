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
        return _address(self.health_listen) if self.health_listen else None

    @property
    def listen(self) -> tuple[str, int]:
        """Address and port the webhook is served on."""
        return _address(self.webhook_listen)


def _address(listen: str) -> tuple[str, int]:
    host, _, port = listen.rpartition(":")
    return host.strip("[]"), int(port)


def _is_web(url: str) -> bool:
    return urlsplit(url).scheme in {"http", "https"} and bool(urlsplit(url).hostname)


def _is_safe(url: str) -> bool:
    parts = urlsplit(url)
    return bool(parts.hostname) and (
        parts.scheme == "https" or (parts.scheme == "http" and parts.hostname in LOOPBACK)
    )


def _is_number(text: str) -> bool:
    return text.isascii() and text.isdigit()


def _is_address(listen: str) -> bool:
    host, _, port = listen.rpartition(":")
    return bool(host) and _is_number(port) and int(port) <= HIGHEST_PORT


def _is_program(command: str) -> bool:
    return shutil.which((shlex.split(command) or [""])[0]) is not None


def _is_tick(text: str) -> bool:
    try:
        return 0 < float(text) <= LONGEST_TICK_S
    except ValueError:
        return False


_LISTEN = (_is_address, "must be ADDRESS:PORT, such as 127.0.0.1:8080", str)
_DATABASES = ("sqlite:", "postgresql:", "postgresql+psycopg:")
_LEVELS = frozenset({"debug", "info", "warning", "error"})
_READERS: Mapping[str, tuple[Callable[[str], object], str, Callable[[str], Any]]] = {
    "token": (TOKEN.fullmatch, "does not look like a bot token (digits, a colon, letters)", Secret),
    "owner": (lambda text: _is_number(text) and int(text) > 0, "must be a whole number above 0", int),
    "open": (lambda text: text.lower() in SWITCH, "must be true or false", lambda text: SWITCH[text.lower()]),
    "data": (bool, "is empty", Path),
    "database_url": (lambda url: url.startswith(_DATABASES), "must begin with sqlite: or postgresql:", str),
    "api_url": (
        _is_web,
        "must be an address that begins with http:// or https://",
        lambda url: url.rstrip("/"),
    ),
    "webhook_url": (_is_safe, "must be an address that begins with https://", str),
    "webhook_secret": (
        SECRET.fullmatch,
        "must be 1 to 256 letters, digits, underscores or hyphens",
        Secret,
    ),
    "webhook_listen": _LISTEN,
    "health_listen": _LISTEN,
    "copy_command": (_is_program, "names no program that can be run: {}", str),
    "log": (lambda level: level.lower() in _LEVELS, "must be debug, info, warning or error", str.lower),
    "tick_seconds": (
        _is_tick,
        f"must be a number of seconds above 0, at most {LONGEST_TICK_S:g}",
        float,
    ),
}
"""Of each setting whether a text is one, what is said of another, and what is made of it."""


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
            is_right, complaint, made = _READERS[field]
            try:
                if is_right(given[name]):
                    options[field] = made(given[name])
                else:
                    problems.append(f"{name} {complaint.format(given[name].split(' ')[0])}")
            except ValueError as error:  # of a library, of what is no address, no command
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
