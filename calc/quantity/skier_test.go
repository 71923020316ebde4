package quantity

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestParseMass(t *testing.T) {
	for typed, want := range map[string]Kilogram{
		"72": 72, "72 kg": 72, "72,5": 72.5, "165 lb": 74.84274105, "165lbs": 74.84274105,
		"8": 8, "250": 250, "11 st": 69.85322498,
	} {
		got, err := ParseMass(typed)
		require.NoError(t, err, "%q", typed)
		assert.Equal(t, want, got, "%q", typed)
	}
	for typed, code := range map[string]string{
		"7.9": "quantity.mass-range", "251": "quantity.mass-range", "165 st": "quantity.mass-range",
		"0": "quantity.mass-range", "-72": "quantity.negative", "175 cm": "quantity.unit", "": "quantity.empty",
	} {
		_, err := ParseMass(typed)
		requireFault(t, err, code)
	}
	_, err := ParseMass("165 st")
	require.ErrorContains(t, err, "1047.8 kg")
}

func TestParseHeight(t *testing.T) {
	for typed, want := range map[string]Centimetre{
		"175": 175, "175cm": 175, "1.75 m": 175, "1.75": 175, "1,75": 175, "148.5": 148.5,
		"1 m 75": 175, "5'10\"": 177.8, "5 ft 10 in": 177.8, "5'10": 177.8, "5\u203210\u2033": 177.8,
		"70 in": 177.8, "1750 mm": 175, "60": 60, "230": 230, "2.3": 230, "0.6": 60,
	} {
		got, err := ParseHeight(typed)
		require.NoError(t, err, "%q", typed)
		assert.Equal(t, want, got, "%q", typed)
	}
	for typed, code := range map[string]string{
		"17.5": "quantity.height-range", "5.10": "quantity.height-range", "1750": "quantity.height-range",
		"2.31": "quantity.height-range", "0.59": "quantity.height-range", "0": "quantity.height-range",
		"-175": "quantity.height-range", "72 kg": "quantity.unit", "1 75": "quantity.two-numbers", " ": "quantity.empty",
	} {
		_, err := ParseHeight(typed)
		t.Run(typed, func(t *testing.T) { requireFault(t, err, code) })
	}
}

func TestParseAge(t *testing.T) {
	for typed, want := range map[string]int{"34": 34, "34 y": 34, "34 years": 34, "2": 2, "110": 110, "34.0": 34} {
		got, err := ParseAge(typed)
		require.NoError(t, err, "%q", typed)
		assert.Equal(t, want, got, "%q", typed)
	}
	for typed, code := range map[string]string{
		"34.5": "quantity.age-whole", "1": "quantity.age-range", "111": "quantity.age-range", "1991": "quantity.age-range",
		"1991-04-23": "quantity.age-date", "23.4.1991": "quantity.age-date", "34 kg": "quantity.unit", "": "quantity.empty",
	} {
		_, err := ParseAge(typed)
		requireFault(t, err, code)
	}
}

func TestParseBirthDate(t *testing.T) {
	today := time.Date(2026, 11, 25, 23, 30, 0, 0, time.FixedZone("east", 3600))
	for typed, want := range map[string]int{
		"1991-04-23": 35, "23.4.1991": 35, "23.04.1991": 35, " 1991-4-23\r": 35, "23. 4. 1991": 35,
		"1991-11-25": 35, "1991-11-26": 34, "2024-11-25": 2, "1916-11-25": 110,
	} {
		age, born, err := ParseBirthDate(typed, today)
		require.NoError(t, err, "%q", typed)
		assert.Equal(t, want, age, "%q", typed)
		assert.Equal(t, time.UTC, born.Location())
		assert.True(t, IsDate(typed))
	}
	for typed, code := range map[string]string{
		"2026-11-26": "quantity.date-future", "2025-01-01": "quantity.age-range", "1900-01-01": "quantity.age-range",
		"1991-02-29": "quantity.date", "1991-13-01": "quantity.date", "31.4.1991": "quantity.date", "0.1.1991": "quantity.date",
		"23/4/1991": "quantity.date", "23.4.91": "quantity.date", "04-23-1991": "quantity.date", "1991": "quantity.date",
		"": "quantity.date", "1991-04": "quantity.date", "1991-4-+3": "quantity.date", "0000-01-01": "quantity.age-range",
	} {
		_, _, err := ParseBirthDate(typed, today)
		t.Run(typed, func(t *testing.T) { requireFault(t, err, code) })
	}
}

func TestBirthDateOnLeapDay(t *testing.T) {
	on := func(day int, month time.Month) int {
		age, _, err := ParseBirthDate("2000-02-29", time.Date(2026, month, day, 8, 0, 0, 0, time.UTC))
		require.NoError(t, err)
		return age
	}
	assert.Equal(t, 25, on(28, time.February))
	assert.Equal(t, 26, on(1, time.March))
}

func TestSkierNeverPanics(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		typed := rapid.OneOf(rapid.String(), rapid.StringMatching(`[0-9 .,'"a-z/-]{0,12}`)).Draw(t, "typed")
		if m, err := ParseMass(typed); err == nil {
			require.True(t, m >= 8 && m <= 250)
		}
		if h, err := ParseHeight(typed); err == nil {
			require.True(t, h >= 60 && h <= 230)
		}
		if a, err := ParseAge(typed); err == nil {
			require.True(t, a >= 2 && a <= 110)
		}
		if s, err := ParseSole(typed); err == nil {
			require.True(t, s >= 150 && s <= 400)
		}
		if a, _, err := ParseBirthDate(typed, time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)); err == nil {
			require.True(t, a >= 2 && a <= 110)
		}
	})
}
