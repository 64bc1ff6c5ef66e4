"""Files parsed ahead are the same as files parsed here."""

from pathlib import Path

from engine.knowledge.library import examine, read_texts
from engine.knowledge.reading import parse
from engine.knowledge.shipping import dump_texts, load_texts

KB = Path(__file__).resolve().parents[2] / "kb"


def test_every_file_comes_back_with_data_and_lines() -> None:
    """Text, data and the line of every path are those of reading the YAML; cases are left out."""
    texts = read_texts(KB)
    back, sources = load_texts(dump_texts(texts))
    assert back == {f: text for f, text in texts.items() if not f.startswith("cases/")}
    assert set(sources) == set(back)
    for file, source in sources.items():
        read, problems = parse(file, texts[file])
        assert read is not None
        assert problems == []
        assert source.data == read.data, file
        assert list(source.lines.items()) == list(read.lines.items()), file


def test_a_key_written_in_an_unusual_way_is_read_again(small: dict[str, str]) -> None:
    """Channel 01 is channel 1, but its path is written 01: the text is shipped without its data."""
    text = small["tables/channels.yaml"]
    unusual = text.replace("1:", "01:", 1)
    assert unusual != text
    texts, sources = load_texts(dump_texts({"tables/channels.yaml": unusual}))
    assert texts == {"tables/channels.yaml": unusual}
    assert sources == {}


def test_known_pages_are_not_read_again(small: dict[str, str]) -> None:
    """A page that is known stands for its file, whatever the text says."""
    draft, problems = examine(small)
    assert problems == []
    pages = {file: page for file, page in draft.pages.items() if file == "blocks/sender.yaml"}
    assert examine({**small, "blocks/sender.yaml": "title: ["}, pages) == (draft, [])
