"""The glossary that came with the page."""

from functools import lru_cache
from pathlib import Path
from xml.etree.ElementTree import Element

from engine.diagnosis.glossary import Terms, load_terms
from web.views.glossed import LISTED, glossed, words_used

FILE = Path(__file__).parent / "glossary.json"


@lru_cache(maxsize=1)
def terms() -> Terms:
    """Return the terms, as written at build time; none where the page was not built."""
    return load_terms(FILE.read_text(encoding="utf-8")) if FILE.exists() else Terms()


def in_plain_words(screen: str, parts: list[Element]) -> list[Element]:
    """Return the elements of a screen with its words of the trade explained."""
    if screen not in LISTED:
        return glossed(parts, terms())
    used = words_used(parts, terms())
    return parts if used is None else [*parts, used]
