package moment_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/moment"
)

func TestLubricated(t *testing.T) {
	for _, record := range records(t, "lubricated.csv") {
		found := moment.Lubricated(judge(t, moment.Twist, "L", record[0]), judge(t, moment.Twist, "L", record[1]))
		if record[2] == "" {
			require.Empty(t, found, record)
			continue
		}
		require.Len(t, found, 1, record)
		require.Equal(t, "moment.lubricated", found[0].Code)
		require.Equal(t, calc.Caution, found[0].Level)
		require.Contains(t, found[0].Text, record[2]+" the clean one's")
		require.Contains(t, found[0].Source, "ASTM F1063-09(2014) 3.1.1")
	}
}

func TestLubricatedSentence(t *testing.T) {
	clean := judge(t, moment.Twist, "L", "50 50 50")
	found := moment.Lubricated(clean, judge(t, moment.Twist, "L", "38 38 38"))
	require.Equal(t, "In twist the lubricated sole releases at 38 Nm, 24 % below the clean one's 50 Nm, more than 20 %: clean or replace the gliding surface, wash the sole, and look for wear.", found[0].Text)

	lean := judge(t, moment.ForwardLean, "L", "194 194 194")
	requireIncomparable(t, moment.Lubricated(clean, lean), "moment.lubricated-unknown")
	requireIncomparable(t, moment.Lubricated(clean, moment.Verdict{}), "moment.lubricated-unknown")
	requireIncomparable(t, moment.Lubricated(moment.Verdict{}, clean), "moment.lubricated-unknown")
}
