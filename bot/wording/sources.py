"""Where a figure comes from, in words."""

from collections.abc import Mapping

from bot.domain.campaign import Basis, Evidence

BASIS = {Basis.READ: "read", Basis.MEMORY: "from memory", Basis.JUDGEMENT: "our judgement"}


def cite(evidence: Evidence, cited: Mapping[str, str]) -> str:
    """Say whether a figure was read, remembered or judged, and where it stands."""
    quoted = "; ".join(cited.get(key, key) for key in evidence.sources)
    return BASIS[evidence.basis] + (f": {quoted}" if quoted else "")
