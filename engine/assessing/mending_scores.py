"""What a run of sets that were repaired, set up and proved comes to, as plain data."""

from collections import Counter
from collections.abc import Sequence
from typing import Any

from engine.assessing.figures import mean, share
from engine.assessing.mended import PROOFS, Mended


def mending_scores(every: Sequence[Mended]) -> dict[str, Any]:
    """Return the figures of sets that were mended, of those whose owner noticed anything.

    `content`: the owner notices nothing any more; `clean`: nothing is left that any signal shows;
    `latent`: something is left that none shows; `restored`: clean, and no point of the last proof
    failed; `proved`: clean, and every limit was kept as far as the instruments can tell. `proofs`
    counts the verdicts of last proofs; `points` are the mean share of a proof that was simulated.
    """
    sets = [each for each in every if each.is_noticed]
    proofs = Counter(each.proof for each in sets)
    return {
        "sets": len(sets),
        "unnoticed": len(every) - len(sets),
        "content": share(sets, lambda each: each.is_content),
        "clean": share(sets, lambda each: each.is_clean),
        "latent": share(sets, lambda each: bool(each.latent)),
        "restored": share(sets, lambda each: each.is_restored),
        "proved": share(sets, lambda each: each.is_proved),
        "proofs": {name: proofs[name] for name in PROOFS},
        "points": mean(sets, lambda each: each.points[0] / max(each.points[1], 1)),
        "repairs": mean(sets, lambda each: each.repairs),
        "needless_repairs": mean(sets, lambda each: each.needless),
        "blind_repairs": mean(sets, lambda each: each.blind),
        "checks": mean(sets, lambda each: each.checks),
        "visits": mean(sets, lambda each: each.visits),
        "stuck": mean(sets, lambda each: each.stuck),
        "proofs_made": mean(sets, lambda each: each.proofs),
        "minutes": mean(sets, lambda each: each.minutes.all),
        "minutes_of": {
            "checks": mean(sets, lambda each: each.minutes.checks),
            "repairs": mean(sets, lambda each: each.minutes.repairs),
            "setting_up": mean(sets, lambda each: each.minutes.setting_up),
            "proving": mean(sets, lambda each: each.minutes.proving),
        },
    }
