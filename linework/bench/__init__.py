"""The Qt program: canvas, card, levers, findings margin, actions."""
