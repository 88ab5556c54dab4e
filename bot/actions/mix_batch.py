"""Work out a mixture: by the label as told, else by what is usual, marked so."""

from collections.abc import Mapping
from decimal import Decimal
from enum import Enum

from bot.actions.action import Asking, ButtonText, Choice, Command, Outcome, performs
from bot.actions.answer_safety import safety_choice
from bot.actions.desk import Desk
from bot.actions.incomplete import Asks, Missing
from bot.actions.stock_product import StockProduct
from bot.domain.campaign import Evidence
from bot.domain.consumption import left_ml, spray_factor, spray_for
from bot.domain.household import Product
from bot.domain.identity import PlantId, ProductId
from bot.domain.label import Label
from bot.domain.measure import Tool, Units, finest
from bot.domain.mixture import (
    Recipe,
    Share,
    mix,
    mix_at_least,
    rate_at_strength,
    rate_of_parts,
    rate_of_percent,
    rounds_left,
)
from bot.domain.product import ProductKind
from bot.domain.trade import Form, Method
from bot.domain.value import replace


class Mix(Command, kw_only=True):
    """A mixture asked for; what is not told is the label's, or usual. [mL], [mL/L], [%]."""

    volume_ml: float | None
    product: ProductId | None = None
    ingredient: str | None = None
    rate_ml_per_l: Decimal | None = None
    percent: Decimal | None = None
    percent_of: Share | None = None
    parts: Decimal | None = None
    """Parts of water to one of product. [1]"""
    stock_percent: Decimal | None = None
    tool: Tool | None = None
    is_for_tonight: bool = False
    plants: tuple[PlantId, ...] = ()
    """Plants it is for: their pots give the volume."""
    in_full: bool = False
    """Whether the sums behind it are asked for."""


class Mixed(Outcome, kw_only=True):
    """A recipe; percent_active is what the finished spray holds [%], rounds_left what the stock lasts for."""

    name: str
    recipe: Recipe
    tool: Tool
    is_rate_told: bool
    is_rate_of_label: bool
    has_told_label: bool
    percent_active: Decimal | None
    keeps_hours: int | None
    caution: str
    rounds_left: int | None
    evidence: Evidence | None
    cited: Mapping[str, str]
    plants: tuple[str, ...] = ()
    """Plants whose pots gave the volume."""
    factor: Decimal = Decimal(1)
    """What earlier evenings took for each millilitre reckoned. [1]"""
    strength_percent: Decimal | None = None
    is_strength_told: bool = False
    """Whether somebody read it off the bottle; else it is what is usual of its kind."""
    in_full: bool = False
    is_known: bool = False
    """Whether it is on the shelf, where its caution was said."""


class MixTrouble(Enum):
    """Why nothing can be mixed."""

    READY_MADE = "ready-made"
    EMPTY_SHELF = "empty-shelf"
    NO_RATE = "no-rate"
    TOO_STRONG = "too-strong"
    TOO_LITTLE = "too-little"


class CannotMix(Outcome):
    """Nothing is mixed, and why."""

    name: str
    trouble: MixTrouble
    exact_ml: Decimal | None = None
    """What the rate asks for, where that is too little to be measured; or what plants take of it. [mL]"""


_HUNDRED = Decimal(100)


@performs
def mix_batch(command: Mix, desk: Desk) -> tuple[Mixed | CannotMix | Asks, ...]:
    """Give the amounts, or ask for the one thing that is missing; writes nothing."""
    outcomes = tuple(_mix_one(one, desk) for one in _batches(command, desk))
    if len(outcomes) == 1 and isinstance(outcomes[0], Mixed) and not command.in_full:
        why = Choice(ButtonText.WHY_THIS_MUCH, (replace(command, in_full=True),))
        return (replace(outcomes[0], offers=(why, safety_choice(command.product))),)
    return outcomes


def tonights_mixes(desk: Desk) -> tuple[Mixed, ...]:
    """Give what is to be mixed for tonight's plants, one a product; nothing where that is not known."""
    asked = _batches(Mix(volume_ml=None, is_for_tonight=True), desk)
    mixed = (_mix_one(one, desk) for one in asked if one.volume_ml is not None)
    return tuple(one for one in mixed if isinstance(one, Mixed))


