"""Two layouts of one job in one view: what stays, what is new, what was moved and from where, what came off.

It stands on the connection diagram, of which it draws one over both layouts, and on the tables of the lists. Start
reading at ``diagram``; ``alike`` says what is no change, ``together`` makes one layout of two.
"""
