"""The tools of the board, one file each; ``registry`` lists them, ``tool`` says what each must be."""
