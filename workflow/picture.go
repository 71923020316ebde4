package workflow

// Picture is what may be drawn beside a step, on a screen or on paper, as plain
// values: exactly one of its parts is set. Whoever draws it decides nothing.
type Picture struct {
	Scale  *ScalePicture
	Bands  *BandsPicture
	Window *WindowPicture
}

// ScalePicture is one release scale of the binding, toe or heel, with what the
// chart gives and where the scales of the two skis stand. All values are
// indicator values; those of a ski stand left before right.
type ScalePicture struct {
	Title     string     // "toe", or "toe, left ski" where the skis differ
	Low, High float64    // the ends of the scale, Low < High
	Step      float64    // from mark to mark; 0: not known
	Computed  float64    // the chart's value
	Set       [2]float64 // where the scales stand; 0: not known, or another picture's ski
	Corrected [2]float64 // where a release test sends them; 0: nowhere else
}

// BandsPicture is one direction of the release test: the reference moments
// around the skier's row, and the readings of the two skis, left before right.
// All moments are in Nm.
type BandsPicture struct {
	Title    string       // "twist to the left", or with the ski where the two differ
	Rows     []float64    // rising: up to two rows below the skier's, its own, up to two above
	At       int          // the skier's row among Rows
	Readings [2][]float64 // as read; empty: not read
	Middle   [2]float64   // the middle value; 0: none yet
	Mark     [2]Mark      // kept, caution for what is corrected, stop for the rest; 0: none yet
}

// WindowPicture is the forward-pressure indicator of the two skis, left before
// right, as found and as left.
type WindowPicture struct {
	Title  string
	Found  [2]string // WindowIn, WindowLittle, WindowMuch, or "" while not read
	Left   [2]string
	Advice [2]string // which way to turn, and how far where the card says; "" for nothing
}

// What a forward-pressure indicator reads.
const (
	WindowIn     = "in window"
	WindowLittle = "too little"
	WindowMuch   = "too much"
)
