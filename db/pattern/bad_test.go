package pattern_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drillstop/calc"
	"drillstop/db/pattern"
)

// badPatterns are what is said about each bad pattern; every sentence begins
// with the name of its file.
var badPatterns = []string{
	`bit-too-wide.toml, line 17, piece[1].hole[1].diameter: The diameter of hole 1 of the toe is 41 mm: 2 mm to 12 mm is possible.`,
	`blank-name.toml, line 1, name: The pattern has no name.`,
	`date.toml, line 15, piece[1].hole[1].x: 2024-11-25 is a date or time: a number in mm belongs here, without quotes and without a unit.`,
	`empty.toml, line 1, name: This key is missing: it needs the name of the binding in quotes.`,
	`hole-outside-body.toml, line 24, piece[1].hole[2].x: The x of hole 2 of the toe is -240 mm: -70 mm to 45 mm is possible.`,
	`holes-overlap.toml, line 24, piece[1].hole[2].x: Holes 1 and 2 of the toe lie 2.2 mm apart and run into each other: at least 4.1 mm is needed.`,
	`inches.toml, line 2, unit: "in" is not the unit of this format: all lengths are in "mm".`,
	`key-twice.toml, line 17, y: This is not TOML: key y is already defined.`,
	`locking-last.toml, line 23, piece[1].hole[2].order: The locking screw in hole 2 of the toe is number 2 in the screw order: locking screws come first.`,
	`locking-word.toml, line 26, piece[1].hole[2].locking: "yes" is a text: true or false belongs here.`,
	`misspelt-key.toml, line 17, piece[1].hole[1].diamter: This key is not known here; known are order, x, y, diameter, depth, bite, class, locking.`,
	`misspelt-top.toml, line 3, inventd: This key is not known here; known are name, note, unit, invented, mirrored, piece.`,
	`nan.toml, line 15, piece[1].hole[1].x: NaN is not a length: a number in mm belongs here.`,
	`no-depth.toml, line 13, piece[1].hole[1].depth: This key is missing in the table that begins here: it needs a number in mm.`,
	`no-heel.toml, line 5, piece: The pattern has no heel piece: it needs a toe and a heel.`,
	`no-name.toml, line 1, name: This key is missing: it needs the name of the binding in quotes.`,
	`no-unit.toml, line 1, unit: This key is missing: it needs "mm".`,
	`not-toml.toml, line 6: This is not TOML: expected '=' after key.`,
	`not-utf8.toml: The file is not text in UTF-8.`,
	`number-in-quotes.toml, line 15, piece[1].hole[1].x: "32" is a text: a number in mm belongs here, without quotes and without a unit.`,
	`open-quote.toml, line 1: This is not TOML: basic strings cannot have new lines.`,
	`order-gap.toml, line 23, piece[1].hole[2].order: Hole 2 of the toe is number 3 in the screw order: 1 to 2 is possible.`,
	`order-not-whole.toml, line 14, piece[1].hole[1].order: 1.5 is a number: a small whole number belongs here.`,
	`order-twice.toml, line 23, piece[1].hole[2].order: Holes 1 and 2 of the toe are both number 1 in the screw order.`,
	`piece-is-text.toml, line 3, piece: This is a text: a list of tables belongs here, each begun with [[piece]].`,
	`sole-in-cm.toml, line 10, piece[1].sole_min: A sole of 26 mm is none: 150 mm to 400 mm is possible.`,
	`soles-apart.toml, line 5, piece: Toe and heel take no common sole length: the toe takes 260 mm to 261 mm, the heel 300 mm to 385 mm.`,
	`track-on-plate.toml, line 38, piece[2].track_fore: A plate does not hold the boot: only toe and heel slide on a track.`,
	`two-toes.toml, line 32, piece[2].kind: The pattern has two toe pieces: one of each kind is possible.`,
	`unknown-anchor.toml, line 7, piece[1].anchor: "boot tip" is not known here: boot toe, boot heel, boot midsole or ski mount mark.`,
	`unknown-kind.toml, line 32, piece[2].kind: "tail" is not known here: toe, heel, brake or plate.`,
	`with-unit.toml, line 15, piece[1].hole[1].x: "32 mm" is a text: a number in mm belongs here, without quotes and without a unit.`,
}

