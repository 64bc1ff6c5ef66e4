"""The reminder that words were written and nothing of them was ticked, so that nothing counts."""

from xml.etree.ElementTree import Element

from engine.diagnosis.messages.replies import own_lines
from engine.diagnosis.messages.sentences import symptoms_in
from web.views.markup import button, h, shows
from web.views.own.words import LONGEST
from web.views.state import Bench

MOST = 120  # letters of the words that are shown again


def unticked(bench: Bench) -> Element | None:
    """Return the reminder; None once anything was found, or where the words say nothing known."""
    words = bench.letters.message[:LONGEST]
    if not words.strip() or bench.case.all_findings():
        return None
    candidates = symptoms_in(bench.model, "\n".join(own_lines(words)))
    if not any(each.is_there for each in candidates):
        return None
    line = " ".join(words.split())
    told = line if len(line) <= MOST else f"{line[:MOST].rstrip()} …"
    return h(
        "section",
        {"class": "card unticked", "id": "unticked", "aria-label": "Your words"},
        h("p", None, f"You wrote: “{told}” Nothing of it is ticked yet, so it does not count."),
        button(
            "Tick what you meant",
            {"class": "main", "id": "to-heard", **shows("heard", screen="symptoms")},
        ),
    )
