package db

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
)

// maxCopies is how many copies of one schema are kept beside a file before a
// further upgrade asks for them to be looked at.
const maxCopies = 99

// copyBeside writes a consistent copy of the file beside it, named after the
// schema it has, and returns its path. An existing file is never overwritten.
func (s *Store) copyBeside(ctx context.Context, version int64) (string, error) {
	path, err := reserve(fmt.Sprintf("%s.schema-%d", s.path, version))
	if err != nil {
		return "", err
	}
	if _, err := s.writer.ExecContext(ctx, "VACUUM INTO ?", path); err != nil {
		return "", errors.Join(err, os.Remove(path))
	}
	return path, flush(path) // SQLite does not wait for the disk here
}

// reserve makes an empty file, with a number in its name if others are there.
func reserve(stem string) (string, error) {
	for n := 1; n <= maxCopies; n++ {
		path := stem + ".backup"
		if n > 1 {
			path = fmt.Sprintf("%s-%d.backup", stem, n)
		}
		file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, fileMode) //nolint:gosec // beside the shop file
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return "", faultFile(path, err)
		}
		return path, file.Close()
	}
	return "", faultManyCopies(stem)
}

func flush(path string) error {
	file, err := os.OpenFile(path, os.O_RDWR, 0) //nolint:gosec // made by reserve
	if err != nil {
		return faultFile(path, err)
	}
	if err := file.Sync(); err != nil {
		return errors.Join(faultFile(path, err), file.Close())
	}
	return file.Close()
}
