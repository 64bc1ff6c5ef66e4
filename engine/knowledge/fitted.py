"""What is only there in some kinds of set."""

from engine.knowledge.document import Document, Id


class Fitted(Document):
    """A cause or check that some families have: those with one of these features; else all."""

    fitted_with: tuple[Id, ...] = ()
