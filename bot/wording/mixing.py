"""Answers about mixtures."""

from decimal import Decimal

from bot.actions.mix_batch import CannotMix, Mixed, MixTrouble
from bot.actions.set_tools import ToolsKept
from bot.domain.measure import DROP_ML, METRIC_ML, TEASPOON_ML, Tool, Units, step_ml
from bot.domain.mixture import SHOWN_ERROR, SPRAY_ABOVE_ML, SPRAY_ML
from bot.wording.days import counted, listed
from bot.wording.rules import cite
from bot.wording.saying import says
from bot.wording.voice import Voice, plain

TROUBLE = {
    MixTrouble.READY_MADE: "{name} on your shelf is ready to use: use it as it is, do not thin it.",
    MixTrouble.EMPTY_SHELF: "Your shelf is empty. Say for instance “got neem oil concentrate”, then “mix 1 litre”.",
    MixTrouble.NO_RATE: "I know no usual rate for {name}. What does its label say? Like “mix {batch} of {name} at {rate}”.",
    MixTrouble.TOO_LITTLE: "That takes {exact} of {name}, too little to measure that way. Mix more, or measure finer: “I have a dropper”.",
    MixTrouble.TOO_STRONG: "{name} does not hold that much: no mixture of it can be that strong.",
}
TOOLS = {
    Tool.SYRINGE: "a syringe",
    Tool.SPOON: "spoons of 5 mL, to a quarter",
    Tool.US_SPOON: "US spoons, to a quarter",
    Tool.EIGHTH_SPOON: "spoons of 5 mL, to an eighth",
    Tool.US_EIGHTH_SPOON: "US spoons, to an eighth",
    Tool.DROPPER: "drops of 0.05 mL",
    Tool.SYRINGE_1: "a syringe of 1 mL",
    Tool.SYRINGE_3: "a syringe of 3 mL",
    Tool.SYRINGE_5: "a syringe of 5 mL",
    Tool.SYRINGE_10: "a syringe of 10 mL",
    Tool.JUG: "a jug, to 10 mL",
}
_SPOONS = {Tool.SPOON, Tool.US_SPOON, Tool.EIGHTH_SPOON, Tool.US_EIGHTH_SPOON}
_HUNDRED = Decimal(100)
_MOST_SPOONS = 24
"""Above so many teaspoons nobody counts spoons. Judgement. [1]"""


@says
def _mixed(told: Mixed, voice: Voice) -> str:
    recipe = told.recipe
    whom = f" ({listed(told.plants)})" if told.plants else ""
    lines = [f"For {voice.volume(recipe.volume)}{whom}: {_amounts(told, voice)}.", _rate_line(told, voice)]
    if told.in_full:
        return "\n".join([*lines, *_sums(told, voice)])
    if abs(recipe.error) > SHOWN_ERROR or _is_a_step_under(told):
        lines.append(
            f"Rounded to what can be measured: {round(100 * recipe.error):+d} % of {voice.volume(recipe.exact_product)}."
        )
    lines.append(_order(told))
    if told.rounds_left is not None:
        lines.append(f"Your stock lasts for {counted(told.rounds_left, 'such evening')}.")
    if not told.is_known:
        lines.append(told.caution)
    return "\n".join(lines)


def mix_line(told: Mixed, voice: Voice, *, is_only: bool) -> str:
    """Say a mixture in one line of the evening's message."""
    whom = "" if is_only else f" for {voice.plants(told.plants)}"
    return f"Mix{whom}: {_amounts(told, voice)}."


def _amounts(told: Mixed, voice: Voice) -> str:
    recipe = told.recipe
    amounts = f"{voice.volume(recipe.water)} water, {_measured(recipe.product, told.tool, voice)} {told.name}"
    if recipe.emulsifier:
        amounts += f", {_measured(recipe.emulsifier, told.tool, voice)} mild soap to hold it together"
    return amounts


def _measured(ml: Decimal, tool: Tool, voice: Voice) -> str:
    """Say a small amount as it is measured."""
    if tool is Tool.DROPPER:
        return f"{plain(ml / DROP_ML)} drops ({plain(ml)} mL)"
    if tool not in _SPOONS:
        return f"{plain(ml / METRIC_ML['litre'])} L" if ml >= METRIC_ML["litre"] else f"{plain(ml)} mL"
    if ml <= TEASPOON_ML[voice.units] * _MOST_SPOONS:
        beside = f" ({plain(ml)} mL)" if voice.units is Units.METRIC else ""
        return f"{voice.spoons(ml)}{beside}"
    return voice.volume(ml)


