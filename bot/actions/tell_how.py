"""How a thing is done to a plant, or how one looks for pests."""

from collections.abc import Iterable

from bot.actions.action import ButtonText, Choice, Command, Outcome, performs
from bot.actions.desk import Desk
from bot.catalogue.cautions import load_cautions
from bot.catalogue.howto import load_howto
from bot.domain.caution import Occasion
from bot.domain.effort import MINUTES
from bot.domain.howto import bears_of
from bot.domain.identity import PlantId
from bot.domain.outbreak import BY_HAND
from bot.domain.trade import Method


class AskHow(Command, kw_only=True):
    """How something is done, by its key; the steps depend on the plant and the pest."""

    way: str
    plant: PlantId | None = None
    pest: str | None = None


class HowTold(Outcome, kw_only=True):
    """The steps, and what to mind."""

    title: str
    plant: str | None
    steps: tuple[str, ...]
    cautions: tuple[str, ...]
    asks_leaf: bool = False
    """Whether a leaf has to be counted yet, to know what a wash takes off here."""


@performs
def tell_how(command: AskHow, desk: Desk) -> HowTold:
    """Choose the steps by the pest told, else the plant's own, and by what the plant bears."""
    plant = None if command.plant is None else desk.plant(command.plant)
    pest = command.pest
    if pest is None and plant is not None:
        pest = next((case.pest for case in plant.open_cases), None)
    bears = bears_of(None, ()) if plant is None else bears_of(desk.knowledge.kind_of(plant), plant.traits)
    variant = load_howto().ways[command.way].for_plant(pest, bears)
    is_clean_out = command.way == Method.CLEAN_OUT.value.replace("-", "_")
    minded = load_cautions().on([Occasion.CLEAN_OUT], (), (), is_eaten=False) if is_clean_out else ()
    return HowTold(
        title=variant.title,
        plant=None if plant is None else plant.name,
        steps=variant.steps,
        cautions=tuple(one.text for one in minded),
        asks_leaf=command.way in {one.value for one in BY_HAND} and not desk.household.leaves,
    )


def offer_how(acts: Iterable[tuple[Method | None, PlantId]], desk: Desk) -> tuple[Choice, ...]:
    """Offer the steps of handwork that some plant has never had, the most work first; what to mind too."""
    hand = [
        (method, plant)
        for method, plant in acts
        if method is not None
        and not method.uses_product
        and all(one.method is not method for one in desk.plant(plant).treatments)
    ]
    if not hand:
        return ()
    most, plant = max(hand, key=lambda one: MINUTES[one[0]])
    return (Choice(ButtonText.HOW, (AskHow(way=most.value.replace("-", "_"), plant=plant),)),)
