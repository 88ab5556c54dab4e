"""What a person sent, before anybody reads its meaning: free of any platform's form."""

from datetime import datetime
from zlib import crc32

from bot.domain.value import Value


class Text(Value):
    """A message of words; a command keeps its slash and loses the bot's name."""

    text: str


class Location(Value):
    """A shared location. [deg]."""

    latitude: float
    longitude: float


class Press(Value):
    """A button pressed under a message of ours; message_id is None when the platform no longer knows it."""

    data: str
    message_id: int | None
    callback_id: str
    text: str = ""
    """What the message says, where the platform still knows it."""


class Photo(Value):
    """A picture by its largest size, with what was written under it."""

    file_id: str
    caption: str
    album: str = ""
    """What pictures sent together have in common."""


class Reaction(Value):
    """Signs newly put under a message, such as a thumb; message_id is that message's."""

    signs: tuple[str, ...]
    message_id: int


class Other(Value):
    """Something the bot cannot read: a sticker, a voice message."""

    what: str


Kind = Text | Location | Press | Photo | Reaction | Other


class Quoted(Value):
    """The message an incoming one replies to: its text, or the part of it that was picked out."""

    message_id: int
    text: str
    is_ours: bool


class Incoming(Value, kw_only=True):
    """
    One thing one person did in one chat. addressed: meant for the bot (always so in a private chat).

    message_id is the message's own number, kept by an edit of it; a press or a reaction has none of its own.
    """

    update_id: int
    chat: int
    person: int
    name: str
    kind: Kind
    at: datetime
    is_group: bool
    addressed: bool
    message_id: int | None = None
    is_forwarded: bool = False
    """Somebody else's words, or older ones, handed on: not what the sender says now."""
    is_edit: bool = False
    """Says anew what the message of this number said before."""
    quoted: Quoted | None = None

    @property
    def source(self) -> str:
        """Name what entries come from: a message keeps its name when it is edited, a press has none."""
        if self.message_id is None or not isinstance(self.kind, Text | Photo):
            return f"update:{self.update_id}"
        if not self.is_group:
            return f"message:{self.message_id}"
        # numbers are given group by group, and one home may be spoken with in two
        return f"group:{crc32(str(self.chat).encode()):x}:{self.message_id}"

    @property
    def text(self) -> str:
        """Give the words typed, none where something else was sent."""
        return self.kind.text if isinstance(self.kind, Text) else ""

    @property
    def words(self) -> str:
        """Give all words sent: new, edited, passed on, or under a photo."""
        return self.kind.caption if isinstance(self.kind, Photo) else self.text
