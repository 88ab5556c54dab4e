"""What the bot says, before any platform's form: text, buttons, a picture or a file."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Button:
    """A label [up to 40 characters] and the data that comes back when pressed [1 to 64 bytes]."""

    label: str
    data: str


@dataclass(frozen=True, slots=True)
class Attachment:
    """A picture or a file to go with a message."""

    name: str
    content: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """One message, at most 4,096 characters of plain text."""

    text: str
    buttons: tuple[tuple[Button, ...], ...] = ()
    picture: "Attachment | None" = None
    document: "Attachment | None" = None
