"""What the parts of a record must look like: small checks by key, for files that a machine wrote."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any

from trainer.words import _

Check = Callable[[Any], str]
"""Takes a value and returns what should stand there, or an empty text where it is right."""
Shape = Mapping[str, Check]
LARGEST = 2**53 - 1
"""The largest whole number that RFC 8785 takes."""


def whole(least: int = 0, most: int = LARGEST) -> Check:
    """A whole number."""

    def check(value: Any) -> str:
        right = type(value) is int and least <= value <= most
        return "" if right else _("a whole number from {least} to {most}").format(least=least, most=most)

    return check


def text(most: int, pattern: str = "") -> Check:
    """A text of ``most`` signs at most, of the form of ``pattern`` where there is one."""
    wanted = re.compile(pattern) if pattern else None

    def check(value: Any) -> str:
        right = isinstance(value, str) and len(value) <= most and (wanted is None or wanted.fullmatch(value))
        return "" if right else _("a text of {most} signs at most, in its own form").format(most=most)

    return check


def hexes(length: int) -> Check:
    """Bytes in small hexadecimal figures."""
    return text(length, rf"[0-9a-f]{{{length}}}")


def one_of(*words: str) -> Check:
    """One of a few words."""

    def check(value: Any) -> str:
        return "" if value in words else _("one of: {words}").format(words=", ".join(words))

    return check


def yes_or_no(value: Any) -> str:
    """True or false."""
    return "" if isinstance(value, bool) else _("true or false")


def anything(value: Any) -> str:
    """Whatever JSON holds."""
    return ""


def number(value: Any) -> str:
    """A number, whole or not."""
    return "" if isinstance(value, int | float) and not isinstance(value, bool) else _("a number")


def list_of(check: Check, most: int = 100_000, least: int = 0) -> Check:
    """A list in which every entry is right."""

    def every(value: Any) -> str:
        if not isinstance(value, list) or not least <= len(value) <= most:
            return _("a list of {least} to {most}").format(least=least, most=most)
        for each in value:
            if bad := check(each):
                return _("a list, each {each}").format(each=bad)
        return ""

    return every


def of_shape(shape: Shape) -> Check:
    """A set of keys, each as ``shape`` has it."""

    def check(value: Any) -> str:
        return fault_of(value, shape)

    return check


def table_of(check: Check) -> Check:
    """A set of keys, whichever they are, with the right thing under each."""

    def every(value: Any) -> str:
        if not isinstance(value, Mapping):
            return _("a set of keys")
        return next((bad for each in value.values() if (bad := check(each))), "")

    return every


def optional(check: Check) -> Check:
    """May be missing; if there, it must be right."""

    def maybe(value: Any) -> str:
        return "" if value is None else check(value)

    return maybe


def fault_of(value: object, shape: Shape) -> str:
    """Return what is wrong with a set of keys, or an empty text. Keys that aren't known are left alone:
    a later trainer may have added them.
    """
    if type(value) is not dict and not isinstance(value, Mapping):
        return _("a set of keys")
    for key, check in shape.items():
        if wanted := check(value.get(key)):
            return _("'{key}' should be {wanted}").format(key=key, wanted=wanted)
    return ""
