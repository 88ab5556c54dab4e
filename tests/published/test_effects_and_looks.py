"""
What trials, extension services and labels say of products, intervals and ways of looking, against the catalogue.

Each row names its source (sources.toml) and quotes or sums up the place. Nothing here is remembered.
"""

import pytest

from bot.catalogue.load import load
from bot.domain.campaign import Effect, Life
from bot.domain.gap import plan_gap
from bot.domain.refusal import generation_days
from bot.domain.trade import Level, Method

CATALOGUE = load()
GOOD, SOME, NONE, WORSE = Effect.GOOD, Effect.SOME, Effect.NONE, Effect.WORSE
EGG, YOUNG, PUPA, ADULT = Life.EGG, Life.YOUNG, Life.PUPA, Life.ADULT

EFFECTS = [
    # flaent2015: drench and foliar imidacloprid, and acetamiprid, "significantly increased spider mite numbers"
    ("flaent2015", "spider_mite", "imidacloprid", ADULT, {WORSE}),
    ("flaent2015", "spider_mite", "acetamiprid", ADULT, {WORSE}),
    # the same: spinosad "significantly fewer spider mites", and fewer eggs
    ("flaent2015", "spider_mite", "spinosad", ADULT, {GOOD, SOME}),
    ("flaent2015", "spider_mite", "spinosad", EGG, {GOOD, SOME}),
    # the same: Beauveria "was least effective"
    ("flaent2015", "spider_mite", "beauveria", ADULT, {SOME, NONE}),
    # gerson1989, title and abstract: resurgences of spider mites after pyrethroids
    ("gerson1989", "spider_mite", "pyrethrins", ADULT, {WORSE}),
    # By visalia_oils, "Targets of horticultural oils include mite eggs"
    ("visalia_oils", "spider_mite", "oil", EGG, {GOOD, SOME}),
    # middleton2022: no strength of alcohol reliably killed eggs in ovisacs, over 90 % of crawlers were hit
    ("middleton2022", "citrus_mealybug", "alcohol", EGG, {NONE}),
    ("middleton2022", "citrus_mealybug", "alcohol", YOUNG, {GOOD}),
    # By urban_scales, "Insecticidal soap or horticultural oil will kill soft scale crawlers"
    ("urban_scales", "brown_soft_scale", "soap", YOUNG, {GOOD}),
    ("urban_scales", "brown_soft_scale", "oil", YOUNG, {GOOD}),
    # scale_systemics: imidacloprid "controls ... most soft scales but does not control ... most armored scales"
    ("scale_systemics", "brown_soft_scale", "imidacloprid", YOUNG, {GOOD}),
    ("scale_systemics", "armoured_scale", "imidacloprid", YOUNG, {NONE}),
    # the same: contact sprays reach "the crawler stage ... only"
    ("scale_systemics", "armoured_scale", "soap", ADULT, {NONE}),
    # By csu_whitefly, "Horticultural oils and neem are two of the best controls for the immature stages"
    ("csu_whitefly", "greenhouse_whitefly", "oil", YOUNG, {GOOD}),
    ("csu_whitefly", "greenhouse_whitefly", "neem", YOUNG, {GOOD}),
    # csu_whitefly1448: pyrethrins "are the best controls for adults"
    ("csu_whitefly1448", "greenhouse_whitefly", "pyrethrins", ADULT, {GOOD}),
    # greenhouseipm_beauveria: very effective "on whitefly and thrips", "far less effective on aphid pests"
    ("greenhouseipm_beauveria", "greenhouse_whitefly", "beauveria", YOUNG, {GOOD}),
    ("greenhouseipm_beauveria", "green_peach_aphid", "beauveria", YOUNG, {SOME}),
    # wisc_gnats: Steinernema feltiae "excellent control"; larvae "more susceptible than pupae"
    ("wisc_gnats", "fungus_gnat", "nematodes", YOUNG, {GOOD}),
    ("wisc_gnats", "fungus_gnat", "nematodes", PUPA, {SOME, NONE}),
    # rinconvitova_bti: must be eaten, by larvae; nothing to the grown
    ("rinconvitova_bti", "fungus_gnat", "bti", ADULT, {NONE}),
    # vitellin2010: imidacloprid "particularly effective against ... aphids and whiteflies", "not toxic to ... mites"
    ("vitellin2010", "green_peach_aphid", "imidacloprid", YOUNG, {GOOD}),
    ("vitellin2010", "broad_mite", "imidacloprid", ADULT, {NONE}),
    # lsu_beauveria: "Immature stages tend to be more susceptible than adults"; mealybugs are named
    ("lsu_beauveria", "citrus_mealybug", "beauveria", YOUNG, {GOOD, SOME}),
    # rinconvitova_persimilis, sellers: young and grown "both feed on two-spotted mite eggs, nymphs, and adults"
    ("rinconvitova_persimilis", "spider_mite", "phytoseiulus", EGG, {GOOD}),
    ("rinconvitova_persimilis", "spider_mite", "phytoseiulus", ADULT, {GOOD}),
    # rinconvitova_cryptolaemus, sellers: "less effective on longtailed mealybug", which lacks the cottony masses
    ("rinconvitova_cryptolaemus", "citrus_mealybug", "cryptolaemus", ADULT, {GOOD}),
    ("rinconvitova_cryptolaemus", "longtailed_mealybug", "cryptolaemus", ADULT, {SOME}),
    # gpn_cucumeris: eats "the first instar" of thrips larvae only
    ("gpn_cucumeris", "western_flower_thrips", "amblyseius", YOUNG, {SOME}),
    ("gpn_cucumeris", "western_flower_thrips", "amblyseius", ADULT, {NONE}),
    # globalhort_stratiolaelaps, sellers: larvae of gnats, thrips pupae "found in the soil"
    ("globalhort_stratiolaelaps", "fungus_gnat", "stratiolaelaps", YOUNG, {GOOD, SOME}),
    ("globalhort_stratiolaelaps", "western_flower_thrips", "stratiolaelaps", PUPA, {GOOD, SOME}),
]