var badOldHoles = []string{
	`column-twice.csv, line 1, x: The column is named twice.`,
	`decimal-comma.csv, line 2: The line has 7 columns: 5 are named. A comma inside of a number needs semicolons between the columns.`,
	`empty.csv: The file is empty: its first line names the columns ski, x, y, diameter, state, depth.`,
	`far-off.toml, line 12, hole[2].x: The x of old hole 2 is 17000 mm: -1500 mm to 1500 mm is possible.`,
	`holes.txt: A file of old holes is CSV or TOML: its name must end in .csv or .toml.`,
	`inline.toml, line 4, hole[2].x: "a" is a text: a number in mm belongs here, without quotes and without a unit.`,
	`kilograms.csv, line 2, x: "-124,5 kg" is a mass: expected a length in mm.`,
	`no-column.csv, line 1, state: This column is missing: the columns are ski, x, y, diameter, state, depth.`,
	`no-sole.toml, line 3, earlier[1].sole: This key is missing in the table that begins here: it needs a number in mm.`,
	`no-state.toml, line 3, hole[1].state: This key is missing in the table that begins here: it needs plugged or open.`,
	`no-unit.toml, line 1, unit: This key is missing: it needs "mm".`,
	`odd-column.csv, line 1: "colour" is not a column of old holes: they are ski, x, y, diameter, state, depth.`,
	`odd-key.toml, line 7, hole[1].z: This key is not known here; known are ski, x, y, diameter, depth, state.`,
	`quote.csv, line 2: This is not CSV: a quote is missing or stands where none belongs.`,
	`short-line.csv, line 3: The line has 4 columns: 5 are named. A comma inside of a number needs semicolons between the columns.`,
	`side.csv, line 2, ski: "port" is not known here: left, right or both.`,
	`state.csv, line 2, state: "maybe" is not known here: plugged or open.`,
	`wide.csv, line 3, diameter: The diameter of old hole 1 is 41 mm: 1 mm to 15 mm is possible.`,
	`word-for-number.csv, line 2, x: "front" does not read as a number: type digits with one decimal point or comma, such as 318 or 31.8.`,
}

func TestBadPatterns(t *testing.T) {
	t.Parallel()
	holdsEvery(t, "../../testdata/pattern/bad", badPatterns, func(file string, text []byte) error {
		p, err := pattern.Read(file, text)
		assert.Nil(t, p, file)
		return err
	})
}

func TestBadOldHoles(t *testing.T) {
	t.Parallel()
	holdsEvery(t, "../../testdata/oldholes/bad", badOldHoles, func(file string, text []byte) error {
		old, err := pattern.ReadOld(file, text)
		assert.Equal(t, pattern.Old{}, old, file)
		return err
	})
}

// holdsEvery reads every file of a folder and compares what is said; a file
// without a sentence, or a sentence without a file, fails.
func holdsEvery(t *testing.T, folder string, sentences []string, read func(string, []byte) error) {
	t.Helper()
	want := map[string]string{}
	for _, s := range sentences {
		name, _, _ := strings.Cut(strings.ReplaceAll(s, ",", ":"), ":")
		want[name] = s
	}
	files, err := os.ReadDir(folder)
	require.NoError(t, err)
	require.Len(t, files, len(want))
	for _, file := range files {
		text, err := os.ReadFile(filepath.Join(folder, file.Name()))
		require.NoError(t, err)
		var fault *calc.Fault
		require.ErrorAs(t, read(file.Name(), text), &fault, file.Name())
		assert.Equal(t, want[file.Name()], fault.Sentence)
	}
}
