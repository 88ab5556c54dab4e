"""The kinds of id, so that a plant's number can never stand where a place's belongs."""

from typing import NewType

HouseholdId = NewType("HouseholdId", int)
MemberId = NewType("MemberId", int)
PlaceId = NewType("PlaceId", int)
PlantId = NewType("PlantId", int)
ProductId = NewType("ProductId", int)
EntryId = NewType("EntryId", int)
PhotoId = NewType("PhotoId", int)
