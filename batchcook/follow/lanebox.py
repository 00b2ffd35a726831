"""The box of one lane on the live screen: what is going on, what comes next, what is chosen."""

from __future__ import annotations

from textual.containers import VerticalScroll
from textual.widgets import Static

from batchcook.follow.following import Following, Lane, Timed
from batchcook.follow.words import NEXT, lane_parts

__all__ = ["LaneBox"]


class LaneBox(VerticalScroll, can_focus=True):
    """One lane, with its chosen entry."""

    def __init__(self, place: int) -> None:
        """Make the box of a lane, by its place."""
        super().__init__(id=f"lane-{place}")
        self.chosen = 0
        self.lane: Lane | None = None
        self._seen: object = None
        self._following: Following | None = None

    def watch_has_focus(self, has_focus: bool) -> None:
        """Show at once whether keys mean this lane, and which of its tasks."""
        super().watch_has_focus(has_focus)
        if self._following is not None and self.lane is not None:
            self.show(self._following, self.lane)

    def show(self, following: Following, lane: Lane) -> None:
        """Show what the lane holds now, with what is chosen in sight."""
        self._following, self.lane = following, lane
        self.chosen = max(0, min(self.chosen, len(self.entries) - 1))
        self.border_title = lane.name
        texts = lane_parts(following, lane, self.chosen if self.has_focus else -1)
        parts = list(self.query(Static))
        missing = [Static(markup=False) for _ in texts[len(parts) :]]
        if missing:
            self.mount_all(missing)
        parts += missing
        for place, part in enumerate(parts):
            part.display = place < len(texts)
            if part.display:
                part.update(texts[place])
        seen = self.has_focus, self.chosen, None if self.entry is None else self.entry.task.id
        if self._seen != seen:  # otherwise left where the cook has scrolled to
            self._seen = seen
            self.call_after_refresh(self.scroll_to_widget, parts[self.chosen], animate=False)

    @property
    def entries(self) -> list[Timed]:
        """What can be chosen."""
        return [] if self.lane is None else [*self.lane.now, *self.lane.next[:NEXT]]

    @property
    def entry(self) -> Timed | None:
        """What is chosen."""
        return self.entries[self.chosen] if self.entries else None
