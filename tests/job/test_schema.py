"""The JSON Schema says what the reader does."""

from typing import Any

import pytest
from jsonschema import Draft202012Validator

from app.job.complaint import OWNERS, RIGHT
from app.job.reading import job_from_document
from app.job.refusal import Refused
from app.job.schema import job_schema
from tests.job.samples import bare, sample
from tests.job.test_reading import MISSHAPEN

SCHEMA = Draft202012Validator(job_schema())


def test_it_is_a_schema_of_its_dialect() -> None:
    Draft202012Validator.check_schema(job_schema())
    assert job_schema()["$schema"] == "https://json-schema.org/draft/2020-12/schema"


@pytest.mark.parametrize("document", [sample(), bare()], ids=["full", "bare"])
def test_it_takes_what_is_right(document: dict[str, Any]) -> None:
    SCHEMA.validate(document)
    job_from_document(document)


@pytest.mark.parametrize("name", MISSHAPEN)
def test_it_refuses_what_the_reader_refuses(name: str) -> None:
    document = MISSHAPEN[name][0]
    assert not SCHEMA.is_valid(document)
    with pytest.raises(Refused):
        job_from_document(document)


def test_every_field_says_what_may_stand_in_it() -> None:
    fields = {name for _, model, _ in OWNERS for name in model.model_fields}
    assert fields == set(RIGHT)
