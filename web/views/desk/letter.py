"""A text that is ready to be sent: to look at, copy, share, or show as a code."""

from xml.etree.ElementTree import Element

from web.views.markup import button, h, packed, shows
from web.views.qr_code import qr_code
from web.views.state import Shown

TOO_LONG = "This case has grown too long for a code. Send the text or the link."


def letter_box(title: str, text: str, link: str, shown: Shown, input_: object = None) -> Element:
    """Return a letter with its buttons; `input_` is what sending it puts into the case."""
    sends = packed(input_) if input_ else None
    return h(
        "section",
        {"class": "card letter", "aria-labelledby": "letter-title"},
        h("h2", {"id": "letter-title", "tabindex": "-1"}, title),
        h("label", {"for": "letter"}, "Read it over; change it where you send it if you like."),
        h("textarea", {"id": "letter", "readonly": True, "rows": "12"}, text),
        h(
            "p",
            {"class": "row"},
            _sending("Copy the text", "copy-letter", sends, "main"),
            _sending("Share it", "share-letter", sends),
            button(
                "Hide the code" if shown.has_qr else "Show the link as a QR code",
                {"id": "show-qr", **shows("show-qr", has_qr=not shown.has_qr)},
            ),
        ),
        _code(link) if shown.has_qr else None,
    )


def _sending(words: str, act: str, sends: str | None, looks: str | None = None) -> Element:
    attributes = {"class": looks, "id": act, "data-act": act, "data-sends": sends}
    return button(words, attributes)


def _code(link: str) -> Element:
    picture = qr_code(link, "The link as a QR code")
    if picture is None:
        return h("p", {"class": "wrong"}, TOO_LONG)
    hint = "Point the camera of the other device at it. Nothing is sent by this page."
    return h("div", {"class": "qr-box"}, picture, h("p", {"class": "hint"}, hint))
