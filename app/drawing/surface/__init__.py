"""What a drawing is drawn on: points and boxes, pens and fonts, the width of words, a recorder and an SVG writer."""
