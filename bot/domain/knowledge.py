"""What the rules need from the catalogue: pests and product kinds by key."""

from collections.abc import Mapping

from bot.domain.household import Plant
from bot.domain.key import Key
from bot.domain.pest import Pest
from bot.domain.plant_kind import PlantKind
from bot.domain.product import ProductKind
from bot.domain.value import Value, cached_property, field

NAMES_KEPT = 20_000
_NO_APOSTROPHES = str.maketrans("", "", "'\u2019")


class Knowledge(Value, dict=True):
    """The catalogue's facts in the domain's own types."""

    pests: Mapping[str, Pest]
    products: Mapping[str, ProductKind]
    key: Key = field(default_factory=lambda: Key({}, {}))
    kinds: Mapping[str, PlantKind] = field(default_factory=dict)
    kind_by_word: Mapping[str, PlantKind] = field(default_factory=dict)
    tell: Mapping[str, str] = field(default_factory=dict)
    """What tells the pests of a general word apart, by its key."""
    cited: Mapping[str, str] = field(default_factory=dict)
    """Sources by key as they are quoted: author, year, title."""
    named: dict[str, PlantKind | None] = field(default_factory=dict)
    """Kinds found for names so far: a plan asks for each plant's several times."""

    @cached_property
    def kind_words(self) -> frozenset[str]:
        """All names of kinds of plants, those that several share too."""
        return frozenset(word for kind in self.kinds.values() for word in (*kind.words, *kind.shared))

    def kind_of(self, plant: Plant) -> PlantKind | None:
        """Give a plant's kind: as told, else by the longest kind whose name stands in the plant's own."""
        return self.kinds.get(plant.kind) if plant.kind is not None else self.kind_named(plant.name)

    def kind_named(self, name: str) -> PlantKind | None:
        """Give the longest kind whose name stands in a plant's."""
        if name not in self.named:
            if len(self.named) >= NAMES_KEPT:
                self.named.clear()
            self.named[name] = self._kind_in(name)
        return self.named[name]

    def is_kind(self, name: str) -> bool:
        """Whether a name, or what it names many of, is just the name of a kind."""
        phrase = name.casefold().replace("-", " ").translate(_NO_APOSTROPHES)
        return any(one in self.kind_by_word for one in _singulars(phrase))

    def _kind_in(self, name: str) -> PlantKind | None:
        words = name.casefold().replace("-", " ").translate(_NO_APOSTROPHES).split()
        for size in range(len(words), 0, -1):
            for start in range(len(words) - size + 1):
                for phrase in _singulars(" ".join(words[start : start + size])):
                    if phrase in self.kind_by_word:
                        return self.kind_by_word[phrase]
        return None


def _singulars(phrase: str) -> tuple[str, ...]:
    """Give a name as it is, and as one of what it may name many of: hoyas, ivies, radishes."""
    ends = (("s", ""), ("es", ""), ("ies", "y"))
    return (phrase, *(phrase.removesuffix(end) + instead for end, instead in ends if phrase.endswith(end)))
