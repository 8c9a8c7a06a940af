"""The server knows nothing of what is served beside the site: the command that starts both hands it in."""

from __future__ import annotations

from tests.test_rooms import imports, sources


def test_serving_imports_nothing_of_what_is_on_air() -> None:
    found = [
        (name, imported)
        for name, text in sources("build_tools")
        if name.startswith("build_tools/serving/")
        for _, imported in imports(name, text)
        if imported.startswith("build_tools.presenting")
    ]
    assert found == []
