"""The screen for authors: their files, an editor, what is wrong with them, and a case with them."""

from xml.etree.ElementTree import Element

from web.views.frame import file_picker, heading, steps
from web.views.markup import button, h, shows
from web.views.own.files import OwnFiles

LEAD = (
    "Open files of your own, or write them here. They are laid over the knowledge of this page and "
    "the same rules apply as in dryjoint check. When all is right, look for a fault with them."
)
PRIVATE = (
    "Your own knowledge, not saved on any server. What you type is kept in this browser only: "
    "download it before you clear the browser's data."
)


def own_screen(own: OwnFiles, has_case: bool) -> list[Element | None]:
    """Return the screen; `own-told` and `own-shelf` are filled once the tools are there."""
    back = ("Back to the bench", "bench") if has_case else ("Back to the sets", "home")
    return [
        *([steps("own")] if has_case else []),
        heading("Knowledge of your own"),
        h("p", {"class": "lead"}, LEAD),
        h("p", {"class": "private", "role": "note"}, PRIVATE),
        _not_kept() if not own.is_kept else None,
        h(
            "div",
            {"class": "bench own", "data-drop": True},
            h("div", {"class": "left"}, _files(own), _editor(own)),
            h("div", {"class": "right"}, _told(own), _shelf()),
        ),
        h("p", {"class": "row"}, button(back[0], shows("title", screen=back[1]))),
    ]


def _not_kept() -> Element:
    words = "This browser keeps nothing for the page: download your files before you leave."
    return h("p", {"class": "conflict"}, words)


def _files(own: OwnFiles) -> Element:
    """Return the files as a row to choose from, and the ways to get more."""
    chosen = [
        button(
            file.name,
            {
                "id": f"own-file-{number}",
                "data-act": "own",
                "data-do": "choose",
                "data-at": number,
                "aria-pressed": str(number == own.at).lower(),
            },
        )
        for number, file in enumerate(own.files)
    ]
    return h(
        "section",
        {"class": "card own-files", "aria-labelledby": "own-files-title"},
        h("h2", {"id": "own-files-title"}, "Your files"),
        h("p", {"class": "row", "role": "group", "aria-label": "Files"}, chosen)
        if chosen
        else None,
        h("p", None, file_picker("own-picker", "Open files", ".yaml,.yml", True)),
        h("p", {"class": "hint"}, "Or drop them anywhere on this screen."),
        button("Begin an empty file", {"id": "own-new", **_does("begin")}),
    )


def _does(what: str, **fields: object) -> dict[str, object]:
    return {"data-act": "own", "data-do": what, **{f"data-{k}": v for k, v in fields.items()}}


def _editor(own: OwnFiles) -> Element | None:
    if not own.files:
        return None
    file = own.files[own.at]
    name = {"type": "text", "id": "own-name", "value": file.name, "autocomplete": "off"}
    area = {
        "id": "own-text",
        "rows": 24,
        "spellcheck": "false",
        "autocapitalize": "off",
        "aria-describedby": "own-name-hint",
    }
    return h(
        "section",
        {"class": "card own-editor", "aria-labelledby": "own-editor-title"},
        h("h2", {"id": "own-editor-title"}, "Write"),
        h("label", {"for": "own-name"}, "Name of the file "),
        h("input", name),
        h("small", {"id": "own-name-hint", "class": "below"}, NAMES),
        h("label", {"for": "own-text"}, "Text"),
        # The first line break after the tag is no part of the text.
        h("textarea", area, f"\n{file.text}"),
        h(
            "p",
            {"class": "row"},
            button("Download this file", {"id": "own-save", **_does("download")}),
            button("Take it away", {"id": "own-drop", **_does("drop")}),
        ),
    )


NAMES = (
    "The name is the id: my-stage.yaml is the block my-stage. A name like families/my-set.yaml "
    "says where it belongs, if that cannot be told from the text."
)


def _told(own: OwnFiles) -> Element:
    """Return the place for what is wrong, or what can be done when nothing is."""
    words = "Nothing to check yet." if not own.files else "Not looked at yet."
    return h(
        "section",
        {"class": "card", "aria-labelledby": "own-told-title"},
        h("h2", {"id": "own-told-title", "tabindex": "-1"}, "What dryjoint check says"),
        h("div", {"id": "own-told", "data-later": "own-told"}, h("p", None, words))
        if not own.files
        else h("div", {"id": "own-told", "data-later": "own-told"}),
        h("p", {"class": "row"}, button("Check now", {"id": "own-check", **_does("check")}))
        if own.files
        else None,
    )


def _shelf() -> Element:
    """Return the place for the files to start from, and what is kept offline."""
    return h(
        "section",
        {"class": "card quiet", "aria-labelledby": "own-shelf-title"},
        h("h2", {"id": "own-shelf-title"}, "Start from a file of this page"),
        h("div", {"id": "own-shelf", "data-later": "own-shelf"}),
        h("p", {"class": "row"}, button("Show the files", {"id": "own-list", **_does("list")})),
        h("p", {"class": "hint", "id": "own-offline"}, KEPT),
    )


KEPT = (
    "The tools for this screen are fetched when they are first used. From then on they are kept "
    "in this browser and work without a connection."
)
