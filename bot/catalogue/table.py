"""How a TOML table of facts is read: strictly, with every problem of every entry named together."""

import tomllib
from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import TypeVar

from bot.domain.campaign import Basis, Evidence
from bot.domain.value import Value

_T = TypeVar("_T")
_SEEN = ("abstract", "article", "code", "data", "memory", "page", "standard")
_TRIPLE = 3  # instars of a pest, and levels of a chance


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
    seen: str
    year: int | None
    address: str | None

    @property
    def quoted(self) -> str:
        """Author, year and title, as a person would look it up."""
        year = f" {self.year}" if self.year is not None else ""
        return f"{self.author}{year}, {self.title}"


class Table:
    """One TOML table being read; what is missing, of a wrong kind or left over becomes a problem."""

    def __init__(self, where: str, content: object, problems: list[str]) -> None:
        self.where = where
        self.problems = problems
        self.left: dict[str, object] = dict(content) if isinstance(content, dict) else {}
        if not isinstance(content, dict):
            self.problem("must be a table")

    def problem(self, text: str) -> None:
        """Note what is wrong here."""
        self.problems.append(f"{self.where}: {text}")

    def text(self, key: str, *, may_be_empty: bool = False) -> str:
        """Read a text, empty only where it may be."""
        value = self.left.pop(key, None)
        if isinstance(value, str) and (value or may_be_empty):
            return value
        self.problem(f"{key} must be a text, got {value!r}")
        return ""

    def number(self, key: str, low: float, high: float) -> float:
        """Read a number between two others."""
        value = self.left.pop(key, None)
        if isinstance(value, int | float) and not isinstance(value, bool) and low <= value <= high:
            return float(value)
        self.problem(f"{key} must be a number from {low:g} to {high:g}, got {value!r}")
        return low

    def numbers(self, key: str, low: float, high: float) -> tuple[float, float, float]:
        """Read three numbers between two others."""
        value = self.left.pop(key, None)
        items = value if isinstance(value, list) else []
        content = {f"[{index}]": item for index, item in enumerate(items)}
        row = Table(f"{self.where}.{key}", content, self.problems)
        found = [row.number(f"[{index}]", low, high) for index in range(_TRIPLE)]
        row.finish()
        return found[0], found[1], found[2]

    def exact(self, key: str, low: float, high: float) -> Decimal:
        """Read a number as it is written, not as the nearest binary one."""
        return Decimal(repr(self.number(key, low, high)))

    def whole(self, key: str, low: float, high: float) -> int | None:
        """Read a number that may be left out."""
        return int(self.number(key, low, high)) if key in self.left else None

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
        return Table(f"{self.where}.{key}", self.left.pop(key, otherwise), self.problems)

    def rows(self, key: str) -> "list[Table]":
        """Read a list of tables inside this one."""
        value = self.left.pop(key, None)
        if not isinstance(value, list):
            self.problem(f"{key} must be a list of tables, got {value!r}")
            return []
        return [Table(f"{self.where}.{key}[{at}]", row, self.problems) for at, row in enumerate(value)]

    def finish(self) -> None:
        """Name whatever is left over."""
        for key in self.left:
            self.problem(f"unknown key {key}")


def entries(name: str, text: str, problems: list[str], build: Callable[[str, Table], _T]) -> dict[str, _T]:
    """Read a file of tables, each by the same builder."""
    try:
        content = tomllib.loads(text)
    except tomllib.TOMLDecodeError as broken:
        problems.append(f"{name}: {broken}")
        return {}
    found = {}
    for key, entry in content.items():
        table = Table(f"{name}.{key}", entry, problems)
        found[key] = build(key, table)
        table.finish()
    return found


def source_of(key: str, table: Table) -> Source:
    """Read a source."""
    seen = table.text("seen")
    if seen not in _SEEN:
        table.problem(f"seen must be one of {', '.join(_SEEN)}, got {seen!r}")
    return Source(
        key=key,
        author=table.text("author"),
        title=table.text("title"),
        seen=seen,
        year=int(table.number("year", 1700, 2100)) if "year" in table.left else None,
        address=table.text("address") if "address" in table.left else None,
    )


def evidence_of(table: Table, known: Mapping[str, Source]) -> Evidence:
    """Read where the figures of a table come from."""
    basis, sources = table.text("basis"), table.texts("sources")
    if basis not in {item.value for item in Basis}:
        table.problem(f"basis must be read, memory or judgement, got {basis!r}")
        basis = Basis.JUDGEMENT.value
    if basis == Basis.READ.value and not sources:
        table.problem("says read and names no source")
    for source in sources:
        if source not in known:
            table.problem(f"source {source} is not in sources.toml")
    return Evidence(
        Basis(basis), sources, table.text("note", may_be_empty=True) if "note" in table.left else ""
    )
