"""Food in the skillet, in loads by its area."""

from __future__ import annotations

from batchcook.cookbooks.recipe import Step
from batchcook.dishwork.draft import Draft
from batchcook.dishwork.streams import StepHeat, from_the_cold
from batchcook.kitchens.techniques import Technique
from batchcook.kitchens.vessels import share_out, skillet_load
from batchcook.quantities import say, ureg
from batchcook.scheduling.problem import Family

__all__ = ["draw_loads"]

_ONE_LOAD = "Fetch each load from the refrigerator when its pan is hot."


def draw_loads(draft: Draft, step: Step, technique: Technique) -> None:
    """Loads by skillet area; each goes on from its own end."""
    held = skillet_load(draft.kitchen)
    if held is None:
        draft.lacks(step, "no skillet", "at least one under [[skillets]]")
        return
    skillet, most = held
    food = draft.main_food(step)
    meat = [each for each in draft.taken(step) if food and each.food == food.key]
    grams = sum(draft.grams(each) for each in meat)
    plain = food is not None and grams > 0
    if not plain:
        # Mixed or shaped before: no other dish's is the same, whatever it is mostly made of.
        grams, food = draft.weight_through(step), draft.food_through(step)
    name, cut = food.plural if food else "food", meat[0].cut if plain else None
    what = name + (f" ({cut})" if cut else "") if plain else draft.dish.id
    family = f"{step.technique} {what}"
    draft.families[family] = Family(family, technique.set_up, technique.clean_down)
    shares = share_out(grams, float(most.to("gram").magnitude))
    fetched = len(shares) > 1 and plain and food is not None and from_the_cold(food.kind)
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
    ids = tuple(load.id for load in loads)
    draft.in_turn(ids)
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
