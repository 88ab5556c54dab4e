"""
What a value is here: a record with named fields that nobody changes, equal by what stands in them.

`msgspec` makes them in C. A frozen dataclass takes four times as long to make and seven to compare, and each
class of them compiles some 10 KB of its own at every start.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, dataclass_transform

import msgspec

__all__ = ["Value", "cached_property", "field", "names_of", "replace"]

if TYPE_CHECKING:
    from dataclasses import field, replace
    from functools import cached_property

    @dataclass_transform(frozen_default=True, field_specifiers=(field,))
    class _OfValues(type):
        def __new__(  # noqa: PLR0913 - as a struct takes them
            cls,
            name: str,
            bases: tuple[type, ...],
            body: dict[str, Any],
            *,
            kw_only: bool = False,
            eq: bool = True,
            frozen: bool = True,
            dict: bool = False,  # noqa: A002
        ) -> type: ...

    class Value(metaclass=_OfValues):
        """A value; past three fields they are told by name (kw_only=True)."""
else:
    from msgspec import field
    from msgspec.structs import replace

    class Value(msgspec.Struct, frozen=True):
        """A value; past three fields they are told by name (kw_only=True)."""

    class cached_property:  # noqa: N801 - as it is called in functools
        """That of functools without the lock it has before Python 3.12, a twentieth of an evening."""

        def __init__(self, derive: Callable[[Any], object]) -> None:
            self._derive, self._name = derive, derive.__name__
            self.__doc__ = derive.__doc__

        def __get__(self, value: Any, _owner: type) -> object:
            found = value.__dict__[self._name] = self._derive(value)
            return found


def names_of(value: Value | type[Value]) -> tuple[str, ...]:
    names: tuple[str, ...] = value.__struct_fields__  # type: ignore[union-attr]
    return names