@pytest.mark.parametrize(("source", "pest", "product", "life", "fitting"), EFFECTS)
def test_a_product_does_what_its_source_says(
    source: str, pest: str, product: str, life: Life, fitting: set[Effect]
) -> None:
    assert source in CATALOGUE.sources
    assert CATALOGUE.pests[pest].effects[product].on[life] in fitting


def test_what_brings_more_of_a_pest_never_counts_as_reaching_it() -> None:
    # By szczepaniec2009, "outbreaks of spider mites occur consistently following applications of imidacloprid"
    assert not CATALOGUE.pests["spider_mite"].is_reached_by("imidacloprid")


@pytest.mark.parametrize("celsius", [18, 20, 24])
def test_whitefly_rounds_come_at_five_to_seven_days_and_four_or_five_times(celsius: float) -> None:
    # kstate_whitefly: "four or five applications at five to seven-day intervals".
    pest = CATALOGUE.pests["greenhouse_whitefly"]
    plan = plan_gap(pest, celsius, 5)
    assert 5 <= plan.aim_days <= 7
    assert pest.least.rounds in {4, 5}


@pytest.mark.parametrize(
    ("source", "product", "least", "most"),
    [
        ("soap_concentrate_7to10", "soap", 7, 10),  # "every 7-10 days"
        ("beauveria_rates", "beauveria", 5, 7),  # "applications every 5-7 days" under glass
    ],
)
def test_the_days_between_two_uses_are_those_of_the_label(
    source: str, product: str, least: int, most: int
) -> None:
    assert source in CATALOGUE.sources
    assert least <= CATALOGUE.products[product].gap_days <= most


def test_oil_is_not_for_the_cold() -> None:
    # planttalk_oils: "above 40 degrees Fahrenheit", 4.4 degC; ours is the careful side.
    assert CATALOGUE.products["oil"].coldest >= 4.4


def test_beauveria_wants_the_warmth_its_source_gives() -> None:
    # lsu_beauveria: best "within 68-86 F", 20 to 30 degC; ours lets it begin at 15, and ends where theirs does.
    assert CATALOGUE.products["beauveria"].hottest == pytest.approx(30)
    assert CATALOGUE.products["beauveria"].coldest <= 20


