"""What is denied is never offered: not the way of doing, not the product, not the trace."""

import pytest

from bot.actions.correct_entry import DeleteEntry, Entered, Kind
from bot.actions.incomplete import Incomplete
from bot.actions.log_round import LogRound
from bot.actions.log_sign import LogSign
from bot.actions.postpone import Postpone
from bot.domain.trade import Method
from bot.phrases.hearing import understand
from bot.phrases.notation import notation
from bot.rehearsal import read_situation
from tests.phrases.situation import KNOWLEDGE, answered, clauses, first_offer, offered

HOME = read_situation(
    """
now = 2026-09-15T19:40:00
places = ["porch", "den"]
plants = [{names = ["clivia"], place = "porch"}, {names = ["aralia"], place = "den"},
  {names = ["lime"], place = "den"}, {names = ["jade plant"], place = "den"}]
shelf = [{ingredient = "soap"}, {ingredient = "spinosad"}]
tonight = [{plant = "clivia", method = "wipe"}, {plant = "aralia", method = "prune"},
  {plant = "aralia", method = "rinse"}, {plant = "jade plant"}]
""",
    KNOWLEDGE,
)
CLIVIA, ARALIA, LIME, JADE = (one.id for one in HOME.plants)
SOAP, SPINOSAD = (one.id for one in HOME.shelf)


@pytest.mark.parametrize(
    "text",
    [
        "done except pruning",
        "did everything but the pruning",
        "all done, no pruning though",
        "finished, apart from the pruning",
        "all done but I did not prune",
        "done. not the pruning",
        "we did it all except cutting back",
    ],
)
def test_a_way_of_doing_that_is_left_out_is_not_done_and_the_others_are(text: str) -> None:
    meaning = notation(offered(understand(text, HOME)), HOME)
    assert clauses(meaning) == clauses("done clivia method=wipe + done aralia method=rinse")


@pytest.mark.parametrize(
    "text",
    [
        "the den looks fine, no webs",
        "no webbing on the lime",
        "lime looked at, no webs",
        "I did it, no webs",
        "all fine on the jade plant, no honeydew",
        "no stickiness on the lime any more",
        "saw no fluff on clivia",
        "clivia: no webs, no specks",
    ],
)
def test_a_trace_that_is_not_there_is_never_offered(text: str) -> None:
    meant = understand(text, HOME)
    choices = (choice for one in meant if isinstance(one, Incomplete) for choice in one.choices)
    told = (*meant, *(one for choice in choices for one in choice.commands))
    assert not any(isinstance(one, LogSign) for one in told)


@pytest.mark.parametrize(
    ("text", "of"),
    [
        (
            "I did not spray clivia and lime with spinosad",
            Entered(plants=(CLIVIA, LIME), method=Method.SPRAY),
        ),
        ("no spinosad on the lime, I only wiped it", Entered(plant=LIME)),
        ("no no, the lime got no spinosad", Entered(plant=LIME)),
        ("we never sprayed the lime with spinosad", Entered(plant=LIME)),
        (
            "clivia and the lime were not sprayed with spinosad",
            Entered(plants=(CLIVIA, LIME), method=Method.SPRAY),
        ),
        ("nobody sprayed spinosad on the lime", Entered(plant=LIME, method=Method.SPRAY)),
        ("didn't use spinosad on the clivia", Entered(plant=CLIVIA)),
    ],
)
def test_a_denied_product_shows_exactly_that_entry(text: str, of: Entered) -> None:
    told = [one for one in understand(text, HOME) if isinstance(one, DeleteEntry)]
    assert [(one.of.kind, one.of.product) for one in told] == [(Kind.TREATED, SPINOSAD)]
    assert (told[0].of.plant, told[0].of.plants, told[0].of.method) == (of.plant, of.plants, of.method)


@pytest.mark.parametrize(
    "text", ["nobody pruned the aralia", "I did not prune the aralia", "aralia wasn't pruned"]
)
def test_a_denied_treatment_is_put_off_only_where_it_is_not_written(text: str) -> None:
    (told,) = offered(understand(text, HOME))
    assert isinstance(told, Postpone)
    assert told.plants == (ARALIA,)
    assert told.denied == Entered(kind=Kind.TREATED, plant=ARALIA, on=HOME.today, method=Method.PRUNE)


@pytest.mark.parametrize("text", ["no not the clivia", "not the clivia!", "no, not clivia"])
def test_a_bare_denial_of_a_plant_speaks_of_what_is_written_of_it(text: str) -> None:
    told = offered(understand(text, HOME))
    assert [one.denied for one in told if isinstance(one, Postpone)] == [Entered(plant=CLIVIA, on=HOME.today)]


@pytest.mark.parametrize("text", ["no spinosad on the lime, I only wiped it"])
def test_what_was_done_instead_is_told(text: str) -> None:
    rounds = [one for one in offered(understand(text, HOME)) if isinstance(one, LogRound)]
    assert rounds == [LogRound(plants=(LIME,), method=Method.WIPE)]


@pytest.mark.parametrize(
    ("text", "has", "not_had"),
    [
        ("got neem and no soap", "neem", "soap"),
        ("i have no oil, only neem", "neem", "product=oil"),
        ("i aint got no spinosad", "", "spinosad"),
    ],
)
def test_a_product_that_nobody_has_is_not_put_on_the_shelf(text: str, has: str, not_had: str) -> None:
    told = f"{answered(text)} {first_offer(text)[0]}"
    assert has in told
    assert not_had not in told
    assert "later" not in told


@pytest.mark.parametrize(
    "text",
    [
        "the soap is finished",
        "soap is all finished.",
        "my soap bottle is finished",
        "no soap here",
        "i have no soap",
    ],
)
def test_a_product_that_is_finished_is_used_up_and_on_no_plant(text: str) -> None:
    assert answered(text) == "stock product=soap ml=0"


@pytest.mark.parametrize("text", ["hoya is finished", "finished the hoya"])
def test_a_plant_that_is_finished_is_done(text: str) -> None:
    assert answered(text) == "done hoya"


@pytest.mark.parametrize("text", ["not later!", "not later!! why you say tomorrow"])
def test_what_is_not_later_is_not_put_off(text: str) -> None:
    assert "later" not in f"{answered(text)} {first_offer(text)[0]}"


@pytest.mark.parametrize(
    "text",
    [
        "neem round finished",
        "tonight's soap finished",
        "finished the hoya with soap",
        "sprayed neem, finished",
        "soap. finished.",
    ],
)
def test_a_treatment_that_is_finished_leaves_the_bottle_full(text: str) -> None:
    assert "ml=0" not in f"{answered(text)} {first_offer(text)[0]}"


def test_of_two_products_that_are_finished_none_is_put_on_the_shelf_at_once() -> None:
    assert "stock" not in answered("Soap and neem are finished")


def test_one_product_is_finished_and_another_is_got() -> None:
    assert answered("the soap is finished, got neem") == "stock product=soap ml=0 + stock product=neem"
