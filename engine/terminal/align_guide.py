"""`dryjoint align --guide`: one step after the other, before and after, until all holds."""

from collections.abc import Sequence
from itertools import takewhile
from pathlib import Path

from engine.diagnosis.case import Case
from engine.diagnosis.model import SetModel
from engine.diagnosis.opening import changed_file
from engine.errors import UnknownReading
from engine.knowledge.casefile import CaseDocument
from engine.setting_up.guiding import Standing, Visit, progress, with_evidence
from engine.setting_up.opening import visit_document, visit_of
from engine.setting_up.sheet import Step
from engine.setting_up.verdict import Entry, verdict
from engine.setting_up.words import standing_words
from engine.terminal.align_visits import progress_lines
from engine.terminal.align_words import caution_lines, step_lines
from engine.terminal.choosing import read_line
from engine.terminal.knowledge_base import UsageError
from engine.terminal.report import filled

HELP = """\
  a reading   a number with its unit, an outcome, or yes and no; nothing where nothing was read
  leave       leave this step out
  stuck       turned as far as it goes, and what is wanted was not reached; then the reading
  back        take the latest visit back
  stop        end here; what was read is kept"""


def guided(
    model: SetModel, case: Case, sheet: Sequence[Step], visits: Sequence[Visit]
) -> tuple[Visit, ...]:
    """Return the visits after a conversation at the terminal, those before it among them.

    Ctrl-C stops it as `stop` does, so that nothing that was read is lost.
    """
    made = list(visits)
    by_name = {step.id: step for step in sheet}
    print(*caution_lines(model, sheet), "", HELP, sep="\n")
    while True:
        waiting = progress(model, case, sheet, made).next
        if waiting is None:
            break
        _show(model, waiting, by_name)
        try:
            word, visit = _visited(model, case, waiting.step)
        except KeyboardInterrupt:
            word, visit = "stop", None
        if word == "stop":
            break
        if word == "back":
            made = made[:-1]
        elif visit is not None:
            made.append(visit)
            _tell(model, case, sheet, made)
    print("\n".join(progress_lines(model, case, sheet, made)))
    return tuple(made)


def _show(model: SetModel, standing: Standing, sheet: dict[str, Step]) -> None:
    print("", *step_lines(model, standing.step, sheet), sep="\n")
    if standing.visits:
        print(filled(f"Now: {standing_words(model, standing)}"))


def _visited(model: SetModel, case: Case, step: Step) -> tuple[str, Visit | None]:
    """Return the word that ended a visit, or the visit; neither where it makes no sense."""
    entries: list[Entry] = []
    gave_up = False
    for wanted in step.wanted:
        print(filled(f"{wanted.at}: {wanted.said}" if wanted.at else wanted.said))
        read = []
        for when in ("before", "after"):
            text = read_line(f"  {when}> ")
            if text == "stuck":
                gave_up, text = True, read_line(f"  {when}> ")
            if text in ("stop", "back"):
                return text, None
            if text == "leave":
                return "", Visit(step.id)
            read.append(text)
        entries.append(Entry(*read))
    visit = Visit(step.id, tuple(entries), gave_up)
    try:
        verdict(model, case.kit, step, visit.entries)
        with_evidence(model, case, step, visit)
    except UnknownReading as error:
        print(error)
        return "", None
    return "", visit


def _tell(model: SetModel, case: Case, sheet: Sequence[Step], made: Sequence[Visit]) -> None:
    """Print what the latest visit says, and which steps it makes due again."""
    now = progress(model, case, sheet, made)
    for standing in now.standings:
        is_latest = standing.step.id == made[-1].adjustment
        if is_latest or standing.state == "again":
            print(filled(f"{standing.step.title}: {standing_words(model, standing)}"))


def saved(
    path: Path,
    model: SetModel,
    case: Case,
    document: CaseDocument | None,
    visits: Sequence[Visit],
) -> None:
    """Write the case with its visits; what its author wrote beside them stays.

    Raises:
        UsageError: the file cannot be written.
    """
    opened = document or CaseDocument(format=1, family=case.family)
    pairs = zip(opened.set_up, visits, strict=False)
    kept = [one for one, _ in takewhile(lambda pair: visit_of(pair[0]) == pair[1], pairs)]
    added = [visit_document(visit) for visit in visits[len(kept) :]]
    whole = opened.model_copy(update={"set_up": (*kept, *added)})
    text = changed_file(model, case, whole)
    try:
        path.write_text(text, encoding="utf-8")
    except OSError as error:
        print(text)
        where = "what was to be kept stands above"
        raise UsageError(f"{path}: {error.strerror}; {where}") from None
    print(f"Kept in {path}. Look at it, or go on later, with: dryjoint align {path}")
