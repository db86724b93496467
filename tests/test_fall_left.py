"""A roof handed over with a fall left where it lies: what is said of it is true of it.

Trade practice, no source: what lies where it fell is not straightened, and is no brace for what still stands.
"""

from attempts import level_of

from trainer.session import Session
from trainer.site import HandOver, Mark, Stand


def test_what_lies_is_not_called_bowed_nor_a_brace_and_each_lack_has_its_own_cause() -> None:
    session = Session(level_of("thornbill"), 1)
    first = session.job.layout.by_tag["GT1"]
    (x, y), (_x, far) = first.start, first.finish
    session.do(Mark(do="mark", wall="A", at=1000))
    session.do(Stand(do="stand", tag="GT1", start=(x, y), finish=(x, far)))
    session.do(Stand(do="stand", tag="ST1", start=(1001, y), finish=(1001, far)))
    assert "GT1" in session.site.fell
    session.do(HandOver(do="hand_over"))
    found = [f for f in session.findings if f.event == len(session.moments) - 1]
    assert not [f for f in found if (f.rule, f.member) == ("truss-bowed", "GT1")]
    (loose,) = [f for f in found if f.rule == "stood-before-last-tied"]
    assert "as if that had been cleared" in loose.what
    lacks = {f.cause for f in found if f.rule == "roof-brace-missing"}
    marks = {f.cause for f in session.findings if f.rule == "mark-off-station"}
    assert lacks and marks and not lacks & marks
