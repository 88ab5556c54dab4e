"""Answers about mixtures."""

from decimal import Decimal

from bot.actions import outcomes as o
from bot.domain.measure import DROP_ML, SPOON_ML, Tool
from bot.domain.mixture import SHOWN_ERROR
from bot.domain.pest import Basis
from bot.wording.days import counted

_BASIS = {Basis.READ: "read", Basis.MEMORY: "from memory", Basis.JUDGEMENT: "our judgement"}
TROUBLE = {
    o.MixTrouble.READY_MADE: "{name} on your shelf is ready to use: use it as it is, do not thin it.",
    o.MixTrouble.EMPTY_SHELF: "Your shelf is empty. Say for instance “got neem oil concentrate”, then “mix 1 litre”.",
    o.MixTrouble.NO_RATE: "I know no usual rate for {name}. What does its label say? Like “mix 1 l of {name} at 5 ml per litre”.",
    o.MixTrouble.TOO_LITTLE: "That takes {exact} mL of {name}, too little to measure that way. Mix more, or say “with a dropper”.",
    o.MixTrouble.TOO_STRONG: "{name} does not hold that much: no mixture of it can be that strong.",
}
_LITRE = Decimal(1000)


def mixed(told: o.Mixed) -> str:
    """Word a recipe: amounts, how they were rounded, order, how long it keeps."""
    recipe = told.recipe
    amounts = f"{volume(recipe.water)} water, {volume(recipe.product)} {told.name}{_by_tool(told)}"
    if recipe.emulsifier:
        amounts += f", {volume(recipe.emulsifier)} mild soap to hold it together"
    lines = [f"For {volume(recipe.volume)}: {amounts}.", _rate_line(told)]
    if abs(recipe.error) > SHOWN_ERROR:
        lines.append(
            f"Rounded to what can be measured: {round(100 * recipe.error):+d} % of {plain(recipe.exact_product)} mL."
        )
    lines.append(_order(told))
    if told.rounds_left is not None:
        lines.append(f"Your stock lasts for {counted(told.rounds_left, 'such round')}.")
    lines.append(told.caution)
    return "\n".join(lines)


def _rate_line(told: o.Mixed) -> str:
    rate = f"{plain(told.recipe.rate_ml_per_l)} mL per litre"
    active = ""
    if told.percent_active is not None:
        active = f", {plain(told.percent_active.quantize(Decimal('0.01')))} % active ingredient in the spray"
    if told.recipe.is_capped:
        most = "your label" if told.has_told_label else f"what labels of {told.name} usually allow"
        return f"What you said is past {most}: I took its most, {rate}{active}."
    if told.is_rate_told:
        return f"That is {rate}{active}, as you said; your label decides."
    if told.is_rate_of_label:
        return f"That is {rate}, as your label says{active}."
    return f"That is {rate}{active}, the usual rate ({_source(told)}); your label decides."


def _source(told: o.Mixed) -> str:
    if told.evidence is None:
        return "assumed"
    quoted = "; ".join(told.cited.get(key, key) for key in told.evidence.sources)
    return _BASIS[told.evidence.basis] + (f": {quoted}" if quoted else "")


def _order(told: o.Mixed) -> str:
    first = (
        "Stir the soap into a little warm water, then the oil, then the rest of the water"
        if told.recipe.emulsifier
        else "Half the water first, then the product, then the rest of the water"
    )
    keeps = f"; use it within {counted(told.keeps_hours, 'hour')}" if told.keeps_hours is not None else ""
    return f"{first}; shake now and then{keeps}, never keep it in the sprayer."


def _by_tool(told: o.Mixed) -> str:
    amount = told.recipe.product
    if told.tool is Tool.SPOON:
        return f" ({_quarters(amount / SPOON_ML['teaspoon'])} teaspoons of 5 mL)"
    if told.tool is Tool.DROPPER:
        return f" ({plain(amount / DROP_ML)} drops)"
    return ""


def _quarters(spoons: Decimal) -> str:
    whole, rest = divmod(int(spoons * 4), 4)
    part = {0: "", 1: "¼", 2: "½", 3: "¾"}[rest]
    return f"{whole or ''}{part}" or "0"


def volume(ml: Decimal) -> str:
    """Say a volume: litres from one on."""
    return f"{plain(ml / _LITRE)} L" if ml >= _LITRE else f"{plain(ml)} mL"


def plain(number: Decimal) -> str:
    """Say a number without a tail of noughts, to three places at most."""
    rounded = number.quantize(Decimal("0.001")).normalize()
    return f"{rounded:f}"


def cannot_mix(told: o.CannotMix) -> str:
    """Say why nothing can be mixed."""
    exact = "" if told.exact_ml is None else plain(told.exact_ml)
    return TROUBLE[told.trouble].format(name=told.name, exact=exact)
