"""Words of the trade that several subjects share: methods, grades, forms, signs."""

import enum


class Method(enum.Enum):
    SWAB = "swab"
    WIPE = "wipe"
    RINSE = "rinse"
    SPRAY = "spray"
    DRENCH = "drench"
    NEMATODES = "nematodes"
    PREDATORS = "predators"
    DRY = "dry"
    PRUNE = "prune"
    REPOT = "repot"
    CLEAN_OUT = "clean-out"

    # by identity, as members are single: the enum's own hashes the name with every treatment counted
    __hash__ = object.__hash__

    @property
    def uses_product(self) -> bool:
        """Whether the method puts a product from the shelf on the plant."""
        return self in _USE_PRODUCT


_USE_PRODUCT = frozenset({Method.SPRAY, Method.DRENCH, Method.NEMATODES, Method.PREDATORS, Method.SWAB})


class Level(enum.Enum):
    GLANCE = "glance"
    PLAIN = "plain"
    LENS = "lens"
    ROOTS = "roots"
    TAP = "tap"
    CARD = "card"
    TAPE = "tape"
    POTATO = "potato"

    # by identity, as members are single: the enum's own hashes the name with every look weighed
    __hash__ = object.__hash__


class Grade(enum.Enum):
    """How many living pests a find is: up to 5, up to about 30, more. Common practice, no source."""

    FEW = "few"
    SOME = "some"
    MANY = "many"


WORST_LAST = tuple(Grade)


class Form(enum.Enum):
    READY = "ready"
    CONCENTRATE = "concentrate"


class Sign(enum.Enum):
    """A trace seen without a living pest."""

    WEBBING = "webbing"
    HONEYDEW = "honeydew"
    FLUFF = "fluff"
    PITS = "pits"
    SPECKS = "specks"
    CAST_SKINS = "cast-skins"


FEW_UP_TO = 5
SOME_UP_TO = 30


def grade_of(count: int) -> Grade:
    """Grade of a counted find. [animals]."""
    if count <= FEW_UP_TO:
        return Grade.FEW
    return Grade.SOME if count <= SOME_UP_TO else Grade.MANY
