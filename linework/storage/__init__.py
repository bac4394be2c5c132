"""The file: codec, migrations, atomic save, recovery."""
