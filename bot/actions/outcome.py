"""What all outcomes have in common."""

from dataclasses import field

from bot.actions.choice import Choice
from bot.actions.situation import Expecting
from bot.domain.value import dataclass


@dataclass(frozen=True, slots=True)
class Asking:
    """A question: what may be answered by button, and what an answer in words would mean."""

    choices: tuple[Choice, ...] = ()
    expecting: Expecting = Expecting.CHOICE


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of a command: the wording makes sentences of it, nobody else does."""

    asking: Asking | None = field(default=None, kw_only=True)
    """The question it opens; nothing else says whether one is open."""
    offers: tuple[Choice, ...] = field(default=(), kw_only=True)
    """Buttons beside the answer that nothing waits for."""
