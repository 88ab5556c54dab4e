"""The first word: a household begins, or a member greets the bot again."""

from bot.actions.action import Asking, Command, Expecting, Outcome, performs
from bot.actions.desk import Desk


class BeginTalk(Command):
    """/start, with what a deep link or a founding code added."""

    payload: str = ""


class Founded(Outcome):
    """A household begins; the town is asked next."""

    name: str


class Welcome(Outcome):
    """/start from a member; says what is still missing."""

    lacks: tuple[str, ...]


@performs
def start(_: BeginTalk, desk: Desk) -> Welcome:
    """Greet a member; say what is still missing."""
    household = desk.household
    lacks = []
    if not household.is_zone_told:
        lacks.append("town")
    if not household.living:
        lacks.append("plants")
    return Welcome(tuple(lacks), asking=None if household.is_zone_told else Asking((), Expecting.TOWN))
