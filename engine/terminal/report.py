"""A step in words for the terminal."""

import textwrap
from collections.abc import Iterator, Sequence

from engine.diagnosis.advising.advice import frequencies_told
from engine.diagnosis.advising.explaining import Explanation, why
from engine.diagnosis.advising.foresight import what_if
from engine.diagnosis.advising.steps import AdvisedCheck, Step
from engine.diagnosis.case import Case, Finding
from engine.diagnosis.entry import understood
from engine.diagnosis.judging import in_words, judged
from engine.diagnosis.model import CheckText, SetModel
from engine.diagnosis.repairing.again import checks_to_repeat, was_wrong
from engine.diagnosis.repairing.present import present
from engine.terminal.columns import columns
from engine.terminal.costs import cost_lines
from engine.terminal.frequencies import frequency_lines

VERDICTS = {
    "measure": "Go on measuring.",
    "confirm": "Nearly sure; the next check would confirm or clear it:",
    "act": "Sure enough to act:",
    "no-check-left": "No check your kit allows tells more of what leads. Try the likeliest first:",
    "clash": "These findings cannot all be true. Look at them again:",
    "nothing-wrong": "Nothing points to a fault in the set.",
    "not-in-knowledge": "What fits best is something the knowledge does not hold:",
}


REPEATED = 5  # checks shown that are worth making again


def report(
    model: SetModel,
    case: Case,
    answer: Step,
    checks: Sequence[AdvisedCheck],
    joint: Sequence[Explanation],
    most: int,
) -> str:
    """Return the whole step as text, `most` rows of each table."""
    count = sum(finding.is_evidence for finding in case.all_findings())
    known = f"{count} findings, {answer.entropy_bits:.2f} bits left"
    parts = [
        f"{model.family.title}\n{known}",
        "\n".join(repair_lines(model, case)),
        kinds_table(model, answer, most),
        "\n".join(verdict_lines(model, answer)),
        causes_table(answer, most),
        checks_table(checks, most),
        "\n".join(cost_lines(model, case, answer)),
        "\n".join(repeat_lines(model, case, answer)),
        "\n".join(frequency_lines(frequencies_told(model, case), model.cautions)),
        "\n".join(_joint_lines(model, joint)),
        "\n".join(_limit_lines(model, case)),
    ]
    return "\n\n".join(part for part in parts if part)


def repair_lines(model: SetModel, case: Case) -> Iterator[str]:
    """Yield what was put right, and how likely it is that it had been wrong."""
    if case.past:
        yield "Put right, and how likely it had been wrong:"
    for repair, chance in was_wrong(model, case):
        title = model.causes[repair.cause].title
        yield f"  {100.0 * chance:5.1f} %  {title} ({repair.how.replace('-', ' ')})"


def repeat_lines(model: SetModel, case: Case, answer: Step) -> Iterator[str]:
    """Yield checks made before a repair that hang on what was put right, and what they said."""
    rows = checks_to_repeat(case, answer)[:REPEATED]
    if rows:
        yield "Made before a repair that it hangs on; worth making again:"
    for each in rows:
        title = model.checks[each.before.check].title
        yield f"  {each.gain_bits:.3f} bits  {title} (before: {each.before.said})"


def foreseen_lines(model: SetModel, case: Case, check: str) -> Iterator[str]:
    """Yield what each answer to a check would do to the causes."""
    for effect in what_if(model, case, check):
        yield f"  {effect.label} ({100 * effect.probability:.0f} %)"
        for name, then in effect.causes[:3]:
            yield f"      {100 * then:5.1f} %  {model.causes[name].title}"


def reason_lines(model: SetModel, case: Case, cause: str) -> Iterator[str]:
    """Yield what each finding weighs for or against a cause."""
    reasons = why(model, case, cause)
    start = "from before the last repair" if case.past else "before any finding"
    yield f"  {reasons.prior_decibans:+7.1f} decibans {start}"
    for finding, weight in reasons.findings:
        yield f"  {weight:+7.1f}  {model.checks[finding.check].title}: {finding.said}"
    yield f"  {reasons.posterior_decibans:+7.1f} now"


