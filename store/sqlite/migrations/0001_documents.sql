-- Documents, their revisions, and the files beside them.
-- Moments are microseconds since 1970 in UTC.

CREATE TABLE document (
    id         TEXT    NOT NULL PRIMARY KEY,
    kind       TEXT    NOT NULL,
    parent     TEXT    REFERENCES document (id) ON DELETE CASCADE,
    title      TEXT    NOT NULL,
    about      TEXT    NOT NULL,
    searched   TEXT    NOT NULL, -- title and about, folded; sorts by title
    state      TEXT    NOT NULL CHECK (state IN ('active', 'archived', 'trashed')),
    revision   INTEGER NOT NULL CHECK (revision > 0), -- the newest
    created    INTEGER NOT NULL,
    changed    INTEGER NOT NULL,
    changed_by TEXT    NOT NULL
) STRICT, WITHOUT ROWID;

-- A list in each order, with the text of its search, so that a search reads no more.
CREATE INDEX document_changed ON document (kind, state, changed DESC, id, searched);
CREATE INDEX document_created ON document (kind, state, created DESC, id, searched);
CREATE INDEX document_titled ON document (kind, state, searched, id);
CREATE INDEX document_parent ON document (parent);

CREATE TABLE revision (
    document TEXT    NOT NULL REFERENCES document (id) ON DELETE CASCADE,
    number   INTEGER NOT NULL CHECK (number > 0),
    saved    INTEGER NOT NULL,
    by       TEXT    NOT NULL,
    what     TEXT    NOT NULL,
    undoes   INTEGER NOT NULL, -- 0: none
    packing  TEXT    NOT NULL CHECK (packing IN ('none', 'deflate')),
    content  BLOB    NOT NULL, -- last, so that a history passes it by
    PRIMARY KEY (document, number)
) STRICT;

CREATE TABLE file (
    place    INTEGER NOT NULL PRIMARY KEY, -- in the order of adding
    id       TEXT    NOT NULL,
    document TEXT    NOT NULL REFERENCES document (id) ON DELETE CASCADE,
    name     TEXT    NOT NULL,
    type     TEXT    NOT NULL,
    size     INTEGER NOT NULL,
    added    INTEGER NOT NULL,
    content  BLOB    NOT NULL,
    UNIQUE (document, id)
) STRICT;
