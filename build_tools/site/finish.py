"""What is done to pages once a builder has made them. Knows the order; the work stands in the modules named here."""

from __future__ import annotations

from pathlib import Path

from build_tools.site import archive, frame, lists, offline, policy


def finish(site: Path, project: Path, docs: Path | None = None) -> None:
    """
    Make a freshly built site whole: in the site's own frame, strict, kept for offline, and packed.

    Args:
        site: The folder that a builder has filled. Whatever is written into its pages later breaks the hashes.
        project: The project folder, for its settings.
        docs: The folder of pages; the project's own unless another is given.

    Raises:
        Trouble: A page holds a script that is not the site's.
    """
    # The map of pages once more, packed by the zlib of whichever Python builds; sitemap.xml says all that it says.
    (site / "sitemap.xml.gz").unlink(missing_ok=True)
    around = frame.of_project(project, docs)
    frame.apply(site, around)
    lists.write(site, around)
    policy.apply(site, around.scripts)
    offline.write(site)
    archive.write(site, project)
