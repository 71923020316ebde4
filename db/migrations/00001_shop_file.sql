-- +goose Up

-- A shop file is known by this number ("dril" in ASCII), a schema by
-- user_version, which the program raises in the transaction of each migration.
PRAGMA application_id = 1685219692;

-- +goose StatementBegin
CREATE TABLE tickets (
  -- The numbers that were given to jobs: 1, 2, 3, with no gap and never twice.
  ticket INTEGER PRIMARY KEY CHECK (ticket > 0)
) STRICT;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TABLE entries (
  -- The record itself: every line that was ever written about a job, in the
  -- order in which it was written. Rows are added and never touched again.
  -- body is the entry as JSON and the truth; the columns before it repeat what
  -- queries and constraints need.
  file_seq  INTEGER PRIMARY KEY,                         -- 1, 2, 3 over the whole file
  ticket    INTEGER NOT NULL REFERENCES tickets (ticket),
  seq       INTEGER NOT NULL CHECK (seq > 0),            -- 1, 2, 3 within the job
  at        INTEGER NOT NULL,                            -- milliseconds since 1970, UTC
  author    TEXT    NOT NULL,
  kind      TEXT    NOT NULL,
  token     TEXT    NOT NULL CHECK (token <> ''),        -- makes a repeated append harmless
  body      TEXT    NOT NULL CHECK (json_valid(body)),
  -- Two chains of SHA-256 over (hash before it, bytes of body): one through the
  -- job, one through the file. The first link of a chain follows 32 zero bytes.
  job_prev  BLOB    NOT NULL CHECK (length(job_prev) = 32),
  job_hash  BLOB    NOT NULL CHECK (length(job_hash) = 32),
  file_prev BLOB    NOT NULL CHECK (length(file_prev) = 32),
  file_hash BLOB    NOT NULL CHECK (length(file_hash) = 32),
  UNIQUE (ticket, seq),
  UNIQUE (ticket, token)
) STRICT;
-- +goose StatementEnd

-- Opening a job twice under one token must find the first attempt.
CREATE UNIQUE INDEX entries_opened ON entries (token) WHERE seq = 1;

-- INSERT OR REPLACE removes a row without asking a DELETE trigger, so that the
-- trigger on INSERT refuses whatever does not follow the last row.
-- +goose StatementBegin
CREATE TRIGGER entries_follow BEFORE INSERT ON entries
WHEN NEW.file_seq IS NOT 1 + coalesce((SELECT max(file_seq) FROM entries), 0)
  OR NEW.file_prev IS NOT coalesce(
       (SELECT file_hash FROM entries ORDER BY file_seq DESC LIMIT 1), zeroblob(32))
  OR NEW.seq IS NOT 1 + coalesce((SELECT max(seq) FROM entries WHERE ticket = NEW.ticket), 0)
  OR NEW.job_prev IS NOT coalesce(
       (SELECT job_hash FROM entries WHERE ticket = NEW.ticket ORDER BY seq DESC LIMIT 1), zeroblob(32))
  OR EXISTS (SELECT 1 FROM entries WHERE ticket = NEW.ticket AND token = NEW.token)
  OR NEW.seq = 1 AND EXISTS (SELECT 1 FROM entries WHERE seq = 1 AND token = NEW.token)
BEGIN
  SELECT RAISE(ABORT, 'an entry follows the last one of its job and of the file');
END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER entries_no_update BEFORE UPDATE ON entries
BEGIN
  SELECT RAISE(ABORT, 'entries are never changed');
END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER entries_no_delete BEFORE DELETE ON entries
BEGIN
  SELECT RAISE(ABORT, 'entries are never removed');
END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER tickets_follow BEFORE INSERT ON tickets
WHEN NEW.ticket IS NOT 1 + coalesce((SELECT max(ticket) FROM tickets), 0)
BEGIN
  SELECT RAISE(ABORT, 'a ticket follows the last one');
END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER tickets_no_update BEFORE UPDATE ON tickets
BEGIN
  SELECT RAISE(ABORT, 'tickets are never changed');
END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER tickets_no_delete BEFORE DELETE ON tickets
BEGIN
  SELECT RAISE(ABORT, 'tickets are never removed');
END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TABLE jobs (
  -- One line of the bench for each job. Derived from the entries, written in
  -- the same transaction as the entry it follows from, and free to be rebuilt.
  -- summary is the whole line as JSON; the columns before it are what lists
  -- filter and search by.
  ticket  INTEGER PRIMARY KEY REFERENCES tickets (ticket),
  seq     INTEGER NOT NULL,                              -- of the entry it follows from
  state   TEXT    NOT NULL,
  skier   TEXT    NOT NULL,
  ski     TEXT    NOT NULL,
  binding TEXT    NOT NULL,
  summary TEXT    NOT NULL CHECK (json_valid(summary))
) STRICT;
-- +goose StatementEnd

CREATE INDEX jobs_by_state ON jobs (state, ticket);

-- The words of jobs, for finding one by the beginning of a word, whatever the
-- case and the accents. It keeps no text of its own.
-- +goose StatementBegin
CREATE VIRTUAL TABLE job_words USING fts5 (
  ticket, skier, ski, binding,
  content = '', contentless_delete = 1,
  tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2 3'
);
-- +goose StatementEnd

-- A ticket is found as it is printed and as people type it: T-0417, T0417, T417, 417.
-- +goose StatementBegin
CREATE TRIGGER jobs_words_insert AFTER INSERT ON jobs
BEGIN
  INSERT INTO job_words (rowid, ticket, skier, ski, binding)
  VALUES (NEW.ticket, printf('T-%04d T%04d T%d %d', NEW.ticket, NEW.ticket, NEW.ticket, NEW.ticket),
          NEW.skier, NEW.ski, NEW.binding);
END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER jobs_words_update AFTER UPDATE ON jobs
WHEN NEW.skier <> OLD.skier OR NEW.ski <> OLD.ski OR NEW.binding <> OLD.binding
BEGIN
  DELETE FROM job_words WHERE rowid = OLD.ticket;
  INSERT INTO job_words (rowid, ticket, skier, ski, binding)
  VALUES (NEW.ticket, printf('T-%04d T%04d T%d %d', NEW.ticket, NEW.ticket, NEW.ticket, NEW.ticket),
          NEW.skier, NEW.ski, NEW.binding);
END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER jobs_words_delete AFTER DELETE ON jobs
BEGIN
  DELETE FROM job_words WHERE rowid = OLD.ticket;
END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TABLE drafts (
  -- What a person typed into a step and has not kept yet. Not part of the
  -- record: it goes with the answer that it becomes.
  ticket INTEGER NOT NULL REFERENCES tickets (ticket),
  step   TEXT    NOT NULL,
  author TEXT    NOT NULL,
  typed  TEXT    NOT NULL CHECK (json_valid(typed)),
  PRIMARY KEY (ticket, step, author)
) STRICT, WITHOUT ROWID;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TABLE cards (
  -- The shop's library: what is the same for every pair of a binding or a ski.
  kind    TEXT NOT NULL,
  name    TEXT NOT NULL,
  answers TEXT NOT NULL CHECK (json_valid(answers)),
  PRIMARY KEY (kind, name)
) STRICT, WITHOUT ROWID;
-- +goose StatementEnd
