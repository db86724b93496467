"""Questions as a QTI 3.0 package: one item a question, a test that keeps their order, and the manifest.

Places on a plan and lines of a page become choices, in words, so that no picture has to travel.
"""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterable, Sequence
from xml.etree import ElementTree as ET

from trainer.quiz.judge import LETTERS, options
from trainer.quiz.measure import ASKED_IN
from trainer.quiz.question import Amount, Asked, InOrder, Pairs, SomeOf
from trainer.words import CAUTION, INVENTED, _

ITEM_SPACE = "http://www.imsglobal.org/xsd/imsqtiasi_v3p0"
MANIFEST_SPACE = "http://www.imsglobal.org/xsd/qti/qtiv3p0/imscp_v1p1"
MANIFEST = "imsmanifest.xml"
TEST = "test.xml"
_UNPRINTABLE = re.compile(r"[\x00-\x1f\x7f\ufffe\uffff\ud800-\udfff]")
"""What XML can't hold."""
WITH_ANSWERS = _(
    "This file holds the answers as well: it has to, to mark by itself. Keep it from those who sit it for a mark."
)
_RESPONSE, _SCORE, _FEEDBACK = "RESPONSE", "SCORE", "FEEDBACK"
_EPOCH = (1980, 1, 1, 0, 0, 0)
"""The earliest time a zip file can hold; the same questions always make the same file."""


def package(questions: Sequence[Asked], title: str) -> bytes:
    """Return a QTI 3.0 content package, a zip file, of some questions in their order."""
    items = {f"items/{identifier(q.id)}.xml": _item(q) for q in questions}
    files = {MANIFEST: _manifest(questions, title), TEST: _test(questions, title), **items}
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, root in files.items():
            ET.indent(root, " ")
            text = ET.tostring(root, encoding="unicode")
            archive.writestr(
                zipfile.ZipInfo(name, _EPOCH), f'<?xml version="1.0" encoding="UTF-8"?>\n{text}\n', zipfile.ZIP_DEFLATED
            )
    return buffer.getvalue()


def identifier(name: str) -> str:
    """Return a name as QTI takes it for an identifier: letters, digits, dots, hyphens; a letter first."""
    return "q-" + re.sub(r"[^A-Za-z0-9.-]", "-", name)


def _item(q: Asked) -> ET.Element:
    root = ET.Element(
        "qti-assessment-item",
        {
            "xmlns": ITEM_SPACE, "identifier": identifier(q.id), "title": q.id, "adaptive": "false",
            "time-dependent": "false", "xml:lang": "en-AU",
        },
    )  # fmt: skip
    cardinality, base, right = _response(q)
    declared = _under(root, "qti-response-declaration", identifier=_RESPONSE, cardinality=cardinality, base_type=base)
    correct = _under(declared, "qti-correct-response")
    for value in right:
        _under(correct, "qti-value", value)
    score = _under(root, "qti-outcome-declaration", identifier=_SCORE, cardinality="single", base_type="float")
    _under(_under(score, "qti-default-value"), "qti-value", "0")
    _under(root, "qti-outcome-declaration", identifier=_FEEDBACK, cardinality="single", base_type="identifier")
    _body(_under(root, "qti-item-body"), q)
    _processing(root, q)
    feedback = _under(
        root, "qti-modal-feedback", outcome_identifier=_FEEDBACK, identifier="explained", show_hide="show"
    )
    content = _under(feedback, "qti-content-body")
    for text in (*q.working, q.why, q.safety, q.source):
        if text:
            _under(content, "p", text)
    return root


def _response(q: Asked) -> tuple[str, str, list[str]]:
    """(cardinality, base type, right values) of a question's response."""
    task = q.task
    if isinstance(task, Amount):
        return "single", "float", [f"{task.value:g}" if abs(task.value) < 1e6 else f"{task.value:.1f}"]
    if isinstance(task, Pairs):
        return "multiple", "directedPair", [f"L{i + 1} {LETTERS[j]}" for i, j in enumerate(task.right)]
    if isinstance(task, InOrder):
        return "ordered", "identifier", [LETTERS[i] for i in task.right]
    if isinstance(task, SomeOf):
        return "multiple", "identifier", [LETTERS[i] for i in task.right]
    return "single", "identifier", [LETTERS[task.right]]


