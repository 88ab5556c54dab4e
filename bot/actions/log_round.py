"""Write down treatments done: tonight's, or others, on any day."""

from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from datetime import date, datetime
from enum import Enum

from bot.actions.action import Asking, ButtonText, Choice, Command, Outcome, performs
from bot.actions.desk import Desk
from bot.actions.lose_plant import LosePlant, asked_back
from bot.actions.stock_product import StockProduct, stock
from bot.domain.course import Step, next_step
from bot.domain.gap import Lateness
from bot.domain.household import Plant, Treatment
from bot.domain.identity import PlantId, ProductId
from bot.domain.journal import Entry, Nudged, NudgedTask, Treated, evening_of
from bot.domain.outbreak import label_days
from bot.domain.progress import Progress
from bot.domain.refusal import Refusal, Use, eat_from, is_edible, refusals
from bot.domain.tonight import Kind, Line, is_changed
from bot.domain.trade import Method
from bot.domain.value import Value, replace

Part = tuple[PlantId, Method, ProductId | None]
"""One treatment of one plant."""


class Earlier(Enum):
    """What becomes of the same treatment told with another product for that day."""

    REPLACED = "replaced"
    KEPT = "kept"


class LogRound(Command, kw_only=True):
    """A treatment done. No method: what tonight's nudge asked of each plant."""

    plants: tuple[PlantId, ...]
    method: Method | None = None
    product: ProductId | None = None
    ingredient: str = ""
    """What it was done with that is not on the shelf yet, whatever stands for the product."""
    on: date | None = None
    at: datetime | None = None
    parts: tuple[Part, ...] = ()
    """Just these treatments, as a message named them; else what was announced for the plants."""
    earlier: Earlier | None = None
    """Asked where the day has that treatment with another product already."""
    then: tuple[PlantId, ...] = ()
    """Plants of which it is asked next what was done: one question at a time."""


class TooSoon(Value, kw_only=True):
    """A product was used sooner than its label allows; logged, with a warning."""

    plant: str
    product: str
    days: int
    label_days: int
    is_before: bool = False
    """Whether the other use came after it: it was told of first."""


class DonePlant(Value, kw_only=True):
    """One plant's treatment as written, and what comes next for it."""

    name: str
    method: Method
    product: str | None
    next: Step | None
    progress: tuple[Progress, ...]
    late: Step | None
    is_repeat: bool


class Spent(Value):
    """A plant, the product used on it, the rules that forbid it from now on, and the next product, if any."""

    plant: str
    product: str
    refusals: tuple[Refusal, ...]
    following: str | None


class RoundLogged(Outcome, kw_only=True):
    """Treatments written for a day."""

    on: date
    done: tuple[DonePlant, ...]
    warnings: tuple[TooSoon, ...]
    still_open: tuple[tuple[str, Method, str | None], ...]
    """Plants with what is still to be done to them tonight."""
    evenings: tuple[tuple[date, tuple[str, ...]], ...]
    checks_open: tuple[str, ...]
    mornings: tuple[str, ...] = ()
    against: tuple[tuple[str, str, tuple[Refusal, ...]], ...] = ()
    """Plant, product, and the rules the use was against."""
    first_uses: tuple[tuple[str, str], ...] = ()
    """Plants and products that met for the first time."""
    eat_from: tuple[tuple[str, date | None], ...] = ()
    """Edible plants and the first day to eat from them; None is never."""
    spent: tuple[Spent, ...] = ()
    """Products that may not be used on a plant again for now, and what comes instead."""


class LeftOut(Outcome):
    """Plants that somebody said to be gone and was asked back about: "all done" is not of them."""

    plants: tuple[str, ...]


class NothingDue(Outcome):
    """`done` or `later` with nothing to answer; what is open instead."""

    next_on: date | None
    checks_open: tuple[str, ...] = ()
    mornings: tuple[str, ...] = ()
    too_late: tuple[str, ...] = ()
    """Plants whose spray was said to be too late for tonight: it may have been done before."""
    still_open: tuple[tuple[str, Method, str | None], ...] = ()
    """Treatments that are open all the same: they were left out."""


class OtherProduct(Outcome, kw_only=True):
    """That treatment stands there for the day with another product: asked before anything is written."""

    plants: tuple[str, ...]
    method: Method
    on: date
    before: str
    now: str


class WhichEvening(Outcome):
    """Told on the day after without a day: it may be of the evening before, or of today."""

    plants: tuple[str, ...]
    on: date


