"""The rigs by name: sound by good practice; each docstring says why."""

from __future__ import annotations

from collections.abc import Callable

from tests.trial.rigs import boats, cabins, camps, edges, engines, houses, mixed, vans
from tests.trial.rigs.sheet import Sheet

RIGS: dict[str, Callable[[], Sheet]] = {
    draw.__name__: draw
    for draw in (
        vans.courier_van,
        vans.camper_van,
        vans.motor_home,
        vans.workshop_trailer,
        vans.food_truck,
        boats.workboat,
        boats.sailing_boat,
        boats.cruiser_with_two_cords,
        boats.tender,
        houses.house_with_interlock,
        houses.house_with_standby_board,
        houses.clinic_with_own_neutral,
        houses.house_with_barn,
        houses.old_farm,
        houses.house_with_trailer,
        cabins.cabin_on_one_hot,
        cabins.fishing_lodge,
        cabins.telephone_hut,
        cabins.ranger_hut,
        cabins.pump_station,
        camps.field_camp,
        camps.market_stall,
        camps.tiny_house,
        camps.relay_station,
        camps.survey_truck,
        edges.old_cottage,
        edges.shepherds_van,
        edges.orchard_pump,
        edges.roadworks_trailer,
        engines.rescue_van,
        engines.ketch,
        engines.trawler,
        engines.lake_cabin,
        mixed.narrow_boat,
        mixed.expedition_truck,
        mixed.workshop_on_two_sets,
        mixed.homestead,
        mixed.trailer_on_a_dogbone,
    )
}
