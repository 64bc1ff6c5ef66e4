"""Which causes no check can tell apart: exactly, from what each state shows in each check."""

from collections import defaultdict
from collections.abc import Iterator

from engine.diagnosis.auditing.alike import shows_alike
from engine.diagnosis.case import Kit
from engine.diagnosis.frequencies.model import FREQUENCIES, FrequencyModel
from engine.diagnosis.model import SetModel
from engine.inference.cut_sets import evaluate
from engine.inference.network import Network
from engine.knowledge.wavering import WHOLE_SET

Way = tuple[str, str]
Signature = tuple[int, ...]


def listed_ways(model: SetModel) -> Iterator[Way]:
    """Yield every (cause, way) that can be found at the bench: no events, nothing unlisted."""
    for cause in model.causes.values():
        if cause.kind not in ("event", "unlisted"):
            for way in cause.ways:
                yield cause.id, way


def signatures(model: SetModel, network: Network, kit: Kit) -> dict[Way, Signature]:
    """Return for each (cause, way), alone in the set, which of its distributions each check shows.

    Two ways with equal signatures have the same distribution of outcomes in every check that the
    kit allows, so no answer ever changes the odds between them.
    """
    allowed = [check for check in model.checks.values() if kit.allows(check)]
    tied = [check for check in allowed if check.at is None and check.block != WHOLE_SET]
    shown = [(check.looks_at, shows_alike(check)) for check in tied]
    if model.frequencies and any(check.at for check in allowed):
        shown.append((FREQUENCIES, told_apart(model.frequencies)))
    found = {}
    for cause, way in listed_ways(model):
        truth = evaluate(network, {cause: way})
        found[cause, way] = tuple(numbers[truth[signal]] for signal, numbers in shown)
    return found


def told_apart(frequencies: FrequencyModel) -> list[int]:
    """Return for each joint state a number: states share it that no reading separates."""
    keys = [(*state[:-1], frequencies.wild[state[-1]]) for state in frequencies.states()]
    first = {key: number for number, key in reversed(list(enumerate(keys)))}
    return [first[key] for key in keys]


def groups(found: dict[Way, Signature]) -> list[list[Way]]:
    """Return the ways that are alike, where more than one cause is in it; largest group first."""
    together: dict[Signature, list[Way]] = defaultdict(list)
    for way, signature in found.items():
        together[signature].append(way)
    several = [ways for ways in together.values() if len({cause for cause, _ in ways}) > 1]
    return sorted(several, key=lambda ways: (-len(ways), ways))


def unseen(found: dict[Way, Signature]) -> list[Way]:
    """Return the ways that show in no check: all of them are as in a set in order."""
    return [way for way, signature in found.items() if not any(signature)]
