"""A recipe's steps as jobs: in pot, slow cooker and pans, and by hand."""

from __future__ import annotations

from batchcook.cookbooks.recipe import Step
from batchcook.dishwork.baking import draw_bake
from batchcook.dishwork.browning import draw_loads
from batchcook.dishwork.draft import Draft
from batchcook.dishwork.lots import hand_lots
from batchcook.dishwork.pans import lacks_pans, pans_words
from batchcook.dishwork.rawhands import raw_family, skills_for
from batchcook.dishwork.receiving import chain_in_vessel, receive
from batchcook.dishwork.streams import StepHeat
from batchcook.dishwork.warming import COOKING_SETTING
from batchcook.dishwork.work import Link
from batchcook.foodsafety.limits import SLOW_COOKER_FILL
from batchcook.kitchens.cookeradvice import cookers_that_would_do
from batchcook.kitchens.heating import heat_up_minutes
from batchcook.kitchens.techniques import Technique, load_techniques
from batchcook.kitchens.vessels import (
    cooker_options,
    fullest_cookers,
    pot_options,
    skillet_goes,
    skillet_load,
)
from batchcook.quantities import say, ureg

__all__ = [
    "BACK_TO_THE_BOIL",
    "TAP_START",
    "boiling_words",
    "draw_step",
]

BACK_TO_THE_BOIL = 3
"""Minutes until a boiling pot boils again after food is added: common practice, no source."""

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
        draw_loads(draft, step, technique)
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
        skills_for(draft, step, technique),
        "pot",
        words=step.words,
        amounts=draft.goes_in(step),
        family=raw_family(draft, step),
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
    hot = receive(draft, step, vessel, add.id)
    draft.entry[step.name] = (add.id,)
    draft.ready[step.name] = (cook.id,)
    draft.link_inputs(step, (add.id,))
    chain_in_vessel(draft, step, add.id)
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
            (
                f"no slow cookers in which {say(volume, draft.dish.system)} stands between half "
                f"and two thirds full (together they take {say(most, draft.dish.system)})"
                if draft.kitchen.slow_cookers
                else "no slow cooker"
            ),
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
        skills_for(draft, step, technique),
        "slow cooker",
        words=" ".join(
            (
                step.words,
                *((f"The same into each of {number}.",) if number > 1 else ()),
                COOKING_SETTING,
            )
        ).strip(),
        amounts=draft.goes_in(step),
        family=raw_family(draft, step),
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
    hot = receive(draft, step, vessel, fill.id)
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
        skills_for(draft, step, technique),
        {"pot": "pot", "skillet": "skillet", "slow-cooker": "slow cooker"}.get(kind, "counter"),
        words=step.words if goes == 1 else f"In {goes} goes, or it stews. {step.words}",
        amounts=draft.goes_in(step),
        uses=uses,
        family=raw_family(draft, step),
    )
    draft.entry[step.name] = draft.ready[step.name] = (job.id,)
    draft.link_inputs(step, (job.id,))
    chain_in_vessel(draft, step, job.id)
    if heated and not (step.technique == "season" and kind != "pot"):
        draft.heat[step.name] = StepHeat(
            (((job.id, "start"), (job.id, "end")),),
            vessel=step.vessel if kind == "pot" else None,
        )


def _in_pans(draft: Draft, step: Step, technique: Technique) -> None:
    """Work by hand on sheet pans or in baking dishes, lot by lot."""
    vessel = draft.recipe.vessels[str(step.vessel)]
    grams = 0.0 if _lie_there(draft, step) else draft.weight_through(step)
    where = "on" if vessel.kind == "sheet-pan" else "in"

    def minutes(share: float) -> int:
        return technique.minutes(weight=ureg.Quantity(grams * share, "gram"))

    lots = hand_lots(draft, step, minutes)
    jobs = []
    for number, lot in enumerate(lots, 1):
        several = len(lots) > 1
        pans = pans_words(draft, step, lots) if number == 1 else ""
        jobs.append(
            draft.job(
                step,
                str(number) if several else "",
                step.name.capitalize()
                + (f" {where} the {vessel.name}" if " " not in step.name else "")
                + (f", load {number} of {len(lots)}" if several else ""),
                minutes(lot.share),
                skills_for(draft, step, technique),
                "counter",
                words=f"{pans} {step.words}".strip(),
                amounts=draft.goes_in(step) if number == 1 else (),
                family=raw_family(draft, step),
            ).id
        )
    draft.entry[step.name] = draft.ready[step.name] = tuple(jobs)
    draft.lots[step.name] = lots
    draft.in_turn(jobs)
    draft.link_inputs(step, jobs)
    for place, job in enumerate(jobs):
        chain_in_vessel(draft, step, job, place)


def _lie_there(draft: Draft, step: Step) -> bool:
    """Whether what a step lays on trays was shaped on them: it is only looked over."""
    before = [draft.recipe.step(name) for name in step.after]
    return (
        step.technique == "tray-freeze"
        and not step.takes
        and all(each.vessel == step.vessel for each in before)
    )
