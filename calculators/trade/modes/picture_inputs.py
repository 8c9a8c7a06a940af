"""The options by which a viewer names bits a channel and colour sampling, with the words that people use for them."""

from __future__ import annotations

from calculators.desk.inputs import Option

DEPTHS = (
    Option("8", "8 bits", ("8 bit", "8-bit", "8bit", "8 bpc", "8bpc")),
    Option("10", "10 bits", ("10 bit", "10-bit", "10bit", "10 bpc", "10bpc")),
    Option("12", "12 bits", ("12 bit", "12-bit", "12bit", "12 bpc", "12bpc")),
)
DEPTH_NAMES = ("bit depth", "colour depth", "color depth", "bpc", "bits per channel")

SAMPLING_NAMES: dict[str, tuple[str, ...]] = {
    "444": ("4:4:4", "444", "ycbcr444", "ycbcr 444", "yuv444"),
    "422": ("4:2:2", "422", "ycbcr422", "ycbcr 422", "yuv422"),
    "420": ("4:2:0", "420", "ycbcr420", "ycbcr 420", "yuv420"),
}
FORMAT_NAMES = ("pixel format", "chroma", "chroma subsampling", "subsampling", "color format")