@pytest.mark.parametrize(
    ("source", "pest", "way"),
    [
        # ifas_monroe: "a 10X to 15X magnifying glass is a necessity"; striking over white paper "more efficient"
        ("ifas_monroe", "spider_mite", Level.LENS),
        ("ifas_monroe", "spider_mite", Level.TAP),
        # By aos_mites, "tap a leaf over a piece of white paper"
        ("aos_mites", "spider_mite", Level.TAP),
        # rutgers_gnats, wisc_gnats: yellow cards, potato pieces
        ("rutgers_gnats", "fungus_gnat", Level.CARD),
        ("rutgers_gnats", "fungus_gnat", Level.POTATO),
        ("wisc_gnats", "fungus_gnat", Level.POTATO),
        # csu_whitefly1448: sticky traps "either monitor or help control"
        ("csu_whitefly1448", "greenhouse_whitefly", Level.CARD),
        # By umass_broad2020, "High magnification (20 - 30X)"
        ("umass_broad2020", "broad_mite", Level.LENS),
        # By manitoba_cyclamen, "difficult to see without the aid of a hand lens"
        ("manitoba_cyclamen", "cyclamen_mite", Level.LENS),
    ],
)
def test_a_pest_is_looked_for_as_its_source_says(source: str, pest: str, way: Level) -> None:
    assert source in CATALOGUE.sources
    assert way in CATALOGUE.pests[pest].looking.needed


def test_cards_are_not_how_mites_are_found() -> None:
    # ifas_monroe names lens and paper; mites do not fly.
    assert Level.CARD not in CATALOGUE.pests["spider_mite"].looking.needed


def test_gnat_pots_dry_on_top_and_whitefly_leaves_go() -> None:
    # utah_gnats: the upper half inch to inch dry between waterings. kstate_whitefly: both leaf sides; discard the worst.
    assert CATALOGUE.pests["fungus_gnat"].fight.with_round == (Method.DRY,)
    assert not CATALOGUE.pests["fungus_gnat"].fight.is_discarded
    assert CATALOGUE.pests["greenhouse_whitefly"].fight.is_discarded


@pytest.mark.parametrize(
    ("source", "product", "coldest", "hottest"),
    [
        (
            "rinconvitova_persimilis",
            "phytoseiulus",
            18,
            27,
        ),  # "64-81 F (18-27 C), the predators reproduce faster"
        ("rinconvitova_cryptolaemus", "cryptolaemus", 16, 33),  # "can be used between 16-33 C"
        ("gpn_cucumeris", "amblyseius", 20, 27),  # "most active ... between 68 F and 81 F", 20 and 27.2 degC
        (
            "globalhort_stratiolaelaps",
            "stratiolaelaps",
            15,
            30,
        ),  # 12 to 30 degC, "drops rapidly ... below 15 C"
        (
            "bioplanet_aphidius",
            "aphidius",
            16,
            28,
        ),  # 16 to 22 suit it, "above 28-32 C the activity sharply decrease"
        ("ipmlabs_aphids", "lacewings", 16, 27),  # "60-80 F", 15.6 to 26.7 degC
    ],
)
def test_predators_work_in_the_warmth_their_sellers_print(
    source: str, product: str, coldest: float, hottest: float
) -> None:
    assert source in CATALOGUE.sources
    kind = CATALOGUE.products[product]
    assert (kind.coldest, kind.hottest) == (coldest, hottest)
    assert kind.methods == (Method.PREDATORS,)


def test_predators_come_two_days_after_a_soft_spray_and_again_within_a_fortnight() -> None:
    # pdi_persimilis: "Release predatory mites after 48 hours"; "Repeat releases every 7-14 days".
    kind = CATALOGUE.products["phytoseiulus"]
    assert dict(kind.not_within_days_of)["soap"] == dict(kind.not_within_days_of)["oil"] == 2
    assert 7 <= kind.gap_days <= 14


@pytest.mark.parametrize(("celsius", "most"), [(18, 30), (21, 21), (24, 21)])
def test_thrips_meet_another_mode_of_action_within_the_label_of_spinosad(celsius: float, most: float) -> None:
    # canr_thrips, the label: not on "consecutive generations", not "continuous use for more than 30 days";
    # kstate_thrips: egg to adult "two to three weeks".
    assert generation_days(CATALOGUE.pests["western_flower_thrips"], celsius) <= most
