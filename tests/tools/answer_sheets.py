"""
`python -m tests.tools.answer_sheets`: patterns of several words that serve one hand only, and how many serve none.

A hand is everybody who wrote lines that are kept: of the tables, of the opened drawers, of the wordings, and the golden
set as one. A pattern serves a hand where it is found in one of its lines. What serves one and no other was, or might as
well have been, written for the line that measures it; single words, the catalogue's, and those of emergencies are free.
"""

import ast
import re
import sys
import tomllib
from collections.abc import Iterable, Iterator
from functools import cache
from itertools import pairwise
from pathlib import Path

import bot.phrases
from bot.phrases.text import plain, words_of
from tests.phrases.hands import HERE, drawer, tables

ROOM = Path(bot.phrases.__file__).parent
ALARM = frozenset({"emergencies.py", "dangers.py", "poisons.py"})
SAID = frozenset({"saying.py", "notation.py"})
"""What the bot says itself."""
WORD_ROWS = frozenset({"listed", "split", "words_in"})
"""What is given to these is a row of single words."""
SPACED = re.compile(r"[^\W\d_]['\u2019]?s? [^\W\d_]")
SLOT = re.compile(r"\{[a-z]\}")
LONGEST = 12
_GAP = r"[\w'\u2019-]+(?: [\w'\u2019-]+){0,2}"


@cache
def hands() -> dict[str, tuple[str, ...]]:
    """Give what each hand wrote, a message each."""
    told = {hand.name: tuple(line.text for line in hand.lines) for hand in tables()}
    for folder in sorted((HERE / "drawers").iterdir()):
        told |= {f"{folder.name}-{hand.name}": tuple(line.text for line in hand.lines) for hand in drawer(folder)}
    who = ""
    for row in (HERE / "wordings.tsv").read_text("utf-8").splitlines():
        if row.startswith("# who:"):
            who = row
        elif row and not row.startswith("#"):
            told[who] = (*told.get(who, ()), row.split("\t")[0])
    golden = (HERE / "golden.tsv").read_text("utf-8").splitlines()
    told["golden"] = tuple(row.split("\t")[0] for row in golden if row and not row.startswith("#"))
    return {name: tuple(text.replace("\\n", "\n") for text in texts) for name, texts in told.items()}


@cache
def _runs() -> dict[str, frozenset[tuple[str, ...]]]:
    """Give each hand's runs of words, as the readers see them and as they were typed."""
    return {name: frozenset(_runs_of(texts)) for name, texts in hands().items()}


def _runs_of(texts: Iterable[str]) -> Iterator[tuple[str, ...]]:
    for text in texts:
        for words in {words_of(text), tuple(re.findall(r"[\w'-]+", plain(text)))}:
            for at in range(len(words)):
                yield from (words[at : at + size] for size in range(2, LONGEST + 1) if at + size <= len(words))


@cache
def _pages() -> dict[str, str]:
    """Give each hand's messages on one page, plain, a line each."""
    return {name: "\n".join(plain(text).replace("\n", " ") for text in texts) for name, texts in hands().items()}


def phrases() -> Iterator[tuple[str, str]]:
    """Give each phrase of several words of the lexicon, and of the rows in the code, with where it stands."""
    for kind, classes in tomllib.loads((ROOM / "lexicon.toml").read_text("utf-8")).items():
        for name, rows in classes.items():
            for row in rows.values() if isinstance(rows, dict) else [rows]:
                for phrase in row.split("|"):
                    if len(phrase.split()) > 1:
                        yield f"lexicon {kind}.{name}", " ".join(phrase.split())
    for file, constant, _ in _constants():
        if not SPACED.search(constant) or re.search(r"[\\^$|(){}\[\]\n]", constant):
            continue
        yield file, " ".join(constant.split())


def regexes() -> Iterator[tuple[str, str]]:
    """Give each alternative of several words of the regular expressions in the code, the others taken out."""
    for file, constant, call in _constants():
        if call in {"compile", "search", "match", "fullmatch", "sub"} and SPACED.search(constant):
            for alone in alternatives(constant):
                yield file, alone


def templates() -> Iterator[tuple[str, str]]:
    """Give each template that the model is made from."""
    for file in sorted((HERE / "templates").glob("*.txt")):
        for row in file.read_text("utf-8").splitlines():
            if row and not row.startswith("#") and len(SLOT.sub(" ", row).split()) > 1:
                yield file.name, row


