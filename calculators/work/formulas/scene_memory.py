"""What a scene takes of a card's memory: textures, triangles and the picture's own layers."""

from __future__ import annotations

GB = 1_000_000_000
GB_A_GIB = 1.073741824  # 2^30 bytes in GB


def textures_gb(count: int, edge_px: int, pixel_bytes: float, mipmaps: bool, packing: float) -> float:
    """
    Memory of square textures.

    Args:
        count: How many. [1]
        edge_px: Pixels along one edge. [px]
        pixel_bytes: Bytes a pixel before packing. [byte]
        mipmaps: Whether each carries its smaller copies, a third more.
        packing: How many times smaller block compression makes them. [1], 1 or more.

    Returns:
        count × edge² × bytes × (4/3 with mipmaps) ÷ packing ÷ 10⁹. [GB]

    Source:
        The series 1 + 1/4 + 1/16 + … = 4/3; the rest is arithmetic.

    Example:
        >>> textures_gb(3, 10_000, 4, True, 4)
        0.4
    """
    whole = count * edge_px * edge_px * pixel_bytes
    return (whole * 4 / 3 if mipmaps else whole) / packing / GB


def geometry_gb(triangles_m: float, triangle_bytes: float) -> float:
    """
    Memory of triangles.

    Args:
        triangles_m: How many millions. [10⁶]
        triangle_bytes: Bytes that one triangle takes, its share of corners included. [byte]

    Returns:
        millions × bytes ÷ 1000. [GB]

    Source:
        Arithmetic.

    Example:
        >>> geometry_gb(20, 100)
        2.0
    """
    return triangles_m * triangle_bytes / 1000


def frame_gb(width: int, height: int, passes: int, pass_bytes: float) -> float:
    """
    Memory of the picture being rendered, one layer for each pass.

    Args:
        width: Pixels a line. [px]
        height: Lines. [px]
        passes: Layers kept at once. [1]
        pass_bytes: Bytes a pixel of one layer. [byte]

    Returns:
        width × height × passes × bytes ÷ 10⁹. [GB]

    Source:
        Arithmetic.

    Example:
        >>> frame_gb(2000, 1000, 10, 16)
        0.32
    """
    return width * height * passes * pass_bytes / GB


def room_gb(card_gib: float, taken_gib: float) -> float:
    """
    Memory of the card that is left for the scene.

    Args:
        card_gib: What the card has; its '12 GB' counts 2³⁰ bytes each. [GiB]
        taken_gib: What desktop and other programs take. [GiB]

    Returns:
        The rest, in units of 10⁹ bytes. [GB]

    Source:
        IEC 80000-13: 1 GiB = 2³⁰ bytes (from memory).

    Example:
        >>> room_gb(2, 1)
        1.073741824
    """
    return (card_gib - taken_gib) * GB_A_GIB


def full_from_two_peaks_gb(half_gb: float, quarter_gb: float) -> float:
    """
    The peak with full textures, from the peaks with textures of half and of a quarter of the edge.

    Args:
        half_gb: Peak with half the edge, a quarter of the pixels. [GB]
        quarter_gb: Peak with a quarter of the edge, a sixteenth of the pixels. [GB], at most half_gb.

    Returns:
        half + 4 × (half − quarter). [GB]

    Source:
        Arithmetic: the two differ by 3/16 of the textures, and the full ones add 12/16.

    Example:
        >>> full_from_two_peaks_gb(5, 4.25)
        8.0
    """
    return half_gb + 4 * (half_gb - quarter_gb)
