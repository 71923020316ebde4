package paper

import (
	"image/color"

	"github.com/boombuler/barcode/code128"

	"drillstop/calc"
)

// Sizes of a barcode, in mm. A module of a third of a millimetre is read by any
// scanner of a counter; ten modules of white on either side belong to the code.
// Source: ISO/IEC 15417, quiet zone of 10 modules: from memory.
const (
	narrowestModule = 0.33
	quietModules    = 10
)

// bars returns a text as the modules of a Code 128, true where it is black. It
// fails with the code "barcode" on a text that the code has no signs for.
func bars(text string) ([]bool, error) {
	code, err := code128.Encode(text)
	if err != nil {
		fault := calc.Faultf("barcode", "%q cannot be written as a barcode.", text)
		fault.Cause = err
		return nil, fault
	}
	modules := make([]bool, code.Bounds().Dx())
	for i := range modules {
		modules[i] = color.GrayModel.Convert(code.At(i, 0)) == color.Gray{}
	}
	return modules, nil
}

// barcode draws the modules into a place that is wide enough for them and their
// white; it returns the width of one of them. x and y are its upper left corner.
func (f *flow) barcode(modules []bool, x, y, width, height float64) {
	module := width / float64(len(modules)+2*quietModules)
	f.SetFillColor(0, 0, 0)
	for i := 0; i < len(modules); i++ {
		from := i
		for i < len(modules) && modules[i] {
			i++
		}
		if i > from {
			f.Rect(x+module*float64(quietModules+from), y, module*float64(i-from), height, "F")
		}
	}
}

// barcodeWidth is how wide a barcode must be, with its white, at least.
func barcodeWidth(modules []bool) float64 {
	return narrowestModule * float64(len(modules)+2*quietModules)
}
