"""What an update comes to once it is read: something a person sent, or why nothing was."""

from typing import Any

from bot.actions.incoming import Incoming
from bot.domain.value import Value


class Me(Value):
    """The bot's own account."""

    id: int
    username: str


class Unparsable(Value):
    """An update that broke the platform's own form; the reason carries no personal text."""

    update_id: int | None
    reason: str
    raw: Any
    chat: None = None

    def __repr__(self) -> str:
        """Show it without what somebody may have written."""
        return f"Unparsable({self.update_id}, {self.reason!r})"


class Ignored(Value):
    """A sound update that asks nothing of the bot."""

    update_id: int
    chat: int | None = None


class Moved(Value):
    """A group that was given a new chat id."""

    update_id: int
    chat: int
    to: int


Parsed = Incoming | Ignored | Moved | Unparsable
