"""Edits of the tiny knowledge base that leave it right, and bring in what an author should hear."""

from tests.diagnosis.conftest import Edit

SENDER, SUPPLY = "blocks/sender.yaml", "blocks/supply.yaml"


def cause(name: str, title: str, makes: str, prior: float = 0.001) -> str:
    """Return a failed part as an author writes it, with a prior of his own."""
    return (
        f"  {name}:\n    title: {title}\n    kind: fault\n    prior: {prior}\n"
        f"    source: estimate\n    {makes}\n    act: Replace it.\n"
    )


def check(name: str, kind: str, looks_at: str, yes: str, beside: str = "") -> str:
    """Return a check with a yes or a no as an author writes it."""
    return (
        f"  {name}:\n    kind: {kind}\n    title: Title of {name}\n    asks: Is it so?\n"
        f"    looks-at: {looks_at}\n    yes: {yes}\n    right: It is not so.\n"
        f"    minutes: 1\n    source: estimate\n{beside}"
    )


def more_causes(file: str, *texts: str) -> Edit:
    """Return the edit that adds causes to a block."""
    return (file, "\nchecks:\n", f"\n{''.join(texts)}checks:\n")


def more_checks(file: str, *texts: str) -> Edit:
    """Return the edit that adds checks to a block, before all others."""
    first = {SENDER: "checks:\n  weak:\n", SUPPLY: "checks:\n  dark:\n"}[file]
    return (file, first, first.replace("checks:\n", f"checks:\n{''.join(texts)}"))


TWINS = more_causes(
    SENDER,
    cause("bias-part", "Bias part dead", "makes: {drive: low}"),
    cause("bias-wire", "Bias wire off", "makes: {drive: low}"),
)
ALIKE_OUTSIDE = more_causes(
    SENDER,
    cause("bias-part", "Bias part dead", "makes: {drive: low}"),
    cause("coupling", "Coupling weak", "makes: {output: low}"),
)
TWIN_WAYS = more_causes(
    SENDER,
    cause(
        "core",
        "Core moved",
        "ways:\n"
        "      in: {title: Too far in, share: 0.5, makes: {drive: low}}\n"
        "      out: {title: Too far out, share: 0.5, makes: {drive: low}}",
    ),
)
SILENT = more_checks(SUPPLY, check("smell", "look", "rail", "{right: 0.3, low: 0.3, absent: 0.35}"))
ONE_CAUSE = more_checks(
    SENDER, check("knob-loose", "symptom", "preset", "{fine: 0.02, present: 0.9}")
)
NO_CAUSE = more_checks(SENDER, check("dull", "symptom", "drive", "{right: 0.1, low: 0.12}"))
UNNOTICED: tuple[Edit, ...] = (
    (
        SENDER,
        "makes:\n  drive:",
        "makes:\n  purity:\n    title: Purity\n    carries: quality\n"
        "    states: [clean, spurious]\n  drive:",
    ),
    more_causes(SENDER, cause("screen", "Screen off", "makes: {purity: spurious}")),
    more_checks(SENDER, check("screen-look", "look", "purity", "{clean: 0.02, spurious: 0.9}")),
)
FAR_PRIORS = more_causes(
    SENDER,
    cause("small-transistor", "Transistor by the fan", "makes: {drive: low}", 0.1),
    cause("odd-thing", "Odd thing", "makes: {drive: low}", 0.000001),
    cause("fair-transistor", "Transistor by the wall", "makes: {drive: low}", 0.03),
)
TRADE_WORDS = more_checks(
    SUPPLY,
    check(
        "feel",
        "look",
        "rail",
        "{right: 0.02, low: 0.3, absent: 0.9}",
        "    plain: Touch the zener (a small glass bead) and the varactors, then the RF choke.\n",
    ),
)
HARD = more_checks(
    SUPPLY,
    check(
        "feel",
        "look",
        "rail",
        "{right: 0.02, low: 0.3, absent: 0.9}",
        "    plain: >-\n      Investigate accumulations of conductive contamination along "
        "accessible\n      interconnections, immediately afterwards reconsidering every "
        "intermediate observation.\n",
    ),
)
