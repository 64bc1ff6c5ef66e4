"""What is known of one thing, as a mechanic reads it."""

from collections.abc import Callable, Iterable, Iterator, Sequence

from engine.terminal.columns import columns
from engine.terminal.showing.opened import Facts
from engine.terminal.showing.paragraphs import filled, labelled, one_in, section
from engine.terminal.showing.tree_text import cut_set_lines, tree_lines
from web.views.words import KINDS, LIDS, MODES, minutes, percent

NONE = {
    "harms": "no signal",
    "shows": "nothing an owner would notice",
    "its owner tells": "nothing out of order",
    "best told from all else, at even odds, by": "no check of this knowledge",
}


def facts_text(facts: Facts) -> str:
    """Return all of it, no line longer than a hundred characters."""
    return "\n\n".join(part for part in PARTS[facts["kind"]](facts) if part)


def _family(facts: Facts) -> Iterator[str]:
    yield _heading(facts)
    yield filled(facts["about"])
    yield section("How to know it", [filled(f"- {one}", 2, 4) for one in facts["recognise"]])
    tables = {key: facts[key] or "none" for key in ("channels", "rules", "plan")}
    yield labelled(tables, 0)
    rows = [[one["id"], one["causes"], one["checks"], one["title"]] for one in facts["blocks"]]
    yield f"Blocks\n{columns(('block', 'causes', 'checks', 'title'), rows)}"
    wires = [[one["block"], one["need"], one["from"]] for one in facts["wiring"]]
    yield f"Wiring\n{columns(('block', 'needs', 'from'), wires)}" if wires else ""
    yield section("Limits", [_limit(name, one) for name, one in facts["limits"].items()])
    yield filled(f"Source: {facts['source']}")


def _limit(name: str, limit: Facts) -> str:
    figure = ""
    if limit["value"] is not None:
        figure = f"{limit['direction'].replace('-', ' ')} {limit['value']:g} {limit['unit']}"
    told = ", ".join(word for word in (figure.strip(), limit["condition"]) if word)
    return filled(f"{name}: {told}", 2, 4)


def _block(facts: Facts) -> Iterator[str]:
    yield _heading(facts)
    yield filled(facts["about"])
    yield section("Takes", [_need(one) for one in facts["needs"]])
    yield section("Makes", [_made(one) for one in facts["makes"]])
    yield section("Causes", ["\n".join(_cause_in_short(one)) for one in facts["causes"]])
    for check in facts["checks"]:
        yield "\n".join(_check_lines(check))


def _need(one: Facts) -> str:
    return filled(f"{one['id']} from {one['from']}: {one['title']} ({_list(one['states'])})", 2, 6)


def _made(one: Facts) -> str:
    goes = f"; to {_list(one['to'])}" if one["to"] else "; to no other block"
    return filled(f"{one['id']}: {one['title']} ({_list(one['states'])}){goes}", 2, 6)


def _cause_in_short(one: Facts) -> Iterator[str]:
    kind = KINDS[one["is"]]
    yield filled(f"{one['id']}: {one['title']}; {kind}, {one_in(one['prior'])}", 2, 4)
    for way in one["ways"]:
        makes = _list(f"{signal} {state}" for signal, state in way["makes"].items())
        start = f"{way['title']}, {one_in(way['prior'])}: " if len(one["ways"]) > 1 else ""
        yield filled(f"{start}makes {makes or 'nothing worse'}", 6, 8)
    yield filled(f"Mend: {one['act']}", 6, 8)


def _takes(repair: Facts | None) -> Iterator[str]:
    """Yield what a repair takes, where the knowledge tells."""
    if repair is not None:
        part = f", its part worth {repair['part_min']:g} min" if repair["part_min"] else ""
        lid = f"lid {repair['lid']}"
        words = f"Takes {repair['work_min']:g} min{part}, {lid}; does it in {repair['does_it']:.0%}"
        yield filled(f"{words} of cases (estimates).", 2)


def _cause(facts: Facts) -> Iterator[str]:
    yield _heading(facts)
    yield f"{KINDS[facts['is']]}: {one_in(facts['prior'])}"
    yield filled(facts["about"])
    yield section("Comes from", [f"  {e}: {percent(p)}" for e, p in facts["harmed_by"].items()])
    yield section("Brings about", [f"  {c}: {percent(p)}" for c, p in facts["harms"].items()])
    for way in facts["ways"]:
        yield _way(way, many=len(facts["ways"]) > 1)
    yield section(
        "Prove first", [filled(f"{c}: {t}", 2, 6) for c, t in facts["prove_first"].items()]
    )
    cautions = [filled(f"! {title}", 2, 6) for title in facts["cautions"].values()]
    yield section("Mend", [*cautions, filled(facts["act"], 2), *_takes(facts["repair"])])
    yield filled(f"Source: {facts['source']}")


