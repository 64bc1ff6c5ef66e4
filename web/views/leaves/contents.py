"""The contents: the set in words, a search, its blocks, its symptoms."""

from collections.abc import Iterator
from xml.etree.ElementTree import Element

from engine.diagnosis.model import BlockText, SetModel
from web.views.leaves.pieces import cause_row, check_row, checks_of, row, rows
from web.views.markup import h, shows
from web.views.symptoms import grouped

MOST_FOUND = 60


def contents_leaf(model: SetModel, seek: str) -> Iterator[Element | None]:
    """Yield the set in words; with something to seek, what was found instead of the lists."""
    family = model.family
    yield h("p", {"class": "lead"}, family.about)
    yield _search(seek)
    if seek.strip():
        yield _found(model, seek)
        return
    yield rows("Blocks", [_block(model, each) for each in model.blocks.values()])
    yield h("h2", None, "Symptoms, each with its fault tree")
    for title, checks in grouped(checks_of(model).values()).items():
        yield h(
            "details",
            {"id": f"leaves-{title}".replace(" ", "-").lower()},
            h("summary", None, f"{title} ({len(checks)})"),
            h("ul", {"class": "rows"}, [check_row(each) for each in checks]),
        )
    signs = [h("li", None, sign) for sign in family.recognise]
    yield h("section", None, h("h2", None, "How to know such a set"), h("ul", None, signs))
    yield h("small", None, f"Source: {family.source.rstrip('.')}. Knowledge {model.version}.")


def _block(model: SetModel, block: BlockText) -> Element:
    causes = sum(each.block == block.id for each in model.causes.values())
    checks = sum(each.block == block.id for each in checks_of(model).values())
    return row(f"block/{block.id}", block.title, f"{causes} causes · {checks} checks")


def _search(seek: str) -> Element:
    field = {"type": "search", "id": "seek", "name": "seek", "value": seek, "autocomplete": "off"}
    return h(
        "form",
        {"class": "search", "role": "search", **shows("seek", leaf="")},
        h("label", {"for": "seek"}, "Find words in all of it "),
        h(
            "span",
            {"class": "row"},
            h("input", field),
            h("button", {"type": "submit", "class": "answer"}, "Find"),
        ),
    )


def _found(model: SetModel, seek: str) -> Element:
    """Return blocks, causes and checks in whose texts every word stands, in that order."""
    words = seek.lower().split()
    items = [
        *[row(f"block/{b.id}", b.title, "block") for b in model.blocks.values() if _has(words, b)],
        *[cause_row(each) for each in model.causes.values() if _has(words, each)],
        *[check_row(each) for each in checks_of(model).values() if _has(words, each)],
    ]
    if not items:
        return h("p", {"role": "status"}, f"Nothing here speaks of “{seek.strip()}”.")
    beyond = len(items) - MOST_FOUND
    hint = f"And {beyond} more: add a word." if beyond > 0 else ""
    found = rows(f"Found: {len(items)}", items[:MOST_FOUND], hint)
    assert found is not None
    return found


TEXTS = ("id", "title", "about", "act", "asks", "where", "how", "right", "may_see", "plain")
ALSO = ("cautions", "source")


def _has(words: list[str], item: object) -> bool:
    text = " ".join(str(getattr(item, name, "")) for name in (*TEXTS, *ALSO)).lower()
    return all(word in text for word in words)
