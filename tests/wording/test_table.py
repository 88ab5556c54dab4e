"""Each field of an entry has its words in the table."""

from bot.domain.journal import Heard, Nudged, Voided
from bot.domain.value import names_of
from bot.storage.codec import KINDS
from bot.wording.files import FIELDS, UNSAID

NAMED = {"place", "product", "plants", "cleaned_out"}
"""They are told by the names people gave."""


def test_every_field_is_worded_or_left_out_on_purpose() -> None:
    told = [kind for kind in KINDS if kind not in {Heard, Nudged, Voided}]
    names = {name for kind in told for name in names_of(kind)}
    assert names - FIELDS.keys() - UNSAID - NAMED == set()
    assert (FIELDS.keys() | UNSAID) - names == set()
