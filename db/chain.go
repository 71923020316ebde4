package db

import "crypto/sha256"

// hash is one link of a chain of entries.
type hash [sha256.Size]byte

// next returns the link after h for an entry whose stored text is body:
//
//	SHA-256(h, body)
//
// The first link of a chain follows the zero hash. h has a fixed length, so
// that no two different pairs are the same bytes.
func (h hash) next(body []byte) hash {
	digest := sha256.New()
	digest.Write(h[:]) // never fails, says package hash
	digest.Write(body)
	return hash(digest.Sum(nil))
}

// links are the ends of the two chains that an entry is part of.
type links struct {
	job, file hash
}

func (l links) next(body []byte) links {
	return links{job: l.job.next(body), file: l.file.next(body)}
}
