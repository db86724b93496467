"""Where the type comes from: the font files that the font package brings, read in place."""

from __future__ import annotations


def regular() -> str:
    """Path of the regular weight."""
    return _file("SourceSansPro")


def semibold() -> str:
    """Path of the semibold weight."""
    return _file("SourceSansProSemibold")


def _file(face: str) -> str:
    import font_source_sans_pro  # lists its folder when imported, so only when type is needed

    return str(font_source_sans_pro.font_files_ttf[face])
