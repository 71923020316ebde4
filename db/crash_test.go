package db

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/workflow"
)

// childPath names the shop file to a child of TestKilledProgram.
const childPath = "DRILLSTOP_TEST_SHOP_FILE"

// TestAppendUntilKilled is the child: it appends for as long as it lives and
// says after each entry that it is kept.
func TestAppendUntilKilled(t *testing.T) {
	path := os.Getenv(childPath)
	if path == "" {
		t.Skip("started by TestKilledProgram only")
	}
	s := openAt(t, path)
	begin(t, s, "a")
	for seq := 2; ; seq++ {
		appendTo(t, s, answer(1, seq))
		fmt.Printf("kept %d\n", seq)
	}
}

// TestKilledProgram holds that what was shown as kept is kept. It proves
// atomic commits, not a power cut: the system's cache outlives the program.
func TestKilledProgram(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.db")
	child := exec.CommandContext(t.Context(), os.Args[0], "-test.run=^TestAppendUntilKilled$")
	child.Env = append(os.Environ(), childPath+"="+path)
	said, err := child.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, child.Start())
	kept := 1
	for lines := bufio.NewScanner(said); lines.Scan(); {
		if _, err := fmt.Sscanf(lines.Text(), "kept %d", &kept); err == nil && kept == 50 {
			require.NoError(t, child.Process.Kill())
		}
	}
	require.Error(t, child.Wait(), "killed")
	require.GreaterOrEqual(t, kept, 50)

	s := openAt(t, path)
	report := requireWhole(t, s)
	assert.GreaterOrEqual(t, report.Entries, kept)
	entries, err := s.Entries(t.Context(), 1)
	require.NoError(t, err)
	for seq := 2; seq <= kept; seq++ {
		require.Equal(t, answer(1, seq), entries[seq-1])
	}
}

// TestManyWriters: eight technicians in two programs, each with a job of their
// own and all with one in common, where the faster one wins.
func TestManyWriters(t *testing.T) {
	const writers, each = 8, 12
	here := newStore(t)
	stores := []*Store{here, openAt(t, here.Path())}
	shared := begin(t, here, "shared").Ticket
	var group sync.WaitGroup
	failed := make([]error, writers)
	for w := range writers {
		group.Go(func() { failed[w] = workADay(t, stores[w%len(stores)], shared, fmt.Sprint("writer ", w), each) })
	}
	group.Wait()
	for _, err := range failed {
		require.NoError(t, err)
	}
	report := requireWhole(t, here)
	assert.Equal(t, writers+1, report.Jobs)
	assert.Equal(t, 1+writers*(1+2*each), report.Entries)
	entries, err := stores[1].Entries(t.Context(), shared)
	require.NoError(t, err)
	assert.Len(t, entries, 1+writers*each, "no answer was lost, none kept twice")
	_, err = workflow.Fold(entries)
	require.NoError(t, err)
}

// workADay appends to an own job and to the shared one in turn, and looks
// again after each conflict, as a desk does.
func workADay(t *testing.T, s *Store, shared workflow.Ticket, name string, entries int) error {
	own, err := s.Begin(t.Context(), opening(name), func(e workflow.Entry) (workflow.Summary, error) { return summaryOf(e), nil })
	if err != nil {
		return err
	}
	for i := range entries {
		mine := answer(own.Ticket, i+2)
		if err := s.Append(t.Context(), mine, summaryOf(mine)); err != nil {
			return err
		}
		common := answer(shared, 0)
		common.By, common.Token = name, fmt.Sprint(name, i)
		if err := appendWhenFree(t, s, common); err != nil {
			return err
		}
	}
	return nil
}

func appendWhenFree(t *testing.T, s *Store, e workflow.Entry) error {
	for {
		seen, err := s.Entries(t.Context(), e.Ticket)
		if err != nil {
			return err
		}
		e.Seq = len(seen) + 1
		err = s.Append(t.Context(), e, summaryOf(e))
		if !errors.Is(err, workflow.ErrConflict) {
			return err
		}
	}
}
