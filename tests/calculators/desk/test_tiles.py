"""Many squares as one path: a picture of pixels must cost few bytes."""

from __future__ import annotations

from xml.etree import ElementTree

from calculators.desk.svg import Sketch


def test_tiles_of_one_fill_are_one_path_with_a_closed_box_each():
    sketch = Sketch("a", "b", 10)
    sketch.tiles([(0, 0, 2, 1), (2, 1, 0.5, 1)], fill="#102030")
    tree = ElementTree.fromstring(sketch.done().svg())
    paths = tree.findall("{http://www.w3.org/2000/svg}path")
    assert [p.get("fill") for p in paths] == ["#102030"]
    assert paths[0].get("d") == "M0 0h2v1h-2zM2 1h0.5v1h-0.5z"