def verdict_lines(model: SetModel, answer: Step) -> Iterator[str]:
    """Yield what to do now, with what stands against it."""
    yield VERDICTS[answer.verdict.kind]
    for finding in answer.clash:
        yield f"  {model.checks[finding.check].title}: {finding.said}"
    for name in answer.verdict.causes:
        cause = model.causes[name]
        yield f"  {cause.title}"
        if answer.verdict.kind == "confirm":
            continue
        yield from (f"    ! {model.cautions[one].title}" for one in cause.cautions)
        yield f"    {cause.act}"
    for finding, bits in answer.doubts:
        title = model.checks[finding.check].title
        yield f"Sits badly with the rest ({bits:.1f} bits): {title}: {finding.said}"


def kinds_table(model: SetModel, answer: Step, most: int) -> str:
    """Return which kinds of set it may be; nothing where that is known."""
    rows = [
        (f"{100.0 * share:.1f} %", model.kinds[kind], kind) for kind, share in answer.kinds[:most]
    ]
    return columns(("chance", "kind of set", "id"), rows) if rows else ""


def causes_table(answer: Step, most: int) -> str:
    """Return the likeliest causes."""
    rows = [
        (f"{100.0 * cause.probability:.1f} %", cause.kind, cause.title, cause.id)
        for cause in answer.causes[:most]
    ]
    return columns(("chance", "kind", "cause", "id"), rows)


def checks_table(checks: Sequence[AdvisedCheck], most: int) -> str:
    """Return the checks that tell most."""
    if not checks:
        return "No check is left that this kit allows."
    rows = [
        (f"{check.gain_bits:.3f}", f"{check.minutes:g}", check.title, check.id)
        for check in checks[:most]
    ]
    return columns(("bits", "min", "next check", "id"), rows)


def _joint_lines(model: SetModel, joint: Sequence[Explanation]) -> Iterator[str]:
    if joint:
        yield "Together:"
    for one in joint:
        names = " + ".join(_cause_and_way(model, cause, way) for cause, way in one.causes)
        yield f"  {100.0 * one.probability:5.1f} %  {names or 'nothing is wrong'}"


def _cause_and_way(model: SetModel, name: str, way: str) -> str:
    """Return the title of a cause, with the way it is there when there are several."""
    cause = model.causes[name]
    return cause.title if len(cause.ways) < 2 else f"{cause.title} ({cause.ways[way]})"


def _limit_lines(model: SetModel, case: Case) -> Iterator[str]:
    """Yield the readings that are held to a limit, with what the limit says of them."""
    told = [finding for finding in present(model, case).findings if finding.is_evidence]
    judgements = [(f, judged(model, f)) for f in told]
    if any(judgement for _, judgement in judgements):
        yield "Limits:"
    for finding, judgement in judgements:
        if judgement:
            yield filled(f"{model.checks[finding.check].title}: {in_words(judgement)}")


def finding_lines(model: SetModel, finding: Finding) -> Iterator[str]:
    """Yield how a reading was understood, and whether it keeps its limit, where that says more."""
    if words := understood(model, finding):
        yield filled(f"Understood: {words}.")
    if judgement := judged(model, finding):
        yield filled(f"{in_words(judgement)}.")


def check_lines(model: SetModel, check: CheckText) -> Iterator[str]:
    """Yield a check as it is to be made: cautions first, then where, how, and what is right."""
    yield f"Next: {check.title}  ({check.minutes:g} min)"
    for name in check.cautions:
        caution = model.cautions[name]
        yield filled(f"! {caution.title}: {caution.text}")
    for head, text in (
        ("Mode", "" if check.mode == "any" else check.mode),
        ("Load", check.load),
        ("Where", check.where),
        ("How", check.how),
        ("Right", check.right),
        ("May be seen", check.may_see),
    ):
        if text:
            yield filled(f"{head}: {text}")
    yield filled(check.asks)
    yield "  " + (f"a number in {check.unit}" if check.unit else " / ".join(check.outcomes))


def filled(text: str) -> str:
    """Return text broken into lines, indented."""
    return textwrap.fill(text, width=96, initial_indent="  ", subsequent_indent="    ")
