"""Documents that the tests of this room start from."""

from typing import Any


def sample() -> dict[str, Any]:
    """Return a fresh document that uses every field once; the one of the file format's description, filled up."""
    return {
        "format": "rungwright-job",
        "version": 1,
        "title": "House on the slope",
        "notes": "Attic not reached.\nWire behind the drywall.",
        "settings": {"frequency_hz": 60, "units": "us"},
        "layouts": {
            "as-found": {
                "label": "before",
                "parts": {
                    "fb": {
                        "kind": "furnace-board",
                        "label": "Furnace board",
                        "place": "basement",
                        "at": [480, 120],
                        "air": "main",
                        "settings": {"fuse_amps": 3, "battery": False, "mode": "heat", "share": 0.5},
                        "note": "cover missing",
                    },
                    "tc": {"kind": "thermostat-heat-cool"},
                    "spare": {"kind": "unknown"},
                },
                "cables": {"cb1": {"label": "to the hall", "size_awg": 18, "length_m": 14.0, "note": ""}},
                "conductors": {
                    "w1": {"ends": ["fb.R", "tc.R"], "cable": "cb1", "insulation": "RD", "note": ""},
                    "w2": {"ends": ["fb.W", "tc.W"], "cable": "cb1", "insulation": "WH/BU"},
                    "w9": {"ends": ["fb.C", None], "cable": "cb1", "insulation": "BU"},
                    "w12": {"ends": [None, {"unknown": "behind the drywall"}], "size_awg": 18, "length_m": 3},
                },
            },
            "as-left": {},
        },
        "kinds": {"my-box": {"title": "Box", "terminals": {"R": {"function": "supply", "use": "in"}}, "list": [1, 2]}},
        "records": {"accepted": [{"rule": "chatter", "subjects": ["part:fb"], "reason": "known"}]},
    }


def bare(**members: Any) -> dict[str, Any]:
    """Return the smallest document, with ``members`` over it."""
    return {"format": "rungwright-job", "version": 1, "title": "Bare", **members}


def with_layout(**members: Any) -> dict[str, Any]:
    """Return a document with one layout named ``a``."""
    return bare(layouts={"a": members})