@cache
def _constants() -> tuple[tuple[str, str, str], ...]:
    """Give the strings of the readers' code, the file and what they are given to; not what is said or documented."""
    found = []
    for file in sorted(ROOM.rglob("*.py")):
        if file.name in ALARM | SAID:
            continue
        tree = ast.parse(file.read_text("utf-8"))
        left_out = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
        left_out |= {id(part) for node in ast.walk(tree) if isinstance(node, ast.JoinedStr) for part in ast.walk(node)}
        given = {}
        for node in ast.walk(tree):
            if isinstance(node, ast.Call):
                name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
                told = [*node.args, node.func.value] if isinstance(node.func, ast.Attribute) else node.args
                given |= {id(one): name for one in told}
        for node in ast.walk(tree):
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in left_out:
                call = given.get(id(node), "")
                if call not in WORD_ROWS:
                    found.append((file.name, node.value, call))
    return tuple(found)


def alternatives(pattern: str) -> tuple[str, ...]:
    """Give an expression once for each alternative of its groups that has several words, only that one left."""
    spans: list[tuple[int, int]] = []
    open_at: list[int] = [-1]
    bars: dict[int, list[int]] = {-1: []}
    at = 0
    while at < len(pattern):
        sign = pattern[at]
        if sign == "\\":
            at += 1
        elif sign == "[":
            at = pattern.index("]", at + 2)
        elif sign == "(":
            open_at.append(at)
            bars[at] = []
        elif sign == "|":
            bars[open_at[-1]].append(at)
        elif sign == ")":
            spans.append((open_at.pop(), at))
        at += 1
    alone = []
    for start, end in [*spans, (-1, len(pattern))]:
        if not bars[start]:
            continue
        head = re.match(r"\((?:\?(?:[:=!]|<[=!]|P<\w+>))?", pattern[start:]) if start >= 0 else None
        begin = start + head.end() if head else 0
        for left, right in pairwise([begin - 1, *bars[start], end]):
            part = pattern[left + 1 : right]
            if SPACED.search(part):
                alone.append(pattern[:begin] + part + pattern[end:])
    return tuple(alone) or ((pattern,) if SPACED.search(pattern) else ())


def served_by_phrase(phrase: str) -> set[str]:
    """Name the hands that a phrase serves."""
    ways = {words_of(phrase), tuple(re.findall(r"[\w'-]+", plain(phrase)))}
    return {name for name, runs in _runs().items() if any(way in runs for way in ways)}


def served_by_regex(pattern: str) -> set[str]:
    """Name the hands that a regular expression serves."""
    made = re.compile(pattern, re.IGNORECASE | re.MULTILINE)
    return {name for name, page in _pages().items() if made.search(page)}


def served_by_template(template: str) -> set[str]:
    """Name the hands of which a line is this template, any names in its slots."""
    parts = [re.escape(" ".join(plain(part).split())) for part in SLOT.split(template.replace("\\n", " "))]
    made = re.compile("^[^\\w\\n]*" + f"\\W*{_GAP}\\W*".join(part.strip() for part in parts) + "[^\\w\\n]*$", re.MULTILINE)
    return {name for name, page in _pages().items() if made.search(page)}


def serving() -> dict[tuple[str, str, str], set[str]]:
    """Give all patterns of several words (their sort, where each stands, what it is) with the hands they serve."""
    found = {("phrase", *one): served_by_phrase(one[1]) for one in dict.fromkeys(phrases())}
    found |= {("regex", *one): served_by_regex(one[1]) for one in dict.fromkeys(regexes())}
    return found | {("template", *one): served_by_template(one[1]) for one in dict.fromkeys(templates())}


def main() -> int:
    """Print each that serves one hand only, and the shares."""
    found = serving()
    for (sort, where, pattern), served in sorted(found.items()):
        if len(served) == 1:
            print(f"{sort}\t{where}\t{pattern}\t{next(iter(served))[:40]}")
    for sort in ("phrase", "regex", "template"):
        of_sort = [served for (one, _, _), served in found.items() if one == sort]
        single = sum(len(served) == 1 for served in of_sort)
        none = sum(not served for served in of_sort)
        print(f"{sort}: {len(of_sort)}, of one hand {single} ({single / len(of_sort):.1%}), of none {none}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
