"""The list of faults and warnings that grows while one file is read."""

from __future__ import annotations

from packet.reading.problem import BadProject, Place, Problem

MOST_FAULTS = 40


class Faults:
    """Collects problems of one file. ``lines`` are its source lines, for showing."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.lines: tuple[str, ...] = ()
        self.problems: list[Problem] = []
        self.warnings: list[Problem] = []
        self.left_out = 0
        self.seen: set[Problem] = set()

    def add(self, place: Place | None, path: str, found: str, *, lines: tuple[str, ...] = (), **more: str) -> None:
        """Note a fault. more: expected, example, nearest, mend; lines: of the file, as they should be."""
        self.keep(self.problems, place, path, found, more, lines)

    def warn(self, place: Place | None, path: str, found: str, **more: str) -> None:
        """Note a doubt: it is shown, and stands in the packet, but does not stop the build."""
        self.keep(self.warnings, place, path, found, more)

    def keep(
        self,
        where: list[Problem],
        place: Place | None,
        path: str,
        found: str,
        more: dict[str, str],
        lines: tuple[str, ...] = (),
    ) -> None:
        at = place or Place(0, 0)
        problem = Problem(
            file=self.file, line=at.line, column=at.column, path=path, found=found, width=at.width, lines=lines, **more
        )
        if problem in self.seen:
            return
        self.seen.add(problem)
        if len(where) < MOST_FAULTS:
            where.append(problem)
        else:
            self.left_out += 1

    def stop_if_any(self) -> None:
        """Raise BadProject when there are faults."""
        if self.problems:
            if self.left_out:
                last = Problem(
                    file=self.file,
                    line=len(self.lines) or 1,
                    column=1,
                    path="",
                    found=f"{self.left_out} more problems are not shown",
                    mend="mend the ones above first",
                )
                self.problems.append(last)
            raise BadProject(self.problems, self.lines)
