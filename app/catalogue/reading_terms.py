"""Reads the text of a term into its tree, or says what was expected and where.

Grammar, from loosest to tightest::

    term       := conj ("or" conj)*
    conj       := unit ("and" unit)*
    unit       := "not" unit | "(" term ")" | function | comparison | name | "true" | "false"
    comparison := operand ("==" | "!=" | "<" | "<=" | ">" | ">=") operand
    operand    := name | number | 'text' | "true" | "false"
    function   := ("after" | "hold" | "apart" | "up_to") "(" term "," amount "s" ")"
                | "latch" "(" term "," term ")"
                | "summed" "(" term "," amount "s" "," term ")"
                | "times" "(" term "," amount "," term ")"
    amount     := number | name

Names are those of elements, switches, jumpers, settings, states, calls (with their hyphens) and ``outdoor_c``; the
name of an amount is that of a setting with numbers.
"""

from __future__ import annotations

import re
from functools import lru_cache

from app.catalogue.terms import Both, Compared, Constant, Counted, Either, Latched, Named, Not, Timed, Tree
from app.job.refusal import Refused

MAX_DEPTH = 40

_TOKEN = re.compile(
    r"\s*(?:(?P<number>-?\d+(?:\.\d+)?)|(?P<text>'[^']*')|(?P<name>[a-z][a-z0-9_-]*)"
    r"|(?P<op>==|!=|<=|>=|<|>)|(?P<mark>[(),]))"
)
TIMED = ("after", "hold", "apart", "up_to")
COUNTED = ("summed", "times")
KEYWORDS = frozenset({"and", "or", "not", "true", "false", "latch", *TIMED, *COUNTED})


@lru_cache(maxsize=4096)
def parse_term(text: str) -> Tree:
    """Return the tree of a term.

    Raises:
        Refused: code ``bad-term``, with what was expected and where.
    """
    reader = _Reader(text)
    tree = reader.term(0)
    reader.expect_end()
    return tree


class _Reader:
    """Reads one term from left to right, one token ahead."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.tokens: list[tuple[str, str, int]] = []
        at = 0
        while text[at:].strip():
            found = _TOKEN.match(text, at)
            if found is None:
                raise self._refusal(f"cannot read {text[at:].strip()[:12]!r}", at)
            sort = found.lastgroup or ""
            self.tokens.append((sort, found.group(sort), found.start(sort)))
            at = found.end()
        self.next = 0

    def term(self, depth: int) -> Tree:
        if depth > MAX_DEPTH:
            raise self._refusal("is nested too deeply", 0)
        tree = self._conjunction(depth)
        while self._take("name", "or"):
            tree = Either(tree, self._conjunction(depth))
        return tree

    def expect_end(self) -> None:
        if self.next < len(self.tokens):
            _, word, at = self.tokens[self.next]
            raise self._refusal(f"has {word!r} after its end", at)

    def _conjunction(self, depth: int) -> Tree:
        tree = self._unit(depth)
        while self._take("name", "and"):
            tree = Both(tree, self._unit(depth))
        return tree

    def _unit(self, depth: int) -> Tree:
        if depth > MAX_DEPTH:
            raise self._refusal("is nested too deeply", 0)
        if self._take("name", "not"):
            return Not(self._unit(depth + 1))
        if self._take("mark", "("):
            tree = self.term(depth + 1)
            self._expect("mark", ")")
            return tree
        for function in TIMED:
            if self._take("name", function):
                return self._timed(function, depth)
        for function in COUNTED:
            if self._take("name", function):
                return self._counted(function, depth)
        if self._take("name", "latch"):
            self._expect("mark", "(")
            set_by = self.term(depth + 1)
            self._expect("mark", ",")
            reset_by = self.term(depth + 1)
            self._expect("mark", ")")
            return Latched(set_by, reset_by)
        return self._comparison()

    def _timed(self, function: str, depth: int) -> Tree:
        self._expect("mark", "(")
        inner = self.term(depth + 1)
        self._expect("mark", ",")
        seconds = self._amount()
        self._expect("name", "s")
        self._expect("mark", ")")
        return Timed(function, inner, seconds)

    def _counted(self, function: str, depth: int) -> Tree:
        self._expect("mark", "(")
        inner = self.term(depth + 1)
        self._expect("mark", ",")
        amount = self._amount()
        if function == "summed":
            self._expect("name", "s")
        self._expect("mark", ",")
        reset_by = self.term(depth + 1)
        self._expect("mark", ")")
        return Counted(function, inner, amount, reset_by)

    def _amount(self) -> float | str:
        """Read a number that is not negative, or the name of a setting."""
        operand = self._read_operand()
        if isinstance(operand, Named):
            return operand.name
        if isinstance(operand.value, float) and operand.value >= 0:
            return operand.value
        _, word, at = self.tokens[self.next - 1]
        raise self._refusal(f"has {word!r} where a number or a setting was expected", at)

    def _comparison(self) -> Tree:
        left = self._read_operand()
        if self.next < len(self.tokens) and self.tokens[self.next][0] == "op":
            operator = self.tokens[self.next][1]
            self.next += 1
            return Compared(left, operator, self._read_operand())
        return left

    def _read_operand(self) -> Constant | Named:
        if self.next >= len(self.tokens):
            raise self._refusal("ends where a name was expected", len(self.text))
        sort, word, at = self.tokens[self.next]
        self.next += 1
        if sort == "number":
            return Constant(float(word))
        if sort == "text":
            return Constant(word[1:-1])
        if word in ("true", "false"):
            return Constant(word == "true")
        if sort == "name" and word not in KEYWORDS:
            return Named(word)
        raise self._refusal(f"has {word!r} where a name was expected", at)

    def _take(self, sort: str, word: str) -> bool:
        if self.next < len(self.tokens) and self.tokens[self.next][:2] == (sort, word):
            self.next += 1
            return True
        return False

    def _expect(self, sort: str, word: str | None) -> str:
        if self.next < len(self.tokens):
            found_sort, found, at = self.tokens[self.next]
            if found_sort == sort and (word is None or found == word):
                self.next += 1
                return found
            raise self._refusal(f"has {found!r} where {word or sort} was expected", at)
        raise self._refusal(f"ends where {word or sort} was expected", len(self.text))

    def _refusal(self, what: str, at: int) -> Refused:
        return Refused(
            "bad-term",
            f"The term {self.text!r} {what} (character {at + 1}).",
            would_be_right='a term such as "heat_call or hold(gas_valve, 15 s)" or "mode == \'heat\'"',
        )
