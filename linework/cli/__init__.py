"""The command line: linework check, linework study, linework export."""
