"""Which kind of set it may be, while that is not known, and going on with one of them."""

from xml.etree.ElementTree import Element

from web.views.frame import bar
from web.views.markup import button, h, puts
from web.views.state import Bench
from web.views.words import percent

LIKELY = 0.02  # of kinds less likely only the number is told
NEARLY_SURE = 0.9


def kinds(bench: Bench) -> Element | None:
    """Return the kinds with their chances; nothing for a case whose kind is known."""
    rows = bench.step.kinds
    if not rows:
        return None
    shown = [row for row in rows if row[1] >= LIKELY]
    hidden = len(rows) - len(shown)
    more = f"{hidden} other kinds are hardly possible any more." if hidden > 1 else None
    more = "One other kind is hardly possible any more." if hidden == 1 else more
    return h(
        "section",
        {"class": "kinds", "aria-labelledby": "kinds-title"},
        h("h2", {"id": "kinds-title"}, "Which kind of set"),
        h("p", {"class": "hint"}, _hint(rows[0][1])),
        h("ul", {"class": "rows"}, [_kind(bench, *row) for row in shown]),
        h("p", {"class": "hint"}, more) if more else None,
    )


def _hint(best: float) -> str:
    if best >= NEARLY_SURE:
        return "This is nearly settled. With the kind known, its own checks and figures come too."
    return (
        "Until this is settled, only checks are proposed that are right for every kind that is "
        "still likely. If you know it, say so."
    )


def _kind(bench: Bench, kind: str, chance: float) -> Element:
    title = bench.model.kinds[kind]
    return h(
        "li",
        {"id": f"kind-{kind}"},
        h("b", None, title),
        bar(chance),
        h("span", None, f" {percent(chance)} "),
        button(
            "It is this one",
            {"aria-label": f"It is this one: {title}", **puts("settle", family=kind)},
        ),
    )
