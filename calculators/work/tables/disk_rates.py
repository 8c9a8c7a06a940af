"""What kinds of disk give at most, to hold a need against: by their link, and a spinning one by its platters. [MB/s]"""

from __future__ import annotations

from calculators.desk.answer import COMMON_PRACTICE, FROM_MEMORY, Source
from calculators.trade.ratio import Ratio
from calculators.work.formulas.lane_rates import KERNEL, lane_gb_s
from calculators.work.formulas.lane_rates import SOURCE as LANES

SOURCES = (
    Source("Serial ATA, revision 3", "6 Gb/s, ten bits on the line for each byte", FROM_MEMORY),
    LANES,
    KERNEL,
    Source("A spinning disk gives about 250 MB/s where it is quickest", "", COMMON_PRACTICE),
)

SPINNING_MB_S = 250.0  # common practice, no source
SATA_MB_S = Ratio(6000).times(1, 10).value  # 6000 Mb/s, 8b/10b
FOUR_LANES_MB_S = 1000 * 4 * lane_gb_s(3)  # a small board's disk on four lanes of generation 3
