"""Rules on sources and switching."""
