"""The evening that the tables of wordings are read in: Wednesday 2026-05-06, 20:10 in Brussels."""

from collections.abc import Iterator
from pathlib import Path
from zoneinfo import ZoneInfo

from bot.actions.action import Command
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.not_understood import NotUnderstood
from bot.actions.situation import Situation
from bot.catalogue.load import load
from bot.domain.identity import PlaceId, PlantId, ProductId
from bot.phrases.hearing import heard, understand
from bot.phrases.notation import notation
from bot.rehearsal import USUAL, read_situation
from tests.phrases.meanings import parts

ZONE = ZoneInfo("Europe/Brussels")
LANDING, KITCHEN, STUDY, BALCONY = (PlaceId(number) for number in range(1, 5))
HOYA, SMALL_HOYA, ORCHID, COFFEE, IVY, BAY, CALATHEA, CHILLI = (PlantId(number) for number in range(1, 9))
SOAP, NEEM, ALCOHOL = (ProductId(number) for number in range(1, 4))
KNOWLEDGE = load().knowledge
EVENING = read_situation(USUAL.read_text("utf-8"), KNOWLEDGE)


def table(name: str) -> Iterator[tuple[str, str]]:
    """Wording and meaning, line by line."""
    for line in (Path(__file__).parent / name).read_text(encoding="utf-8").splitlines():
        if line and not line.startswith("#"):
            wording, _, meaning = line.partition("\t")
            yield wording, meaning


def clauses(meaning: str) -> set[tuple[str, frozenset[str]]]:
    """A meaning without its order, each clause about one plant, pests by family."""
    return {(part.head, part.must) for part in parts(meaning)}


def offered(meant: tuple[Command, ...]) -> tuple[Command, ...]:
    """What was understood at once, or would be done by the first button of an offer."""
    first = meant[0]
    is_offer = isinstance(first, Incomplete) and first.missing is Missing.MEANT and len(meant) == 1
    return first.choices[0].commands if is_offer and isinstance(first, Incomplete) else meant


def said_or_offered(wording: str, situation: Situation) -> str:
    """The meaning of what was understood at once, or is offered first."""
    return notation(offered(understand(wording, situation)), situation)


def answered(text: str) -> str:
    """The meaning of what is written or answered at once on the usual evening, without what is asked back."""
    sure = (one for one in heard(text, EVENING).sure if not isinstance(one, Incomplete | NotUnderstood))
    return notation(tuple(sure), EVENING)


def first_offer(text: str) -> tuple[str, str]:
    """The meaning of the first offer on the usual evening, and what it names as left out."""
    offers = heard(text, EVENING).offers
    return (notation(offers[0].commands, EVENING), offers[0].left_out) if offers else ("", "")
