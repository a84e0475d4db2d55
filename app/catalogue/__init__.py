"""The kinds of part: what each has between its terminals, declared as data.

May import ``app.job``, the standard library and pydantic. Start reading at ``kind`` (the shape of a kind), then
``terms`` (its little language of states), ``builtin`` (the kinds that come along, one TOML file each in ``kinds/``),
``catalogue`` (kinds of one job) and ``structure`` (does a job fit its kinds?).
"""
