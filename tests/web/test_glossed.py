"""Words of the trade: every one an owner may meet is explained, and a card marks it up once."""

import re

import pytest

from engine.diagnosis.auditing.owners_words import TRADE_WORDS
from engine.diagnosis.glossary import Term, Terms, dump_terms, load_terms
from engine.diagnosis.making.vocabulary import terms_of
from engine.knowledge.library import Library
from web.views.glossed import gloss_card, glossed, words_used
from web.views.markup import h, html

FUSE = Term("fuse", ("fuse",), "A thin wire that melts.")
IF = Term("intermediate", ("IF",), "A fixed frequency inside.")
TERMS = Terms((FUSE, IF, Term("fuse-holder", ("fuse holder",), "Where the fuse sits.")))


def test_the_first_of_each_in_a_card_is_a_button() -> None:
    """The second stays a word; what it means stands at the end of the card, closed."""
    card = h("section", {"id": "check"}, h("p", None, "Pull the fuse. A fuse is cheap."))
    gloss_card(card, TERMS, "check")
    assert html(card) == (
        '<section id="check"><p>Pull the <span class="glued"><button type="button" class="word" '
        'popovertarget="means-check-fuse">fuse</button>.</span> A fuse is cheap.</p>'
        '<span class="meaning" id="means-check-fuse" popover="auto" role="note" tabindex="-1" '
        'autofocus=""><b>fuse</b><span> A thin wire that melts.</span></span></section>'
    )


def test_text_is_kept_letter_by_letter() -> None:
    """Marking up changes no word, also between and after elements, and capitals count."""
    card = h("div", {"class": "check"}, "If fuses ", h("b", None, "IF fuse holders"), " if IF.")
    before = "".join(card.itertext())
    glossed([card], TERMS)
    words = [each.text for each in card.iter("button")]
    meanings = "".join(text for each in card.findall("span[@popover]") for text in each.itertext())
    assert "".join(card.itertext()) == before + meanings
    assert words == ["fuses", "IF", "fuse holders"]


def test_two_cards_of_a_class_have_ids_of_their_own() -> None:
    """Such as an opened cause and an opened block."""
    cards = [h("div", {"class": "opened"}, "A fuse.") for _ in range(2)]
    ids = re.findall(r'id="([^"]*)"', html(*glossed(cards, TERMS)))
    assert ids == ["means-opened-fuse", "means-opened-2-fuse"]


@pytest.mark.parametrize("tag", ["button", "label", "summary", "h2", "a"])
def test_nothing_is_marked_within_what_can_be_pressed(tag: str) -> None:
    """A button within a button or a label is none."""
    card = h("div", {"id": "check"}, h(tag, None, "fuse"))
    gloss_card(card, TERMS, "check")
    assert html(card) == f'<div id="check"><{tag}>fuse</{tag}></div>'


def test_screens_of_labels_list_their_words() -> None:
    """In order of the alphabet, folded, each once; none where there is none."""
    shown = words_used([h("label", None, "Is the fuse, or IF, right?")], TERMS)
    assert shown is not None
    assert re.findall(r"<dt>(.*?)</dt>", html(shown)) == ["fuse", "IF"]
    assert words_used([h("p", None, "Nothing.")], TERMS) is None


def test_terms_survive_the_way_to_the_browser() -> None:
    """Text and back."""
    assert load_terms(dump_terms(TERMS)) == TERMS


def test_every_trade_word_for_beginners_is_explained(library: Library) -> None:
    """In checks with bare eyes or a multimeter and the lid on, whatever is on the card."""
    known = {word.lower() for term in terms_of(library).terms for word in term.words}
    single = {part for word in known for part in word.split()}
    missing = {
        (word, f"{block_id}.{name}")
        for block_id, block in library.blocks.items()
        for name, check in block.checks.items()
        if check.lid == "on" and set(check.needs) <= {"multimeter"}
        for text in (check.title, check.asks, check.where, check.how, check.right, check.plain)
        for word in re.findall(r"[a-z]+", text.lower())
        if {word, word.removesuffix("s")} & TRADE_WORDS
        and not {word, word.removesuffix("s")} & single
    }
    assert not missing, sorted(missing)


def test_every_term_occurs(library: Library) -> None:
    """A word nobody meets is not explained."""
    terms = terms_of(library)
    texts = [
        " ".join(
            (
                check.title,
                check.asks,
                check.where,
                check.how,
                check.right,
                check.may_see,
                check.plain,
                check.load,
                *(o.title for o in check.outcomes.values()),
            )
        )
        for block in library.blocks.values()
        for check in block.checks.values()
    ]
    texts += [
        f"{c.title} {c.about} {c.act}" for b in library.blocks.values() for c in b.causes.values()
    ]
    texts += [f"{each.title} {each.plain}" for each in library.instruments.values()]
    texts += [each.text for each in library.cautions.values()]
    met = {term.id for text in texts for _, _, term in terms.find(text)}
    assert {term.id for term in terms.terms} - met == set()
