package db

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/json"

	"drillstop/workflow"
)

// line is a row of the entries as it is stored.
type line struct {
	fileSeq, ticket, seq, at             int64
	author, kind, token                  string
	body                                 []byte
	jobPrev, jobHash, filePrev, fileHash []byte
}

// checkEntries follows both chains from their beginning. After a link that
// does not hold it goes on from what is stored, so that one fault is told once.
func checkEntries(ctx context.Context, tx *sql.Tx, report *Report) error {
	var file chainEnd
	jobs := map[int64]chainEnd{}
	err := each(ctx, tx, `SELECT file_seq, ticket, seq, at, author, kind, token, body,
		job_prev, job_hash, file_prev, file_hash FROM entries ORDER BY file_seq`, func(rows *sql.Rows) error {
		var l line
		if err := rows.Scan(&l.fileSeq, &l.ticket, &l.seq, &l.at, &l.author, &l.kind, &l.token, &l.body,
			&l.jobPrev, &l.jobHash, &l.filePrev, &l.fileHash); err != nil {
			return err
		}
		report.Entries++
		l.checkPlace(file, jobs[l.ticket], report)
		l.checkHashes(report)
		l.checkColumns(report)
		file = chainEnd{l.fileSeq, asHash(l.fileHash)}
		jobs[l.ticket] = chainEnd{l.seq, asHash(l.jobHash)}
		return nil
	})
	if file.seq > 0 {
		report.Head = headOf(file.hash)
	}
	return err
}

// chainEnd is how far a chain was followed.
type chainEnd struct {
	seq  int64
	hash hash
}

// checkPlace checks that the line follows the one before it in both chains.
func (l line) checkPlace(file, job chainEnd, report *Report) {
	if l.fileSeq != file.seq+1 {
		report.faultf("Line %d of the file follows line %d; those between are gone.", l.fileSeq, file.seq)
	} else if !bytes.Equal(l.filePrev, file.hash[:]) {
		report.faultf("Line %d of the file is not linked to the line before it.", l.fileSeq)
	}
	if l.seq != job.seq+1 {
		report.faultf("Entry %d of %s follows entry %d; those between are gone.", l.seq, printed(l.ticket), job.seq)
	} else if !bytes.Equal(l.jobPrev, job.hash[:]) {
		report.faultf("Entry %d of %s is not linked to the entry before it.", l.seq, printed(l.ticket))
	}
}

// checkHashes checks that the text is the one that was hashed.
func (l line) checkHashes(report *Report) {
	before := links{job: asHash(l.jobPrev), file: asHash(l.filePrev)}
	want := before.next(l.body)
	if !bytes.Equal(l.jobHash, want.job[:]) || !bytes.Equal(l.fileHash, want.file[:]) {
		report.faultf("Entry %d of %s (line %d of the file) is not what its hash says: it was changed after it was written.",
			l.seq, printed(l.ticket), l.fileSeq)
	}
}

// checkColumns checks that the columns repeat what the text says.
func (l line) checkColumns(report *Report) {
	var e workflow.Entry
	if err := json.Unmarshal(l.body, &e); err != nil {
		report.faultf("Entry %d of %s (line %d of the file) cannot be read: %v.", l.seq, printed(l.ticket), l.fileSeq, err)
		return
	}
	if int64(e.Ticket) != l.ticket || int64(e.Seq) != l.seq || e.At.UnixMilli() != l.at ||
		e.By != l.author || string(e.Kind) != l.kind || e.Token != l.token {
		report.faultf("Line %d of the file and what it is searched by do not agree: it is filed as entry %d of %s, by %s.",
			l.fileSeq, l.seq, printed(l.ticket), l.author)
	}
}

// asHash reads a stored hash; one of another length becomes the zero hash,
// which follows nothing.
func asHash(stored []byte) hash {
	if len(stored) != len(hash{}) {
		return hash{}
	}
	return hash(stored)
}

func printed(ticket int64) string { return workflow.Ticket(ticket).String() }
