"""Parts of the record about where the case stands: verdict, advice, cautions, signatures."""

from web.views.ending import ending_words
from web.views.part import Part, Row
from web.views.state import Bench
from web.views.verdict import sentence, to_act_on, unproved
from web.views.words import listed, minutes, worth

CHECKS, ACTS = 5, 3
SIGNED = ("Work done by", "Checked by", "Given back to")


def verdict_part(bench: Bench) -> Part:
    """Return where the case stands, and whether this kit has come to its end."""
    return Part("Where it stands", (sentence(bench), *ending_words(bench)), kind="verdict")


def advice_part(bench: Bench) -> Part | None:
    """Return what to do about what is sure, and the checks that would tell most."""
    lines = [_act(bench, cause) for cause in to_act_on(bench)[:ACTS]]
    rows = [
        Row(each.title, (worth(each.gain_bits), minutes(each.minutes)))
        for each in bench.ordered("")[:CHECKS]
    ]
    heads = ("Checks that would tell most now", "Worth", "Takes") if rows else ()
    if not rows and not lines:
        return None
    return Part("Advice", tuple(lines), heads, tuple(rows), "advice")


def _act(bench: Bench, cause: str) -> str:
    text = bench.model.causes[cause]
    first = listed([bench.model.checks[each].title for each in unproved(bench, cause)])
    return f"{text.title}. {f'First check: {first}' if first else text.act}"


def cautions_part(bench: Bench) -> Part | None:
    """Return the cautions of the leading causes and of the next checks, each once."""
    texts = [bench.model.causes[each.id].cautions for each in bench.step.causes[:3]]
    texts += [bench.model.checks[each.id].cautions for each in bench.ordered("")[:CHECKS]]
    ids = dict.fromkeys(one for cautions in texts for one in cautions)
    known = [bench.model.cautions[one] for one in ids if one in bench.model.cautions]
    lines = tuple(f"{each.title}: {each.text}" for each in known)
    return Part("Cautions for these steps", lines, kind="warnings") if lines else None


def signatures_part() -> Part:
    """Return the lines to be signed."""
    rows = tuple(Row(name, ("", "")) for name in SIGNED)
    heads = ("What", "Name and signature", "Date")
    return Part("Signed", (), heads, rows, "signatures", is_for_paper=True)