class WhichTreatment(Outcome):
    """More than one was announced for a plant, or what "done" does not say: asked which it was."""

    plant: str
    of: tuple[tuple[tuple[Method, str | None], ...], ...]
    others: tuple[str, ...] = ()
    """Plants that are asked about next."""


@performs
def log_round(command: LogRound, desk: Desk) -> list[Outcome]:
    """
    Write one entry a plant; the same plant, day, method and product told twice is one round.

    Told by somebody else too, it is written beside the other's word: taking back one leaves the other.
    """
    on = command.on or (evening_of(command.at, desk.household.zone) if command.at else desk.today)
    if on > desk.today:
        return [nothing_due(desk)]  # the morning it is for has not come
    if command.ingredient:
        stocked = stock(StockProduct(ingredient=command.ingredient), desk)
        product = next(
            one.id for one in desk.household.products.values() if one.ingredient == command.ingredient
        )
        return [*log_round(replace(command, product=product, ingredient=""), desk), stocked]
    if command.method is None and (gone := asked_back(desk, LosePlant) & {*command.plants}):
        here, lost = _of(command, {*command.plants} - gone), _of(command, gone)
        return [*(log_round(here, desk) if here.plants else []), _left_out(lost, on, desk)]
    sure, unsure = _todo(command, on, desk)
    asked: list[Outcome] = [_ask_which(unsure, on, desk)] if unsure else []
    if not sure:
        return asked or [nothing_due(desk)]
    if _is_of_the_evening_before(command, sure, desk):
        return [_ask_which_evening(command, sure, desk)]
    return [_ask_about_another_product(command, sure, on, desk) or _log(command, sure, on, desk), *asked]


def _of(command: LogRound, plants: AbstractSet[PlantId]) -> LogRound:
    parts = tuple(part for part in command.parts if part[0] in plants)
    return replace(command, plants=tuple(one for one in command.plants if one in plants), parts=parts)


def _left_out(command: LogRound, on: date, desk: Desk) -> LeftOut:
    """Ask of plants said to be gone, which "done" does not name: a treatment told by its name is written."""
    told = tuple(
        LogRound(plants=(plant,), method=method, product=product, on=on)
        for plant, method, product in _todo(command, on, desk)[0]
    )
    lost = Choice(ButtonText.PLANT_LOST, (LosePlant(command.plants),))
    return LeftOut(desk.names(command.plants), offers=(lost, Choice(ButtonText.DONE, told)))


def _is_of_the_evening_before(command: LogRound, sure: Sequence[Part], desk: Desk) -> bool:
    """Whether a bare "done" comes after the night, and speaks of what was to be done before it."""
    told = (command.on, command.at, command.method, command.product)
    evening = desk.evening
    if not evening.is_past or command.parts or any(one is not None for one in told):
        return False
    parts = ((line.plant, part) for line in evening.treatments for part in line.parts if part.from_at is None)
    return any((plant, part.method, part.product) in sure for plant, part in parts)


def _ask_which_evening(command: LogRound, sure: Sequence[Part], desk: Desk) -> WhichEvening:
    days = ((ButtonText.LAST_NIGHT, desk.evening.on), (ButtonText.TODAY, desk.today))
    choices = tuple(Choice(text, (replace(command, on=on, parts=tuple(sure)),)) for text, on in days)
    plants = dict.fromkeys(plant for plant, _, _ in sure)
    return WhichEvening(desk.names(plants), desk.evening.on, asking=Asking(choices))


def as_asked(command: LogRound, desk: Desk) -> LogRound:
    """Give an offer of what is "done" the day and the parts it means now: the evening goes on without it."""
    if command.parts or desk.evening.is_past or (command.on, command.at) != (None, None):
        return command
    if command.method is not None or command.product is not None:
        return replace(command, on=desk.today)
    sure, unsure = _todo(command, desk.today, desk)
    return command if unsure or not sure else replace(command, on=desk.evening.on, parts=tuple(sure))


