from engine.knowledge.library import Library
from engine.knowledge.repairs import RepairFigures


def test_own_figures_go_before_those_of_the_part_and_of_the_kind(library: Library) -> None:
    """A row is told once: what a cause or a part class leaves out comes from the kind."""
    table = library.repairs
    assert table is not None
    own = RepairFigures(minutes=7, source="estimate")
    rows = [table.of("fault"), table.of("fault", "lamp"), table.of("fault", "electrolytic", own)]
    kind, lamp, electrolytic = table.kinds.fault, table.parts["lamp"], table.parts["electrolytic"]
    assert rows[0] == kind
    assert [row.minutes for row in rows[1:]] == [lamp.minutes, 7]
    assert [row.does_it for row in rows[1:]] == [kind.does_it, electrolytic.does_it]
    assert {(row.getting, row.lid) for row in rows} == {(kind.getting, kind.lid)}
    assert kind.does_it != electrolytic.does_it, "or nothing is tested"


def test_every_part_class_has_its_figures(library: Library) -> None:
    """No class of part is forgotten in the table of the real knowledge."""
    assert library.repairs is not None
    assert set(library.repairs.parts) == set(library.parts.classes)
