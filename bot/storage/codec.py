"""Payloads and offered commands as JSON text and back, each under a name that outlives a renamed class."""

import json
import re
from functools import cache, lru_cache
from typing import Any

import msgspec

from bot.actions.action import ButtonText, Choice, Command
from bot.actions.begin_talk import BeginTalk
from bot.actions.give_first_aid import GiveFirstAid
from bot.actions.perform import KNOWN
from bot.actions.stock_product import StockProduct
from bot.domain import journal
from bot.domain.journal import Payload
from bot.domain.label import Label
from bot.domain.value import names_of, replace
from bot.storage.failure import StoreError

_NAMES: dict[type, str] = {BeginTalk: "start", GiveFirstAid: "exposure"}
"""What the database keeps under another name than that of its class."""
_VERSIONS: dict[type, int] = {journal.ProductSet: 2}
"""A changed meaning raises the version; a new field with a default does not."""


def _name(cls: type) -> str:
    return _NAMES.get(cls, re.sub("(?<!^)(?=[A-Z])", "_", cls.__name__).lower())


_TOLD = (one for one in vars(journal).values() if isinstance(one, type) and issubclass(one, Payload))
KINDS: dict[type, tuple[str, int]] = {
    one: (_name(one), _VERSIONS.get(one, 1)) for one in _TOLD if not one.__subclasses__()
}
COMMANDS = {cls: _name(cls) for cls in KNOWN}

_OF_A_LABEL = names_of(Label)
_KIND_CLASSES = {name: (cls, version) for cls, (name, version) in KINDS.items()}
_COMMAND_CLASSES = {name: cls for cls, name in COMMANDS.items()}


@cache
def _decoder(cls: type) -> "msgspec.json.Decoder[Any]":
    return msgspec.json.Decoder(cls, strict=False)


def encode_payload(payload: Payload) -> tuple[str, int, str]:
    """Give the kind, the version and the JSON text of a payload."""
    cls: type = type(payload)
    kind, version = KINDS[cls]
    return kind, version, msgspec.json.encode(payload).decode()


def decode_payload(kind: str, version: int, text: str, entry: int) -> Payload:
    """Read a payload back; StoreError names the entry that this program cannot read."""
    known = _KIND_CLASSES.get(kind)
    if known is None or version > known[1]:
        message = f"journal entry {entry} is of kind {kind!r} version {version}, unknown to this program"
        raise StoreError(message)
    try:
        return _read_payload(known[0], version, text)
    except msgspec.MsgspecError as error:
        # only where it is wrong, not what stands there: that may be a person's words
        where = str(error).rpartition("`")[0].rpartition("`")[2] or "$"
        message = f"journal entry {entry} of kind {kind!r} version {version} cannot be read at {where}"
        raise StoreError(message) from None


@lru_cache(maxsize=2048)
def _read_payload(cls: type, version: int, text: str) -> Payload:
    """Most payloads of a kind are the same few; being frozen, they can be shared."""
    payload: Payload
    if cls is journal.ProductSet and version == 1:
        payload = msgspec.convert(_with_label(msgspec.json.decode(text)), cls, strict=False)
    else:
        payload = _decoder(cls).decode(text)
    return payload


def _with_label(plain: dict[str, Any]) -> dict[str, Any]:
    """Gather what stood beside each other until version 0.4: what was only assumed was no fact."""
    assumed = plain.pop("assumed", ())
    label = {name: plain.pop(name, None) for name in _OF_A_LABEL}
    return {**plain, "label": {name: None if name in assumed else value for name, value in label.items()}}


def encode_choices(choices: tuple[Choice, ...]) -> str:
    """Give the JSON text of what a question offers."""
    return msgspec.json.encode([_plain_choice(choice) for choice in choices]).decode()


def decode_choices(text: str, question: int) -> tuple[Choice, ...]:
    """Read back what a question offered; StoreError names the question this program cannot read."""
    try:
        return _read_choices(text)
    except (KeyError, ValueError, msgspec.MsgspecError):
        message = f"the choices of question {question} were written by another version of this program"
        raise StoreError(message) from None


@lru_cache(maxsize=512)
def _read_choices(text: str) -> tuple[Choice, ...]:
    """Questions open for long are read with every message; being frozen, choices can be shared."""
    return tuple(_choice(plain) for plain in json.loads(text))


def _plain_choice(choice: Choice) -> dict[str, Any]:
    commands = [_plain_command(command) for command in choice.commands]
    return {"text": choice.text.name.lower().replace("_", "-"), "of": choice.of, "commands": commands}


def _choice(plain: dict[str, Any]) -> Choice:
    commands = tuple(_command(one) for one in plain["commands"])
    if "label" in plain:  # written by version 0.2, where a button's words themselves were kept
        return Choice(ButtonText.NAMED, commands, plain["label"])
    return Choice(ButtonText[plain["text"].upper().replace("-", "_")], commands, plain["of"])


def _plain_command(command: Command) -> dict[str, Any]:
    plain = {"type": COMMANDS[type(command)], **msgspec.to_builtins(command)}
    if choices := getattr(command, "choices", ()):
        plain["choices"] = [_plain_choice(choice) for choice in choices]
    return plain


def _command(plain: dict[str, Any]) -> Command:
    cls = _COMMAND_CLASSES[plain["type"]]
    fields = {name: value for name, value in plain.items() if name not in {"type", "choices"}}
    if cls is StockProduct and "label" not in fields:
        fields = _with_label(fields)
    command: Command = msgspec.convert(fields, cls, strict=False)
    choices = {"choices": tuple(_choice(one) for one in plain["choices"])} if plain.get("choices") else {}
    return replace(command, **choices)
