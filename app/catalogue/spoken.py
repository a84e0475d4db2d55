"""Names of the catalogue as people say them: ids and names of elements as words, effects by what is heard or felt."""

from __future__ import annotations

EFFECT_WORDS = {
    "indoor-fan": "indoor fan",
    "outdoor-fan": "outdoor fan",
    "compressor": "compressor",
    "compressor-2": "second compressor stage",
    "cooling": "cooling",
    "heat-pump-heating": "heating by the heat pump",
    "furnace-heat": "furnace heat",
    "furnace-heat-2": "second furnace stage",
    "electric-heat": "electric heat",
    "boiler-heat": "boiler heat",
    "zone-open": "zone open",
    "humidify": "humidifier",
    "pump": "pump",
    "defrost": "defrost",
}


def plain(name: str) -> str:
    """Return an id or element name as words: ``heat_call`` and ``heat-call`` become ``heat call``."""
    return name.replace("_", " ").replace("-", " ")


def counted(number: int, one: str, many: str = "") -> str:
    """Return ``1 danger``, ``3 dangers``."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def effect_words(effect: str) -> str:
    """Return an effect in words."""
    return EFFECT_WORDS.get(effect, plain(effect))


def upper_first(words: str) -> str:
    """Return ``words`` for the start of a sentence."""
    return words[:1].upper() + words[1:]