def _log(command: LogRound, todo: list[Part], on: date, desk: Desk) -> RoundLogged:
    warnings = tuple(
        warning for plant, _, product in todo for warning in _too_soon(desk, desk.plant(plant), product, on)
    )
    against = tuple(
        (desk.plant(plant).name, desk.product_name(product) or "", broken)
        for plant, _, product in todo
        if product is not None and (broken := _broken(desk, plant, product, on))
    )
    first_uses = tuple(
        (desk.plant(plant).name, desk.product_name(product) or "")
        for plant, method, product in todo
        if desk.plant(plant).is_first_use(method, product)
    )
    before = {plant: _step(desk, plant, on) for plant, _, _ in todo}
    stood = {part: _standing(part, on, desk) for part in todo}
    wrong = [one for part in todo for one in _replaced(command, part, on, desk)]
    drafts = [
        desk.draft(Treated(method=method, product=product), plant=plant, on=command.on, at=command.at)
        for plant, method, product in todo
        if all(entry.member != desk.member.id for entry in stood[plant, method, product])
    ]
    if wrong or drafts:
        desk.write([*desk.voids(wrong), *drafts])
    done = tuple(
        DonePlant(
            name=desk.plant(plant).name,
            method=method,
            product=desk.product_name(product),
            next=_step(desk, plant, desk.today) if is_last else None,
            progress=desk.agenda.progress.get(plant, ()) if is_last else (),
            late=step if is_last and step and step.lateness is not Lateness.ON_TIME else None,
            is_repeat=bool(stood[plant, method, product]),
        )
        for number, (plant, method, product) in enumerate(todo)
        for is_last, step in ((all(plant != later[0] for later in todo[number + 1 :]), before[plant]),)
    )
    return RoundLogged(
        on=on,
        done=done,
        warnings=warnings,
        still_open=_still_open(desk, on),
        evenings=_evenings(desk, {plant for plant, _, _ in todo}),
        checks_open=_looks_open(desk, on),
        mornings=desk.names(desk.evening.waiting(desk.now)),
        against=against,
        first_uses=first_uses,
        eat_from=tuple(
            (
                desk.plant(plant).name,
                eat_from(desk.knowledge, desk.plant(plant), desk.household.products[product], on),
            )
            for plant, _, product in todo
            if product is not None and is_edible(desk.knowledge, desk.plant(plant))
        ),
        spent=tuple(one for plant, _, product in todo for one in no_more(desk, plant, product)),
        offers=_first_too(command, todo, on, desk),
    )


def rounds_together(first: RoundLogged, then: RoundLogged) -> RoundLogged:
    """Give two treatments of a message and day as one: how far a plant is, what is open, told once."""
    again = {one.name for one in then.done}
    before = (replace(one, progress=(), next=None) if one.name in again else one for one in first.done)
    return replace(
        then,
        done=(*before, *then.done),
        warnings=(*first.warnings, *then.warnings),
        against=(*first.against, *then.against),
        first_uses=(*first.first_uses, *then.first_uses),
        eat_from=(*first.eat_from, *then.eat_from),
        spent=(*first.spent, *then.spent),
        offers=(*(() if again & {one.name for one in first.done} else first.offers), *then.offers),
    )


SAID = {
    Method.WIPE: ButtonText.WIPED,
    Method.SWAB: ButtonText.SWABBED,
    Method.RINSE: ButtonText.RINSED,
    Method.SPRAY: ButtonText.SPRAYED,
    Method.CLEAN_OUT: ButtonText.CLEANED_OUT,
}
FIRST = {
    Method.WIPE: ButtonText.WIPED_FIRST,
    Method.SWAB: ButtonText.SWABBED_FIRST,
    Method.RINSE: ButtonText.RINSED_FIRST,
}


WITH_WATER = (Method.RINSE, Method.PRUNE, Method.CLEAN_OUT)
"""Handwork that takes no product."""
UNASKED = (Method.WIPE, Method.RINSE, Method.SPRAY)
"""What "done" most likely means of a plant of which nothing was asked. Judgement."""


def _first_too(command: LogRound, todo: list[Part], on: date, desk: Desk) -> tuple[Choice, ...]:
    """Offer the handwork of a line of which only the spray was told: whether it was done nobody knows."""
    if command.method in {None, Method.PREDATORS} or on != desk.evening.on:
        return ()
    told = {plant for plant, method, _ in todo if method is command.method and method not in FIRST}
    parts: dict[Method, list[Part]] = {}
    for line in desk.evening.treatments:
        for part in line.left if line.plant in told else ():
            if part.method in FIRST and part.has_come(desk.now) and line.plant is not None:
                parts.setdefault(part.method, []).append((line.plant, part.method, part.product))
    return tuple(
        Choice(
            FIRST[method],
            (LogRound(plants=tuple(plant for plant, _, _ in first), on=on, parts=tuple(first)),),
        )
        for method, first in parts.items()
    )


