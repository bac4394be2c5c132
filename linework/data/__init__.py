"""Opens a file of resources/: tables, plug configurations, symbols, fonts, words."""
