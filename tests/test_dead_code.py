"""Nothing stands in the program that only tests call: each name is used in it, in the demo or in deploy/."""

import ast
import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parent.parent
PROGRAM = sorted((ROOT / "bot").rglob("*.py"))
USERS = [*PROGRAM, *sorted((ROOT / "demo").rglob("*.py")), *sorted((ROOT / "deploy").rglob("*.py"))]
IN_QUOTES = re.compile(r"[\w.]+|[\w.]+( \| [\w.]+)+|[\w.]+\[.*\].*")
"""An annotation that is written as text."""
CALLED_BY_A_LIBRARY = {
    "upgrade": "Alembic",
    "down_revision": "Alembic",
    "revision": "Alembic",
    "get_next_fire_time": "APScheduler",
    "process_bind_param": "SQLAlchemy",
    "process_result_value": "SQLAlchemy",
    "emit": "logging",
    "do_request": "python-telegram-bot",
    "connect_tcp": "httpcore",
    "start_tls": "httpcore",
    "get_extra_info": "httpcore",
}
"""Names that a library looks for, and which."""


def defined(tree: ast.Module) -> Iterator[tuple[str, ast.stmt]]:
    """Give functions, classes, methods and constants; what is decorated is called by whoever collects it."""
    for statement in tree.body:
        match statement:
            case ast.FunctionDef() | ast.AsyncFunctionDef() if not statement.decorator_list:
                yield statement.name, statement
            case ast.ClassDef():
                yield statement.name, statement
                for inner in statement.body:
                    if isinstance(inner, ast.FunctionDef | ast.AsyncFunctionDef):
                        yield inner.name, inner
            case ast.Assign(targets=[ast.Name(id=name)]) | ast.AnnAssign(target=ast.Name(id=name)):
                yield name, statement
            case _:
                pass


def mentioned(tree: ast.AST) -> Counter[str]:
    """Count the names that code reads, also those in annotations that are written as text."""
    names: Counter[str] = Counter()
    for node in ast.walk(tree):
        match node:
            case ast.Name(id=name, ctx=ast.Load()) | ast.Attribute(attr=name):
                names[name] += 1
            case ast.Constant(value=str(text)) if len(text) < 100:
                names.update(re.findall(r"\w+", text))
            case _:
                pass
    return names


def test_every_name_is_used() -> None:
    trees = {file: ast.parse(file.read_text("utf-8")) for file in USERS}
    by_file = {file: mentioned(tree) for file, tree in trees.items()}
    used = sum(by_file.values(), Counter[str]())
    dead = [
        f"{file.relative_to(ROOT)}: {name}"
        for file in PROGRAM
        for name, place in defined(trees[file])
        if not (name.startswith("__") and name.endswith("__"))
        and name not in CALLED_BY_A_LIBRARY
        and (by_file[file] if name.startswith("_") else used)[name] <= mentioned(place)[name]
    ]
    assert not dead, "\n".join(dead)
