"""The reference answer: every truss of a house, where it stands, what it bears on and what it carries.

From the plates to the trusses, all of it common practice, no source. ``trainer/plan/straight.py`` runs the roof's
outline straight past shallow steps; ``House.roof_plan`` is that outline, ``House.plan`` the plates, and
``House.straightened`` says which plate lies under which line. ``wings.py`` takes the outline apart into bodies and
openings: an opening may lie over several bodies, and where one ends on another's line its girder hangs on that one.
``rows.py`` drafts a body; each truss follows its own wing's roof and that of all wings whose ridges run the same way
(``RowBuilder.same``). Wings that cross are carried by saddles (``saddles.py``), as far as their own roof is the
highest. ``dutch.py`` has the rows of dutch gables, whose girders stand in a row (``Member.is_dutch``) and not over an
opening. ``Ground.land`` says what lies under an end; ``Ground.clear`` moves a truss off a girder's end or a return
wall. Where a hip end comes out only above a lower ridge, ``run_on.py`` puts loose rafters on the truncated trusses
there, which take that roof (a leg with no ``per_h``).

``tests/layout_checks.py`` has what any right layout obeys, apart from the room itself; ``tests/homes.py`` draws
ordinary homes. ``tests/cases/homes`` are worked ones, ``tests/cases/homes_to_come`` those that ask for what can't be
laid out yet.
"""

from trainer.layout.lay_out import all_steps, lay_out, lay_out_in_steps
from trainer.layout.model import Change, End, House, Layout, LayoutRefused, Member, Refusal, TrussSpec, Wing
from trainer.layout.shares import Share, loads
