import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.catalogue.load import load
from bot.domain.key import MOST_QUESTIONS, UNSURE, Answers, Nature, next_question, remaining

KEY = load().key
PESTS = sorted(one.key for one in KEY.creatures.values() if one.nature is Nature.PEST)


def led_to(told: dict[str, str]) -> tuple[list[str], int]:
    """Answer what is asked as told, the rest not sure; give what is left and how much was asked."""
    answers: list[tuple[str, str]] = []
    while (question := next_question(KEY, answers)) is not None:
        answers.append((question.key, told.get(question.key, UNSURE)))
    return [one.key for one in remaining(KEY, answers)], len(answers)


# What a person sees, as the named sources describe it.
DESCRIBED = [
    # UC IPM and Middleton 2022 on mealybugs: waxy, slow, filaments short in citrus, as long as the body in longtailed.
    (
        "citrus_mealybug",
        {"look": "fluff", "crushed": "smear", "where": "leaves", "moves": "slow", "tails": "short"},
    ),
    (
        "longtailed_mealybug",
        {"look": "fluff", "crushed": "smear", "where": "stems", "moves": "slow", "tails": "long"},
    ),
    # Pennsylvania master gardeners on African violets: white cotton at the roots, moving, unlike perlite.
    ("root_mealybug", {"look": "fluff", "where": "mix", "crushed": "smear", "moves": "slow"}),
    # Webbing, pale dots, specks that walk when tapped onto paper: from memory.
    ("spider_mite", {"look": "webbing", "moves": "slow", "sticky": "no"}),
    # Soft scale sticky and one with its cover, armoured scale not sticky and lifting off: from memory.
    ("brown_soft_scale", {"look": "bumps", "lifts": "whole", "sticky": "yes"}),
    ("armoured_scale", {"look": "bumps", "lifts": "cover", "sticky": "no"}),
    # Pear-shaped, green or pink, or yellow to black, sticky: from memory.
    ("green_peach_aphid", {"look": "insects", "colour": "green", "sticky": "yes"}),
    ("melon_aphid", {"look": "insects", "colour": "dark", "sticky": "yes"}),
    # White moths rising in a cloud; long-legged flies running over the mix: from memory.
    ("greenhouse_whitefly", {"look": "flies", "fly": "cloud"}),
    ("fungus_gnat", {"look": "flies", "fly": "legs", "where": "mix"}),
    # Silvery patches with black droppings: from memory.
    ("western_flower_thrips", {"look": "patches", "specks": "yes", "moves": "slow", "sticky": "no"}),
    # An orchid grower's service: silver spots under the leaves, no webs, flat and almost still.
    ("flat_mite", {"look": "patches", "specks": "no", "moves": "slow", "sticky": "no"}),
    # UMass: tips, young leaves and buds malformed. Clemson, Pennsylvania: the heart stays small, buds fail.
    ("broad_mite", {"look": "tips", "where": "stems"}),
    ("cyclamen_mite", {"look": "tips", "where": "leaves"}),
]


def test_every_pest_is_described_above() -> None:
    assert sorted(name for name, _ in DESCRIBED) == PESTS


@pytest.mark.parametrize(("pest", "told"), DESCRIBED, ids=[name for name, _ in DESCRIBED])
def test_a_description_leads_to_the_pest_or_a_short_list(pest: str, told: dict[str, str]) -> None:
    left, asked = led_to(told)
    assert asked <= MOST_QUESTIONS
    assert pest in left[:2]
    assert len(left) <= 3


@pytest.mark.parametrize(
    ("told", "expected"),
    [
        ({"look": "fluff", "crushed": "smear", "where": "leaves", "moves": "fast"}, "ladybird_larva"),
        ({"look": "grains", "where": "mix", "crushed": "dry", "moves": "still"}, "perlite"),
        ({"look": "bumps", "lifts": "fixed", "where": "leaves", "rows": "rows"}, "fern_spores"),
        ({"look": "sticky", "moves": "still", "rows": "rows", "sticky": "yes"}, "nectary"),
        ({"look": "insects", "colour": "white", "where": "mix"}, "springtail"),
    ],
)
def test_look_alikes_are_told_apart(told: dict[str, str], expected: str) -> None:
    left, _ = led_to(told)
    assert left[0] == expected
    assert not any(KEY.creatures[name].nature is Nature.PEST for name in left[:1])


@given(st.data())
def test_whatever_is_answered_the_key_ends(data: st.DataObject) -> None:
    answers: list[tuple[str, str]] = []
    while (question := next_question(KEY, answers)) is not None:
        assert question.key not in {asked for asked, _ in answers}
        answers.append((question.key, data.draw(st.sampled_from((*question.options, UNSURE)))))
        assert len(answers) <= MOST_QUESTIONS


@given(st.lists(st.sampled_from([(q.key, o) for q in KEY.questions.values() for o in (*q.options, UNSURE)])))
def test_an_answer_never_brings_a_creature_back(answers: Answers) -> None:
    before = {one.key for one in remaining(KEY, answers[:-1])}
    assert {one.key for one in remaining(KEY, answers)} <= before


def test_not_sure_drops_nobody() -> None:
    assert len(remaining(KEY, [(question, UNSURE) for question in KEY.questions])) == len(KEY.creatures)


def test_a_fingernail_is_asked_for_bumps_only() -> None:
    assert not KEY.questions["lifts"].makes_sense([("look", "grains")])
    assert KEY.questions["lifts"].makes_sense([("look", "bumps")])
    assert KEY.questions["lifts"].makes_sense([])
