package paper

import (
	"encoding/json"

	"drillstop/workflow"
)

// pictureRecord is a picture for programs; the names are a contract. Values of
// the two skis stand left before right, 0 where there is none.
type pictureRecord struct {
	Step  workflow.StepID `json:"step"`
	Kind  string          `json:"kind"` // scale, bands, window
	Title string          `json:"title"`

	Low       *float64    `json:"low,omitempty"` // scale
	High      *float64    `json:"high,omitempty"`
	Mark      *float64    `json:"from_mark_to_mark,omitempty"`
	Computed  *float64    `json:"computed,omitempty"`
	Set       *[2]float64 `json:"set,omitempty"`
	Corrected *[2]float64 `json:"corrected,omitempty"`

	Rows      []float64     `json:"rows_nm,omitempty"` // bands
	Reference *float64      `json:"reference_nm,omitempty"`
	Readings  *[2][]float64 `json:"readings_nm,omitempty"`
	Middle    *[2]float64   `json:"middle_nm,omitempty"`
	Stands    *[2]string    `json:"stands,omitempty"` // the mark as a word

	Found  *[2]string `json:"found,omitempty"` // window
	Left   *[2]string `json:"as_left,omitempty"`
	Advice *[2]string `json:"advice,omitempty"`
}

// MarshalJSON writes the picture's values, without the parts of other kinds.
func (p StepPicture) MarshalJSON() ([]byte, error) {
	r := pictureRecord{Step: p.Step}
	switch {
	case p.Picture.Scale != nil:
		s := p.Picture.Scale
		r.Kind, r.Title = "scale", s.Title
		r.Low, r.High, r.Mark, r.Computed, r.Set, r.Corrected = &s.Low, &s.High, &s.Step, &s.Computed, &s.Set, &s.Corrected
	case p.Picture.Bands != nil:
		b := p.Picture.Bands
		r.Kind, r.Title = "bands", b.Title
		r.Rows, r.Readings, r.Middle, r.Stands = b.Rows, &b.Readings, &b.Middle, &[2]string{}
		if b.At >= 0 && b.At < len(b.Rows) {
			r.Reference = &b.Rows[b.At]
		}
		for i, mark := range b.Mark {
			if mark != 0 {
				r.Stands[i] = mark.Word()
			}
		}
	case p.Picture.Window != nil:
		w := p.Picture.Window
		r.Kind, r.Title, r.Found, r.Left, r.Advice = "window", w.Title, &w.Found, &w.Left, &w.Advice
	}
	return json.Marshal(r)
}
