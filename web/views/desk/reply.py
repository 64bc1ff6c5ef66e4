"""What the owner sent back: read, shown answer by answer, and entered in one go."""

from collections.abc import Sequence
from xml.etree.ElementTree import Element

from engine.diagnosis.case import CANNOT_CHECK
from engine.diagnosis.messages.replies import ReadAnswer, Reply, Unclear, read_reply
from engine.diagnosis.messages.sentences import symptoms_in, titled
from engine.diagnosis.model import CheckText
from engine.words.matching import Candidate
from web.desk_message import owners_part
from web.links import Link, LinkError, link_in
from web.views.markup import button, h, shows
from web.views.state import Bench, Shown

BY_LINK = "from the link in the answer"
NOTHING = (
    "No answer was found in these words. Choose the answers below by hand; the text is kept with "
    "the case."
)


def reply_box(bench: Bench, asked: Sequence[str], shown: Shown) -> Element:
    """Return the box for the answer and, once it was read, what it says."""
    return h(
        "section",
        {"class": "card", "id": "reply-card", "aria-labelledby": "reply-title"},
        h("h2", {"id": "reply-title"}, "The answer"),
        h(
            "form",
            {"id": "reply-form", **shows("read", screen="desk")},
            h(
                "label",
                {"for": "reply"},
                "Paste what the owner wrote, or the link that came back. Quoted lines are skipped.",
            ),
            h("textarea", {"id": "reply", "name": "reply", "rows": "4"}, shown.reply),
            h("button", {"type": "submit", "id": "read-reply"}, "Read it"),
        ),
        _read(bench, asked, shown.reply) if shown.reply.strip() else None,
    )


def _read(bench: Bench, asked: Sequence[str], text: str) -> Element:
    """Return what a reply says, to look over."""
    trouble, link = "", None
    try:
        link = link_in(text)
    except LinkError as problem:
        trouble = str(problem)
    reply = read_reply(bench.model, asked, owners_part(bench.model, asked, text))
    said = {each.check: each for each in reply.answers} | _from_link(bench, link)
    wanted = [check for check in asked if check in said or bench.finding(check) is None]
    wanted += [check for check in said if check not in wanted]
    unclear = {asked[u.number - 1]: u for u in reply.unclear if 0 < u.number <= len(asked)}
    rows = [_row(bench.model.checks[c], said.get(c), unclear.get(c)) for c in wanted]
    return h(
        "div",
        {"id": "read", "class": "heard", "role": "group", "tabindex": "-1"}
        | {"aria-label": "What the answer says"},
        h("p", {"class": "wrong"}, trouble) if trouble else None,
        None if said or trouble else h("p", None, NOTHING),
        rows,
        _homeless(reply, len(asked)),
        _words(bench, reply.rest, set(wanted)),
        button("Enter these answers", {"class": "main", "id": "enter", "data-act": "enter-reply"}),
    )


def _from_link(bench: Bench, link: Link | None) -> dict[str, ReadAnswer]:
    """Return the answers a link brings, of checks this set has."""
    if link is None or link.family != bench.model.family.id:
        return {}
    numbers = {check: number for number, check in link.asked}
    return {
        check: ReadAnswer(numbers.get(check, 0), check, said, BY_LINK)
        for check, said in link.answers.items()
        if check in bench.model.checks
    }


def _row(check: CheckText, answer: ReadAnswer | None, unclear: Unclear | None) -> Element:
    """Return one question with its answer, which can be changed or left out."""
    name, said = f"reply-{check.id}", answer.said if answer else ""
    field = _number(check, name, said) if check.unit else _choice(check, name, said)
    if answer:
        told = f"They wrote: “{answer.words}”" if answer.words != BY_LINK else f"Taken {BY_LINK}."
    else:
        told = "Not answered."
    return h(
        "div",
        {"class": "choice", "id": f"row-{name}"},
        h("label", {"for": name}, h("b", None, check.title), h("small", None, check.asks)),
        field,
        h("p", {"class": "wrong"}, f"“{unclear.words}”: {unclear.why}") if unclear else None,
        h("small", None, told) if answer or not unclear else None,
    )


def _number(check: CheckText, name: str, said: str) -> Element:
    field = {"type": "text", "id": name, "value": said, "autocomplete": "off"}
    number = h("input", {**field, "data-answer": check.id, "aria-label": f"In {check.unit}"})
    return h("span", {"class": "row"}, number, f"in {check.unit}; empty leaves it out")


def _choice(check: CheckText, name: str, said: str) -> Element:
    titles = {"": "leave it out", **check.outcomes, CANNOT_CHECK: "could not be checked"}
    options = [
        h("option", {"value": value, "selected": value == said}, title)
        for value, title in titles.items()
    ]
    return h("select", {"id": name, "data-answer": check.id}, options)


def _homeless(reply: Reply, count: int) -> Element | None:
    """Return what answers a question that was never asked."""
    rows = [u for u in reply.unclear if not 0 < u.number <= count]
    if not rows:
        return None
    return h("ul", {"class": "wrong"}, [h("li", None, f"“{u.words}”: {u.why}") for u in rows])


def _words(bench: Bench, rest: str, taken: set[str]) -> Element | None:
    """Return what else the words seem to say, to tick."""
    found = [each for each in symptoms_in(bench.model, rest) if each.question not in taken]
    if not found:
        return None
    rows = [_tick(bench.model.checks[each.question], each) for each in found]
    return h("fieldset", None, h("legend", None, "They also seem to say: tick what fits"), rows)


def _tick(check: CheckText, candidate: Candidate) -> Element:
    name = f"also-{check.id}"
    box = {"type": "checkbox", "id": name, "value": candidate.answer, "data-answer": check.id}
    label = h(
        "label",
        {"for": name},
        h("b", None, titled(check, candidate.answer)),
        h("small", None, f"{check.asks} They wrote: “{candidate.words}”"),
    )
    return h("div", {"class": "tick"}, h("input", box), label)
