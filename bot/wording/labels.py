"""Words for what a label forbids."""

from collections.abc import Sequence
from datetime import date

from bot.domain.label import Refusal
from bot.wording.days import day

AGAINST = {
    Refusal.USED_UP: "there is none left",
    Refusal.WRONG_PEST: "it does not reach this pest",
    Refusal.NOT_INDOORS: "its kind is not for indoors",
    Refusal.NOT_EDIBLE: "it is not for plants that are eaten",
    Refusal.USES_SPENT: "its uses for a year are spent",
    Refusal.SENSITIVE: "this kind of plant is hurt by it",
    Refusal.TOO_HOT: "it is too hot there for it",
    Refusal.TOO_COLD: "it is too cold there for it",
    Refusal.NEAR_ANOTHER: "it must not follow another product used here so soon",
    Refusal.ANIMALS: "it is dangerous to the animals you told me of",
    Refusal.BEES: "outdoors it harms bees",
    Refusal.SAME_GROUP: "the pest's last generation met the same kind of poison: take another number",
}


def against(refusals: Sequence[Refusal]) -> str:
    """Say why a product is not for a plant."""
    return "; ".join(AGAINST[refusal] for refusal in refusals)


def warned(plant: str, product: str, refusals: Sequence[Refusal]) -> str:
    """Say what a treatment written down was against."""
    return (
        f"{plant}: {product} was not the right thing: {against(refusals)}. It is written; the label is the law "
        "where you live."
    )


def eat_from(plant: str, on: date | None, used_on: date) -> str:
    """Say from when an edible plant may be eaten again."""
    if on is None:
        return f"{plant}: do not eat from it any more."
    if on <= used_on:
        return f"{plant}: no days to wait before eating, by the usual label; wash it well."
    return f"{plant}: do not eat before {day(on)}, and wash it."
