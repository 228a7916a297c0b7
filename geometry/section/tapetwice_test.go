package section_test

import (
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// A basin that ends in the corner is read there as the corner is: its figure stands once, that of the field that is
// asked where one is.
func TestAFigureOfTheTapeStandsOnce(t *testing.T) {
	r := demotest.Shown(t)[6]
	letters := func(lit section.Lit) map[string][]edit.Mark {
		d := section.RoomOf(r, lit)
		const wide, high, scale = 600, 900, 0.25
		sheet := section.Sheet{Width: wide, Height: high, Scale: 1, Measure: func(m message.Message, size float64) float64 { return 40 }}
		seen := section.Seen{Drawing: &d, PixelsPerMM: scale,
			To: func(p plan.Point) placing.Point {
				return placing.Point{wide/4 + p.X()*scale, high/2 + 300 - p.Y()*scale}
			},
			Back: func(p placing.Point) plan.Point {
				return plan.Point{(p[0] - wide/4) / scale, (high/2 + 300 - p[1]) / scale}
			}}
		out := map[string][]edit.Mark{}
		for _, text := range section.Letter(sheet, seen).Texts {
			if text.Mark != nil {
				key := string(rune('A'+text.Mark.Wall)) + text.Message.String()
				out[key] = append(out[key], *text.Mark)
			}
		}
		return out
	}
	marks := 0
	for key, same := range letters(section.Lit{}) {
		marks++
		if len(same) > 1 {
			t.Errorf("%s stands %d times", key, len(same))
		}
	}
	if marks < 6 {
		t.Fatalf("only %d figures", marks)
	}
	d := section.RoomOf(r, section.Lit{})
	twice := 0
	for _, tape := range d.Tapes {
		for i, m := range tape.Marks {
			for _, o := range tape.Marks[i+1:] {
				if o.At.Sub(m.At).Len() > 1e-6 {
					continue
				}
				twice++
				asked := m.Mark
				found := false
				for _, same := range letters(section.Lit{Mark: &asked}) {
					for _, got := range same {
						found = found || got == asked
					}
				}
				if !found {
					t.Errorf("asked, %+v has no figure", asked)
				}
			}
		}
	}
	if twice == 0 {
		t.Error("no two marks lie at one place")
	}
}
