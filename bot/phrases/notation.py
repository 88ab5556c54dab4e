"""Commands in one line of plain words: for tests, and for whoever asks what a message would do."""

from datetime import date
from decimal import Decimal

from bot.actions.add_plants import AddPlants
from bot.actions.ask import Ask
from bot.actions.command import Command
from bot.actions.correct import Correct
from bot.actions.courtesy import Greet, Help, Thanks
from bot.actions.decline import Decline
from bot.actions.give_first_aid import GiveFirstAid
from bot.actions.hold import Hold
from bot.actions.identify import Identify
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.isolate import Isolate
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound
from bot.actions.log_sign import LogSign
from bot.actions.lose_plant import LosePlant
from bot.actions.mix_batch import Mix
from bot.actions.move_plant import MovePlant
from bot.actions.not_understood import NotUnderstood
from bot.actions.postpone import Postpone
from bot.actions.read_temperature import ReadTemperature
from bot.actions.release_plant import ReleasePlant
from bot.actions.set_routine import SetRoutine
from bot.actions.set_traits import SetTraits
from bot.actions.situation import Situation
from bot.actions.skip_question import SkipQuestion
from bot.actions.stock_product import StockProduct
from bot.actions.undo import Undo
from bot.actions.walk_through import BeginWalk
from bot.domain.identity import PlaceId, PlantId, ProductId
from bot.domain.trade import Form

_BARE: dict[type, str] = {
    Undo: "undo",
    Thanks: "thanks",
    Help: "help",
    GiveFirstAid: "exposure",
    Greet: "greet",
    Decline: "decline",
    SkipQuestion: "skip",
    NotUnderstood: "unclear",
}
_QUOTED = frozenset({Missing.ADD, Missing.UNKNOWN_PLANT})


def notation(commands: tuple[Command, ...], situation: Situation) -> str:
    """Write commands as intent, plants and options, several joined by " + "."""
    return " + ".join(_line(command, situation) for command in commands)


def _line(command: Command, situation: Situation) -> str:
    bare = _BARE.get(type(command))
    words = [bare] if bare else _words(command, situation)
    return " ".join(word for word in words if word)


def _words(command: Command, situation: Situation) -> list[str]:
    told = _told(command, situation)
    return told if told is not None else _kept(command, situation)


def _told(command: Command, situation: Situation) -> list[str] | None:
    """Write what was done, put off, seen."""
    write = _Writer(situation)
    match command:
        case LogRound():
            options = [_option("method", command.method and command.method.value)]
            options += [_option("product", write.product(command.product))]
            at = command.at and command.at.astimezone(situation.zone).strftime("%H:%M")
            return [
                "done",
                *write.plants(command.plants),
                *options,
                write.past(command.on),
                _option("at", at),
            ]
        case Postpone():
            at = command.at and command.at.astimezone(situation.zone).strftime("%H:%M")
            return ["later", *write.plants(command.plants), _option("on", command.on), _option("at", at)]
        case LogFind():
            amount = command.grade.value if command.grade else _option("", command.count)
            seen = [_option("pest", command.pest), _option("where", command.where), write.past(command.on)]
            return ["find", *write.plants(command.plants), amount, *seen]
        case LogSign():
            sign = _option("sign", command.sign.value)
            return ["sign", *write.plants(command.plants), sign, write.past(command.on)]
        case LogCheck():
            level = _option("level", command.level and command.level.value)
            return ["none", *write.plants(command.plants), level, write.past(command.on)]
        case _:
            return None


def _kept(command: Command, situation: Situation) -> list[str]:
    """Write what became of plants, and what was asked."""
    write = _Writer(situation)
    match command:
        case Correct():
            if command.pest is None:
                return ["correct", _option("plant", write.plant(command.plant))]
            return ["correct", write.plant(command.plant) or "", _option("pest", command.pest)]
        case Isolate():
            return ["isolate", *write.plants(command.plants), write.past(command.on)]
        case MovePlant():
            place = _option("place", write.place(command.place))
            return ["move", *write.plants(command.plants), place, write.past(command.on)]
        case ReleasePlant():
            anyway = "anyway" if command.confirmed else ""
            return ["release", *write.plants(command.plants), write.past(command.on), anyway]
        case LosePlant():
            return ["lost", *write.plants(command.plants), write.past(command.on)]
        case Incomplete():
            text = command.text if command.missing in _QUOTED else ""
            return ["ask", command.missing.value, *write.plants(command.plants), text]
        case Ask():
            product, when = _option("product", write.product(command.product)), _option("when", command.when)
            return ["ask", command.topic.value, *write.plants(command.plants), product, when]
        case _:
            return _of_the_household(command, situation)


def _of_the_household(command: Command, situation: Situation) -> list[str]:
    write = _Writer(situation)
    match command:
        case AddPlants(plants):
            return ["add", *(_key(p.name) + (f" place={_key(p.place)}" if p.place else "") for p in plants)]
        case StockProduct():
            form = "form=ready" if command.form is Form.READY else ""
            options = [form, _option("gap", command.gap_days), _option("ml", _number(command.stock_ml))]
            return ["stock", _option("product", command.ingredient), *options]
        case ReadTemperature():
            return [
                "temperature",
                write.place(command.place),
                _option("c", _number(command.celsius)),
                write.past(command.on),
            ]
        case SetRoutine():
            return ["routine", command.name, _option("rule", command.rule)]
        case Hold():
            return ["hold", _option("until", command.until)]
        case Mix():
            return [
                "mix",
                _option("ml", None if command.volume_ml is None else round(command.volume_ml)),
                _option("product", write.product(command.product)),
            ]
        case Identify():
            return ["ask", "pest", *write.plants(command.plants)]
        case BeginWalk():
            return ["walk", _option("level", command.level and command.level.value)]
        case SetTraits():
            return ["tell", *write.plants(command.plants), command.trait]
        case _:
            return [type(command).__name__.lower()]


def _option(name: str, value: object) -> str:
    if value is None:
        return ""
    text = value.isoformat() if isinstance(value, date) else str(value)
    return f"{name}={text}" if name else text


def _number(value: float | None) -> str | None:
    return None if value is None else f"{Decimal(str(value)).normalize():f}"


def _key(name: str) -> str:
    return name.lower().replace(" ", "_")


class _Writer:
    """Names of a household as keys."""

    def __init__(self, situation: Situation) -> None:
        self._situation = situation

    def plants(self, plants: tuple[PlantId, ...]) -> list[str]:
        return [self.plant(plant) or "" for plant in plants]

    def plant(self, plant: PlantId | None) -> str | None:
        return next((_key(known.names[0]) for known in self._situation.plants if known.id == plant), None)

    def place(self, place: PlaceId) -> str:
        return next((_key(known.name) for known in self._situation.places if known.id == place), "?")

    def product(self, product: ProductId | None) -> str | None:
        return next((_key(known.names[0]) for known in self._situation.shelf if known.id == product), None)

    def past(self, day: date | None) -> str:
        """Write a day behind us; today needs no saying."""
        return "" if day is None or day == self._situation.today else _option("on", day)
