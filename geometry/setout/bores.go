package setout

import (
	"underfall/geometry"
	"underfall/geometry/joist"
	"underfall/geometry/measure"
	"underfall/geometry/rule"
)

// Bore is what is cut out of a joist for the waste, as it is marked on the joist.
type Bore struct {
	Crossing *joist.Crossing
	Offs     []Off   // its middle off two walls: one of them along the joist
	LevelMM  float64 // of its middle
	// UnderTopMM and OverBottomMM are how far its middle lies from the joist's edges.
	UnderTopMM, OverBottomMM float64
	// Breaks are the limits that it does not keep.
	Breaks []rule.Finding
}

// Bores are all cuts of joists for the waste of a result that could be worked out, joist by joist.
func Bores(r *geometry.Result) (out []Bore) {
	if len(r.Problems) > 0 {
		return nil
	}
	for i := range r.Joists {
		c := &r.Joists[i]
		level := c.LevelMM()
		b := Bore{Crossing: c, Offs: offWalls(&r.Layout, c.At), LevelMM: level, UnderTopMM: c.TopMM - level, OverBottomMM: level - c.BottomMM}
		for _, f := range r.Findings {
			if f.Measurement.Subject == measure.CutOf(c) {
				b.Breaks = append(b.Breaks, f)
			}
		}
		out = append(out, b)
	}
	return out
}
