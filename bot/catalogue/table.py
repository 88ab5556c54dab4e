"""How a TOML table of facts is read: strictly, with every problem of every entry named together."""

import functools
import tomllib
from collections.abc import Callable, Container, Iterable, Mapping
from decimal import Decimal
from types import MappingProxyType, NoneType
from typing import Any, Literal, TypeVar, get_args, get_origin

from msgspec import structs

from bot.domain.campaign import Basis, Evidence
from bot.domain.value import Value

_T = TypeVar("_T")
_V = TypeVar("_V", bound=Value)
_BOUNDS = {
    name: (low, high)
    for names, low, high in (
        ("t_low t0 egg_t0 instar_t0 coldest", -5, 20),  # [degC]
        ("t_high hottest", 20, 45),
        ("clock_most_c", 15, 45),
        ("warm_from_c", 0, 45),
        ("to_c", -5, 60),
        ("dd egg_lo egg_hi", 0, 5000),  # [degC d]
        ("instars", 1, 5000),
        ("between_a_week", 0, 7),
        ("between_least late", 0, 10),
        ("nematodes", 1, 10),
        ("few_by_hand strong_most", 0, 20),
        ("after_find clean_looks", 0, 40),
        ("rounds needed", 1, 40),
        ("slack_days", 0, 30),
        ("cap_days opens label_sought_days apart_days uses_a_year", 1, 60),
        ("closes", 1, 90),
        ("first_after_unpotting_days", 0, 90),
        ("strong_apart_days harvest_days", 0, 365),
        ("gap_days not_within_days_of", 1, 365),
        ("days", 1, 1000),
        ("keeps_hours", 1, 24 * 30),
        ("safety", 1, 3),
        ("times", 0.1, 5),
        ("f", 0.1, 1),
        ("glance plain lens roots tap card tape potato", 0, 1),
        ("rate_ml_per_l most_ml_per_l", 0, 1000),
        ("strength_percent", 0, 100),
        ("year", 1700, 2100),
    )
    for name in names.split()
}
"""What a number may be, by its key."""


class CatalogueError(Exception):
    """The shipped facts contradict themselves; lists every problem."""

    def __init__(self, problems: tuple[str, ...]) -> None:
        super().__init__("\n".join(problems))
        self.problems = problems


class Source(Value, kw_only=True):
    """Where figures were read."""

    key: str
    author: str
    title: str
    seen: Literal["abstract", "article", "code", "data", "memory", "page", "standard"]
    year: int | None
    address: str | None

    @property
    def quoted(self) -> str:
        """Author, year and title, as a person would look it up."""
        year = f" {self.year}" if self.year is not None else ""
        return f"{self.author}{year}, {self.title}"