def no_more(desk: Desk, plant: PlantId, product: ProductId | None) -> list[Spent]:
    """Say what may not be used again for now, where the next round needs another product because of it."""
    step = _step(desk, plant, desk.today)
    used = None if product is None else desk.household.products.get(product)
    if used is None or step is None or not step.method.uses_product or step.product == used:
        return []
    broken = refusals(Use(desk.household, desk.knowledge, desk.plant(plant), used, desk.today))
    spent = tuple(one for one in broken if one in {Refusal.USES_SPENT, Refusal.SAME_GROUP, Refusal.USED_UP})
    following = None if step.product is None else desk.product_name(step.product.id)
    return (
        [Spent(desk.plant(plant).name, desk.product_name(used.id) or "", spent, following)] if spent else []
    )


def _broken(desk: Desk, plant: PlantId, product: ProductId, on: date) -> tuple[Refusal, ...]:
    """Give the rules that a use on a day is against; that a pest is not reached is no rule."""
    household = desk.household
    known = household.products.get(product)
    if known is None:
        return ()
    found = refusals(Use(household, desk.knowledge, desk.plant(plant), known, on))
    no_rule = {Refusal.USED_UP, Refusal.WRONG_PEST}
    if any(one.product == product and one.on == on for one in desk.plant(plant).treatments):
        no_rule.add(Refusal.USES_SPENT)  # the same use told twice
    return tuple(one for one in found if one not in no_rule)


def nothing_due(desk: Desk) -> NothingDue:
    """Give what a bare "done" meets when no treatment is open: looks, mornings to come, the next evening."""
    return NothingDue(
        next((evening.on for evening in desk.agenda.evenings if evening.on > desk.today), None),
        _looks_open(desk, desk.today),
        desk.names(desk.evening.waiting(desk.now)),
        _too_late(desk),
        _still_open(desk, desk.today),
    )


def _too_late(desk: Desk) -> tuple[str, ...]:
    """Give plants whose spray the message said to be too late: done before, it has a word of its own."""
    evening = desk.evening
    over = (line.plant for line in evening.treatments for part in line.left if part.is_over and line.plant)
    return () if evening.is_past else desk.names(dict.fromkeys(over))


def _todo(
    command: LogRound, on: date, desk: Desk
) -> tuple[list[Part], dict[PlantId, tuple[tuple[Part, ...], ...]]]:
    """Give what was done for sure, and the plants for which it may have been one or the other."""
    evening = desk.evening
    if command.parts:
        asked_next = {one: _ways(one, command.on, desk) for one in command.then}
        return list(dict.fromkeys(command.parts)), {one: ways for one, ways in asked_next.items() if ways}
    sure: list[Part] = []
    unsure = {}
    for plant in dict.fromkeys(command.plants):
        asked = _ways(plant, command.on, desk)
        if command.method is not None or command.product is not None:
            sure += _named(command, plant, asked, on, desk)
        elif not (ways := asked or _any_way(plant, on, desk)):
            continue
        elif len(ways) == 1 and (
            on != evening.on
            or evening.is_named(plant)
            or not is_changed(desk.entries, plant, {product for _, _, product in ways[0]}, evening.on)
        ):
            sure += ways[0]
        elif is_said := _in_all(ways):
            sure += is_said
        else:
            unsure[plant] = ways
    return sure, unsure


def _in_all(ways: tuple[tuple[Part, ...], ...]) -> tuple[Part, ...]:
    """
    Give what was done whichever of several ways it was, where only handwork is in doubt; else nothing.

    A spray that waits for an answer would be asked for again, sooner than its label lets.
    """
    first, *others = ways
    alike = tuple(part for part in first if all(part in way for way in others)) if others else ()
    in_doubt = {part for way in ways for part in way} - {*alike}
    is_small = all(product is None and method is not Method.CLEAN_OUT for _, method, product in in_doubt)
    return alike if is_small else ()


