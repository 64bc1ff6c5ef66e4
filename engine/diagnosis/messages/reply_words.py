"""An answer in words, held against the answers a check can have."""

from engine.diagnosis.case import CANNOT_CHECK
from engine.diagnosis.entry import CANNOT_WORDS
from engine.diagnosis.model import CheckText
from engine.words.clauses import clauses
from engine.words.english import STOP, is_negator, stem

YES = ("yes", "y", "yep", "yeah", "aye")
NO = ("no", "n", "nope", "nah")
CANNOT = ("cannot", "can't", "cant", "could not", "couldn't", "not sure", "don't know", "unsure")
ENOUGH = 0.5  # of the words of an answer, at least this share is said


def outcome_meant(check: CheckText, words: str) -> str | None:
    """Return the answer that `words` give, `cannot-check` among them; None where it is not clear.

    An answer counts as meant when at least half of its words are there, a larger share or more of
    them than of any other, and both or neither of them deny something.
    """
    plain = " ".join(words.lower().replace("\u2019", "'").split())
    if plain in CANNOT_WORDS or plain.startswith(CANNOT):
        return CANNOT_CHECK
    by_title = {title.lower(): outcome for outcome, title in check.outcomes.items()}
    by_title |= {outcome.replace("-", " "): outcome for outcome in check.outcomes}
    if plain in by_title:
        return by_title[plain]
    if "yes" in check.outcomes:
        first = plain.replace(",", " ").replace(".", " ").partition(" ")[0]
        return "yes" if first in YES else "no" if first in NO else None
    return _likest(check, plain)


def _likest(check: CheckText, words: str) -> str | None:
    """Return the one answer whose words are said, None where none or several are."""
    said, denies = _meant(words)
    shares = []
    for outcome, title in check.outcomes.items():
        wanted, title_denies = _meant(title)
        if wanted and denies == title_denies:
            common = len(said & wanted)
            shares.append((common / len(wanted), common, outcome))
    shares.sort(reverse=True)
    if not shares or shares[0][0] < ENOUGH:
        return None
    is_alone = len(shares) == 1 or shares[0][:2] > shares[1][:2]
    return shares[0][2] if is_alone else None


def _meant(words: str) -> tuple[set[str], bool]:
    """Return the stems that carry meaning, and whether something is denied."""
    tokens = [token for clause in clauses(words) for token in clause]
    stems = {stem(t.word) for t in tokens if t.word not in STOP and not is_negator(t.word)}
    return stems, any(is_negator(token.word) for token in tokens)
