"""What the bot says, before any platform's form: text, buttons, what stands out, a picture or a file."""

from bot.domain.value import Value


class Button(Value):
    """A label [up to 40 characters] and the data that comes back when pressed [1 to 64 bytes]."""

    label: str
    data: str


class Attachment(Value):
    name: str
    content: bytes


class Invitation(Value):
    """A code somebody else may begin with; the platform makes a link of it, with a button to hand it on."""

    code: str
    label: str
    """The button's words."""


class Answer(Value, kw_only=True):
    """One message, at most 4,096 characters of plain text."""

    text: str
    buttons: tuple[tuple[Button, ...], ...] = ()
    bold: str = ""
    """The line of the text that matters."""
    folded: str = ""
    """The part of the text that is shown on asking: long reasons."""
    is_silent: bool = False
    """Comes without a sound: a repeat, a notice of what another member did."""
    wants_words: bool = False
    """Asks for something typed: a group then offers the reply, without which the bot would not hear it."""
    location_label: str = ""
    """What a button says that shares where one is; private chats only. It goes with the next message."""
    is_location_settled: bool = False
    """Takes such a button away again."""
    invitation: Invitation | None = None
    picture: Attachment | None = None
    document: Attachment | None = None