def _batches(command: Mix, desk: Desk) -> tuple[Mix, ...]:
    """Cut what is asked for tonight, or for named plants, into one mixture a product."""
    if command.volume_ml is not None or not (command.is_for_tonight or command.plants):
        return (command,)
    by_product: dict[ProductId | None, list[PlantId]] = {}
    tasks = [task for task in desk.tonight() if task.method in {Method.SPRAY, Method.DRENCH}]
    planned = {task.plant: task.product for task in tasks}
    for plant in command.plants or tuple(planned):
        by_product.setdefault(command.product or planned.get(plant), []).append(plant)
    batches = tuple(
        replace(
            command,
            product=product,
            plants=tuple(plants),
            is_for_tonight=True,
            volume_ml=float(spray_for(desk.household, [desk.plant(plant) for plant in plants])),
        )
        for product, plants in by_product.items()
    )
    return batches or (command,)


def _mix_one(command: Mix, desk: Desk) -> Mixed | CannotMix | Asks:
    kind, product = _what(command, desk)
    if kind is None:
        return _ask_which_product(command, desk)
    if product is not None and product.label.form is Form.READY:
        reckoned = Decimal(str(command.volume_ml)) if command.plants and command.volume_ml else None
        return CannotMix(kind.name, MixTrouble.READY_MADE, reckoned)
    if command.volume_ml is None:
        return Asks(Missing.AMOUNT, text="volume")
    if product is not None and product.label.form is None and _is_rate_unknown(command, product):
        return _ask_form(command, product, kind)
    return _mixed(command, kind, product, desk)


def _what(command: Mix, desk: Desk) -> tuple[ProductKind | None, Product | None]:
    shelf = desk.household.products
    if command.product is not None:
        product = shelf[command.product]
        return desk.knowledge.products.get(product.ingredient), product
    if command.ingredient is not None:
        known = [one for one in shelf.values() if one.ingredient == command.ingredient]
        return desk.knowledge.products.get(command.ingredient), known[0] if known else None
    mixable = [one for one in shelf.values() if one.label.form is not Form.READY and one.stock_ml != 0]
    kinds = [one for one in mixable if Method.SWAB not in desk.knowledge.products[one.ingredient].methods]
    chosen = kinds[0] if len(kinds) == 1 else None
    return (desk.knowledge.products[chosen.ingredient], chosen) if chosen else (None, None)


def _ask_which_product(command: Mix, desk: Desk) -> Asks | CannotMix:
    shelf = [one for one in desk.household.products.values() if one.ingredient in desk.knowledge.products]
    if not shelf:
        return CannotMix("", MixTrouble.EMPTY_SHELF)
    choices = tuple(
        Choice(
            ButtonText.NAMED,
            (replace(command, product=one.id),),
            desk.knowledge.products[one.ingredient].name,
        )
        for one in shelf
    )
    return Asks(Missing.WHICH_PRODUCT, asking=Asking(choices))


def _is_rate_unknown(command: Mix, product: Product) -> bool:
    told = (command.rate_ml_per_l, command.percent, command.parts, product.label.rate_ml_per_l)
    return all(one is None for one in told)


def _ask_form(command: Mix, product: Product, kind: ProductKind) -> Asks:
    concentrate = StockProduct(ingredient=kind.key, label=Label(form=Form.CONCENTRATE))
    choices = (
        Choice(ButtonText.CONCENTRATE, (concentrate, replace(command, product=product.id))),
        Choice(ButtonText.READY_TO_USE, (StockProduct(ingredient=kind.key, label=Label(form=Form.READY)),)),
    )
    return Asks(Missing.FORM, text=kind.name, asking=Asking(choices))


def _mixed(command: Mix, kind: ProductKind, product: Product | None, desk: Desk) -> Mixed | CannotMix | Asks:
    if command.percent is not None and command.percent_of is None and command.stock_percent is None:
        return _ask_share(command, kind, product)
    rate = _rate(command, kind, product)
    if rate is None:
        return CannotMix(kind.name, MixTrouble.NO_RATE)
    if not 0 < rate <= 1000:  # noqa: PLR2004 - a litre is a thousand millilitres
        return CannotMix(kind.name, MixTrouble.TOO_STRONG)
    assert command.volume_ml is not None
    is_ours = command.is_for_tonight and bool(command.plants)  # how much it is, was reckoned and not told
    volume = Decimal(str(command.volume_ml))
    tool = _tool(command, volume * rate / 1000, desk)
    recipe = (mix_at_least if is_ours else mix)(
        volume,
        rate,
        tool,
        most_ml_per_l=_most(command, kind, product),
        needs_emulsifier=kind.mix is not None and kind.mix.needs_emulsifier,
    )
    if recipe.product == 0:
        return CannotMix(kind.name, MixTrouble.TOO_LITTLE, recipe.exact_product)
    return replace(_outcome(command, kind, product, recipe, desk), tool=tool)


