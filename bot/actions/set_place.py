"""Places and their windows."""

from datetime import time

from bot.actions.action import Asking, ButtonText, Choice, Command, Expecting, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.household import Place
from bot.domain.identity import PlaceId
from bot.domain.journal import PlaceSet
from bot.domain.window import Facing, Outdoors


class SetPlace(Command, kw_only=True):
    """Add a place, or tell more about one (place_id set)."""

    name: str
    place_id: PlaceId | None = None
    facing: Facing | None = None
    outdoors: Outdoors | None = None
    lamp_from: time | None = None
    lamp_until: time | None = None
    has_lamp: bool = False
    """Whether a lamp was told of without its hours, which are asked for."""


class PlacesSaved(Outcome):
    places: tuple[Place, ...]
    lamps: tuple[str, ...] = ()
    """Places whose lamp has no hours yet."""


class NoPlaceAsked(Outcome):
    """Something about a place, but none was named or asked about."""


FACINGS = (
    (ButtonText.NORTH, Facing.N),
    (ButtonText.NORTH_EAST, Facing.NE),
    (ButtonText.EAST, Facing.E),
    (ButtonText.SOUTH_EAST, Facing.SE),
    (ButtonText.SOUTH, Facing.S),
    (ButtonText.SOUTH_WEST, Facing.SW),
    (ButtonText.WEST, Facing.W),
    (ButtonText.NORTH_WEST, Facing.NW),
    (ButtonText.NO_WINDOW, Facing.NONE),
    (ButtonText.DONT_KNOW, Facing.UNKNOWN),
)


@performs
def set_place(command: SetPlace, desk: Desk) -> PlacesSaved | NoPlaceAsked:
    """Add a place or tell more about one; without a name it is the place whose window is still untold."""
    known = command.place_id or (_place_named(desk, command.name) if command.name else _place_asked(desk))
    if known is None and not command.name:
        return NoPlaceAsked()
    place = known or desk.store.new_place(desk.member.household)
    told = PlaceSet(
        place=place,
        name=None if known else command.name,
        facing=command.facing,
        outdoors=command.outdoors,
        lamp_from=command.lamp_from,
        lamp_until=command.lamp_until,
    )
    desk.write([desk.draft(told)])
    kept = desk.household.places[place]
    return PlacesSaved((kept,), (kept.name,) if command.has_lamp and kept.lamp_until is None else ())


def _place_named(desk: Desk, name: str) -> PlaceId | None:
    wanted = name.casefold().strip()
    return next(
        (place.id for place in desk.household.places.values() if place.name.casefold() == wanted), None
    )


def _place_asked(desk: Desk) -> PlaceId | None:
    """Give the place whose window was just asked about."""
    return next((one.id for one in untold_places(desk)), None)


def untold_places(desk: Desk) -> tuple[Place, ...]:
    """Give the places whose window nobody told: the one question a place needs."""
    places = desk.household.places.values()
    return tuple(one for one in places if one.facing is None and one.outdoors is None)


def ask_window(place: Place) -> Asking:
    """Ask where a place's window looks."""
    choices = tuple(
        Choice(text, (SetPlace(name=place.name, place_id=place.id, facing=facing),))
        for text, facing in FACINGS
    )
    return Asking(choices, Expecting.PLACE)
