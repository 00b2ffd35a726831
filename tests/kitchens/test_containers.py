from __future__ import annotations

import math

import pytest

from batchcook.complaints import InputFault
from batchcook.kitchens.containers import Container, find_container, load_containers

CONTAINERS = load_containers()
EACH = pytest.mark.parametrize("container", CONTAINERS.values(), ids=CONTAINERS)


def inches(container: Container) -> tuple[float, float, float, float]:
    return (
        float(container.length.to("inch").magnitude),
        float(container.width.to("inch").magnitude),
        float(container.fill_depth.to("inch").magnitude),
        float(container.height.to("inch").magnitude),
    )


@EACH
def test_the_capacity_fits_into_footprint_and_depth(container: Container) -> None:
    length, width, depth, _ = inches(container)
    share = float(container.capacity.to("inch ** 3").magnitude) / (length * width * depth)
    assert 0.5 <= share <= 1.0


@EACH
def test_the_food_stands_no_higher_than_the_container(container: Container) -> None:
    _, _, depth, height = inches(container)
    assert depth <= height


@EACH
def test_it_takes_up_its_outside_measures(container: Container) -> None:
    assert float(container.outside.to("inch ** 3").magnitude) == pytest.approx(
        math.prod(inches(container)[each] for each in (0, 1, 3))
    )
    assert container.outside > container.capacity


@pytest.mark.parametrize(
    ("name", "headspace"), [("pint tub", 0.5), ("quart tub", 1.0), ("quart freezer bag", 0.5)]
)
def test_tubs_have_the_published_headspace(name: str, headspace: float) -> None:
    assert float(CONTAINERS[name].headspace.to("inch").magnitude) == headspace


def test_every_shape_of_freezing_is_there() -> None:
    assert {each.shape for each in CONTAINERS.values()} == {"tub", "flat bag", "pan", "tray"}


def test_finding_a_container_by_name() -> None:
    assert find_container("quart tub", "here").title == "quart tub"


def test_an_unknown_container_is_told_with_the_nearest() -> None:
    with pytest.raises(InputFault) as caught:
        find_container("quart tube", "here")
    assert caught.value.complaints[0].suggestion == "quart tub"
