package section_test

import (
	"math"
	"math/big"
	"strings"
	"testing"

	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// exactly reads what is shown of a length, “12.5 mm” or “3 1/16"”, in its own unit.
func exactly(t *testing.T, text string) *big.Rat {
	t.Helper()
	sum := new(big.Rat)
	for _, part := range strings.Fields(strings.TrimSuffix(strings.TrimSuffix(text, `"`), " mm")) {
		feet, inFeet := strings.CutSuffix(part, "'")
		one, ok := new(big.Rat).SetString(feet)
		if !ok {
			t.Fatalf("%q is no length", text)
		}
		if inFeet {
			one.Mul(one, big.NewRat(12, 1))
		}
		sum.Add(sum, one)
	}
	return sum
}

// Wherever dimensions of one row lie end to end and one of another row measures all of them, what is
// shown of them adds up to what is shown of it, in both systems, in every section of every demo, also one
// that is turned or through two points askew.
func TestDimensionsAddUp(t *testing.T) {
	const meetMM = 1e-6
	chains := 0
	for _, r := range demotest.Shown(t) {
		drawings := []section.Drawing{section.LongOf(r), section.PlanOf(r), section.BedOf(r), section.BoardsOf(r)}
		low, high, _ := r.Layout.Room.Bounds()
		cuts := append(section.CutPlaces(r), section.AcrossSteps(r)...)
		for _, c := range section.CutPlaces(r) {
			cuts = append(cuts, c.Turned(r, r.Layout.TrapCentre, 17), c.Turned(r, r.Layout.Shower.Centroid(), -52))
		}
		cuts = append(cuts, section.Cutting{Of: section.CutPoints, From: low, To: high})
		for _, c := range cuts {
			d, err := section.Through(r, c, buildup.StageTile)
			if err != nil {
				t.Fatalf("%s: %v", r.Settled.Name, err)
			}
			drawings = append(drawings, d)
		}
		for _, d := range drawings {
			for i := range d.Dimensions {
				whole := &d.Dimensions[i]
				parts := endToEnd(d.Dimensions, whole, meetMM)
				if len(parts) < 2 {
					continue
				}
				chains++
				for _, u := range []unit.System{unit.Metric, unit.Imperial} {
					sum := new(big.Rat)
					for _, p := range parts {
						sum.Add(sum, exactly(t, lengthText(p.Text, u)))
					}
					if all := exactly(t, lengthText(whole.Text, u)); all.Cmp(sum) != 0 {
						t.Errorf("%s: %s is shown, the parts make %s: %v", r.Settled.Name, lengthText(whole.Text, u), sum.RatString(), parts)
					}
				}
			}
		}
	}
	if chains < 8 {
		t.Errorf("only %d chains", chains)
	}
}

// endToEnd are dimensions of one row that lie end to end along a dimension of a row further out, from
// its beginning to its end; none where they leave a gap.
func endToEnd(all []section.Dimension, whole *section.Dimension, meetMM float64) (parts []section.Dimension) {
	for row := 1; row < whole.Row; row++ {
		parts = nil
		for at := whole.From; ; {
			next := -1
			for i := range all {
				d := &all[i]
				along := d.To.Sub(d.From).Normalize().Dot(whole.To.Sub(whole.From).Normalize())
				if d.Row == row && d.Side == whole.Side && along > 1-meetMM && d.From.Sub(at).Len() < meetMM && d.To.Sub(d.From).Len() > meetMM {
					next = i
				}
			}
			if next < 0 {
				break
			}
			parts, at = append(parts, all[next]), all[next].To
			if at.Sub(whole.To).Len() < meetMM {
				return parts
			}
		}
	}
	return nil
}

// lengthText is the length in a text, as it is shown.
func lengthText(m message.Message, u unit.System) string {
	for _, a := range m.Args {
		switch v := a.Value.(type) {
		case message.Length:
			if v.Feet {
				return unit.InFeet(v.MM, v.Round, u)
			}
			return unit.Rounded(v.MM, v.Round, u)
		case message.InChain:
			return unit.Chained(v, u)
		}
	}
	return unit.Format(math.NaN(), unit.Length, u)
}

// The layers that a note names along its line are told so that they make what the floor comes to
// there as it is dimensioned beside it: all of its lines are of one chain.
func TestNotesAreChains(t *testing.T) {
	named := 0
	for _, r := range demotest.Shown(t) {
		d := section.Of(r, section.ThroughDrain(r), buildup.StageTile)
		for _, n := range d.Notes {
			for _, place := range n.Places {
				for _, m := range place.Texts {
					if m.ID != "note.layer" {
						continue
					}
					part, ok := m.Args[1].Value.(message.InChain)
					if !ok {
						continue // a wall's layers have no whole that is told
					}
					named++
					all := 0.0
					for i := range part.PartsMM {
						all += part.PartsMM[i]
					}
					p := d.Cut.Space(plan.Point{place.Points[0].X(), 0})
					at := r.Floor.At(plan.Point{p.X(), p.Y()})
					if want := at.TopMM() - at[0].TopMM; math.Abs(all-want) > 1e-6 {
						t.Errorf("%s: %s is of %v in all, the floor there is %v", r.Settled.Name, m, all, want)
					}
				}
			}
		}
	}
	if named < 100 {
		t.Errorf("only %d layers are named", named)
	}
}
