"""
`python -m tests.tools.answer_sheets`: patterns of several words that serve one hand only, and how many serve none.

`--shorten` takes off the list of them what serves more hands by now, or is gone.

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

NAMED = HERE / "one_hand.txt"
ROOM = Path(bot.phrases.__file__).parent
ALARM = frozenset({"emergencies.py", "dangers.py", "poisons.py"})
UNREAD = frozenset({f"D{number}" for number in (*range(10, 17), 21, 22, 23)})
"""Drawers that nothing was mended by yet: what was there before they were opened was not written for them."""
SAID = frozenset({"saying.py", "notation.py"})
"""What the bot says itself."""
WORD_ROWS = frozenset({"listed", "split", "words_in", "worded", "each_worded"})
"""What is given to these is a row of single words, or of phrases told apart into words."""
SPACED = re.compile(r"[^\W\d_]['\u2019]?s? [^\W\d_]")
_OF_WORDS = re.compile(r"[^\W\d_]{2}.* .*[^\W\d_]{2}")
_PUT_IN = re.compile(r"\\\d")
"""In what is put for an expression, not in an expression."""
SLOT = re.compile(r"\{[a-z]\}")
_TYPED = re.compile(r"[\w'-]+")
_GAP = r"[\w'\u2019-]+(?: [\w'\u2019-]+){0,2}"


@cache
def hands() -> dict[str, tuple[str, ...]]:
    """Give what each hand wrote, a message each."""
    told = {hand.name: tuple(line.text for line in hand.lines) for hand in tables()}
    for folder in sorted(one for one in (HERE / "drawers").iterdir() if one.name not in UNREAD):
        told |= {
            f"{folder.name}-{hand.name}": tuple(line.text for line in hand.lines) for hand in drawer(folder)
        }
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
def _lines() -> tuple[tuple[str, str], ...]:
    """Give each hand's messages, plain, a line each."""
    return tuple(
        (name, " ".join(plain(text).split()))
        for name, texts in hands().items()
        for text in dict.fromkeys(texts)
    )


@cache
def _pages() -> dict[str, str]:
    """Give each hand's messages on one page."""
    pages: dict[str, list[str]] = {}
    for name, line in _lines():
        pages.setdefault(name, []).append(line)
    return {name: "\n".join(lines) for name, lines in pages.items()}


def phrases() -> Iterator[tuple[str, str]]:
    """Give each phrase of several words of the lexicon, and of the rows in the code, with where it stands."""
    for kind, classes in tomllib.loads((ROOM / "lexicon.toml").read_text("utf-8")).items():
        for name, rows in classes.items():
            for row in rows.values() if isinstance(rows, dict) else [rows]:
                for phrase in row.split("|"):
                    if len(phrase.split()) > 1:
                        yield f"lexicon {kind}.{name}", " ".join(phrase.split())
    for file, constant, _ in _constants():
        rows = constant.split("|") if " | " in constant else [constant]
        if not re.search(r"[\\^$|(){}\[\]\n]", "".join(rows)):
            yield from ((file, " ".join(row.split())) for row in rows if SPACED.search(row.strip()))


def regexes() -> Iterator[tuple[str, str]]:
    """Give each alternative of several words of the regular expressions in the code, the others taken out."""
    for file, constant, call in _constants():
        if (
            call in {"compile", "search", "match", "fullmatch", "sub"}
            and _OF_WORDS.search(constant)
            and not _PUT_IN.search(constant)
        ):
            for alone in alternatives(constant):
                yield file, alone


def templates() -> Iterator[tuple[str, str]]:
    """Give each template that the model is made from."""
    for file in (*sorted((HERE / "templates").glob("*.txt")), *sorted((HERE / "questions").glob("*.txt"))):
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
        left_out |= {
            id(part) for node in ast.walk(tree) if isinstance(node, ast.JoinedStr) for part in ast.walk(node)
        }
        given: dict[int, str] = {}
        for node in ast.walk(tree):
            if isinstance(node, ast.Call):
                name = (
                    node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
                )
                told = [*node.args, node.func.value] if isinstance(node.func, ast.Attribute) else node.args
                told = [part for one in told for part in (one.elts if isinstance(one, ast.Tuple) else [one])]
                given |= {id(one): name for one in told}
        for node in ast.walk(tree):
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in left_out:
                call = given.get(id(node), "")
                if call not in WORD_ROWS:
                    found.append((file.name, node.value, call))
    return tuple(found)