def _rate(command: Mix, kind: ProductKind, product: Product | None) -> Decimal | None:
    """Find the rate: as told now, as the label has it, or as usual. [mL/L]."""
    if command.rate_ml_per_l is not None:
        return command.rate_ml_per_l
    if command.parts is not None:
        return rate_of_parts(command.parts)
    strength = command.stock_percent or _strength(kind, product)
    if command.percent is not None:
        share = command.percent_of or Share.ACTIVE
        holds = strength or _HUNDRED
        is_possible = share is Share.PRODUCT or command.percent <= holds
        return rate_of_percent(command.percent, share, holds) if is_possible else Decimal(0)
    if product is not None and product.label.rate_ml_per_l is not None:
        return product.label.rate_ml_per_l
    return (
        None
        if kind.mix is None
        else rate_at_strength(kind.mix.rate_ml_per_l, kind.mix.strength_percent, strength)
    )


def _strength(kind: ProductKind, product: Product | None) -> Decimal | None:
    if product is not None and product.label.strength_percent is not None:
        return product.label.strength_percent
    return None if kind.mix is None else kind.mix.strength_percent


def _most(command: Mix, kind: ProductKind, product: Product | None) -> Decimal | None:
    """Give what the label allows at most: its told rate, else what labels of the kind usually do. [mL/L]."""
    if product is not None and product.label.rate_ml_per_l is not None:
        return product.label.most
    if kind.mix is None:
        return None
    strength = command.stock_percent or _strength(kind, product)
    return rate_at_strength(kind.mix.most_ml_per_l, kind.mix.strength_percent, strength)


def _ask_share(command: Mix, kind: ProductKind, product: Product | None) -> Asks:
    choices = (
        Choice(ButtonText.OF_THE_BOTTLE, (replace(command, percent_of=Share.PRODUCT),)),
        Choice(ButtonText.OF_THE_INGREDIENT, (replace(command, percent_of=Share.ACTIVE),)),
    )
    strength = _strength(kind, product)
    text = f"{command.percent:f}|{'' if strength is None else f'{strength.normalize():f}'}"
    return Asks(Missing.PERCENT_OF, text=text, asking=Asking(choices))


def _outcome(command: Mix, kind: ProductKind, product: Product | None, recipe: Recipe, desk: Desk) -> Mixed:
    stock = None if product is None else left_ml(desk.household, desk.knowledge, product)
    is_told = command.rate_ml_per_l is not None or command.percent is not None or command.parts is not None
    is_label = not is_told and product is not None and product.label.rate_ml_per_l is not None
    evidence = None if kind.mix is None else kind.mix.evidence
    strength = command.stock_percent or _strength(kind, product)
    return Mixed(
        name=kind.name,
        recipe=recipe,
        tool=Tool.SYRINGE,
        is_rate_told=is_told,
        is_rate_of_label=is_label,
        has_told_label=product is not None and product.label.rate_ml_per_l is not None,
        percent_active=None if strength is None else recipe.percent_active(strength),
        keeps_hours=None if kind.mix is None else kind.mix.keeps_hours,
        caution=kind.caution,
        rounds_left=None if stock is None else rounds_left(stock, recipe.product),
        evidence=evidence,
        cited=desk.knowledge.cited,
        plants=desk.names(command.plants),
        factor=spray_factor(desk.household),
        strength_percent=strength,
        is_strength_told=bool(command.stock_percent)
        or (product is not None and product.label.strength_percent is not None),
        in_full=command.in_full,
        is_known=product is not None,
    )


_US = {Tool.SPOON: Tool.US_SPOON, Tool.EIGHTH_SPOON: Tool.US_EIGHTH_SPOON}


def _tool(command: Mix, exact_ml: Decimal, desk: Desk) -> Tool:
    """Give what is measured with: as said, else the finest told that is large enough, else as is usual."""
    is_us = desk.household.units is Units.US
    usual = Tool.SPOON if is_us else Tool.SYRINGE
    tool = command.tool or finest(desk.household.tools, exact_ml) or usual
    return _US.get(tool, tool) if is_us else tool
