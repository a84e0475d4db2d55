"""Everything that the bench says in words, worked out on the server so that the page needs no model of its own.

May import everything below ``app.web``. Start reading at ``naming`` (how a part, a screw and an end are called), then
``parts``, ``conductors``, ``calls``, ``findings`` and ``adding``; ``app.web.words`` puts them together.
"""
