"""Marks up words of the trade: the first of each in a card is a button that says what it means.

The meaning is a popover, so the browser itself opens it, closes it by Escape, and brings the focus
back. Elements are changed in place, before they are written as HTML.
"""

import re
from collections import Counter
from collections.abc import Iterable
from xml.etree.ElementTree import Element

from engine.diagnosis.glossary import Term, Terms
from web.views.markup import button, h

POINTS = re.compile(r"[,.;:!?)]+")  # stay on the line of the word before them
CARDS = ("check", "opened", "cautions", "lead")  # by class; each word once in each of them
CLOSED = frozenset(("button", "a", "label", "summary", "svg", "h1", "h2", "h3", "kbd", "table"))
LISTED = frozenset(("kit", "symptoms"))  # screens of labels, where no button may stand


def glossed(parts: list[Element], terms: Terms) -> list[Element]:
    """Return the elements with every card marked up."""
    met: Counter[str] = Counter()
    for part in parts:
        _visit(part, terms, met)
    return parts


def _visit(element: Element, terms: Terms, met: Counter[str]) -> None:
    """Mark up the cards within an element; `met` numbers those of one class, for their ids."""
    classes = (element.get("class") or "").split()
    name = next((each for each in CARDS if each in classes), None)
    if name is not None:
        met[name] += 1
        gloss_card(element, terms, name if met[name] == 1 else f"{name}-{met[name]}")
        return
    for child in element:
        _visit(child, terms, met)


def gloss_card(card: Element, terms: Terms, name: str) -> None:
    """Mark the first of each term within a card, and append what they mean."""
    seen: dict[str, Term] = {}
    _mark(card, terms, seen, name)
    card.extend(_meaning(name, term) for term in seen.values())


def _mark(element: Element, terms: Terms, seen: dict[str, Term], name: str) -> None:
    children = list(element)
    parts = _pieces(element.text, terms, seen, name)
    for child in children:
        if child.tag not in CLOSED:
            _mark(child, terms, seen, name)
        tail, child.tail = child.tail, None
        parts += [child, *_pieces(tail, terms, seen, name)]
    element.text = None
    for child in children:
        element.remove(child)
    _fill(element, parts)


def _fill(element: Element, parts: Iterable[Element | str]) -> None:
    for part in parts:
        if isinstance(part, Element):
            element.append(part)
        elif len(element):
            element[-1].tail = (element[-1].tail or "") + part
        else:
            element.text = (element.text or "") + part


def _pieces(
    text: str | None, terms: Terms, seen: dict[str, Term], name: str
) -> list[Element | str]:
    """Return a text in pieces, with a button for each term that was not there before."""
    pieces: list[Element | str] = []
    done = 0
    for start, end, term in terms.find(text or ""):
        if term.id in seen:
            continue
        seen[term.id] = term
        word = _word((text or "")[start:end], name, term)
        points = POINTS.match(text or "", end)
        pieces += [(text or "")[done:start], _glued(word, points[0]) if points else word]
        done = points.end() if points else end
    return [*pieces, (text or "")[done:]]


def _word(word: str, name: str, term: Term) -> Element:
    return button(word, {"class": "word", "popovertarget": f"means-{name}-{term.id}"})


def _glued(word: Element, points: str) -> Element:
    """Return a word with the points behind it; a line may break before a button, not here."""
    return h("span", {"class": "glued"}, word, points)


def _meaning(name: str, term: Term) -> Element:
    place = {
        "class": "meaning",
        "id": f"means-{name}-{term.id}",
        "popover": "auto",
        "role": "note",
        "tabindex": "-1",
        "autofocus": True,
    }
    return h("span", place, h("b", None, term.words[0]), h("span", None, f" {term.means}"))


def words_used(parts: Iterable[Element], terms: Terms) -> Element | None:
    """Return a folded list of the terms in these parts; None when there are none."""
    text = " . ".join(piece for part in parts for piece in part.itertext())
    found = {term.id: term for _, _, term in terms.find(text)}
    rows = sorted(found.values(), key=lambda term: term.words[0].lower())
    if not rows:
        return None
    pairs = [(h("dt", None, each.words[0]), h("dd", None, each.means)) for each in rows]
    return h(
        "details",
        {"class": "words-used", "id": "words-used"},
        h("summary", None, "Words on this screen, and what they mean"),
        h("dl", None, [part for pair in pairs for part in pair]),
    )
