package bore

import (
	"drillstop/calc"
	"drillstop/calc/quantity"
)

// What can be at all, in mm. A number beyond it is a slip of the finger.
// Our rule, wide enough for every marking, ski and screw of the trade.
const (
	diameterMin, diameterMax   quantity.Millimetre = 2, 8
	depthMin, depthMax         quantity.Millimetre = 3, 15
	thicknessMin, thicknessMax quantity.Millimetre = 4, 60
	biteMin, biteMax           quantity.Millimetre = 3, 15
)

// Construction is what lies under the topsheet where the screws go.
type Construction string

// The constructions that ask for different holes.
const (
	NoMetal Construction = "wood or foam, no metal"
	Metal   Construction = "metal layer"
	Carbon  Construction = "carbon"
	Junior  Construction = "junior"
)

// Constructions lists every construction, in the order in which a form offers
// them.
func Constructions() []Construction {
	return []Construction{NoMetal, Metal, Carbon, Junior}
}

func unknownConstruction(text string) *calc.Fault {
	fault := calc.Faultf("bore.construction", "%q is not a construction: it is %s, %s, %s or %s.", text, NoMetal, Metal, Carbon, Junior)
	fault.Field = "construction"
	return fault
}

// Hole is a hole for a screw, in mm: the bit's diameter and the depth from the
// topsheet.
type Hole struct {
	Diameter quantity.Millimetre // 2 to 8
	Depth    quantity.Millimetre // 3 to 15
}

// Ski is what the ski itself says about its holes. Thicknesses are in mm, 4 to
// 60, where the piece will stand; 0 = not measured.
type Ski struct {
	Marked        *Hole        // marked on the topsheet, nil if nothing is
	Construction  Construction // may be empty only if the hole is marked
	ThicknessToe  quantity.Millimetre
	ThicknessHeel quantity.Millimetre
}

// Screws are the lengths, in mm, 3 to 15, by which the screws stand out below
// the base plate.
type Screws struct {
	BiteToe, BiteHeel quantity.Millimetre
}

// check refuses what cannot be a ski.
func (s Ski) check() error {
	switch s.Construction {
	case NoMetal, Metal, Carbon, Junior:
	case "":
		if s.Marked == nil {
			return &calc.Fault{Code: "bore.construction", Field: "construction",
				Sentence: "There is no hole marked on the topsheet and no construction: one of the two says which bit to take."}
		}
	default:
		return unknownConstruction(string(s.Construction))
	}
	if s.Marked != nil {
		if err := sane("marked", "Marked hole diameter", s.Marked.Diameter, diameterMin, diameterMax); err != nil {
			return err
		}
		if err := sane("marked", "Marked hole depth", s.Marked.Depth, depthMin, depthMax); err != nil {
			return err
		}
	}
	if s.ThicknessToe != 0 {
		if err := sane("thickness_toe", "Ski thickness at the toe piece", s.ThicknessToe, thicknessMin, thicknessMax); err != nil {
			return err
		}
	}
	if s.ThicknessHeel != 0 {
		return sane("thickness_heel", "Ski thickness at the heel piece", s.ThicknessHeel, thicknessMin, thicknessMax)
	}
	return nil
}

// check refuses what cannot be a binding screw.
func (s Screws) check() error {
	if err := sane("bite_toe", "Screw length below the toe piece", s.BiteToe, biteMin, biteMax); err != nil {
		return err
	}
	return sane("bite_heel", "Screw length below the heel piece", s.BiteHeel, biteMin, biteMax)
}

// sane returns a Fault unless the value is a number from low to high.
func sane(field, what string, value, low, high quantity.Millimetre) error {
	if within(value, low, high) {
		return nil
	}
	fault := calc.Faultf("bore.unusable", "%s %s cannot be: it lies between %s and %s, measure again.", what, value, low, high)
	fault.Field = field
	return fault
}
