"""What is looked up is read, whole and only when it is asked; nothing of it writes, and telling stays telling."""

import pytest

from bot.phrases.hearing import understand
from bot.phrases.notation import notation
from tests.phrases.situation import EVENING


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("is the ivy poisonous to cats?", "ask poison ivy ivy to=cats"),
        ("is oleander toxic for dogs", "ask poison oleander to=dogs"),
        ("is string of pearls toxic to my dog", "ask poison string_of_pearls to=dogs"),
        ("can my cat eat the spider plant?", "ask poison spider_plant to=cats"),
        ("are lilies ok with cats", "ask poison lilies to=cats"),
        ("are tomatoes poisonous to people", "ask poison tomatoes to=people"),
        ("which of my plants are poisonous", "ask poison"),
        ("are any plants dangerous for kids", "ask poison to=people"),
        ("what plants are safe for rabbits?", "ask poison to=rabbits"),
        ("is a triffid toxic to dogs?", "ask poison triffid to=dogs"),
        ("should i keep the ivy away from the cat", "ask poison ivy ivy to=cats"),
        ("are my plants safe for pets?", "ask poison to=cats,dogs"),
    ],
)
def test_poison_is_asked_of_plants_at_home_and_of_kinds(text: str, meaning: str) -> None:
    assert notation(understand(text, EVENING), EVENING) == meaning


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("is it toxic", "ask safety"),
        ("is soap dangerous to cats?", "ask safety product=soap"),
        ("is alcohol toxic to cats", "ask safety product=alcohol"),
        ("is it safe for my cat?", "ask safety"),
        ("is the hall safe for cats", "ask safety"),
        ("what is isolated", "ask isolated"),
        ("what is this", "ask pest"),
        ("how do i know it is over", "ask release"),
        ("mix 1 litre of soap", "mix ml=1000 product=soap"),
        ("sprayed the ivy twice as much", "unclear"),
    ],
)
def test_what_only_sounds_like_it_keeps_its_meaning(text: str, meaning: str) -> None:
    assert notation(understand(text, EVENING), EVENING) == meaning


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("how do i do a clean-out of the hoya", "ask how clean_out hoya"),
        ("how do I do a clean out?", "ask how clean_out"),
        ("how to swab", "ask how swab"),
        ("show me how to tap", "ask how tap"),
        ("how do you do the potato test?", "ask how potato"),
        ("how do i rinse the orchid against spider mites", "ask how rinse orchid pest=spider_mite"),
        ("how do i mix neem", "ask how mix"),
    ],
)
def test_a_way_is_asked_for_with_plant_and_pest(text: str, meaning: str) -> None:
    assert notation(understand(text, EVENING), EVENING) == meaning


def test_a_way_with_something_strange_in_it_is_none() -> None:
    assert "ask how" not in notation(understand("how do i wipe my data", EVENING), EVENING)


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("what is an axil", "ask term axil"),
        ("what's a crown?", "ask term crown"),
        ("what does “on watch” mean?", "ask term watch"),
        ("explain rotation", "ask term rotation"),
        ("what is a crawler", "ask term crawler"),
        ("meaning of honeydew", "ask term honeydew"),
        ("what are thrips?", "ask about western_flower_thrips"),
        ("how do i get rid of the fungus gnats", "ask about fungus_gnat"),
        ("how to kill spider mites", "ask about spider_mite"),
    ],
)
def test_a_term_is_explained(text: str, meaning: str) -> None:
    assert notation(understand(text, EVENING), EVENING) == meaning


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("can i spray bleach on the ivy?", "refuse bleach_on_plants"),
        ("i'll put bleach on the soil against gnats", "refuse bleach_on_plants"),
        ("use a double dose of soap", "refuse double_dose"),
        ("can i use twice the dose?", "refuse double_dose"),
        ("can i mix soap and pyrethrins?", "refuse two_products"),
        ("can i use outdoor bug spray on my houseplants", "refuse outdoor_product"),
        ("spray vinegar on the leaves", "refuse kitchen_spray"),
    ],
)
def test_a_dangerous_plan_is_refused_in_any_form(text: str, meaning: str) -> None:
    assert notation(understand(text, EVENING), EVENING) == meaning
