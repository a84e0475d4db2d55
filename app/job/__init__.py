"""The job document: what one site's wiring is, and the only way in which it changes.

May import the standard library and pydantic; nothing of the other rooms, no file, clock or chance.
Start reading at ``model`` (the document), then ``patch`` (its changes).
"""
