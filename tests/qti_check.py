"""A structural check of QTI packages, for what the standard's schemas leave unsaid."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterator
from xml.etree import ElementTree as ET

ITEM_SPACE = "http://www.imsglobal.org/xsd/imsqtiasi_v3p0"
MANIFEST_SPACE = "http://www.imsglobal.org/xsd/qti/qtiv3p0/imscp_v1p1"
MANIFEST = "imsmanifest.xml"


def package_faults(content: bytes) -> list[str]:
    """What is unsound: files missing or unlisted, responses undeclared, right values not offered."""
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        files = {name: ET.fromstring(archive.read(name)) for name in archive.namelist()}
    faults = []
    listed = {f.get("href") for f in files[MANIFEST].iter(f"{{{MANIFEST_SPACE}}}file")}
    faults += [f"{name} is in the manifest and not in the package" for name in listed - set(files)]
    faults += [f"{name} is not in the manifest" for name in files if name not in listed and name != MANIFEST]
    for name, root in files.items():
        if root.tag == _q("qti-assessment-item"):
            faults += [f"{name}: {what}" for what in _item_faults(root)]
    return faults


def _q(tag: str) -> str:
    return f"{{{ITEM_SPACE}}}{tag}"


def _item_faults(root: ET.Element) -> Iterator[str]:
    responses = {d.get("identifier") for d in root.iter(_q("qti-response-declaration"))}
    outcomes = {d.get("identifier") for d in root.iter(_q("qti-outcome-declaration"))}
    for element in root.iter():
        used = element.get("response-identifier")
        if used is not None and used not in responses:
            yield f"{element.tag} answers to {used}, which is not declared"
        if element.tag == _q("qti-set-outcome-value") and element.get("identifier") not in outcomes:
            yield f"sets {element.get('identifier')}, which is not declared"
    offered = [
        e.get("identifier") for t in ("qti-simple-choice", "qti-simple-associable-choice") for e in root.iter(_q(t))
    ]
    if len(set(offered)) < len(offered):
        yield "offers two choices with one identifier"
    for declaration in root.iter(_q("qti-response-declaration")):
        for value in declaration.iter(_q("qti-value")):
            if declaration.get("base-type") != "float" and not set((value.text or "").split()) <= set(offered):
                yield f"has the right value {value.text}, which is not offered"
