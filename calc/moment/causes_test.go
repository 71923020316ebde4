package moment_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/calc/moment"
)

// The causes, the likeliest first, each with the step that checks it.
func TestCauses(t *testing.T) {
	listed := records(t, "causes.csv")
	causes := moment.Causes()
	require.Len(t, causes, len(listed))
	for n, record := range listed {
		c := causes[n]
		require.Equal(t, record, []string{c.Code, c.Name, c.Step, c.Source})
		require.NotEmpty(t, c.Look)
	}
	causes[0].Name = "moon"
	require.Equal(t, "forward pressure", moment.Causes()[0].Name, "the list is the caller's own")
}