def _body(body: ET.Element, q: Asked) -> None:
    task = q.task
    if isinstance(task, Amount):
        line = _under(body, "p", f"{q.text} ({ASKED_IN[task.unit]}) ")
        _under(line, "qti-text-entry-interaction", response_identifier=_RESPONSE, expected_length="10")
    elif isinstance(task, Pairs):
        match = _under(
            body, "qti-match-interaction", response_identifier=_RESPONSE, shuffle="false",
            max_associations=str(len(task.left)),
        )  # fmt: skip
        _under(match, "qti-prompt", q.text)
        left, others = _under(match, "qti-simple-match-set"), _under(match, "qti-simple-match-set")
        for i, text in enumerate(task.left, 1):
            _under(left, "qti-simple-associable-choice", text, identifier=f"L{i}", match_max="1")
        for letter, text in zip(LETTERS, task.others, strict=False):
            _under(others, "qti-simple-associable-choice", text, identifier=letter, match_max=str(len(task.left)))
    elif isinstance(task, InOrder):
        _choices(_under(body, "qti-order-interaction", response_identifier=_RESPONSE, shuffle="false"), q)
    else:
        most = "0" if isinstance(task, SomeOf) else "1"
        interaction = _under(
            body, "qti-choice-interaction", response_identifier=_RESPONSE, shuffle="false", max_choices=most
        )
        _choices(interaction, q)


def _choices(interaction: ET.Element, q: Asked) -> None:
    _under(interaction, "qti-prompt", q.text)
    for letter, text in zip(LETTERS, options(q), strict=False):
        _under(interaction, "qti-simple-choice", text, identifier=letter)


def _processing(root: ET.Element, q: Asked) -> None:
    """Score 1 for the right response, a number also within its tolerance; then show the explanation."""
    processing = _under(root, "qti-response-processing")
    condition = _under(processing, "qti-response-condition")
    then = _under(condition, "qti-response-if")
    if isinstance(q.task, Amount):
        near = f"{q.task.tolerance:g} {q.task.tolerance:g}"
        test = _under(then, "qti-equal", tolerance_mode="absolute", tolerance=near)
    else:
        test = _under(then, "qti-match")
    _under(test, "qti-variable", identifier=_RESPONSE)
    _under(test, "qti-correct", identifier=_RESPONSE)
    _set(then, _SCORE, "float", "1")
    _set(_under(condition, "qti-response-else"), _SCORE, "float", "0")
    _set(processing, _FEEDBACK, "identifier", "explained")


def _set(parent: ET.Element, outcome: str, base: str, value: str) -> None:
    _under(_under(parent, "qti-set-outcome-value", identifier=outcome), "qti-base-value", value, base_type=base)


def _test(questions: Iterable[Asked], title: str) -> ET.Element:
    root = ET.Element("qti-assessment-test", {"xmlns": ITEM_SPACE, "identifier": "paper", "title": title})
    part = _under(root, "qti-test-part", identifier="part", navigation_mode="nonlinear", submission_mode="individual")
    section = _under(part, "qti-assessment-section", identifier="section", title=title, visible="true")
    note = _under(section, "qti-rubric-block", use="instructions", view="candidate")
    content = _under(note, "qti-content-body")
    _under(content, "p", f"{INVENTED} {CAUTION}")
    _under(content, "p", WITH_ANSWERS)
    for q in questions:
        name = identifier(q.id)
        _under(section, "qti-assessment-item-ref", identifier=name, href=f"items/{name}.xml")
    return root


def _manifest(questions: Iterable[Asked], title: str) -> ET.Element:
    root = ET.Element("manifest", {"xmlns": MANIFEST_SPACE, "identifier": "manifest"})
    metadata = _under(root, "metadata")
    _under(metadata, "schema", "QTI Package")
    _under(metadata, "schemaversion", "3.0.0")
    _under(root, "organizations")
    resources = _under(root, "resources")
    names = [identifier(q.id) for q in questions]
    test = _under(resources, "resource", identifier="test", type="imsqti_test_xmlv3p0", href=TEST)
    _under(test, "file", href=TEST)
    for name in names:
        _under(test, "dependency", identifierref=name)
    for name in names:
        href = f"items/{name}.xml"
        _under(_under(resources, "resource", identifier=name, type="imsqti_item_xmlv3p0", href=href), "file", href=href)
    return root


def _under(parent: ET.Element, tag: str, text: str = "", **attributes: str) -> ET.Element:
    element = ET.SubElement(parent, tag, {name.replace("_", "-"): value for name, value in attributes.items()})
    if text:
        element.text = _UNPRINTABLE.sub(" ", text)
    return element
