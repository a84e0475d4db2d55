"""What the page shows is drawn and told in the unit of the job."""

from __future__ import annotations

import pytest

from app.drawing.views import VIEWS
from app.job.temperatures import Units
from tests.drawing.units import CHANGES, SAID, job_in, missing
from tests.web.api import Api

AT = "".join(f"&at={change}" for change in CHANGES)


@pytest.mark.parametrize("units", SAID)
@pytest.mark.parametrize("view", SAID["us"])
def test_a_view_tells_temperatures_and_lengths_in_the_unit_of_the_job(view: str, units: Units, api: Api) -> None:
    job = api.create(job_in(units))
    at = AT if VIEWS[view].needs_run else ""
    assert missing(api.get(f"/api/jobs/{job}/drawing.svg?layout=as-left&view={view}{at}").text, view, units) == []


@pytest.mark.parametrize("units", SAID)
def test_the_chart_of_a_job_tells_temperatures_in_its_unit(units: Units, api: Api) -> None:
    job = api.create(job_in(units))
    assert missing(api.get(f"/api/jobs/{job}/timing.svg?layout=as-left{AT}").text, "timing", units) == []


@pytest.mark.parametrize(("units", "cold"), [("us", "17.6 °F"), ("si", "-8 °C")])
def test_what_the_weather_became_is_told_in_the_unit_of_the_job(units: Units, cold: str, api: Api) -> None:
    job = api.create(job_in(units))
    query = "layout=as-left&call=tc=heat-1&begin=rest&for=900&at=60:outdoor=-8&time=0"
    found = api.get(f"/api/jobs/{job}/moment?{query}").get_json()
    assert f"1:00 Outdoors {cold}." in [event["words"] for event in found["events"]]
