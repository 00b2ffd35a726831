"""A recipe's steps as jobs: in skillet, pot, oven and slow cooker, and by hand."""

from __future__ import annotations

from itertools import pairwise

from batchcook.cookbooks.recipe import Step
from batchcook.dishwork.baking import draw_bake
from batchcook.dishwork.draft import Draft
from batchcook.dishwork.keephot import with_words
from batchcook.dishwork.pans import lacks_pans, pan_use, pans_words
from batchcook.dishwork.streams import StepHeat, from_the_cold
from batchcook.dishwork.warming import COOKING_SETTING, WARM_UP, draw_warming, straight_in
from batchcook.dishwork.work import STRAIGHT_ON, Link
from batchcook.foodsafety.limits import SLOW_COOKER_FILL, STRAIGHT_ON_MINUTES
from batchcook.kitchens.cookeradvice import cookers_that_would_do
from batchcook.kitchens.heating import heat_up_minutes
from batchcook.kitchens.techniques import Technique, load_techniques
from batchcook.kitchens.vessels import (
    cooker_options,
    fullest_cookers,
    pot_options,
    share_out,
    skillet_goes,
    skillet_load,
)
from batchcook.quantities import say, ureg
from batchcook.scheduling.problem import Family

__all__ = [
    "BACK_TO_THE_BOIL",
    "HOLD_CROCK",
    "HOLD_POT",
    "TAP_START",
    "boiling_words",
    "draw_step",
]

HOLD_POT = 40
"""Minutes a finished pot may wait on low heat before it turns: common practice, no source."""

_HOLD_BOILED = 2
"""Minutes that boiled potatoes or pasta may overrun: common practice, no source."""

BACK_TO_THE_BOIL = 3
"""Minutes until a boiling pot boils again after food is added: common practice, no source."""

HOLD_CROCK = 60
"""Minutes a finished slow cooker may stand on warm: common practice, no source."""

_WARM_POT = 20
"""Minutes softened vegetables may wait in their pot for what joins them: common practice."""

_FILLING = 45
"""Minutes from the first browned load in a hot vessel to the rest of what goes in: the same.

Vegetables softened in that vessel wait as long: they stand on low heat under the loads, and one
cook, or one skillet, has them all to brown in between.
"""

_PANS = frozenset({"sheet-pan", "baking-dish"})

_MIXED_START = ureg.Quantity(85, "degF")
"""A pot of cold broth and warm vegetables when the heat is turned up: an assumption of ours."""

TAP_START = ureg.Quantity(65, "degF")
"""Water from the tap: an assumption of ours."""


def draw_step(draft: Draft, step: Step) -> None:
    """One step of the recipe, by where it is done."""
    technique = load_techniques()[step.technique]
    kind = draft.recipe.vessels[step.vessel].kind if step.vessel else ""
    if kind in _PANS and lacks_pans(draft, step):
        return
    if technique.per_load:
        _in_skillet(draft, step, technique)
    elif step.technique == "slow-cook":
        _in_slow_cooker(draft, step, technique)
    elif technique.oven:
        draw_bake(draft, step, technique)
    elif technique.timed:
        _in_pot(draft, step, technique)
    elif kind in _PANS:
        _in_pans(draft, step, technique)
    else:
        _by_hand(draft, step, technique, kind)


_ONE_LOAD = "Fetch each load from the refrigerator when its pan is hot."


