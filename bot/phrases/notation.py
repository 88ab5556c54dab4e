"""Commands in one line of plain words: for tests, and for whoever asks what a message would do."""

import re
from collections.abc import Callable, Iterable, Mapping
from datetime import date, datetime, time
from decimal import Decimal
from enum import Enum
from functools import cache
from operator import attrgetter
from typing import Any

from bot.actions.action import Command
from bot.actions.add_plants import AddPlants
from bot.actions.correct import Correct
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.set_animals import SetAnimals
from bot.actions.set_town import SetCoordinates
from bot.actions.situation import Situation
from bot.actions.tell_poison import AskPoison
from bot.domain.trade import Form

_Getters = tuple[tuple[str, Callable[[object], Any]], ...]
_QUOTED = frozenset({Missing.ADD, Missing.UNKNOWN_PLANT})
_NOTED: Mapping[str, str] = {
    "Ask": "ask {topic} {plants} place={place} product={product} when={when}",
    "AskHow": "ask how {way} {plant} pest={~pest}",
    "AskTerm": "ask term {term}",
    "BeginWalk": "walk {plants} level={level}",
    "BeginWork": "work {plants}",
    "ConsiderPlan": "refuse {danger}",
    "Correct": "correct {plant} pest={~pest} count={count}",
    "DescribePest": "ask about {~pest}",
    "EndWalk": "endwalk for-good?is_for_good",
    "EndWork": "endwork for-good?is_for_good",
    "Export": "export kind={kind}",
    "Forget": "forget {what}",
    "GiveFirstAid": "exposure",
    "HandOver": "handover {~name}",
    "Hold": "hold from={since} until={until}",
    "Identify": "ask pest {plants}",
    "Isolate": "isolate {plants} {on} apart=no?!apart days={quarantine_days}",
    "LogCheck": "none {plants} level={level} {on}",
    "LogFind": "find {plants} {grade|count} pest={~pest} where={where} {on}",
    "LogRound": "done {plants} method={method} product={product|ingredient} {on} at={at}",
    "LogSign": "sign {plants} sign={sign} {on}",
    "LogUse": "use ml={ml} {on}",
    "LogWatering": "watered {plants} {on}",
    "LosePlant": "lost {plants} {on}",
    "Mix": "mix ml={volume_ml} product={product|ingredient}",
    "MovePlant": "move {plants} place={~room|place} {on}",
    "NotUnderstood": "unclear",
    "PassPlant": "pass {plants}",
    "Postpone": "later {plants} on={on} at={at}",
    "ReadTemperature": "temperature {place} c={celsius} low={low} high={high} {on} months={months}",
    "ReleasePlant": "release {plants} {on} anyway?confirmed",
    "RemoveMember": "removemember {~name}",
    "RemovePlace": "unplace {place}",
    "Rename": "rename {place|plant} name={~name}",
    "SetHours": "hours evening={evening} quiet={quiet_from}-{quiet_until}",
    "SetKind": "kind {plants} {kind}",
    "SetPlace": "place {~place_id|name} facing={~facing} outdoors={outdoors} lamp={lamp_until}",
    "SetPot": "pot {plants} cm={pot_cm}",
    "SetRepeats": "repeats {is_wanted}",
    "SetRoutine": "routine {name} rule={rule}",
    "SetStatus": "status {is_wanted}",
    "SetStrict": "strict {is_strict}",
    "SetTown": "town {~text}",
    "SetTraits": "tell {plants} {trait}",
    "SetUnits": "units {units} clock={clock_hours}",
    "SkipQuestion": "skip",
    "StockProduct": "stock product={ingredient} form={label.form} gap={label.gap_days} ml={stock_ml}"
    " rate={label.rate_ml_per_l} most={label.most_ml_per_l} percent={label.strength_percent}"
    " uses={label.uses_a_year} harvest={label.harvest_days} indoors={label.is_for_indoors}"
    " edibles={label.is_for_edibles}",
    "TickWork": "tick but={but} leave-out?is_left_out",
}
"""By a command's class: {field}, {~field} as one small word, {field|other} where it is empty, word?field."""
_PARTS = {name: tuple(form.split()) for name, form in _NOTED.items()}
_FIELD = re.compile(r"\{(~?)([\w.|]+)\}")


