"""Names for new houses: native birds that no house of the course is named after.

A bird that a level of the course takes for its name is taken out here.
"""

BIRDS = (
    "apostlebird", "bellbird", "bristlebird", "bronzewing", "chat", "cockatiel", "coucal",
    "crake", "cuckoo", "darter", "dove", "falcon", "fernwren", "finch", "galah",
    "gerygone", "goshawk", "grassbird", "grebe", "harrier", "hobby", "ibis", "kite", "koel",
    "logrunner", "mannikin", "miner", "monarch", "nightjar", "osprey",
    "owlet", "parrot", "petrel", "pigeon", "pilotbird", "pipit", "pitta", "rail",
    "rosella", "shrike", "sittella", "songlark", "spoonbill", "stilt", "swamphen", "teal",
    "tern", "triller", "turnstone", "warbler", "weebill", "whiteface",
)  # fmt: skip
