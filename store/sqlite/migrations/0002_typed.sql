-- A revision says whether it saved itself while somebody typed. The column has to stand
-- before the content, so that a history passes that by; so the table is made anew.

CREATE TABLE revision_new (
    document TEXT    NOT NULL REFERENCES document (id) ON DELETE CASCADE,
    number   INTEGER NOT NULL CHECK (number > 0),
    saved    INTEGER NOT NULL,
    by       TEXT    NOT NULL,
    what     TEXT    NOT NULL,
    undoes   INTEGER NOT NULL, -- 0: none
    typed    INTEGER NOT NULL CHECK (typed IN (0, 1)),
    packing  TEXT    NOT NULL CHECK (packing IN ('none', 'deflate')),
    content  BLOB    NOT NULL, -- last, so that a history passes it by
    PRIMARY KEY (document, number)
) STRICT;

INSERT INTO revision_new (document, number, saved, by, what, undoes, typed, packing, content)
SELECT document, number, saved, by, what, undoes, 0, packing, content FROM revision ORDER BY document, number;

DROP TABLE revision;

ALTER TABLE revision_new RENAME TO revision;