def _way(way: Facts, many: bool) -> str:
    """Return what one way harms, what then shows, what looks alike and what tells it from that."""
    named = f"{way['title']} ({way['id']})" if many else "By itself"
    lists = {
        "harms": [f"{one['id']} {one['state']}: {one['title']}" for one in way["harms"]],
        "shows": [
            f"{percent(one['after'])} (else {percent(one['before'])}): {_answered(one)}"
            for one in way["symptoms"]
        ],
        "its owner tells": [_answered(one) for one in way["told"]],
        "then it may be": [
            f"{percent(way['chance'])} this",
            *(f"{percent(one['chance'])} {one['id']}: {one['title']}" for one in way["rivals"]),
        ],
        "best told from all else, at even odds, by": [
            f"{one['gain_bits']:.2f} bits {one['id']}: {one['title']}" for one in way["telling"]
        ],
    }
    parts = [_listed(heading, rows) for heading, rows in lists.items()]
    return "\n".join([f"{named}: {one_in(way['prior'])}", *parts])


def _listed(heading: str, rows: Sequence[str]) -> str:
    return "\n".join([f"  {heading}", *(filled(row, 4, 8) for row in rows or [NONE[heading]])])


def _check(facts: Facts) -> Iterator[str]:
    yield "\n".join(_check_lines(facts))
    yield section("How each state shows", [_shown(facts, state) for state in facts["shows"]])
    yield filled(f"Source: {facts['source']}")
    yield from _tree(facts)


def _check_lines(facts: Facts) -> Iterator[str]:
    """Yield a check: what is asked, what it takes, where, how, what is right."""
    yield filled(f"{facts['id']}: {facts['title']}", 0, 2)
    what = [facts["is"], minutes(facts["minutes"]), LIDS[facts["lid"]]]
    what.append(MODES[facts["mode"]].lower())
    rows = {
        "asks": facts["asks"],
        "what": ", ".join(what),
        "needs": _list(facts["needs"].values()),
        "load": facts["load"],
        "beware": "; ".join(facts["cautions"].values()),
        "where": facts["where"],
        "how": facts["how"],
        "right": facts["right"],
        "else": facts["may_see"],
        "plainly": facts["plain"],
    }
    yield labelled(rows)


def _shown(facts: Facts, state: str) -> str:
    """Return how one state of what a check looks at shows."""
    shows, unit = facts["shows"][state], facts["unit"]
    if isinstance(shows, list):
        told = _list(facts["outcomes"][one] for one in shows) or "nothing of its own"
    elif not isinstance(shows, dict):
        told = f"yes {percent(shows)}"
    elif "typical" in shows:
        told = f"about {shows['typical']:g} {unit}, give or take {shows['spread']:g}"
    else:
        told = f"{shows['from']:g} to {shows['to']:g} {unit}"
    return filled(f"{facts['looks_at']} {state}: {told}", 2, 4)


def _signal(facts: Facts) -> Iterator[str]:
    yield _heading(facts)
    yield filled(f"It goes to {_list(facts['to']) or 'no other block'}.")
    states = [f"  {state}: {one_in(p)}" for state, p in facts["states"].items()]
    yield section("States, from right to worst", states)
    yield from _tree(facts)


def _tree(facts: Facts) -> Iterator[str]:
    """Yield the fault tree and the cut sets, where a thing has them."""
    if facts.get("tree"):
        yield section("Fault tree", tree_lines(facts["tree"]))
        yield section("Minimal cut sets", cut_set_lines(facts["cut_sets"]))


def _heading(facts: Facts) -> str:
    beside = "" if facts["kind"] == "family" else f" of {facts['family']}"
    return f"{filled(facts['title'])}\n{facts['kind']} {facts['id']}{beside}"


def _answered(one: Facts) -> str:
    return f"{one['asks']} {_word(one['outcome'])}"


def _word(outcome: str) -> str:
    return outcome.replace("-", " ")


def _list(words: Iterable[str]) -> str:
    return ", ".join(words)


PARTS: dict[str, Callable[[Facts], Iterator[str]]] = {
    "family": _family,
    "block": _block,
    "cause": _cause,
    "check": _check,
    "signal": _signal,
}