def _in_skillet(draft: Draft, step: Step, technique: Technique) -> None:
    """Loads by skillet area; each goes on from its own end."""
    held = skillet_load(draft.kitchen)
    if held is None:
        draft.lacks(step, "no skillet", "at least one under [[skillets]]")
        return
    skillet, most = held
    food = draft.main_food(step)
    meat = [each for each in draft.taken(step) if food and each.food == food.key]
    grams = sum(draft.grams(each) for each in meat)
    if food is None or not grams:
        grams, name, cut = draft.weight_through(step), "food", None
    else:
        name, cut = food.plural, meat[0].cut
    family = f"{step.technique} {name}" + (f" ({cut})" if cut else "")
    draft.families[family] = Family(family, technique.set_up, technique.clean_down)
    shares = share_out(grams, float(most.to("gram").magnitude))
    fetched = len(shares) > 1 and food is not None and from_the_cold(food.kind)
    loads = []
    for number, share in enumerate(shares, 1):
        weight = grams * share / sum(shares)
        amount = say(ureg.Quantity(weight, "gram"), draft.dish.system, weigh=True)
        loads.append(
            draft.job(
                step,
                str(number) if len(shares) > 1 else "",
                f"{technique.title} {name}"
                + (f", load {number} of {len(shares)}" if len(shares) > 1 else ""),
                max(3, round(technique.per_load * (0.5 + 0.5 * share))),
                technique.skills,
                "skillet",
                dishes={draft.dish.id: amount},
                uses={"burner": 1, skillet: 1},
                words=f"{step.words} {_ONE_LOAD}".strip() if fetched else step.words,
                amounts=draft.goes_in(step) if number == 1 else (),
                bowl=_taken_to(draft, step),
                family=family,
                food=food.key if food else "",
                grams=weight,
            )
        )
    for earlier, later in pairwise(loads):
        draft.links.append(Link(earlier.id, later.id, origin="start", to="start"))
    ids = tuple(load.id for load in loads)
    draft.entry[step.name] = draft.ready[step.name] = ids
    if step.technique == "brown":
        draft.straight[step.name] = ids
    draft.heat[step.name] = StepHeat(
        tuple(((each, "start"), (each, "end")) for each in ids),
        straight_on=step.name in draft.straight,
    )
    draft.link_inputs(step, ids)


def _taken_to(draft: Draft, step: Step) -> str:
    """What comes half raw out of the skillet goes into its pot; what is done, into a bowl."""
    if step.technique != "brown":
        return draft.cooked_bowl
    vessels = [each.vessel for each in draft.order if step.name in each.after and each.vessel]
    return vessels[0] if vessels else ""


def _in_pot(draft: Draft, step: Step, technique: Technique) -> None:
    """Hands fill the pot and bring it up; then it cooks by itself."""
    vessel = str(step.vessel)
    volume = draft.vessel_volume(vessel)
    pots = pot_options(draft.kitchen, volume)
    if not pots:
        draft.lacks(
            step,
            f"no pots for {say(volume, draft.dish.system)} (filled to four fifths at most)",
            "larger pots" if draft.dish.batches == 1 else "larger pots, or a batch less",
        )
        return
    if not draft.kitchen.burners.count:
        draft.lacks(step, "no burner", "at least one under [burners]")
        return
    number = sum(pots[0].values())
    warm = any(draft.recipe.step(each).vessel == vessel for each in step.after)
    start = _MIXED_START if warm or step.technique == "simmer" else TAP_START
    chained = any(
        draft.recipe.step(each).technique in {"simmer", "boil"}
        and draft.recipe.step(each).vessel == vessel
        for each in step.after
    )
    add = draft.job(
        step,
        "add",
        f"{step.name.capitalize()}: {'add to' if chained else 'fill'} the {vessel}"
        + (f" ({number} pots)" if number > 1 else ""),
        technique.minutes(volume=volume) + number - 1,
        _skills(draft, step, technique),
        "pot",
        words=step.words,
        amounts=draft.goes_in(step),
        family=_raw_family(draft, step),
    )
    heat_up = (
        BACK_TO_THE_BOIL
        if chained
        else heat_up_minutes(volume / number, start, draft.kitchen.burners)
    )
    cook = draft.job(
        step,
        "",
        f"{technique.title} the {vessel.removesuffix(' pot')}",
        heat_up + int(step.minutes or 0),
        None,
        "pot",
        words=boiling_words(heat_up, int(step.minutes or 0), dry=_dry_boil(draft, step)),
    )
    draft.links.append(Link(add.id, cook.id, high=0))
    hot = _receive(draft, step, vessel, add.id)
    draft.entry[step.name] = (add.id,)
    draft.ready[step.name] = (cook.id,)
    draft.link_inputs(step, (add.id,))
    _chain_in_vessel(draft, step, add.id)
    draft.heat[step.name] = StepHeat(
        (((add.id, "start"), (cook.id, "end")),), vessel=vessel, receives=hot
    )


def boiling_words(heat_up: int, minutes: int, *, dry: bool) -> str:
    """How long a potful takes; dry food goes into water that boils.

    Args:
        heat_up: Minutes until it boils or simmers.
        minutes: Minutes from then on.
        dry: Whether it is pasta or grain in plain water.
    """
    if dry:
        return f"{heat_up} min for the water alone to boil, then {minutes} min with it in"
    return f"{heat_up} min to come up to heat, then {minutes} min"


