package db

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// What the first bytes of a database say, after
// https://www.sqlite.org/fileformat.html, section 1.3.
const (
	headerLength        = 100
	headerMagic         = "SQLite format 3\x00"
	headerApplicationID = 68
)

// applicationID is what the first migration writes into a shop file.
const applicationID = 1685219692

const (
	folderMode = 0o700 // shop files name skiers: they are nobody else's business
	fileMode   = 0o600
)

// prepare makes the file when it is missing, and looks at its first bytes when
// it is not, so that a file which is not ours is never handed to SQLite.
func prepare(path string, mustExist bool) (abs string, created bool, err error) {
	if path == "" {
		return "", false, faultNoPath()
	}
	abs, err = filepath.Abs(path)
	if err != nil {
		return "", false, faultFile(path, err)
	}
	if !mustExist {
		created, err = makeFile(abs)
		if created || err != nil {
			return abs, created, err
		}
	}
	return abs, false, inspect(abs)
}

func makeFile(path string) (created bool, err error) {
	folder := filepath.Dir(path)
	if err := os.MkdirAll(folder, folderMode); err != nil { //nolint:gosec // the technician names it
		return false, faultFolder(path, folder, err)
	}
	file, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, fileMode) //nolint:gosec // the technician names it
	if errors.Is(err, fs.ErrExist) {
		return false, nil
	}
	if err != nil {
		return false, faultFile(path, err)
	}
	return true, file.Close()
}

// inspect refuses what is not a shop file.
func inspect(path string) error {
	info, err := os.Stat(path) //nolint:gosec // the technician names it
	if err != nil {
		return faultFile(path, err)
	}
	if !info.Mode().IsRegular() && !info.IsDir() { // reading a pipe would wait for ever
		return faultIrregular(path)
	}
	file, err := os.OpenFile(path, os.O_RDWR, 0) //nolint:gosec // the technician names it
	if err != nil {
		return faultFile(path, err)
	}
	defer file.Close()
	header := make([]byte, headerLength)
	n, err := io.ReadFull(file, header)
	switch {
	case n == 0 && errors.Is(err, io.EOF):
		return inspectEmpty(path)
	case err != nil && !errors.Is(err, io.ErrUnexpectedEOF):
		return faultFile(path, err)
	case n < headerLength || !strings.HasPrefix(string(header), headerMagic):
		return faultNotDatabase(path, nil)
	case binary.BigEndian.Uint32(header[headerApplicationID:]) != applicationID:
		return faultOtherProgram(path)
	}
	return nil
}

// inspectEmpty lets an empty file become a new shop file, unless a log lies
// beside it: SQLite would throw that away, and with it perhaps the last jobs.
func inspectEmpty(path string) error {
	info, err := os.Stat(path + "-wal") //nolint:gosec // the technician names it
	if err == nil && info.Size() > 0 {
		return faultEmptied(path)
	}
	return nil
}

func writerDSN(path string, wait time.Duration) string {
	return dsn(path, wait, url.Values{
		"_txlock": {"immediate"}, // take the right to write at once, not in the middle
		"_pragma": {"synchronous(FULL)", "foreign_keys(1)"},
	})
}

func readerDSN(path string, wait time.Duration) string {
	return dsn(path, wait, url.Values{"_pragma": {"query_only(1)"}})
}

// dsn names the file as a URI, since without one SQLite ignores some
// parameters silently. mode=rw: the file exists; if it vanished meanwhile, an
// empty one must not take its place.
func dsn(path string, wait time.Duration, query url.Values) string {
	query.Set("mode", "rw")
	query.Set("_defensive", "1")
	query.Add("_pragma", fmt.Sprintf("busy_timeout(%d)", wait.Milliseconds()))
	slashed := filepath.ToSlash(path)
	if !strings.HasPrefix(slashed, "/") { // C:/shop.db
		slashed = "/" + slashed
	}
	uri := url.URL{Scheme: "file", Path: slashed, RawQuery: query.Encode()}
	return uri.String()
}
