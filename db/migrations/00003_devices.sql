-- +goose Up

-- +goose StatementBegin
CREATE TABLE devices (
  -- The shop's test devices. Not part of the record: a job keeps the name of the
  -- device that measured it, and what the bench said about it then. A device that
  -- is retired stays in its row, so that its name can still be explained.
  name     TEXT    NOT NULL COLLATE NOCASE PRIMARY KEY CHECK (trim(name) <> ''),
  low      REAL    NOT NULL,                             -- what it measures, Nm; both 0: not known
  high     REAL    NOT NULL,
  due      TEXT    NOT NULL CHECK (due = '' OR due GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
                                                         -- day on which its calibration ends; '': not known
  retired  INTEGER NOT NULL DEFAULT 0 CHECK (retired IN (0, 1)),
  CHECK (low = 0 AND high = 0 OR low >= 0 AND high > low)
) STRICT, WITHOUT ROWID;
-- +goose StatementEnd
