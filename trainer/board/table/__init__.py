"""The drawing table: its state, its sheet, its panels, and the files it keeps."""
