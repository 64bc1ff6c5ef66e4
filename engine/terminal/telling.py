"""The owner's complaint at the terminal: numbers of a list, or a sentence."""

from engine.diagnosis.messages.sentences import symptoms_in, titled
from engine.diagnosis.model import SetModel
from engine.terminal.choosing import EVERYTHING, NOTHING, choose, chosen, read_line
from engine.words.matching import Candidate

Told = tuple[str, str]  # symptom, and its answer where that was told; else empty

ASK = "Which of these are true? Numbers, your own words, or nothing: "
CONFIRM = "Which of these did you mean? Numbers, or nothing to say it in other words: "


def told_symptoms(model: SetModel) -> list[Told] | None:
    """Return the symptoms that are picked by number or out of what a sentence gave; None to stop.

    Candidates of a sentence are only proposed: those whose numbers are typed are taken.
    """
    while True:
        text = read_line(ASK)
        if text.lower() == "stop":
            return None
        told = _meant(model, text) if is_sentence(text) else _numbered(model, text)
        if told is not None:
            return told


def _numbered(model: SetModel, text: str) -> list[Told] | None:
    names = chosen(text.lower(), model.symptoms, False)
    return None if names is None else [(name, "") for name in names]


def _meant(model: SetModel, text: str) -> list[Told] | None:
    """Return what was confirmed of a sentence, None to ask again."""
    found = symptoms_in(model, text)
    if not found:
        print("Nothing found in these words. Say it in others, or pick from the list above.")
        return None
    print(*candidate_lines(model, found), sep="\n")
    meant = choose(CONFIRM, found, False)
    return [(each.question, each.answer) for each in meant] if meant else None


def is_sentence(text: str) -> bool:
    """Say whether a line is meant as words: it begins with a letter and is no command.

    >>> is_sentence("nobody hears me"), is_sentence("1, 4"), is_sentence("all"), is_sentence("")
    (True, False, False, False)
    """
    return text[:1].isalpha() and text.lower() not in (*EVERYTHING, *NOTHING, "stop")


def candidate_lines(model: SetModel, found: tuple[Candidate, ...]) -> list[str]:
    """Return candidates as numbered lines, with the words each was taken from."""
    lines = []
    for number, each in enumerate(found, start=1):
        lines.append(f"{number:3}  {titled(model.checks[each.question], each.answer)}")
        lines.append(f"       from: {each.words}")
    return lines
