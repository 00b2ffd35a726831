"""One dish's work while it is being drawn up, step by step."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from batchcook.complaints import Complaint
from batchcook.cookbooks.jobnames import slug
from batchcook.cookbooks.recipe import Ingredient, Recipe, Step
from batchcook.dishwork.streams import StepHeat
from batchcook.dishwork.work import Job, Keep, Link, Lot
from batchcook.foods import Food, describe, load_foods
from batchcook.foodsafety.kinds import KEEPS_UNOPENED
from batchcook.foodsafety.limits import SLOW_COOKER_FILL
from batchcook.kitchens.kitchen import Kitchen
from batchcook.kitchens.techniques import load_techniques
from batchcook.kitchens.vessels import cooker_options, pot_options
from batchcook.quantities import Quantity, ureg
from batchcook.scheduling.problem import Family

__all__ = ["Dish", "Draft", "ingredient_grams"]


@dataclass(frozen=True)
class Dish:
    """A recipe times its batches on one prep day.

    Attributes:
        bowl: What its bowls are called, such as "stew bowl".
        system: us or metric, for the amounts that its jobs carry.
        eaten: Portions that are eaten the same day and packed in no container.
    """

    recipe: Recipe
    batches: int
    bowl: str
    system: str = "us"
    eaten: int = 0

    @property
    def id(self) -> str:
        """The recipe's id: a day cooks a recipe once, in as many batches as it takes."""
        return self.recipe.id


def ingredient_grams(ingredient: Ingredient, batches: int) -> Quantity:
    """The weight of an ingredient over all batches, in grams.

    Raises:
        InputFault: The foods table has no figure to weigh that measure by.
    """
    food = load_foods()[ingredient.food]
    return food.to_grams(ingredient.amount * batches, ingredient.cut).to("gram")


