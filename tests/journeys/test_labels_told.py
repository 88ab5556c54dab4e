"""What stands on a bottle, told in many ways; nonsense is asked back and writes nothing."""

from decimal import Decimal

import pytest

from bot.domain.journal import ProductSet
from bot.domain.trade import Form
from tests.journeys.talking import Talk


def _told(talk: Talk) -> ProductSet:
    told = talk.told()[-1][1]
    assert isinstance(told, ProductSet)
    return told


@pytest.mark.parametrize(
    ("text", "rate", "most"),
    [
        ("neem label says 5 ml per litre", "5", "5"),
        ("neem: 5ml/l", "5", "5"),
        # A US fluid ounce is 29.5735 mL and a US gallon 3785.41 mL: 7.8125 mL/L (29.5735 / 3.78541).
        ("neem label says 1 fl oz per gallon", "7.8125", "7.8125"),
        ("the neem label says 2 to 5 ml per litre", "2", "5"),
        ("my neem says 2-5 ml per litre", "2", "5"),
    ],
)
def test_a_rate_of_a_label_is_kept(talk: Talk, text: str, rate: str, most: str) -> None:
    talk.say("got neem concentrate")
    talk.say(text)
    told = _told(talk)
    assert told.label.rate_ml_per_l is not None
    assert told.label.most is not None
    assert (told.label.rate_ml_per_l.normalize(), told.label.most.normalize()) == (
        Decimal(rate),
        Decimal(most),
    )


@pytest.mark.parametrize(
    ("text", "ingredient", "strength", "form"),
    [
        ("got soap, concentrate, 49%", "soap", "49", Form.CONCENTRATE),
        ("my alcohol is 99%", "alcohol", "99", None),
        ("the alcohol has 70 percent", "alcohol", "70", None),
        ("bought neem oil concentrate 1.5 % every 7 days", "neem", "1.5", Form.CONCENTRATE),
    ],
)
def test_a_strength_is_kept(talk: Talk, text: str, ingredient: str, strength: str, form: Form | None) -> None:
    talk.say(text)
    told = _told(talk)
    assert (told.ingredient, told.label.strength_percent, told.label.form) == (
        ingredient,
        Decimal(strength),
        form,
    )


def test_a_rate_of_no_product_is_asked_for_its_bottle(talk: Talk) -> None:
    talk.say("got neem concentrate")
    talk.passes(hours=1)
    before = len(talk.entries())
    assert talk.say("5 ml per litre") == ["Which product?"]
    assert talk.new_since(before) == []
    talk.press("Label of neem oil")
    assert _told(talk).label.rate_ml_per_l == 5


def test_a_mixture_takes_the_lower_rate_and_never_passes_the_upper(talk: Talk) -> None:
    talk.set_up(("got neem concentrate", "neem label says 2 to 5 ml per litre"))
    assert talk.say("mix 1 l of neem")[0].startswith("For 1 L: 998 mL water, 2 mL neem oil.")
    assert talk.say("mix 1 l of neem at 5 ml per litre")[0].startswith(
        "For 1 L: 995 mL water, 5 mL neem oil."
    )
    assert (
        "past your label: I took its most, 5 mL per litre" in talk.say("mix 1 l of neem at 9 ml per litre")[0]
    )


@pytest.mark.parametrize(
    "text",
    [
        "mix 1 l of neem at 5 ml per banana",
        "neem label says 0 ml per litre",
        "my alcohol is 200%",
        "soap label says 0 %",
        "neem label says 5 to 2 ml per litre",
        "neem label says every 400 days",
        "mix 0 ml of neem",
        "neem label says 2 caps per sprayer",
        "neem label says 5 ml per spray bottle",
        "neem label says 3 pumps per litre",
        "neem: at most 0 uses per year",
        "neem label says 5000 ml per litre",
        "neem 400 days before harvest",
    ],
)
def test_nonsense_on_a_label_writes_nothing(talk: Talk, text: str) -> None:
    talk.say("got neem concentrate")
    before = len(talk.entries())
    (answer,) = talk.say(text)
    assert talk.new_since(before) == []
    assert "!" not in answer


