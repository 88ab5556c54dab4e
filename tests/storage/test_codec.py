from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.actions.action import ButtonText, Choice, Command
from bot.actions.courtesy import Help
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.stock_product import StockProduct
from bot.actions.undo import Undo
from bot.domain.identity import ProductId
from bot.domain.journal import Found, Payload, ProductSet
from bot.domain.label import Label
from bot.domain.trade import Form, Grade
from bot.domain.value import replace
from bot.storage.codec import (
    COMMANDS,
    KINDS,
    decode_choices,
    decode_payload,
    encode_choices,
    encode_payload,
)
from bot.storage.failure import StoreError
from tests.actions.declared import commands
from tests.storage.values import values_of

PAYLOADS = tuple(KINDS)
COMMAND_CLASSES = commands()
few = settings(max_examples=25, deadline=None)


def test_every_payload_has_a_kind_of_its_own() -> None:
    assert len(set(KINDS.values())) == len(PAYLOADS)


def test_the_kinds_that_journals_hold_are_still_read() -> None:
    kept = """
        calendar_given checked_clean found heard held_until household_set isolated_now leaf_counted
        line_taken lost_now nudged pest_corrected photo_taken place_gone place_set plant_renamed
        plant_set postponed product_set released_now routine_set sign_seen silence_asked spray_used
        temperature_read treated usual_by_month voided walk_begun walk_ended walk_passed watered
        work_begun work_ended work_ticked
    """.split()
    assert set(kept) == {name for name, _ in KINDS.values()}
    assert {name for name, version in KINDS.values() if version > 1} == {"product_set"}


def test_every_command_has_a_name_of_its_own() -> None:
    assert set(COMMANDS) == set(COMMAND_CLASSES)
    assert len(set(COMMANDS.values())) == len(COMMAND_CLASSES)


def test_the_names_that_version_0_4_kept_with_open_questions_are_still_read() -> None:
    kept = """
        start set_town set_coordinates set_hours set_units set_place add_plants log_round postpone log_find log_sign
        log_check correct undo isolate move_plant rename set_pot remove_place release_plant lose_plant stock_product
        read_temperature set_routine hold mix begin_walk pass_plant go_on end_walk refuse_photo keep_photo log_use ask
        incomplete set_animals set_traits identify begin_work tick_work end_work set_strict invite leave remove_member
        hand_over forget export greet decline skip_question more thanks help exposure not_understood
    """.split()
    assert set(kept) <= set(COMMANDS.values())


@pytest.mark.parametrize("cls", PAYLOADS, ids=lambda cls: cls.__name__)
def test_a_payload_comes_back_as_it_was(cls: type[Payload]) -> None:
    @few
    @given(values_of(cls))
    def comes_back(payload: Payload) -> None:
        assert decode_payload(*encode_payload(payload), 1) == payload

    comes_back()


@pytest.mark.parametrize("cls", COMMAND_CLASSES, ids=lambda cls: cls.__name__)
def test_an_offered_command_comes_back_as_it_was(cls: type[Command]) -> None:
    @few
    @given(st.sampled_from(ButtonText), st.text(max_size=40), values_of(cls))
    def comes_back(text: ButtonText, name: str, command: Command) -> None:
        offered = (Choice(text, (command, Help()), name),)
        assert decode_choices(encode_choices(offered), 1) == offered

    comes_back()


def test_a_question_within_a_question_comes_back() -> None:
    inner = (Choice(ButtonText.NAMED, (Undo(),), "Ivy"),)
    offered = (Choice(ButtonText.IT_IS, (Incomplete(missing=Missing.WHICH_PLANT, choices=inner),)),)
    assert decode_choices(encode_choices(offered), 1) == offered


def test_a_button_of_the_version_before_keeps_its_words() -> None:
    stored = '[{"label":"All done","commands":[{"type":"undo"}]}]'
    assert decode_choices(stored, 1) == (Choice(ButtonText.NAMED, (Undo(),), "All done"),)


def test_a_button_of_a_version_to_come_is_refused_by_the_number_of_its_question() -> None:
    with pytest.raises(StoreError, match="question 7"):
        decode_choices('[{"text":"to-come","of":"","commands":[{"type":"undo"}]}]', 7)


def test_the_stored_form_of_a_find_stays() -> None:
    """Old journals hold exactly this text."""
    assert encode_payload(Found(pest="mite", grade=Grade.FEW, count=3)) == (
        "found",
        1,
        '{"pest":"mite","grade":"few","count":3,"where":null}',
    )


def test_a_field_added_since_takes_its_default() -> None:
    assert decode_payload("found", 1, '{"pest":"mite","grade":"few"}', 1) == Found(
        pest="mite", grade=Grade.FEW
    )


@pytest.mark.parametrize(
    ("kind", "version", "text", "says"),
    [
        ("fed", 1, "{}", "entry 7 is of kind 'fed' version 1, unknown"),
        ("found", 2, "{}", "entry 7 is of kind 'found' version 2, unknown"),
        ("found", 1, '{"pest":"secret words"}', "entry 7 of kind 'found' version 1 cannot be read at grade"),
    ],
)
def test_an_entry_this_program_cannot_read_is_named(kind: str, version: int, text: str, says: str) -> None:
    with pytest.raises(StoreError, match=says) as caught:
        decode_payload(kind, version, text, 7)
    assert "secret" not in str(caught.value)


def test_choices_of_another_version_name_their_question() -> None:
    with pytest.raises(StoreError, match="question 9"):
        decode_choices('[{"label":"a","commands":[{"type":"sing"}]}]', 9)


FLAT = (
    '"ingredient":"soap","form":"concentrate","gap_days":7,"stock_ml":500.0,"rate_ml_per_l":"20",'
    '"most_ml_per_l":"20","strength_percent":null,"uses_a_year":null,"harvest_days":0,"is_for_indoors":null,'
    '"is_for_edibles":null'
)
"""Facts of a label as version 0.4.0 kept them, one beside the other."""
GATHERED = Label(form=Form.CONCENTRATE, rate_ml_per_l=Decimal(20), most_ml_per_l=Decimal(20), harvest_days=0)


def test_a_label_of_version_0_4_is_gathered_and_what_was_assumed_is_no_fact() -> None:
    text = f'{{"product":3,{FLAT},"assumed":["gap_days"]}}'
    told = decode_payload("product_set", 1, text, 1)
    assert told == ProductSet(product=ProductId(3), ingredient="soap", stock_ml=500.0, label=GATHERED)


def test_a_button_of_version_0_4_about_a_label_still_means_it() -> None:
    choices = f'[{{"text":"named","of":"x","commands":[{{"type":"stock_product",{FLAT}}}]}}]'
    ((command,),) = (one.commands for one in decode_choices(choices, 1))
    label = replace(GATHERED, gap_days=7)
    assert command == StockProduct(ingredient="soap", stock_ml=500.0, label=label)
