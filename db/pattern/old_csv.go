package pattern

import (
	"errors"
	"io"

	"drillstop/calc"
	"drillstop/calc/layout"
)

// oldColumns are the columns of a CSV file of old holes; all but the last must
// be there.
var oldColumns = columns{of: "old holes", must: []string{"ski", "x", "y", "diameter", "state"}, may: []string{"depth"}}

func readOldCSV(file string, text []byte) (Old, error) {
	rows, err := openCSV(file, codeOld, text, oldColumns)
	if err != nil {
		return Old{}, err
	}
	var old Old
	for n := 1; ; n++ {
		row, err := rows.next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return Old{}, err
		}
		side, hole, err := rows.hole(row, n)
		if err != nil {
			return Old{}, err
		}
		old.add(side, hole)
	}
	rows.d.checkCount(old)
	if rows.d.err != nil {
		return Old{}, rows.d.err
	}
	return old, nil
}

func (r *csvRows) hole(row map[string]string, n int) (layout.Side, layout.OldHole, error) {
	var hole layout.OldHole
	for _, v := range []struct {
		name string
		to   *mm
	}{{"x", &hole.X}, {"y", &hole.Y}, {"diameter", &hole.Diameter}, {"depth", &hole.Depth}} {
		if v.name == "depth" && row[v.name] == "" {
			continue
		}
		var err error
		if *v.to, err = r.length(row, v.name); err != nil {
			return "", hole, err
		}
	}
	side, err := r.word(row, "ski", string(layout.Left), string(layout.Right), "both")
	if err != nil {
		return "", hole, err
	}
	state, err := r.word(row, "state", plugged, open)
	if err != nil {
		return "", hole, err
	}
	hole.Plugged = state == plugged
	var fault *calc.Fault
	if errors.As(hole.Check(n, layout.Both), &fault) {
		return "", hole, r.d.fault(r.line, fault.Field, "%s", fault.Sentence)
	}
	if side == "both" {
		return layout.Both, hole, nil
	}
	return layout.Side(side), hole, nil
}
