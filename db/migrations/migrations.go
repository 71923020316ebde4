// Package migrations holds the schema of the shop file, one numbered SQL file
// for each step it took. A file that was released is never edited; a change is
// a new file with the next number.
package migrations

import "embed"

// Files are the migrations, named 00001_what_it_does.sql and so on.
//
//go:embed *.sql
var Files embed.FS
