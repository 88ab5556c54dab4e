"""Clauses that tell of a treatment done."""

from datetime import UTC, date, datetime

from bot.actions.action import ButtonText, Choice, Command
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.log_round import LogRound
from bot.catalogue.load import load
from bot.domain.identity import PlantId, ProductId
from bot.domain.trade import Method
from bot.phrases.asking import Meant, ask_method, ask_seen, ask_which, bad_day, not_understood
from bot.phrases.clause import DATES, Clause, Setting, excepted, is_scattered, named
from bot.phrases.days import Clock, Moment, Trouble, day_behind, meant_hour
from bot.phrases.lexicon import Spot, Tool, Word
from bot.phrases.names import Place, Plants, Product

_ALLOWED = (Word.DONE, Word.ALL, Word.BOTH, Word.IT, Word.THEM, Word.REST, Word.EXCEPT, Word.IT_IS, Word.GOT)
_KINDS = (Method, Tool, Product, Plants, Place, Spot, *DATES, Moment, Clock)
_TREATED = frozenset({"leaf", "underside", "stem"})
"""Parts whose treatment is the plant's; the mix and the roots are another matter."""
_LOOSE = (Word.RELEASE, Word.PUT)
_PAIR = 2


def read_round(clause: Clause, setting: Setting) -> Meant | None:
    """Read "done", "sprayed the hoya yesterday"; None when no listed verb of doing is in it."""
    is_let_loose = _is_let_loose(clause)
    is_told = clause.has(Word.DONE) or bool(clause.every(Method)) or is_let_loose
    if not is_told and not _is_all_but(clause, setting):
        return None
    if not clause.only(*_ALLOWED, *_KINDS, *(_LOOSE if is_let_loose else ())):
        return None
    if any(spot.name not in _TREATED for spot in clause.every(Spot)):
        return None
    if is_scattered(clause) and not clause.has(Word.EXCEPT):
        return None
    if _has_verbs_on_both_sides(clause):
        return None
    moment = _when(clause, setting)
    if isinstance(moment, Trouble):
        return bad_day(clause, moment)
    product = clause.one(Product)
    if product is not None and product.id is None:
        return not_understood(clause, "shelf")
    return _told(clause, setting, moment, None if product is None else product.id)


def _is_let_loose(clause: Clause) -> bool:
    """Tell of "released phytoseiulus on the ivy": animals come onto the plant, which stays where it is."""
    product = clause.one(Product)
    kind = None if product is None else load().products.get(product.ingredient or "")
    return kind is not None and kind.is_alive and clause.has(*_LOOSE)


def _has_verbs_on_both_sides(clause: Clause) -> bool:
    """Tell of "washed the bay repotted", where the comma that tells who got what is missing."""
    kinds = [type(m) for m in clause.content() if isinstance(m, Method | Plants)]
    runs = [kind for at, kind in enumerate(kinds) if at == 0 or kinds[at - 1] is not kind]
    return len(runs) > len((Method, Plants))


def _is_all_but(clause: Clause, setting: Setting) -> bool:
    """Read "all but the coffee" answers the nudge without a verb."""
    is_whole = clause.items[0].text.startswith(("all", "everything"))
    return (
        is_whole
        and setting.is_first
        and clause.has(Word.EXCEPT)
        and clause.only(Word.ALL, Word.EXCEPT, Plants)
    )


_Moment = tuple[date | None, datetime | None]


def _told(clause: Clause, setting: Setting, moment: _Moment, product: ProductId | None) -> Meant:
    on, at = moment
    methods = _methods(clause)
    if methods:
        return _with_methods(
            clause, setting, [LogRound(plants=(), method=m, product=product, on=on, at=at) for m in methods]
        )
    plants = _explicit(clause, setting)
    if plants is None:
        return _bare(clause, setting, LogRound(plants=(), product=product, on=on, at=at))
    left = tuple(plant for plant in plants if plant not in excepted(clause))
    told = LogRound(plants=(), product=product, on=on, at=at)
    is_nothing_open = not setting.tonight() and not named(clause)
    return _sorted_out(left, setting, told) or not_understood(
        clause, "nothing open" if is_nothing_open else "plants"
    )


def _methods(clause: Clause) -> tuple[Method, ...]:
    told = clause.every(Method) or ([Method.PREDATORS] if _is_let_loose(clause) else [])
    return tuple(dict.fromkeys(told or [tool.method for tool in clause.every(Tool)]))


