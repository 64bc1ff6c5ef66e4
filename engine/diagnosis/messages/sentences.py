"""From an owner's sentence to the symptoms it seems to tell of, for the owner to confirm."""

from functools import lru_cache

from engine.diagnosis.model import CheckText, SetModel
from engine.words.lexicon import lexicon
from engine.words.matching import Candidate, candidates
from engine.words.phrases import Index, Question, index


@lru_cache(maxsize=8)  # a long message takes a while, and is shown again after every tick
def symptoms_in(model: SetModel, message: str) -> tuple[Candidate, ...]:
    """Return the symptoms a message seems to tell of or to deny, best first; none if none.

    Nothing is entered by this: a candidate is a proposal, with the words it was taken from.
    """
    return candidates(message, phrases_of(model))


@lru_cache(maxsize=4)
def phrases_of(model: SetModel) -> Index:
    """Return what owners say of the symptoms of a set, kept for as long as the set is in use."""
    symptoms = (check for check in model.checks.values() if check.kind == "symptom")
    return index(tuple(map(_question, symptoms)), lexicon(model.concepts))


def sound_answer(check: CheckText) -> str:
    """Return the answer to expect when nothing is wrong."""
    row = check.channel.rows[0]
    return max(zip(check.outcomes, row, strict=True), key=lambda pair: pair[1])[0]


def titled(check: CheckText, answer: str) -> str:
    """Return a symptom with its answer; a yes needs no mention."""
    if answer == "yes" and not check.title.endswith("?"):
        return check.title
    return f"{check.lead_in} {check.outcomes[answer]}"


def _question(check: CheckText) -> Question:
    """Return the phrases of a symptom; without any, a title that tells of something wrong."""
    phrases, sound = dict(check.said), sound_answer(check)
    if "yes" in check.outcomes and sound == "no" and "yes" not in phrases:
        phrases["yes"] = (check.title,)
    return Question(check.id, sound, phrases)