def _dry_boil(draft: Draft, step: Step) -> bool:
    """Whether a step boils pasta or grain in water that holds nothing yet."""
    food = draft.main_food(step)
    dry = food is not None and food.kind == "dry-goods"
    return dry and step.technique == "boil" and not step.after


def _in_slow_cooker(draft: Draft, step: Step, technique: Technique) -> None:
    """Fill, then leave; each cooker between half and two thirds full."""
    vessel = str(step.vessel)
    volume = draft.vessel_volume(vessel)
    options = cooker_options(draft.kitchen, volume, *SLOW_COOKER_FILL)
    if not options:
        most = fullest_cookers(draft.kitchen, SLOW_COOKER_FILL[1])
        draft.lacks(
            step,
            f"no slow cookers in which {say(volume, draft.dish.system)} stands between half "
            f"and two thirds full (together they take {say(most, draft.dish.system)})",
            cookers_that_would_do(
                draft.kitchen, volume, draft.dish.batches, SLOW_COOKER_FILL, draft.dish.system
            ),
        )
        return
    number, heat = sum(options[0].values()), step.heat or "low"
    fill = draft.job(
        step,
        "fill",
        f"Fill the {vessel}, lid on, set it to {heat}"
        if number == 1
        else f"Fill {number} slow cookers alike, lids on, set them to {heat}",
        technique.minutes() * number,
        _skills(draft, step, technique),
        "slow cooker",
        words=" ".join(
            (
                step.words,
                *((f"The same into each of {number}.",) if number > 1 else ()),
                COOKING_SETTING,
            )
        ).strip(),
        amounts=draft.goes_in(step),
        family=_raw_family(draft, step),
    )
    cook = draft.job(
        step,
        "",
        f"Slow cook on {heat}",
        int(step.minutes or 0),
        None,
        "slow cooker",
    )
    draft.links.append(Link(fill.id, cook.id, high=0))
    hot = _receive(draft, step, vessel, fill.id)
    draft.entry[step.name] = (fill.id,)
    draft.ready[step.name] = (cook.id,)
    draft.link_inputs(step, (fill.id,))
    draft.heat[step.name] = StepHeat(
        (((fill.id, "end"), (cook.id, "end")),), vessel=vessel, receives=hot, held_hot=True
    )


def _by_hand(draft: Draft, step: Step, technique: Technique, kind: str) -> None:
    """Work that keeps hands busy throughout, in a vessel or at the counter."""
    heated = kind in {"pot", "skillet"} and step.technique in {"sweat", "season", "blend"}
    volume = draft.vessel_volume(str(step.vessel)) if kind == "pot" else None
    weight = ureg.Quantity(draft.weight_through(step), "gram")
    own = ureg.Quantity(sum(draft.grams(each) for each in draft.taken(step)), "gram")
    uses: dict[str, int] = {"sink": 1} if technique.sink else {}
    if kind == "skillet":
        held = skillet_load(draft.kitchen)
        if held is None:
            draft.lacks(step, "no skillet", "at least one under [[skillets]]")
            return
        uses = {"burner": 1, held[0]: 1}
    softens = step.technique == "sweat"
    goes = skillet_goes(draft.kitchen, draft.raw_volume(step)) if softens and uses else 1
    job = draft.job(
        step,
        "",
        step.name.capitalize()
        + (f" in the {step.vessel}" if step.vessel and " " not in step.name else ""),
        technique.minutes(
            weight=own if softens else weight,
            volume=volume,
            of={each.food: draft.grams(each) for each in draft.taken(step)},
            goes=goes,
        ),
        _skills(draft, step, technique),
        {"pot": "pot", "skillet": "skillet", "slow-cooker": "slow cooker"}.get(kind, "counter"),
        words=step.words if goes == 1 else f"In {goes} goes, or it stews. {step.words}",
        amounts=draft.goes_in(step),
        uses=uses,
        family=_raw_family(draft, step),
    )
    draft.entry[step.name] = draft.ready[step.name] = (job.id,)
    draft.link_inputs(step, (job.id,))
    _chain_in_vessel(draft, step, job.id)
    if heated and not (step.technique == "season" and kind != "pot"):
        draft.heat[step.name] = StepHeat(
            (((job.id, "start"), (job.id, "end")),),
            vessel=step.vessel if kind == "pot" else None,
        )