def _ways(plant: PlantId, on: date | None, desk: Desk) -> tuple[tuple[Part, ...], ...]:
    """Give what "done" may mean of a plant: what this evening asks, or asked on the last up to a day."""
    if on is None or on == desk.evening.on:
        return tuple(
            tuple((plant, part.method, part.product) for part in way if part.method is not None)
            for way in desk.evening.ways(plant, desk.now)
        )
    asked: list[NudgedTask] = []
    for entry in reversed(desk.entries):
        if isinstance(entry.payload, Nudged) and entry.happened_on <= on and not asked:
            asked = [task for task in entry.payload.tasks if task.plant == plant and task.method is not None]
            if asked and any(entry.happened_on <= one.on < on for one in desk.plant(plant).treatments):
                return ()
    told = tuple(dict.fromkeys((plant, one.method, one.product) for one in asked if one.method is not None))
    is_more = any(one.method is Method.CLEAN_OUT for one in asked)
    return (told, *(_any_way(plant, on, desk) if is_more else ())) if told else ()


def _any_way(plant: PlantId, on: date, desk: Desk) -> tuple[tuple[Part, ...], ...]:
    """Give what may have been done to a plant of which nothing was asked: "done" does not say it."""
    return tuple((_with_product((plant, method, None), on, desk),) for method in UNASKED)


def _named(
    command: LogRound, plant: PlantId, ways: tuple[tuple[Part, ...], ...], on: date, desk: Desk
) -> list[Part]:
    """
    Give the treatment that was named, with the product that was announced for it where none was.

    Nobody rinses or prunes with soap: that is the handwork, and the product by a way of its own.
    """
    asked = {method: product for way in ways for _, method, product in way}
    if command.product is None:
        assert command.method is not None
        named = (plant, command.method, asked.get(command.method))
        return [named if command.method in asked else _with_product(named, on, desk)]
    by = _method_of(desk, command.product, command.method or next(reversed(asked), Method.SPRAY))
    if command.method is None or command.method not in WITH_WATER:
        return [(plant, command.method or by, command.product)]
    return [(plant, command.method, None), (plant, by, command.product)]


def _with_product(part: Part, on: date, desk: Desk) -> Part:
    """Give a product left unsaid: the one that stands there for that day, else the only one of the shelf."""
    plant, method, product = part
    if product is not None:
        return part
    stood = [one for one in desk.plant(plant).treatments if one.on == on and one.method is method]
    told = next((one.product for one in stood if one.product is not None), None)
    return plant, method, told or _only_product(desk, method)


def _ask_which(unsure: dict[PlantId, tuple[tuple[Part, ...], ...]], on: date, desk: Desk) -> WhichTreatment:
    """Ask of the first plant what was done; each answer asks of the next."""
    (plant, ways), *others = unsure.items()
    then = tuple(other for other, _ in others)
    alone = tuple((part,) for part in ways[0]) if len(ways) == 1 < len(ways[0]) else ()
    offered = (*ways, *alone)
    choices = tuple(
        Choice(
            text,
            (
                LogRound(
                    plants=(plant,),
                    on=on,
                    parts=tuple(_with_product(part, on, desk) for part in way),
                    then=then,
                ),
            ),
            of,
        )
        for way in offered
        for text, of in (_button(way, offered, desk),)
    )
    told = tuple(tuple((method, desk.product_name(product)) for _, method, product in way) for way in ways)
    return WhichTreatment(desk.plant(plant).name, told, desk.names(then), asking=Asking(choices))


def _button(way: tuple[Part, ...], ways: Sequence[tuple[Part, ...]], desk: Desk) -> tuple[ButtonText, str]:
    """Name a way by its work, and by its product where another way is the same work."""
    texts = [SAID.get(one[0][1]) if len(one) == 1 else None for one in ways]
    text = SAID.get(way[0][1]) if len(way) == 1 else None
    products = [product for *_, product in way if product is not None]
    if texts.count(text) > 1 and products:
        return ButtonText.NAMED, desk.product_name(products[-1]) or ""
    return text or ButtonText.AS_ASKED, ""


def _method_of(desk: Desk, product: ProductId, asked: Method) -> Method:
    """Give the method a product is used by, where the one asked for is another: nobody rinses with soap."""
    kind = desk.knowledge.products.get(desk.household.products[product].ingredient)
    return asked if kind is None or asked in kind.methods else kind.methods[0]


def _only_product(desk: Desk, method: Method) -> ProductId | None:
    """Give the shelf's only product for this method: what else can it have been."""
    if not method.uses_product:
        return None
    fitting = [
        product.id
        for product in desk.household.products.values()
        if product.ingredient in desk.knowledge.products
        and method in desk.knowledge.products[product.ingredient].methods
    ]
    return fitting[0] if len(fitting) == 1 else None


