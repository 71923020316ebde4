package db

import (
	"context"
	"fmt"
	"path/filepath"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

// BenchmarkOpenExisting is what every start pays.
func BenchmarkOpenExisting(b *testing.B) {
	path := filepath.Join(b.TempDir(), "shop.db")
	openOnce(b, path)
	for b.Loop() {
		openOnce(b, path)
	}
}

// BenchmarkOpenNew is what the first start pays.
func BenchmarkOpenNew(b *testing.B) {
	folder, n := b.TempDir(), 0
	for b.Loop() {
		n++
		openOnce(b, filepath.Join(folder, fmt.Sprint(n)))
	}
}

// BenchmarkOpenAndList is what stands between a start and the bench.
func BenchmarkOpenAndList(b *testing.B) {
	path := filepath.Join(b.TempDir(), "shop.db")
	s, err := Open(context.Background(), path, Options{})
	require.NoError(b, err)
	fillJobs(b, s, 100)
	require.NoError(b, s.Close())
	for b.Loop() {
		s, err := Open(context.Background(), path, Options{})
		require.NoError(b, err)
		_, err = s.List(context.Background(), workflow.Query{States: []workflow.State{workflow.Open}})
		require.NoError(b, err)
		b.StopTimer()
		require.NoError(b, s.Close())
		b.StartTimer()
	}
}

func openOnce(b *testing.B, path string) {
	b.Helper()
	s, err := Open(context.Background(), path, Options{})
	require.NoError(b, err)
	b.StopTimer()
	require.NoError(b, s.Close())
	b.StartTimer()
}

func BenchmarkAppend(b *testing.B) {
	s := newStore(b)
	begin(b, s, "a")
	seq := 1
	for b.Loop() {
		seq++
		appendTo(b, s, answer(1, seq))
	}
}

// BenchmarkAppendParallel is eight technicians, each with a job.
func BenchmarkAppendParallel(b *testing.B) {
	s := newStore(b)
	var worker atomic.Int64
	b.SetParallelism(4) // times two cores
	b.RunParallel(func(pb *testing.PB) {
		ticket := begin(b, s, fmt.Sprint("job ", worker.Add(1))).Ticket
		for seq := 2; pb.Next(); seq++ {
			appendTo(b, s, answer(ticket, seq))
		}
	})
}

func BenchmarkSaveDraft(b *testing.B) {
	s := newStore(b)
	begin(b, s, "a")
	for b.Loop() {
		require.NoError(b, s.SaveDraft(context.Background(), 1, "skier", "Ida", workflow.Answers{"mass": "72 kg"}))
	}
}

// BenchmarkList reads from a shop file of 1,000 jobs.
func BenchmarkList(b *testing.B) {
	s := newStore(b)
	fillJobs(b, s, 1000)
	for name, q := range map[string]workflow.Query{
		"all":   {},
		"open":  {States: []workflow.State{workflow.Open}},
		"words": {Words: "edda fir"},
		"one":   {Words: "T-0417"},
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				_, err := s.List(context.Background(), q)
				require.NoError(b, err)
			}
		})
	}
}

func BenchmarkEntries(b *testing.B) {
	s := newStore(b)
	begin(b, s, "a")
	for seq := 2; seq <= 40; seq++ {
		appendTo(b, s, answer(1, seq))
	}
	for b.Loop() {
		_, err := s.Entries(context.Background(), 1)
		require.NoError(b, err)
	}
}

// fillJobs opens jobs of which every tenth is still in hand.
func fillJobs(b *testing.B, s *Store, jobs int) {
	b.Helper()
	for i := range jobs {
		_, err := s.Begin(context.Background(), opening(fmt.Sprint(i)), func(e workflow.Entry) (workflow.Summary, error) {
			sum := summaryOf(e)
			if i%10 > 0 {
				sum.State = workflow.Finished
			}
			return sum, nil
		})
		require.NoError(b, err)
	}
}
