"""What of the job and of the unit of competency the levels, drills and questions cover."""

from trainer.coverage.table import CoverageRow, coverage
