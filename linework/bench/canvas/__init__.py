"""The paper on the screen: scene, sync, view and one tool for each mouse interaction."""
