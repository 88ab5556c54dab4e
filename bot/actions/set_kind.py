"""Of which kind plants are whose names do not say it."""

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.identity import PlantId
from bot.domain.journal import PlantSet


class SetKind(Command):
    """The kind of plants, by its key in the catalogue."""

    plants: tuple[PlantId, ...]
    kind: str


class KindNoted(Outcome):
    plants: tuple[str, ...]
    kind: str
    unfit: tuple[str, ...]
    """Products that the catalogue says hurt the kind, as read or from memory."""


@performs
def set_kind(command: SetKind, desk: Desk) -> KindNoted:
    """Keep the kind: what it bears, and what hurts it, follows from it."""
    desk.write(desk.draft(PlantSet(kind=command.kind), plant=plant) for plant in command.plants)
    kind, products = desk.knowledge.kinds[command.kind], desk.knowledge.products
    unfit = tuple(sorted(products[key].name for key in kind.sensitive if key in products))
    return KindNoted(desk.names(command.plants), kind.name, unfit)
