"""What is read on paper or in a browser: question papers and their marking guides."""