def _standing(part: Part, on: date, desk: Desk) -> list[Entry]:
    """Give the entries that say just this of the plant and day."""
    plant, method, product = part
    if Treatment(on, method, product) not in desk.plant(plant).treatments:
        return []
    told = Treated(method=method, product=product)
    return [entry for entry in desk.told(plant, on) if entry.payload == told]


def _others(todo: Part, on: date, desk: Desk) -> list[Treatment]:
    """Give the same treatments of that day with another product."""
    plant, method, product = todo
    return [
        one
        for one in desk.plant(plant).treatments
        if one.on == on and one.method is method and one.product != product
    ]


def _ask_about_another_product(
    command: LogRound, todo: list[Part], on: date, desk: Desk
) -> OtherProduct | None:
    """Ask whether it was used instead of what stands there, or besides; a product told later completes."""
    if command.earlier is not None:
        return None
    unlike = [
        (one, other)
        for one in todo
        for other in _others(one, on, desk)
        if None not in {one[2], other.product} and not _standing(one, on, desk)
    ]
    if not unlike:
        return None
    (_, method, product), first = unlike[0]
    before, now = desk.product_name(first.product) or "", desk.product_name(product) or ""
    choices = (
        Choice(ButtonText.INSTEAD, (replace(command, earlier=Earlier.REPLACED),), before),
        Choice(ButtonText.BESIDES, (replace(command, earlier=Earlier.KEPT),), before),
    )
    names = desk.names(dict.fromkeys(plant for (plant, _, _), _ in unlike))
    return OtherProduct(plants=names, method=method, on=on, before=before, now=now, asking=Asking(choices))


def _replaced(command: LogRound, todo: Part, on: date, desk: Desk) -> list[Entry]:
    """Give the entries that this one takes the place of: asked for, or told before without a product."""
    plant, method, product = todo
    others = _others(todo, on, desk)
    if command.earlier is not Earlier.REPLACED:
        others = [one for one in others if one.product is None and product is not None]
    gone = [Treated(method=method, product=one.product) for one in others]
    return [entry for entry in desk.told(plant, on) if entry.payload in gone] if gone else []


def _too_soon(desk: Desk, plant: Plant, product: ProductId | None, on: date) -> list[TooSoon]:
    if product is None:
        return []
    label = label_days(desk.knowledge, desk.household.products.get(product))
    uses = {t.on for t in plant.treatments if t.product == product and t.on != on}
    near = (
        max((use for use in uses if use < on), default=on),
        min((use for use in uses if use > on), default=on),
    )
    return [
        TooSoon(
            plant=plant.name,
            product=desk.product_name(product) or "",
            days=abs(on - use).days,
            label_days=label,
            is_before=use > on,
        )
        for use in near
        if label is not None and 0 < abs(on - use).days < label
    ]


def _step(desk: Desk, plant: PlantId, day: date) -> Step | None:
    """Give what a plant needs next as seen on a day; a case opened later says nothing of it."""
    steps = [
        next_step(desk.outbreak(plant, case, day))
        for case in desk.plant(plant).open_cases
        if case.opened_on <= day
    ]
    return min((step for step in steps if step), key=lambda step: step.aim_on, default=None)


def _still_open(desk: Desk, on: date) -> tuple[tuple[str, Method, str | None], ...]:
    return tuple(
        (desk.plant(line.plant).name, part.method, desk.product_name(part.product))
        for line in _open_lines(desk, on)
        for part in line.left
        if line.plant is not None and part.method is not None and part.is_due(desk.now)
    )


def _looks_open(desk: Desk, on: date) -> tuple[str, ...]:
    plants = (one.plant for one in _open_lines(desk, on) if one.kind is not Kind.TREAT)
    return desk.names(dict.fromkeys(plant for plant in plants if plant is not None))


def _open_lines(desk: Desk, on: date) -> tuple[Line, ...]:
    return desk.evening.open(desk.now) if on == desk.today and not desk.evening.is_past else ()


def _evenings(desk: Desk, plants: set[PlantId]) -> tuple[tuple[date, tuple[str, ...]], ...]:
    """Give the evenings on which these plants are next treated."""
    found = []
    for evening in desk.agenda.evenings:
        due = [task.plant for task in evening.tasks if task.plant in plants and task.method is not None]
        if due and evening.on > desk.today:
            found.append((evening.on, desk.names(due)))
    return tuple(found)
