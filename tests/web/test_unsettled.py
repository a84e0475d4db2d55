"""What does not settle is said by the name of the device and of its part."""

from __future__ import annotations

from app.job.reading import document_of
from app.job.sketch import sketch, sketch_job
from tests.web.api import Api
from tests.web.sample import FOUR_WIRES


def test_a_relay_that_opens_its_own_coil_is_named(api: Api) -> None:
    parts = {
        "xf": "control-transformer",
        "fb": "furnace-board",
        "tc": "thermostat-heat-cool",
        "ou": "condensing-unit",
        "ir": "isolation-relay",
    }
    wires = (*FOUR_WIRES, "fb.Y ir.COM", "ir.NC ir.A1", "ir.A2 fb.C")
    job = api.create(document_of(sketch_job(sketch(parts, *wires))))
    said = api.get(f"/jobs/{job}/shown?call=tc=cool-1").get_json()["words"]["runs"]
    assert said == "Does not settle: relay coil in isolation relay pulls in and lets go in turn."
