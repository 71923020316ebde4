-- +goose Up

-- +goose StatementBegin
CREATE TABLE patterns (
  -- The shop's hole patterns: where a binding wants its holes. Not part of the
  -- record: a pattern may be replaced by a better one of the same name, and a
  -- job keeps the holes that were drilled by it.
  -- source is the file as it was imported, in TOML; name is what it says in it.
  name   TEXT    NOT NULL COLLATE NOCASE PRIMARY KEY CHECK (name <> ''),
  source TEXT    NOT NULL,
  at     INTEGER NOT NULL,                               -- milliseconds since 1970, UTC
  author TEXT    NOT NULL                                -- who imported it
) STRICT, WITHOUT ROWID;
-- +goose StatementEnd
