"""What stands in commands: their plants, and all plain values."""

from collections.abc import Iterable, Iterator
from decimal import Decimal

from bot.actions.action import Command
from bot.actions.incomplete import Incomplete
from bot.domain.identity import PlantId
from bot.domain.value import names_of


def plants_of(commands: Iterable[Command]) -> Iterator[PlantId]:
    """Give the plants that commands are about."""
    for one in commands:
        plants = getattr(one, "plants", None)
        if plants is None:
            plant = getattr(one, "plant", None)
            plants = () if plant is None else (plant,)
        if all(isinstance(plant, int) for plant in plants):
            yield from plants


def values_of(commands: Iterable[Command]) -> frozenset[object]:
    """Give all plain values that stand in commands but numbers: names, ids, kinds."""
    return frozenset(value for name, value in _values(commands) if name in _IDS or not _is_number(value))


def numbers_of(commands: Iterable[Command]) -> frozenset[float]:
    """Give all numbers that stand in commands."""
    told = (value for name, value in _values(commands) if name not in _IDS and not isinstance(value, bool))
    return frozenset(float(value) for value in told if isinstance(value, _NUMBERS))


_NUMBERS = (int, float, Decimal)
_IDS = frozenset({"place", "product", "plant", "place_id"})


def _values(commands: Iterable[Command]) -> Iterator[tuple[str, object]]:
    for one in commands:
        if not isinstance(one, Incomplete):
            for name in names_of(one):
                value = getattr(one, name)
                if type(value).__hash__ is not None:  # as Hashable asks, which takes ten times as long
                    yield name, value


def _is_number(value: object) -> bool:
    return isinstance(value, _NUMBERS) and not isinstance(value, bool)
