"""Numbers, one file per question: energised, loaded, faults, tester, demand, broken."""
