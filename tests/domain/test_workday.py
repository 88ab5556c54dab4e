import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.domain.identity import PlantId
from bot.domain.workday import (
    MINUTES,
    Stage,
    Worked,
    bath_litres,
    mix_litres,
    plan_work,
    pot_litres,
)


def worked(number: int, **told: object) -> Worked:
    usual: dict[str, object] = {
        "pot_cm": 15.0,
        "is_infested": False,
        "is_apart": False,
        "is_bad": False,
        "is_sprayed": False,
        "is_cleaned_out": False,
    }
    return Worked(plant=PlantId(number), **(usual | told))  # type: ignore[arg-type]


def test_a_pot_is_a_frustum() -> None:
    # 15 cm: base 10.8, depth 13.5; pi x 13.5 / 12 x (225 + 162 + 116.64) = 1780.0 mL by hand.
    assert pot_litres(15) == pytest.approx(1.780, abs=5e-4)
    assert pot_litres(None) == pot_litres(15)
    # Twice as wide is eight times as much.
    assert pot_litres(30) == pytest.approx(8 * pot_litres(15))


@pytest.mark.parametrize(("inches", "litres"), [(4, 0.55), (6, 1.87), (8, 4.43), (10, 8.64), (12, 14.9)])
def test_pots_sold_by_the_inch(inches: float, litres: float) -> None:
    # Standard pots by the same frustum, worked elsewhere: base 0.72 of the top, depth 0.9 of it.
    assert pot_litres(2.54 * inches) == pytest.approx(litres, rel=0.01)


def test_mix_and_bath_follow_the_pot() -> None:
    # 0.9 x 1.15 = 1.035 pots of mix; five pots of water, two litres at least.
    assert mix_litres(15) == pytest.approx(1.842, abs=1e-3)
    assert bath_litres(15) == pytest.approx(8.90, abs=1e-2)
    assert bath_litres(6) == 2


def test_a_pot_needs_a_width() -> None:
    with pytest.raises(ValueError, match="cannot be 0 cm wide"):
        pot_litres(0)


def test_the_unaffected_come_first_and_the_worst_last() -> None:
    plants = [
        worked(1, is_infested=True, is_bad=True, is_cleaned_out=True),
        worked(2),
        worked(3, is_infested=True, is_apart=True, is_sprayed=True),
    ]
    stages = {stage.stage: stage for stage in plan_work(plants, [60.0, 60.0, 25.0])}
    assert stages[Stage.LOOK].plants == (2, 3, 1)
    assert stages[Stage.APART].plants == (1,)
    assert stages[Stage.WASH].plants == (3, 1)
    assert stages[Stage.UNPOT].plants == (1,)
    assert stages[Stage.SPRAY].plants == (3,)
    assert stages[Stage.SPRAY].spray_ml == 25
    assert stages[Stage.LOOK].minutes == 3 * MINUTES[Stage.LOOK]
    assert stages[Stage.POTS].minutes == 10 + 5  # a soak of ten minutes, and five for the pot
    assert stages[Stage.UNPOT].bath_l == pytest.approx(bath_litres(15))


def test_nothing_to_clean_out_leaves_its_stages_out() -> None:
    stages = [stage.stage for stage in plan_work([worked(1, is_infested=True)], [60.0])]
    assert stages == [Stage.LOOK, Stage.APART, Stage.WASH, Stage.BAG, Stage.SHELF]


@given(
    st.lists(st.tuples(st.booleans(), st.booleans(), st.booleans(), st.booleans(), st.booleans()), max_size=9)
)
def test_in_every_stage_no_infested_plant_stands_before_an_unaffected_one(
    flags: list[tuple[bool, ...]],
) -> None:
    plants = [
        worked(
            number,
            is_infested=ill or out,
            is_apart=apart,
            is_bad=bad or out,
            is_sprayed=sprayed,
            is_cleaned_out=out,
        )
        for number, (ill, apart, bad, sprayed, out) in enumerate(flags)
    ]
    ill = {one.plant for one in plants if one.is_infested}
    for stage in plan_work(plants, [60.0] * len(plants)):
        at = [plant in ill for plant in stage.plants]
        assert at == sorted(at)
        assert stage.minutes > 0