def _rate_line(told: Mixed, voice: Voice) -> str:
    rate = voice.rate(told.recipe.rate_ml_per_l)
    active = ""
    if told.percent_active is not None and told.is_strength_told:
        active = f", {plain(told.percent_active.quantize(Decimal('0.01')))} % active"
    if told.recipe.is_capped:
        most = "your label" if told.has_told_label else f"what labels of {told.name} usually allow"
        return f"What you said is past {most}: I took its most, {rate}{active}."
    if told.is_rate_told:
        return f"That is {rate}{active}, as you said; your label decides."
    if told.is_rate_of_label:
        return f"That is {rate}, as your label says{active}."
    return f"That is {rate}, the usual rate ({_source(told)}){active}; your label decides."


def _source(told: Mixed) -> str:
    return "assumed" if told.evidence is None else cite(told.evidence, told.cited)


def _sums(told: Mixed, voice: Voice) -> list[str]:
    """Give the terms of a mixture, and what would change them."""
    recipe = told.recipe
    lines = []
    if told.plants:
        pots = ", ".join(f"{voice.volume(ml)} up to {voice.length(cm)}" for cm, ml in SPRAY_ML)
        learnt = "" if told.factor == 1 else f", times {told.factor:.2g} by what your evenings took"
        lines.append(
            f"Volume: by the pots of {listed(told.plants)} ({pots}, {voice.volume(SPRAY_ABOVE_ML)} above; our estimate)"
            f"{learnt}, and a little more where the product could not be measured else. “used 300 ml” after "
            "an evening corrects it."
        )
    lines.append(
        f"Product: {voice.volume(recipe.volume)} at {voice.rate(recipe.rate_ml_per_l)} is "
        f"{voice.volume(recipe.exact_product)}; by {TOOLS[told.tool]} that is "
        f"{_measured(recipe.product, told.tool, voice)} ({round(_HUNDRED * recipe.error):+d} %)."
    )
    if recipe.most_ml_per_l is not None:
        whose = "your label" if told.has_told_label else "labels of its kind"
        lines.append(f"Never past {voice.rate(recipe.most_ml_per_l)}, the most by {whose}.")
    if told.strength_percent is not None and told.percent_active is not None:
        usual = "" if told.is_strength_told else ", as is usual of its kind,"
        lines.append(
            f"Strength: {plain(told.strength_percent)} % in the bottle{usual} makes "
            f"{plain(told.percent_active.quantize(Decimal('0.01')))} % in the spray."
        )
    lines.append(f"Another label? Say “{told.name} label says {voice.example_rate}”.")
    lines.append(told.caution)
    return lines


def _is_a_step_under(told: Mixed) -> bool:
    """Whether more than half a step is left out, because the next one would pass the label's most."""
    recipe = told.recipe
    return recipe.exact_product - recipe.product > step_ml(told.tool, recipe.exact_product) / 2


def _order(told: Mixed) -> str:
    first = (
        "Soap into a little warm water, then the oil, then the rest"
        if told.recipe.emulsifier
        else "Half the water, then the product, then the rest"
    )
    keeps = f"; use it within {counted(told.keeps_hours, 'hour')}" if told.keeps_hours is not None else ""
    return f"{first}; shake now and then{keeps}; never keep it."


@says
def _cannot_mix(told: CannotMix, voice: Voice) -> str:
    if told.trouble is MixTrouble.READY_MADE and told.exact_ml is not None:
        return f"{TROUBLE[told.trouble].format(name=told.name)} About {voice.volume(told.exact_ml)} of it."
    exact = "" if told.exact_ml is None else voice.volume(told.exact_ml)
    return TROUBLE[told.trouble].format(
        name=told.name, exact=exact, batch=voice.batch, rate=voice.example_rate
    )


@says
def _tools_kept(told: ToolsKept) -> str:
    if not told.tools:
        return "Written: no measuring tools. I reckon with what is usual: a syringe, or spoons."
    return (
        f"Written: you measure with {listed(TOOLS[one] for one in told.tools)}; the finest that fits decides."
    )
