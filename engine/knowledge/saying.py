"""Rules on phrases for symptoms, and on the words that mean the same."""

from collections.abc import Iterator

from engine.errors import Problem
from engine.knowledge.draft import Draft, Page
from engine.knowledge.naming import unknown
from engine.knowledge.schema import Block, Check
from engine.knowledge.told import Words


def phrase_problems(page: Page[Block]) -> Iterator[Problem]:
    """Yield phrases of a block for no symptom, for no answer of it, and those given twice."""
    for name, check in page.model.checks.items():
        path = ("checks", name, "said")
        if check.said and check.kind != "symptom":
            found, remedy = f"'said' of a {check.kind}", "Delete 'said'."
            yield page.source.problem(path, found, "a symptom", remedy)
            continue
        for answer in check.said:
            expected = "an answer of this symptom"
            yield from unknown(page.source, (*path, answer), answer, _answers(check), expected)
        yield from _repeated(page, name, check)


def _repeated(page: Page[Block], name: str, check: Check) -> Iterator[Problem]:
    """Yield phrases that stand twice under one symptom; one may deny several symptoms."""
    first: dict[str, str] = {}
    for answer, phrases in check.said.items():
        for index, phrase in enumerate(phrases):
            if phrase.lower() in first:
                path = ("checks", name, "said", answer, index)
                found, expected = f"'{phrase}' twice", "each phrase once"
                remedy = f"Keep one of them; the other stands under '{first[phrase.lower()]}'."
                yield page.source.problem(path, found, expected, remedy)
            first.setdefault(phrase.lower(), answer)


def word_problems(draft: Draft) -> Iterator[Problem]:
    """Yield opposites that are no concept."""
    page = draft.pages.get("tables/words.yaml")
    if page is None or not isinstance(page.model, Words):
        return
    for name, concept in page.model.concepts.items():
        if concept.opposite is not None:
            path = ("concepts", name, "opposite")
            known, expected = page.model.concepts, "a concept of this table"
            yield from unknown(page.source, path, concept.opposite, known, expected)


def _answers(check: Check) -> tuple[str, ...]:
    return tuple(check.outcomes) or ("yes", "no")
