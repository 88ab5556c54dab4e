"""Words for what a label forbids."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from bot.actions.answer_safety import CautionsTold, Eating, MayEat, Supposed
from bot.actions.log_round import Spent
from bot.actions.stock_product import BadLabel, LabelDoubted
from bot.domain.label import LIMITS, Label
from bot.domain.refusal import Refusal
from bot.domain.trade import Form
from bot.wording.days import counted, day, listed
from bot.wording.saying import says
from bot.wording.voice import Voice, plain

AGAINST = {
    Refusal.USED_UP: "there is none left",
    Refusal.WRONG_PEST: "it does not reach this pest",
    Refusal.NOT_INDOORS: "its kind is not for indoors",
    Refusal.NOT_EDIBLE: "it is not for plants that are eaten",
    Refusal.EATING_UNTOLD: "I do not know yet whether its label allows what is eaten",
    Refusal.USES_SPENT: "its uses for a year are spent",
    Refusal.SENSITIVE: "this plant is hurt by it",
    Refusal.TOO_HOT: "it is too hot there for it",
    Refusal.TOO_COLD: "it is too cold there for it",
    Refusal.NEAR_ANOTHER: "it must not follow another product used here so soon",
    Refusal.ANIMALS: "it is dangerous to the animals you told me of",
    Refusal.BEES: "outdoors it harms bees",
    Refusal.SAME_GROUP: "the pest's last generation met the same kind of poison: take another number",
    Refusal.MAKES_WORSE: "it brings more of them: it kills what eats them",
    Refusal.UNSEEN_DAMAGE: "three times in a row, and nobody looked since: look for burnt leaves first",
}


UNITS = {
    "gap_days": "days between two uses",
    "rate_ml_per_l": "mL per litre",
    "most_ml_per_l": "mL per litre",
    "strength_percent": "%",
    "uses_a_year": "uses a year",
    "harvest_days": "days before eating",
}
FORMS = {Form.READY: "ready to use", Form.CONCENTRATE: "a concentrate to be mixed"}


def label_facts(label: Label, voice: Voice) -> list[str]:
    facts = [] if label.form is None else [FORMS[label.form]]
    if label.gap_days is not None:
        facts.append(f"every {counted(label.gap_days, 'day')} at the soonest")
    if label.rate_ml_per_l is not None:
        facts.append(voice.rate(label.rate_ml_per_l))
    if label.most_ml_per_l is not None:
        facts.append(f"up to {voice.rate(label.most_ml_per_l)}")
    if label.strength_percent is not None:
        facts.append(f"{plain(label.strength_percent)} %")
    if label.uses_a_year is not None:
        facts.append(f"at most {label.uses_a_year} times a year")
    if label.harvest_days is not None:
        facts.append(f"{counted(label.harvest_days, 'day')} before eating")
    if label.is_for_edibles is not None:
        facts.append(f"{'' if label.is_for_edibles else 'not '}for what is eaten")
    if label.is_for_indoors is not None:
        facts.append(f"{'' if label.is_for_indoors else 'not '}for indoors")
    return facts


@says
def _bad_label(told: BadLabel) -> str:
    value, low, high = (
        f"{one:f}" if isinstance(one, Decimal) else one for one in (told.value, *LIMITS[told.fact])
    )
    return f"{value} {UNITS[told.fact]} cannot be right ({low} to {high}). What does the label say? Nothing is written."


@says
def _label_doubted(told: LabelDoubted, voice: Voice) -> str:
    first, second = (listed(label_facts(one, voice)) for one in (told.first, told.second))
    return f"Both cannot hold for {told.name}, so nothing is written.\n1 {first}\n2 {second}\nWhich does the label say?"


def ask_of_eating(product: str) -> str:
    """Ask before the first use on something eaten."""
    return f"Does the {product}'s label allow plants that are eaten, how many days before?"


def against(refusals: Sequence[Refusal]) -> str:
    return "; ".join(AGAINST[refusal] for refusal in refusals)


def warned(plant: str, product: str, refusals: Sequence[Refusal]) -> str:
    return f"{plant}: {product} was not the right thing: {against(refusals)}. The label is the law where you live."


def spent(told: Spent) -> str:
    """Say that the next treatment needs something else, and why."""
    following = (
        f"next with {told.following}" if told.following else "nothing else on the shelf fits, so water next"
    )
    return f"No more {told.product} on {told.plant} for now: {against(told.refusals)}; {following}."


def eat_from(plant: str, on: date | None, used_on: date) -> str:
    if on is None:
        return f"{plant}: do not eat from it any more."
    if on <= used_on:
        return f"{plant}: no days to wait before eating, by the usual label; wash it well."
    return f"{plant}: do not eat before {day(on)}, and wash it."


@says
def _cautions(told: CautionsTold) -> str:
    if not told.products:
        return "Nothing is on your shelf, so I suggest nothing but handwork: water, cloth and fingers."
    lines = [
        f"{name}: {caution}{' Dangerous to cats and fish.' if harms else ''}"
        for name, caution, harms in told.products
    ]
    lines += [f"• {one}" for one in told.minded]
    if not told.minded:
        lines.append("“safety” tells all that is to be minded.")
    if not told.knows_animals:
        lines.append("Say “we have a cat” or “we have fish”, and I leave out what is dangerous to them.")
    lines.insert(0, "The label, your vet and your poison centre decide; I am a notebook.")
    return "\n".join(lines)


@says
def _may_eat(told: MayEat) -> str:
    if not (told.plants or told.supposed):
        return (
            "I know of no plant that is eaten. Tell me which is, and I keep to the days its products ask for."
        )
    lines = [_yes(one, told.on) + _eating(one, told.today) for one in told.plants]
    return "\n".join([*lines, *map(_supposed, told.supposed)])


def _supposed(one: Supposed) -> str:
    if one.days is None:
        return f"{one.plant}: not after {one.product}, {AGAINST[Refusal.NOT_EDIBLE]}."
    if one.is_read:
        wait = f"{counted(one.days, 'day')} to wait" if one.days else "no days to wait"
        return f"{one.plant}: {wait} after {one.product}, by its label; wash it well."
    usual = f"usually {counted(one.days, 'day')}" if one.days else "usually none"
    return (
        f"{one.plant}: after {one.product} only if its label allows what is eaten, and after the days it gives "
        f"({usual}). Nobody told me what it says."
    )


def _yes(one: Eating, on: date | None) -> str:
    """Say yes or no to a day that was asked about."""
    if on is None or not one.is_edible:
        return ""
    is_free = one.product is None or (one.free_on is not None and one.free_on <= on)
    return f"Yes, {day(on)}. " if is_free else f"No, not {day(on)}. "


def _eating(one: Eating, today: date) -> str:
    if not one.is_edible:
        return f"{one.plant} is not among the plants I know as eaten. If it is, say “{one.plant} is edible”."
    if one.product is None or one.used_on is None:
        return f"{one.plant}: no product is written for it, so by my notes there is nothing to wait for; wash it well."
    if one.is_planned:
        until = f"not before {day(one.free_on)}" if one.free_on is not None else "do not eat from it any more"
        due = "this evening" if one.used_on == today else f"in the morning, {day(one.used_on)}"
        return f"{one.plant}: {one.product} is due {due}, and after it {until}; wash it well."
    if one.free_on is None:
        return f"{one.plant}: do not eat from it any more; {one.product} was used on {day(one.used_on)}."
    if one.free_on > today:
        return f"{one.plant}: not before {day(one.free_on)}, {one.product} was used on {day(one.used_on)}; wash it well."
    if one.free_on <= one.used_on:
        return f"{one.plant}: no days to wait after {one.product}, by its label as told or as usual; wash it well."
    return (
        f"{one.plant}: the days to wait after {one.product} of {day(one.used_on)} are over, by its label as told or as "
        "usual; wash it well."
    )
