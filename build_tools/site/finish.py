"""What is done to pages once a builder has made them. Knows the order; the work stands in the modules named here."""

from __future__ import annotations

from pathlib import Path

from build_tools.site import archive, folder_search, offline, policy, script_order


def finish(site: Path) -> None:
    """
    Make a freshly built site whole: searchable from a folder, strict, kept for offline, and packed.

    Args:
        site: The folder that a builder has filled. Whatever is written into its pages later breaks the hashes.
    """
    # The map of pages once more, packed by the zlib of whichever Python builds; sitemap.xml says all that it says.
    (site / "sitemap.xml.gz").unlink(missing_ok=True)
    folder_search.write(site)
    script_order.apply(site)
    policy.apply(site)
    offline.write(site)
    archive.write(site)