def test_facts_come_in_any_order_and_a_later_one_replaces_only_what_it_says(talk: Talk) -> None:
    talk.set_up(("got neem concentrate", "neem label says 2 to 5 ml per litre, max 6 a year"))
    talk.say("the neem label says every 10 days")
    talk.say("neem label says 3 ml per litre")
    (neem,) = (one.label for one in talk.home.products.values() if one.ingredient == "neem")
    assert (neem.form, neem.gap_days, neem.uses_a_year) == (Form.CONCENTRATE, 10, 6)
    assert (neem.rate_ml_per_l, neem.most) == (Decimal(3), Decimal(5))


@pytest.mark.parametrize(
    ("before", "then", "button", "kept"),
    [
        ("soap 1 day before harvest", "the soap is not for edibles", "The first", (None, False)),
        ("soap 1 day before harvest", "the soap is not for edibles", "The second", (1, True)),
        ("the soap is not for edibles", "soap 1 day before harvest", "The first", (1, True)),
        ("the soap is not for edibles", "soap 1 day before harvest", "The second", (None, False)),
    ],
)
def test_what_contradicts_the_label_is_asked_and_nothing_is_written_before(
    talk: Talk, before: str, then: str, button: str, kept: tuple[int | None, bool]
) -> None:
    talk.say(before)
    written = len(talk.entries())
    assert "Which does the label say?" in talk.say(then)[0]
    assert talk.new_since(written) == []
    talk.press(button)
    (soap,) = (one.label for one in talk.home.products.values() if one.ingredient == "soap")
    assert (soap.harvest_days, soap.is_for_edibles) == kept


def test_a_rate_above_the_labels_most_or_of_what_is_ready_to_use_is_asked(talk: Talk) -> None:
    talk.set_up(("got neem concentrate", "neem label says 2 to 5 ml per litre"))
    assert "8 mL per litre" in talk.say("neem label says 8 ml per litre")[0]
    talk.press("The second")
    (neem,) = (one.label for one in talk.home.products.values() if one.ingredient == "neem")
    assert (neem.rate_ml_per_l, neem.most) == (Decimal(2), Decimal(5))
    assert "ready to use" in talk.say("soap label says 20 ml per litre")[0]  # the soap of this home is that
    talk.press("The first")
    (soap,) = (one.label for one in talk.home.products.values() if one.ingredient == "soap")
    assert (soap.form, soap.rate_ml_per_l) == (Form.CONCENTRATE, Decimal(20))


def test_before_the_first_use_on_what_is_eaten_its_label_is_asked_for(talk: Talk) -> None:
    talk.say("chilli, kitchen, 12 cm")
    assert "label allow plants that are eaten" not in talk.say("chilli 12 melon aphids")[0]
    answer = talk.press("It is apart now")[0]
    assert answer.endswith("Does the soap's label allow plants that are eaten, how many days before?")
    assert "soap" not in talk.say("what's due")[0]
    talk.press("Yes: 1 d before eating")
    assert "chilli, rinse, then soap" in talk.say("what's due")[0]
    assert "do not eat before Sun 3 May" in talk.say("sprayed the chilli with soap")[0]


def test_a_label_that_names_nothing_eaten_keeps_it_off(talk: Talk) -> None:
    talk.say("chilli, kitchen, 12 cm")
    assert (
        "Does the neem oil's label allow plants that are eaten"
        in talk.say("got neem, ready to use, every 7 days")[0]
    )
    talk.press("No, or not named")
    talk.say("chilli 12 melon aphids")
    assert "soap" not in talk.say("what's due")[0]


@pytest.mark.parametrize(
    "text", ["soap label allows edibles, 0 days", "the soap may go on food, 0 days to wait"]
)
def test_no_days_to_wait_do_not_empty_the_bottle(talk: Talk, text: str) -> None:
    before = len(talk.told())
    talk.say(text)
    stocks = [one.stock_ml for _, one in talk.told()[before:] if isinstance(one, ProductSet)]
    assert 0 not in stocks


@pytest.mark.parametrize(
    ("told", "words", "fact", "value"),
    [
        ("got neem", "says every 5 days", "gap_days", 5),
        ("bought oil today", "no more than 6 a year", "uses_a_year", 6),
        ("got neem", "it's for outdoors only", "is_for_indoors", False),
        ("got oil", "its a concentrate", "form", Form.CONCENTRATE),
        # 4 US tablespoons to a US gallon: 59.147 mL in 3,785.41 mL.
        ("got neem", "4 tbsp a US gallon it says", "rate_ml_per_l", Decimal("15.625")),
    ],
)
def test_what_a_label_says_is_of_the_product_just_told(
    talk: Talk, told: str, words: str, fact: str, value: object
) -> None:
    talk.say(told)
    before = _told(talk)
    talk.say("hoya clean")
    talk.say(words)
    assert (_told(talk).product, getattr(_told(talk).label, fact)) == (before.product, value)


