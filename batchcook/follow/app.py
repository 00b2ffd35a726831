"""The live screen: a lane for each cook, timers, food clocks; keys to mark what happens."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path
from typing import ClassVar

from rich.text import Text
from textual import work
from textual.app import App, ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.widgets import Footer, Input, Static

from batchcook.complaints import InputFault
from batchcook.follow.following import Following, Timed
from batchcook.follow.lanebox import LaneBox
from batchcook.follow.words import food_lines, head_line, sure_lines
from batchcook.follow.worries import worries
from batchcook.plan import Plan, read_plan
from batchcook.plans.dayfolder import PLAN_FILE
from batchcook.plans.network import network_of_plan
from batchcook.plans.progress import FILE, Mark, append_marks, read_marks
from batchcook.quantities import Quantity
from batchcook.wording import day

__all__ = ["FollowApp"]

_TICK = 1.0
_MORE = 5
"""Minutes that one press of the key for late adds."""

_QUARTER = 15
"""Minutes after which it is told anew how sure the finish is, though nothing was marked."""

Replan = Callable[[Plan, Path, str, dt.datetime], str]


class FollowApp(App[None]):
    """Follow a plan live; everything marked is kept in its folder at once."""

    CSS = """
    #head { height: 1; }
    #sure { height: auto; max-height: 4; padding: 0 1; }
    #lanes { height: 1fr; }
    LaneBox { border: round $primary; width: 1fr; padding: 0 1; }
    LaneBox:focus { border: heavy $accent; }
    #below { height: auto; max-height: 12; border: round $primary; padding: 0 1; }
    #ask { display: none; }
    #ask.open { display: block; }
    """
    TITLE = "Batchcook"
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("d,enter", "done", "Done"),
        Binding("s", "start", "Start now"),
        Binding("l", "late", f"+{_MORE} min"),
        Binding("n", "note", "Note"),
        Binding("u", "undo", "Undo"),
        Binding("r", "replan", "Replan"),
        Binding("left", "lane(-1)", "Lane", show=False, priority=False),
        Binding("right", "lane(1)", "Lane", show=False),
        Binding("up", "choose(-1)", "Choose", show=False, priority=True),
        Binding("down", "choose(1)", "Choose", show=False, priority=True),
        Binding("escape", "close", "Close", show=False),
        Binding("q", "quit", "Quit"),
    ]

    def __init__(
        self,
        folder: Path,
        room: Quantity,
        clock: Callable[[], dt.datetime],
        replan: Replan,
    ) -> None:
        """Follow the plan in a folder.

        Args:
            folder: The plan folder, where progress is kept.
            room: How warm the kitchen is.
            clock: What time it is on the plan's day.
            replan: Plans the rest anew from a line of words; returns what to say.
        """
        super().__init__()
        self._folder = folder
        self._room = room
        self._clock = clock
        self._replan = replan
        self._asking = ""
        self._rung: set[str] = set()
        self._said = ""
        self._load()

    def _load(self) -> None:
        self._on_disk = self._files()
        self._plan = read_plan(self._folder)
        self._network = network_of_plan(self._plan)
        self._marks = read_marks(self._folder, self._plan.date)
        self._at_hand: tuple[object, Following] | None = None
        self._sure_of: object = None

    def _files(self) -> tuple[object, ...]:
        """What tells the plan and its marks from those that another puts in their place."""
        found: list[object] = []
        for name in (PLAN_FILE, FILE):
            try:
                file = (self._folder / name).stat()
            except OSError:
                found.append(None)
            else:
                found.append((file.st_ino, file.st_size, file.st_mtime_ns))
        return tuple(found)

    def _changed_elsewhere(self) -> bool:
        """See whether another took the plan's place, or marked something; go on with what is there.

        Marks belong to one plan, so none of this one may follow once there is another.
        """
        if self._files() == self._on_disk:
            return False
        before = self._plan
        try:
            self._load()
        except InputFault as fault:
            self.exit(return_code=1, message=str(fault))
            return True
        if self._plan == before:
            return False
        if self._plan.date != before.date:
            self.exit(message=f"The plan is now for {day(self._plan.date)}: follow it anew.")
        self._fit_lanes()
        self._said = "The day was planned anew; this is the new plan."
        return True

    def _fit_lanes(self) -> None:
        """A lane for each cook of the plan, and one for what goes by itself."""
        boxes = list(self.query(LaneBox))
        wanted = len(self._plan.cooks) + 1
        for box in boxes[wanted:]:
            box.remove()
        missing = [LaneBox(place) for place in range(len(boxes), wanted)]
        if missing:
            self.query_one("#lanes", Horizontal).mount_all(missing)

    def compose(self) -> ComposeResult:
        """A head line, the lanes, food and worries below, a line to type in."""
        yield Static(id="head")
        yield Static(id="sure", markup=False)
        with Horizontal(id="lanes"):
            for place in range(len(self._plan.cooks) + 1):
                yield LaneBox(place)
        with Vertical(id="below"):
            yield Static(id="food", markup=False)
            yield Static(id="worries", markup=False)
            yield Static(id="said", markup=False)
        yield Input(id="ask")
        yield Footer()

    def on_mount(self) -> None:
        """Begin to tick."""
        self.query_one("#lane-0").focus()
        self.set_interval(_TICK, self.tick)
        self.tick()

    def following(self) -> Following:
        """The day at this minute; made anew once a minute, or when something was marked."""
        now = self._clock()
        key = now.replace(second=0, microsecond=0), self._marks
        if self._at_hand is None or self._at_hand[0] != key:
            self._at_hand = key, Following(self._plan, self._marks, now, self._network)
        return self._at_hand[1]

    def tick(self) -> None:
        """Mark what the clock marks, ring what is up, and show it all."""
        if not self.query("#head"):
            return  # the clock goes on while the screen is taken down
        self._changed_elsewhere()
        for _ in self._plan.tasks:
            due = self.following().by_the_clock()
            if not due:
                break
            self._keep(*due)
        self._show()

    def _keep(self, *marks: Mark, said: str = "") -> None:
        """Write marks down before anything else happens; what is said of them only once they are.

        Nothing is kept where the plan that they are of is no longer the one in the folder.
        """
        if self._changed_elsewhere():
            self.bell()
            return
        try:
            append_marks(self._folder, marks)
        except InputFault as fault:
            self._said = f"Not kept: {fault}"
            self.bell()
            return
        self._on_disk = self._files()
        self._marks = (*self._marks, *marks)
        self._said = said or self._said

    def _show(self) -> None:
        following = self.following()
        self.query_one("#head", Static).update(head_line(following))
        boxes = list(self.query(LaneBox))
        for box, lane in zip(boxes, following.lanes(), strict=False):
            box.show(following, lane)
        now = self._marks, following.now.hour, following.now.minute // _QUARTER
        if self._sure_of != now:
            self._sure_of = now
            self.query_one("#sure", Static).update(sure_lines(following.sure()))
        self._tell("#food", food_lines(following, self._room))
        self._tell("#worries", worries(following, self._room))
        self._tell("#said", Text(self._said))
        self._ring(following)

    def _ring(self, following: Following) -> None:
        """Ring once for each timer that is up."""
        lane = following.lanes()[-1]
        for each in lane.now:
            late = dt.timedelta(minutes=following.state.late.get(each.task.id, 0))
            up = each.start + (each.task.end - each.task.start) + late <= following.now
            key = f"{each.task.id} {late}"
            if up and key not in self._rung:
                self._rung.add(key)
                self._said = f"Time is up: {each.task.title}"
                self._tell("#said", Text(self._said))
                self.bell()

    def _tell(self, name: str, text: Text) -> None:
        """Show a text below the lanes; where there is none, it takes no room from them."""
        text.rstrip()
        told = self.query_one(name, Static)
        told.display = bool(text.plain)
        told.update(text)

    # ---- keys ----------------------------------------------------------------------------------

    def _box(self) -> LaneBox | None:
        return self.focused if isinstance(self.focused, LaneBox) else None

    def _chosen(self) -> Timed | None:
        box = self._box()
        return None if box is None else box.entry

    def action_done(self) -> None:
        """The chosen task is done."""
        chosen = self._chosen()
        if chosen is not None:
            said = f"Done: {chosen.task.title}"
            self._keep(*self.following().done(chosen.task.id), said=said)
            self.tick()

    def action_start(self) -> None:
        """The chosen task, or the next one, begins now."""
        box = self._box()
        if box is None or box.lane is None:
            return
        chosen = box.entry
        if chosen is None or chosen.begun:
            chosen = next(iter(box.lane.next), None)
        if chosen is not None:
            said = f"Started: {chosen.task.title}"
            self._keep(*self.following().start(chosen.task.id), said=said)
            self.tick()

    def action_late(self) -> None:
        """The chosen task takes some minutes more."""
        chosen = self._chosen()
        if chosen is not None:
            said = f"{_MORE} min more: {chosen.task.title}"
            self._keep(Mark("late", self._clock(), chosen.task.id, minutes=_MORE), said=said)
            self.tick()

    def action_undo(self) -> None:
        """The last mark was wrong."""
        if any(not mark.by_itself for mark in self._marks):
            self._keep(Mark("undo", self._clock()), said="Taken back.")
            self._show()

    def action_lane(self, step: int) -> None:
        """Go to the next lane."""
        boxes = list(self.query(LaneBox))
        box = self._box()
        place = boxes.index(box) if box is not None else 0
        boxes[(place + step) % len(boxes)].focus()

    def action_choose(self, step: int) -> None:
        """Choose another entry of the lane."""
        box = self._box()
        if box is not None:
            box.chosen += step
            self._show()

    def action_note(self) -> None:
        """Write a note on the chosen task."""
        self._ask("note", "Note, as: needed 10 more minutes")

    def action_replan(self) -> None:
        """Plan the rest anew."""
        self._ask("replan", "What changed? burner=1, cook=NAME, drop DISH; or just Enter")

    def action_close(self) -> None:
        """Close the line without doing anything."""
        self._asking = ""
        field = self.query_one("#ask", Input)
        field.remove_class("open")
        self.query_one("#lane-0").focus()

    def _ask(self, what: str, words: str) -> None:
        chosen = self._chosen()
        self._asking = f"{what} {chosen.task.id if chosen else ''}"
        field = self.query_one("#ask", Input)
        field.value, field.placeholder = "", words
        field.add_class("open")
        field.focus()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """A line was typed."""
        what, _, task = self._asking.partition(" ")
        words = event.value.strip()
        self.action_close()
        if what == "note" and words:
            self._keep(Mark("note", self._clock(), task, words=words), said=f"Noted: {words}")
            self._show()
        elif what == "replan":
            self._said = "Planning the rest anew; go on meanwhile."
            self._show()
            self._plan_anew(words)

    @work(thread=True, exclusive=True)
    def _plan_anew(self, words: str) -> None:
        said = self._replan(self._plan, self._folder, words, self._clock())
        self.call_from_thread(self._planned_anew, said)

    def _planned_anew(self, said: str) -> None:
        self._load()
        self._fit_lanes()
        self._said = said
        self.tick()
