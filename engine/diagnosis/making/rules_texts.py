"""The rule sets of a kind of set: which were made for its channels, and their figures."""

from engine.diagnosis.limits import LimitText
from engine.knowledge.library import Library
from engine.knowledge.schema import Family


def limit_texts(library: Library, family: Family) -> dict[str, LimitText]:
    """Return the limits of a family's rules that are a figure."""
    return rule_texts(library, family.rules)


def rule_texts(library: Library, rules: str) -> dict[str, LimitText]:
    """Return the limits of a rule set that are a figure, with what their source is called."""
    return {
        name: LimitText(
            name,
            rules,
            limit.value,
            limit.unit,
            limit.direction,
            limit.condition,
            limit.source.partition(";")[2].strip() or limit.source,
            limit.read,
        )
        for name, limit in library.limits[rules].items()
        if limit.value is not None and limit.direction is not None
    }


def fitting_rules(library: Library, family: Family) -> list[str]:
    """Return the rule sets made for a family's channels, and its own in any case."""
    sets = library.rule_sets
    fitting = [name for name, one in sets.items() if family.channels in one.channels]
    return fitting if family.rules in fitting else [family.rules, *fitting]


def rules_title(library: Library, rules: str) -> str:
    """Return what a rule set is called."""
    return library.rule_sets[rules].title if rules in library.rule_sets else rules
