"""The first screen: cases kept here, a worked case to look at, which set it is."""

import re
from collections.abc import Mapping, Sequence
from typing import Any
from xml.etree.ElementTree import Element

from engine.diagnosis.kinds import NOT_SURE
from engine.diagnosis.model import FamilyText
from web.views.frame import file_picker, heading, steps
from web.views.leaf_button import authors_button, contents_button
from web.views.markup import button, h, puts
from web.views.plan import plan_button
from web.views.shelf.button import shelf_button
from web.views.state import OWN

LATEST = 5  # cases that the first screen lists; the shelf has them all
LID_OFF = "Lid off"  # begins a sign that is only seen inside
MEASURED = re.compile(r"\b(counter|dummy load|ppm)\b")  # in a sign that eyes alone cannot see
SAID = re.compile(r"(?:Not sure\? |Lid on: )?(.*?)(?:: go on)?\.")  # a sign, without its mark


def home(
    families: Sequence[FamilyText], kept: Sequence[Mapping[str, Any]], has_case: bool = False
) -> list[Element | None]:
    """Return the first screen; `kept` are cases of this browser, newest first."""
    titles = {family.id: family.title for family in families}
    titles[NOT_SURE] = "A set whose kind was not known yet"
    return [
        *([steps("home")] if has_case else []),
        heading("Which set is it?"),
        h(
            "p",
            {"class": "lead"},
            "Tell what the set does wrong and what you have to look with; eyes and ears will do. "
            "You get the next thing worth checking, why it is worth it, and how sure the cause is "
            "so far.",
        ),
        _kept(kept, titles),
        h("div", {"class": "cards"}, _not_sure() if len(families) > 1 else None, _demo()),
        h("div", {"class": "cards"}, [_family(family) for family in families]),
        _open_file(),
        h("p", None, authors_button("to-own")),
    ]


def _not_sure() -> Element:
    """Return the way in for somebody who does not know which kind it is."""
    return h(
        "section",
        {"class": "card", "id": "not-sure"},
        h("h2", None, "Not sure which?"),
        h(
            "p",
            None,
            "Begin all the same. The set is reasoned about as every kind at once, and what can be "
            "seen of it is asked among the other checks, where that tells most.",
        ),
        button(
            "Begin without knowing",
            {
                "class": "main",
                "data-view": '{"screen":"symptoms"}',
                **puts("start", family=NOT_SURE),
            },
        ),
    )


def _family(family: FamilyText) -> Element:
    closed = [sign for sign in family.recognise if is_seen(sign)]
    others = [sign for sign in family.recognise if not is_seen(sign)]
    return h(
        "section",
        {"class": "card", "id": f"family-{family.id}"},
        h("h2", None, family.title),
        h("h3", None, "You have one if"),
        h("ul", None, [h("li", None, plain_sign(sign)) for sign in closed]),
        _others(family, others),
        button(
            "This is the set",
            {
                "class": "main",
                "data-view": '{"screen":"symptoms"}',
                **puts("start", family=family.id),
            },
        ),
        _reading(family),
        h(
            "details",
            {"id": f"about-{family.id}"},
            h("summary", None, "What this description stands for"),
            h("p", None, family.about),
            h("small", None, f"Source: {family.source}"),
        ),
    )


def _reading(family: FamilyText) -> Element:
    """Return what can be read of a set without a case."""
    plan = plan_button(family.id, f"plan-of-{family.id}") if family.plan else None
    leaves = contents_button(family.id, f"leaves-of-{family.id}")
    return h("p", {"class": "row beside"}, plan, leaves)


def is_seen(sign: str) -> bool:
    """Say whether a sign is seen from outside, without an instrument."""
    return not sign.startswith(LID_OFF) and MEASURED.search(sign) is None


def plain_sign(sign: str) -> str:
    """Return a sign as a sentence of its own, without what marks it in the knowledge."""
    found = SAID.fullmatch(sign)
    words = found[1] if found else sign.rstrip(".")
    return f"{words[:1].upper()}{words[1:]}."


def _others(family: FamilyText, signs: list[str]) -> Element | None:
    """Return the signs that ask for more than eyes, folded away: nobody has to look for them."""
    if not signs:
        return None
    return h(
        "details",
        {"id": f"inside-{family.id}"},
        h("summary", None, "To be surer, with instruments or the lid off"),
        h("ul", None, [h("li", None, sign) for sign in signs]),
    )


def _demo() -> Element:
    return h(
        "section",
        {"class": "card quiet"},
        h("h2", None, "Or look over a shoulder first"),
        h(
            "p",
            None,
            "A worked case from a hill farm: the shepherds' cooperative keeps a dozen old sets "
            "going, and one of them is heard by nobody. The cooperative and the case are invented.",
        ),
        button("Load the worked case", {"id": "demo", "data-act": "demo"}),
        button("A walk of two minutes", {"id": "walk", "data-act": "walk", "data-step": "0"}),
    )


def _kept(kept: Sequence[Mapping[str, Any]], titles: Mapping[str, str]) -> Element | None:
    if not kept:
        return None
    rows = [_kept_row(each, titles) for each in kept[:LATEST]]
    return h(
        "section",
        {"class": "kept"},
        h("h2", None, "Cases kept in this browser"),
        h("ul", {"class": "rows"}, rows),
        h("p", None, shelf_button(f"All cases: {len(kept)}", "all-cases")),
    )


def _kept_row(each: Mapping[str, Any], titles: Mapping[str, str]) -> Element:
    when = str(each["changed"])[:16].replace("T", " ")
    title = str(each.get("title") or _title(str(each["family"]), titles))
    return h(
        "li",
        {"id": f"kept-{each['id']}"},
        h("span", None, h("b", None, title), f" · {each['steps']} entries · {when}"),
        button(
            "Go on",
            {
                "data-act": "open-case",
                "data-id": each["id"],
                "aria-label": f"Go on with the case of {when}",
            },
        ),
        button(
            "Delete",
            {
                "data-act": "forget-case",
                "data-id": each["id"],
                "aria-label": f"Delete the case of {when}",
            },
        ),
    )


def _title(family: str, titles: Mapping[str, str]) -> str:
    if family.startswith(OWN):
        known = family.removeprefix(OWN)
        return f"{titles.get(known, known)} (your own knowledge)"
    return titles.get(family, f"{family}, a set this version does not know")


def _open_file() -> Element:
    return h(
        "p",
        {"class": "open-file"},
        file_picker("case-file", "Open a case saved as a file", ".json,application/json"),
    )
