"""What a person sent, before anybody reads its meaning: free of any platform's form."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class Text:
    """A message of words; a command keeps its slash and loses the bot's name."""

    text: str


@dataclass(frozen=True, slots=True)
class Location:
    """A shared location. [deg]."""

    latitude: float
    longitude: float


@dataclass(frozen=True, slots=True)
class Press:
    """A button pressed under a message of ours; message_id is None when the platform no longer knows it."""

    data: str
    message_id: int | None
    callback_id: str


@dataclass(frozen=True, slots=True)
class Photo:
    """A picture by its largest size, with what was written under it."""

    file_id: str
    caption: str
    album: str = ""
    """What pictures sent together have in common."""


@dataclass(frozen=True, slots=True)
class Other:
    """Something the bot cannot read: a sticker, a voice message, an edit."""

    what: str


Kind = Text | Location | Press | Photo | Other


@dataclass(frozen=True, slots=True, kw_only=True)
class Incoming:
    """One thing one person did in one chat. addressed: meant for the bot (always so in a private chat)."""

    update_id: int
    chat: int
    person: int
    name: str
    kind: Kind
    at: datetime
    is_group: bool
    addressed: bool
