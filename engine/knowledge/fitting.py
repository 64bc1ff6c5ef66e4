"""A block as one family has it: what is not fitted there goes."""

from collections.abc import Collection, Mapping

from engine.knowledge.schema import Block, Cause, Check, Family, Rule, Signal
from engine.knowledge.states import FINE

Absent = Mapping[str, str]  # name -> its right state


def fit_family(blocks: Mapping[str, Block], family: Family) -> dict[str, Block]:
    """Return those of the blocks that a family has, as it has them; figures are not filled in."""
    fitted = {
        name: _fit(blocks[name], family, family.wiring.get(name, {}))
        for name in family.blocks
        if name in blocks
    }
    checks = {f"{name}.{check}" for name, block in fitted.items() for check in block.checks}
    return {name: _provable(block, checks) for name, block in fitted.items()}


def _fit(block: Block, family: Family, wired: Collection[str]) -> Block:
    unwired = {
        name: need.states[0]
        for name, need in block.needs.items()
        if need.optional and name not in wired
    }
    causes = {name: c for name, c in block.causes.items() if _has(family, c.fitted_with)}
    absent = unwired | {name: FINE for name in block.causes if name not in causes}
    return block.model_copy(
        update={
            "needs": {name: need for name, need in block.needs.items() if name not in unwired},
            "makes": {name: _signal(signal, absent) for name, signal in block.makes.items()},
            "causes": causes,
            "checks": {
                name: _check(check, absent)
                for name, check in block.checks.items()
                if _has(family, check.fitted_with) and _makes_sense(check, absent)
            },
        }
    )


def _has(family: Family, wanted: Collection[str]) -> bool:
    return not wanted or any(each in family.features for each in wanted)


def _signal(signal: Signal, absent: Absent) -> Signal:
    takes = {name: passes for name, passes in signal.takes.items() if name not in absent}
    rules = (_rule(rule, absent) for rule in signal.rules)
    return signal.model_copy(
        update={"takes": takes, "rules": tuple(rule for rule in rules if rule is not None)}
    )


def _rule(rule: Rule, absent: Absent) -> Rule | None:
    """Return a rule without the conditions that always hold, None where one never does."""
    if any(name in absent and absent[name] not in _several(w) for name, w in rule.when.items()):
        return None
    when = {name: wanted for name, wanted in rule.when.items() if name not in absent}
    return rule.model_copy(update={"when": when})


def _makes_sense(check: Check, absent: Absent) -> bool:
    presumed = (*check.presumes.items(), *check.safe_while.items())
    never = any(name in absent and absent[name] not in states for name, states in presumed)
    return check.looks_at not in absent and not never


def _check(check: Check, absent: Absent) -> Check:
    """Return a check without what it presumes of things that are not there."""
    here = {
        key: {name: states for name, states in presumed.items() if name not in absent}
        for key, presumed in (("presumes", check.presumes), ("safe_while", check.safe_while))
    }
    return check.model_copy(update=here)


def _provable(block: Block, checks: Collection[str]) -> Block:
    """Return a block whose causes ask for no proof that this family cannot give."""

    def proved(cause: Cause) -> Cause:
        kept = tuple(check for check in cause.prove_first if check in checks)
        return cause.model_copy(update={"prove_first": kept})

    return block.model_copy(
        update={"causes": {name: proved(cause) for name, cause in block.causes.items()}}
    )


def _several(wanted: str | tuple[str, ...]) -> tuple[str, ...]:
    return (wanted,) if isinstance(wanted, str) else wanted