def alternatives(pattern: str) -> tuple[str, ...]:
    """Give an expression once for each alternative of several words, the others of its group taken out."""
    alone = []
    for start, bars, end in _groups(pattern):
        head = _GROUP_HEAD.match(pattern[start:]) if start >= 0 else None
        begin = start + head.end() if head else 0
        for left, right in pairwise([begin - 1, *bars, end]):
            part = pattern[left + 1 : right]
            if bars and _OF_WORDS.search(part):
                alone.append(pattern[:begin] + part + pattern[end:])
    return tuple(alone) or ((pattern,) if _OF_WORDS.search(pattern) else ())


_GROUP_HEAD = re.compile(r"\((?:\?(?:[:=!]|<[=!]|P<\w+>))?")


def _groups(pattern: str) -> Iterator[tuple[int, list[int], int]]:
    """Give where each group begins and ends and where its bars are; the whole is one that begins before the first."""
    open_at: list[tuple[int, list[int]]] = [(-1, [])]
    at = 0
    while at < len(pattern):
        match pattern[at]:
            case "\\":
                at += 1
            case "[":
                at = pattern.index("]", at + 2)
            case "(":
                open_at.append((at, []))
            case "|":
                open_at[-1][1].append(at)
            case ")":
                yield *open_at.pop(), at
            case _:
                pass
        at += 1
    yield *open_at.pop(), len(pattern)


def served_by_phrases(sought: Iterable[str]) -> dict[str, set[str]]:
    """Name the hands that each phrase serves: its words stand in a line, as the readers see it or as it was typed."""
    served: dict[str, set[str]] = {phrase: set() for phrase in sought}
    ways: dict[str, dict[tuple[str, ...], list[str]]] = {}
    for phrase in served:
        for words in _words(phrase):
            if words:
                ways.setdefault(words[0], {}).setdefault(words, []).append(phrase)
    for name, line in _lines():
        for words in _words(line):
            for at, word in enumerate(words):
                for run, found in ways.get(word, {}).items():
                    if words[at : at + len(run)] == run:
                        for phrase in found:
                            served[phrase].add(name)
    return served


def _words(text: str) -> set[tuple[str, ...]]:
    return {words_of(text), tuple(_TYPED.findall(plain(text)))}


def served_by_regex(pattern: str) -> set[str]:
    """Name the hands that a regular expression serves."""
    made = re.compile(pattern, re.IGNORECASE | re.MULTILINE)
    return {name for name, page in _pages().items() if made.search(page)}


def served_by_templates(sought: Iterable[str]) -> dict[str, set[str]]:
    """Name the hands of which a line is a template, any names in its slots."""
    holding: dict[str, list[tuple[str, str]]] = {}
    for name, line in _lines():
        for word in set(_TYPED.findall(line)):
            holding.setdefault(word, []).append((name, line))
    served: dict[str, set[str]] = {}
    for template in sought:
        parts = [" ".join(plain(part).split()) for part in SLOT.split(template.replace("\\n", " "))]
        made = re.compile(r"\W*" + f"\\W*{_GAP}\\W*".join(map(re.escape, parts)) + r"\W*")
        words = [word for part in parts for word in _TYPED.findall(part)]
        rarest = min((holding.get(word, []) for word in words), key=len, default=[])
        served[template] = {name for name, line in rarest if made.fullmatch(line)}
    return served


def serving() -> dict[tuple[str, str, str], set[str]]:
    """Give all patterns of several words (their sort, where each stands, what it is) with the hands they serve."""
    told, rows = tuple(dict.fromkeys(phrases())), tuple(dict.fromkeys(templates()))
    by_phrase = served_by_phrases(phrase for _, phrase in told)
    by_row = served_by_templates(row for _, row in rows)
    found = {("phrase", *one): by_phrase[one[1]] for one in told}
    found |= {("regex", *one): served_by_regex(one[1]) for one in dict.fromkeys(regexes())}
    return found | {("template", *one): by_row[one[1]] for one in rows}


def main() -> int:
    """Print each that serves one hand only, and the shares."""
    found = serving()
    if sys.argv[1:] == ["--shorten"]:
        alone = {pattern for (_, _, pattern), served in found.items() if len(served) == 1}
        kept = [row for row in NAMED.read_text("utf-8").splitlines() if row in alone]
        NAMED.write_text("".join(f"{row}\n" for row in kept), encoding="utf-8")
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
