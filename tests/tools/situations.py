"""Situations written many in a file: what those of one home share stands once."""

from collections.abc import Mapping
from typing import Any

HOME = ("zone", "units", "places", "plants", "shelf")
"""What a home has in all its situations where anything is known of it."""
WIDTH = 118


def merged(told: Mapping[str, dict[str, Any]]) -> str:
    """
    Write situations as one file.

    Parameters
    ----------
    told
        Each by its name, which ends in its home's behind a dash.
    """
    homes: dict[str, dict[str, Any]] = {}
    for name, one in told.items():
        if "plants" in one:
            homes.setdefault(name.partition("-")[2], {key: one[key] for key in HOME if key in one})
    blocks = [_block(f"homes.{name}", home) for name, home in sorted(homes.items())]
    for name, one in told.items():
        home = homes.get(name.partition("-")[2], {})
        is_of_home = bool(home) and all(one.get(key) == home[key] for key in home)
        own = {key: value for key, value in one.items() if not (is_of_home and key in home)}
        blocks.append(_block(name, {**({"home": name.partition("-")[2]} if is_of_home else {}), **own}))
    return "\n".join(blocks)


def _block(name: str, told: Mapping[str, Any]) -> str:
    return "\n".join((f"[{name}]", *(f"{key} = {_value(value)}" for key, value in told.items()), ""))


def _value(value: Any) -> str:
    match value:
        case bool():
            return str(value).lower()
        case str():
            return '"' + value.replace("\\", "\\\\").replace('"', '\\"') + '"'
        case dict():
            return "{ " + ", ".join(f"{key} = {_value(one)}" for key, one in value.items()) + " }"
        case list():
            return _lines([_value(one) for one in value])
        case _ if hasattr(value, "isoformat"):
            return str(value.isoformat())
        case _:
            return str(value)


def _lines(values: list[str]) -> str:
    """Write a list, broken only where it must be."""
    whole = "[" + ", ".join(values) + "]"
    if len(whole) < WIDTH:
        return whole
    rows = [""]
    for value in values:
        if len(rows[-1]) + len(value) > WIDTH:
            rows.append("")
        rows[-1] += f" {value},"
    return "[\n   " + "\n   ".join(rows) + "\n]"
