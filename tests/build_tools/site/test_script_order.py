"""The page's own script comes first and brings the theme's; a page without it stays as it is."""

from __future__ import annotations

from build_tools.site.script_order import in_order

BUILT = """<html><head><title>t</title></head><body><main>text</main>
      <script src="../assets/javascripts/bundle.1234.min.js"></script>

        <script src="../made/browser/page.js"></script>

</body></html>"""


def test_our_script_runs_once_the_page_is_read_and_the_themes_is_noted() -> None:
    page = in_order(BUILT)
    assert page.count("<script") == 1
    head, _, body = page.partition("</head>")
    assert head.endswith('<script src="../made/browser/page.js" defer></script>')
    assert '<template data-theme-script="../assets/javascripts/bundle.1234.min.js"></template>' in body
    assert "<main>text</main>" in body


def test_a_page_without_our_script_keeps_its_own() -> None:
    strange = BUILT.replace("page.js", "other.js")
    assert in_order(strange) == strange
