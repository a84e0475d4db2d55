"""The connection diagram: parts where they stand, screws, conductors from screw to screw. Start at ``diagram``."""
