"""What a pest is: where it hides, how it spreads, how it is fought."""

from bot.actions.action import Command, Outcome, performs
from bot.actions.ask import Ask, Topic, answers
from bot.actions.desk import Desk
from bot.actions.pest_word import candidates, general_pest
from bot.domain.pest import Pest


class DescribePest(Command):
    """What a pest is, by its key or a word that several share."""

    pest: str


class PestDescribed(Outcome):
    """A pest, and what of the shelf works on it."""

    pest: Pest
    products: tuple[str, ...]


@performs
def describe_pest(command: DescribePest, desk: Desk) -> PestDescribed:
    """Describe the pest; a word for several stands for the cautious side of each."""
    keys = candidates(command.pest, desk)
    key = keys[0] if len(keys) == 1 else general_pest(command.pest, desk) or keys[0]
    pest = desk.knowledge.pests[key]
    on_shelf = [one.ingredient for one in desk.household.products.values() if one.stock_ml != 0]
    kinds = [desk.knowledge.products[one] for one in dict.fromkeys(on_shelf) if pest.is_reached_by(one)]
    return PestDescribed(pest, tuple(kind.name for kind in kinds))


class PestsKnown(Outcome):
    """The pests that are known by name."""

    names: tuple[str, ...]


@answers(Topic.PESTS)
def name_pests(_: Ask, desk: Desk) -> PestsKnown:
    """Name what is known."""
    return PestsKnown(tuple(one.name for one in desk.knowledge.pests.values() if not one.of))