def _explicit(clause: Clause, setting: Setting) -> tuple[PlantId, ...] | None:
    """Find plants the clause names or points at; None when it names none."""
    plants = named(clause)
    place = clause.one(Place)
    if plants:
        return plants if place is None else tuple(p for p in plants if p in setting.of_place(place))
    if place is not None:
        there = setting.of_place(place)
        return tuple(p for p in there if p in setting.treatments()) or there
    if clause.has(Word.REST):
        return tuple(p for p in setting.answered() if p not in setting.mentioned)
    if clause.has(Word.BOTH):
        return _both(setting)
    if clause.has(Word.IT, Word.THEM) and setting.before:
        return setting.before
    return None


def _both(setting: Setting) -> tuple[PlantId, ...]:
    plants = setting.before or setting.treatments() or setting.tonight()
    return plants if len(plants) == _PAIR else ()


def _bare(clause: Clause, setting: Setting, told: LogRound) -> Meant:
    """Read "done": all of tonight's treatments, unless other plants were just spoken of."""
    plants = tuple(p for p in setting.answered() if p not in excepted(clause))
    if setting.before and not clause.has(Word.ALL):
        if clause.joint in {"and", "&", "+", "then"}:
            return _sorted_out(setting.before, setting, told)
        return (_which_ones(clause, setting, told, plants),)
    if not plants and set(setting.treatments()) - set(excepted(clause)):
        return (ask_which(clause, setting, lambda chosen: _for(told, chosen)),)
    return (_for(told, plants),) if plants else not_understood(clause, "nothing open")


def _which_ones(
    clause: Clause, setting: Setting, told: LogRound, all_of_them: tuple[PlantId, ...]
) -> Incomplete:
    asked = ask_which(clause, setting, lambda plants: _for(told, plants))
    everything = Choice(ButtonText.ALL_TONIGHT, (_for(told, all_of_them),))
    return Incomplete(missing=Missing.WHICH_PLANT, text=asked.text, choices=(*asked.choices, everything))


def _with_methods(clause: Clause, setting: Setting, told: list[LogRound]) -> Meant:
    plants = _explicit(clause, setting)
    if plants is None:
        plants = _meant_by_method(clause, setting, told)
    if plants is None:
        return (ask_which(clause, setting, lambda chosen: _for(told[0], chosen)),)
    plants = tuple(p for p in plants if p not in excepted(clause))
    return tuple(_for(each, plants) for each in told) if plants else not_understood(clause, "plants")


def _meant_by_method(clause: Clause, setting: Setting, told: list[LogRound]) -> tuple[PlantId, ...] | None:
    """Read "sprayed": what tonight asked to spray; unclear beside other plants or "everything"."""
    asked = setting.answered(told[0].method) if len(told) == 1 else ()
    if setting.before:
        return None if set(asked) - set(setting.before) else setting.before
    if clause.has(Word.ALL) and asked != setting.answered():
        return None
    return asked or None


def _sorted_out(plants: tuple[PlantId, ...], setting: Setting, told: LogRound) -> Meant:
    """Make a round for those asked to be treated; a question for the others: done is never a check."""
    treated = tuple(p for p in plants if p in setting.treatments())
    checks = tuple(p for p in plants if p in setting.tonight() and p not in treated)
    others = tuple(p for p in plants if p not in setting.tonight())
    meant: list[Command] = [_for(told, treated)] if treated else []
    if checks:
        meant.append(ask_seen(checks, told.on))
    if others:
        meant.append(ask_method(others, product=told.product, on=told.on, at=told.at))
    return tuple(meant)


def _for(told: LogRound, plants: tuple[PlantId, ...]) -> LogRound:
    return LogRound(plants=plants, method=told.method, product=told.product, on=told.on, at=told.at)


def _when(clause: Clause, setting: Setting) -> _Moment | Trouble:
    situation = setting.situation
    moment, clock, day = clause.one(Moment), clause.one(Clock), clause.day()
    if moment is not None:
        return Trouble.FUTURE if moment.at > situation.now else (None, moment.at.astimezone(UTC))
    if clock is not None:
        told = datetime.combine(situation.today, meant_hour(clock, latest=8), situation.zone)
        return Trouble.FUTURE if told > situation.now else (None, told.astimezone(UTC))
    if day is None:
        return None, None
    on = day_behind(day, situation)
    return on if isinstance(on, Trouble) else (on, None)
