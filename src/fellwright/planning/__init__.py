"""Plans for one tree: sampling, devices, thresholds, verdicts, marks and what to measure next."""
