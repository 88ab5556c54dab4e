"""Each field of an entry has its words in the table."""

from dataclasses import fields

from bot.domain.journal import Heard, Nudged, Voided
from bot.storage.codec import KINDS
from bot.wording.table import FIELDS, UNSAID

NAMED = {"place", "product", "plants", "cleaned_out"}
"""They are told by the names people gave."""


def test_every_field_is_worded_or_left_out_on_purpose() -> None:
    told = [kind for kind in KINDS if kind not in {Heard, Nudged, Voided}]
    names = {one.name for kind in told for one in fields(kind)}
    assert names - FIELDS.keys() - UNSAID - NAMED == set()
    assert (FIELDS.keys() | UNSAID) - names == set()
