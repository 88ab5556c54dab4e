"""A home that is open to a yes: what it holds, its things one by one, and how it is there to be spoken of."""

import re

from bot.actions.action import ButtonText, Command
from bot.actions.add_plants import AddPlants
from bot.actions.ask import Ask, Topic
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.set_place import SetPlace
from bot.actions.set_town import SetTown
from bot.actions.situation import KnownPlace, KnownPlant, Situation
from bot.actions.stock_product import StockProduct
from bot.catalogue.load import load
from bot.domain.identity import PlaceId, PlantId
from bot.domain.value import replace
from bot.phrases.home_words import ROOMS
from bot.phrases.homes import Home
from bot.phrases.saying import say_all
from bot.phrases.text import plain, words_of

ON = " on "
GOT = "got "


def offered_home(situation: Situation) -> Home | None:
    """Give the home that an open offer says back."""
    first = situation.choices[0] if situation.choices else None
    if first is None or first.text is not ButtonText.YES:
        return None
    home = Home()
    places: list[SetPlace] = []
    lines: list[str] = []
    for one in first.commands:
        match one:
            case SetTown(text=town):
                home = replace(home, town=town)
            case AddPlants(plants=plants, then=then):
                home = replace(home, plants=plants)
                lines += then.split("\n") if then else []
            case SetPlace():
                places.append(one)
            case LogCheck() | LogFind() | StockProduct():
                lines += say_all((one,), situation) or ()
            case Ask(topic=Topic.BUY):
                home = replace(home, has_nothing=True)
            case _:
                return None
    is_of_a_home = bool(home.town or home.plants or places)
    return replace(home, places=tuple(places), lines=tuple(lines)) if is_of_a_home else None


def things_of(commands: tuple[Command, ...]) -> list[str]:
    """Give each thing that an offer of a home would write, those first that no list knows."""
    named: list[str] = []
    for one in commands:
        match one:
            case SetTown(text=name) | SetPlace(name=name):
                named.append(name)
            case AddPlants(plants=plants, then=then):
                named += [re.sub(r" \d+$", "", each.name) for each in plants]
                named += [*(each.place or "" for each in plants), *then.split("\n")]
            case StockProduct() | LogCheck() | LogFind() | Ask():
                pass
            case _:
                return []
    kind = load().knowledge.kind_named
    things = dict.fromkeys(one.removeprefix(GOT) for one in named if one)
    is_listed = {one: ON not in one and bool(kind(one) or ROOMS & {*words_of(plain(one))}) for one in things}
    return sorted(things, key=is_listed.__getitem__)


def without(thing: str, home: Home) -> Home:
    """Give a home without one of its things, by its name or line as it is offered."""
    plants = (
        replace(one, place=None if one.place == thing else one.place)
        for one in home.plants
        if re.sub(r" \d+$", "", one.name) != thing
    )
    return replace(
        home,
        town="" if home.town == thing else home.town,
        plants=tuple(plants),
        places=tuple(one for one in home.places if one.name != thing),
        lines=tuple(one for one in home.lines if one.removeprefix(GOT) != thing),
    )


def with_offered(situation: Situation, offered: Home) -> Situation:
    """Give the situation in which what is offered is there."""
    here = {one.name.casefold(): one.id for one in situation.places}
    named = [name for name in dict.fromkeys(places_of(offered)) if name.casefold() not in here]
    rooms = tuple(KnownPlace(PlaceId(-n), name) for n, name in enumerate(named, 1))
    here |= {one.name.casefold(): one.id for one in rooms}
    own = {name.casefold() for one in situation.plants for name in one.names}
    plants = tuple(
        KnownPlant(id=PlantId(-n), names=(one.name,), place=here.get((one.place or "").casefold()))
        for n, one in enumerate(offered.plants, 1)
        if one.name.casefold() not in own and not one.name[-1:].isdigit()  # ranges are read as they are told
    )
    if not (plants or rooms):
        return situation
    return replace(situation, plants=(*situation.plants, *plants), places=(*situation.places, *rooms))


def places_of(home: Home) -> list[str]:
    """Give the places a home is told with."""
    return [*filter(None, (one.place for one in home.plants)), *(one.name for one in home.places if one.name)]
