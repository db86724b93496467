"""What findings say of a half girder, and of a verge that ends at an inside corner."""

import pytest
from recall import judged, planted


@pytest.mark.parametrize(
    ("level", "rule", "want"),
    [
        ("jacana", "girder-off-plate-line", "its face in line with the higher wall at the corner, within 10 mm"),
        ("wren", "girder-off-plate-line", "its outside face in line with the outside of the plates, within 10 mm"),
        ("dollarbird", "verge-rafters-missing", "one, on the ends of the outriggers"),
        ("pardalote", "verge-rafters-missing", "a pair of them, on the ends of the outriggers"),
    ],
)
def test_a_finding_wants_what_stands_on_this_house(level, rule, want):
    found = judged(level, 3, planted(level, 3, rule).actions).findings
    assert want in {finding.want for finding in found if finding.rule == rule}
