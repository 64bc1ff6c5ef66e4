"""The mark on everything that was worked out with priors sharpened by one's own cases."""

from xml.etree.ElementTree import Element

from engine.diagnosis.model import SetModel
from web.views.markup import h


def counted_words(model: SetModel) -> str:
    """Return what the priors rest on beside the knowledge; nothing when they do not."""
    if not model.counted_sets:
        return ""
    sets = "one closed case" if model.counted_sets == 1 else f"{model.counted_sets} closed cases"
    return f"Counted in, beside the knowledge: {sets} of our own."


def counted_note(model: SetModel) -> Element | None:
    """Return that as a note; None when the priors are those of the knowledge."""
    words = counted_words(model)
    return h("p", {"class": "private", "role": "note"}, words) if words else None