def _in_pans(draft: Draft, step: Step, technique: Technique) -> None:
    """Work by hand on sheet pans or in baking dishes, as often as they are filled."""
    vessel = draft.recipe.vessels[str(step.vessel)]
    goes = pan_use(draft, vessel.name).goes
    grams = 0.0 if _lie_there(draft, step) else draft.weight_through(step)
    where = "on" if vessel.kind == "sheet-pan" else "in"
    jobs = []
    for number, share in enumerate(goes, 1):
        several = len(goes) > 1
        jobs.append(
            draft.job(
                step,
                str(number) if several else "",
                step.name.capitalize()
                + (f" {where} the {vessel.name}" if " " not in step.name else "")
                + (f", load {number} of {len(goes)}" if several else ""),
                technique.minutes(weight=ureg.Quantity(grams * share, "gram")),
                _skills(draft, step, technique),
                "counter",
                words=f"{pans_words(draft, step)} {step.words}".strip(),
                amounts=draft.goes_in(step) if number == 1 else (),
                family=_raw_family(draft, step),
            ).id
        )
    draft.entry[step.name] = draft.ready[step.name] = tuple(jobs)
    draft.goes[step.name] = tuple(range(len(goes)))
    draft.link_inputs(step, jobs)
    for place, job in enumerate(jobs):
        _chain_in_vessel(draft, step, job, place)


def _lie_there(draft: Draft, step: Step) -> bool:
    """Whether what a step lays on trays was shaped on them: it is only looked over."""
    before = [draft.recipe.step(name) for name in step.after]
    return (
        step.technique == "tray-freeze"
        and not step.takes
        and all(each.vessel == step.vessel for each in before)
    )


def _skills(draft: Draft, step: Step, technique: Technique) -> frozenset[str]:
    return technique.skills | ({"raw meat"} if draft.raw(step) else frozenset())


_BY_HAND = frozenset({"boil", "fill", "marinate", "mix", "shape", "simmer", "slow-cook"})
"""Techniques in which hands touch what is raw, or the bowl it was in. (A skillet's loads have a
clean-down of their own.)"""


def _raw_family(draft: Draft, step: Step) -> str | None:
    """Raw work of one dish, after whose last part hands and tools are washed."""
    if not draft.raw(step) or step.technique not in _BY_HAND:
        return None
    family = draft.id("raw")
    draft.families[family] = Family(family, 0, 4)
    return family


def _receive(draft: Draft, step: Step, vessel: str, entry: str) -> str | None:
    """Browned loads go straight into a vessel that is already hot; from whose start it is."""
    loads = [load for each in step.after for load in draft.straight.get(each, ())]
    if not loads:
        return None
    earlier = [
        job
        for each in draft.order
        if each.vessel == vessel and each.name in draft.heat and each.name in step.after
        for job in draft.entry[each.name]
    ]
    waiting = f"the {vessel} is hot and waits to be filled"
    if earlier:
        hot = earlier[0]
    else:
        warm = draw_warming(draft, step)
        with_words(draft, (entry,), "What it was warmed with is in already.")
        draft.links.append(Link(warm.id, entry, high=_FILLING, reason=waiting))
        hot = warm.id
    with_words(draft, loads, straight_in(step))
    for load in loads:
        # What is seared goes on top of what is already hot there, never into an empty cold pot.
        ahead = 0 if earlier or step.technique != "slow-cook" else WARM_UP
        draft.links.append(Link(hot, load, low=ahead, to="end"))
        draft.links.append(
            Link(
                load,
                hot,
                low=None,
                high=STRAIGHT_ON_MINUTES,
                reason=f"{STRAIGHT_ON}: it goes straight on",
            )
        )
        draft.links.append(Link(load, entry, high=_FILLING, reason=waiting))
    return hot


def _chain_in_vessel(draft: Draft, step: Step, entry: str, place: int = 0) -> None:
    """What waits hot in a vessel does not wait for ever."""
    for before in map(draft.recipe.step, step.after):
        if before.vessel != step.vessel or before.name not in draft.heat:
            continue
        for job in draft.inputs(before, step, place):
            loaded = any(draft.straight.get(each) for each in step.after)
            softened = _FILLING if loaded else _WARM_POT
            hold = {"boil": _HOLD_BOILED, "sweat": softened}.get(before.technique, HOLD_POT)
            draft.links.append(
                Link(job, entry, high=hold, reason=f"{before.name}: ready, it keeps so long")
            )
