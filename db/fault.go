package db

import (
	"errors"
	"io/fs"
	"syscall"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"

	"drillstop/calc"
)

// fault turns what the driver says into a sentence for the technician, by the
// driver's code. Errors that are none of the driver's pass as they are.
func (s *Store) fault(err error) error {
	var told *calc.Fault
	var driver *sqlite.Error
	if err == nil || errors.As(err, &told) || !errors.As(err, &driver) {
		return err
	}
	return withCause(faultOfCode(s.path, driver.Code()), err)
}

// isBusy reports whether somebody else held the file.
func isBusy(err error) bool {
	var driver *sqlite.Error
	return errors.As(err, &driver) && driver.Code()&0xff == sqlite3.SQLITE_BUSY
}

// faultOfCode looks at the primary code, which is the lower byte:
// https://www.sqlite.org/rescode.html, section 2.
func faultOfCode(path string, code int) *calc.Fault {
	switch code & 0xff {
	case sqlite3.SQLITE_NOTADB:
		return faultNotDatabase(path, nil)
	case sqlite3.SQLITE_CORRUPT:
		return calc.Faultf("db.damaged", "The shop file %s is damaged. Leave it as it is, "+
			"make a copy of it and of the files beside it, and bring back the last good copy.", path)
	case sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED:
		return faultLocked(path)
	case sqlite3.SQLITE_FULL:
		return calc.Faultf("db.full", "The disk that holds the shop file %s is full. "+
			"Nothing was kept; make room and try again.", path)
	case sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM, sqlite3.SQLITE_AUTH:
		return faultReadOnly(path)
	case sqlite3.SQLITE_CANTOPEN:
		return calc.Faultf("db.cannot-open", "The shop file %s cannot be opened. "+
			"It and its folder must be there, and you must be allowed to write to both.", path)
	case sqlite3.SQLITE_IOERR:
		return calc.Faultf("db.disk", "The disk that holds the shop file %s does not read or write as it should. "+
			"Nothing was kept; check the disk or its cable, then try again.", path)
	}
	return calc.Faultf("db.failed", "The shop file %s could not be used (SQLite code %d). Nothing was kept.", path, code)
}

// faultFile says why the operating system does not open the file.
func faultFile(path string, err error) *calc.Fault {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return withCause(calc.Faultf("db.missing", "There is no shop file at %s. "+
			"Check the name; opening the bench with it makes a new one.", path), err)
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return withCause(faultReadOnly(path), err)
	case errors.Is(err, syscall.EISDIR):
		return withCause(calc.Faultf("db.folder", "%s is a folder. Name a file in it.", path), err)
	case errors.Is(err, syscall.ENOSPC):
		return withCause(faultOfCode(path, sqlite3.SQLITE_FULL), err)
	}
	return withCause(calc.Faultf("db.cannot-open", "The shop file %s cannot be opened. Check its name and its disk.", path), err)
}

func faultFolder(path, folder string, err error) *calc.Fault {
	return withCause(calc.Faultf("db.folder", "The shop file %s cannot be made: the folder %s is missing and cannot be made. "+
		"Make it, or name a file in a folder that you may write to.", path, folder), err)
}

func faultLocked(path string) *calc.Fault {
	return calc.Faultf("db.locked", "Another program is writing to the shop file %s and does not stop. "+
		"Nothing was kept; close the other program and try again.", path)
}

func faultReadOnly(path string) *calc.Fault {
	return calc.Faultf("db.read-only", "The shop file %s cannot be written to. Nothing was kept; "+
		"allow writing to it and to its folder, or name another file.", path)
}

func faultNoPath() *calc.Fault {
	return calc.Faultf("db.no-path", "The shop file has no name. Name one, for example shop.db.")
}

func faultNotDatabase(path string, cause error) *calc.Fault {
	return withCause(calc.Faultf("db.not-a-database", "%s is not a shop file. It was left as it is; name another file.", path), cause)
}

func faultOtherProgram(path string) *calc.Fault {
	return calc.Faultf("db.other-program", "%s is a database, but not a shop file of this program. "+
		"It was left as it is; name another file.", path)
}

func faultEmptied(path string) *calc.Fault {
	return calc.Faultf("db.emptied", "The shop file %s is empty, but %s-wal beside it is not: something emptied it. "+
		"Both were left as they are; bring back the last good copy under another name.", path, path)
}

func faultNewerSchema(path string, version, known int64) *calc.Fault {
	return calc.Faultf("db.newer-schema", "The shop file %s was written by a newer version of this program "+
		"(schema %d; this one knows up to %d). It was left as it is; use the newer version.", path, version, known)
}

func faultUpgradedMeanwhile(path string, version, known int64) *calc.Fault {
	return calc.Faultf("db.upgraded-meanwhile", "The shop file %s was changed to schema %d while this program had it open "+
		"with schema %d. Nothing was kept; leave this program and start the newer version.", path, version, known)
}

func faultMoved(path string) *calc.Fault {
	return calc.Faultf("db.moved", "The shop file %s was moved, removed or replaced while this program had it open. "+
		"Nothing was kept; put it back, or leave this program and start it again.", path)
}

func faultNoLog(path, mode string) *calc.Fault {
	return calc.Faultf("db.no-log", "The disk that holds the shop file %s cannot keep a write-ahead log (it offers %q). "+
		"Put the file on a disk of this machine.", path, mode)
}

func faultManyCopies(stem string) *calc.Fault {
	return calc.Faultf("db.copies", "The shop file must be upgraded, but %d copies named %s-N.backup lie beside it already. "+
		"Move them elsewhere and try again.", maxCopies, stem)
}

func faultIrregular(path string) *calc.Fault {
	return calc.Faultf("db.irregular", "%s is no ordinary file. Name a file on a disk.", path)
}

func faultText(what string) *calc.Fault {
	return calc.Faultf("db.text", "%s holds bytes that are no text (UTF-8). Nothing was kept; type it again.", what)
}

func withCause(f *calc.Fault, cause error) *calc.Fault {
	f.Cause = cause
	return f
}
