"""How every dish ends: checked, portioned, put away; its vessels washed and free again."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from batchcook.cookbooks.packing import container_count
from batchcook.cookbooks.recipe import Step
from batchcook.dishwork.chilling import (
    Chilling,
    chilling_of,
    consistency_of,
    ice_pan_words,
    shallow_pan_words,
)
from batchcook.dishwork.coldwaits import say_cold_waits
from batchcook.dishwork.cooktowords import say_cook_to
from batchcook.dishwork.draft import Draft
from batchcook.dishwork.icework import draw_bath, draw_fresh_ice
from batchcook.dishwork.keephot import say_keep_hot
from batchcook.dishwork.pans import (
    freezes_apart,
    frozen_on,
    is_kitchen_pan,
    pan_use,
    pans_in_the_cold,
    several_words,
)
from batchcook.dishwork.rawhands import washed_after
from batchcook.dishwork.receiving import HOLD_CROCK, HOLD_POT
from batchcook.dishwork.streams import cold_once_handled
from batchcook.dishwork.work import CLOSING, Job, Keep, Link
from batchcook.foods import load_foods
from batchcook.foodsafety.limits import SLOW_COOKER_FILL, STRAIGHT_ON_MINUTES
from batchcook.kitchens.containers import Container, load_containers
from batchcook.kitchens.techniques import load_routines
from batchcook.kitchens.vessels import cooker_options, pot_options
from batchcook.quantities import Quantity, say

__all__ = ["draw_keeps", "draw_packing"]

_ICE_PAN = 2
"""Hands-on minutes to stand one pan in a larger one of ice water: an assumption of ours."""

_BAGS = frozenset({"flat bag", "tray"})

_KEPT = frozenset({"pot", "slow-cooker"})

_LEAVES_HEAT = frozenset({"drain", "mash"})


def _last_steps(draft: Draft) -> list[Step]:
    followed = {before for step in draft.recipe.steps for before in step.after}
    return [step for step in draft.order if step.name not in followed]


def draw_packing(draft: Draft) -> Chilling | None:
    """Taste and check where the recipe does not, cool, portion, and away into the cold.

    Returns:
        How it is cooled; None for a raw kit.

    Raises:
        InputFault: No way cools the dish in time.
    """
    say_cook_to(draft)
    say_keep_hot(draft)
    say_cold_waits(draft)
    chilling = chilling_of(draft.dish, draft.kitchen, already_out=_already_out(draft))
    portion = draft.add(_portion(draft, chilling))
    last = _last_steps(draft)
    for step in last:
        for job in draft.ready[step.name]:
            draft.links.append(Link(job, portion.id, weight=0))
        _finish_pot(draft, step, portion.id)
    if chilling is not None and chilling.baths.tubs:
        ready = [job for step in last for job in draft.ready[step.name]]
        draw_bath(draft, chilling, ready, portion.id)
    if chilling is not None:
        draw_fresh_ice(draft, chilling, portion.id)
    _wash(draft, portion)
    return chilling


def _already_out(draft: Draft) -> int:
    """Minutes of cutting and raw work, and from heat to heat.

    Half-raw food goes straight on; what bakes in several loads waits for the last of them. What
    is worked in several lots waits in the refrigerator for the others.
    """
    cut = {job.id for job in draft.prepared.values()}
    raw: list[int] = []
    other = [0]
    for job in draft.jobs:
        if job.id in cut and job.station == "board":
            meat = "raw meat" in (job.hands or ())
            if meat or cold_once_handled(load_foods()[job.food].kind):
                (raw if meat else other).append(job.minutes)
    minutes = {job.id: job.minutes for job in draft.jobs}
    by_hand = [
        max(minutes[job] for job in draft.ready[step.name])
        for step in draft.order
        if step.name not in draft.heat and draft.raw(step)
    ]
    on_the_way = STRAIGHT_ON_MINUTES if draft.straight else 0
    baked = [job.minutes for job in draft.jobs if job.oven is not None]
    on_the_way += sum(baked) - max(baked, default=0)
    return sum(raw) + max(other) + sum(by_hand) + on_the_way


def _portion(draft: Draft, chilling: Chilling | None) -> Job:
    """Into containers and into the cold; what was baked in its pan is only covered."""
    routine = load_routines()["portion"]
    count = container_count(draft.recipe, draft.dish.batches, draft.dish.eaten)
    container = load_containers()[draft.recipe.container]
    called = f"{count} x {container.title}" if count > 1 else f"1 {container.title}"
    title, minutes = f"Portion into {called}", routine.minutes(containers=count)
    family = None
    trays = pans_in_the_cold(draft).number if freezes_apart(draft.recipe) else 0
    if chilling is None:
        words = (
            "Press out the air, seal, and into the freezer, flat and spread out."
            if container.shape in _BAGS
            else f"Close with {_room_on_top(container)}, and into the freezer, spread out."
        )
        if draft.order[-1].technique == "marinate":
            title, minutes = f"Into the freezer: {called}", round(routine.fixed)
        if container.shape == "tray":
            title = f"{_trays_words(trays)} into the freezer"
            minutes = routine.minutes(containers=trays)
            words = "Loosely covered, level, with air around each; when hard, into bags."
        family = washed_after(draft)
    elif consistency_of(draft.recipe) == "pieces":
        title = f"{_trays_words(trays)} into the refrigerator"
        minutes = routine.minutes(containers=trays)
        words = "Loosely covered, air on all sides; into the freezer only when refrigerator-cold."
    elif chilling.on_ice:
        title = f"Stand {called} on ice in the refrigerator"
        minutes += _ICE_PAN * count
        words = (
            f"Each on a layer of ice in a roasting pan or large foil pan ({ice_pan_words()}), "
            "ice and water around it up to the food's height "
            f"({say(chilling.method.ice, draft.dish.system, weigh=True)} of ice in all), loosely "
            "covered; leave it there until it is cold."
        )
    elif container.shape == "pan":
        title = f"{called} into the refrigerator"
        words = "Loosely covered, on racks with room around each."
    elif chilling.spread:
        title = f"Spread to cool, for {called}"
        deep = _deep(chilling.method.depth, draft.dish.system)
        flat = container.shape in _BAGS
        if not flat:
            minutes = routine.minutes(containers=chilling.method.containers)
        number, size = chilling.method.containers, shallow_pan_words()
        several = f"{number} pans" if number > 1 else "1 pan"
        pans = "shallow pans" if flat else f"{several} ({size})"
        why = "Hot food in a bag leaks" if flat else "Deep in its tubs it would cool too slowly"
        words = (
            f"In {pans}, at most {deep} deep, loosely covered, and into the refrigerator on racks, "
            f"room around each. {why}: it goes into its "
            + (
                "bags, the air pressed out, sealed and laid flat, once it is cold."
                if flat
                else f"tubs, with {_room_on_top(container)}, once it is cold."
            )
        )
    elif container.shape in _BAGS:
        words = (
            "Press out the air, seal, and into the refrigerator, laid flat on racks, room around "
            "each."
        )
    else:
        deep = _deep(chilling.method.depth, draft.dish.system)
        words = (
            f"Fill {deep} deep, with {_room_on_top(container)}, and into the refrigerator on "
            "racks, room around each, lids ajar."
        )
    return Job(
        id=draft.id("portion"),
        title=title,
        technique="portion",
        minutes=minutes,
        hands=frozenset({"raw meat"}) if chilling is None else routine.skills,
        station="counter",
        label="Portion",
        dishes={draft.dish.id: called},
        words=words,
        family=family,
    )


def _trays_words(trays: int) -> str:
    return f"{trays} sheet pan{'s' if trays > 1 else ''}"


def _room_on_top(container: Container) -> str:
    """The headspace for food that swells as it freezes."""
    return f"at least {_deep(container.headspace, 'us')} free at the top"


def _deep(depth: Quantity, system: str) -> str:
    """A depth to the quarter inch, or the half centimetre."""
    if system == "metric":
        return f"{round(2 * float(depth.to('centimeter').magnitude)) / 2:g} cm"
    whole, quarters = divmod(round(4 * float(depth.to("inch").magnitude)), 4)
    words = " ".join(
        each for each in (str(whole or ""), ("", "1/4", "1/2", "3/4")[quarters]) if each
    )
    return f"{words} inch" if (whole, quarters) <= (1, 0) else f"{words} inches"


def _finish_pot(draft: Draft, step: Step, portion: str) -> None:
    """A pot whose recipe ends at the simmer is tasted and its center checked, still hot."""
    if step.technique not in {"simmer", "slow-cook"}:
        return
    check = draft.job(
        step,
        "check",
        "Taste, skim, check the center with a thermometer",
        3,
        frozenset({"hot pans"}),
        "pot" if step.technique == "simmer" else "slow cooker",
    )
    hold = HOLD_POT if step.technique == "simmer" else HOLD_CROCK
    why = f"{step.name}: ready, it keeps so long"
    draft.links.append(Link(draft.ready[step.name][0], check.id, high=hold, reason=why))
    draft.links.append(Link(check.id, portion))
    draft.ready[step.name] = (check.id,)
    if step.technique == "simmer":
        heat = draft.heat[step.name]
        draft.heat[step.name] = replace(heat, branches=((heat.branches[0][0], (check.id, "end")),))


def _wash(draft: Draft, portion: Job) -> None:
    """Each vessel is washed once it is empty; bowls and tools at the end."""
    routine = load_routines()["wash"]
    emptied: dict[str, set[str]] = {}
    for step in draft.order:
        if step.vessel is None:
            continue
        vessel = draft.recipe.vessels[step.vessel]
        kept = vessel.kind in _KEPT or is_kitchen_pan(draft.recipe, vessel)
        if step.vessel == frozen_on(draft.recipe) or not (kept or vessel.kind == "bowl"):
            continue
        users = [each for each in draft.order if step.name in each.after]
        taken_by = [each for each in users if each.vessel != step.vessel]
        if users and not taken_by:
            continue
        # What is divided over several steps leaves the vessel with the last of them.
        emptied[step.vessel] = {job for each in taken_by for job in draft.entry[each.name]} or {
            portion.id
        }
    tools = [name for name in emptied if draft.recipe.vessels[name].kind == "bowl"]
    vessels = [name for name in emptied if name not in tools]
    for name in vessels:
        in_pots = draft.recipe.vessels[name].kind in _KEPT
        number = draft.vessel_number(name) if in_pots else pan_use(draft, name).number
        after = emptied[name] | {
            job for each in draft.order if each.vessel == name for job in draft.ready[each.name]
        }
        title = f"Wash {several_words(name, max(1, number))}"
        _wash_job(draft, name, title, routine.minutes() + number - 1, after)
    if tools or not vessels:
        what = " and ".join(tools) if tools else "tools"
        _wash_job(draft, "tools", f"Wash the {what}", routine.minutes(), {portion.id})


def _wash_job(draft: Draft, name: str, title: str, minutes: int, after: Iterable[str]) -> None:
    wash = draft.add(
        Job(
            id=draft.id("wash", name),
            title=title,
            technique="wash",
            minutes=minutes,
            hands=frozenset(),
            station="sink",
            label="Wash up",
            dishes={draft.dish.id: draft.batches_text()},
            uses={"sink": 1},
        )
    )
    draft.links += [Link(job, wash.id) for job in sorted(after)]


def draw_keeps(draft: Draft) -> None:
    """Pots, slow cookers and pans from filling to washing, burners from first heat to last."""
    _keep_pans(draft)
    for name, vessel in draft.recipe.vessels.items():
        if vessel.kind not in _KEPT:
            continue
        steps = [step for step in draft.order if step.vessel == name]
        fillers = _jobs_in(draft, name) + tuple(
            job.id for job in draft.jobs if job.station == "skillet" and job.bowl == name
        )
        if not fillers:
            continue
        volume = draft.vessel_volume(name)
        options = (
            pot_options(draft.kitchen, volume)
            if vessel.kind == "pot"
            else cooker_options(draft.kitchen, volume, *SLOW_COOKER_FILL)
        )
        draft.keeps.append(
            Keep(
                draft.id("keep", name),
                tuple(options),
                fillers,
                draft.id("wash", name),
                f"the {name}",
            )
        )
        if vessel.kind == "pot":
            _keep_burners(draft, name, steps)


def _jobs_in(draft: Draft, name: str) -> tuple[str, ...]:
    """The jobs of the steps in a vessel."""
    mine = {draft.id(step.name) for step in draft.order if step.vessel == name}
    return tuple(
        job.id
        for job in draft.jobs
        if any(job.id == each or job.id.startswith(f"{each}/") for each in mine)
    )


def _keep_pans(draft: Draft) -> None:
    """Sheet pans and baking dishes; those that pieces freeze on are not free before the end."""
    recipe = draft.recipe
    frozen = frozen_on(recipe)
    for name, vessel in recipe.vessels.items():
        if name != frozen and is_kitchen_pan(recipe, vessel):
            options, until = pan_use(draft, name).options, draft.id("wash", name)
            fillers = _jobs_in(draft, name)
            draft.keeps.append(Keep(draft.id("keep", name), options, fillers, until, f"the {name}"))
    if freezes_apart(recipe):
        fillers = (draft.id("portion"),) if frozen is None else _jobs_in(draft, frozen)
        options = pans_in_the_cold(draft).options
        draft.keeps.append(
            Keep(draft.id("keep", "cold-pans"), options, fillers, CLOSING, "sheet pans in the cold")
        )


def _keep_burners(draft: Draft, name: str, steps: list[Step]) -> None:
    """One burner a pot for each stretch on the heat."""
    number = draft.vessel_number(name)
    stretch: list[Step] = []
    for step in [*steps, None]:
        if step is not None and step.technique not in _LEAVES_HEAT:
            stretch.append(step)
            continue
        hot = [each for each in stretch if each.name in draft.heat]
        if hot:
            until = draft.ready[hot[-1].name][-1]
            ids = tuple(
                job.id
                for each in hot
                for job in draft.jobs
                if job.id == draft.id(each.name) or job.id.startswith(draft.id(each.name) + "/")
            )
            draft.keeps.append(
                Keep(
                    draft.id("burner", name, hot[0].name),
                    ({"burner": number},),
                    ids,
                    until,
                    "a burner",
                )
            )
        stretch = []