class Table:
    """One TOML table being read; what is missing, of a wrong kind or left over becomes a problem."""

    def __init__(
        self, where: str, content: object, problems: list[str], sources: Mapping[str, Source]
    ) -> None:
        self.where = where
        self.problems = problems
        self.sources = sources
        self.left: dict[str, object] = dict(content) if isinstance(content, dict) else {}
        if not isinstance(content, dict):
            self.problem("must be a table")

    def problem(self, text: str) -> None:
        """Note what is wrong here."""
        self.problems.append(f"{self.where}: {text}")

    def read(self, kind: type[_V], **given: object) -> _V:
        """Read a value, each field not given as its type says; optional ones may be left out."""
        told = {}
        for name, want, is_optional, is_required in _fields(kind):
            if name in given:
                continue
            if ("basis" if want is Evidence else name) in self.left or want is bool:
                told[name] = self.value(name, want)
            elif is_required:
                told[name] = None if is_optional else self.value(name, want)
        self.finish()
        return kind(**given, **told)

    def value(self, key: str, kind: Any, bounds: str = "") -> Any:
        """Read what stands under a key, as a type says; numbers within the bounds of that key, or another."""
        if kind in {bool, str}:
            return self.flag(key) if kind is bool else self.text(key)
        of, inner = get_origin(kind), get_args(kind)
        if of is Mapping:
            row = self.table(key)
            named = [name for name in row.left if inner[0] is str or name in _members(inner[0])]
            told = {name: row.value(name, inner[1], key) for name in named}
            found = told if inner[0] is str else {_members(inner[0])[name]: one for name, one in told.items()}
            row.finish()
            return MappingProxyType(found)
        if of in {tuple, frozenset} and inner[0] is not float:
            texts = self.texts(key)
            return of(texts if inner[0] is str else [self.member(key, one, inner[0]) for one in texts])
        if of is tuple:
            return self.numbers(key)
        if kind in {int, float, Decimal}:
            return self.number(key, kind, bounds or key)
        if kind is Evidence:
            return self.evidence()
        if isinstance(kind, type) and issubclass(kind, Value):
            return self.table(key).read(kind)
        return self.member(key, self.text(key), kind)

    def member(self, key: str, text: str, kind: Any) -> Any:
        """Give a text, or the one of several that it names."""
        known = _members(kind)
        if text not in known:
            self.problem(f"{key} must be one of {', '.join(known)}, got {text!r}")
        return known.get(text, next(iter(known.values())))

    def text(self, key: str, *, may_be_empty: bool = False) -> str:
        """Read a text, empty only where it may be."""
        value = self.left.pop(key, None)
        if isinstance(value, str) and (value or may_be_empty):
            return value
        self.problem(f"{key} must be a text, got {value!r}")
        return ""

    def number(self, key: str, kind: Any = float, bounds: str = "") -> Any:
        """Read a number within the bounds of its key, or of another; a decimal one as it is written."""
        low, high = _BOUNDS[bounds or key]
        value = self.left.pop(key, None)
        if not isinstance(value, int | float) or isinstance(value, bool) or not low <= value <= high:
            self.problem(f"{key} must be a number from {low:g} to {high:g}, got {value!r}")
            value = low
        return Decimal(repr(float(value))) if kind is Decimal else kind(value)

    def numbers(self, key: str) -> tuple[float, float, float]:
        """Read three numbers within the bounds of their key."""
        value = self.left.pop(key, None)
        content = {f"[{index}]": item for index, item in enumerate(value if isinstance(value, list) else ())}
        row = Table(f"{self.where}.{key}", content, self.problems, self.sources)
        first, second, third = (row.number(f"[{index}]", bounds=key) for index in range(3))
        row.finish()
        return first, second, third

    def flag(self, key: str) -> bool:
        """Read a truth, false where it is left out."""
        value = self.left.pop(key, False)
        if not isinstance(value, bool):
            self.problem(f"{key} must be true or false, got {value!r}")
        return value is True

    def texts(self, key: str) -> tuple[str, ...]:
        """Read a list of texts."""
        value = self.left.pop(key, None)
        if isinstance(value, list) and all(isinstance(item, str) and item for item in value):
            return tuple(value)
        self.problem(f"{key} must be a list of texts, got {value!r}")
        return ()

    def table(self, key: str, otherwise: object = None) -> "Table":
        """Read a table inside this one."""
        return Table(f"{self.where}.{key}", self.left.pop(key, otherwise), self.problems, self.sources)

    def rows(self, key: str) -> "list[Table]":
        """Read a list of tables inside this one."""
        value = self.left.pop(key, None)
        if not isinstance(value, list):
            self.problem(f"{key} must be a list of tables, got {value!r}")
            return []
        where = f"{self.where}.{key}"
        return [Table(f"{where}[{at}]", row, self.problems, self.sources) for at, row in enumerate(value)]

    def evidence(self) -> Evidence:
        """Read where the figures of this table come from."""
        basis, sources = self.member("basis", self.text("basis"), Basis), self.texts("sources")
        if basis is Basis.READ and not sources:
            self.problem("says read and names no source")
        self.check("source {} is not in sources.toml", sources, self.sources)
        return Evidence(basis, sources, self.text("note", may_be_empty=True) if "note" in self.left else "")

    def check(self, problem: str, named: Iterable[str], known: Container[str]) -> None:
        """Note what is named and not known, each once, as {} of a problem."""
        for one in dict.fromkeys(named):
            if one not in known:
                self.problem(problem.format(one))

    def finish(self) -> None:
        """Name whatever is left over."""
        for key in self.left:
            self.problem(f"unknown key {key}")
        self.left.clear()


@functools.cache
def _fields(kind: type[Value]) -> tuple[tuple[str, Any, bool, bool], ...]:
    """Give a value's fields: name, type without None, whether it may be None, whether it has no default."""
    found = []
    for field in structs.fields(kind):  # type: ignore[arg-type]  # a Value is a Struct
        of = [one for one in get_args(field.type) if one is not NoneType]
        is_optional = len(of) < len(get_args(field.type))
        found.append((field.name, of[0] if is_optional else field.type, is_optional, field.required))
    return tuple(found)


@functools.cache
def _members(kind: Any) -> Mapping[str, Any]:
    return {one: one for one in get_args(kind)} or {str(one.value): one for one in kind}


def entries(
    name: str,
    text: str,
    problems: list[str],
    build: Callable[[str, Table], _T],
    sources: Mapping[str, Source] = MappingProxyType({}),
) -> dict[str, _T]:
    """Read a file of tables, each by the same builder."""
    try:
        content = tomllib.loads(text)
    except tomllib.TOMLDecodeError as broken:
        problems.append(f"{name}: {broken}")
        return {}
    found = {}
    for key, entry in content.items():
        table = Table(f"{name}.{key}", entry, problems, sources)
        found[key] = build(key, table)
        table.finish()
    return found