@cache
def _fields_of(part: str) -> tuple[str, tuple[tuple[bool, _Getters], ...]]:
    """Give a part with room for its fields, and how each is got."""
    found = _FIELD.findall(part)
    fields = ((bool(key), tuple((one, attrgetter(one)) for one in names.split("|"))) for key, names in found)
    return _FIELD.sub("{}", part), tuple(fields)


def notation(commands: tuple[Command, ...], situation: Situation) -> str:
    """Write commands as intent, plants and options, several joined by " + "."""
    write = _Writer(situation)
    return " + ".join(_line(command, write) for command in commands)


def _line(command: Command, write: "_Writer") -> str:
    name = type(command).__name__
    match command:
        case Correct(pest=None, count=None):
            return write.all(("correct", "plant={plant}"), command)
        case Incomplete(missing=missing):
            return write.all(
                ("ask", "{missing}", "{plants}", "{text}" if missing in _QUOTED else ""), command
            )
        case AddPlants(plants=plants):
            return " + ".join(
                write.all(("add", "{~name}", "place={~place}", "cm={pot_cm}"), one) for one in plants
            )
        case SetCoordinates(town=town):
            return f"town {_key(town or f'{command.latitude},{command.longitude}')}"
        case SetAnimals(animals=animals, gone=gone):
            return " ".join(("animals", *animals, *(f"-{one}" for one in gone)))
        case AskPoison(names=names):
            whom = ",".join((*(eater.value for eater in command.eaters), *command.others))
            words = (write.all(("ask", "poison", "{plants}"), command), *map(_key, names))
            return " ".join((*words, f"to={whom}") if whom else words)
        case _:
            return write.all(_PARTS.get(name, (name.lower(),)), command)


def _key(name: str) -> str:
    return name.lower().replace(" ", "_")


class _Writer:
    """Names of a household as keys."""

    def __init__(self, situation: Situation) -> None:
        self._situation = situation
        self._of_names: Mapping[str, Callable[[Any], str]] = {
            "plants": lambda plants: " ".join(filter(None, map(self._plant, plants))),
            "but": lambda plants: " ".join(filter(None, map(self._plant, plants))),
            "plant": self._plant,
            "place": self._place,
            "place_id": self._place,
            "product": self._product,
        }

    def all(self, parts: Iterable[str], told: object) -> str:
        """Write the parts of which something was told."""
        return " ".join(filter(None, (self._part(part, told) for part in parts)))

    def _part(self, part: str, told: object) -> str:
        word, asks, field = part.partition("?")
        if asks:
            return word if getattr(told, field.removeprefix("!")) is not field.startswith("!") else ""
        form, fields = _fields_of(part)
        found = [self._first(names, told, is_key=is_key) for is_key, names in fields]
        if found and not any(found):
            return ""
        if part == "{on}":  # a day behind us; today needs no saying
            return "" if found[0] == self._situation.today.isoformat() else f"on={found[0]}"
        if part == "but={but}":
            return " ".join(f"but={one}" for one in found[0].split())
        return form.format(*found)

    def _first(self, names: _Getters, told: object, *, is_key: bool) -> str:
        """Write the first of some fields that is told."""
        for name, field in names:
            value = field(told)
            if text := "" if value is None else self._value(name, value):
                return _key(text) if is_key else text
        return ""

    def _value(self, name: str, value: Any) -> str:
        if name in self._of_names and isinstance(value, int | tuple):
            return self._of_names[name](value)
        match value:
            case Form.CONCENTRATE:  # as it is bought, where nothing else is told
                return ""
            case bool():
                return "yes" if value else "no"
            case Enum():
                return str(value.value)
            case datetime():
                return value.astimezone(self._situation.zone).strftime("%H:%M")
            case time():
                return value.strftime("%H:%M")
            case date():
                return value.isoformat()
            case float() | Decimal():
                return f"{round(value)}" if name == "volume_ml" else f"{Decimal(str(value)).normalize():f}"
            case tuple():
                return ",".join(map(str, value))
            case _:
                return str(value)

    def _plant(self, plant: int) -> str:
        return next((_key(known.names[0]) for known in self._situation.plants if known.id == plant), "")

    def _place(self, place: int) -> str:
        return next((_key(known.name) for known in self._situation.places if known.id == place), "?")

    def _product(self, product: int) -> str:
        """Write a product of the shelf by its kind in the catalogue."""
        names = next((known.names for known in self._situation.shelf if known.id == product), None)
        if names is None:
            return ""
        kinds = (key for key, words in self._situation.ingredients if names[0] in words)
        return next(kinds, _key(names[0]))