def test_what_both_labels_say_is_of_the_two_just_told(talk: Talk) -> None:
    talk.say("got neem and oil")
    talk.say("both every 10 days")
    assert [
        (one.ingredient, one.label.gap_days) for _, one in talk.told()[-2:] if isinstance(one, ProductSet)
    ] == [
        ("neem", 10),
        ("oil", 10),
    ]
    talk.say("says every 12 days")
    assert talk.labels() == ["Label of neem oil", "Label of horticultural oil"]


def test_a_label_told_long_after_its_product_is_asked_for(talk: Talk) -> None:
    talk.say("got neem")
    talk.passes(hours=3)
    assert talk.say("says every 5 days") == ["Which product?"]


@pytest.mark.parametrize(
    "words",
    [
        "label says not on seedlings",
        "the bottle warns about hot sun",
        "says on the packet to shake it well before use",
        "the label says it must not be used on ferns",
    ],
)
def test_what_is_not_kept_of_a_label_is_said_and_offers_nothing(talk: Talk, words: str) -> None:
    talk.say("got neem")
    count = len(talk.told())
    (answer,) = talk.say(words)
    assert answer.startswith("Of a label I keep the rate")
    assert len(talk.told()) == count
    assert talk.labels() == []


def test_of_two_labels_one_is_asked_at_a_time_by_the_products_name(talk: Talk) -> None:
    talk.say("the ivy is edible")
    talk.say("got neem and oil")
    asked = [line for line in talk.shown[1][-1].text.splitlines() if line.startswith("Does ")]
    assert asked == ["Does the neem oil's label allow plants that are eaten, how many days before?"]
    (then,) = talk.press("Yes: 1 d before eating")
    assert _told(talk).ingredient == "neem"
    assert "Does the horticultural oil's label allow" in then
    talk.press("No, or not named")
    assert (_told(talk).ingredient, _told(talk).label.is_for_edibles) == ("oil", False)


@pytest.mark.parametrize(
    ("text", "days", "uses"),
    [
        ("yes 1 day before eating, max 3 times a year", 1, 3),
        ("yes, 3 days", 3, None),
        ("it says 7 days before harvest", 7, None),
        ("allowed, 0 days, every 10 days", 0, None),
        ("1 day", 1, None),
    ],
)
def test_what_is_asked_of_a_label_is_answered_in_words(
    talk: Talk, text: str, days: int, uses: int | None
) -> None:
    _with_basil(talk)
    talk.say(text)
    told = _told(talk).label
    assert (told.harvest_days, told.uses_a_year) == (days, uses)


@pytest.mark.parametrize("text", ["no", "No.", "not named", "no, not for food", "it is not for edibles"])
def test_a_label_that_does_not_name_what_is_eaten_forbids_it(talk: Talk, text: str) -> None:
    _with_basil(talk)
    talk.say(text)
    assert _told(talk).label.is_for_edibles is False


@pytest.mark.parametrize(
    "text",
    [
        "dont know",
        "i can't read it",
        "yes",
        "how do i know?",
        "i do not eat the basil",
        "allowed",
        "it does",
        "yes it does",
        "eating is allowed",
    ],
)
def test_what_says_nothing_of_a_label_writes_nothing_of_it(talk: Talk, text: str) -> None:
    before = _with_basil(talk)
    talk.say(text)
    assert len(talk.told()) == before


def _with_basil(talk: Talk) -> int:
    talk.say("basil, kitchen")
    (answer,) = talk.say("bought some spinosad")
    assert "how many days before?" in answer
    return len(talk.told())


def test_a_label_that_is_not_at_hand_is_told_what_follows(talk: Talk) -> None:
    before = _with_basil(talk)
    (answer,) = talk.press("don't know")
    assert answer.startswith("Then no spinosad on what is eaten")
    assert len(talk.told()) == before
    talk.say("spinosad label: 3 days before eating")
    assert _told(talk).label.harvest_days == 3


@pytest.mark.parametrize("text", ["i can't read it", "not at hand", "later", "dont know"])
def test_who_cannot_read_a_label_is_told_what_follows(talk: Talk, text: str) -> None:
    _with_basil(talk)
    assert talk.say(text)[0].startswith("Then no spinosad on what is eaten")
