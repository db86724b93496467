"""YAML text to data, on one line of defence: whatever the text is, it becomes data or faults, and soon.

Values are taken as YAML 1.2 has them: only ``true`` and ``false`` are yes and no, so ``no``, ``on`` and
``off`` stay the text they look like, and numbers are decimal.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field

import yaml

from trainer.read.document import Document, Lines, Where, path_of
from trainer.read.fault import MOST_SHOWN, WHOLE_FILE, Fault, Faulty, refuse
from trainer.words import _

SIZE_LIMIT = 1_000_000
"""Bytes in a file, at most."""
_DEPTH_LIMIT = 32
_PIECES_LIMIT = 100_000
"""Values, lists and mappings in a file, counting again what aliases repeat."""

_Loader: type[yaml.SafeLoader] | type[yaml.CSafeLoader] = yaml.CSafeLoader if yaml.__with_libyaml__ else yaml.SafeLoader
_UNSHOWABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufffe\uffff]")
_WHOLE = re.compile(r"[-+]?(0|[1-9][0-9]{0,17})")
"""A whole number; one with more digits is read as any other number, and is out of range in every field of ours."""
_NUMBER = re.compile(r"[-+]?(\.[0-9]+|(0|[1-9][0-9]*)(\.[0-9]*)?)([eE][-+]?[0-9]+)?")
_WORDS: dict[str, object] = {
    "": None, "~": None, "null": None, "Null": None, "NULL": None,
    "true": True, "True": True, "TRUE": True, "false": False, "False": False, "FALSE": False,
}  # fmt: skip


def read_yaml(text: str | bytes, file: str) -> Document:
    """Read one YAML document; ``file`` is the name that faults carry.

    Raises :class:`Faulty` where the text can't be read to its end; faults that reading can go on from
    (a key given twice) wait in the document.
    """
    source = _decoded(text, file)
    lines = len(re.findall("\r\n|\r|\n", source)) + (source[-1:] not in ("\r", "\n"))
    composer = _Composer(file, max(lines, 1))
    try:
        loader = _Loader(source)
        try:
            composer.compose(loader)
        finally:
            loader.dispose()
    except yaml.YAMLError as error:
        raise Faulty([*composer.faults, composer.syntax_fault(error)]) from None
    return Document(file, composer.data, composer.lines, tuple(composer.faults))


def _decoded(text: str | bytes, file: str) -> str:
    if len(text) > SIZE_LIMIT:
        limit = _("is over {most} MB; files here are a few kB, so check that this is the right one").format(
            most=SIZE_LIMIT // 1_000_000
        )
        refuse(file, 1, WHOLE_FILE, limit)
    if isinstance(text, bytes):
        try:
            source = text.decode("utf-8")
        except UnicodeDecodeError as error:
            line = text[: error.start].count(b"\n") + 1
            refuse(file, line, WHOLE_FILE, _("is not UTF-8 text; save it as UTF-8"))
    else:
        source = text
    source = source.removeprefix("\ufeff")
    if bad := _UNSHOWABLE.search(source):
        line = source.count("\n", 0, bad.start()) + 1
        what = _(
            "has a character that is not text (code {code}); take it out, or check that this is a text file"
        ).format(code=ord(bad[0]))
        refuse(file, line, WHOLE_FILE, what)
    if not source.strip():
        refuse(file, 1, WHOLE_FILE, _("is empty"))
    return source


@dataclass(slots=True)
class _Open:
    """A mapping or list that has begun and not ended; ``where`` is the way to it."""

    value: dict[str, object] | list[object]
    lines: Lines
    where: Where
    anchor: str | None
    begun: int
    height: int = 1
    """How many levels deep it is from its own on, with what its aliases repeat."""
    key: str | None = None
    key_line: int = 0


@dataclass(slots=True)
class _Anchored:
    value: object
    lines: Lines
    size: int
    height: int


@dataclass
class _Composer:
    """Builds data from the parser's events, without recursion."""

    file: str
    line_count: int
    data: object = None
    lines: Lines = field(default_factory=lambda: Lines(1))
    faults: list[Fault] = field(default_factory=list)
    _open: list[_Open] = field(default_factory=list)
    _anchors: dict[str, _Anchored] = field(default_factory=dict)
    _pieces: int = 0

    def compose(self, loader: yaml.SafeLoader | yaml.CSafeLoader) -> None:
        documents = 0
        while loader.check_event():
            event = loader.get_event()
            line = min(event.start_mark.line + 1, self.line_count) if event and event.start_mark else 1
            if isinstance(event, yaml.ScalarEvent):
                self._scalar(event, line)
            elif isinstance(event, yaml.CollectionStartEvent):
                self._begin(event, line)
            elif isinstance(event, yaml.CollectionEndEvent):
                self._end()
            elif isinstance(event, yaml.AliasEvent):
                self._alias(event.anchor or "", line)
            elif isinstance(event, yaml.DocumentStartEvent):
                documents += 1
                if documents > 1:
                    self._stop(line, _("begins a second document; keep one to a file, and take out the line ---"))

    def syntax_fault(self, error: yaml.YAMLError) -> Fault:
        """Put the parser's complaint in words that say what to do."""
        mark = getattr(error, "problem_mark", None)
        begun = getattr(error, "context_mark", None)
        problem = str(getattr(error, "problem", None) or error).splitlines()[0]
        line = min(mark.line + 1, self.line_count) if mark else 1
        advice = next((advice for sign, advice in _ADVICE if sign in problem), _("check quotes, brackets and indents"))
        since = (
            _(" in what begins on line {line}").format(line=begun.line + 1) if begun and begun.line + 1 < line else ""
        )
        return Fault(
            self.file,
            line,
            self._here(),
            _("is not YAML ({problem}{since}); {advice}").format(problem=problem, since=since, advice=advice),
        )

    def _here(self) -> str:
        if not self._open:
            return WHOLE_FILE
        innermost = self._open[-1]
        return path_of(innermost.where if innermost.key is None else (*innermost.where, innermost.key))

    def _note(self, line: int, what: str) -> None:
        self.faults.append(Fault(self.file, line, self._here(), what))
        if len(self.faults) == MOST_SHOWN:
            self._stop(line, _("has many faults like these; put them right first"))

    def _stop(self, line: int, what: str) -> None:
        raise Faulty([*self.faults, Fault(self.file, line, self._here(), what)])

    def _next_where(self) -> Where:
        if not self._open:
            return ()
        around = self._open[-1]
        part = len(around.value) if isinstance(around.value, list) else around.key or ""
        return (*around.where, part)

    def _expects_key(self) -> bool:
        return bool(self._open) and isinstance(self._open[-1].value, dict) and self._open[-1].key is None

    def _scalar(self, event: yaml.ScalarEvent, line: int) -> None:
        text = event.value
        if _UNSHOWABLE.search(text):
            self._stop(line, _("has text with a character that can't be shown; take out the backslash code"))
        self._refuse_tag(event.tag, line)
        if self._expects_key():
            self._key(text, line)
            return
        value = _plain_value(text) if event.implicit[0] else text
        lines = Lines(line)
        self._add(value, lines, 0)
        if event.anchor is not None:
            self._anchors[event.anchor] = _Anchored(value, lines, 1, 0)

    def _key(self, text: str, line: int) -> None:
        around = self._open[-1]
        around.key, around.key_line = text, line
        if text in around.value:
            first = around.lines.inside[text].line
            self._note(line, _("is given twice, first on line {first}; keep one of them").format(first=first))

    def _begin(self, event: yaml.CollectionStartEvent, line: int) -> None:
        if self._expects_key():
            self._stop(line, _("has a list or mapping as a key; keys are single words"))
        self._refuse_depth(len(self._open) + 1, line)
        self._refuse_tag(event.tag, line)
        where = self._next_where()
        value: dict[str, object] | list[object] = {} if isinstance(event, yaml.MappingStartEvent) else []
        self._open.append(_Open(value, Lines(line), where, event.anchor, self._pieces))

    def _end(self) -> None:
        done = self._open.pop()
        self._add(done.value, done.lines, done.height)
        if done.anchor is not None:
            self._anchors[done.anchor] = _Anchored(done.value, done.lines, self._pieces - done.begun, done.height)

    def _alias(self, anchor: str, line: int) -> None:
        if self._expects_key():
            self._stop(line, _("has *{anchor} as a key; write the key itself").format(anchor=anchor))
        if anchor not in self._anchors:
            self._stop(
                line, _("repeats *{anchor}, which is not complete before it; write the value out").format(anchor=anchor)
            )
        anchored = self._anchors[anchor]
        self._refuse_depth(len(self._open) + anchored.height, line)
        self._pieces += anchored.size - 1
        self._add(anchored.value, anchored.lines, anchored.height)

    def _refuse_depth(self, depth: int, line: int) -> None:
        if depth > _DEPTH_LIMIT:
            text = _("is more than {most} levels deep; check the brackets and indents")
            self._stop(line, text.format(most=_DEPTH_LIMIT))

    def _add(self, value: object, lines: Lines, height: int) -> None:
        self._pieces += 1
        if self._pieces > _PIECES_LIMIT:
            self._stop(lines.line, _("is too much for one file: over 100,000 values, with what its aliases repeat"))
        if not self._open:
            self.data, self.lines = value, lines
            return
        around = self._open[-1]
        around.height = max(around.height, height + 1)
        if isinstance(around.value, list):
            around.lines.inside[len(around.value)] = lines
            around.value.append(value)
            return
        key, around.key = around.key or "", None
        if key not in around.value:
            around.value[key] = value
            around.lines.inside[key] = Lines(around.key_line, lines.inside)

    def _refuse_tag(self, tag: str | None, line: int) -> None:
        if tag is not None:
            self._note(line, _("has the YAML tag {tag}; take the tag out").format(tag=tag[:40]))


def _plain_value(text: str) -> object:
    """Take an unquoted value for what YAML 1.2 says it is; a number that isn't finite stays text."""
    if text in _WORDS:
        return _WORDS[text]
    if _WHOLE.fullmatch(text):
        return int(text)
    if _NUMBER.fullmatch(text) and math.isfinite(number := float(text)):
        return number
    return text


_ADVICE = (
    ("cannot start any token", _("use spaces, not tabs, and put text that begins with a sign in quotes")),
    ("nesting depth", _("it is nested far too deep; check the brackets and indents")),
    ("mapping values are not allowed", _("put text that holds a colon in quotes, and check the indents")),
    ("',' or ']'", _("close the bracket [ with ], and put a comma between entries")),
    ("',' or '}'", _("close the brace { with }, and put a comma between entries")),
    ("unexpected end of stream", _("the file stops short; close the quote or bracket, or get the whole file")),
    ("did not find expected key", _("line the keys up under each other, each with a colon")),
    ("could not find expected ':'", _("put a colon after the key")),
    ("undefined alias", _("write the value out")),
)
