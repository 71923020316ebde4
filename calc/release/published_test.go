package release

import (
	"encoding/csv"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/calc/quantity"
)

// records reads a file of check values by column. Every record has a source.
func records(t testing.TB, name string) []map[string]string {
	t.Helper()
	file, err := os.Open("../../testdata/release/" + name)
	require.NoError(t, err)
	defer func() { require.NoError(t, file.Close()) }()
	lines, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(lines), 1)
	var all []map[string]string
	for _, line := range lines[1:] {
		record := map[string]string{}
		for i, head := range lines[0] {
			record[head] = line[i]
		}
		require.NotEmpty(t, record["source"], line)
		all = append(all, record)
	}
	return all
}

func number(t testing.TB, text string) float64 {
	t.Helper()
	v, err := quantity.Parse(text, quantity.Plain)
	require.NoError(t, err)
	return v
}

func bandOf(t testing.TB, text string) band {
	t.Helper()
	b, err := readBand(text)
	require.NoError(t, err)
	return b
}

// inside are lengths that belong to a column: its ends and its middle.
func inside(b band) []float64 {
	switch {
	case math.IsInf(b.low, -1):
		return []float64{float64(quantity.MinSole), b.high}
	case math.IsInf(b.high, 1):
		return []float64{b.low, float64(quantity.MaxSole)}
	}
	return []float64{b.low, (b.low + b.high) / 2, b.high}
}

// skierOfRow is a skier whom the chart puts into a row; rows beyond M are
// reached by type. ok is false for rows that only a request reaches.
func skierOfRow(t testing.TB, code string) (in Input, ok bool) {
	t.Helper()
	in = Input{Age: 30, Height: 148, Type: TypeI} // up to 148 cm the mass alone
	switch code {
	case "N":
		code, in.Type = "M", TypeII
	case "O":
		code, in.Type = "M", TypeIII
	}
	for _, record := range records(t, "bands.csv") {
		if record["code"] == code && record["mass_kg"] != none {
			in.Mass = quantity.Kilogram(bandOf(t, record["mass_kg"]).low)
			return in, true
		}
	}
	return in, false
}

// Every cell of the chart, asked as a technician would: at both ends and in the
// middle of its column.
func TestEveryCell(t *testing.T) {
	chart := loaded(t)
	asked := 0
	for _, record := range records(t, "cells.csv") {
		in, ok := skierOfRow(t, record["code"])
		if !ok {
			require.Contains(t, "PQ", record["code"])
			continue
		}
		for _, sole := range inside(bandOf(t, record["sole_mm"])) {
			in.Sole = quantity.Millimetre(sole)
			asked++
			r, err := chart.Value(in)
			if record["value"] == none {
				faultOf(t, err, "release.blank-cell", "sole")
				continue
			}
			require.NoError(t, err, record)
			assert.Equal(t, record["code"], r.Code, record)
			assert.Equal(t, number(t, record["value"]), r.Value, record)
		}
	}
	assert.Equal(t, 15*(2+3*4+2), asked)
}

// The whole grid at once, with the rows that nobody reaches.
func TestGrid(t *testing.T) {
	chart := loaded(t)
	cells := records(t, "cells.csv")
	require.Len(t, cells, 17*6)
	for i, record := range cells {
		r := chart.rows[i/6]
		require.Equal(t, record["code"], r.code)
		require.Equal(t, bandOf(t, record["sole_mm"]), chart.columns[i%6])
		want := cell{}
		if record["value"] != none {
			want = cell{number(t, record["value"]), true}
		}
		assert.Equal(t, want, r.values[i%6], record)
	}
}

func TestEveryMoment(t *testing.T) {
	chart := loaded(t)
	moments := records(t, "moments.csv")
	require.Len(t, moments, len(chart.Codes()))
	for i, record := range moments {
		ref, err := chart.Reference(record["code"])
		require.NoError(t, err)
		want := Reference{
			Code: record["code"], Row: i,
			Twist:       quantity.NewtonMetre(number(t, record["twist_nm"])),
			ForwardLean: quantity.NewtonMetre(number(t, record["forward_lean_nm"])),
		}
		assert.Equal(t, want, ref)
		assert.Equal(t, want.Twist, chart.TwistColumn()[i])
		assert.Equal(t, want.ForwardLean, chart.ForwardLeanColumn()[i])
		assert.Equal(t, record["code"], chart.Codes()[i])
	}
}

// Both ends of every mass and height band belong to its row.
func TestEveryBand(t *testing.T) {
	chart := loaded(t)
	ask := func(mass, height float64) string {
		for _, sole := range []quantity.Millimetre{240, 320} { // one of the two is never blank
			r, err := chart.Value(Input{Mass: quantity.Kilogram(mass), Height: quantity.Centimetre(height), Age: 30, Type: TypeI, Sole: sole})
			if err == nil {
				return r.Code
			}
		}
		return ""
	}
	for _, record := range records(t, "bands.csv") {
		if record["mass_kg"] == none {
			require.Equal(t, none, record["height_cm"])
			continue
		}
		mass, heaviest := bandOf(t, record["mass_kg"]), float64(quantity.MaxMass)
		assert.Equal(t, record["code"], ask(mass.low, 148), record)
		assert.Equal(t, record["code"], ask(min(mass.high, heaviest), 148), record)
		if height := bandOf(t, record["height_cm"]); height.set && record["code"] != "H" {
			assert.Equal(t, record["code"], ask(heaviest, height.low), record)
			assert.Equal(t, record["code"], ask(heaviest, min(height.high, float64(quantity.MaxHeight))), record)
		}
	}
}

func TestEveryRule(t *testing.T) {
	chart := loaded(t)
	for _, record := range records(t, "rules.csv") {
		t.Run(record["rule"], func(t *testing.T) {
			r, err := chart.Value(inputOf(t, record))
			if record["fault"] != "" {
				var f *calc.Fault
				require.ErrorAs(t, err, &f)
				require.Equal(t, record["fault"], f.Code)
				return
			}
			require.NoError(t, err)
			assert.Equal(t, record["code"], r.Code)
			assert.Equal(t, number(t, record["value"]), r.Value)
			assert.Equal(t, number(t, record["toe_value"]), r.Toe)
			assert.Equal(t, number(t, record["heel_value"]), r.Heel)
			for _, f := range r.Findings {
				assert.NotEmpty(t, f.Source, f.Code)
			}
		})
	}
}

func inputOf(t testing.TB, record map[string]string) Input {
	t.Helper()
	kind, err := ParseType(record["type"])
	require.NoError(t, err)
	toe, err := ParseWish(record["toe"])
	require.NoError(t, err)
	heel, err := ParseWish(record["heel"])
	require.NoError(t, err)
	return Input{
		Mass:   quantity.Kilogram(number(t, record["mass_kg"])),
		Height: quantity.Centimetre(number(t, record["height_cm"])),
		Age:    int(number(t, record["age"])),
		Type:   kind,
		Sole:   quantity.Millimetre(number(t, record["sole_mm"])),
		Toe:    toe,
		Heel:   heel,
	}
}