@dataclass
class Draft:
    """What has been drawn up so far of one dish.

    Attributes:
        order: The recipe's steps, each after those it takes from.
        heat: For each step with heat, when its food is on it.
        prepared: For each ingredient that is cut or measured out, the job that does it.
        waits_in: For each of these, the bowl or cup in which it waits.
        entry: For each step, its first jobs.
        ready: For each step, the jobs after which its outcome is ready.
        straight: For each browning step, the loads that go straight on.
        lots: For each step in pans, what of the dish each of its entry and ready jobs is of.
    """

    dish: Dish
    kitchen: Kitchen
    order: list[Step]
    jobs: list[Job] = field(default_factory=list)
    links: list[Link] = field(default_factory=list)
    keeps: list[Keep] = field(default_factory=list)
    families: dict[str, Family] = field(default_factory=dict)
    complaints: list[Complaint] = field(default_factory=list)
    heat: dict[str, StepHeat] = field(default_factory=dict)
    prepared: dict[str, Job] = field(default_factory=dict)
    waits_in: dict[str, str] = field(default_factory=dict)
    entry: dict[str, tuple[str, ...]] = field(default_factory=dict)
    ready: dict[str, tuple[str, ...]] = field(default_factory=dict)
    straight: dict[str, tuple[str, ...]] = field(default_factory=dict)
    lots: dict[str, tuple[Lot, ...]] = field(default_factory=dict)

    @property
    def recipe(self) -> Recipe:
        """The dish's recipe."""
        return self.dish.recipe

    def id(self, *parts: str) -> str:
        """The id of a job of this dish."""
        return "/".join((self.dish.id, *map(slug, parts)))

    def add(self, job: Job) -> Job:
        """Keep a job."""
        self.jobs.append(job)
        return job

    def job(
        self,
        step: Step,
        part: str,
        title: str,
        minutes: int,
        hands: frozenset[str] | None,
        station: str,
        **more: object,
    ) -> Job:
        """A job of this dish for one step."""
        job = Job(
            id=self.id(step.name, part) if part else self.id(step.name),
            title=title,
            technique=step.technique,
            minutes=minutes,
            hands=hands,
            station=station,
            label=self.label(step.technique, step),
            dishes={self.dish.id: self.batches_text()},
        )
        return self.add(replace(job, **more))  # type: ignore[arg-type] # fields of Job, by name

    def batches_text(self) -> str:
        """The batches in words."""
        return "1 batch" if self.dish.batches == 1 else f"{self.dish.batches} batches"

    def label(self, technique: str, step: Step) -> str:
        """A few words for the picture of the day."""
        food = self.main_food(step)
        verb = load_techniques()[technique].title
        return f"{verb} {food.singular}" if food is not None and not step.after else verb

    def grams(self, ingredient: Ingredient) -> float:
        """Weight of an ingredient over all batches, in grams."""
        return float(ingredient_grams(ingredient, self.dish.batches).magnitude)

    def taken(self, step: Step) -> list[Ingredient]:
        """The ingredients that go in at a step."""
        return [self.recipe.ingredient(name) for name in step.takes]

    def amounts(self, ingredients: Iterable[Ingredient]) -> tuple[str, ...]:
        """Ingredients with their amounts over all batches, ready to print.

        What the cook should know of one is told where it is first handled: at its cutting or its
        measuring, where that is a job of its own.
        """
        return tuple(
            describe(
                load_foods()[each.food],
                ingredient_grams(each, self.dish.batches),
                each.cut,
                self.dish.system,
                like=each.amount,
            )
            + (", to taste" if each.to_taste and self.dish.batches > 1 else "")
            + self._told(each)
            for each in ingredients
        )

    def _told(self, ingredient: Ingredient) -> str:
        if ingredient.name in self.prepared:
            return ""
        opened = "opened now" if self.kind(ingredient) in KEEPS_UNOPENED else ""
        told = "; ".join(each for each in (opened, ingredient.note) if each)
        return f" ({told})" if told else ""

    def gathered(
        self, ingredients: Iterable[Ingredient], places: Mapping[str, str] | None = None
    ) -> tuple[str, ...]:
        """Ingredients with their amounts, those that wait in one bowl or cup on its line.

        Args:
            ingredients: What goes in.
            places: Ingredient name to bowl or cup; ``waits_in`` where None.
        """
        places = self.waits_in if places is None else places
        lines: dict[tuple[str, bool], list[str]] = {}
        for each in ingredients:
            place = (places.get(each.name, each.name), each.name in places)
            lines.setdefault(place, []).extend(self.amounts([each]))
        return tuple(
            f"{place}: {', '.join(amounts)}" if waits else amounts[0]
            for (place, waits), amounts in lines.items()
        )

    def goes_in(self, step: Step) -> tuple[str, ...]:
        """All that goes in at a step, line by line: what it takes, and what comes from elsewhere.

        What is browned goes straight on from its pan, and of what is divided the recipe tells
        which part goes where.
        """
        users = Counter(before for each in self.recipe.steps for before in each.after)
        comes = [
            self._outcome(before)
            for before in map(self.recipe.step, step.after)
            if before.vessel != step.vessel
            and before.technique != "brown"
            and users[before.name] == 1
        ]
        return (*(line for line in comes if line), *self.gathered(self.taken(step)))

    def _outcome(self, step: Step) -> str:
        """What a step leaves, and where it waits; a shared pot may have it lifted out of it."""
        food = self.food_through(step)
        if step.technique == "cook-through" and food is not None:
            return f"{self.cooked_bowl}: {food.plural}"
        if step.technique == "sweat":
            return "what was softened"
        if step.technique == "drain" and food is not None:
            return f"the drained {food.plural}"
        if step.vessel is None:
            return ""
        flat = self.recipe.vessels[step.vessel].kind == "sheet-pan"
        return f"what is {'on' if flat else 'in'} the {step.vessel}"

    @property
    def cooked_bowl(self) -> str:
        """Where food waits that is cooked through in a skillet."""
        return f"cooked {self.dish.bowl}"

    def food_through(self, step: Step) -> Food | None:
        """The main food of a step, or of those whose outcome it takes."""
        before = (self.food_through(self.recipe.step(each)) for each in step.after)
        return self.main_food(step) or next((each for each in before if each is not None), None)

    def main_food(self, step: Step) -> Food | None:
        """The food that weighs most among what a step takes; meat before anything else."""
        taken = self.taken(step)
        if not taken:
            return None
        heaviest = max(
            taken, key=lambda each: (self.kind(each).startswith("raw-"), self.grams(each))
        )
        return load_foods()[heaviest.food]

    def kind(self, ingredient: Ingredient) -> str:
        """The kind of food an ingredient is."""
        return load_foods()[ingredient.food].kind

    def weight_through(self, step: Step) -> float:
        """Grams of everything that has gone into a step's outcome, its own included.

        What was divided and comes together again is weighed once.
        """
        through = {step.name: step}
        waiting = [step]
        while waiting:
            for before in map(self.recipe.step, waiting.pop().after):
                if before.name not in through:
                    through[before.name] = before
                    waiting.append(before)
        return sum(self.grams(each) for one in through.values() for each in self.taken(one))

    def raw_volume(self, step: Step) -> Quantity:
        """What the cut food that a step takes fills before it shrinks."""
        cups = ureg.Quantity(0.0, "cup")
        for each in self.taken(step):
            food = load_foods()[each.food]
            if each.cut is not None and food.has("cup"):
                weight = ingredient_grams(each, self.dish.batches)
                cups = cups + food.to_cups(weight, each.cut)
        return cups

    def raw_itself(self, step: Step) -> bool:
        """Whether a step takes raw meat, poultry, fish or egg."""
        kinds = {self.kind(each) for each in self.taken(step)}
        return any(kind.startswith("raw-") or kind == "egg" for kind in kinds)

    def raw(self, step: Step) -> bool:
        """Whether raw meat, poultry, fish or egg is in hands at this step."""
        return self.raw_itself(step) or any(
            self.raw(before) and before.name not in self.heat
            for before in map(self.recipe.step, step.after)
        )

    def vessel_volume(self, name: str) -> Quantity:
        """What a vessel holds at its fullest, over all batches."""
        vessel = self.recipe.vessels[name]
        held: Quantity = (vessel.holds or ureg.Quantity(1, "quart")) * self.dish.batches
        return held

    def lacks(self, step: Step, what: str, would: str) -> None:
        """Complain that the kitchen lacks something for a step."""
        self.complaints.append(
            Complaint(f"{self.dish.id}, step {step.name!r}", f"the kitchen has {what}", would)
        )

    def link_inputs(self, step: Step, first: Iterable[str]) -> None:
        """What the step takes must be cut, and earlier outcomes ready, before its first jobs.

        What is in pans goes on from each lot of it by itself.
        """
        for place, job in enumerate(first):
            for name in step.takes:
                if name in self.prepared:
                    self.links.append(Link(self.prepared[name].id, job))
            for before in map(self.recipe.step, step.after):
                self.links += [Link(ready, job) for ready in self.inputs(before, step, place)]

    def in_turn(self, jobs: Sequence[str]) -> None:
        """Loads that are numbered begin in that order."""
        for earlier, later in pairwise(jobs):
            self.links.append(Link(earlier, later, origin="start", to="start"))

    def inputs(self, before: Step, step: Step, place: int) -> list[str]:
        """The jobs whose outcome goes from an earlier step into the step's job at a place."""
        ready = self.ready.get(before.name, ())
        if before.vessel != step.vessel or before.name not in self.lots:
            return list(ready)
        lot = self.lots[step.name][place]
        return [job for job, of in zip(ready, self.lots[before.name], strict=True) if of.joins(lot)]

    def vessel_number(self, name: str) -> int:
        """How many pots or slow cookers stand in for one of the recipe."""
        vessel = self.recipe.vessels[name]
        if vessel.kind == "pot":
            options = pot_options(self.kitchen, self.vessel_volume(name))
        else:
            options = cooker_options(self.kitchen, self.vessel_volume(name), *SLOW_COOKER_FILL)
        return sum(options[0].values()) if options else 1
