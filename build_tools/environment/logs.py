"""Keeps what a program printed in a log file. Knows files; knows no program."""

from dataclasses import dataclass
from pathlib import Path

from build_tools.environment import places


@dataclass(frozen=True)
class Log:
    """The last output of one kind of work, in the project's cache."""

    project: Path
    name: str

    def __str__(self) -> str:
        return str(self.file)

    @property
    def file(self) -> Path:
        """The file, whether it is there yet or not."""
        return places.cache(self.project) / "logs" / f"{self.name}.txt"

    def keep(self, printed: str) -> None:
        """Writes what was printed."""
        self.file.parent.mkdir(parents=True, exist_ok=True)
        self.file.write_text(printed, "utf-8")
