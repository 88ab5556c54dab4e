"""What all outcomes have in common."""

from dataclasses import field

from bot.actions.choice import Choice
from bot.actions.situation import Expecting
from bot.domain.value import Value


class Asking(Value):
    """A question: what may be answered by button, and what an answer in words would mean."""

    choices: tuple[Choice, ...] = ()
    expecting: Expecting = Expecting.CHOICE


class Outcome(Value):
    """What came of a command: the wording makes sentences of it, nobody else does."""

    asking: Asking | None = field(default=None, kw_only=True)
    """The question it opens; nothing else says whether one is open."""
    offers: tuple[Choice, ...] = field(default=(), kw_only=True)
    """Buttons beside the answer that nothing waits for."""
