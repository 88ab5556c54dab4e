"""One class name means one thing in the whole program, for commands and outcomes at least."""

import ast
from collections import Counter
from pathlib import Path

import bot
from tests.actions.declared import commands, outcomes

PROGRAM = Path(bot.__file__).parent


def test_commands_and_outcomes_have_names_of_their_own() -> None:
    classes = Counter(
        node.name
        for path in PROGRAM.rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.ClassDef)
    )
    assert [cls.__name__ for cls in (*commands(), *outcomes()) if classes[cls.__name__] > 1] == []
