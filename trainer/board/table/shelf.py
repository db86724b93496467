"""What goes on and off the drawing table: a new sheet, one that was saved, and the saving of what lies there."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from trainer.board.scenes.asking import ask_which, show_message
from trainer.board.services import Services
from trainer.board.table.files import Source, open_source, save
from trainer.board.table.own_houses import ask_title, choose_own
from trainer.board.table.state import Table
from trainer.read import Faulty
from trainer.records.errors import RecordsError
from trainer.shipped import level_paths
from trainer.table import Drawing, id_of, new_drawing, suggested_title
from trainer.words import _, ngettext


class Shelf:
    """Takes sheets from their files and back. ``shown`` is called when another one lies on the table."""

    def __init__(self, services: Services, table: Table, shown: Callable[[], None]) -> None:
        self.services = services
        self.table = table
        self._shown = shown

    def new_sheet(self) -> None:
        """Begin an empty sheet; what was not saved is asked after."""
        self.unless_unsaved(_("Begin a new sheet"), lambda: self.put(new_drawing(), None))

    def open_own(self) -> None:
        """Ask which of one's own houses is to be put on the table, those with faults too."""
        choose_own(self.services, self._open_file, self._deleted)

    def _open_file(self, path: Path) -> None:
        try:
            source = open_source(path)
        except Faulty as faulty:
            show_message(self.services, _("It can't be drawn"), [str(fault) for fault in faulty.faults])
            return
        except OSError as error:
            show_message(self.services, _("It can't be read"), [str(error.strerror or error)])
            return
        self.unless_unsaved(_("Open it"), lambda: self.put(source.drawing, source))

    def _deleted(self) -> None:
        """Clear what lies on the table where its file has gone; what was drawn on it since stays, as a new house."""
        source = self.table.source
        if source is not None and not source.path.exists():
            self.put(*((new_drawing(), None) if self.table.saved else (self.table.drawing, None)))

    def put(self, drawing: Drawing, source: Source | None) -> None:
        """Put a sheet on the table."""
        self.table.open(drawing, source)
        self._shown()

    def unless_unsaved(self, yes: str, then: Callable[[], None]) -> None:
        """Do what takes the sheet off the table; where it is not saved, ask first."""
        if self.table.saved or not self.table.drawing.corners:
            then()
            return
        options = ((_("Save it first"), lambda: self.save(then)), (yes, then), (_("Stay"), None))
        ask_which(self.services, _("The sheet is not saved"), [_("What you drew goes, unless you save it.")], options)

    def save(self, then: Callable[[], None] = lambda: None) -> None:
        """Save the house to its file, and go on; a new house is named first."""
        data = self.services.records.folder
        if data is None:
            show_message(self.services, _("Not saved"), [_("There is no folder for what you save here.")])
        elif self.table.source is None:
            ask_title(self.services, suggested_title(self.table.drawing), lambda title: self._save(data, then, title))
        else:
            self._save(data, then)

    def _save(self, data: Path, then: Callable[[], None], title: str = "") -> None:
        library = self.services.library
        if title:
            self.table.write({("title",): title, ("id",): id_of(title)})
        taken = frozenset(path.stem for path in level_paths())
        try:
            source = save(self.table.source, self.table.drawing, data, taken)
        except RecordsError as why:
            show_message(self.services, _("Not saved"), [str(why)])
            return
        self.table.keep(source)
        if library is not None:
            library.read_again(source.path)
        self.services.ui.memory["home/chosen"] = source.path.stem
        faults = len(self.table.study.faults)
        self.services.comfort.remember(house=source.path.stem)
        said = _("Saved. It stands among the houses, at the top, marked Your own. Its file: {path}")
        self.table.said = said.format(path=source.path)
        if faults:
            more = ngettext("It still has {n} fault.", "It still has {n} faults.", faults).format(n=faults)
            self.table.said += f" {more}"
        self.table.changed()
        then()
