"""Several kinds of set as one model, for somebody who is not sure which is on the bench.

Blocks are shared, so causes, checks and signals of one name are one. Where families wire the same
need to different makers, what a check looks at has a name of its own here.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from engine.diagnosis.kinds import KIND, NOT_SURE, KindTexts
from engine.diagnosis.model import CauseText, CheckText, FamilyText, Presumed, SetModel, SignalText
from engine.inference.mixture import MixedTree
from engine.inference.noisy_or import NoisyTree, renamed
from engine.inference.tree import JunctionTree

Models = Mapping[str, SetModel]  # by family, the commonest first


def mix(models: Models, kinds: KindTexts) -> SetModel:
    """Return all families that `kinds` has a share of as one model; all are among `models`.

    A check is there in the words that most of them share. What differs from kind to kind, and all
    that needs the plan of its frequencies, waits until the kind is known.
    """
    order = sorted(kinds.shares, key=lambda name: (-kinds.shares[name], name))
    members = {name: models[name] for name in order}
    names = _Names(members)
    checks = {name: _common(names, kinds, name) for name in _checks(members)}
    signals = {name: each for model in members.values() for name, each in model.signals.items()}
    first = members[order[0]]
    return SetModel(
        family=_family(members),
        version="+".join(model.version[:4] for model in members.values()),
        blocks={n: b for m in reversed(members.values()) for n, b in m.blocks.items()}
        | {kinds.block.id: kinds.block},
        edges=(),
        signals=signals | names.signals | {KIND: kinds.signal},
        causes=_causes(members, kinds),
        checks=kinds.checks | {name: check for name, (check, _) in checks.items()},
        instruments=first.instruments,
        cautions=first.cautions,
        handling=first.handling,
        mending=first.mending,
        counted_sets=sum(model.counted_sets for model in members.values()),
        cut_sets={},
        p_all_fine=sum(kinds.shares[name] * m.p_all_fine for name, m in members.items()),
        tree=names.tree(kinds),
        concepts=first.concepts,
        kinds={name: model.family.title for name, model in members.items()},
        same_in={name: families for name, (_, families) in checks.items()},
        fine_by_kind=tuple(
            share * members[name].p_all_fine for name, share in kinds.shares.items()
        ),
    )


@dataclass(slots=True)
class _Names:
    """What is one variable in all families, under which name, and under which in each."""

    members: Models
    known: dict[tuple[tuple[str, str], ...], str] = field(default_factory=dict)
    signals: dict[str, SignalText] = field(default_factory=dict)

    def common(self, own: Mapping[str, str]) -> str:
        """Return the name of what each of some families has under its own name."""
        if len(set(own.values())) == 1:
            return next(iter(own.values()))
        key = tuple(sorted(own.items()))
        if key not in self.known:
            family, name = next(iter(own.items()))
            self.known[key] = f"one-of-{len(self.known)}.{name.partition('.')[2]}"
            self.signals[self.known[key]] = self.members[family].signals[name]
        return self.known[key]

    def tree(self, kinds: KindTexts) -> MixedTree:
        """Return the trees of all families, in the order of the shares, with common names."""
        shares, trees = tuple(kinds.shares.values()), []
        for family in kinds.shares:
            tree = self.members[family].tree
            assert isinstance(tree, JunctionTree | NoisyTree), "one kind of set, without a past"
            ways = {
                alias: tree.homes[own]
                for key, alias in self.known.items()
                for name, own in key
                if name == family
            }
            trees.append(renamed(tree, ways))
        return MixedTree(KIND, shares, tuple(trees))


def _checks(members: Models) -> Iterator[str]:
    """Yield the checks of all families, each once, but for readings of the plan's frequencies."""
    names = dict.fromkeys(name for model in members.values() for name in model.checks)
    for name in names:
        if all(m.checks[name].at is None for m in members.values() if name in m.checks):
            yield name


def _common(names: _Names, kinds: KindTexts, check: str) -> tuple[CheckText, frozenset[str]]:
    """Return a check in the words most families share, and the families that share them."""
    having = {family: m.checks[check] for family, m in names.members.items() if check in m.checks}
    groups: list[list[str]] = []
    for family, text in having.items():
        like = [group for group in groups if _bare(having[group[0]]) == _bare(text)]
        if like:
            like[0].append(family)
        else:
            groups.append([family])
    best = max(groups, key=lambda group: sum(kinds.shares[family] for family in group))
    text = having[best[0]]
    common = replace(
        text,
        looks_at=names.common({family: each.looks_at for family, each in having.items()}),
        presumes=_presumed(names, {family: having[family].presumes for family in best}),
        safe_while=_presumed(names, {family: having[family].safe_while for family in best}),
    )
    return common, frozenset(best)


def _bare(check: CheckText) -> tuple[CheckText, list[tuple[str, ...]], list[tuple[str, ...]]]:
    """Return a check without the names by which its family knows what it is about."""
    bare = replace(check, looks_at="", presumes=(), safe_while=())
    states = [[each for _, each in presumed] for presumed in (check.presumes, check.safe_while)]
    return bare, states[0], states[1]


def _presumed(names: _Names, by_family: Mapping[str, Presumed]) -> Presumed:
    first = next(iter(by_family.values()))
    return tuple(
        (names.common({family: each[n][0] for family, each in by_family.items()}), states)
        for n, (_, states) in enumerate(first)
    )


def _causes(members: Models, kinds: KindTexts) -> dict[str, CauseText]:
    """Return every cause once, in the words of the commonest family that has it."""
    found: dict[str, CauseText] = {}
    priors: dict[str, float] = {}
    for family, model in members.items():
        for name, cause in model.causes.items():
            found.setdefault(name, cause)
            priors[name] = priors.get(name, 0.0) + kinds.shares[family] * cause.prior
    return {name: replace(cause, prior=priors[name]) for name, cause in found.items()}


def _family(members: Models) -> FamilyText:
    titles = "; ".join(model.family.title for model in members.values())
    return FamilyText(
        NOT_SURE,
        "A set whose kind is not known yet",
        f"Reasoned about as all of these at once, until looks decide: {titles}.",
        (),
        "",
        "",
        "estimate",
    )
