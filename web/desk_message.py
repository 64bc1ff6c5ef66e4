"""The letters of the help desk as plain text: questions to an owner, and the owner's answers."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from engine.diagnosis.case import CANNOT_CHECK
from engine.diagnosis.messages.replies import letter_of
from engine.diagnosis.model import CautionText, CheckText, SetModel
from web.links import Link
from web.views.words import listed, minutes

CANNOT_SAY = "I cannot check this, or am not sure"
ASIDE = "No need to open the set. Leave out whatever you would rather not do."
RULES = "Where rules or a licence say who may transmit or work on a set, they come first."
ADDRESS = re.compile(r"\S*(?:https?://|#dj)\S*")
COUNTS = ("", "one question", "two questions", "three questions")
LINK_BELOW = "The same as a link:"
OUR_LINES = re.compile(
    rf"(?:Answers(?: to case \w+)?|Question \d+ is not answered\.|{LINK_BELOW})\s*"
)
Numbered = Sequence[tuple[int, str]]  # questions: number, check


def question_letter(model: SetModel, asked: Numbered, code: str, link: str, lid: str) -> str:
    """Return the message to an owner: greeting, questions with lettered answers, how to reply."""
    checks = [model.checks[check] for _, check in asked]
    count = COUNTS[len(asked)] if len(asked) < len(COUNTS) else f"{len(asked)} questions"
    spent = minutes(sum(check.minutes for check in checks))
    asides = [ASIDE] if lid == "on" else []
    asides += [RULES] if lid == "off" or any(check.mode == "transmit" for check in checks) else []
    example = _example(model, asked)
    numbered = [(number, model.checks[check]) for number, check in asked]
    first = first_told(numbered)
    parts = [
        "Hello,",
        "thank you for writing about your set. To see what is wrong with it, please answer "
        f"{count}. It takes about {spent}. {' '.join(asides)}",
        *("\n".join(_question(model, number, check, first)) for number, check in numbered),
        f"How to answer: send back the numbers with their letters, such as “{example}”. "
        "Your own words are welcome after them.",
        f"Or open this link, tap your answers there and send back what it gives you:\n{link}",
        f"Your case is called {code}. Please leave that in your answer.",
    ]
    return "\n\n".join(parts)


def first_told(asked: Iterable[tuple[int, CheckText]]) -> dict[str, int]:
    """Return by caution the number of the first question that has it; there it stands in full."""
    first: dict[str, int] = {}
    for number, check in asked:
        for caution in check.cautions:
            first.setdefault(caution, number)
    return first


def caution_at(known: CautionText, number: int, first: int) -> CautionText:
    """Return a caution as question `number` has it: in full, or where it was told before."""
    if number == first:
        return known
    return replace(known, text=f"As told at question {first}: it holds here as well.")


def _question(
    model: SetModel, number: int, check: CheckText, first: Mapping[str, int]
) -> Iterator[str]:
    """Yield the lines of one question, cautions first."""
    yield f"{number}. {check.title}"
    for caution in check.cautions:
        told = caution_at(model.cautions[caution], number, first[caution])
        yield f"   FIRST: {told.title}. {told.text}"
    needs = listed([model.instruments[each].title for each in check.needs])
    rows = (("With", needs), ("Where", check.where), ("How", check.how))
    yield from (f"   {name}: {words}" for name, words in rows if words)
    yield from ([f"   {check.plain}"] if check.plain else [])
    yield f"   {check.asks}"
    if check.unit:
        yield f"   {number}  then the number, in {check.unit}"
        yield f"   {number}?  {CANNOT_SAY}"
        return
    for outcome, title in {**check.outcomes, CANNOT_CHECK: CANNOT_SAY}.items():
        yield f"   {number}{letter_of(check, outcome)}  {title}"


def _example(model: SetModel, asked: Numbered) -> str:
    """Return how a reply may look, with letters that there are."""
    shown = []
    for place, (number, name) in enumerate(asked):
        check = model.checks[name]
        letter = "ba"[place % 2]
        shown.append(f"{number} 12.4 {check.unit}" if check.unit else f"{number}{letter}")
    return " ".join(shown)


def answer_letter(model: SetModel, link: Link, answers: Mapping[str, str], back: str) -> str:
    """Return the owner's answers as a text to send back; it can be read by people and the page."""
    lines = [f"Answers to case {link.code}" if link.code else "Answers"]
    for number, name in link.asked:
        check, said = model.checks[name], answers.get(name, "")
        if not said:
            lines.append(f"Question {number} is not answered.")
        elif said == CANNOT_CHECK:
            lines.append(f"{number}?  {check.title}: cannot say")
        elif check.unit:
            lines.append(f"{number}  {said}")
        else:
            lines.append(
                f"{number}{letter_of(check, said)}  {check.lead_in} {check.outcomes[said]}"
            )
    return "\n".join([*lines, "", LINK_BELOW, back])


def owners_part(model: SetModel, asked: Sequence[str], text: str) -> str:
    """Return what an owner wrote, without the words and links that `answer_letter` puts in.

    An answer keeps its number and letter; the words repeated behind them go.
    """
    titles = tuple(model.checks[check].title for check in asked)
    kept = []
    for line in ADDRESS.sub(" ", text).splitlines():
        mark, gap, words = line.partition("  ")
        is_ours = gap and words.startswith(titles)
        kept.append("" if OUR_LINES.fullmatch(line) else mark if is_ours else line)
    return "\n".join(kept)
