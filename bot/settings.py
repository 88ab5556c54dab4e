"""The one place that reads the environment and the env file."""

import os
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from pydantic import Field, SecretStr, ValidationError, field_validator
from pydantic_core import ErrorDetails
from pydantic_settings import BaseSettings, SettingsConfigDict

PREFIX = "DUSKROUND_"
ENV_FILE = Path("duskround.env")
PLATFORM_URL = "https://api.telegram.org"
TOKEN = re.compile(r"\d{1,20}:[A-Za-z0-9_-]{3,200}", re.ASCII)
SECRET = re.compile(r"[A-Za-z0-9_-]{1,256}", re.ASCII)
LOOPBACK = frozenset({"127.0.0.1", "::1", "localhost"})
HIGHEST_PORT = 65_535


class SettingsError(Exception):
    """Every problem of the settings, each beginning with the variable's name."""

    def __init__(self, problems: tuple[str, ...]) -> None:
        super().__init__("\n".join(problems))
        self.problems = problems


class Settings(BaseSettings):
    """What the operator chose. Without a token the bot does not start, but the settings are valid."""

    model_config = SettingsConfigDict(
        env_prefix=PREFIX, extra="forbid", frozen=True, populate_by_name=True, env_ignore_empty=True
    )

    token: SecretStr | None = None
    owner: int | None = Field(default=None, gt=0)
    open: bool = False
    data: Path = Path("data")
    database_url: str = ""
    api_url: str = PLATFORM_URL
    webhook_url: str = ""
    webhook_secret: SecretStr | None = None
    webhook_listen: str = "127.0.0.1:8080"
    health_listen: str = ""
    log: str = "warning"
    tick_seconds: float = Field(default=5.0, gt=0, le=60)

    @field_validator("token")
    @classmethod
    def _token_form(cls, token: SecretStr | None) -> SecretStr | None:
        if token is not None and not TOKEN.fullmatch(token.get_secret_value()):
            raise ValueError("does not look like a bot token (digits, a colon, letters)")
        return token

    @field_validator("api_url")
    @classmethod
    def _api_address(cls, url: str) -> str:
        parts = urlsplit(url)
        if parts.scheme not in {"http", "https"} or not parts.hostname:
            raise ValueError("must be an address that begins with http:// or https://")
        return url.rstrip("/")

    @field_validator("webhook_url")
    @classmethod
    def _webhook_address(cls, url: str) -> str:
        parts = urlsplit(url)
        is_local = parts.scheme == "http" and parts.hostname in LOOPBACK
        if url and not (parts.hostname and (parts.scheme == "https" or is_local)):
            raise ValueError("must be an address that begins with https://")
        return url

    @field_validator("webhook_secret")
    @classmethod
    def _secret_form(cls, secret: SecretStr | None) -> SecretStr | None:
        if secret is not None and not SECRET.fullmatch(secret.get_secret_value()):
            raise ValueError("must be 1 to 256 letters, digits, underscores or hyphens")
        return secret

    @field_validator("webhook_listen", "health_listen")
    @classmethod
    def _listen_form(cls, listen: str) -> str:
        if not listen:
            return listen
        host, _, port = listen.rpartition(":")
        if not (host and port.isascii() and port.isdigit() and int(port) <= HIGHEST_PORT):
            raise ValueError("must be ADDRESS:PORT, such as 127.0.0.1:8080")
        return listen

    @field_validator("log")
    @classmethod
    def _log_level(cls, level: str) -> str:
        if level.lower() not in {"debug", "info", "warning", "error"}:
            raise ValueError("must be debug, info, warning or error")
        return level.lower()

    @field_validator("database_url")
    @classmethod
    def _database_kind(cls, url: str) -> str:
        if url and not url.startswith(("sqlite:", "postgresql:", "postgresql+psycopg:")):
            raise ValueError("must begin with sqlite: or postgresql:")
        return url

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


def read_settings(env_file: Path = ENV_FILE) -> Settings:
    """Read the environment, and the env file beneath it if there; raise SettingsError with every problem."""
    problems = list(_unknown_variables())
    options: dict[str, Any] = {"_env_file": env_file if env_file.is_file() else None}
    try:
        settings = Settings(**options)
    except ValidationError as error:
        problems += [_worded(problem) for problem in error.errors(include_url=False, include_input=False)]
    else:
        problems += _webhook_problems(settings)
        if not problems:
            return settings
    raise SettingsError(tuple(problems))


def _unknown_variables() -> Iterator[str]:
    known = {f"{PREFIX}{name}".upper() for name in Settings.model_fields}
    for name in sorted(os.environ):  # noqa: TID251 - this is bot.settings
        if name.upper().startswith(PREFIX) and name.upper() not in known:
            yield f"{name} is not a setting of Duskround"


def _worded(problem: ErrorDetails) -> str:
    name = str(problem["loc"][0]).upper() if problem["loc"] else "SETTINGS"
    full = name if name.startswith(PREFIX) else f"{PREFIX}{name}"
    if problem["type"] == "extra_forbidden":
        return f"{full} is not a setting of Duskround"
    why = problem["msg"].removeprefix("Value error, ")
    return f"{full} {why}" if problem["type"] == "value_error" else f"{full}: {why}"


def _webhook_problems(settings: Settings) -> Iterator[str]:
    if settings.webhook_url and settings.webhook_secret is None:
        yield f"{PREFIX}WEBHOOK_SECRET is missing: a webhook without a secret believes anybody"
    if settings.webhook_secret is not None and not settings.webhook_url:
        yield f"{PREFIX}WEBHOOK_URL is missing although a webhook secret is set"
